--- What grows back, by growing seasons since the cut: suckers, sprouts, shrubs, planted stock,
--- each a layer { stems, mean, dominant, wanted, words } of measures. Doubts are named leaves
--- kept apart by stand; the equations are those of src/forest/regrowth.h.
local M = {}
local data = need "regrowth"
local forest = need "forest"
local quantity = need "quantity"
local wildlife = need "wildlife"

local filled
--- Puts the traits of our tables where no layer has said any; once.
local function fill()
    if filled then return end
    filled = true
    for _, row in ipairs(data.sprouting) do forest.species_fill(row[1], row[2]) end
    for _, row in ipairs(wildlife.mast) do forest.species_fill(row[1], row[2]) end
    for trait, rows in pairs({ browse_rank = wildlife.browse_ranks, shade_tolerance = wildlife.shade_tolerance }) do
        for _, row in ipairs(rows) do
            for i = 3, #row do forest.species_fill(row[i], { [trait] = row[1], source = row[2] }) end
        end
    end
end

--- A trait of one species and its source, from all layers; nil when nothing is known.
function M.trait(species, word)
    fill()
    return forest.species_trait(species, word)
end

--- A doubted number of our tables as a leaf of its own for each place it is about.
-- @param row { low, likely, high, unit, words, source }, or a list of the three numbers
-- @param where what it is about: the name of the stand
function M.doubt(row, where, words, unit, source)
    local low, likely, high = row.low or row[1], row.likely or row[2], row.high or row[3]
    unit, words, source = unit or row.unit, words or row.words, source or row.source
    if low == high then return quantity.leaf(likely, unit, source and ("%s: %s"):format(words, source) or words) end
    local name = ("%s, %s"):format(words, where)
    return quantity.name(quantity.range(low, likely, high, unit, name, source), name)
end

--- An equation over measures.
function M.equation(name, operands, numbers, words) return forest.regrowth(name, operands, numbers or {}, words) end

local SUCKERS_SOURCE = "own model through Benson and Einspahr 1972, Jones 1975, Palik and others 2003, Stone 2002, "
    .. "and Perala 1977 (from memory)"

--- The doubts of aspen suckers of a place, by the words of the equations.
local function sucker_doubts(place)
    local out = {}
    for _, row in ipairs(data.suckers) do out[row[1]] = M.doubt(row, place.name) end
    return out
end

--- Fills in what is not told of a place where aspen is cut.
-- @param place { name, aspen, residual, site_index, age, sick, browsing, season_left, in_leaf,
--   wheels, rutted }
local function sucker_place(place)
    if place.ready then return place.ready end
    local x = sucker_doubts(place)
    x.site_index = place.site_index or M.doubt(data.site_index, place.name, "site index of aspen")
    x.age = place.age or M.doubt(data.age, place.name, "age of the parents")
    x.season = place.in_leaf and M.doubt(data.leafed_out, place.name)
        or quantity.leaf(100, "percent", "cut while dormant")
    local whole = 100 * forest.suckers_on_ground(place.rutted or 0, place.wheels and data.machine.passes or 0)
    x.ground = quantity.leaf(whole, "percent", (place.wheels or (place.rutted or 0) > 0)
        and ("wheels: %s; ruts: %s"):format(data.machine.source, data.rutted.source) or "nothing drives on it")
    local deer = data.browsing[place.browsing or "light"]
    local word = (place.browsing or "light") .. " browsing"
    x.bitten = M.doubt(deer.bitten, place.name, "bitten off a season, " .. word, "percent", data.browsing.source)
    x.browse_slows = M.doubt(deer.slows, place.name, "height lost to deer, " .. word, "percent", data.browsing.source)
    x.wheels = place.wheels and place.in_leaf and M.doubt(data.summer_wheels, place.name)
        or quantity.leaf(0, "percent", "no wheels over new suckers")
    x.first = quantity.name(M.equation("suckers of the first season",
        { x.full, place.aspen, x.age, place.residual, x.season, x.ground }, { place.sick or 0 }, SUCKERS_SOURCE),
        "suckers of the first season, " .. place.name)
    place.ready = x
    return x
end

--- Aspen suckers at the end of a growing season; 1 is the first.
function M.suckers(place, year)
    local x = sucker_place(place)
    local stems = M.equation("suckers in a year", { x.first, x.room, x.bitten, x.site_index }, { year }, SUCKERS_SOURCE)
    local dominant = M.equation("dominant height of suckers", { x.site_index, x.pace, place.residual, x.shade_slows,
        x.browse_slows, x.wheels }, { year, place.season_left or 1 }, SUCKERS_SOURCE)
    return { words = "suckers", stems = stems, dominant = dominant,
        mean = M.equation("mean height of suckers", { dominant, x.mean_part }, { year }, SUCKERS_SOURCE),
        wanted = M.wanted("bigtooth aspen") }
end

--- Percent of a species' twigs that deer eat, as a plain number.
function M.wanted(species)
    local rank = M.trait(species, "browse_rank") or 1
    return wildlife.wanted[math.floor(math.min(3, math.max(0, rank)) + 0.5)]
end

--- The line of odds of a species: from, share there, to, share there; and where that is from.
local function odds_line(species)
    local from, source = M.trait(species, "sprout_from")
    local usual = data.sprouting_usual
    if not from then return usual, usual.source end
    return { from, M.trait(species, "sprout_share_from"), M.trait(species, "sprout_to") or from,
        M.trait(species, "sprout_share_to") or 0 }, source
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

