--- The owner's plan: what is there, what to do and when, what it takes, what to heed.
local M = {}
local dates = need "dates"
local page = need "page"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"

local function capital(text) return (text:gsub("^%l", string.upper)) end

--- Text that ends as a sentence does.
local function sentence(text)
    return capital(text:match("[%.%?!]$") and text or text .. ".")
end

local LEVEL_TITLES = { stop = "Stop: do not do this as planned", caution = "Cautions", note = "Notes" }

--- "Bench aspen: cut trees flush, rest openings (here about 128 ft)"
local function where(finding)
    local words = finding.stand and finding.stand.name or ""
    local titles, seen = {}, {}
    local acts = { finding.act }
    for _, act in ipairs(finding.more or {}) do acts[#acts + 1] = act end
    for _, act in ipairs(acts) do
        local title = act.title:gsub("^%u", string.lower)
        if not seen[title] then
            seen[title] = true
            titles[#titles + 1] = title
        end
    end
    if #titles > 3 then titles = { titles[1], titles[2], ("%d more"):format(#titles - 2) } end
    if #titles > 0 then
        words = (words == "" and "" or words .. ": ") .. table.concat(titles, ", ")
    end
    if finding.detail then
        words = words == "" and finding.detail or ("%s (%s)"):format(words, finding.detail)
    end
    return words
end

--- One note for each rule, with all the places it speaks of.
local function findings(d, level)
    local groups, order = {}, {}
    for _, finding in ipairs(run.findings) do
        if finding.level == level then
            local key = finding.rule .. "\0" .. finding.message
            if not groups[key] then
                groups[key] = { finding = finding, places = {} }
                order[#order + 1] = groups[key]
            end
            local at = where(finding)
            -- What names its stand itself needs no place behind it.
            local named = not finding.act and finding.message:find(at, 1, true)
            local places = groups[key].places
            -- Years of one act are told once.
            if at ~= "" and not named and places[#places] ~= at then places[#places + 1] = at end
        end
    end
    if #order > 0 then d:heading(2, LEVEL_TITLES[level]) end
    for _, group in ipairs(order) do
        local finding = group.finding
        local note = { level = level, capital(finding.message), ". ", ask = finding.ask,
            source = finding.source }
        if #group.places > 0 then
            note[3] = { strong = " " .. capital(table.concat(group.places, "; ")) .. "." }
            note[2] = "."
        end
        d:note(note)
    end
end

--- "Dec 7 2026 to Dec 14 2026, then Aug 1 2027": a long pause is told.
local function dates_of(act)
    local stretches = act.stretches or {}
    if #stretches == 0 then stretches = { { from = act.start, to = act.finish } } end
    local line = {}
    for i, stretch in ipairs(stretches) do
        if i > 1 then line[#line + 1] = ", then " end
        line[#line + 1] = stretch.from
        if stretch.to ~= stretch.from then
            line[#line + 1] = " to "
            line[#line + 1] = stretch.to
        end
    end
    return line
end

local function act_lines(d, act)
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
        for _, part in ipairs(dates_of(act)) do line[#line + 1] = part end
        if act.crew then line[#line + 1] = ", " .. act.crew.name end
    end
    d:item(line)
    if act.copy_of and not act.was and act.state ~= "done" then return end -- told with the first
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
    if act.condition then
        d:definition("Only when", { act.condition, act.state == "placed" and act.usable and act.usable < 1 and
            (" (about %d of 100 open days are fit)"):format(math.floor(act.usable * 100 + 0.5)) or "" })
    end
    if act.was_says then d:definition("Done", { act.was_says }) end
    if act.values.says then d:definition("Note", { act.values.says }) end
    if act.taken then need("report/residual").write(d, act) end
    if act.kind == "sale" then need("report/sale").write(d, act) end
end

--- Cautions of these acts, a sentence each; those told before are only counted.
local function hazards_of(acts, told)
    local list, again = {}, false
    for _, act in ipairs(acts) do
        for _, source in ipairs({ act.declared.hazards or {}, act.hazards or {}, act.values.hazards or {} }) do
            for _, words in ipairs(source) do
                again = again or told[words] == "before"
                if not told[words] then
                    told[words] = "now"
                    list[#list + 1] = words
                end
            end
        end
    end
    for words in pairs(told) do told[words] = "before" end
    return list, again
end

local function what_to_do(d)
    local outlook = need "report/outlook"
    d:heading(2, "What to do")
    local groups, order, told = {}, {}, {}
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
        if ground ~= run.property then
            outlook.write(d, ground)
            outlook.planted(d, ground)
        end
        for _, act in ipairs(groups[ground]) do act_lines(d, act) end
        local hazards, again = hazards_of(groups[ground], told)
        if again then table.insert(hazards, 1, "What is said above of these jobs holds here too.") end
        if #hazards > 0 then
            d:paragraph { { strong = "Take care. " }, table.concat(hazards, " ") }
        end
    end
end

--- A label short enough to stand beside a year: the stand and what the act is called.
local function strip_words(act)
    local words = act.name or act.kind
    return act.stand and ("%s: %s"):format(act.stand.name, words) or words
end

--- "By Dec 1 2026: "; where it would run out if it were filed sooner, the days between which it is filed.
local function filing_days(notice)
    local again = notice.again and ", again" or ""
    local from, by = notice.from, tostring(notice.by)
    if not from or from <= plan.starts() then return ("By %s%s: "):format(by, again) end
    if from == notice.by then return ("On %s%s: "):format(by, again) end
    return ("From %s to %s%s: "):format(tostring(from), by, again)
end

local function notices(d)
    local timetable = need "report/timetable"
    local filings, filed = timetable.filings(), need("past").filings()
    if #filings == 0 and #filed == 0 then return end
    d:heading(2, "Whom to tell first")
    for _, entry in ipairs(filed) do
        local name = entry.values.notice
        d:item { { strong = ("Filed %s: "):format(tostring(entry.values.on)) }, ("%s to %s%s."):format(name,
            run.notices:get(name).to, entry.record and ", for " .. dates.job_words(entry.record) or "") }
    end
    local told = {} -- what a notice says stands beside its first filing
    for _, filing in ipairs(filings) do
        local notice, more = filing.notice, filing.more
        local line = { { strong = filing_days(notice) }, ("%s to %s, for %s."):format(notice.name, notice.to,
            timetable.acts_words(filing.acts)) }
        if not told[more] then
            line[3] = more.says and " " .. sentence(more.says) or ""
            line[4] = more.source and (" (%s)"):format(more.source) or ""
        end
        told[more] = true
        d:item(line)
    end
end

--- What the schedule is after (work/schedule.h), for the reader of the papers.
local WANTED_WORDS = "How the weeks were chosen: all limits are kept; then as few jobs as can be are left out, and as few "
    .. "stop half-way until another season; then those marked first are done soonest; then crews cost least, and no job "
    .. "waits for a later season than it must; then the weeks are evenly full."
local FLOAT_WORDS = "Float: so much later a job may start, in hours that its crew has left, and neither it nor what waits for it "
    .. "leaves its season; all else stays where it is."

--- What the chances are of.
local function chance_words(sure)
    if sure == "drawn" then
        return ("Chance: that the job is done in the season it is planned for, %s."):format(dates.chance_by_words())
    end
    return ("No job comes into a later season even when all of them take long%s: each keeps its own with a chance of over 90 in 100.")
        :format(dates.waits_for_ground() and " and the ground is seldom fit" or "")
end

--- ". Done in its place: Alder run: brush piles, Nov 1 2026 to Nov 9 2026"
local function stand_in_words(act)
    local other = act.values.otherwise
    if not other or other.fallback_of ~= act or other.state ~= "placed" then return "" end
    local words = { (". Done in its place: %s, "):format(dates.job_words(other)) }
    for _, part in ipairs(dates_of(other)) do words[#words + 1] = tostring(part) end
    return table.concat(words)
end

local function calendar_pages(d)
    d:heading(2, "When")
    local placed = need("report/timetable").placed()
    local finish = dates.finish_words()
    if #finish > 0 then d:paragraph { table.concat(finish, " ") } end
    local sure = dates.how_sure()
    local rows, strip = {}, {}
    for i, act in ipairs(placed) do
        local hours = act.figures.hours
        rows[i] = { dates_of(act), dates.job_words(act), act.crew and act.crew.name or "",
            hours and { value = hours.value } or "", dates.float_words(act) }
        if sure == "drawn" then table.insert(rows[i], dates.chance_short(act)) end
        local row = { label = strip_words(act) }
        for n, stretch in ipairs(act.stretches or {}) do row[n] = { from = stretch.from, to = stretch.to } end
        if #row == 0 then row.from, row.to = act.start, act.finish end
        strip[i] = row
    end
    local columns = { { "when", wrap = true }, { "what", wrap = true }, { "who", wrap = true },
        { "hours", align = "number" }, { "float", align = "right" } }
    if sure == "drawn" then columns[6] = { "in 100", align = "right" } end
    if #rows > 0 then
        d:table { columns = columns, rows = rows }
    else
        d:paragraph { "Nothing could be placed." }
    end
    if #rows > 0 then d:paragraph { FLOAT_WORDS, sure and " " .. chance_words(sure) or "" } end
    if #strip > 0 then d:strip { rows = strip } end
    if #rows > 1 then d:paragraph { WANTED_WORDS } end
    local unplaced = {}
    for _, act in ipairs(run.acts) do
        if act.state == "unplaced" then unplaced[#unplaced + 1] = act end
    end
    if #unplaced > 0 then
        d:heading(2, "What could not be placed")
        for _, act in ipairs(unplaced) do
            d:item { { strong = dates.job_words(act) .. " (" .. act.id .. "): " }, dates.reason_words(act),
                stand_in_words(act) }
        end
    end
end

local function materials(d)
    local rows = {}
    for _, row in ipairs(need("materials").rows()) do
        if run.totals[row.key] and not row.inner then rows[#rows + 1] = { capital(row.words), run.totals[row.key] } end
    end
    if #rows == 0 then return end
    d:heading(2, "What it takes")
    for _, row in ipairs(rows) do d:definition(row[1], { row[2] }) end
end

local HINGES_ASKED, HINGES_TOLD = 8, 3

local function hinges(d)
    if not run.totals.hours then return end
    local rows, of_name = {}, {}
    for _, row in ipairs(quantity.hangs_on(run.totals.hours, HINGES_ASKED)) do
        local first = of_name[row.name] -- what reads alike on paper is one
        if first then
            first.share = first.share + row.share
        else
            rows[#rows + 1], of_name[row.name] = row, row
            row.order = #rows
        end
    end
    if #rows == 0 then return end
    table.sort(rows, function(a, b)
        if a.share ~= b.share then return a.share > b.share end
        return a.order < b.order
    end)
    local parts = {}
    for i = 1, math.min(#rows, HINGES_TOLD) do
        parts[i] = ("%s (%d in 100)"):format(rows[i].name, math.floor(rows[i].share * 100 + 0.5))
    end
    d:paragraph { "The hours hang most on ", table.concat(parts, ", "), "." }
end

--- The document.
function M.document()
    local d = page.doc()
    need("report/head").write(d)
    findings(d, "stop")
    need("report/stands").write(d, run.stands, sentence)
    what_to_do(d)
    if run.property.values.map then need("report/ground").write(d) end
    if run.looked_at then need("report/ways_out").write(d) end
    calendar_pages(d)
    if #run.waiting > 0 then need("report/may_come").write(d) end
    notices(d)
    materials(d)
    if run.totals.cost or run.totals.stumpage or run.totals.cost_share then need("report/costs").write(d) end
    hinges(d)
    findings(d, "caution")
    findings(d, "note")
    d:rule()
    d:paragraph { "Likely values, and in brackets the range: nine chances in ten above the low, nine in ten below the high. "
        .. "Ask `spinney why` where any of them comes from. Rules are told as published, not as law: "
        .. "check them locally before work starts. Volumes are estimates, not offers." }
    return d
end

return M
