--- The handbook on spraying: calibration, mixes, tanks, active ingredient. The label of the
--- product stands above all of it.
local host = need "host"
local quantity = need "quantity"
local work = need "work"

local PLOT = "1/128 acre, 340.3 ft2 (18.5 x 18.5 ft): a gallon has 128 fl oz, so fl oz caught are gallons an acre"
local PLOT_SOURCE = "UF/IFAS 2022; Utah State Univ. Extension; county weed guides"
local BOOM_SOURCE = "GPM = GPA x MPH x W / 5940, W in inches: county weed guide (UF/IFAS 2022 likewise); 5940 is 43,560 x 12 / 88"
local LABEL = "arithmetic; rate, strength and maximum are the label's"

local function plot() return quantity.leaf(1 / 128, "ac", PLOT) end

local function key(name, unit, says, example, needed)
    return { name, kind = "quantity", unit = unit, needed = needed ~= false, says = says, example = example }
end

local GALLONS = key("gallons", "gal/ac", "finished mix on an acre", "25 gal/ac")
local TANK = key("tank", "gal", "what the sprayer holds", "4 gal")
local FLOW = key("flow", "gal/min", "of one nozzle; or of the whole boom", "0.3 gal/min")
local WIDTH = { "width", kind = "length", needed = true, says = "from nozzle to nozzle; or of the whole swath", example = "20 in" }
local SPEED = key("speed", "mi/h", "of travel", "3 mi/h")
local SHARE = { "share", kind = "share", needed = true, says = "product in the finished mix, by volume", example = "2 percent" }
local RATE = key("rate", "qt/ac", "product on an acre", "2 qt/ac")
local STRENGTH = key("strength", "lb/gal", "active ingredient in a gallon of product", "4 lb/gal")

local above_nothing = need("words").above_nothing

--- Which of two ways of telling the same is there; a fault unless it is one of them.
local function one_of(values, first, second, said, place, example)
    if (values[first] ~= nil) == (values[second] ~= nil) then
        host.raise(place, nil, "key-together", ("%s wants `%s` or `%s`, one of them"):format(said, first, second), example)
    end
end

local function spared(spec)
    local copy = {}
    for name, value in pairs(spec) do copy[name] = value end
    copy.needed = false
    return copy
end

--- Loads of a tank: whole ones, what the last one takes, what is left when it is filled too.
local function tank_loads(values, place)
    above_nothing(values, { "mix", "tank" }, place)
    local tanks = values.mix / values.tank
    local whole = math.floor(tanks)
    local last = values.mix - values.tank * whole
    if quantity.number(last, "gal") < 1e-9 * quantity.number(values.tank, "gal") then
        last = quantity.leaf(0, "gal", "the tanks come out even")
    end
    local loads = math.ceil(tanks)
    return { loads = loads, whole = whole, last = quantity.say(last, "gal"),
        left_over = quantity.say(values.tank * loads - values.mix, "gal") }
end

--- The pounds on an acre, by the mix or by the label's rate.
local function active(values, place)
    one_of(values, "share", "rate", "handbook.active_ingredient", place,
        "gallons = 40 gal/ac, share = 2 percent, strength = 3 lb/gal")
    if values.rate then return quantity.say(values.rate * values.strength, "lb/ac") end
    if not values.gallons then
        host.raise(place, nil, "key-missing", "a share of the mix needs `gallons`: how much mix goes on an acre", "gallons = 40 gal/ac")
    end
    return quantity.say(values.gallons * values.share * values.strength, "lb/ac")
end

--- How much product or mix on an acre the label's yearly maximum allows.
local function most_of_year(values, place)
    above_nothing(values, { "strength", "share" }, place)
    local left = values.used and values.maximum - values.used or values.maximum
    if quantity.below_zero(left) then left = quantity.leaf(0, "lb/ac", "more is used than the maximum") end
    local product = quantity.name(quantity.say(left / values.strength, "qt/ac"), "product on an acre")
    return { active = left, product = product,
        mix = values.share and quantity.say(product / values.share, "gal/ac") }
end

