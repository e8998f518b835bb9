--- species: a species of the table, or a change to one.
local forest = need "forest"
local host = need "host"

local M = {
    kind = "species", named = "must",
    says = "adds a species to the table, or says again what is known of one",
    keys = {
        { "scientific", kind = "text", says = "scientific name" },
        { "code", kind = "text", says = "short code for tally sheets" },
        { "aliases", kind = "list", of = "text", says = "other names" },
        { "groups", kind = "list", of = "text", says = "groups it belongs to: \"aspen\", \"oak\", \"conifer\", ..." },
        { "traits", kind = "list", of = "text", says = "what it does: \"suckers\", \"sprouts\", \"wilts\", \"mast\", \"evergreen\", \"shrub\", \"invasive\"" },
        { "plural", kind = "text", says = "its plural, when not the name with an s" },
        { "tons_source", kind = "text", says = "where the tons come from" },
        { "tons_per_cord", kind = "number", says = "green tons in a cord" },
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
