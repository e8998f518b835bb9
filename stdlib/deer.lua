--- What layers of young growth and trees are to a deer: how well they hide it, what it finds to
--- eat within reach; and the nuts of trees.
local M = {}
local data = need "wildlife"
local forest = need "forest"
local quantity = need "quantity"
local young = need "young_growth"

local HIDING = "geometry of stems strewn at random; " .. data.width.bare.source

local function sum(how, list, unit, words)
    if #list == 0 then return how.leaf(0, unit, words) end
    return how.sum(list)
end

--- Stem width an acre in a band of height, of layers and trunks.
-- @param trunks { trees, diameter } or nil
-- @param leaf "bare" or "leafy"
-- @param how young_growth's measured (the usual) or plain; so below
function M.screen(layers, trunks, band, leaf, where, how)
    how = how or young.measured
    local width = young.doubt(data.width[leaf], where, "width that a stem shows, " .. leaf)
    local parts = {}
    for _, layer in ipairs(layers) do
        parts[#parts + 1] = how.equation("screen of stems", { layer.stems, layer.mean, layer.dominant, width }, band,
            HIDING)
    end
    if trunks then parts[#parts + 1] = how.equation("screen of trunks", { trunks.trees, trunks.diameter }, {},
        HIDING) end
    return sum(how, parts, "ft/ac", "nothing stands in the way")
end

local leaves = {} -- by words, then by number

--- A certain length of our tables.
local function feet_of(number, words)
    local there = leaves[words] or {}
    leaves[words] = there
    there[number] = there[number] or quantity.leaf(number, "ft", words)
    return there[number]
end

--- Percent hidden at a distance in feet.
function M.hidden(screen, feet, how)
    return (how or young.measured).equation("hidden at a distance", { screen, feet_of(feet, "looked at from") }, {}, HIDING)
end

--- The distance at which a deer is hidden, as the trade asks for it.
function M.hides_within(screen, how)
    return (how or young.measured).equation("distance that hides", { screen, quantity.leaf(data.hides.percent, "percent",
        data.hides.source) }, {}, HIDING)
end

--- How well a lying and a standing deer are hidden: percents at the usual distance.
function M.cover(layers, trunks, leaf, where, how)
    local low = M.screen(layers, trunks, data.bands[1], leaf, where, how)
    local high = M.screen(layers, trunks, data.bands[2], leaf, where, how)
    local lying = M.hidden(low, data.look_from.feet, how)
    return { lying = lying, standing = math.min(lying, M.hidden(high, data.look_from.feet, how)), low = low,
        high = high }
end

--- Reach of a deer above what it stands on.
function M.reach(snow)
    local on_snow = snow and quantity.number(snow, "ft") > 0
    local row = on_snow and data.reach_on_snow or data.reach
    return feet_of(row.feet, row.source)
end

local EATEN = "of kinds that deer eat: " .. data.wanted.source

--- Pounds an acre within reach.
-- @param season "winter" or "summer"
-- @param snow a depth, or nil
-- @param yarded deer that are held by snow on a packed floor reach as far as the cedar line
function M.browse(layers, season, snow, where, yarded, how)
    how = how or young.measured
    local depth = snow or feet_of(0, "no snow")
    local twigs = young.doubt(data.twigs[season], where, ("fresh %s on a foot of stem"):format(
        season == "winter" and "twigs" or "twigs and leaves"))
    local reach = M.reach(yarded and snow or nil)
    local parts = {}
    for _, layer in ipairs(layers) do
        local wanted = young.percent(layer.wanted or data.wanted[1], EATEN)
        parts[#parts + 1] = how.equation("browse within reach", { layer.stems, layer.mean, layer.dominant, twigs,
            wanted, depth, reach }, {}, data.reach.source)
    end
    return sum(how, parts, "lb/ac", "no young growth within reach")
end

--- Deer-days an acre of so much browse.
function M.deer_days(browse, where, how)
    return (how or young.measured).equation("deer-days", { browse, young.doubt(data.use, where, "what plants stand to lose"),
        young.doubt(data.deer, where, "weight of a deer"), young.doubt(data.food, where,
            "food a day, of its weight") }, {},
        data.food.source)
