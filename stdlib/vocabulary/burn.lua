--- burn: a prescribed fire, by people trained for it.
local acts = need "acts"
local ground = need "ground"
local quantity = need "quantity"
local rates = need "rates"

--- A burn is planned by the days of a crew, not by its hours.
local function days_for(record, acres)
    local entry = rates.find("burning, ground in a day", "ac/d", record.place)
    return entry and math.max(1, math.ceil(acres / quantity.number(entry.value, "ac/d") - 1e-9))
end

return acts.declare({
    kind = "burn", named = "may", mapped = true, needs_stand = true, skill = "fire",
    says = "a prescribed fire on grass, brush or slash, under permit and plan",
    keys = {
        { "area", kind = "area", says = "ground to burn, when it is not the whole stand or part" },
        { "breaks", kind = "length", says = "length of firebreak to prepare" },
        { "people", kind = "count", least = 3, most = 40, default = 6, says = "people on the fire crew" },
    },
    figures = { { "area", "ground burned" }, { "breaks", "firebreak to prepare" }, { "days", "days of the crew, when more than one" },
        { "hours", "hours of the crew, breaks and mop-up with them" } },
    hazards = {
        "Fire only with a permit, a written plan, a trained crew, water on the ground and the right wind; the neighbors and the fire service told that day.",
        "Nobody alone on the line; the fire is watched until it is cold.",
    },
    usual_seasons = function() return { "spring burning", "fall burning" } end,
    example = [[burn { stand = "Old pasture", breaks = 900 ft,
  during = season "spring burning" }]],
    title = function() return "Burn" end,
    takeoff = function(record)
        local values = record.values
        local area = values.area and acts.portion(record, values.area) or ground.of(record)
        area = acts.set(record, "area", quantity.say(area, "ac"), "ground burned")
        local day = rates.find("burning, crew day", "h", record.place)
        local people = quantity.leaf(values.people, "h/h", "people on the fire crew")
        local days = days_for(record, quantity.number(area, "ac"))
        if not day or not days then return end
        record.by_days = true -- a day of fire is a day, whoever is on the line
        local hours = day.value * people
        if days > 1 then
            hours = hours * acts.set(record, "days", quantity.leaf(days, "h/h"), "days with a crew")
        end
        if values.breaks then
            local breaks = acts.set(record, "breaks", ground.feet(values.breaks, record.stand, record.place,
                "breaks"), "firebreak to prepare")
            local rate = rates.find("firebreak", "h/ft", record.place)
            if not rate then return end
            hours = hours + breaks * rate.value
        end
        acts.set(record, "hours", quantity.say(hours, "h"), "hours of the fire crew")
    end,
})
