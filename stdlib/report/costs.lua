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

--- Hours of a crew that nobody is paid for, where the plan has a cost: drawn ahead with all else
--- that is printed, so made once. Nil of other crews.
function M.unpaid_hours(crew)
    if crew.unpaid_hours == nil then
        crew.unpaid_hours = run.totals.cost and not crew.rate and costs.hours_of(crew) or false
    end
    return crew.unpaid_hours or nil
end

--- Crews whose hours nobody is paid for: an owner's own time is work all the same.
local function unpaid(d)
    local parts = {}
    for _, crew in ipairs(run.crews) do
        local hours = M.unpaid_hours(crew)
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

--- What a bill is made of: key, heading.
local PARTS = { { "labor", "labor, USD" }, { "stated", "as stated, USD" }, { "travel", "travel, USD" } }

local function add_column(columns, keys, key, heading)
    keys[#keys + 1] = key
    columns[#columns + 1] = { heading, align = "number", wrap = true }
end

--- What each crew that is paid costs. The bill of a single crew for nothing but labor stands in the
--- line of labor already.
local function bills(d)
    local columns, keys = { { "crew", wrap = true } }, {}
    for _, part in ipairs(PARTS) do
        local there = false
        for _, bill in ipairs(run.bills) do there = there or bill[part[1]] ~= nil end
        if there then add_column(columns, keys, part[1], part[2]) end
    end
    if #run.bills == 0 or (#run.bills == 1 and #keys == 1) then return end
    if #keys > 1 then add_column(columns, keys, "all", "bill, USD") end
    local rows = {}
    for i, bill in ipairs(run.bills) do
        rows[i] = { bill.crew.name }
        for _, key in ipairs(keys) do table.insert(rows[i], bill[key] and { bare = bill[key], spread = true } or "") end
    end
    d:table { columns = columns, rows = rows }
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
    unpaid(d)
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
    bills(d)
    if totals.contingency then
        d:paragraph { "Contingency is for what nobody foresees: weather, breakage, trees that hang. Most plans need some of it." }
    end
end

return M
