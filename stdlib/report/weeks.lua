--- The crews' sheet: week by week, what is to be done, by whom, and in how many hours of those there are.
local M = {}
local calendar = need "calendar"
local dates = need "dates"
local page = need "page"
local phrases = need "phrases"
local quantity = need "quantity"
local run = need "run"
local schedule_files = need "report/schedule_files"
local timetable = need "report/timetable"

local function hours_words(hours) return page.fixed(hours, 1) end
local function monday_of(date) return calendar.add_days(date, 1 - date.weekday) end

--- Has it days only, no hours of a crew: a visit, a logger's work, an order?
local function by_the_day(act) return act.state == "placed" and not (act.crew and act.figures.hours) end

--- "Nov 2": the year stands above.
local function day_words(date) return (tostring(date):gsub(" %d+$", "")) end

--- What goes by days, in each week that it touches; and the last days to file.
local function put_days(weeks)
    local function put(date, words, crew)
        local monday = monday_of(date)
        local key = tostring(monday)
        weeks[key] = weeks[key] or { monday = monday, rows = {}, days = {} }
        table.insert(weeks[key].days, { date = date, words = words, crew = crew })
    end
    local function put_stretch(act, from, to)
        local words = dates.job_words(act)
        if from ~= to then words = ("%s, until %s"):format(words, day_words(to)) end
        put(from, ("%s: %s"):format(day_words(from), words), act.crew)
        local monday = calendar.add_days(monday_of(from), 7)
        while monday <= to do
            put(monday, words, act.crew)
            monday = calendar.add_days(monday, 7)
        end
    end
    for _, filing in ipairs(timetable.filings()) do
        put(filing.notice.by, ("%s: last day to file%s: %s, for %s"):format(day_words(filing.notice.by),
            filing.notice.again and " again" or "", timetable.filing_words(filing.notice),
            timetable.acts_words(filing.acts)))
    end
    for _, act in ipairs(timetable.placed()) do
        if by_the_day(act) then
            for _, stretch in ipairs(timetable.stretches(act)) do put_stretch(act, stretch.from, stretch.to) end
        end
    end
end

--- Weeks in which something is to be done, in order: { monday, rows, days }.
local function weeks_of()
    local weeks, list = {}, {}
    for _, row in ipairs(schedule_files.weeks()) do
        local key = tostring(row.monday)
        weeks[key] = weeks[key] or { monday = row.monday, rows = {}, days = {} }
        table.insert(weeks[key].rows, row)
    end
    put_days(weeks)
    for _, week in pairs(weeks) do list[#list + 1] = week end
    table.sort(list, function(a, b) return a.monday < b.monday end)
    for _, week in ipairs(list) do
        need("sorted").least_first(week.days, function(day) return day.date end)
    end
    return list
end

--- The rows of one week: each crew's acts, its hours beside the first of them.
local function put_week(rows, week)
    local used, seen = {}, {}
    local first = day_words(week.monday)
    for _, row in ipairs(week.rows) do used[row.crew] = (used[row.crew] or 0) + row.hours end
    for _, row in ipairs(week.rows) do
        local whole = seen[row.crew] and "" or
            ("%s of %s"):format(hours_words(used[row.crew]), hours_words(row.there))
        seen[row.crew] = true
        rows[#rows + 1] = { first, whole ~= "" and row.crew.name or "", dates.job_words(row.act), hours_words(row.hours),
            whole }
        first = ""
    end
    for _, day in ipairs(week.days) do
        rows[#rows + 1] = { first, day.crew and day.crew.name or "", day.words, "", "" }
        first = ""
    end
end

--- Weeks from one Monday to another.
local function weeks_between(a, b) return math.floor(quantity.number(b - a, "d") / 7 + 0.5) end

local function head(d, weeks)
    local values = run.property.values
    d:heading(1, run.property.name .. ": week by week")
    if values.walked then d:definition("walked", { values.walked }) end
    for _, crew in ipairs(run.crews) do
        local used, most, count, last = 0, nil, 0, nil
        for _, week in ipairs(weeks) do
            for _, row in ipairs(week.rows) do
                if row.crew == crew then
                    used = used + row.hours
                    if last ~= week then count, last = count + 1, week end
                    if not most or row.there > most then most = row.there end
                end
            end
        end
        local words = {}
        if count > 0 then
            words[1] = ("%s h in %s, of up to %s h a week"):format(hours_words(used), phrases.count(count, "week"),
                hours_words(most))
        end
        local jobs = 0
        for _, act in ipairs(timetable.placed()) do
            if act.crew == crew and by_the_day(act) then jobs = jobs + 1 end
        end
        if jobs > 0 then words[#words + 1] = phrases.count(jobs, "job") .. " by the day" end
        d:definition(crew.name, { #words == 0 and "nothing to do" or table.concat(words, "; ") })
    end
    d:paragraph { "Weeks begin on Monday. Hours are person-hours, all people of a crew added up, at their likely values; "
        .. "behind them what the crew needs in all that week, of the hours it has. Weeks without work are left out." }
end

--- Is anything still to be done on some day?
function M.any() return #weeks_of() > 0 end

--- The document; nil when nothing is.
function M.document()
    local weeks = weeks_of()
    if #weeks == 0 then return nil end
    local d = page.doc()
    head(d, weeks)
    local rows, year
    local function put_table()
        if not rows then return end
        d:heading(2, tostring(year))
        d:table { columns = { { "week", wrap = false }, { "crew", wrap = true }, { "what", wrap = true },
            { "hours", align = "right" }, { "in all", align = "right" } }, rows = rows }
    end
    for i, week in ipairs(weeks) do
        if week.monday.year ~= year then
            put_table()
            year, rows = week.monday.year, {}
        end
        put_week(rows, week)
        local pause = weeks[i + 1] and weeks_between(week.monday, weeks[i + 1].monday) - 1 or 0
        if pause > 0 then
            rows[#rows + 1] = { "", "", ("(%s without work)"):format(phrases.count(pause, "week")), "", "" }
        end
    end
    put_table()
    local unplaced = dates.unplaced()
    if #unplaced > 0 then
        d:paragraph { { strong = "Not in it, since they could not be placed: " }, phrases.capital(timetable.acts_words(unplaced)), "." }
    end
    return d
end

return M
