--- Calibration, mixes, tanks, active ingredient.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local IFAS = "UF/IFAS 2022"
local NCSU = "NC State Univ. Extension"
local GUIDE = "county weed guide"
local FORMULA = "GPM = GPA x MPH x W / 5940"
local GALLON = "128 fl oz in a gallon"
local LABEL = "EPA label texts"

-- 1/128 acre: fluid ounces caught are gallons an acre.
for _, row in ipairs { 25, 40 } do
    add(IFAS, "seen", ("handbook.calibration { caught = %d fl oz }"):format(row), "gal/ac", row, 1)
end
-- The plot itself; 18.5 x 18.5 ft and 10 x 34 ft are both called one.
add(IFAS, "seen", "handbook.calibration_course { swath = 1 ft }", "ft", 340.3, 0.1,
    "340.3 ft2 of course and swath together")
add(IFAS, "seen", "handbook.calibration_course { swath = 10 ft }", "ft", 34, 1)
add(IFAS, "seen", "handbook.calibration_course { swath = 18.5 ft }", "ft", 18.5, 0.1,
    nil, "a round number for a square of 18.45 ft")
add(NCSU, "seen", "handbook.calibration_course { swath = 6 ft }", "ft", 56.7, 0.1)
add(NCSU, "seen", "handbook.calibration_course { swath = 6 ft }", "ft", 57, 1, "what to pace off")

-- Product in a gallon of mix, and in a tank.
add(NCSU, "seen", "handbook.product_per_gallon { rate = 8 fl oz/ac, gallons = 7.5 gal/ac }",
    "fl oz/gal", 1.07, 0.01)
add(NCSU, "seen",
    "handbook.tank_product { tank = 3 gal, gallons = 7.5 gal/ac, rate = 8 fl oz/ac }",
    "fl oz", 3.2, 0.1)
add("county extension slides on spraying", "seen",
    "handbook.product_per_gallon { rate = 32 fl oz/ac, gallons = 40 gal/ac }", "fl oz/gal", 0.8,
    0.1)
add(GALLON, "computed", "handbook.tank_area { tank = 4 gal, gallons = 25 gal/ac }", "ac", 0.16,
    0.01)
add(GALLON, "computed",
    "handbook.tank_product { tank = 4 gal, gallons = 25 gal/ac, rate = 2 qt/ac }", "fl oz", 10.24,
    0.01)

-- The boom, both ways.
add(FORMULA, "seen",
    "handbook.boom_flow { gallons = 30 gal/ac, speed = 3 mi/h, width = 20 in }", "gal/min", 0.303,
    0.001)
add(GUIDE, "seen", "handbook.boom { flow = 3.75 gal/min, speed = 5 mi/h, width = 222 in }",
    "gal/ac", 20, 1)
add(FORMULA, "computed", "handbook.boom { flow = 3.75 gal/min, speed = 5 mi/h, width = 222 in }",
    "gal/ac", 20.07, 0.01)
add(FORMULA, "computed", "1 / handbook.boom_flow { gallons = 1 gal/ac, speed = 1 mi/h, "
    .. "width = 1 in }:number \"gal/min\"", nil, 5940, 1, "the constant itself")

-- Percent by volume: fl oz in 1, 3, 4 and 25 gal.
local GALLONS = { 1, 3, 4, 25 }
for _, row in ipairs {
    { 1, 1.28, 3.84, 5.12, 32 }, { 1.5, 1.92, 5.76, 7.68, 48 }, { 2, 2.56, 7.68, 10.24, 64 },
    { 5, 6.4, 19.2, 25.6, 160 }, { 15, 19.2, 57.6, 76.8, 480 }, { 20, 25.6, 76.8, 102.4, 640 },
    { 25, 32, 96, 128, 800 }, { 50, 64, 192, 256, 1600 },
} do
    for i, gallons in ipairs(GALLONS) do
        add(GALLON, "computed", ("handbook.percent_mix { mix = %d gal, share = %g percent }")
            :format(gallons, row[1]), "fl oz", row[1 + i], 0.01)
    end
end

-- Active ingredient: strengths of labels; what follows from them is computed.
local FOLIAR = "area = 1 ac, gallons = 40 gal/ac, share = 2 percent, strength = 3 lb/gal"
add(LABEL, "computed", "handbook.active_ingredient { gallons = 40 gal/ac, share = 2 percent, "
    .. "strength = 3 lb/gal }", "lb/ac", 2.4, 0.1)
add(LABEL, "computed", ("handbook.spray_mix { %s }.product"):format(FOLIAR), "gal", 0.8, 0.1)
add(LABEL, "computed", ("handbook.spray_mix { %s }.active_per_acre"):format(FOLIAR), "lb/ac", 2.4,
    0.1)
add(LABEL, "computed", "handbook.percent_mix { mix = 1 gal, share = 20 percent } * (4 lb/gal)",
    "lb", 0.8, 0.1, "a gallon of a 20 percent ester mix")
for _, row in ipairs { { 3, 10.67 }, { 4, 8 } } do
    add("labels of glyphosate, 8 lb an acre and year", "memory",
        ("handbook.most_of_year { maximum = 8 lb/ac, strength = %d lb/gal }.product"):format(
            row[1]), "qt/ac", row[2], 0.01)
end
add("labels of triclopyr ester, 8 lb an acre and year", "memory",
    "handbook.most_of_year { maximum = 8 lb/ac, strength = 4 lb/gal, share = 20 percent }.mix",
    "gal/ac", 10, 1)

-- Tanks: 20 gal in a tank of 3 are seven loads, a gallon over.
for _, row in ipairs { { "loads", 7, 1 }, { "whole", 6, 1 } } do
    add("arithmetic", "computed", ("handbook.tank_loads { mix = 20 gal, tank = 3 gal }.%s:number()")
        :format(row[1]), nil, row[2], row[3])
end
add("arithmetic", "computed", "handbook.tank_loads { mix = 20 gal, tank = 3 gal }.last", "gal",
    2, 1)
add("arithmetic", "computed", "handbook.tank_loads { mix = 20 gal, tank = 3 gal }.left_over", "gal",
    1, 1)

return list
