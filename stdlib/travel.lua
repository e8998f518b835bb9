--- What the way there takes: of visits by the schedule, and of the days on which what is done
--- was worked at. A day on which a crew does several things is one visit.
local M = {}
local acts = need "acts"
local crew_hours = need "crew_hours"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"

--- Days on which a crew comes: as the schedule has them, more when its work takes longer.
local function visits_to_come(crew)
    local days, hours = plan.visits(crew.index)
    local work = days > 0 and hours > 0 and need("costs").hours_of(crew)
    if not work then return days > 0 and quantity.leaf(days, "h/h", ("days of crew %s, as scheduled"):format(crew.name)) or nil end
    local each = quantity.leaf(hours / days, "h", ("hours of crew %s on a day, as scheduled"):format(crew.name))
    return quantity.name(work / each, ("days of crew %s"):format(crew.name))
end

--- Hours of work of all of a crew on one day, the way there aside.
local function day_of(crew, road)
    local day = crew.values.day_each and crew_hours.usual(crew.values.day_each, "h") or 0
    if day <= 0 then
        local longest = crew_hours.longest_day(crew.place)
        day = longest and quantity.number(longest.value, "h") or 0
    end
    return day * crew.values.people - (road.hours and quantity.number(road.hours, "h") or 0)
end

--- Is that crew's way there to be counted for what is done? A bill has it in it, and what goes by
--- days is a crew's only where it names one.
local function came_for(crew, record)
    return record.was and not record.was_cost and acts.paying_crew(record) == crew
        and (record.was_by or record.values.crew or not need("order").days_of_nobody(record))
end

--- Days on which a crew was there for what is done: as told, of what goes by days those it takes,
--- else as few as the hours fill; of what was finished on one day, together.
local function visits_done(crew, road)
    local days, untold, order = nil, {}, {}
    for _, record in ipairs(run.acts) do
        if came_for(crew, record) then
            local hours = acts.get(record, "hours")
            local told = record.was_days or not hours and need("order").days_of_nobody(record)
            days = (days or 0) + (told or 0)
            local key = not told and tostring(record.was.to)
            if key and not untold[key] then order[#order + 1] = key end
            if key then untold[key] = (untold[key] or 0) + (hours and quantity.number(hours, "h") or 0) end
        end
    end
    if not days then return nil end
    local day = day_of(crew, road)
    for _, key in ipairs(order) do
        days = days + (day > 0 and math.max(1, math.ceil(untold[key] / day - 1e-9)) or 1)
    end
    return quantity.leaf(days, "h/h", ("days of crew %s for what is done"):format(crew.name))
end

--- Adds the hours and the money of so many visits to those of all crews, and to the crew's own.
local function add(out, crew, road, visits, words, own)
    local function pay(money)
        table.insert(out.money, money)
        table.insert(own.money, money)
    end
    if road.hours then
        local spent = quantity.name(quantity.say(visits * road.hours, "h"),
            ("travel hours of crew %s%s"):format(crew.name, words))
        table.insert(out.hours, spent)
        if crew.rate then pay(spent * crew.rate) end
    end
    if road.cost then pay(visits * road.cost) end
end

local function sums(out)
    return { hours = #out.hours > 0 and quantity.sum(out.hours) or nil,
        money = #out.money > 0 and quantity.sum(out.money) or nil }
end

--- Of all crews, still to come and done: { hours, money } each; and the money of each crew, come
--- and done together, by crew.
function M.all()
    local come, done, of_crew = { hours = {}, money = {} }, { hours = {}, money = {} }, {}
    for _, crew in ipairs(run.crews) do
        local road, own = crew_hours.road(crew), { hours = {}, money = {} }
        local visits = road and visits_to_come(crew)
        if visits then add(come, crew, road, visits, "", own) end
        visits = road and visits_done(crew, road)
        if visits then add(done, crew, road, visits, " for what is done", own) end
        of_crew[crew] = sums(own).money
    end
    return sums(come), sums(done), of_crew
end

return M
