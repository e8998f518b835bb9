--- mulch: brush and small trees ground up, cut or piled by a machine.
local acts = need "acts"
local ground = need "ground"
local materials = need "materials"
local pace = need "pace"
local quantity = need "quantity"
local rates = need "rates"
local run = need "run"

--- The machines: the rate of each, what an hour of it is called in the price list.
local WAYS = {
    mulcher = { rate = "mulching", unit = "ac/h", price = "mulcher", title = "Mulch brush", words = "mulched" },
    cutter = { rate = "brush cutting, skid-steer", unit = "ac/h", price = "skid-steer", title = "Cut brush with a skid-steer",
        words = "cut over" },
    grapple = { rate = "piling, skid-steer", unit = "h/ac", price = "skid-steer", title = "Pile slash with a skid-steer",
        words = "cleared of slash" },
}

--- Machine hours on so many acres, or nil when a fault is told.
local function hours_on(record, area, way)
    local entry = rates.find(way.rate, way.unit, record.place, "by_diameter")
    if not entry then return nil end
    local stems = record.values.up_to
    local value = stems and need("vocabulary/rate").at(entry, quantity.number(stems, "in")) or entry.value or
        need("vocabulary/rate").at(entry, 0)
    return pace.slowed(record, need("work").hours(area, value, "machine"))
end

local function hired_cost(record, hours, way)
    record.operator_paid, record.machine, run.machines = true, way.price, true
    local hour = materials.price(way.price, "USD/h")
    if not hour then materials.unpriced(record, "the machine") end
    return hour and hours * hour
end

--- An own machine costs its fuel.
local function own_cost(record, fuel)
    local price = materials.price("diesel", "USD/gal")
    if not price then materials.unpriced(record, "diesel") end
    return price and fuel * price
end

return acts.declare({
    kind = "mulch", named = "may", mapped = true, needs_stand = true, skill = "machine",
    says = "grinds brush and small trees with a machine, on ground that bears it; or cuts or piles with a skid-steer",
    keys = {
        { "area", kind = "area", says = "ground to mulch, when it is not the whole stand or part" },
        { "with", kind = "choice", of = { "mulcher", "cutter", "grapple" }, default = "mulcher",
          says = "a mulcher, or a skid-steer with a rotary cutter or a grapple for slash" },
        { "up_to", kind = "diameter", most = quantity.leaf(12, "in"), says = "the thickest stems in it: 4 in; thicker ones take longer" },
        { "machine", kind = "choice", of = { "hired", "own" }, default = "hired",
          says = "hired: by the hour with its operator; own: fuel only" },
    },
    figures = { { "area", "ground mulched" }, { "hours", "machine hours" }, { "diesel", "diesel that it burns" },
        { "machine_cost", "machine with operator; of an own machine the fuel" },
        { "moving_cost", "bringing a hired machine, with the first of what it does while it is there" } },
    hazards = {
        "A mulcher throws wood and stones far: nobody within 300 ft of it; none on slopes over 35 percent or over buried lines.",
    },
    example = [[mulch { stand = "Old pasture", area = 1.5 ac,
  during = season "late summer" }]],
    title = function(record) return (WAYS[record.values.with] or WAYS.mulcher).title end,
    takeoff = function(record)
        local values = record.values
        local way = WAYS[values.with]
        local area = values.area and acts.portion(record, values.area) or ground.of(record)
        area = acts.set(record, "area", quantity.say(area, "ac"), "ground " .. way.words)
        local hours = hours_on(record, area, way)
        hours = hours and acts.set(record, "hours", hours, "machine hours")
        if not hours then return end
        local burned = rates.find("mulcher fuel", "gal/h", record.place)
        local fuel = burned and acts.set(record, "diesel", quantity.say(hours * burned.value, "gal"), "diesel")
        local hired = values.machine == "hired"
        local cost = hired and hired_cost(record, hours, way) or not hired and own_cost(record, fuel)
        if cost then
            acts.set(record, "machine_cost", quantity.say(cost, "USD"), hired and "machine with operator" or "diesel of the machine")
        end
    end,
})
