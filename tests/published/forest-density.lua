--- Mean diameter, density index, crowns, stocking.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local LARSEN = "D. R. Larsen, Univ. Missouri, teaching notes 2012"
local REINEKE = "Reineke 1933, J. Agric. Res. 46:627-638"
local GINGRICH = "Gingrich 1967, For. Sci. 13:38-53"
local KRAJICEK = "Krajicek, Brinkman and Gingrich 1961, For. Sci. 7:35-42"

add(LARSEN, "seen", "handbook.quadratic_mean { basal_area = 80 ft2/ac, trees = 200 trees/ac }",
    "in",
    8.56, 0.01)
add(LARSEN, "seen", "handbook.quadratic_mean { basal_area = 18.3 m2/ha, trees = 494.1 trees/ha }",
    "cm", 21.7, 0.1)
add(REINEKE, "seen", "handbook.density_index { trees = 200 trees/ac, diameter = 12.3 in }",
    "trees/ac", 278.8, 0.1, "worked in Larsen's notes")
-- The metric index is a tree of 25.4 cm, which is 10 in.
add(REINEKE, "seen", "handbook.density_index { trees = 494.1 trees/ha, diameter = 31 cm }",
    "trees/ha", 680.2, 0.1, "worked in Larsen's notes", "exact 680.29 was cut, not rounded")
add(REINEKE, "computed", "handbook.density_index { trees = 100 trees/ac, diameter = 10 in }",
    "trees/ac",
    100, 1, "by definition: a 10-in tree stands for one")

-- Stocking of upland oak: 150 trees, 115 ft2 an acre.
add(GINGRICH, "seen", "handbook.stocking { guide = \"upland oak\", trees = 150 trees/ac, "
    .. "basal_area = 115 ft2/ac }", "percent", 95, 1, "class exercise on the chart")
-- A and B lines.
for _, row in ipairs { { 4, 81.3, 46.4 }, { 6, 96.4, 56.4 }, { 8, 107.2, 62.8 }, { 10, 115.4,
    67.2 },
    { 12, 121.7, 70.4 }, { 14, 126.8, 72.8 }, { 16, 130.9, 74.8 }, { 18, 134.4, 76.3 },
    { 20, 137.3, 77.6 } } do
    for i, line in ipairs { "A", "B" } do
        add(i == 1 and GINGRICH or KRAJICEK, "computed",
            ("handbook.stocking_line { guide = \"upland oak\", line = %q, "
                .. "diameter = %d in }"):format(
                line, row[1]), "ft2/ac", row[1 + i], 0.1)
    end
end

return list