return {
    { name = "calibration", main = "caught", says = "gallons on an acre, from what the sprayer puts out in the time it takes on 1/128 acre",
      keys = { key("caught", "fl oz", "caught in a measuring cup", "25 fl oz"),
          { "plot", kind = "area", says = "the ground sprayed in that time; 1/128 acre when not told" } },
      gives = "gallons an acre", source = PLOT_SOURCE,
      example = "handbook.calibration { caught = 25 fl oz }",
      call = function(values, place)
          above_nothing(values, { "plot" }, place)
          return quantity.say(values.caught / (values.plot or plot()), "gal/ac")
      end },
    { name = "calibration_course", main = "swath", says = "how far to walk for 1/128 acre, spraying a swath so wide",
      keys = { { "swath", kind = "length", needed = true, says = "width that is wetted", example = "6 ft" } },
      gives = "a length", source = "340 / swath in ft: NC State Univ. Extension",
      example = "handbook.calibration_course { swath = 6 ft }",
      call = function(values, place)
          above_nothing(values, { "swath" }, place)
          return quantity.say(plot() / values.swath, "ft")
      end },
    { name = "boom", says = "gallons on an acre that a boom puts out", keys = { FLOW, SPEED, WIDTH },
      gives = "gallons an acre", source = BOOM_SOURCE,
      example = "handbook.boom { flow = 3.75 gal/min, speed = 5 mi/h, width = 222 in }",
      call = function(values, place)
          above_nothing(values, { "speed", "width" }, place)
          return quantity.say(values.flow / quantity.name(quantity.say(values.speed * values.width, "ac/h"),
              "ground covered"), "gal/ac")
      end },
    { name = "boom_flow", says = "what each nozzle must put out for so many gallons an acre", keys = { GALLONS, SPEED, WIDTH },
      gives = "gallons a minute", source = BOOM_SOURCE,
      example = "handbook.boom_flow { gallons = 30 gal/ac, speed = 3 mi/h, width = 20 in }",
      call = function(values) return quantity.say(values.gallons * values.speed * values.width, "gal/min") end },
    { name = "boom_capacity", says = "acres an hour that a boom or a spreader covers",
      keys = { SPEED, WIDTH, { "efficiency", kind = "share", default = quantity.leaf(65, "percent",
          "field efficiency of sprayers: 50 to 80 percent, from memory"), says = "part of the time in which it covers ground" } },
      gives = "acres an hour", source = "speed x width x efficiency (mph x ft / 8.25): ASABE D497, from memory",
      example = "handbook.boom_capacity { speed = 4 mi/h, width = 20 ft }",
      call = function(values) return quantity.say(values.speed * values.width * values.efficiency, "ac/h") end },
    { name = "percent_mix", says = "product in so much finished mix, by volume",
      keys = { key("mix", "gal", "finished mix", "4 gal"), SHARE },
      gives = "fluid ounces", source = "128 fl oz in a gallon: NIST Handbook 44",
      example = "handbook.percent_mix { mix = 4 gal, share = 2 percent }",
      call = function(values) return quantity.say(values.mix * values.share, "fl oz") end },
    { name = "product_per_gallon", says = "product in each gallon of mix, from rate and gallons on an acre",
      keys = { RATE, GALLONS }, gives = "fluid ounces in a gallon", source = "NC State Univ. Extension; county slides",
      example = "handbook.product_per_gallon { rate = 8 fl oz/ac, gallons = 7.5 gal/ac }",
      call = function(values, place)
          above_nothing(values, { "gallons" }, place)
          return quantity.say(values.rate / values.gallons, "fl oz/gal")
      end },
    { name = "tank_area", says = "the ground that a tank is enough for", keys = { TANK, GALLONS }, gives = "acres",
      source = "tank / gallons an acre: arithmetic", example = "handbook.tank_area { tank = 4 gal, gallons = 25 gal/ac }",
      call = function(values, place)
          above_nothing(values, { "gallons" }, place)
          return quantity.say(values.tank / values.gallons, "ac")
      end },
    { name = "tank_product", says = "product that goes into a full tank", keys = { TANK, GALLONS, RATE }, gives = "fluid ounces",
      source = "tank / gallons an acre x rate: arithmetic",
      example = "handbook.tank_product { tank = 4 gal, gallons = 25 gal/ac, rate = 2 qt/ac }",
      call = function(values, place)
          above_nothing(values, { "gallons" }, place)
          return quantity.say(values.tank / values.gallons * values.rate, "fl oz")
      end },
    { name = "tank_loads", says = "tanks that so much mix takes, and what is left over", keys = { key("mix", "gal", "finished mix", "10 gal"), TANK },
      gives = "{ loads, whole, last, left_over }: loads in all, full ones, what the last one takes, what is over when it is filled",
      source = "arithmetic", example = "handbook.tank_loads { mix = 10 gal, tank = 4 gal }", call = tank_loads },
    { name = "spray_mix", says = "mix, product and carrier for an area, with loads, left-over and active ingredient",
      keys = { { "area", kind = "area", needed = true, says = "ground sprayed", example = "0.5 ac" }, GALLONS,
          spared(SHARE), spared(RATE), spared(STRENGTH), spared(TANK) },
      gives = "{ mix, product, carrier, loads, left_over, active, active_per_acre }, as far as is told", source = LABEL,
      example = "handbook.spray_mix { area = 0.5 ac, gallons = 40 gal/ac, share = 2 percent,\n  strength = 3 lb/gal, tank = 3 gal }",
      call = function(values, place)
          one_of(values, "share", "rate", "handbook.spray_mix", place, "share = 2 percent")
          local parts = work.mix({ area = values.area, rate = values.gallons, share = values.share,
              product_rate = values.rate, strength = values.strength, tank = values.tank, carrier = "water" })
          return { mix = quantity.say(parts.finished, "gal"), product = quantity.say(parts.product, "fl oz"),
              carrier = quantity.say(parts.carrier, "gal"), loads = parts.loads,
              left_over = parts.spare and quantity.say(parts.spare, "gal"),
              active = parts.ingredient and quantity.say(parts.ingredient, "lb"),
              active_per_acre = parts.ingredient_per_area and quantity.say(parts.ingredient_per_area, "lb/ac") }
      end },
    { name = "active_ingredient", says = "pounds of active ingredient on an acre, by the mix or by the rate",
      keys = { STRENGTH, spared(GALLONS), spared(SHARE), spared(RATE) }, gives = "pounds an acre", source = LABEL,
      example = "handbook.active_ingredient { gallons = 40 gal/ac, share = 2 percent,\n  strength = 3 lb/gal }", call = active },
    { name = "most_of_year", says = "how much product on an acre the label's yearly maximum leaves",
      keys = { key("maximum", "lb/ac", "the label's most for an acre and year, as active ingredient", "8 lb/ac"), STRENGTH,
          spared(SHARE), spared(key("used", "lb/ac", "what was put on this year already", "2 lb/ac")) },
      gives = "{ active, product, mix }: pounds, quarts of product, and gallons of the mix whose `share` is told, an acre",
      source = LABEL, example = "handbook.most_of_year { maximum = 8 lb/ac, strength = 4 lb/gal,\n  share = 20 percent }",
      call = most_of_year },
}
