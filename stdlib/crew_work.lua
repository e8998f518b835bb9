--- What hangs on who does it: crews that learn take longer, and a safety partner's hours
--- count. Which crew it will be, the schedule says later; it is taken as the one asked for,
--- the slowest where several may do it.
local M = {}
local acts = need "acts"
local quantity = need "quantity"
local rates = need "rates"
local run = need "run"
local skills = need "skills"

--- The pace of a crew as a measure, the same one for all that it does; nil for the usual one.
local function pace_of(crew)
    local told = crew.values.pace
    if crew.pace ~= nil or not told then return crew.pace or nil end
    if type(told) == "string" then
        local name = "pace, " .. told
        local entry = run.rates:find(name, crew.place, "pace") and rates.find(name, "percent", crew.place)
        told = entry and entry.value
    end
    crew.pace = told and quantity.name(told, ("pace of crew %s"):format(crew.name)) or false
    return crew.pace or nil
end

--- Looks up the paces of all crews, of those too that nothing is left for.
function M.check()
    for _, crew in ipairs(run.crews) do pace_of(crew) end
end

--- The slowest of those that may do it, and how many they are.
local function slowest(list, key)
    local found
    for _, crew in ipairs(list) do
        local pace = pace_of(crew) and quantity.number(crew.pace, "percent") or 100
        local partner = key == "saw" and crew.values.partner and 1 / (crew.values.people - 1) or 0
        local takes = (1 + partner) / pace
        if not found or takes > found.takes then found = { crew = crew, takes = takes } end
    end
    return found and found.crew, #list
end

--- Hours in which a saw runs.
local function saw_hours(record)
    local felling, cleanup = acts.get(record, "felling_hours"), acts.get(record, "cleanup_hours")
    local part = cleanup and rates.find("saw in cleanup", "percent", record.place)
    if not felling then return acts.get(record, "hours") end
    return part and felling + cleanup * part.value or felling
end

local function tell(record, crew, many, words)
    table.insert(record.notes, ("%s%s: %s."):format(many > 1 and "Hours for the slowest who may do it, crew " or "Hours for crew ",
        crew.name, words))
end

local function set_partner(record, crew, many, saw, hours)
    local others = crew.values.people - 1
    local partner = others > 1 and saw / quantity.leaf(others, "h/h", ("%d at work while one stands by"):format(others)) or saw
    partner = acts.set(record, "partner_hours", quantity.say(partner, "h"), "hours of the safety partner")
    local names = record.figure_names
    for i, key in ipairs(names) do
        if key == "hours" then -- before the sum that it is part of
            table.insert(names, i, table.remove(names))
            break
        end
    end
    tell(record, crew, many, "one of them only stands by while a saw runs")
    return hours + partner
end

--- Puts the pace and the partner of its crew into the hours of an act. Asked only where a
--- crew of the plan has one (run.crews_differ).
function M.apply(record)
    if record.values.hours or record.operator_paid or record.by_days or need("order").days_of_nobody(record) then return end
    local hours = acts.get(record, "hours")
    if not hours then return end
    local skill = skills.asked(record)
    local crew, many = slowest(record.values.crew or skills.able(skill), skill)
    if not crew or not (pace_of(crew) or crew.values.partner) then return end
    local saw = skill == "saw" and saw_hours(record)
    hours = quantity.name(hours, ("hours of people used to the work, %s"):format(record.id))
    if crew.pace then
        hours, saw = hours / crew.pace, saw and saw / crew.pace
        tell(record, crew, many, ("at %s of the usual pace"):format(quantity.short(crew.pace)))
    end
    if crew.values.partner and saw then hours = set_partner(record, crew, many, saw, hours) end
    acts.set(record, "hours", quantity.say(hours, "h"), "hours")
end

return M
