--- What the wood of each species weighs, its bark and its biomass equation: traits filled in
--- when something first asks for them, and only where no layer has said them.
local forest = need "forest"

local handbook = "Wood Handbook, FPL-GTR-190, ch. 5, green volume and dry weight: from memory"
local jenkins = "Jenkins and others 2003, For. Sci. 49:12-35, table 4; which species are in a group: from memory"
local bark = "common practice, no source: from memory"

-- Groups of that table by their number in forest.biomass_groups().
local ASPEN, BIRCH, MIXED, OAK, CEDAR, FIR, PINE, SPRUCE = 1, 2, 3, 4, 5, 6, 7, 8

-- name, group, specific gravity, diameter inside bark as a part of that outside
local rows = {
    { "bigtooth aspen", ASPEN, 0.36, 0.93 }, { "quaking aspen", ASPEN, 0.35, 0.93 },
    { "balsam poplar", ASPEN, 0.31, 0.91 }, { "eastern cottonwood", ASPEN, 0.37, 0.90 },
    { "paper birch", BIRCH, 0.48, 0.95 }, { "yellow birch", BIRCH, 0.55, 0.95 },
    { "red maple", BIRCH, 0.49, 0.95 }, { "sugar maple", OAK, 0.56, 0.94 },
    { "silver maple", BIRCH, 0.44, 0.95 }, { "boxelder", BIRCH, 0.42, 0.94 },
    { "northern red oak", OAK, 0.56, 0.93 }, { "northern pin oak", OAK, 0.58, 0.93 },
    { "black oak", OAK, 0.56, 0.92 }, { "white oak", OAK, 0.60, 0.93 },
    { "bur oak", OAK, 0.58, 0.90 }, { "swamp white oak", OAK, 0.64, 0.92 },
    { "American basswood", MIXED, 0.32, 0.92 }, { "ironwood", MIXED, 0.63, 0.95 },
    { "American hornbeam", MIXED, 0.58, 0.96 }, { "American beech", OAK, 0.56, 0.96 },
    { "bitternut hickory", OAK, 0.60, 0.92 }, { "shagbark hickory", OAK, 0.64, 0.92 },
    { "black walnut", MIXED, 0.51, 0.90 }, { "black cherry", MIXED, 0.47, 0.94 },
    { "pin cherry", MIXED, 0.36, 0.95 }, { "white ash", MIXED, 0.55, 0.92 },
    { "green ash", MIXED, 0.53, 0.92 }, { "black ash", MIXED, 0.45, 0.93 },
    { "American elm", MIXED, 0.46, 0.92 },
    { "red pine", PINE, 0.41, 0.92 }, { "eastern white pine", PINE, 0.34, 0.92 },
    { "jack pine", PINE, 0.40, 0.92 }, { "Scotch pine", PINE, 0.40, 0.91 },
    { "white spruce", SPRUCE, 0.33, 0.94 }, { "black spruce", SPRUCE, 0.38, 0.94 },
    { "Norway spruce", SPRUCE, 0.34, 0.94 }, { "balsam fir", FIR, 0.33, 0.94 },
    { "northern white-cedar", CEDAR, 0.29, 0.94 }, { "eastern hemlock", FIR, 0.38, 0.92 },
    { "tamarack", CEDAR, 0.49, 0.93 }, { "eastern redcedar", CEDAR, 0.44, 0.94 },
}

local M = { groups = forest.biomass_groups() }

for _, row in ipairs(rows) do
    local group = M.groups[row[2]]
    forest.species_fill(row[1], { wood_gravity = row[3], source = handbook })
    forest.species_fill(row[1], { biomass_0 = group.b0, biomass_1 = group.b1,
        source = ("%s (%s)"):format(jenkins, group.name) })
    forest.species_fill(row[1], { inside_bark = row[4], source = bark })
end

-- Shrubs that the table names; their wood has no row in the handbook.
for _, name in ipairs({ "speckled alder", "willow" }) do
    if forest.species_known(name) then
        forest.species_fill(name, { biomass_0 = M.groups[ASPEN].b0, biomass_1 = M.groups[ASPEN].b1,
            source = ("%s (%s)"):format(jenkins, M.groups[ASPEN].name) })
    end
end

--- Species that a word means: itself, or those of a group.
local function meant(word)
    local list = {}
    for _, name in ipairs(forest.species_names()) do
        if forest.species_among(word, name) then list[#list + 1] = name end
    end
    return list
end

--- What is said of every species that a word means, when it is the same of all.
-- @param of function(species): the value and its source
-- @return value, source, or nil and the two that differ
function M.of_all(word, of)
    local value, source, first
    for _, name in ipairs(meant(word)) do
        local own, words = of(name)
        if not first then
            first, value, source = name, own, words
        elseif own ~= value then
            return nil, { first, name }
        end
    end
    return value, source
end

--- The equation of a species, or of a group whose species share one: b0, b1, is it a softwood,
--- words. The national group for all others where no layer says it.
-- @return nil and the two species that differ
function M.equation(word)
    local b0, source = M.of_all(word, function(name) return forest.species_trait(name, "biomass_0") end)
    local b1, other = M.of_all(word, function(name) return forest.species_trait(name, "biomass_1") end)
    local softwood, mixed = M.of_all(word, function(name) return forest.is_softwood(name) end)
    for _, two in ipairs({ source or false, other or false, mixed or false }) do
        if type(two) == "table" then return nil, two end
    end
    if b0 and b1 then return b0, b1, softwood, source end
    local group = M.groups[softwood and PINE or MIXED]
    return group.b0, group.b1, softwood, ("%s (%s, as the species has none of its own)"):format(jenkins, group.name)
end

--- A group by its name, or by one word of it ("aspen").
function M.group(word)
    for _, group in ipairs(M.groups) do
        if group.name == word then return group end
        for part in group.name:gmatch("[^,]+") do
            if part:match("^%s*(.-)$") == word then return group end
        end
    end
    return nil
end

M.source = "Jenkins, Chojnacky, Heath and Birdsey 2003, For. Sci. 49:12-35"

return M
