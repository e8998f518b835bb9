--- What the plan costs, in the owner's paper: line by line, and what comes back.
local M = {}
local costs = need "costs"
local phrases = need "phrases"
local quantity = need "quantity"
local run = need "run"

local capital = phrases.capital

--- Lines that the plan has, as definitions; how many.
local function write_lines(d, lines)
    local count = 0
    for _, row in ipairs(lines) do
        local value = run.totals[row[1]]
        if value then
            d:definition(capital(row[2]), { value })
            count = count + 1
        end
    end
    return count
end

--- "Cost-share of mow (practice 314): 300 USD": what it hangs on is not sure.
local function programs()
    local parts, seen = {}, {}
    for _, act in ipairs(run.acts) do
        local name = act.figures.cost_share and act.values.program
        if name and not seen[name] then parts[#parts + 1] = name end
        if name then seen[name] = true end
    end
    return #parts > 0 and (" (%s)"):format(table.concat(parts, "; ")) or ""
end

--- Crews whose hours nobody is paid for: an owner's own time is work all the same.
local function unpaid(d)
    local parts = {}
    for _, crew in ipairs(run.crews) do
        local hours = not crew.rate and costs.hours_of(crew)
        if hours then
            parts[#parts + 1] = #parts > 0 and ", " or ""
            parts[#parts + 1] = hours
            parts[#parts + 1] = " of crew " .. crew.name
        end
    end
    if #parts == 0 then return end
    table.insert(parts, 1, "Work that is not in the cost, for no rate is told: ")
    parts[#parts + 1] = "."
    d:paragraph(parts)
end

function M.write(d)
    local totals = run.totals
    d:heading(2, "What it costs")
    write_lines(d, costs.lines)
    if totals.cost then d:definition("In all", { totals.cost }) end
    if totals.spent then
        d:definition("Spent so far", { totals.spent })
        if totals.cost_left then d:definition("Still to come", { totals.cost_left }) end
    end
    if totals.travel_hours then
        d:paragraph { "On the road, beside the hours of work: ", totals.travel_hours, "." }
    end
    if totals.cost then unpaid(d) end
    if write_lines(d, costs.income) > 0 then
        if totals.net_cost then
            local gain = quantity.below_zero(totals.net_cost)
            -- What is spent already is not left to pay.
            local words = gain and "Left over" or totals.spent and "Cost less what comes back" or "Left to pay"
            d:definition(words, { gain and -totals.net_cost or totals.net_cost })
        end
        if totals.cost_share then
            d:paragraph { ("What comes back is expected, not promised%s."):format(programs()) }
        end
    end
    if totals.contingency then
        d:paragraph { "Contingency is for what nobody foresees: weather, breakage, trees that hang. Most plans need some of it." }
    end
end

return M
