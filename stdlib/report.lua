--- The papers: each a document made from the settled plan, drawn for an output.
local M = {}
local page = need "page"
local quantity = need "quantity"
local run = need "run"

--- Draws all that a paper prints at once, before it asks one thing and another of it.
local function draw_ahead()
    local list = {}
    for _, key in ipairs(run.total_names) do list[#list + 1] = run.totals[key] end
    for _, act in ipairs(run.acts) do
        for _, key in ipairs(act.figure_names) do
            local figure = act.figures[key]
            if not figure.inner then list[#list + 1] = figure.value end
        end
    end
    quantity.draw_ahead(list)
end

--- The owner's plan, for the terminal.
function M.plan()
    draw_ahead()
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
    return need("plan").json()
end

return M
