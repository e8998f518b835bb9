--- The handbook on site index: heights, ages, measured trees.
local site = need "site"

local SPECIES = { "species", kind = "species", says = "whose; the curve that comes first for it", example = "\"red oak\"" }
local INDEX = { "site_index", kind = "quantity", unit = "ft", needed = true, says = "height at 50 years", example = "61 ft" }
local HEIGHT = { "height", kind = "quantity", unit = "ft", needed = true, says = "height", example = "66 ft" }
local AGE = { "age", kind = "span", needed = true, says = "age", example = "48 yr" }
local CURVE = { "curve", kind = "text", says = "another curve by its name: \"NC-128 fig. 47\"" }
local UP = { "years_to_breast_height", kind = "span", says = "years from the seed to breast height, in place of the curve's" }
local function at(says)
    return { "at", kind = "choice", of = { "total", "breast height" }, says = says }
end
local COUNTED = at "where the age was counted; from the seed when nothing is said"

local SOURCE = "Carmean, Hahn and Jacobs 1989, Gen. Tech. Rep. NC-128, by figure; Lundgren and Dolid 1970, "
    .. "Res. Pap. NC-36. Coefficients from open transcriptions; spans of ages from memory"

return {
    {
        name = "height", says = "how tall leading trees of a species are at an age",
        keys = { SPECIES, INDEX, AGE, COUNTED, CURVE, UP },
        gives = "a height", source = SOURCE,
        example = "handbook.height { species = \"red oak\", site_index = 61 ft, age = 90 yr }",
        call = function(values, place) return site.height(values, place) end,
    },
    {
        name = "age_at_height", says = "how old leading trees of a species are when they are that tall",
        keys = { SPECIES, INDEX, HEIGHT, at "where the age is to be counted; from the seed when nothing is said", CURVE, UP },
        gives = "an age", source = SOURCE,
        example = "handbook.age_at_height { species = \"red pine\",\n  site_index = 62 ft, height = 40 ft }",
        call = function(values, place) return site.age_at_height(values, place) end,
    },
    {
        name = "site_index", says = "site index (height at 50 years) from a measured tree: a dominant one, never overtopped",
        keys = { SPECIES, HEIGHT, AGE, COUNTED, CURVE, UP },
        gives = "a height. By the equation published for it, else by the height curve turned round", source = SOURCE,
        example = "handbook.site_index { species = \"white oak\", height = 70 ft, age = 45 yr }",
        call = function(values, place) return site.index(values, place) end,
    },
}
