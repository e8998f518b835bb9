--- Acorns and browse.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local DOWNS = "Downs 1944, J. Wildl. Manage. 8:339-340, by Larsen's fits"
local HALLS = "Halls 1973, SEAFWA 27 (author from a file name)"

local function acorns(species, diameter, printed, to, seen)
    add(DOWNS, seen or "computed",
        ("handbook.acorns { species = %q, diameter = %d in }"):format(species,
        diameter), "lb/tree", printed, to)
end
acorns("black oak", 22, 4.6341, 0.0001, "seen")
for _, row in ipairs { { 12, 2.95 }, { 14, 6.75 }, { 16, 10.47 }, { 18, 13.59 }, { 20, 15.74 },
    { 22, 16.71 }, { 24, 16.44 }, { 28, 12.70 } } do
    acorns("northern red oak", row[1], row[2], 0.01)
end
for _, row in ipairs { { 12, 1.17 }, { 16, 4.73 }, { 20, 9.23 }, { 24, 12.38 }, { 28, 13.12 } } do
    acorns("white oak", row[1], row[2], 0.01)
end
acorns("northern red oak", 10, 0, 0.01) -- the fit is below nothing there: none

add(HALLS, "seen", "handbook.browse_reach { snow = 0 in }", "ft", 5, 1)
add("Aldous 1952, J. Wildl. Manage. 16:401 (author from memory)", "seen",
    "handbook.browse_reach { snow = 24 in, yarded = true } - 24 in", "ft", 7, 1,
    "the line of eaten cedar, above the snow")
-- 6 to 8 percent of 150 lb are 9 to 12 lb a day; of browse that stands there half is eaten
-- (common practice, no source).
add("Penn State woodland column 2019", "seen", "handbook.deer_days { browse = 240 lb/ac }", "d/ac",
    { 10, 120 / 9 }, nil, "up to 12 lb a day")

return list
