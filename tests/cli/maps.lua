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
    -- Damaged anywhere, it is refused or read, and never a crash.
    for cut = 1, #square - 1, 7 do
        kit.put("square.geojson", square:sub(1, cut))
        local _, err, status = kit.run("spinney run square.rx")
        kit.check(("a map cut after %d bytes"):format(cut),
            status == 2 and err:find("square.rx:1:47: error: ", 1, true), err)
    end
end