--- Species of trees that will sprout, their mean odds weighted by stumps, what deer make of them.
local function sprouters(stock)
    local kinds, names, sources, trees, odds, wanted = {}, {}, {}, 0, 0, 0
    for _, row in ipairs(stock:classes(2)) do
        local species, kind = row.species, kinds[row.species]
        if kind == nil then
            kind = false
            if is_sprouter(species) then
                local line, source = odds_line(species)
                kind = { line = line, wanted = M.wanted(species) }
                names[#names + 1] = species
                sources[#sources + 1] = ("%s: %s"):format(species, source)
            end
            kinds[species] = kind
        end
        if kind then
            trees, odds = trees + row.trees, odds + row.trees * odds_at(kind.line, row.diameter)
            wanted = wanted + row.trees * kind.wanted
        end
    end
    if trees <= 0 then return nil end
    return { names = names, odds = odds / trees, wanted = wanted / trees, source = table.concat(sources, "; ") }
end

--- Doubts of stump sprouts: of the odds, the clump and its height.
local function sprout_doubts(place, odds, source)
    local doubt = data.odds_doubt
    local deer = data.browsing[place.browsing or "light"].sprouts
    return M.doubt({ odds * doubt.low, odds, math.min(100, odds * doubt.high) }, place.name, "stumps that sprout",
        "percent", source),
        M.doubt(data.clump.first, place.name), M.doubt(data.clump.last, place.name), M.doubt(data.clump.height,
            place.name),
        M.doubt(deer, place.name, "height of sprouts lost to deer", "percent", data.browsing.source)
end

--- Sprouts of so many stumps with such odds.
function M.clumps(place, stumps, odds, source, year)
    local chance, first, last, start, slowed = sprout_doubts(place, odds, source)
    local height = M.equation("height of sprouts", { start, slowed, M.doubt(data.clump.shade, place.name),
        place.residual }, { year - 1 + (place.season_left or 1) }, data.clump.height.source)
    return { words = "stump sprouts", dominant = height, mean = height * quantity.leaf(70, "percent",
        "mean of dominant sprouts: "
        .. data.clump.height.source), stems = M.equation("sprouts from stumps", { stumps, chance, first, last },
            { year },
        data.clump.last.source) }
end

--- Sprouts from the stumps of what was taken; nil when nothing of it sprouts.
function M.sprouts(place, taken, year)
    local known = place.sprouters or {} -- the same for every year
    place.sprouters = known
    if known[taken] == nil then known[taken] = sprouters(taken) or false end
    local of = known[taken]
    if not of then return nil end
    local layer = M.clumps(place, taken:trees({ species = of.names, what = "stumps that may sprout" }), of.odds,
        of.source, year)
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
function M.shrubs(place, row, first, year)
    local what = row[1] == "other" and "shrubs" or row[1]
    local full = M.doubt(row.full, place.name, "full height, " .. what, "ft", row.source)
    local yearly = M.doubt(row.yearly, place.name, "growth of what is missing, " .. what, "percent", row.source)
    local height = M.equation("height of shrubs", { full, yearly }, { year - 1 + (place.season_left or 1) }, row.source)
    return { words = what, dominant = height, wanted = row[1] == "speckled alder" and 5 or 70,
        mean = height * quantity.leaf(75, "percent", "mean of the highest shrubs: " .. row.source),
        stems = M.equation("shrub stems", { first }, { year, row.hold, row.fade }, row.source) }
end

--- Brush an acre as the stand's word for it says.
function M.brush_stems(stand)
    local word = stand.values.brush or "medium"
    return M.doubt(data.brush[word], stand.name, word .. " brush", "stems/ac", data.brush.source)
end

--- Shrubs that were cut and stand in the notes: a layer a kind.
function M.cut_shrubs(place, taken, year)
    local by_kind, kinds = {}, {}
    for _, name in ipairs(taken:species()) do
        if forest.species_among("shrub", name) then
            local row = M.shrub_row(name)
            if not by_kind[row] then
                by_kind[row] = {}
                kinds[#kinds + 1] = row
            end
            table.insert(by_kind[row], name)
        end
    end
    local out = {}
    for i, row in ipairs(kinds) do
        local from_one = M.doubt(row.from_one, place.name, "stems from one that was cut, " .. row[1], "stems/tree",
            row.source)
        local first = taken:trees({ species = by_kind[row], what = row[1] .. " cut" }) * from_one
        out[i] = M.shrubs(place, row, quantity.say(first, "stems/ac"), year)
    end
    return out
end

--- Height of planted stock: "conifer", "shrub" or "hardwood".
function M.planted_height(where, kind, year)
    local row = data.planted[kind]
    return M.equation("height of planted stock", { M.doubt(row.start, where, "height when planted, " .. kind, "ft",
        row.source),
        M.doubt(row.slow, where, "growth while it roots, " .. kind, "ft", row.source),
        M.doubt(row.fast, where, "growth after that, " .. kind, "ft", row.source),
        quantity.leaf(row.most, "ft", "its most") }, { year, row.years }, row.source)
end

--- Growth in diameter of a species: a year as it stands, and with room, in percent of that.
function M.growth(where, species)
    for _, row in ipairs(data.growth) do
        if row[1] == "all" or forest.species_among(row[1], species) then
            return M.doubt(row.rate, where, "growth in diameter, " .. species, "in", data.growth.source),
                M.doubt(row.gain, where, "growth with room, " .. species, "percent", data.growth.source), row.rate[2]
        end
    end
end

return M
