--- What grows back, by growing seasons since the cut: suckers, sprouts, shrubs, planted stock,
--- each a layer { stems, mean, dominant, wanted, words }. The equations are those of
--- src/forest/regrowth.h, worked out in one of the two ways of young_growth.lua.
local M = {}
local data = need "regrowth"
local forest = need "forest"
local quantity = need "quantity"
local young = need "young_growth"

local SUCKERS_SOURCE = "own model through Benson and Einspahr 1972, Jones 1975, Palik and others 2003, Stone 2002, "
    .. "and Perala 1977 (from memory)"

--- The doubts of aspen suckers of a place, by the words of the equations.
local function sucker_doubts(place)
    local out = {}
    for _, row in ipairs(data.suckers) do out[row[1]] = young.doubt(row, place.name) end
    return out
end

--- Fills in what is not told of a place where aspen is cut.
-- @param place { name, aspen, residual, site_index, age, sick, browsing, season_left, in_leaf,
--   wheels, rutted }
local function sucker_place(place)
    if place.ready then return place.ready end
    local x = sucker_doubts(place)
    x.site_index = place.site_index or young.doubt(data.site_index, place.name, "site index of aspen")
    x.age = place.age or young.doubt(data.age, place.name, "age of the parents")
    x.season = place.in_leaf and young.doubt(data.leafed_out, place.name)
        or quantity.leaf(100, "percent", "cut while dormant")
    local whole = 100 * forest.suckers_on_ground(place.rutted or 0, place.wheels and data.machine.passes or 0)
    x.ground = quantity.leaf(whole, "percent", (place.wheels or (place.rutted or 0) > 0)
        and ("wheels: %s; ruts: %s"):format(data.machine.source, data.rutted.source) or "nothing drives on it")
    local deer = data.browsing[place.browsing or "light"]
    local word = (place.browsing or "light") .. " browsing"
    x.bitten = young.doubt(deer.bitten, place.name, "bitten off a season, " .. word, "percent", data.browsing.source)
    x.browse_slows = young.doubt(deer.slows, place.name, "height lost to deer, " .. word, "percent", data.browsing.source)
    x.wheels = place.wheels and place.in_leaf and young.doubt(data.summer_wheels, place.name)
        or quantity.leaf(0, "percent", "no wheels over new suckers")
    x.first = quantity.name(young.equation("suckers of the first season",
        { x.full, place.aspen, x.age, place.residual, x.season, x.ground }, { place.sick or 0 }, SUCKERS_SOURCE),
        "suckers of the first season, " .. place.name)
    x.of_stems = { x.first, x.room, x.bitten, x.site_index }
    x.of_height = { x.site_index, x.pace, place.residual, x.shade_slows, x.browse_slows, x.wheels }
    place.ready = x
    return x
end

--- Aspen suckers at the end of a growing season; 1 is the first.
-- @param how young.measured (the usual) or young.plain; so for all layers
function M.suckers(place, year, how)
    local x, equation = sucker_place(place), (how or young.measured).equation
    local stems = equation("suckers in a year", x.of_stems, { year }, SUCKERS_SOURCE)
    local dominant = equation("dominant height of suckers", x.of_height, { year, place.season_left or 1 },
        SUCKERS_SOURCE)
    return { words = "suckers", stems = stems, dominant = dominant,
        mean = equation("mean height of suckers", { dominant, x.mean_part }, { year }, SUCKERS_SOURCE),
        wanted = young.wanted("bigtooth aspen") }
end

--- The line of odds of a species: from, share there, to, share there; and where that is from.
local function odds_line(species)
    local from, source = young.trait(species, "sprout_from")
    local usual = data.sprouting_usual
    if not from then return usual, usual.source end
    return { from, young.trait(species, "sprout_share_from"), young.trait(species, "sprout_to") or from,
        young.trait(species, "sprout_share_to") or 0 }, source
end

