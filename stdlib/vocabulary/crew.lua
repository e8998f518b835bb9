--- crew: who does the work, and how much of it a week holds.
local host = need "host"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"
need "crew_hours" -- kinds

local M = {
    kind = "crew", named = "must", list = run.crews,
    says = "people who work together: how many, hours a week, what they can do, when",
    keys = {
        { "people", kind = "count", least = 1, most = 100, default = 1, says = "how many people" },
        { "hours_each", kind = "weekly_hours", needed = true, says = "hours of work a week of each, breaks not counted",
          example = "10 h/wk" },
        { "day_each", kind = "day_hours", says = "hours of each on one day at most; without it, rate \"longest day\"" },
        { "skills", kind = "list", of = "text", default = {}, says = "what they can do: \"saw\", \"applicator\", \"machine\", \"planting\", \"fire\"" },
        { "rate", kind = "wage", says = "what an hour of one person costs; without it, nothing (the owner's own time)" },
        { "from", kind = "date", says = "first day they can work" },
        { "to", kind = "date", says = "last day they can work" },
        { "off", kind = "list", of = "off_days", says = "days on which they do not work: windows and seasons of every year, dates, { from = Nov 20 2027, to = Nov 28 2027 }" },
        { "travel", kind = "work", says = "travel of all of them together for each day they come, there and back; off their hours, and paid" },
        { "distance", kind = "length", says = "how far they come from, one way, in place of `travel` and `travel_cost`: 18 mi" },
        { "travel_cost", kind = "money", says = "what each day they come costs on the road: the truck, not the people" },
        { "pace", kind = "crew_pace", says = "how fast they are, of people used to the work: 70 percent; or by a rate, \"owner\" for rate \"pace, owner\", \"learning\"" },
        { "partner", kind = "flag", says = "one of them only stands by while a saw runs: a safety partner, whose hours count too" },
        { "says", kind = "text", says = "a remark for the crew's sheet" },
    },
    also = { hours = "hours_each", hours_a_week = "hours_each", size = "people", wage = "rate", skill_factor = "pace",
        days_off = "off", holidays = "off", away = "off", start = "from",
        begins = "from", starts = "from", finish = "to", ends = "to", stops = "to", mileage = "distance", skill = "skills",
        can = "skills", number = "people", speed = "pace", cost = "rate", travel_hours = "travel", miles = "distance", hours_a_day = "day_each", day = "day_each" },
    --- What acts of the vocabulary ask for; a `job` may ask for others.
    skills = { "saw", "applicator", "machine", "planting", "fire" },
    example = [[crew "owner" { people = 2, hours_each = 10 h/wk, skills = { "saw" },
  from = Nov 1 2026 }]],
    more = [[
other hours in parts of the year or on dates; of two that hold, the later one:
  crew "owner" { hours_each = { 8 h/wk, { during = season "dormant", 16 h/wk },
    { from = Jan 4 2027, to = Jan 24 2027, 40 h/wk } },
    day_each = { 8 h, { during = Jul 1 to Aug 31, 2 h } } }]],
}

local Crew = { kind = "crew" }
function Crew.index(record, key)
    if key == "name" then return record.name end
    return objects.open(record.values[key])
end

function M.known(name) return run.known(run.crews, name) end

--- A table after a name that is taken: told by make.
function Crew.call(record, given)
    return need("prelude").make_again(M, record.name, given)
end

function M.make(place, name, values)
    for _, crew in ipairs(run.crews) do
        if crew.name == name then
            host.fault(place, nil, "name-taken", ("crew \"%s\" is already described at %s"):format(name,
                host.place_words(crew.place)), "give one of the two another name")
        end
    end
    if values.from and values.to and values.to < values.from then
        host.fault(place, "to", "key-order", ("`to` (%s) lies before `from` (%s)"):format(tostring(values.to),
            tostring(values.from)))
    end
    local record = { name = name, place = place, values = values }
    if values.partner and (values.people or 1) < 2 then
        host.fault(place, "partner", "crew-partner", "`partner` says that one of them only stands by, and the crew is one person",
            "people = 2, partner = true")
    end
    run.travels = run.travels or (values.travel or values.distance or values.travel_cost) ~= nil
    run.crews_differ = run.crews_differ or values.pace ~= nil or values.partner == true
    if values.rate then
        record.rate = quantity.name(values.rate, ("rate of crew %s"):format(name))
    end
    run.crews[#run.crews + 1] = record
    return objects.new(Crew, record)
end

return M
