--- The dates of the plan as a calendar: an event for each stretch of an act, for each visit, and for the last day
--- to file each notice.
local M = {}
local acts = need "acts"
local dates = need "dates"
local page = need "page"
local phrases = need "phrases"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"
local timetable = need "report/timetable"

--- Days ahead that an alarm rings, before work and before the last day to file; common practice, no source.
local ALARM_DAYS = 7

local capital, ended, sentence = phrases.capital, phrases.ended, phrases.sentence
local function days(span) return quantity.number(span, "d") end

--- So many days before, but not before that date.
local function alarm(date, first)
    return { math.max(0, math.min(ALARM_DAYS, math.floor(days(date - first)))) }
end

local function year_words(act)
    local words = ("year %d"):format(act.year)
    return act.entries > 1 and ("%s of entry %d"):format(words, act.entry) or words
end

--- What an event is, whenever it is: the property, the act (of several years the first, and the year), and more.
local function key(act, ...)
    local of_year = act.year and not act.part_done
    return { run.property.name, run.property.values.county or "",
        of_year and act.copy_of and act.copy_of.id or act.id, of_year and year_words(act) or "", ... }
end

local function place_words(act)
    return act.stand and ("%s, %s"):format(act.stand.name, run.property.name) or run.property.name
end

local function work_words(act, stretch)
    local hours = act.figures.hours
    if not hours then return act.crew and sentence("by " .. act.crew.name) or nil end
    local words = quantity.figure(hours.value)
    if stretch.share < 1 then
        words = ("about %s h in these days, of %s"):format(
            page.fixed(quantity.number(hours.value, "h") * stretch.share, 0), words)
    end
    if act.crew then words = ("%s, %s"):format(words, act.crew.name) end
    return ("Work: %s."):format(words)
end

local function season_words(act)
    local float, chance = dates.float_words(act), dates.chance_words(act)
    local words = {}
    if act.state ~= "placed" then return nil end
    if chance ~= "" then words[1] = ("The chance that it is done in its season: %s."):format(chance) end
    if float ~= "" then words[#words + 1] = ("Float: %s."):format(float) end
    return #words > 0 and table.concat(words, " ") or nil
end

--- Stops and cautions that speak of the act.
local function findings_of(act)
    local list = {}
    for _, finding in ipairs(run.findings) do
        local here = finding.act == act
        for _, other in ipairs(finding.more or {}) do here = here or other == act end
        if here and finding.level ~= "note" then
            list[#list + 1] = ("%s: %s"):format(capital(finding.level), sentence(finding.message))
        end
    end
    return list
end

local function hazards_of(act)
    local list = acts.hazards(act)
    return #list > 0 and "Take care. " .. table.concat(list, " ") or nil
end

local function condition_words(act)
    if not act.condition then return nil end
    return ("Only when %s%s."):format(act.condition, dates.fit_words(act))
end

local function description(act, stretch, of)
    local list = {}
    local function put(words) if words then list[#list + 1] = words end end
    put(work_words(act, stretch))
    put(condition_words(act))
    for _, words in ipairs(act.notes) do put(sentence(words)) end
    if act.values.says then put(ended(act.values.says)) end
    if act.was_says then put(("Done: %s"):format(ended(act.was_says))) end
    for _, notice in ipairs(act.state == "placed" and act.file_by or {}) do
        put(("To be filed by %s: %s."):format(tostring(notice.by), timetable.filing_words(notice)))
    end
    if act.values.by and act.state == "placed" then put(("To be done by %s."):format(tostring(act.values.by))) end
    put(season_words(act))
    for _, words in ipairs(act.state == "placed" and findings_of(act) or {}) do put(words) end
    put(act.state == "placed" and hazards_of(act) or nil)
    put(("Act %s%s."):format(act.id, of > 1 and (", stretch %d of %d"):format(stretch.number, of) or ""))
    return table.concat(list, "\n")
end

local function add_act(list, act)
    local stretches = timetable.stretches(act)
    for i, stretch in ipairs(stretches) do
        stretch.number = i
        local words = dates.job_words(act)
        list[#list + 1] = { key = key(act, tostring(i)), from = stretch.from, to = stretch.to,
            summary = #stretches > 1 and ("%s, stretch %d of %d"):format(words, i, #stretches) or words,
            description = description(act, stretch, #stretches), location = place_words(act),
            categories = { act.state == "done" and "done" or act.kind == "visit" and "visit" or "work", act.kind },
            alarms = act.state == "placed" and alarm(stretch.from, plan.starts()) or nil }
        if act.kind == "visit" then list[#list].categories[2] = nil end
    end
end

local function add_filing(list, filing)
    local notice, more = filing.notice, filing.more
    local first = notice.from and notice.from > plan.starts() and notice.from or plan.starts()
    local lines = { ("Last day to file: %s, for %s."):format(timetable.filing_words(notice),
        timetable.acts_words(filing.acts)) }
    if notice.from and notice.from > plan.starts() then
        lines[#lines + 1] = ("Not before %s: it would no longer hold."):format(tostring(notice.from))
    end
    if more.says then lines[#lines + 1] = sentence(more.says) end
    if more.ask then lines[#lines + 1] = ("Ask %s."):format(more.ask) end
    if more.source then lines[#lines + 1] = ("Source: %s."):format(more.source) end
    list[#list + 1] = { key = key(filing.acts[1], "filing", notice.name, notice.to, tostring(filing.number)),
        from = notice.by, to = notice.by,
        summary = ("To file%s: %s"):format(notice.again and " again" or "", timetable.filing_words(notice)),
        description = table.concat(lines, "\n"),
        location = run.property.name, categories = { "filing" },
        alarms = alarm(notice.by, first) }
end

--- The calendar as a text, nil without a date.
function M.text()
    local list = {}
    for _, act in ipairs(timetable.placed()) do add_act(list, act) end
    local counts = {}
    for _, filing in ipairs(timetable.filings()) do
        -- Of one notice for one act: the first, and those when it has expired.
        local first = ("%s\0%s\0%s"):format(filing.acts[1].id, filing.notice.name, filing.notice.to)
        counts[first] = (counts[first] or 0) + 1
        filing.number = counts[first]
        add_filing(list, filing)
    end
    return page.ical(run.property.values.walked or plan.starts(), list)
end

return M