local function odds_at(line, inches) return forest.sprouts_odds(line[1], line[2], line[3], line[4], inches) end

--- Percent of stumps of a species and a diameter (in) that sprout, and where that is from.
function M.odds(species, inches)
    local line, source = odds_line(species)
    return odds_at(line, inches), source
end

--- Does it sprout from the stump, and is it no shrub and no aspen?
local function is_sprouter(species)
    return forest.species_among("sprouts", species) and not forest.species_among("shrub", species)
        and not forest.species_among("aspen", species)
end

--- Species of trees that will sprout, their mean odds weighted by stumps, what deer make of
--- them, and how many stumps there are.
-- @param treated function(species): were its stumps treated?
local function find_sprouters(stock, treated)
    local kinds, names, sources, trees, odds, wanted = {}, {}, {}, 0, 0, 0
    for _, row in ipairs(stock:classes(2)) do
        local species, kind = row.species, kinds[row.species]
        if kind == nil then
            kind = false
            if is_sprouter(species) then
                local line, source = odds_line(species)
                local left = treated(species) and data.treated_stumps
                kind = { line = line, wanted = young.wanted(species), left = left and left[2] / 100 or 1 }
                names[#names + 1] = species
                sources[#sources + 1] = ("%s: %s"):format(species, left and ("treated, %d percent of those that "
                    .. "would sprout (%s): %s"):format(left[2], left.source, source) or source)
            end
            kinds[species] = kind
        end
        if kind then
            trees, odds = trees + row.trees, odds + row.trees * kind.left * odds_at(kind.line, row.diameter)
            wanted = wanted + row.trees * kind.wanted
        end
    end
    if trees <= 0 then return nil end
    return { names = names, odds = odds / trees, wanted = wanted / trees, source = table.concat(sources, "; "),
        stumps = stock:trees({ species = names, what = "stumps that may sprout" }) }
end

local found = {} -- by stock of what was taken

local function sprouters(stock, treated)
    if found[stock] == nil then found[stock] = find_sprouters(stock, treated) or false end
    return found[stock]
end

--- Operands of the equations of stump sprouts: of their number, and of their height.
local function sprout_operands(place, stumps, odds, source)
    local doubt, name = data.odds_doubt, place.name
    local deer = data.browsing[place.browsing or "light"].sprouts
    local chance = young.doubt({ odds * doubt.low, odds, math.min(100, odds * doubt.high) }, name, "stumps that sprout",
        "percent", source)
    return {
        stems = { stumps, chance, young.doubt(data.clump.first, name), young.doubt(data.clump.last, name) },
        height = { young.doubt(data.clump.height, name),
            young.doubt(deer, name, "height of sprouts lost to deer", "percent", data.browsing.source),
            young.doubt(data.clump.shade, name), place.residual },
    }
end

local MEAN_SPROUTS = "mean of dominant sprouts: " .. data.clump.height.source

--- Sprouts of so many stumps with such odds.
function M.clumps(place, stumps, odds, source, year, how)
    how = how or young.measured
    place.sprouts = place.sprouts or {}
    local x = place.sprouts[stumps] or sprout_operands(place, stumps, odds, source)
    place.sprouts[stumps] = x
    local height = how.equation("height of sprouts", x.height, { year - 1 + (place.season_left or 1) },
        data.clump.height.source)
    return { words = "stump sprouts", dominant = height, mean = how.percent_of(height, 70, MEAN_SPROUTS),
        stems = how.equation("sprouts from stumps", x.stems, { year }, data.clump.last.source) }
end

--- Sprouts from the stumps of what was taken; nil when nothing of it sprouts.
-- @param treated function(species): were its stumps treated? So below
function M.sprouts(place, taken, treated, year, how)
    local of = sprouters(taken, treated)
    if not of then return nil end
    local layer = M.clumps(place, of.stumps, of.odds, of.source, year, how)
    layer.wanted = of.wanted
    return layer
