--- What a stand's tally tells beside its living trees: snags, den trees, regeneration.
local answers = need "answers"
local forest = need "forest"
local quantity = need "quantity"

--- The words that `why` has for a choice: "snags, red oak".
local function said(thing, values)
    local words = { thing }
    for _, name in ipairs(values.species or {}) do words[#words + 1] = name end
    if values.at_least then words[#words + 1] = "from " .. quantity.short(values.at_least) end
    if values.below then words[#words + 1] = "below " .. quantity.short(values.below) end
    return table.concat(words, ", ")
end

--- The choice as the forest room takes it, bounds in `unit`.
local function which(values, unit)
    return {
        species = values.species,
        from = values.at_least and quantity.number(values.at_least, unit),
        below = values.below and quantity.number(values.below, unit),
    }
end

local SPECIES = { "species", kind = "list", of = "species", says = "a species or group, or a list; all when left out" }
local FROM_SIZE = { "at_least", kind = "diameter", says = "only those as thick as this, or thicker", example = "10 in" }
local BELOW_SIZE = { "below", kind = "diameter", says = "only those thinner than this", example = "16 in" }
local FROM_HEIGHT = { "at_least", kind = "length", says = "only height classes from this height up", example = "1 ft" }
local BELOW_HEIGHT = { "below", kind = "length", says = "only height classes up to this height", example = "5 ft" }

return {
    { name = "snags", main = "species", keys = { SPECIES, FROM_SIZE, BELOW_SIZE },
      says = "dead standing trees an acre, from the notes (`snags: 12 14`); nil where the notes never speak of them",
      gives = "trees an acre, with the doubt between plots, or nil",
      example = "s:snags { at_least = 10 in }",
      call = function(record, values, place)
          return forest.snags(answers.trees(record, place), which(values, "in"), said("snags", values))
      end },
    { name = "den_trees", main = "species", keys = { SPECIES, FROM_SIZE, BELOW_SIZE },
      says = "living trees with a den an acre (`den trees: red maple 18`); they count among the trees too; nil where the notes never speak of them",
      gives = "trees an acre, with the doubt between plots, or nil",
      example = "s:den_trees()",
      call = function(record, values, place)
          return forest.dens(answers.trees(record, place), which(values, "in"), said("den trees", values))
      end },
    { name = "regeneration", main = "species", keys = { SPECIES, FROM_HEIGHT, BELOW_HEIGHT },
      says = "seedlings and sprouts an acre, from the small plots of the notes; nil where none were taken",
      gives = "stems an acre, with the doubt between plots, or nil",
      example = "s:regeneration { species = \"oak\", at_least = 1 ft, below = 5 ft }",
      call = function(record, values, place)
          return forest.regeneration(answers.trees(record, place), which(values, "ft"), said("regeneration", values))
      end },
    { name = "stocked_plots", main = "species",
      keys = { SPECIES, FROM_HEIGHT, BELOW_HEIGHT,
          { "stems", kind = "count", default = 1, says = "so many stems make a small plot stocked" } },
      says = "share of the small plots that hold at least one stem, or as many as said; nil where none were taken",
      gives = "percent of the small plots, with the doubt between plots, or nil",
      example = "s:stocked_plots { species = \"oak\", stems = 2 }",
      call = function(record, values, place)
          local least = math.min(math.max(values.stems, 1), 5000)
          return forest.regeneration(answers.trees(record, place), which(values, "ft"),
              said(("small plots with %d or more"):format(least), values), least)
      end },
}
