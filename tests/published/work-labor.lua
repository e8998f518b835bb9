--- Hours by hand, machines, loads: the few figures that were published, and worked cases.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local CASE = "worked case of common practice, no source"
local ASPEN = "handbook.hand_cutting { trees = 200 trees, rate = 10 trees/h, cleanup = %g, "
    .. "wage = 45 USD/h }.%s"

-- An acre of young aspen, 200 stems of 8 to 12 in.
add(CASE, "computed", ASPEN:format(2.5, "felling"), "h", 20, 1)
add(CASE, "computed", ASPEN:format(2.5, "cleanup"), "h", 50, 1)
add(CASE, "computed", ASPEN:format(2.5, "hours"), "h", 70, 1)
add(CASE, "computed", ASPEN:format(2, "hours"), "h", 60, 1)
add(CASE, "computed", ASPEN:format(3, "hours"), "h", 80, 1)
add(CASE, "computed", ASPEN:format(2.5, "cost"), "USD", 3150, 1)
-- 300 ft of trail, then 1.7 times as wide; planting; an owner's window of ten weekends.
add(CASE, "computed", "handbook.hours { amount = 300 ft, rate = 0.015 h/ft }", "h", 4.5, 0.1)
add(CASE, "computed", "handbook.hours { amount = 300 ft, rate = 0.015 h/ft } * 1.7", "h", 7.65,
    0.01)
add(CASE, "computed", "handbook.hours { amount = 272 plants, rate = 40 plants/h }", "h", 6.8, 0.1)
add(CASE, "computed", "handbook.weeks { hours = 100 h, people = 2, hours_each = 5 h/wk }.weeks",
    "wk", 10, 1)

-- What was published, against the rates that every plan starts from.
add("Pleasant Valley Conservancy, restoration records 2017", "seen",
    "handbook.hours { amount = 1 ac, rate = \"clearing trees and brush\" }", "h", { 100, 200 })
add("Campu and Ciubotaru 2017, Silva Fennica 51(2):1657", "seen",
    "handbook.hours { amount = 1 tree, rate = \"felling, conifer\", "
        .. "diameter = 20 in }:number \"h\"",
    nil, { 1 / 4.55, 1 / 4.33 }, nil, "a feller with a helper, large conifers in mountains",
    "4 an hour is the trade's figure for one sawyer; of two people it would be 2.2 a person")
add("volunteer planting, secondary compilation", "seen",
    "40 / handbook.hours { amount = 40 plants, rate = \"planting\" }:number \"h\"", nil, { 6, 25 },
    nil, "trees an hour", "the rate is of people used to it: 40 an hour")
add("production crews, secondary compilation", "seen",
    "40 / handbook.hours { amount = 40 plants, rate = \"planting\" }:number \"h\"", nil,
    { 1500 / 8, 3000 / 8 }, nil, "trees an hour, 1,500 to 3,000 in a day of 8 h",
    "the rate is of owners and small crews on brushy ground")
add("US Bureau of Labor Statistics, OEWS 45-4011, May 2021", "seen",
    "(price \"laborer\").value:number \"USD/h\"", nil, { 12.43, 22.64 }, nil,
    "an hour's wage, 10th to 90th percentile",
    "the price is what a hired hour costs in 2026, not the wage of it")
for _, row in ipairs { { 3, 2, 4 }, { 5, 1, 2 }, { 7, 0.9, 1.1 } } do
    add("US mulching contractor's page, second hand", "seen",
        ("8 / handbook.hours { amount = 1 ac, rate = \"mulching\", diameter = %d in }:number \"h\"")
        :format(row[1]), nil, { row[2], row[3] }, nil, "acres in a day of 8 h")
end
add("Cook 2014, MSU Extension article 209", "seen",
    "handbook.loads { wood = 36 cord, load = (rate \"truckload, heavy truck\").value }"
    .. ":number()", nil, 2, 1,
    "18 cords a load")

return list
