--- crew: who does the work, and how much of it a week holds.
local host = need "host"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

local M = {
    kind = "crew", named = "must", list = run.crews,
    says = "people who work together: how many, hours a week, what they can do, when",
    keys = {
        { "people", kind = "count", least = 1, most = 100, default = 1, says = "how many people" },
        { "hours_each", kind = "weekly", needed = true, says = "hours a week of each", example = "10 h/wk" },
        { "skills", kind = "list", of = "text", default = {}, says = "what they can do: \"saw\", \"applicator\", \"machine\", \"planting\", \"fire\"" },
        { "rate", kind = "wage", says = "what an hour of one person costs; without it, nothing (the owner's own time)" },
        { "from", kind = "date", says = "first day they can work" },
        { "to", kind = "date", says = "last day they can work" },
        { "off", kind = "list", of = "window", says = "weeks of every year in which they do not work" },
        { "travel", kind = "work", says = "travel time for each week they come, counted as work" },
        { "says", kind = "text", says = "a remark for the crew's sheet" },
    },
    also = { hours = "hours_each", hours_a_week = "hours_each", size = "people", wage = "rate" },
    --- What acts of the vocabulary ask for; a `job` may ask for others.
    skills = { "saw", "applicator", "machine", "planting", "fire" },
    example = [[crew "owner" { people = 2, hours_each = 10 h/wk, skills = { "saw" },
  from = Nov 1 2026 }]],
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
    if values.rate then
        record.rate = quantity.name(values.rate, ("rate of crew %s"):format(name))
    end
    run.crews[#run.crews + 1] = record
    return objects.new(Crew, record)
end

return M
