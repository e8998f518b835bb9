--- What a stand answers of what comes: `stand:expected { year = 5 }`, `stand:mast()`.
local deer = need "deer"
local expected = need "expected"
local forest = need "forest"
local kinds = need "kinds"
local quantity = need "quantity"
local regrows = need "young_layers"

local WHAT = {}
for i, row in ipairs(expected.columns) do WHAT[i] = row[1] end

--- The trees of a stand; told at the place when nothing is said of them.
local function trees(record, place) return need("answers").trees(record, place) end

return {
    { name = "expected", main = "year",
        says = "what will stand there, at the end of a growing season since its first cut: a table of quantities, "
            .. "or one of them",
        keys = {
            { "year", kind = "count", needed = true, most = 25, says = "growing seasons since the first cut; 0: "
                .. "just after it",
                example = "5" },
            { "what", kind = "choice", of = WHAT, says = "one of them alone: " .. kinds.quoted(WHAT) },
        },
        example = "s:expected { year = 5 }",
        call = function(record, values, place)
            expected.check(record, place)
            if values.what then return expected.figure(record, values.what, values.year) end
            return expected.all(record, values.year)
        end },
    { name = "outlook",
        says = "the same as a list of rows: now, after its first cut, in seasons 1, 2, 5 and 10; each with `when`, "
            .. "`season` (its year on the calendar) and `words`",
        keys = {}, example = "s:outlook()",
        call = function(record, _, place)
            expected.check(record, place)
            return expected.rows(record)
        end },
    { name = "stages",
        says = "for each cut patch: when it hides a lying and a standing deer (90 percent at 200 ft, without "
            .. "leaves), feeds best, "
            .. "is useful until, and when to cut the next; years on the calendar",
        keys = {}, example = "s:stages()",
        call = function(record, _, place)
            expected.check(record, place)
            return need("stages").of(record)
        end },
    { name = "planted", main = "year",
        says = "how high what is planted there stands, so many growing seasons after: a list of { species, height }",
        keys = {
            { "year", kind = "count", needed = true, least = 1, most = 25, says = "growing seasons since planting",
                example = "5" },
        },
        example = "s:planted { year = 5 }",
        call = function(record, values, place)
            expected.check(record, place)
            return expected.planted(record, values.year)
        end },
    { name = "mast", main = "species",
        says = "nuts an acre that the trees drop, as they stand now",
        keys = {
            { "species", kind = "species", says = "of which; without it, all that bear" },
            { "year", kind = "choice", of = { "mean", "good", "poor" }, default = "mean",
                says = "which kind of year: a good one comes one in three or four" },
            { "released", kind = "flag", says = "five years after their crowns were given room" },
        },
        example = "s:mast { species = \"oak\", year = \"good\" }",
        call = function(record, values, place)
            return (deer.mast(trees(record, place), record.name, values))
        end },
    { name = "browse_in_reach", main = "season",
        says = "fresh browse within reach of deer, an acre, from brush and small trees as they stand now",
        keys = {
            { "season", kind = "choice", of = { "winter", "summer" }, default = "winter",
                says = "twigs in winter, leaves too in summer" },
            { "snow", kind = "length", says = "settled snow: deer reach higher, and what it buries is lost" },
            { "yarded", kind = "flag", says = "deer held in one place by snow, which reach to the cedar line, 7 ft" },
        },
        example = "s:browse_in_reach { season = \"winter\", snow = 18 in }",
        call = function(record, values)
            return deer.browse(expected.layers_now(record), values.season, values.snow, record.name, values.yarded)
        end },
    { name = "sprouting",
        says = "which of its trees would come again from stumps, and what share of them: a list of { species, share }",
        keys = {}, example = "s:sprouting()",
        call = function(record, _, place)
            local out, stock = {}, trees(record, place)
            for _, name in ipairs(stock:species()) do
                if forest.species_among("sprouts", name) then
                    local diameter = stock:diameter({ species = { name }, what = name })
                    local percent, source = regrows.odds(name, quantity.number(diameter, "in"))
                    out[#out + 1] = { species = name, share = quantity.leaf(percent, "percent", source) }
                end
            end
            return out
        end },
}
