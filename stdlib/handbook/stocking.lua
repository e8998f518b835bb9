--- The handbook on stocking: percent of a guide, and what stands at its lines.
local stocking = need "stocking"

local GUIDE = { "guide", kind = "text", default = "upland oak",
    says = "which guide: \"upland oak\", \"northern hardwood\", \"wood density\" or \"red pine\"" }
local SPECIES = { "species", kind = "species", says = "whose room it is, where the guide goes by species", example = "\"red maple\"" }

local SOURCE = "upland oak: Gingrich 1967, For. Sci. 13:38-53, B line Krajicek, Brinkman and Gingrich 1961, For. Sci. "
    .. "7:35-42; northern hardwood: Ernst and Knapp 1985, Gen. Tech. Rep. NE-96, B line from memory; wood density: "
    .. "Ducey and Knapp 2010, For. Ecol. Manage. 260:1613-1622, B line Long 1985, from memory"

return {
    {
        name = "stocking", says = "how full an acre stands, in percent of a guide's A level, from two of trees, diameter and basal area",
        keys = {
            GUIDE, SPECIES,
            { "trees", kind = "density", says = "trees an acre" },
            { "diameter", kind = "diameter", says = "quadratic mean diameter" },
            { "basal_area", kind = "basal_area", says = "basal area" },
        },
        gives = "percent; 100 is the average most", source = SOURCE,
        example = "handbook.stocking { guide = \"upland oak\",\n  trees = 150 trees/ac, basal_area = 115 ft2/ac }",
        call = function(values, place) return stocking.percent_of(values, place) end,
    },
    {
        name = "stocking_line", says = "what stands at a line of a stocking guide, for a quadratic mean diameter",
        keys = {
            GUIDE, SPECIES,
            { "line", kind = "choice", of = { "A", "B", "C" }, default = "B", says = "which line" },
            { "diameter", kind = "diameter", needed = true, says = "quadratic mean diameter", example = "10 in" },
            { "as", kind = "choice", of = { "basal area", "trees" }, default = "basal area", says = "what is wanted" },
        },
        main = "diameter",
        gives = "basal area or trees an acre", source = SOURCE .. ". No equation of the C line was seen",
        example = "handbook.stocking_line { line = \"B\", diameter = 10 in }",
        call = function(values, place) return stocking.line_of(values, place) end,
    },
}
