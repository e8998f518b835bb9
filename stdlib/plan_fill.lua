--- Hands the records of a run to the plan (plan.*), before the schedule.
local M = {}
local calendar = need "calendar"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"

local function walked_words(stand)
    if stand.cruise then return stand.cruise:words() end
    return stand.values.walked == false and "not walked" or ""
end

local function put_stand(stand)
    stand.walked_words = walked_words(stand)
    stand.index = plan.stand(stand.name, stand.place, stand.walked_words)
    if stand.area then plan.stand_figure(stand.index, nil, "area", "area", stand.area) end
    if not stand.cruise then return end
    local cruise = stand.cruise
    plan.stand_figure(stand.index, nil, "basal_area", "basal area", cruise:basal_area())
    plan.stand_figure(stand.index, nil, "trees", "trees", cruise:trees())
    local diameter = cruise:diameter()
    if diameter then plan.stand_figure(stand.index, nil, "diameter", "mean diameter", diameter) end
    for _, row in ipairs(need("vocabulary/stand").rows(stand)) do
        plan.stand_figure(stand.index, row.species, "basal_area", "basal area", row.basal_area)
        plan.stand_figure(stand.index, row.species, "trees", "trees", row.trees)
        if row.diameter then
            plan.stand_figure(stand.index, row.species, "diameter", "mean diameter", row.diameter)
        end
    end
end

local function put_crew(crew)
    local values, hours = crew.values, need "crew_hours"
    local road = hours.road(crew)
    crew.index = plan.crew(crew.name, values.people, hours.usual(values.hours_each, "h/wk"),
        road and road.hours and quantity.number(road.hours, "h") or 0, values.from, values.to, hours.off(crew))
    hours.put(crew)
    if crew.rate then plan.crew_rate(crew.index, quantity.number(crew.rate, "USD/h")) end
end

--- What is still to be done cannot start before the plan does.
local function check_date(act, starts)
    local date = act.values.date
    if not date or act.was or act.copy_of or date >= starts then return end
    need("host").fault(act.place, "date", "date-past", ("`date` (%s) lies before the plan's first day, %s"):format(
        tostring(date), tostring(starts)), "what was done already is told with `done`, or describes the stand as it was walked")
end

local function put_act(act)
    act.index = plan.act(act.id, act.kind, act.title, act.stand and act.stand.index, act.place,
        act.chain, act.chain)
    for _, key in ipairs(act.figure_names) do
        local figure = act.figures[key]
        plan.figure(act.index, key, figure.words, figure.value)
    end
    if act.values.first then plan.first(act.index) end
    if act.was then plan.was_done(act.index, act.was.from, act.was.to) end
end

--- Everything the schedule and the papers need.
function M.fill()
    local values = run.property.values
    local first = values.starts or (values.walked and calendar.add_days(values.walked, 1))
    if not first then
        need("host").fault(run.property.place, nil, "key-missing",
            "property needs `walked` or `starts`: the plan has no first day", "walked = Oct 14 2026")
        return
    end
    -- What is left is planned after what was done.
    local goes_on = need("past").goes_on()
    local starts = goes_on and goes_on > first and goes_on or first
    run.first_day = first
    plan.property(run.property.name, values.region, values.county, values.walked, starts)
    for _, stand in ipairs(run.stands) do put_stand(stand) end
    for _, crew in ipairs(run.crews) do put_crew(crew) end
    need("titles").tell_apart()
    for _, act in ipairs(run.acts) do
        check_date(act, first)
        put_act(act)
    end
end

return M
