--- A plan without a map loads none of the libraries that maps and drawings stand on: they
--- take as long to load as the whole run.
local kit = require "cli.kit"

local PLAN = "tests/bench/plain/plan.rx" -- the demo before it was mapped
local heavy = { "libgdal", "libgeos", "libproj", "libcairo", "libpango", "spinney%-maps" }

--- On open water in Lake Superior, on purpose.
local MAP = [[{ "type": "FeatureCollection", "features": [ { "type": "Feature",
  "properties": { "name": "Farm" }, "geometry": { "type": "Polygon", "coordinates": [ [
    [-87.5, 47.6], [-87.494, 47.6], [-87.494, 47.604], [-87.5, 47.604], [-87.5, 47.6] ] ] } } ] }
]]

--- What the loader says that it mapped in a run, from its start to its end.
local function mapped(plan)
    kit.run("rm -f loaded.*")
    local _, err, status = kit.run("LD_DEBUG=files LD_DEBUG_OUTPUT=loaded spinney run "
        .. kit.quote(plan))
    kit.check("the loader tells of the libraries that it maps for " .. plan:match("[^/]+$"),
        status == 0 or status == 1, err)
    return kit.run("cat loaded.*")
end

return function()
    local loaded = mapped(io.popen("pwd"):read("l") .. "/" .. PLAN)
    kit.check("the watch sees a library that every run maps",
        loaded:find("libc.so", 1, true) ~= nil, loaded:sub(1, 400))
    for _, name in ipairs(heavy) do
        kit.check("a plan without a map maps no " .. name, not loaded:find(name))
    end
    -- The same watch sees them when a run opens them on its way.
    kit.put("farm.geojson", MAP)
    kit.put("farm.rx", [[
property "Farm" { walked = Oct 14 2026, map = "farm.geojson", outline = "Farm" }
]])
    loaded = mapped("farm.rx")
    for _, name in ipairs { "libgdal", "libgeos", "libproj", "spinney%-maps" } do
        kit.check("the watch sees " .. name, loaded:find(name) ~= nil)
    end
end
