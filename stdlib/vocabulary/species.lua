--- species: a species of the table, or a change to one.
local forest = need "forest"
local host = need "host"

local M = {
    kind = "species", named = "must",
    says = "adds a species to the table, or says again what is known of one; what is not said again stays",
    keys = {
        { "scientific", kind = "text", says = "scientific name" },
        { "code", kind = "text", says = "short code for tally sheets" },
        { "aliases", kind = "list", of = "text", says = "other names" },
        { "groups", kind = "list", of = "text", says = "groups it belongs to: \"aspen\", \"oak\", \"conifer\", ..." },
        { "traits", kind = "list", of = "text", says = "what it does: \"suckers\", \"sprouts\", \"wilts\", \"mast\", \"evergreen\", \"shrub\", \"invasive\"" },
        { "plural", kind = "text", says = "its plural, when not the name with an s" },
        { "tons_source", kind = "text", says = "where the tons come from" },
        { "tons_per_cord", kind = "number", says = "green tons in a cord" },
        { "wood_gravity", kind = "number", says = "specific gravity of its wood, green volume and dry weight: 0.36" },
        { "crown_start", kind = "number", says = "crown width in ft of a tree of no diameter, and" },
        { "crown_slope", kind = "number", says = "how many ft wider for each inch of diameter" },
        { "inside_bark", kind = "number", says = "diameter inside bark, as a part of that outside: 0.92" },
        { "shade_tolerance", kind = "number", says = "1 (none) to 5 (much)" },
        { "browse_rank", kind = "number", says = "what deer think of it: 0 left alone, 1 eaten when hungry, 2 eaten, 3 sought" },
        { "sprout_from", kind = "number", says = "stump diameter in inches, and" },
        { "sprout_share_from", kind = "number", says = "percent of such stumps that sprout;" },
        { "sprout_to", kind = "number", says = "a thicker stump, in inches, and" },
        { "sprout_share_to", kind = "number", says = "its percent; straight between, level outside" },
        { "mast_0", kind = "number", says = "pounds of nuts a tree in a mean year, a polynomial of its diameter in inches: the constant," },
        { "mast_1", kind = "number", says = "times D," },
        { "mast_2", kind = "number", says = "times D squared," },
        { "mast_3", kind = "number", says = "times its cube," },
        { "mast_4", kind = "number", says = "times its fourth power" },
        { "mast_from", kind = "number", says = "good from this diameter in inches" },
        { "mast_to", kind = "number", says = "up to that one" },
        { "biomass_0", kind = "number", says = "dry kilograms above ground = exp(this + biomass_1 ln D), D in cm" },
        { "biomass_1", kind = "number", says = "see biomass_0" },
        { "traits_source", kind = "text", says = "where these numbers come from" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[species "northern catalpa" { scientific = "Catalpa speciosa",
  code = "NC", groups = { "hardwood" } }]],
}

function M.make(place, name, values)
    values.name = name
    local ok, message, hint = forest.species_add(values, host.layer(place).words)
    if not ok then host.fault(place, nil, "species-row", message, hint) end
    return nil
end

return M
