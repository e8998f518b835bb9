--- A plan without a map loads none of the libraries that maps and drawings stand on: they
--- take as long to load as the whole run.
local kit = require "cli.kit"

local heavy = { "libgdal", "libgeos", "libproj", "libcairo", "libpango", "spinney%-maps" }

--- What the loader says that it mapped in a run.
local function mapped(words, plan)
    local top = io.popen("pwd"):read("l")
    kit.run("rm -f loaded.*")
    local _, err, status = kit.run(words .. " LD_DEBUG=files LD_DEBUG_OUTPUT=loaded spinney run "
        .. kit.quote(top .. "/" .. plan))
    local out = kit.run("cat loaded.*")
    return out, status, err
end

return function()
    local loaded, status, err = mapped("", "tests/bench/plain/plan.rx")
    kit.check("the demo runs while the loader is watched", status == 0 or status == 1, err)
    kit.check("the loader tells of the libraries it maps", loaded:find("liblua5.4", 1, true) ~= nil,
        loaded:sub(1, 400))
    for _, name in ipairs(heavy) do
        kit.check("a plan without a map maps no " .. name, not loaded:find(name))
    end
    -- The same watch sees them when they are there.
    local module = kit.built .. "/spinney-maps.so"
    if not module:find("^/") then module = io.popen("pwd"):read("l") .. "/" .. module end
    loaded = mapped("ASAN_OPTIONS=verify_asan_link_order=0:detect_leaks=0 LD_PRELOAD="
        .. kit.quote(module), "tests/bench/plain/plan.rx")
    for _, name in ipairs { "libgdal", "libgeos", "libproj", "spinney%-maps" } do
        kit.check("the watch sees " .. name, loaded:find(name) ~= nil)
    end
end
