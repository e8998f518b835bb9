--- `spinney why PLAN.rx total.budget`: what the owner means to spend beside what the plan costs, in words.
local M = {}
local costs = need "costs"
local dates = need "dates"
local host = need "host"
local materials = need "materials"
local phrases = need "phrases"
local quantity = need "quantity"
local run = need "run"
local wrap = need("help_text").wrap

--- How many causes are told, as papers tell them of the hours.
local CAUSES = 3

local function hangs_on(cost)
    local parts = {}
    for i, row in ipairs(quantity.hangs_on(cost, CAUSES)) do
        parts[i] = ("%s (%d in 100)"):format(row.name, math.floor(row.share * 100 + 0.5))
    end
    return #parts > 0 and "the cost hangs most on: " .. table.concat(parts, ", ") or nil
end

--- What stands outside the cost, and so outside the chance.
local function left_out()
    local parts = {}
    local unpriced = materials.all_unpriced()
    if #unpriced > 0 then parts[1] = ("%s, which no price is told for"):format(table.concat(unpriced, "; ")) end
    local count = #dates.unplaced()
    if count > 0 then parts[#parts + 1] = phrases.count(count, "job") .. " that could not be placed" end
    return #parts > 0 and "not in the cost: " .. table.concat(parts, "; ") or nil
end

local function lines_of(cost, chance)
    local lines = { ("the plan costs %s: the chance that it is more than the budget is %d in 100")
        :format(quantity.figure(cost), math.floor(chance * 100 + 0.5)) }
    if run.totals.spent then lines[2] = ("of it spent so far: %s"):format(quantity.figure(run.totals.spent)) end
    lines[#lines + 1] = hangs_on(cost)
    lines[#lines + 1] = left_out()
    if run.totals.net_cost then
        lines[#lines + 1] = ("what comes back is not counted against it: with that, %s is left to pay (total.net_cost)")
            :format(quantity.figure(run.totals.net_cost))
    end
    lines[#lines + 1] = "what the cost is made of: spinney why PLAN.rx total.cost"
    return lines
end

--- The answer, or nil when a fault was told.
function M.text()
    local budget, cost = run.property.values.budget, run.totals.cost
    if not budget then
        return host.fault(nil, nil, "why-unknown", ("no budget of %s is told"):format(run.property.name), "budget = 15000 USD, in `property`")
    end
    local parts = { quantity.explain(quantity.name(budget, "budget")) }
    for _, line in ipairs(cost and lines_of(cost, costs.over_budget()) or { "nothing in the plan has a cost" }) do
        parts[#parts + 1] = wrap(line, "  ", "    ") .. "\n"
    end
    return table.concat(parts)
end

return M
