--- The papers: each a document made from the settled plan, drawn for an output.
local M = {}
local page = need "page"

--- The owner's plan, for the terminal.
function M.plan()
    return page.terminal(need("report/plan").document())
end

--- The whole plan as JSON.
function M.json()
    return need("plan").json()
end

return M
