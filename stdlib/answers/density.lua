--- What a stand answers on how crowded it is: density index, relative density, importance of a
--- species, crown cover, classes of diameter.
local answers = need "answers"
local forest = need "forest"
local host = need "host"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

--- Specific gravity of wood for which no layer says it: from memory, the middle of the
--- region's hardwoods and of its conifers (Wood Handbook, FPL-GTR-190, ch. 5, not seen).
local GRAVITY = { hardwood = 0.50, conifer = 0.37 }

local SPECIES = { "species", kind = "list", of = "species", says = "only these species; all without it" }
local FROM = { "at_least", kind = "diameter", says = "only trees of this diameter and more" }
local BELOW = { "below", kind = "diameter", says = "only trees thinner than this" }

--- Which trees are meant, as the stock takes them.
local function which(values)
    local species = values.species
    return {
        species = species, what = species and table.concat(species, ", ") or nil,
        from = values.at_least and quantity.number(values.at_least, "in"),
        below = values.below and quantity.number(values.below, "in"),
    }
end

local function density_index(record, values, place)
    local way = values.by == "mean diameter" and "means" or "trees"
    return forest.density_index(answers.trees(record, place), which(values), way)
end

local function relative_density(record, values, place)
    need "biomass" -- what the wood of each species weighs
    local full = forest.relative_density(answers.trees(record, place), which(values), GRAVITY.hardwood, GRAVITY.conifer)
    return quantity.name(full, "relative density of " .. record.name, ("wood of species whose gravity is not known: "
        .. "%.2f, conifers %.2f, from memory"):format(GRAVITY.hardwood, GRAVITY.conifer))
end

local function importance(record, values, place)
    local trees = answers.trees(record, place)
    if not trees:has() then
        host.raise(place, nil, "figure-none", ("\"%s\" has no trees, so none is important"):format(record.name))
    end
    return forest.importance(trees, which(values))
end

--- Cover of the crowns of a stock: of a stand, or of what a cut leaves of it.
local function cover_of(record, trees, values, words)
    local usual = need("crowns").usual
    return quantity.name(forest.crown_cover(trees, which(values), usual[1], usual[2]), words .. record.name,
        "crown widths by diameter as `spinney help species` has them: Krajicek, Brinkman and Gingrich 1961 (from "
        .. "memory) for oak and hickory, else common practice, no source")
end

--- The act that is meant: itself, or its id ("bench-aspen/fell").
local function act_of(value)
    return objects.record(value, "act") or type(value) == "string" and run.act(value) or nil
end

local function crown_cover(record, values, place)
    local trees = answers.trees(record, place)
    if values.after == nil then return cover_of(record, trees, values, "crown cover of ") end
    local after = act_of(values.after)
    if not after or after.stand ~= record then
        host.raise(place, "after", "cover-after", ("`after` wants a cut in \"%s\""):format(record.name),
            "after = the cut, as `local fell = cut { ... }` gave it, or its id in quotes")
    elseif not after.left and not run.settled then
        host.raise(place, "after", "act-early", "what a cut leaves is settled when the script has ended",
            "ask in a rule, in `suits`, or with `spinney why`")
    elseif not after.left then
        host.raise(place, "after", "cover-after", ("`%s` takes no trees that are known one by one"):format(after.id or "it"))
    end
    return cover_of(record, after.left, values, "crown cover left of ")
end

--- Classes `width` wide: each with its own trees and basal area, as sure as its own plots say.
local function classes(record, values, place)
    local trees = answers.trees(record, place)
    local width = values.width and quantity.number(values.width, "in") or 2
    local pick, seen, out = which(values), {}, {}
    for _, row in ipairs(trees:classes(width)) do
        local from, below = math.max(row.from, pick.from or 0), math.min(row.below, pick.below or math.huge)
        if not seen[row.diameter] and from < below then
            seen[row.diameter] = true
            local class = { species = pick.species, what = ("%g in"):format(row.diameter), from = from, below = below }
            if trees:has(class) then
                out[#out + 1] = { diameter = quantity.leaf(row.diameter, "in"), from = quantity.leaf(from, "in"),
                    below = quantity.leaf(below, "in"), trees = trees:trees(class),
                    basal_area = trees:basal_area(class) }
            end
        end
    end
    table.sort(out, function(a, b) return quantity.less(a.diameter, b.diameter) end)
    return out
end

local M = {
    { name = "density_index", main = "species",
      says = "stand density index (Reineke): how many 10-in trees an acre would crowd as much",
      keys = { SPECIES, FROM, BELOW,
          { "by", kind = "choice", of = { "trees", "mean diameter" }, default = "trees",
            says = "summed tree by tree, or from the number of trees and the quadratic mean diameter" } },
      example = "s:density_index()", call = density_index },
    { name = "relative_density", main = "species",
      says = "how full the stand is, against the most that wood of its weight carries (Ducey and Knapp)",
      keys = { SPECIES, FROM, BELOW }, example = "s:relative_density()", call = relative_density },
    { name = "importance", main = "species",
      says = "importance: mean of its shares of trees, of basal area and of meetings with a plot (by eye the first two)",
      keys = { { "species", kind = "list", of = "species", needed = true, says = "which species" } },
      example = "s:importance \"red maple\"", call = importance },
    { name = "crown_cover", main = "species",
      says = "ground under crowns, crowns lying over one another at random",
      keys = { SPECIES, FROM, BELOW,
          { "after", kind = "any", says = "a cut in the stand, or its id: what it leaves" } },
      example = "s:crown_cover()", call = crown_cover },
    { name = "classes",
      says = "its diameter classes, a list of { diameter, from, below, trees, basal_area }, each as sure as its plots say",
      keys = { SPECIES, FROM, BELOW,
          { "width", kind = "diameter", least = quantity.leaf(0.5, "in"), most = quantity.leaf(20, "in"),
            says = "width of a class; 2 in without it" } },
      example = "s:classes { species = \"red oak\", width = 2 in }", call = classes },
}

return M
