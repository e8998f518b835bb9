--- The handbook on labor: hours by a rate, cutting by hand, what slows it, weeks it takes,
--- loads of wood.
local host = need "host"
local quantity = need "quantity"
local run = need "run"
local work = need "work"

local TRADE = "common practice, no source; the rates are this plan's (spinney help rate)"

local above_nothing = need("words").above_nothing
local by_name = need "vocabulary/rate"

--- A bare ratio as a measure.
local function ratio(value) return type(value) == "number" and quantity.leaf(value, "h/h", "cleanup for each hour of felling") or value end

--- Hours of an amount by a rate, told or by its name.
local function hours(values, place)
    local rate = values.rate
    if not quantity.is(rate) then
        local entry = run.rates:find(rate.name, place, "rate")
        if not entry then host.raise_faults() end
        local value, missing = by_name.pick(entry, values.diameter, values.density)
        if missing then
            host.raise(place, "rate", "job-diameter", ("rate \"%s\" goes by %s, and none is told"):format(entry.name, missing),
                by_name.told[missing])
        end
        rate = value
    end
    if values.pace then
        above_nothing(values, { "pace" }, place)
        return quantity.say(work.hours(values.amount, rate, "work") / values.pace, "h")
    end
    return work.hours(values.amount, rate, "work")
end

--- Felling and cleanup by hand: { felling, cleanup, hours, cost }.
local function hand_cutting(values, place)
    above_nothing(values, { "pace" }, place)
    local felling = work.hours(values.trees, values.rate, "felling")
    if values.pace then felling = quantity.name(quantity.say(felling / values.pace, "h"), "felling hours") end
    local cleanup = values.cleanup and quantity.name(quantity.say(felling * ratio(values.cleanup), "h"), "cleanup hours")
    local both = cleanup and felling + cleanup or felling
    return { felling = felling, cleanup = cleanup, hours = both,
        cost = values.wage and quantity.say(both * values.wage, "USD") }
end

--- Weeks and days of work that so many hours are for a crew.
local function weeks(values, place)
    above_nothing(values, { "hours_each", "day_each" }, place)
    local people = quantity.leaf(values.people, "h/h", "people")
    local out = { weeks = quantity.say(values.hours / (values.hours_each * people), "wk") }
    if values.day_each then out.days = math.ceil(quantity.say(values.hours / (values.day_each * people), "h/h")) end
    return out
end

return {
    { name = "hours", says = "person-hours for an amount of work, by a rate",
      keys = { { "amount", kind = "amount", needed = true, says = "how much there is to do", example = "300 ft" },
          { "rate", kind = "work_rate", needed = true, says = "a measure, or a rate by name: \"flagging\"", example = "0.015 h/ft" },
          { "diameter", kind = "diameter", says = "of the trees, for a rate that goes by diameter" },
          { "density", kind = "rate_density", says = "of trees or brush, for a rate that goes by it: 4000 stems/ac" },
          { "pace", kind = "quantity", unit = "percent", says = "of the usual pace: 70 percent on a slope" } },
      gives = "hours", source = TRADE, example = "handbook.hours { amount = 300 ft, rate = 0.015 h/ft }", call = hours },
    { name = "hand_cutting", says = "felling and cleanup by hand",
      keys = { { "trees", kind = "quantity", unit = "trees", needed = true, says = "how many", example = "200 trees" },
          { "rate", kind = "quantity", unit = "trees/h", needed = true, says = "felled in an hour", example = "10 trees/h" },
          { "cleanup", kind = "ratio", says = "hours of cleanup for each hour of felling: 2 to 3" },
          { "pace", kind = "quantity", unit = "percent", says = "of the usual pace: 70 percent in heavy brush" },
          { "wage", kind = "wage", says = "what an hour costs" } },
      gives = "{ felling, cleanup, hours, cost }, as far as is told", source = TRADE,
      example = "handbook.hand_cutting { trees = 200 trees, rate = 10 trees/h, cleanup = 2.5,\n  wage = 45 USD/h }",
      call = hand_cutting },
    { name = "weeks", says = "how long so many hours keep a crew busy",
      keys = { { "hours", kind = "work", needed = true, says = "person-hours of work", example = "70 h" },
          { "people", kind = "count", least = 1, default = 1, says = "how many people" },
          { "hours_each", kind = "weekly", needed = true, says = "hours a week of each", example = "10 h/wk" },
          { "day_each", kind = "work", says = "hours of each on a day, for the number of days" } },
      gives = "{ weeks, days }", source = "person-hours are people times hours",
      example = "handbook.weeks { hours = 100 h, people = 2, hours_each = 5 h/wk }", call = weeks },
    { name = "loads", says = "truckloads of wood", main = "wood",
      keys = { { "wood", kind = "quantity", unit = "cord", needed = true, says = "how much", example = "48 cord" },
          { "load", kind = "quantity", unit = "cord", says = "on one truck; rate \"truckload\" when not told", example = "12 cord" } },
      gives = "a bare number, not rounded", source = "Cook 2014, MSU Extension article 209; loads: rate \"truckload\"",
      example = "handbook.loads { wood = 48 cord, load = 12 cord }",
      call = function(values, place)
          above_nothing(values, { "load" }, place)
          local entry = not values.load and need("rates").find("truckload", "cord", place)
          return values.wood / (values.load or entry.value)
      end },
}
