--- Regions: a region's seasons, rates, rules and notices, and a state's under it.
-- "lake-states/michigan" reads stdlib/regions/lake-states.rx, then
-- stdlib/regions/lake-states/michigan.rx; a pack may hold regions/NAME.rx of its own.
local M = {}
local host = need "host"

--- Reads a region and the state under it.
-- @param name such as "lake-states/michigan"
-- @param place where the property names it
function M.load(name, place)
    local region, state = name:match("^([%w%-]+)/([%w%-]+)$")
    region = region or name:match("^([%w%-]+)$")
    local known = host.regions()
    local function has(word)
        for _, one in ipairs(known) do if one == word then return true end end
        return false
    end
    if not region or not has(region) or (state and not has(region .. "/" .. state)) then
        local near = host.suggest(name, known)
        host.fault(place, "region", "region-unknown", ("there is no region \"%s\""):format(name),
            near and ("did you mean \"%s\"?"):format(near)
                 or ("known: %s"):format(table.concat(known, ", ")))
        return
    end
    host.load_region(region, "region")
    if state then host.load_region(region .. "/" .. state, "state") end
end

return M
