--- What the plan costs, line by line: labor, machines, materials, what was stated, the way
--- there, what nobody foresees; and what comes back: cost-share, wood sold. After the
--- schedule, for who does it and on how many days is known only then.
local M = {}
local acts = need "acts"
local kinds = need "kinds"
local plan = need "plan"
local quantity = need "quantity"
local rates = need "rates"
local run = need "run"

--- What a program pays: a sum, so much for each acre, or a part of the cost.
kinds.cost_share = {
    says = "a sum, so much for an acre, or a part of the cost: 800 USD, 150 USD/ac or 60 percent",
    take = function(value)
        if not quantity.is(value) then return nil end
        for _, unit in ipairs({ "USD", "USD/ac", "percent" }) do
            if quantity.fits(value, unit) then return value end
        end
        return nil
    end,
}

--- The lines of the cost in the order of papers: key, what papers call it.
M.lines = {
    { "labor_cost", "labor" }, { "machine_cost", "machines" }, { "materials_cost", "materials" },
    { "contract_cost", "work bought by the amount" },
    { "stated_cost", "as stated in the plan" }, { "travel_cost", "travel" }, { "contingency", "contingency" },
}
M.income = { { "cost_share", "cost-share" }, { "stumpage", "wood sold" } }

local counts = acts.counts

--- What a program pays for an act, once its cost is known.
function M.set_share(record)
    local told = record.values.cost_share
    if not told then return end
    local paid
    if quantity.fits(told, "USD") then
        paid = acts.portion(record, told)
    elseif quantity.fits(told, "percent") then
        local cost = acts.get(record, "cost")
        paid = cost and cost * told
        if not paid then table.insert(record.notes, "No cost is known for the cost-share to be a part of.") end
    else
        local area = acts.get(record, "acres") or acts.get(record, "area")
        if not area then
            acts.fault(record, "cost_share", "share-area", ("%s has no ground that a payment for an acre could be for")
                :format(record.id), "cost_share = 800 USD")
            return
        end
        paid = area * told
    end
    if paid then acts.set(record, "cost_share", quantity.say(paid, "USD"), "cost-share expected") end
end

--- Sums parts of the cost over the acts; those done already apart, for they are certain.
local function sum_of(...)
    local planned, done = {}, {}
    for _, record in ipairs(run.acts) do
        for _, key in ipairs(counts(record) and record.cost_parts and { ... } or {}) do
            local part = record.cost_parts[key]
            if part then table.insert(record.was and done or planned, part) end
        end
    end
    return #planned > 0 and quantity.sum(planned) or nil, #done > 0 and quantity.sum(done) or nil
end

--- The sum of what there is of them; nil when there is nothing.
local function plus(...)
    local sum
    for i = 1, select("#", ...) do
        local part = select(i, ...)
        if part then sum = sum and sum + part or part end
    end
    return sum
end

