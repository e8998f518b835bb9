--- The papers: each a document made from the settled plan, drawn for an output.
local M = {}
local page = need "page"
local quantity = need "quantity"
local run = need "run"

--- Draws all that a paper prints at once, before one thing and another is asked of it: for the schedule, too.
function M.draw_ahead()
    local list = {}
    for _, key in ipairs(run.total_names) do list[#list + 1] = run.totals[key] end
    for _, act in ipairs(run.acts) do
        for _, key in ipairs(act.figure_names) do
            local figure = act.figures[key]
            if not figure.inner then list[#list + 1] = figure.value end
        end
    end
    for _, stand in ipairs(run.stands) do
        list[#list + 1] = need("report/stands").diameter(stand)
        list[#list + 1] = need("report/outlook").height(stand)
    end
    for _, crew in ipairs(run.crews) do list[#list + 1] = need("report/costs").unpaid_hours(crew) end
    quantity.draw_ahead(list)
end

--- The owner's plan, for the terminal.
function M.plan()
    return page.terminal(need("report/plan").document())
end

--- Puts what will stand in each stand into the plan: only data tells all of it.
local function fill_outlook()
    local expected, plan, stages = need "expected", need "plan", need "stages"
    for _, stand in ipairs(run.stands) do
        for _, row in ipairs(stand.cruise and stand.area and expected.rows(stand) or {}) do
            plan.expected(stand.index, { when = row.when, year = row.year, season = row.season,
                use = row.year and row.year > 0 and row.words or nil })
            for _, column in ipairs(expected.columns) do
                plan.expected_figure(stand.index, column[1], column[3], row[column[1]])
            end
        end
        for _, row in ipairs(stand.cruise and stages.of(stand) or {}) do plan.stage(stand.index, row) end
    end
end

--- Puts the acres of each stand by what is done there into the plan, likewise.
local function fill_ground()
    local ledger, plan = need "ledger", need "plan"
    for _, stand in ipairs(run.stands) do
        local figures = need("ledger_figures").of(stand)
        for _, row in ipairs(ledger.rows) do plan.stand_ground(stand.index, row[1], row[2], figures[row[1]]) end
    end
end

--- The whole plan as JSON.
function M.json()
    fill_outlook()
    fill_ground()
    if #run.layouts > 0 or run.looked_at then need("report/ways_out").fill() end
    return need("plan").json()
end

local function has_flags() return run.property.values.map ~= nil and need("stake").walk() ~= nil end
local function has_acts() return need("report/timetable").has_acts() end
local function has_days() return need("report/timetable").has_days() end
local function has_weeks() return need("report/weeks").any() end

--- The files of `spinney run -o`: what each is called, what it says in a line, and its text; those of
--- flags only when the plan has flags, those of dates when it has any.
local FILES = {
    { "plan.txt", "the plan", text = function() return M.plan() end },
    { "plan.json", "the plan as data", text = function() return M.json() end },
    { "weeks.txt", "the work week by week", when = has_weeks,
        text = function() return page.terminal(need("report/weeks").document()) end },
    { "weeks.csv", "the hours of each week as a table", when = has_weeks,
        text = function() return need("report/schedule_files").weeks_csv() end },
    { "schedule.csv", "the acts and their dates as a table", when = has_acts,
        text = function() return need("report/schedule_files").acts_csv() end },
    { "schedule.ics", "the dates for calendar programs", when = has_days,
        text = function() return need("report/calendar_file").text() end },
    { "flags.txt", "the flags to walk to", when = has_flags,
        text = function() return page.terminal(need("report/flags").document()) end },
    { "flags.csv", "the flags as a table", when = has_flags, text = function() return need("report/flag_files").csv() end },
    { "flags.gpx", "the flags for receivers and phones", when = has_flags,
        text = function() return need("report/flag_files").handout("gpx") end },
    { "flags.kml", "the flags and shapes for map programs", when = has_flags,
        text = function() return need("report/flag_files").handout("kml") end },
    { "flags.geojson", "the flags and shapes as GeoJSON", when = has_flags,
        text = function() return need("report/flag_files").handout("geojson") end },
}

--- The text of the file of that name; without a name, the names, a line each, with what they say
--- behind a tab, or nothing behind it when this plan has no such file; and behind a tab alone the
--- maps that were read, which no file may take the place of.
function M.file(name)
    local has_map = run.property.values.map ~= nil
    local lines = {}
    for i, file in ipairs(FILES) do
        if file[1] == name then return file.text() end
        lines[i] = ("%s\t%s\n"):format(file[1], (not file.when or file.when()) and file[2] or "")
    end
    for _, path in ipairs(has_map and need("map_files").paths() or {}) do lines[#lines + 1] = ("\t%s\n"):format(path) end
    return table.concat(lines)
end

return M
