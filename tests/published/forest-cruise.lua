--- Prisms, plots and borderline trees.
local list = {}
local function add(source, seen, ask, unit, printed, to, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, differs = differs }
end

local HUSCH = "Husch, Beers and Kershaw 2003, Forest Mensuration (a course page repeats it)"
local SLIDES = "university extension slides on point sampling"
local ILES = "Iles, cruising newsletter"
local GEOMETRY = "geometry: 43,560 ft2 an acre"

-- Basal area of a tree.
add(HUSCH, "seen", "handbook.basal_area { diameter = 10 in }:number \"ft2\" / 100", nil,
    0.005454154, 1e-9)
add(HUSCH, "seen", "handbook.basal_area { diameter = 10 cm }:number \"m2\" / 100", nil,
    0.00007854, 1e-8)
add(SLIDES, "seen", "handbook.basal_area { diameter = 12 in }", "ft2", 0.785376, 1e-6,
    "printed with the constant cut to 0.005454")

-- Plot radius factors, feet an inch of diameter.
local function factor(source, seen, baf, face, printed, to, differs)
    if face then
        add(source, seen,
            ("handbook.limiting_distance { baf = %d, diameter = 1 in, to = \"face\" }")
            :format(baf), "ft", printed, to, differs)
    else
        add(source, seen, ("handbook.radius_factor { baf = %d }"):format(baf), "ft/in", printed, to,
            differs)
    end
end
factor(SLIDES, "seen", 10, false, 2.75, 0.01)
factor(SLIDES, "seen", 20, false, 1.944, 0.001, "exact 1.94454 was cut, not rounded")
factor(ILES, "seen", 40, false, 1.375, 0.001)
factor(ILES, "seen", 40, true, 1.3333, 0.0001)
for _, row in ipairs { { 5, 3.889 }, { 15, 2.245 }, { 30, 1.588 } } do
    factor("Grosenbaugh 1952, J. For. 50:32-37", "computed", row[1], false, row[2], 0.001)
end

-- Limiting distances of a 12-in tree.
for _, row in ipairs { { 10, 33, 1 }, { 20, 23.3, 0.1 } } do
    add(SLIDES, "seen", ("handbook.limiting_distance { baf = %d, diameter = 12 in }"):format(
        row[1]), "ft", row[2], row[3])
end

-- Trees an acre for each tree that is in.
add(SLIDES, "seen", "handbook.trees_per_acre { baf = 20, diameter = 12 in }", "trees/ac", 25.479,
    0.001, "the rounding of the plot's 0.039248 ac is in it; exact 25.4648")
add(SLIDES, "seen", "1 / handbook.trees_per_acre { baf = 20, diameter = 12 in }"
    .. ":number \"trees/ac\"", nil, 0.039248, 1e-6,
    "acres of its plot, by the radius factor cut to 1.944")
for _, row in ipairs { { 6, 50.93 }, { 8, 28.65 }, { 10, 18.33 }, { 12, 12.73 }, { 14, 9.35 },
    { 16, 7.16 } } do
    add(HUSCH, "computed", ("handbook.trees_per_acre { baf = 10, diameter = %d in }"):format(
        row[1]), "trees/ac", row[2], 0.01)
end

-- The same prism tree as a stand's tally.
list[#list + 1] = { says = "stand: one 12-in tree at BAF 20, trees/ac",
    script = [[local one = stand "One tree" { area = 1 ac, tally = "baf 20\nplot 1: red oak 12" }]],
    ask = "one:trees()", unit = "trees/ac", printed = 25.479, to = 0.001, source = SLIDES,
    seen = "seen", again = true,
    differs = "the rounding of the plot's 0.039248 ac is in it; exact 25.4648" }
list[#list + 1] = { says = "stand: one 12-in tree at BAF 20, basal area",
    script = list[#list].script,
    ask = "one:basal_area()", unit = "ft2/ac", printed = 20, to = 1, source = SLIDES,
    seen = "seen" }

-- Radii of fixed plots.
for _, row in ipairs { { 5, 52.66 }, { 10, 37.24 }, { 20, 26.33 }, { 24, 24.04 }, { 50, 16.65 },
    { 100, 11.78 }, { 250, 7.45 }, { 300, 6.80 }, { 1000, 3.72 } } do
    add(GEOMETRY, "computed", ("handbook.plot_radius { size = 1/%d * (1 ac) }"):format(row[1]),
        "ft",
        row[2], 0.01)
end

-- Slope: what 100 ft along it are on the level.
for _, row in ipairs { { 10, 99.504 }, { 20, 98.058 }, { 30, 95.783 }, { 40, 92.848 },
    { 50, 89.443 } } do
    add(GEOMETRY, "computed", ("handbook.slope_distance { along = 100 ft, slope = %d percent }")
        :format(row[1]), "ft", row[2], 0.001)
end

return list