end

--- The coefficients, first and last diameter and source of a species that bears; nil else.
function M.mast_row(species)
    local from, source = young.trait(species, "mast_from")
    if not from then return nil end
    local row = {}
    for i = 1, 5 do row[i] = young.trait(species, "mast_" .. (i - 1)) or 0 end
    return row, from, young.trait(species, "mast_to") or from, source
end

--- How far a species' trees bear, the kind of year, room for the crown.
-- @param released true, or the part (0 to 1) of the room that a cut gave
local function mast_doubts(where, year, released)
    local kind = data.years[year or "mean"]
    local part = released == true and 1 or released or 0
    local room = part > 0 and need("patch_growth").with_room(young.doubt(data.released, where,
        "what a released crown bears"), part) or young.percent(100, "crowns as they stand")
    return young.doubt(data.bearing, where, "how well these trees bear"),
        young.doubt(kind, where, ("a %s year"):format(year or "mean"), "percent", data.years.source), room
end

--- Kinds of a stock that bear: { name, row, classes = { { trees, diameter } } }, in the order of
--- the notes; and the names of those that are in no table.
local function find_bearers(stock)
    local by_species, list, without = {}, {}, {}
    for _, row in ipairs(stock:classes(1)) do
        local name = row.species
        if by_species[name] == nil then
            by_species[name] = false
            if forest.species_among("mast", name) and not forest.species_among("shrub", name) then
                local of = { name = name, row = { M.mast_row(name) }, classes = {} }
                by_species[name] = of
                table.insert(of.row[1] and list or without, of.row[1] and of or name)
            end
        end
        if by_species[name] then table.insert(by_species[name].classes, row) end
    end
    return { list = list, without = without }
end

local bearers = {} -- by stock

--- Pounds that a tree of a kind bears, as the mean of its classes.
local function nuts_of_each(of, grown)
    local trees, pounds = 0, 0
    for _, class in ipairs(of.classes) do
        trees = trees + class.trees
        pounds = pounds + class.trees * forest.mast_pounds(of.row[1], of.row[2], of.row[3], class.diameter + grown)
    end
    return trees > 0 and pounds / trees or 0
end

--- The kinds of a stock that bear and are asked for, each with how many trees there are of it.
local function asked_of(stock, species)
    bearers[stock] = bearers[stock] or find_bearers(stock)
    local list, without = {}, {}
    local function is_asked(name) return not species or forest.species_among(species, name) end
    for _, name in ipairs(bearers[stock].without) do
        if is_asked(name) then without[#without + 1] = name end
    end
    for _, of in ipairs(bearers[stock].list) do
        if is_asked(of.name) then
            of.trees = of.trees or stock:trees({ species = { of.name }, what = of.name })
            list[#list + 1] = of
        end
    end
    return list, without
end

--- Pounds of nuts an acre of a stock of trees; and the species that bear but are in no table.
-- @param options { year, species, released (true, or the part of the room that was given),
--   grown (inches that each tree has grown since) }
function M.mast(stock, where, options)
    local parts, list, without = {}, asked_of(stock, options.species)
    for i, of in ipairs(list) do
        parts[i] = of.trees * quantity.leaf(nuts_of_each(of, options.grown or 0), "lb/tree",
            ("mean of the trees of %s by diameter: %s"):format(of.name, of.row[4]))
    end
    if #parts == 0 then return quantity.leaf(0, "lb/ac", "no trees of a kind whose nuts are in the table"), without end
    local bearing, year, room = mast_doubts(where, options.year, options.released)
    return quantity.say(quantity.sum(parts) * bearing * year * room, "lb/ac"), without
end

--- The same of all kinds in a mean year, as a bare number.
function M.mast_number(stock, where, options)
    local pounds = 0
    for _, of in ipairs((asked_of(stock))) do
        pounds = pounds + quantity.number(of.trees, "trees/ac") * nuts_of_each(of, options.grown or 0)
    end
    if pounds == 0 then return 0 end
    for _, doubt in ipairs({ mast_doubts(where, nil, options.released) }) do
        pounds = pounds * quantity.number(doubt, "percent") / 100
    end
    return pounds
end

return M
