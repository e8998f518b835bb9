--- mow: grass and young brush cut by a mower or a brush saw, year after year.
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local pace = need "pace"
local phrases = need "phrases"
local quantity = need "quantity"
local rates = need "rates"

return acts.declare({
    kind = "mow", named = "may", mapped = true, skill = "saw",
    says = "mows an opening, a trail or a part of a stand, once or in several years",
    keys = {
        { "area", kind = "area", says = "ground to mow, when it is not that of `on` or of the stand" },
        { "with", kind = "choice", of = { "brush saw", "walk-behind", "tractor" }, default = "walk-behind",
          says = "what it is mowed with" },
        { "height", kind = "length", says = "how high it is left: 8 in" },
    },
    figures = { { "area", "ground mown" }, { "hours", "hours of mowing" },
        { "fuel", "fuel mix of a brush saw; that of mowers is not counted" } },
    hazards = {
        "Walk the ground first: stumps, wire and stones; nobody within 50 ft of a running mower; fawns and nests lie low in grass until August.",
    },
    example = [[local rest = opening { stand = "Bench aspen", use = "rest", width = 40 ft }
mow { on = rest, in_year = { 1, 2, 3 }, during = season "late summer" }]],
    title = function(record)
        if record.on then return "Mow: " .. phrases.lower(record.on.title) end
        return "Mow"
    end,
    takeoff = function(record)
        local area = record.values.area
        if area then
            area = acts.portion(record, area)
        else
            area = ground.of(record)
        end
        if not area then
            host.fault(record.place, nil, "key-missing", "mow needs `on`, `area` or `stand`: the ground to mow",
                "on = open")
            return
        end
        acts.set(record, "area", quantity.say(area, "ac"), "ground mown")
        local rate = rates.find("mowing, " .. record.values.with, "ac/h", record.place)
        if rate then
            local hours = acts.set(record, "hours", pace.slowed(record, quantity.say(area / rate.value, "h")), "mowing hours")
            if record.values.with == "brush saw" then need("saw_fuel").set(record, hours, "brush saw") end
        end
        if record.values.height then
            table.insert(record.notes, ("Leave it %s high."):format(quantity.short(record.values.height)))
        end
        local note = ground.part_words(record)
        if note then table.insert(record.notes, note) end
    end,
})
