--- prune: the lower limbs of chosen trees taken off, for clear stems, for sight, for a way
--- through or against blister rust.
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local pace = need "pace"
local quantity = need "quantity"
local rates = need "rates"
local work = need "work"
need "felling" -- kinds

--- Rates by the height that is reached, feet.
local HEIGHTS = { { 9, "pruning to 9 ft" }, { 17, "pruning to 17 ft" } }

--- How many trees, or nil when nothing says so.
local function trees_of(record)
    local values = record.values
    local acres = record.stand and ground.of(record)
    if values.count then
        if quantity.fits(values.count, "trees") then return acts.portion(record, values.count) end
        if acres then return quantity.say(values.count * acres, "trees") end
    end
    local stock = record.stand and record.stand.cruise
    if values.count or not stock or not acres then return nil end
    local pick = { species = values.species, from = values.at_least and quantity.number(values.at_least, "in"),
        below = values.below and quantity.number(values.below, "in"), what = "trees to prune" }
    return quantity.say(stock:trees(pick) * acres, "trees")
end

local function rate_to(record, height)
    for _, row in ipairs(HEIGHTS) do
        if height <= row[1] then return rates.find(row[2], "trees/h", record.place) end
    end
    host.fault(record.place, "to", "prune-height", ("pruning to %g ft is work for climbers or a lift"):format(height),
        "to = 17 ft or less; or job { hours = ... }")
    return nil
end

--- What a rule may ask of it, as of a cut: the trees it wounds.
local function takes(record, word)
    local forest = need "forest"
    local list = record.values.species
    for _, name in ipairs(list or {}) do
        if forest.species_among(name, word) or forest.species_among(word, name) then return true end
    end
    return not list and record.stand ~= nil and record.stand.cruise ~= nil and record.stand.cruise:has(word)
end

return acts.declare({
    kind = "prune", named = "may", mapped = true, needs_stand = true, skill = "saw",
    says = "takes the lower limbs off chosen trees, up to a height that is reached from the ground",
    keys = {
        { "species", kind = "list", of = "species", says = "which species or groups; without it, all" },
        { "at_least", kind = "diameter", most = quantity.leaf(60, "in"), says = "only trees of this diameter and more" },
        { "below", kind = "diameter", most = quantity.leaf(60, "in"), says = "only trees under this diameter" },
        { "count", kind = "tree_number", says = "how many: 60 trees, or 100 trees/ac; without it, all of them in the stand" },
        { "to", kind = "length", default = quantity.leaf(9, "ft"), says = "how high: up to 9 ft by hand saw, up to 17 by pole saw" },
        pace.snow,
    },
    figures = { { "trees", "trees pruned" }, { "hours", "hours of pruning" } },
    hazards = {
        "Nobody under a limb that is being cut; eyes and head covered; a pole saw stays 10 ft and its own length from any wire.",
    },
    asked = { takes = takes },
    example = [[prune { stand = "Bench aspen", species = "oak", count = 20 trees,
  to = 9 ft, during = season "dormant" }]],
    title = function(record)
        local species = record.values.species
        return "Prune " .. (species and table.concat(species, ", ") or "trees")
    end,
    takeoff = function(record)
        local values = record.values
        local trees = trees_of(record)
        if not trees then
            host.fault(record.place, "stand", "stand-unknown-trees", "how many trees are pruned is not known", "count = 60 trees")
            return
        end
        trees = acts.set(record, "trees", trees, "trees pruned")
        local height = ground.feet(values.to, record.stand, record.place, "to")
        local entry = height and rate_to(record, quantity.number(height, "ft"))
        if not entry then return end
        local part = ground.part_words(record)
        if part then table.insert(record.notes, part) end
        table.insert(record.notes, ("Limbs off up to %s, at the collar, the bark below not torn; at least half of the height keeps its crown (NRCS 660, from memory).")
            :format(quantity.short(height)))
        if not values.hours then
            acts.set(record, "hours", pace.slowed(record, work.hours(trees, entry.value, "pruning"), true), "pruning hours")
        end
    end,
})
