--- The schedule for spreadsheets: the acts with their dates, and the hours week by week.
local M = {}
local dates = need "dates"
local page = need "page"
local phrases = need "phrases"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"
local timetable = need "report/timetable"

local function iso(date) return date and ("%04d-%02d-%02d"):format(date.year, date.month, date.day) or false end

--- Low, likely and high of a figure in that unit, or three empty cells.
local function figure_cells(row, act, key, unit, share)
    local figure = act.figures[key]
    local likely = figure and quantity.number(figure.value, unit)
    local low, high
    if figure then low, high = quantity.ends(figure.value, unit) end
    for _, number in ipairs { low or false, likely or false, high or false } do
        row[#row + 1] = number and { number * share, 2 } or false
    end
end

local function notices_words(act)
    local words = {}
    for i, notice in ipairs(act.file_by or {}) do
        words[i] = ("%s by %s%s"):format(timetable.filing_words(notice), iso(notice.by), notice.again and " again" or "")
    end
    return table.concat(words, "; ")
end

local function put_row(rows, act, stretch, number, of)
    local risk = act.state == "placed" and act.risk or {}
    local row = { act.id, phrases.capital(dates.job_words(act)), act.kind, act.stand and act.stand.name or false,
        act.crew and act.crew.name or false, act.state, of > 0 and { number, 0 } or false, of > 0 and { of, 0 } or false,
        iso(stretch.from), iso(stretch.to) }
    figure_cells(row, act, "hours", "h", stretch.share)
    figure_cells(row, act, "cost", "USD", stretch.share)
    row[#row + 1] = notices_words(act)
    row[#row + 1] = risk.float_weeks and risk.float_weeks >= 0 and { risk.float_weeks, 0 } or false
    row[#row + 1] = risk.chance and { risk.chance, 2 } or false
    row[#row + 1] = risk.chance and (risk.or_more and "yes" or "no") or false
    row[#row + 1] = act.reason or false
    rows[#rows + 1] = row
end

--- A row for each stretch of each act, earliest act first; then the acts without dates.
function M.acts_csv()
    local rows = { { "id", "act", "kind", "stand", "crew", "state", "stretch", "stretches", "start", "finish", "hours_low",
        "hours_likely", "hours_high", "cost_low", "cost_likely", "cost_high", "notices", "float_weeks", "chance",
        "chance_or_more", "reason" } }
    local told = {}
    for _, act in ipairs(timetable.placed()) do
        told[act] = true
        local stretches = timetable.stretches(act)
        for i, stretch in ipairs(stretches) do put_row(rows, act, stretch, i, #stretches) end
    end
    for _, act in ipairs(run.acts) do
        if not told[act] and not act.declared.before_others then put_row(rows, act, { share = 1 }, 0, 0) end
    end
    return page.csv(rows)
end

--- Weeks with work of a crew, in order: { monday, crew, act, hours, there }; of a week by crew, as crews are
--- described, then as acts begin.
function M.weeks()
    local list, place = {}, {}
    for i, act in ipairs(timetable.placed()) do
        place[act] = i
        for _, week in ipairs(act.crew and plan.weeks(act.index) or {}) do
            if week.hours > 0 then
                list[#list + 1] = { monday = week.monday, crew = act.crew, act = act, hours = week.hours, there = week.there }
            end
        end
    end
    table.sort(list, function(a, b)
        if a.monday ~= b.monday then return a.monday < b.monday end
        if a.crew ~= b.crew then return a.crew.index < b.crew.index end
        return place[a.act] < place[b.act]
    end)
    return list
end

--- A row for each week, crew and act.
function M.weeks_csv()
    local rows = { { "week", "crew", "act", "hours", "crew_hours" } }
    for i, week in ipairs(M.weeks()) do
        rows[i + 1] = { iso(week.monday), week.crew.name, week.act.id, { week.hours, 2 }, { week.there, 2 } }
    end
    return page.csv(rows)
end

return M
