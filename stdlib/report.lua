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

--- The whole plan as JSON.
function M.json()
    return need("plan").json()
end

return M
