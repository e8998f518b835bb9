--- The handbook on what grows back: suckers, stump sprouts, shrubs, planted stock, released trees.
local data = need "regrowth"
local forest = need "forest"
local kinds = need "kinds"
local quantity = need "quantity"
local regrows = need "young_layers"
local young = need "young_growth"

local LONGEST = 200 -- years: as far as the equation of years to a diameter goes
local WHERE = "the handbook" -- what its doubts are kept under: the same for all its answers

--- A shrub of the species table, or raspberry, which nobody tallies.
kinds.species_or_bramble = {
    says = "a shrub, such as \"hazel\" or \"raspberry\"",
    take = function(value, ...)
        if value == "raspberry" then return value end
        return kinds.species.take(value, ...)
    end,
}

local SUCKER_SOURCE = "a model of our own through Benson and Einspahr 1972, Jones 1975, Krasny and Johnson 1992, "
    .. "Huffman and others 1999, "
    .. "Palik and others 2003, Stone 2002, Zenner and others 2007, Mundell and others 2008, and Perala 1977 and "
        .. "1990 (from memory)"

local function sucker_keys(more)
    local keys = {
        { "year", kind = "count", needed = true, least = 1, most = 25,
            says = "growing seasons since the cut: 1 is the first", example = "2" },
        { "site_index", kind = "length", says = "site index of aspen, height at 50 years; 60 to 80 ft when not told",
            example = "70 ft" },
        { "residual", kind = "basal_area", says = "basal area of trees left over them; none when not told" },
        { "browsing", kind = "choice", of = { "none", "light", "moderate", "heavy" }, default = "none",
            says = "how hard deer bite it" },
        { "season_left", kind = "share", says = "share of the first growing season left after the cut: all of it "
            .. "when cut dormant, "
            .. "88 percent in mid-May, half at the end of June" },
        { "machines", kind = "flag", says = "was it driven on by machines?" },
    }
    for _, spec in ipairs(more) do keys[#keys + 1] = spec end
    return keys
end

--- What the equations need, from the keys.
local function place(values)
    local left = values.season_left and quantity.number(values.season_left, "percent") / 100 or 1
    return { name = WHERE, aspen = values.basal_area or quantity.leaf(70, "ft2/ac", "a full stand of aspen"),
        residual = values.residual or quantity.leaf(0, "ft2/ac", "no trees left over them"),
            site_index = values.site_index,
        age = values.age and quantity.say(values.age, "yr"), browsing = values.browsing, season_left = left,
            in_leaf = left < 1,
        sick = values.sick and quantity.number(values.sick, "percent") / 100, wheels = values.machines,
        rutted = values.rutted and quantity.number(values.rutted, "percent") / 100 }
end

--- The row of growth that a species falls under, as keys override it.
local function growth(values)
    local rate, gain = young.growth(WHERE, values.species)
    if values.rate then rate = quantity.say(values.rate / quantity.leaf(10, "yr", "in ten years") * quantity.leaf(1,
        "yr"), "in") end
    if not values.released then gain = quantity.leaf(100, "percent", "as it stands") end
    return rate, gain
end

return {
    { name = "suckers", says = "aspen suckers an acre, by growing seasons since the cut", gives = "stems an acre",
        source = SUCKER_SOURCE, example = "handbook.suckers { year = 2, basal_area = 70 ft2/ac, age = 45 yr }",
        keys = sucker_keys({
            { "basal_area", kind = "basal_area", says = "living aspen before the cut; 70 ft2/ac when not told" },
            { "age", kind = "span", says = "age of the parents; 35 to 60 yr when not told" },
            { "sick", kind = "share", says = "share of the parents with conks or dead tops" },
            { "rutted", kind = "share", says = "share of the ground that was rutted" },
        }),
        call = function(values) return regrows.suckers(place(values), values.year).stems end },
    { name = "sucker_height", says = "height of aspen suckers, by growing seasons since the cut",
        gives = "dominant or mean height",
        source = SUCKER_SOURCE,
        example = "handbook.sucker_height { year = 2, site_index = 70 ft,\n  season_left = 88 percent }",
        keys = sucker_keys({ { "of", kind = "choice", of = { "dominant", "mean" }, default = "dominant",
            says = "of which stems" } }),
        call = function(values) return regrows.suckers(place(values), values.year)[values.of] end },
    { name = "sprouting", says = "how many stumps of a species and diameter sprout", gives = "percent of stumps",
        source = "Johnson 1975, For. Sci. 21:413-418 (northern red oak); others as `why` says, most from memory",
        example = "handbook.sprouting { species = \"red oak\", diameter = 12 in }",
        keys = {
            { "species", kind = "species", needed = true, says = "one species", example = "\"red oak\"" },
            { "diameter", kind = "diameter", needed = true, says = "of the tree at breast height", example = "12 in" },
        },
        call = function(values, at)
            local host = need "host"
            local known, id, message, mend = forest.species_one(values.species)
            if not known then host.raise(at, "species", id, message, mend) end
            if not forest.species_among("sprouts", values.species) then
                return quantity.leaf(0, "percent", values.species .. " does not sprout from the stump")
            end
            local percent, source = regrows.odds(values.species, quantity.number(values.diameter, "in"))
            return quantity.leaf(percent, "percent", source)
        end },
    { name = "shrub_growth", says = "height of shrubs that come again after they were cut",
        gives = "height of the highest",
        source = data.shrubs[1].source, example = "handbook.shrub_growth { species = \"hazel\", year = 3 }",
        keys = {
            { "species", kind = "species_or_bramble", needed = true, says = "hazel, dogwood, alder, willow, "
                .. "raspberry or another shrub", example = "\"hazel\"" },
            { "year", kind = "count", needed = true, least = 1, most = 25, says = "growing seasons since the cut",
                example = "3" },
        },
        call = function(values)
            local row = regrows.shrub_row(values.species)
            return regrows.shrubs({ name = WHERE, season_left = 1 }, row, quantity.leaf(0, "stems/ac"),
                values.year).dominant
        end },
    { name = "planted_height", says = "height of planted trees and shrubs by years since planting", gives = "height",
        source = data.planted.conifer.source, example = "handbook.planted_height { kind = \"conifer\", year = 5 }",
        keys = {
            { "kind", kind = "choice", of = { "conifer", "shrub", "hardwood" }, needed = true,
                says = "what was planted", example = "\"conifer\"" },
            { "year", kind = "count", needed = true, least = 1, most = 25, says = "growing seasons since planting",
                example = "5" },
        },
        call = function(values) return regrows.planted_height(WHERE, values.kind, values.year) end },
    { name = "release_growth", says = "how a tree grows in diameter as it stands, or with room for its crown",
        gives = "its diameter after `years`; with `target`, the years until then",
        source = data.growth.source,
        example = "handbook.release_growth { species = \"red oak\", diameter = 12 in,\n  released = true, target = 16 in }",
        keys = {
            { "species", kind = "species", needed = true, says = "a species or group", example = "\"red oak\"" },
            { "diameter", kind = "diameter", needed = true, says = "now", example = "12 in" },
            { "released", kind = "flag", says = "has its crown been given room on three or four sides?" },
            { "years", kind = "span", says = "how many years from now" },
            { "target", kind = "diameter", says = "the diameter wanted, in place of years" },
            { "rate", kind = "diameter", says = "own count of its growth in ten years, in place of the table: 1.2 in" },
        },
        call = function(values, at)
            if (values.years == nil) == (values.target == nil) then
                need("host").raise(at, nil, "key-together", "release_growth wants `years` or `target`, one of them",
                    "years = 10 yr, for its diameter then; or target = 16 in, for the years until then")
            end
            local rate, gain = growth(values)
            if values.target then
                local years = young.equation("years to a diameter", { values.diameter, rate, gain, values.target }, {},
                    data.growth.source)
                if quantity.number(years, "yr") < LONGEST then return years end
                need("host").raise(at, "target", "growth-never", ("%s is not grown to from %s within %d years")
                    :format(quantity.short(values.target), quantity.short(values.diameter), LONGEST),
                    "a smaller target, or more growth")
            end
            return young.equation("diameter after some years", { values.diameter, rate, gain, values.years }, {},
                data.growth.source)
        end },
}
