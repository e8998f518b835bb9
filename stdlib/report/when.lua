--- When, in the owner's plan: the table and the strip of the weeks, what could not be placed, and
--- whom to tell first.
local M = {}
local dates = need "dates"
local phrases = need "phrases"
local plan = need "plan"
local run = need "run"
local timetable = need "report/timetable"

--- A label short enough to stand beside a year: the stand and what the act is called.
local function strip_words(act)
    local words = act.name or act.kind
    return act.stand and ("%s: %s"):format(act.stand.name, words) or words
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
    for _, part in ipairs(timetable.days(other)) do words[#words + 1] = tostring(part) end
    return table.concat(words)
end

--- The jobs that have days, a row each, and what the columns mean.
local function put_table(d, placed)
    local sure = dates.how_sure()
    local columns = { { "when", wrap = true }, { "what", wrap = true }, { "who", wrap = true },
        { "hours", align = "number" }, { "float", align = "right" } }
    if sure == "drawn" then columns[6] = { "in 100", align = "right" } end
    local rows = {}
    for i, act in ipairs(placed) do
        local hours = act.figures.hours
        rows[i] = { timetable.days(act), dates.job_words(act), act.crew and act.crew.name or "",
            hours and { value = hours.value } or "", dates.float_words(act) }
        if sure == "drawn" then table.insert(rows[i], dates.chance_short(act)) end
    end
    d:table { columns = columns, rows = rows }
    d:paragraph { FLOAT_WORDS, sure and " " .. chance_words(sure) or "" }
end

--- A line of the year for each.
local function put_strip(d, placed)
    local rows = {}
    for i, act in ipairs(placed) do
        local row = { label = strip_words(act) }
        for n, stretch in ipairs(timetable.stretches(act)) do row[n] = { from = stretch.from, to = stretch.to } end
        rows[i] = row
    end
    d:strip { rows = rows }
end

local function put_unplaced(d)
    local unplaced = dates.unplaced()
    if #unplaced == 0 then return end
    d:heading(2, "What could not be placed")
    for _, act in ipairs(unplaced) do
        d:item { { strong = dates.job_words(act) .. " (" .. act.id .. "): " }, dates.reason_words(act), stand_in_words(act) }
    end
end

--- The weeks, and what fits into none.
function M.write(d)
    d:heading(2, "When")
    local placed, finish = timetable.placed(), dates.finish_words()
    if #finish > 0 then d:paragraph { table.concat(finish, " ") } end
    if #placed > 0 then
        put_table(d, placed)
        put_strip(d, placed)
    else
        d:paragraph { "Nothing could be placed." }
    end
    if #placed > 1 then d:paragraph { WANTED_WORDS } end
    put_unplaced(d)
end

--- "By Dec 1 2026: "; where it would run out if it were filed sooner, the days between which it is filed.
local function filing_days(notice)
    local again = notice.again and ", again" or ""
    local from, by = notice.from, tostring(notice.by)
    if not from or from <= plan.starts() then return ("By %s%s: "):format(by, again) end
    if from == notice.by then return ("On %s%s: "):format(by, again) end
    return ("From %s to %s%s: "):format(tostring(from), by, again)
end

--- What is to be filed, and what was.
function M.filings(d)
    local filings, filed = timetable.filings(), need("past").filings()
    if #filings == 0 and #filed == 0 then return end
    d:heading(2, "Whom to tell first")
    for _, entry in ipairs(filed) do
        local notice = run.notices:get(entry.values.notice)
        d:item { { strong = ("Filed %s: "):format(tostring(entry.values.on)) }, ("%s%s."):format(timetable.filing_words(notice),
            entry.record and ", for " .. dates.job_words(entry.record) or "") }
    end
    local told = {} -- what a notice says stands beside its first filing
    for _, filing in ipairs(filings) do
        local notice, more = filing.notice, filing.more
        local line = { { strong = filing_days(notice) }, ("%s, for %s."):format(timetable.filing_words(notice),
            timetable.acts_words(filing.acts)) }
        if not told[more] then
            line[3] = more.says and " " .. phrases.sentence(more.says) or ""
            line[4] = more.source and (" (%s)"):format(more.source) or ""
        end
        told[more] = true
        d:item(line)
    end
end

return M
