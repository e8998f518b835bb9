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

-- Suckers an acre and their height, after a dormant-season cut of all trees.
local function suckers(source, seen, year, printed, where)
    add(source, seen, ("handbook.suckers { year = %d }"):format(year), "stems/ac", printed, nil,
        where)
end
for _, row in ipairs { { 1, 12000, 35000 }, { 5, 6000, 10000 }, { 10, 2500, 5000 } } do
    suckers(PERALA, "memory", row[1], { row[2], row[3] }, "planning line")
end
suckers(JONES, "seen", 4, { 2500, 10700 }, "10,700 of 14,000 left after four seasons")
suckers(HUFFMAN, "seen", 8, { 2885, 17674 }, "ages 6 to 10, 32 Minnesota stands")
for _, row in ipairs { { 1, 3, 6 }, { 2, 6, 9 }, { 5, 14, 20 }, { 10, 25, 32 } } do
    add(PERALA, "memory", ("handbook.sucker_height { year = %d }"):format(row[1]), "ft",
        { row[2], row[3] }, nil, "planning line, dominant height")
end
add(KRASNY, "seen",
    "handbook.suckers { year = 3 }:number \"stems/ac\" / handbook.suckers { year = 1 }"
    .. ":number \"stems/ac\"", nil, { 0, 0.5 }, nil, "over half dead by year 3")
add(PALIK, "seen",
    "handbook.suckers { year = 1 }:number \"stems/ac\" / handbook.suckers { year = 1, "
    .. "residual = 54 ft2/ac }:number \"stems/ac\"", nil, 1.62, 0.01,
    "62 percent denser where all was cut")

return list
