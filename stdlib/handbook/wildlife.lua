--- The handbook on game: acorns, browse, cover, light, and which game uses young forest when.
local data = need "wildlife"
local deer = need "deer"
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"
local young = need "young_growth"

local WHERE = "the handbook"

--- Young growth as the keys tell it, as one layer.
local function layer(values, place)
    local highest = quantity.number(values.height, "ft")
    if values.mean_height and quantity.number(values.mean_height, "ft") > highest then
        host.raise(place, "mean_height", "key-order", ("`mean_height` (%s) lies above the highest (%s)"):format(
            quantity.short(values.mean_height), quantity.short(values.height)))
    end
    local mean = values.mean_height or values.height * quantity.leaf(50, "percent", "mean of dominant suckers: "
        .. data.width.bare.source)
    return { stems = values.stems, dominant = values.height, mean = mean, wanted = values.species
        and young.wanted(values.species) or 70 }
end

local GROWTH = {
    { "stems", kind = "quantity", unit = "stems/ac", needed = true, says = "stems an acre",
        example = "10000 stems/ac" },
    { "height", kind = "length", needed = true, says = "of the highest", example = "8 ft" },
    { "mean_height", kind = "length", says = "mean height; half of the highest when not told" },
}
local function with_growth(more)
    local keys = {}
    for i, spec in ipairs(GROWTH) do keys[i] = spec end
    for _, spec in ipairs(more) do keys[#keys + 1] = spec end
    return keys
end

return {
    { name = "acorns", says = "nuts that a tree drops in a year, by its diameter", gives = "pounds a tree",
        source = "Downs 1944, J. Wildl. Manage. 8:339-340; good years: Johnson 1994, TB-NC-1",
        example = "handbook.acorns { species = \"black oak\", diameter = 22 in }",
        keys = {
            { "species", kind = "species", needed = true, says = "one species of oak", example = "\"black oak\"" },
            { "diameter", kind = "diameter", needed = true, says = "of the tree, 10 to 36 in", example = "22 in" },
            { "year", kind = "choice", of = { "mean", "good", "poor" }, default = "mean",
                says = "which kind of year: a good one comes one in three or four" },
            { "released", kind = "flag", says = "five years after its crown was given room" },
        },
        call = function(values, place)
            local known, id, message, mend = forest.species_one(values.species)
            if not known then host.raise(place, "species", id, message, mend) end
            local row, from, to, source = deer.mast_row(values.species)
            if not row then
                host.raise(place, "species", "handbook-none",
                    ("no yields of nuts by diameter are known for %s"):format(values.species),
                    "species \"NAME\" { mast_0 = ..., mast_1 = ..., mast_from = ..., mast_to = ... } says your own")
            end
            row[6], row[7] = from, to
            local kind = data.years[values.year]
            return young.equation("nuts of a tree", { values.diameter,
                values.released and young.doubt(data.released, WHERE, "what a released crown bears")
                    or quantity.leaf(100, "percent", "its crown as it stands"),
                young.doubt(kind, WHERE, ("a %s year"):format(values.year), "percent", data.years.source) }, row,
                    source)
        end },
    { name = "browse", says = "fresh browse within reach of deer in young growth", gives = "pounds an acre",
        source = data.reach.source,
        example = "handbook.browse { stems = 12000 stems/ac, height = 6 ft }",
        keys = with_growth({
            { "species", kind = "species", says = "of which species, for how well deer like it" },
            { "season", kind = "choice", of = { "winter", "summer" }, default = "winter",
                says = "twigs in winter, leaves too in summer" },
            { "snow", kind = "length", says = "settled snow" },
            { "yarded", kind = "flag", says = "deer held in one place by snow, which reach 7 ft above it" },
        }),
        call = function(values, place) return deer.browse({ layer(values, place) }, values.season, values.snow, WHERE,
            values.yarded) end },
    { name = "browse_reach", main = "snow", says = "how high above the ground deer reach", gives = "height",
        source = data.reach.source .. "; " .. data.reach_on_snow.source,
            example = "handbook.browse_reach { snow = 18 in }",
        keys = {
            { "snow", kind = "length", says = "settled snow that they stand on" },
            { "yarded", kind = "flag", says = "deer held in one place by snow: 7 ft above it" },
        },
        call = function(values)
            return young.equation("height reached", { deer.reach(values.yarded and values.snow or nil),
                values.snow or quantity.leaf(0, "ft", "no snow") }, {}, data.reach.source)
        end },
    { name = "deer_days", main = "browse", says = "how many days an acre of browse feeds one deer",
        gives = "deer-days an acre",
        source = data.food.source, example = "handbook.deer_days { browse = 200 lb/ac }",
        keys = { { "browse", kind = "quantity", unit = "lb/ac", needed = true, says = "fresh browse an acre",
            example = "200 lb/ac" } },
        call = function(values) return deer.deer_days(values.browse, WHERE) end },
    { name = "cover", says = "how much of a band of height above the ground stems hide", gives = "percent hidden",
        source = "geometry; widths: " .. data.width.bare.source,
        example = "handbook.cover { stems = 10000 stems/ac, height = 8 ft,\n  from = 0 ft, to = 3 ft }",
        keys = with_growth({
            { "from", kind = "length", says = "lower end of the band; the ground when not told" },
            { "to", kind = "length", says = "upper end; 3 ft hides a lying deer, 6 ft a standing one" },
            { "distance", kind = "length", says = "looked at from; 50 ft when not told" },
            { "leaf", kind = "choice", of = { "bare", "leafy" }, default = "bare", says = "in winter, or in leaf" },
        }),
        call = function(values, place)
            local from, to = values.from and quantity.number(values.from, "ft") or 0, values.to
                and quantity.number(values.to, "ft") or 3
            if to <= from then
                host.raise(place, "to", "key-order", ("`to` (%g ft) does not lie above `from` (%g ft)"):format(to,
                    from))
            end
            local screen = deer.screen({ layer(values, place) }, nil, { from, to }, values.leaf, WHERE)
            return deer.hidden(screen, values.distance and quantity.number(values.distance, "ft")
                or data.look_from.feet)
        end },
    { name = "light", main = "basal_area", says = "light that reaches the ground under trees",
        gives = "percent of full light",
        source = data.light.source, example = "handbook.light { basal_area = 60 ft2/ac }",
        keys = {
            { "basal_area", kind = "basal_area", says = "of what stands" },
            { "crown_cover", kind = "share", says = "how much of the ground crowns cover, in place of it" },
        },
        call = function(values, place)
            if (values.basal_area == nil) == (values.crown_cover == nil) then
                host.raise(place, nil, "key-together", "light wants `basal_area` or `crown_cover`, one of them",
                    "basal_area = 60 ft2/ac")
            end
            if values.crown_cover then
                return quantity.leaf(forest.light_under_crowns(quantity.number(values.crown_cover, "percent")),
                    "percent",
                    data.light.through_crowns)
            end
            return young.equation("light on the ground", { values.basal_area }, { data.light.loss }, data.light.source)
        end },
    { name = "game_stages", says = "which game uses a patch so many growing seasons after its cut",
        gives = "a list of { game, use, from, to, words, source }", source = "as each row says",
            example = "handbook.game_stages { year = 8 }",
        keys = {
            { "year", kind = "count", says = "growing seasons since the cut; without it, the whole calendar" },
            { "game", kind = "choice", of = { "deer", "ruffed grouse", "woodcock" }, says = "which game" },
        },
        call = function(values)
            local out = {}
            for _, row in ipairs(data.calendar) do
                local asked = (not values.game or values.game == row.game)
                    and (not values.year or values.year >= row.from and values.year <= row.to)
                if asked then
                    out[#out + 1] = { game = row.game, use = row.use, from = row.from, to = row.to, words = row.words,
                        source = row.source }
                end
            end
            return out
        end },
}
