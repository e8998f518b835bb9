--- Widths beside water as published, and what the regions ask for.
local list = {}
local fell = 'cut { stand = "Aspen", species = "aspen" }'

local GUIDE = "Minnesota forest management guideline field sheet: 50 ft, "
    .. "and 2 ft for each percent over 10; 27 percent is 84 ft as printed"
for _, row in ipairs { { 0, 50 }, { 10, 50 }, { 11, 52 }, { 15, 60 }, { 20, 70 }, { 27, 84 }, { 40,
    110 } } do
    local slope, width = row[1], row[2]
    local creek = ('feature "creek" { kind = "stream", beside = "Aspen", length = 300 ft, '
        .. 'width = 2 ft, slope = %d percent }\n')
        :format(slope)
    local strip = 'buffer { of = "creek", inside = "Aspen", width = %d ft }\n'
    list[#list + 1] = { what = ("Minnesota filter strip at %d percent"):format(slope),
        source = GUIDE,
        region = "lake-states/minnesota", plan = creek .. strip:format(width - 1) .. fell,
        speaks = { { "filter strip", "caution", ("%d ft asked"):format(width) } } }
    list[#list + 1] = { what = ("Minnesota filter strip at %d percent, wide enough"):format(slope),
        source = GUIDE,
        region = "lake-states/minnesota", plan = creek .. strip:format(width)
            .. fell, silent = { "filter strip" } }
end

local CORRIDOR = "Burnett County ordinance: 35 ft for each whole 100 ft of shore, "
    .. "35 percent of a shorter one"
for _, row in ipairs { { 80, 28 }, { 150, 35 }, { 200, 70 }, { 300, 105 } } do
    list[#list + 1] = { what = ("Wisconsin viewing corridor for %d ft of shore"):format(row[1]),
        source = CORRIDOR,
        region = "lake-states/wisconsin",
        plan = ('feature "lake" { kind = "lake", beside = "Aspen", length = %d ft }\n'
            .. ''):format(row[1]) .. fell,
        speaks = { { "shoreland", "caution", ("the corridor is %d ft"):format(row[2]) } } }
end

local CLASSES = "classes: Wisconsin DNR forest guidelines ch. 5, "
    .. "2018; widths: Univ. Wisconsin Extension"
for _, row in ipairs { { 'kind = "stream", width = 2.9 ft', 35 }, { 'kind = "stream", width = 3 ft',
    100 },
    { 'kind = "stream", width = 2 ft, trout = true', 100 }, { 'kind = "lake"', 100 } } do
    list[#list + 1] = { what = "Wisconsin riparian zone, " .. row[1], source = CLASSES,
        region = "lake-states/wisconsin",
        plan = ('feature "water" { %s, beside = "Aspen", length = 300 ft }\n'):format(row[1])
            .. ('buffer { of = "water", inside = "Aspen", width = %d ft }\n'):format(row[2] - 1)
            .. fell,
        speaks = { { "riparian zone", "caution", ("%d ft asked"):format(row[2]) } } }
end

local RETENTION = "Minnesota guidelines, via Univ. Minnesota SFEC 2021: 6 to 12 trees an acre or "
    .. "5 percent in clumps"
list[#list + 1] = { what = "Minnesota leave trees for 6 acres", source = RETENTION,
    region = "lake-states/minnesota",
    plan = fell, speaks = { { "leave trees, state guide", "caution",
        "36 trees to 72 trees, or clumps of 0.3 ac" } } }
list[#list + 1] = { what = "Minnesota leave trees, a clump of 0.3 ac in 6", source = RETENTION,
    region = "lake-states/minnesota", plan = 'keep { stand = "Aspen", area = 0.3 ac }\n' .. fell,
    silent = { "leave trees, state guide" } }
list[#list + 1] = { what = "Minnesota's 6 to 12 leave trees stay under the limit of an aspen "
    .. "sprout cut",
    source = RETENTION .. "; Woodland Stewardship, Univ. Minnesota Extension 2009, "
        .. "ch. 6: 20 an acre",
    region = "lake-states/minnesota",
        plan = 'cut { stand = "Aspen", species = "aspen", leave = 12 trees/ac }',
    silent = { "leave trees, state guide", "leave trees over aspen sprouts" } }

return list