--- Hours of a crew's acts still to come, as they are drawn.
function M.hours_of(crew)
    local terms = {}
    for _, record in ipairs(run.acts) do
        if record.state == "placed" and record.crew == crew and record.figures.hours then
            terms[#terms + 1] = acts.get(record, "hours")
        end
    end
    return #terms > 0 and quantity.name(quantity.sum(terms), ("hours of crew %s"):format(crew.name)) or nil
end

--- Puts a total of the plan where why, papers and data find it.
local function put(key, words, value, unit)
    if not value then return nil end
    local named = quantity.name(unit and quantity.say(value, unit) or value, words)
    plan.total(key, words, named)
    run.totals[key] = named
    run.total_names[#run.total_names + 1] = key
    return named
end
M.put = put

--- @param on "work" or "materials"
local function part_of(value, on)
    local share = run.property.values.contingency or (rates.find("contingency, " .. on, "percent") or {}).value
    if not value or not share then return nil end
    local words = on == "work" and "labor, machines and travel still to come" or "materials still to come"
    return quantity.name(quantity.name(value, words) * share, "contingency on " .. on)
end

--- What is added for what nobody foresees: on what is still to be done, not on what is stated.
local function contingency(work, materials)
    local both = plus(part_of(work, "work"), part_of(materials, "materials"))
    return both and quantity.say(both, "USD")
end

--- The chance that the plan costs more than the owner means to spend; nil where either is not told.
function M.over_budget()
    local budget, cost = run.property.values.budget, run.totals.cost
    return budget and cost and quantity.chance(cost, budget) or nil
end

local function all_of(lines)
    local terms = {}
    for _, row in ipairs(lines) do terms[#terms + 1] = run.totals[row[1]] end
    return #terms > 0 and quantity.sum(terms) or nil
end

local function income_of(key)
    local terms = {}
    for _, record in ipairs(run.acts) do
        local figure = counts(record) and acts.get(record, key)
        if figure then terms[#terms + 1] = figure end
    end
    return #terms > 0 and quantity.sum(terms) or nil
end

--- What a crew is paid for acts, by its rate or as stated: one sum of each, nil where there is none.
local function paid_to(crew)
    local labor, stated = {}, {}
    for _, record in ipairs(run.acts) do
        local parts = acts.counts(record) and record.cost_parts or {}
        if parts.labor and acts.paying_crew(record) == crew then labor[#labor + 1] = parts.labor end
        if parts.stated and (record.was_by or record.crew) == crew then stated[#stated + 1] = parts.stated end
    end
    local function sum(terms, words) return #terms > 0 and quantity.name(quantity.sum(terms), words:format(crew.name)) or nil end
    return sum(labor, "labor of crew %s"), sum(stated, "stated costs of crew %s")
end

--- The bill of each crew that is paid: what it costs by the hour or as stated, and its way there.
-- @param roads money of the way there, by crew
local function settle_bills(roads)
    run.bills = {}
    for _, crew in ipairs(run.crews) do
        local labor, stated = paid_to(crew)
        local road = roads[crew] and quantity.name(roads[crew], ("travel of crew %s"):format(crew.name))
        local bill = put("crew_cost, " .. crew.name, "bill of crew " .. crew.name, plus(labor, stated, road), "USD")
        if bill then table.insert(run.bills, { crew = crew, labor = labor, stated = stated, travel = road, all = bill }) end
    end
end

local NO_ROAD = {}

--- What the plan has cost so far, and what is still to come: where anything is done.
local function settle_spent(spent, to_come)
    if not spent then return end
    put("spent", "spent so far", spent, "USD")
    put("cost_left", "cost still to come", to_come, "USD")
end

--- Every line, the cost of all, what comes back, what is left to pay.
function M.settle()
    local labor, labor_done = sum_of("labor")
    local machine, machine_done = sum_of("machine", "moving")
    local materials, materials_done = sum_of("materials")
    local contract, contract_done = sum_of("contract")
    local stated, stated_done = sum_of("stated")
    local road, road_done, roads = NO_ROAD, NO_ROAD, {}
    if run.travels then road, road_done, roads = need("travel").all() end
    local nobody_foresees = contingency(plus(labor, machine, contract, road.money), materials)
    put("travel_hours", "total travel hours", plus(road.hours, road_done.hours), "h")
    put("labor_cost", "total labor", plus(labor, labor_done), "USD")
    put("machine_cost", "total machines", plus(machine, machine_done), "USD")
    put("materials_cost", "total materials", plus(materials, materials_done), "USD")
    put("contract_cost", "total of work bought by the amount", plus(contract, contract_done), "USD")
    put("stated_cost", "total of costs as stated", plus(stated, stated_done), "USD")
    put("travel_cost", "total travel", plus(road.money, road_done.money), "USD")
    put("contingency", "contingency", nobody_foresees, "USD")
    local cost = put("cost", "total cost", all_of(M.lines), "USD")
    settle_bills(roads)
    settle_spent(plus(labor_done, machine_done, materials_done, contract_done, stated_done, road_done.money),
        plus(labor, machine, materials, contract, stated, road.money, nobody_foresees))
    for _, row in ipairs(M.income) do put(row[1], "total " .. row[2], income_of(row[1]), "USD") end
    local back = all_of(M.income)
    if cost and back then put("net_cost", "cost less what comes back", cost - back, "USD") end
end

return M
