--- What comes after a cut: suckers and sprouts.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local JOHNSON = "Johnson 1975, For. Sci. 21:413-418"
local MUJURI = "Mujuri and Demchik 2009, North. J. Appl. For. 26:83-85"
local PERALA = "Perala 1977, Gen. Tech. Rep. NC-36"
local JONES = "Jones 1975, Res. Note RM-285"
local PALIK = "Palik and others 2003, North. J. Appl. For. 20:79-84"
local HUFFMAN = "Huffman, Fajvan and Wood 1999, Can. J. For. Res. 29:284-289 (authors from memory)"
local KRASNY = "Krasny and Johnson 1992, Can. J. For. Res. 22:1424-1429 (authors from memory)"

-- Odds that a stump sprouts.
local function odds(source, seen, species, diameter, printed, to)
    add(source, seen, ("handbook.sprouting { species = %q, diameter = %d in }"):format(species,
        diameter), "percent", printed, to)
end
odds(JOHNSON, "seen", "northern red oak", 8, 56, 1)
odds(JOHNSON, "seen", "northern red oak", 26, 0, 1)
for _, row in ipairs { { 10, 50 }, { 12, 44 }, { 14, 37 }, { 16, 31 }, { 18, 25 }, { 20, 19 } } do
    odds(JOHNSON, "computed", "northern red oak", row[1], row[2], 1)
end
odds(MUJURI, "seen", "northern pin oak", 10, { 71, 100 })

-- Aspen suckers after a dormant-season cut of all trees. Where one stand was seen, what was
-- seen lies between the low and the high end of what is expected (9 chances in 10 each).
local BENSON = "Benson and Einspahr 1972, Genetics and Physiology Notes 14"
local MUNDELL = "Mundell, Landhausser and Lieffers 2008, For. Ecol. Manage. 255:68-74"
local ENDLESS = math.huge

local function seen_once(source, ask, unit, value, where)
    add(source, "seen", ("%s:low %q"):format(ask, unit), nil, { 0, value }, nil, where)
    add(source, "seen", ("%s:high %q"):format(ask, unit), nil, { value, ENDLESS }, nil, where)
    list[#list].again = true
end
local function suckers(keys) return ("handbook.suckers { %s }"):format(keys) end
local function heights(keys) return ("handbook.sucker_height { %s }"):format(keys) end
--- One answer over another, as bare numbers.
local function ratio(over, under, unit)
    return ("%s:number %q / %s:number %q"):format(over, unit, under, unit)
end

seen_once(BENSON, suckers "year = 1, age = 18 yr", "stems/ac", 37000, "after a stand of 18 years")
seen_once(BENSON, heights "year = 1, of = \"mean\"", "ft", 2.6, "after a stand of 18 years")
seen_once(JONES, suckers "year = 1", "stems/ac", 14000, "5-acre clearcut, Arizona")
seen_once(JONES, suckers "year = 4", "stems/ac", 10700, "5-acre clearcut, Arizona")
seen_once(PALIK, heights "year = 3, of = \"mean\"", "in", 71, "clearcut")
seen_once(PALIK, heights "year = 3, of = \"mean\", residual = 54 ft2/ac", "in", 68, "63 to 73 in")
for year = 6, 10 do
    add(HUFFMAN, "seen", suckers(("year = %d"):format(year)), "stems/ac", { 2885, 17674 }, nil,
        "ages 6 to 10, 32 Minnesota stands")
    list[#list].again = year > 6
end
for _, row in ipairs { { 1, 12000, 35000 }, { 5, 6000, 10000 }, { 10, 2500, 5000 },
    { 20, 1200, 2000 } } do
    add(PERALA, "memory", suckers(("year = %d"):format(row[1])), "stems/ac", { row[2], row[3] },
        nil,
        "planning line")
end
for _, row in ipairs { { 1, 3, 6 }, { 2, 6, 9 }, { 5, 14, 20 }, { 10, 25, 32 } } do
    add(PERALA, "memory", heights(("year = %d"):format(row[1])), "ft", { row[2], row[3] }, 1,
        "planning line, dominant height")
end
add(KRASNY, "seen", ratio(suckers "year = 3", suckers "year = 1", "stems/ac"), nil, { 0, 0.5 }, nil,
    "over half dead by year 3",
        "Jones lost 24 percent in four seasons; what is expected lies between")
add(PALIK, "seen", ratio(suckers "year = 1", suckers "year = 1, residual = 54 ft2/ac", "stems/ac"),
    nil, 1.62, 0.01, "62 percent denser where all was cut")
add(MUNDELL, "seen", ratio(heights "year = 2, machines = true, season_left = 50 percent",
    heights "year = 2, season_left = 50 percent", "ft"), nil, 0.81, 0.01,
    "summer traffic: 19 percent lower")
add(PERALA, "memory", ratio(heights "year = 5, residual = 12.5 ft2/ac", heights "year = 5", "ft"),
    nil,
    { 0.60, 0.65 }, nil, "10 to 15 ft2 left over them slow growth by 35 to 40 percent",
    "from memory, and Palik's 63 to 73 in under 54 ft2 against 71 in speak for far less")

return list
