--- What to do, in the owner's plan: stand by stand, each job with its days, what it takes and
--- what to take care of.
local M = {}
local acts = need "acts"
local dates = need "dates"
local phrases = need "phrases"
local run = need "run"
local timetable = need "report/timetable"

local capital, sentence = phrases.capital, phrases.sentence

--- An act: its line, and what it takes.
-- @param told acts whose figures stand further up, by the first of several entries or years
local function act_lines(d, act, told)
    local line = { { strong = capital(act.title) } }
    local which = {}
    if act.entries and act.entries > 1 then which[1] = ("entry %d of %d"):format(act.entry, act.entries) end
    if act.year and act.values.in_year and #act.values.in_year > 1 then which[#which + 1] = ("year %d"):format(act.year) end
    if #which > 0 then line[#line + 1] = (" (%s)"):format(table.concat(which, ", ")) end
    if act.state == "done" then
        line[#line + 1] = ": " -- that it is done stands in its title
        line[#line + 1] = act.finish
    elseif act.state == "not needed" then
        local other = act.fallback_of
        line[#line + 1] = other and (": only if this cannot be done: %s"):format(dates.job_words(other))
            or ": " .. dates.reason_words(act)
    elseif act.state == "unplaced" then
        line[#line + 1] = ": could not be placed"
    elseif act.start and not act.declared.before_others then
        line[#line + 1] = ": "
        for _, part in ipairs(timetable.days(act)) do line[#line + 1] = part end
        if act.crew then line[#line + 1] = ", " .. act.crew.name end
    end
    d:item(line)
    -- Entries and years alike are told once; what is done, and the rest of what is done in part, has its own figures.
    if not act.was and not act.fraction then
        local first = act.copy_of or act
        if told[first] then return end
        told[first] = true
    end
    local figures = {}
    for _, key in ipairs(act.figure_names) do
        local figure = act.figures[key]
        if not figure.inner then
            figures[#figures + 1] = { capital(figure.words), figure.value }
        end
    end
    for _, pair in ipairs(figures) do d:definition(pair[1], { pair[2] }) end
    if act.fallback_of and act.state == "placed" then
        d:definition("In place of", { dates.job_words(act.fallback_of), ", which could not be placed" })
    end
    for _, words in ipairs(act.notes) do d:definition("How", { words }) end
    if act.condition then d:definition("Only when", { act.condition, dates.fit_words(act) }) end
    if act.was_says then d:definition("Done", { act.was_says }) end
    if act.values.says then d:definition("Note", { act.values.says }) end
    if act.taken then need("report/residual").write(d, act) end
    if act.kind == "sale" then need("report/sale").write(d, act) end
end

--- Cautions of these acts, a sentence each; those told before are only counted.
local function hazards_of(of, told)
    local list, again = {}, false
    for _, act in ipairs(of) do
        for _, words in ipairs(acts.hazards(act)) do
            again = again or told[words] == "before"
            if not told[words] then
                told[words] = "now"
                list[#list + 1] = words
            end
        end
    end
    for words in pairs(told) do told[words] = "before" end
    return list, again
end

--- The prescriptions that are applied to a stand, and what they let expect.
local function put_applications(d, ground)
    local outlook = need "report/outlook"
    for _, application in ipairs(run.applied) do
        if application.stand == ground then
            local entry = application.prescription
            d:paragraph { { strong = sentence(entry.title) }, entry.says and " " .. sentence(entry.says) or "" }
            local first = entry.expect and need("patches").first_season_of(application.acts)
            for _, row in ipairs(entry.expect or {}) do
                d:definition(outlook.year_words(row[1], first), { row[2] })
            end
        end
    end
end

--- Of all acts, in the order of the plan.
function M.write(d)
    local outlook = need "report/outlook"
    d:heading(2, "What to do")
    local groups, order, told, figured = {}, {}, {}, {}
    for _, act in ipairs(run.acts) do
        local ground = act.stand or run.property
        if not groups[ground] then
            groups[ground] = {}
            order[#order + 1] = ground
        end
        table.insert(groups[ground], act)
    end
    for _, ground in ipairs(order) do
        d:heading(3, ground == run.property and "The whole property" or ground.name)
        put_applications(d, ground)
        if ground ~= run.property then
            outlook.write(d, ground)
            outlook.planted(d, ground)
        end
        for _, act in ipairs(groups[ground]) do act_lines(d, act, figured) end
        local hazards, again = hazards_of(groups[ground], told)
        if again then table.insert(hazards, 1, "What is said above of these jobs holds here too.") end
        if #hazards > 0 then
            d:paragraph { { strong = "Take care. " }, table.concat(hazards, " ") }
        end
    end
end

return M
