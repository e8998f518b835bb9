--- Stocking: which guide fits trees, how full they stand by it, and how much would stand at
--- one of its lines. Of any stock: a stand's, or what an act leaves of it.
---
---     stocking.percent(record.cruise, {}, place)              -- by the guide that fits
---     stocking.line(act.left, { line = "B", guide = "upland oak" }, place)     -- ft2/ac
local M = {}
local data = need "stocking_guides"
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"

for _, row in ipairs(data.gravity) do
    forest.species_fill(row[1], { wood_gravity = row[2], source = data.gravity.source })
end

local MIXED = "mixed"

local by_name, names = {}, {}
for i, guide in ipairs(data.guides) do
    by_name[guide.name] = guide
    names[i] = guide.name
end

--- The names of guides, with those that stand for another.
M.names = {}
for i, name in ipairs(names) do M.names[i] = name end
M.names[#M.names + 1] = "red pine"
M.names[#M.names + 1] = MIXED

local function is_among(species, words)
    for _, word in ipairs(words) do
        if forest.species_among(word, species) then return true end
    end
    return false
end

local natural = {} -- the guide made for stands of a species, by its name

local function natural_guide(species)
    local guide = natural[species]
    if not guide then
        guide = by_name["wood density"]
        for _, one in ipairs(data.guides) do
            if is_among(species, one.natural) then
                guide = one
                break
            end
        end
        natural[species] = guide
    end
    return guide
end

--- The group of a guide that a species is counted with.
local function group_of(guide, species)
    for i = 2, #guide.groups do
        if is_among(species, guide.groups[i].species) then return guide.groups[i] end
    end
    return guide.groups[1]
end

--- Room of a species at the A level of a guide: a, b, c or k. Without a species, of any that
--- the guide counts with its first group.
local function room_of(guide, species)
    if guide.wood then
        local gravity = forest.species_trait(species, "wood_gravity")
            or forest.species_among("conifer", species) and data.gravity.conifer or data.gravity.hardwood
        return { k = forest.stocking_wood_density(gravity) }
    end
    if not species or #guide.groups == 1 then return guide.groups[1] end
    guide.group_of = guide.group_of or {}
    guide.group_of[species] = guide.group_of[species] or group_of(guide, species)
    return guide.group_of[species]
end

--- Room of a species where 100 percent are a line.
local function room_at(guide, line, species)
    local at = guide.lines[line]
    local room = at.a and at or room_of(guide, species)
    local times = 100 / at.percent
    if times == 1 then return room end
    return { a = (room.a or 0) * times, b = (room.b or 0) * times, c = (room.c or 0) * times, k = (room.k or 0) * times }
end

--- Shares of the basal area by the guides made for its species, the largest first.
local function shares(stock)
    local area, list, all = {}, {}, 0
    for _, row in ipairs(stock:classes(0)) do
        local guide = natural_guide(row.species)
        area[guide] = (area[guide] or 0) + row.basal_area
        all = all + row.basal_area
    end
    for _, guide in ipairs(data.guides) do
        if (area[guide] or 0) > 0 then list[#list + 1] = { guide = guide, percent = 100 * area[guide] / all } end
    end
    table.sort(list, function(x, y)
        if x.percent ~= y.percent then return x.percent > y.percent end
        return x.guide.name < y.guide.name
    end)
    return list
end

local function mixed_words(list)
    local parts, wood = {}, false
    for i, row in ipairs(list) do
        parts[i] = ("%.0f percent by \"%s\", %s"):format(row.percent, row.guide.name, row.guide.source)
        wood = wood or row.guide.wood
    end
    return "mixed guides, each species by its own; of the basal area " .. table.concat(parts, "; ")
        .. (wood and "; its most stands for their A level" or "")
end

--- Is there nothing in it but aspen?
local function is_aspen(stock)
    for _, name in ipairs(stock:species()) do
        if not forest.species_among("aspen", name) then return false end
    end
    return true
end

--- A guide by the name that an author gave; raises where there is none.
local function named(name, place)
    local other = data.other[name]
    if other and other.none then
        return host.raise(place, "guide", "stocking-none", other.none, other.mend)
    elseif other then
        return by_name[other.guide], other
    end
    if by_name[name] then return by_name[name] end
    local near = host.suggest(name, M.names)
    return host.raise(place, "guide", "stocking-guide-unknown", ("there is no stocking guide \"%s\""):format(name),
        near and ("did you mean \"%s\"?"):format(near) or "there are \"" .. table.concat(M.names, "\", \"") .. "\"")
end

--- The guide for trees: the one that is named, the one that most of them ask for, or a mix.
-- @return { name, words, of = function(species) guide end, list }
function M.choose(stock, name, place)
    if not stock:has() then
        return host.raise(place, nil, "figure-none", "there are no trees, so nothing to measure by a stocking guide")
    end
    local guide, other
    local list = shares(stock)
    if name and name ~= MIXED then
        guide, other = named(name, place)
    elseif not name and list[1].percent >= data.alone then
        guide = list[1].guide
    end
    if not guide then
        return { name = MIXED, words = mixed_words(list), of = natural_guide, list = list }
    end
    local words = ("guide \"%s\": %s"):format(guide.name, guide.source)
    if other then
        words = ("%s; %s"):format(other.note, words)
    elseif not name and guide.wood and is_aspen(stock) then
        words = ("%s; %s"):format(data.other.aspen.none, words)
    end
    return { name = guide.name, words = words, of = function() return guide end, list = { { guide = guide } } }
end

local function rooms_of(stock, choice, line)
    local rooms = {}
    for _, species in ipairs(stock:species()) do
        local guide = choice.of(species)
        rooms[species] = line and room_at(guide, line, species) or room_of(guide, species)
    end
    return rooms
end

--- Percent of the A level.
-- @param values guide (a name or nil), species (words: only what these take of it)
function M.percent(stock, values, place)
    local choice = M.choose(stock, values.guide, place)
    local species = values.species
    return forest.stocking(stock, species and { species = species, what = table.concat(species, ", ") } or nil,
        rooms_of(stock, choice), choice.words)
end

--- Tells when a line is none of a guide's.
local function check_line(guide, line, place)
    if guide.lines[line] then return end
    host.raise(place, "line", "stocking-line-none", ("there is no %s line of guide \"%s\": %s"):format(line, guide.name,
        guide.none[line] or "it has none"), "line = \"B\"")
end

--- "B line: crowns just close, Krajicek ..."
local function line_words(guide, line)
    local at = guide.lines[line]
    local words = ("%s line of guide \"%s\", %s"):format(line, guide.name, at.says)
    if line ~= "A" and at.percent ~= 100 then
        return ("%s: %s; %s"):format(words, at.source, guide.source)
    end
    return ("%s: %s"):format(words, at.source or guide.source)
end

--- How much of the same make-up stands at a line: basal area, or trees when `as` says so.
-- @param values line, guide, as
function M.line(stock, values, place)
    local choice, words = M.choose(stock, values.guide, place), {}
    for i, row in ipairs(choice.list) do
        check_line(row.guide, values.line, place)
        words[i] = line_words(row.guide, values.line)
    end
    local full = forest.stocking(stock, nil, rooms_of(stock, choice, values.line), table.concat(words, "; "))
    local trees = values.as == "trees"
    local now = trees and stock:trees() or stock:basal_area()
    return quantity.say(now * quantity.leaf(100, "percent", "the line itself") / full,
        trees and "trees/ac" or "ft2/ac")
end

--- The line of a guide as its chart has it, for one species.
local function chart_line(values, line, place)
    local guide, other = named(values.guide, place)
    local species = values.species or other and other.species
    check_line(guide, line, place)
    if not species and (guide.wood or #guide.groups > 1) then
        return host.raise(place, nil, "stocking-species", ("guide \"%s\" goes by species"):format(guide.name),
            guide.wood and "species = \"red pine\"" or "species = \"sugar maple\", or \"red maple\"")
    end
    local one = species and forest.species_one(species)
    if species and not one then
        return host.raise(place, "species", "stocking-species", ("\"%s\" are several species"):format(species),
            "say which one")
    end
    local name = species and forest.species_info(species).name
    local room, at = room_of(guide, name), guide.lines[line]
    local own = at.a and at or room
    local mean = guide.mean or { from = 0, slope = 1 } -- else trees of one diameter
    local words = line_words(guide, line)
    if other then words = ("%s; %s"):format(other.note, words) end
    if name and guide.wood then words = ("%s, %s"):format(words, name) end
    return { a = own.a, b = own.b, c = own.c, k = own.k, percent = at.percent, mean_from = mean.from,
        mean_slope = mean.slope }, words
end

--- Percent of a guide from two of trees per acre, quadratic mean diameter and basal area.
function M.percent_of(values, place)
    local told = 0
    for _, key in ipairs({ "trees", "diameter", "basal_area" }) do told = told + (values[key] and 1 or 0) end
    if told ~= 2 then
        return host.raise(place, nil, "stocking-two", ("stocking wants two of `trees`, `diameter` and `basal_area`; there %s %d")
            :format(told == 1 and "is" or "are", told), "trees = 150 trees/ac, basal_area = 115 ft2/ac")
    end
    local line, words = chart_line(values, "A", place)
    return forest.stocking_of(line, values.trees, values.diameter, values.basal_area, words)
end

--- Basal area (or trees) at a line of a guide, for trees of a quadratic mean diameter.
function M.line_of(values, place)
    local line, words = chart_line(values, values.line, place)
    local of = values.as == "trees" and forest.stocking_trees_at or forest.stocking_basal_area_at
    return of(line, values.diameter, words)
end

return M
