--- Board feet, cubic feet and cords of standing trees; weights.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local WIANT = "Wiant 1986, North. J. Appl. For. 3:124, fit to Mesavage and Girard 1946"
local BEERS = "Beers 1964, Composite hardwood volume tables, Purdue Res. Bull. 787"
local ASHLEY = "USDA Forest Service, Reference Handbook, NA-FR-15 (Ashley 1989, revised 2001)"
local CORDS = "university extension table of cords by diameter"
local MINNESOTA = "Minn. Stat. 239.33"
local WOODLAND = "Baughman and others 2009, Woodland Stewardship, Univ. Minnesota Extension"
local COOK = "Cook, Michigan State Univ. Extension, articles 209 and 218"
local WOOD = "Wood Handbook, FPL-GTR-190, ch. 4"

-- Two of the whole-foot figures that were worked out beside these coefficients do not follow
-- from them.
local WORKED = { doyle = { [12] = { [3] = "the coefficients as printed give 53.48" } },
    scribner = { [16] = { [2] = "the coefficients as printed give 156.46" } } }

local function tree(rule, diameter, logs, class, printed, to, seen)
    add(WIANT, seen or "seen", ("handbook.tree_volume { rule = %q, diameter = %d in, logs = %g, "
        .. "form_class = %d }"):format(rule, diameter, logs, class), "board ft", printed,
            to or 0.001, nil, seen and ((WORKED[rule] or {})[diameter] or {})[logs])
end
for _, row in ipairs { { "international", 519.665, 582.025 }, { "scribner", 484.581, 542.730 },
    { "doyle", 428.942, 480.415 } } do
    tree(row[1], 24, 2.5, 78, row[2])
    tree(row[1], 24, 2.5, 82, row[3])
end
for _, row in ipairs { { "international", 12, 56, 91, 120 }, { "doyle", 12, 29, 44, 54 },
    { "international", 16, 107, 177, 236 }, { "scribner", 16, 95, 157, 206 },
    { "doyle", 16, 74, 114, 145 }, { "international", 20, 174, 292, 395 },
    { "doyle", 20, 139, 221, 290 } } do
    for logs = 1, 3 do tree(row[1], row[2], logs, 78, row[2 + logs], 1, "computed") end
end

-- Composite equations.
local function composite(diameter, height, as, unit, printed, to, seen, source, differs)
    add(source or BEERS, seen or "seen", ("handbook.composite_volume { diameter = %d in, "
        .. "height = %g ft, as = %q%s }"):format(diameter, height, as:gsub(", bark", ""),
        as:find("bark") and ", bark = true" or ""), unit, printed, to, nil, differs)
end
composite(10, 26, "cubic feet, bark", "ft3", 10.84, 0.01)
composite(10, 26, "board feet", "board ft", 57.84, 0.01)
composite(10, 26, "cords", "cord", 0.1178, 0.0001, "computed")
composite(10, 26, "cubic feet", "ft3", 8.96, 0.01, "computed")

-- The same equations against a table of the Lake States, by 16-ft logs.
local OTHER = "the table and the equations are two authors'"
for _, row in ipairs { { 12, 0.5, 30 }, { 12, 1, 60 }, { 12, 1.5, 80 }, { 12, 2, 100 },
    { 12, 2.5, 120 }, { 14, 0.5, 40, OTHER }, { 14, 1, 80 }, { 14, 1.5, 110 }, { 14, 2, 140 },
    { 14, 2.5, 160, OTHER }, { 14, 3, 180, OTHER } } do
    composite(row[1], 16 * row[2], "board feet", "board ft", row[3], 10, "seen", ASHLEY, row[4])
end

-- Cords by diameter, and as a stand answers for one such tree an acre.
for _, row in ipairs { { 5, 0.03 }, { 6, 0.03 }, { 7, 0.08 }, { 8, 0.08 }, { 9, 0.15 }, { 10,
    0.15 },
    { 11, 0.23 }, { 12, 0.23 }, { 13, 0.33 }, { 14, 0.33 }, { 15, 0.45 }, { 16, 0.45 }, { 17,
        0.58 },
    { 18, 0.58 }, { 19, 0.73 }, { 20, 0.73 } } do
    add(CORDS, "seen", ("handbook.cords { diameter = %d in }"):format(row[1]), "cord", row[2], 0.01)
    list[#list].again = row[1] % 2 == 0 -- a class is two inches wide
end
for _, row in ipairs { { 6, 0.03 }, { 10, 0.15 }, { 14, 0.33 }, { 20, 0.73 } } do
    list[#list + 1] = { says = ("stand: cords of one %d-in tree an acre"):format(row[1]),
        script = ("local s%d = stand \"One of %d\" { area = 1 ac, tally = \"size 1 ac\\nplot 1: "
            .. "bigtooth aspen %d\" }"):format(row[1], row[1], row[1]),
        ask = ("s%d:cords()"):format(row[1]), unit = "cord/ac", printed = row[2], to = 0.01,
        source = CORDS, seen = "seen", again = true }
end

-- A cord: 128 ft3 of stack, less of wood.
add(MINNESOTA, "seen", "1 cord", "ft3", 128, 1)
add(MINNESOTA, "seen", "handbook.convert { amount = 1 cord, to = \"cubic feet\" }", "ft3", 79,
    1,
    "a fresh cord sold by weight")
for _, row in ipairs { { "4-ft lengths", 128 }, { "sawed, ranked", 110 }, { "sawed, loose", 160 },
    { "split, ranked", 120 }, { "split, loose", 175 } } do
    add(MINNESOTA, "seen", ("handbook.convert { amount = 1 cord, to = \"rough cubic feet\", "
        .. "stack = %q }"):format(row[1]), "ft3", row[2], 1)
end
add(WOODLAND, "seen", "handbook.convert { amount = 1 cord, to = \"cubic feet\" }", "ft3", 79,
    1,
    "ch. 2, accepted average of the Lake States")
add(COOK, "seen", "handbook.convert { amount = 1 cord, to = \"cubic feet\" }", "ft3", 80, 1,
    nil,
    "Michigan's rule of thumb; 79 is Minnesota's")

-- Green tons a cord, as a stand answers for trees of one cord.
local function tons(name, species, printed)
    list[#list + 1] = { says = "stand: green tons of one cord of " .. species,
        script = ("local %s = stand \"%s\" { area = 1 ac, "
            .. "tally = \"size 1 ac\\nplot 1: %s 10x20\" }"):format(name, name, species),
        ask = ("%s:tons():number \"tons/ac\" / %s:cords():number \"cord/ac\""):format(name, name),
        printed = printed, to = 0.01, source = WOODLAND, where = "ch. 2", seen = "seen" }
end
tons("aspens", "bigtooth aspen", 2.4)
tons("oaks", "northern red oak", 2.85)

-- Wood of specific gravity 0.4 at 12 percent moisture.
add(WOOD, "seen", "handbook.weight { gravity = 0.4, moisture = 12 percent }", "lb/ft3", 27.968,
    0.001, "worked on a course page", "exact 27.96864 was cut, not rounded")
add(WOOD, "seen", "handbook.weight { gravity = 0.4, moisture = 12 percent }", "kg/m3", 448, 1)

return list