end

--- The row of shrubs that a word names; "other" when there is none.
function M.shrub_row(word)
    for _, row in ipairs(data.shrubs) do
        if row[1] == word then return row end
    end
    for _, row in ipairs(data.shrubs) do
        if forest.species_known(row[1]) and forest.species_known(word) and forest.species_among(row[1],
            word) then return row end
    end
    return data.shrubs[#data.shrubs]
end

--- Shrubs that come again, so many stems an acre at first.
function M.shrubs(place, row, first, year, how)
    how = how or young.measured
    local what = row[1] == "other" and "shrubs" or row[1]
    place.shrubs = place.shrubs or {}
    local x = place.shrubs[row] or { young.doubt(row.full, place.name, "full height, " .. what, "ft", row.source),
        young.doubt(row.yearly, place.name, "growth of what is missing, " .. what, "percent", row.source) }
    place.shrubs[row] = x
    local height = how.equation("height of shrubs", x, { year - 1 + (place.season_left or 1) }, row.source)
    return { words = what, dominant = height, wanted = row[1] == "speckled alder" and 5 or 70,
        mean = how.percent_of(height, 75, "mean of the highest shrubs: " .. row.source),
        stems = how.equation("shrub stems", { first }, { year, row.hold, row.fade }, row.source) }
end

--- Brush an acre as the stand's word for it says.
function M.brush_stems(stand)
    local word = stand.values.brush or "medium"
    return young.doubt(data.brush[word], stand.name, word .. " brush", "stems/ac", data.brush.source)
end

--- Kinds of shrubs among what was taken, those apart whose stumps were treated: { row, names, treated }.
local function shrub_kinds(taken, treated)
    local kinds, there = {}, {}
    for _, name in ipairs(taken:species()) do
        if forest.species_among("shrub", name) then
            local row, dead = M.shrub_row(name), treated(name)
            local key = row[1] .. (dead and ", treated" or "")
            if not there[key] then
                there[key] = { row = row, names = {}, treated = dead }
                kinds[#kinds + 1] = there[key]
            end
            table.insert(there[key].names, name)
        end
    end
    return kinds
end

--- The same with `first`, how many stems an acre come of each.
local function find_shrubs(place, taken, treated)
    local kinds = shrub_kinds(taken, treated)
    for _, kind in ipairs(kinds) do
        local row = kind.row
        local from_one = young.doubt(row.from_one, place.name, "stems from one that was cut, " .. row[1], "stems/tree",
            row.source)
        local cut = taken:trees({ species = kind.names, what = row[1] .. " cut" })
        local first = cut * from_one
        if kind.treated then
            first = first * young.doubt(data.treated_stumps, place.name, "treated stumps that sprout", "percent",
                data.treated_stumps.source)
        end
        kind.first = quantity.say(first, "stems/ac")
    end
    return kinds
end

local shrubs_of = {} -- by stock of what was taken

--- Shrubs that were cut and stand in the notes: a layer a kind.
function M.cut_shrubs(place, taken, treated, year, how)
    shrubs_of[taken] = shrubs_of[taken] or find_shrubs(place, taken, treated)
    local out = {}
    for i, kind in ipairs(shrubs_of[taken]) do out[i] = M.shrubs(place, kind.row, kind.first, year, how) end
    return out
end

--- Height of planted stock: "conifer", "shrub" or "hardwood".
function M.planted_height(where, kind, year)
    local row = data.planted[kind]
    return young.equation("height of planted stock", { young.doubt(row.start, where, "height when planted, " .. kind, "ft",
        row.source),
        young.doubt(row.slow, where, "growth while it roots, " .. kind, "ft", row.source),
        young.doubt(row.fast, where, "growth after that, " .. kind, "ft", row.source),
        quantity.leaf(row.most, "ft", "its most") }, { year, row.years }, row.source)
end

return M
