--- Opens what every plan starts from: counts, species, the built-in seasons, rates, prices and
--- rules, then the packs laid over them.
local M = {}
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"

function M.open()
    for _, unit in ipairs(need "counts") do
        local ok, message = quantity.define(unit.name, unit.plural, nil, 1, unit.source)
        if not ok then error(message) end
    end
    for _, row in ipairs(need "species") do
        local ok, message = forest.species_add(row, "built-in")
        if not ok then error(message) end
    end
    host.load_base()
    need("packs").open()
end

return M
