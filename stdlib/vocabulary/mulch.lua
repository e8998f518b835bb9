--- mulch: brush and small trees ground up by a machine.
local acts = need "acts"
local ground = need "ground"
local quantity = need "quantity"
local run = need "run"

return acts.declare({
    kind = "mulch", named = "may", mapped = true, needs_stand = true, skill = "machine",
    says = "grinds brush and small trees with a machine, on ground that bears it",
    keys = {
        { "area", kind = "area", says = "ground to mulch, when it is not the whole stand or part" },
        { "machine", kind = "choice", of = { "hired", "own" }, default = "hired",
          says = "hired: by the hour with its operator; own: fuel only" },
    },
    figures = { { "area", "ground mulched" }, { "hours", "machine hours" }, { "fuel", "diesel" },
        { "machine_cost", "machine with operator, and moving in" } },
    hazards = {
        "A mulcher throws wood and stones far: nobody within 300 ft of it; none on slopes over 35 percent or over buried lines.",
    },
    example = [[mulch { stand = "Old pasture", area = 1.5 ac,
  during = season "late summer" }]],
    title = function() return "Mulch brush" end,
    takeoff = function(record)
        local values = record.values
        local area = values.area and values.area * acts.fraction(record) or ground.of(record)
        area = acts.set(record, "area", quantity.say(area, "ac"), "ground mulched")
        local hours = acts.set(record, "hours", quantity.say(area / run.rates:find("mulching").value, "h"),
            "machine hours")
        acts.set(record, "fuel", quantity.say(hours * run.rates:find("mulcher fuel").value, "gal"), "diesel")
        if values.machine == "hired" then
            local cost = hours * run.prices:find("mulcher").value + run.prices:find("moving in").value
            acts.set(record, "machine_cost", quantity.say(cost, "USD"), "machine with operator, and moving in")
        end
    end,
})
