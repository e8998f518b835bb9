--- Maps as files: far too large ones, and what else is not worth keeping in the source tree.
local kit = require "cli.kit"

local plan = [[
property "Hazel Hill" { walked = Oct 14 2026, map = "%s" }
stand "Bench" { map = "Bench" }
]]

--- A map of one square, on open water in Lake Superior, on purpose.
local square = [[
{ "type": "FeatureCollection", "features": [
  { "type": "Feature", "properties": { "name": "Bench" },
  "geometry": { "type": "Polygon", "coordinates": [ [ [-87.5, 47.6], [-87.498, 47.6],
    [-87.498, 47.601], [-87.5, 47.601], [-87.5, 47.6] ] ] } } ] }
]]

--- Corners on open water, as GeoJSON lists them; x and y tell from a number where one lies.
local function corners(from, to, x, y)
    local list = {}
    for i = from, to do
        list[#list + 1] = ("[%.7f, %.7f]"):format(-87.5 + 0.01 * x(i), 47.6 + 0.01 * y(i))
    end
    return table.concat(list, ",")
end

local function feature(name, form, coordinates)
    return ('{ "type": "Feature", "properties": { "name": "%s" }, "geometry": '
        .. '{ "type": "%s", "coordinates": [ %s ] } }'):format(name, form, coordinates)
end

--- An outline of so many corners.
local function circle(count)
    local function turn(i) return 2 * math.pi * (i % count) / count end
    return feature("Bench", "Polygon", "[" .. corners(0, count,
        function (i) return math.cos(turn(i)) end,
        function (i) return math.sin(turn(i)) end) .. "]")
end

--- A line to and fro over itself: to widen it takes longer than anyone waits.
local function tangle(count)
    return feature("creek", "LineString", corners(1, count,
        function (i) return math.cos(i * 2.1) end, function (i) return math.sin(i * 1.3) end))
end

local function collection(...)
    return '{ "type": "FeatureCollection", "features": ['
        .. table.concat({ ... }, ",\n") .. "] }"
end

--- Where a map is too much for the limits, it is named, and no loop of the script.
local function too_much()
    kit.put("ring.geojson", collection(circle(60000)))
    kit.put("ring.rx", plan:format("ring.geojson"))
    local what = "`ring.geojson` is too much to work on: it has 60001 corners in 1 feature, and "
    kit.expect("spinney check ring.rx --steps 2", { status = 2, out = false,
        err = what .. "the script was stopped after 2 million steps" })
    kit.expect("spinney check ring.rx --memory 3", { status = 2, out = false,
        err = what .. "takes more than 3 MB of memory" })
    kit.expect("spinney check ring.rx --steps 2", { status = 2, out = false,
        err = "try: leave corners out of it: one every few feet is enough" })
    -- A loop is still a loop.
    kit.put("loop.rx", plan:format("square.geojson") .. "while true do end\n")
    kit.expect("spinney check loop.rx --steps 2", { status = 2, out = false,
        err = "look for a loop or a call that never ends" })
    -- And where one call takes for ever.
    kit.put("tangle.geojson", collection(circle(8), tangle(60000)))
    kit.put("tangle.rx", plan:format("tangle.geojson")
        .. "feature \"creek\" { kind = \"stream\", map = \"creek\" }\n"
        .. "buffer { of = \"creek\", inside = \"Bench\", width = 20 ft }\n")
    kit.expect("ulimit -St 2; spinney check tangle.rx", { status = 2, out = false,
        err = "stopped: the map `tangle.geojson` is too much to work on: it has 60009 corners" })
end

return function()
    kit.put("large.rx", plan:format("large.geojson"))
    for _, size in ipairs { "33M", "200M" } do
        kit.expect(("rm -f large.geojson; truncate -s %s large.geojson; spinney run large.rx")
            :format(size), { status = 2, out = false,
            err = "large.rx:1:47: error: `large.geojson` is larger than a map may be (32 MB)" })
    end
    kit.expect("spinney run large.rx", { status = 2, out = false,
        err = "try: cut the property out of it first" })
    -- As large as one may be, and no map: told, not hung on.
    kit.expect("rm -f large.geojson; truncate -s 32M large.geojson; spinney run large.rx",
        { status = 2, out = false, err = "`large.geojson` cannot be read as GeoJSON" })

    kit.put("folder.geojson/inside", "")
    kit.put("folder.rx", plan:format("folder.geojson"))
    kit.expect("spinney run folder.rx", { status = 2, out = false,
        err = "error: `folder.geojson` is a folder" })

    kit.put("square.geojson", square)
    kit.put("square.rx", plan:format("square.geojson"))
    kit.expect("spinney run square.rx", { status = 0, out = "Bench  4.13 ac", err = false })
    too_much()
    -- Damaged anywhere, it is refused or read, and never a crash.
    for cut = 1, #square - 1, 7 do
        kit.put("square.geojson", square:sub(1, cut))
        local _, err, status = kit.run("spinney run square.rx")
        kit.check(("a map cut after %d bytes"):format(cut),
            status == 2 and err:find("square.rx:1:47: error: ", 1, true), err)
    end
end
