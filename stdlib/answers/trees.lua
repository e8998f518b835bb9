--- What a stand answers about its trees: how many, how thick, of what.
local quantity = need "quantity"

local KEYS = {
    { "species", kind = "list", of = "species", says = "which species or groups; all without it" },
    { "at_least", kind = "diameter", says = "only trees of this diameter and more" },
    { "below", kind = "diameter", says = "only trees under this diameter" },
}

--- Which trees the keys mean, as the forest room takes it.
local function which(values)
    local species = values.species and #values.species > 0 and values.species or nil
    return { species = species, from = values.at_least and quantity.number(values.at_least, "in"),
        below = values.below and quantity.number(values.below, "in"),
        what = species and table.concat(species, ", ") }
end

local function row(name, says, example)
    return { name = name, says = says, keys = KEYS, main = "species", example = example,
        call = function(record, values, place)
            local trees = need("answers").trees(record, place)
            if name == "cords" then return need("products").wood(record, trees, which(values), nil, place) end
            return trees[name](trees, which(values))
        end }
end

return {
    row("basal_area", "basal area an acre", "s:basal_area \"aspen\""),
    row("trees", "trees an acre", "s:trees { species = \"oak\", at_least = 10 in }"),
    row("diameter", "diameter of the tree of mean basal area; nil where there are none", "s:diameter \"aspen\""),
    row("share", "share of the basal area", "s:share { \"oak\", \"beech\" }"),
    row("has", "is there any?", "s:has \"oak\""),
    row("cords", "cords an acre, as volume gives them", "s:cords \"aspen\""),
}
