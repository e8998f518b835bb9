--- `spinney map`: what is in a file of any kind, and lines for a script that hold.
local kit = require "cli.kit"

--- On open water in Lake Superior, on purpose, as all maps of the tests.
local farm = [[
{ "type": "FeatureCollection", "features": [
  { "type": "Feature", "properties": { "name": "the farm", "kind": "outline", "lot": 7 },
    "geometry": { "type": "Polygon", "coordinates": [ [ [-87.5, 47.6], [-87.49, 47.6],
      [-87.49, 47.61], [-87.5, 47.61], [-87.5, 47.6] ] ] } },
  { "type": "Feature", "properties": { "name": "Bench", "kind": "stand", "lot": 8 },
    "geometry": { "type": "Polygon", "coordinates": [ [ [-87.5, 47.6], [-87.498, 47.6],
      [-87.498, 47.601], [-87.5, 47.601], [-87.5, 47.6] ] ] } },
  { "type": "Feature", "properties": { "name": "brook", "kind": "stream", "lot": null },
    "geometry": { "type": "LineString", "coordinates": [ [-87.499, 47.602],
      [-87.495, 47.604] ] } },
  { "type": "Feature", "properties": { "name": null, "lot": 9 },
    "geometry": { "type": "Point", "coordinates": [-87.495, 47.605] } } ] }
]]

local kml = [[
<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>walk</name>
<Placemark><name>ring "one"</name><LineString><coordinates>-87.5,47.6 -87.498,47.6
 -87.498,47.601 -87.5,47.601 -87.49999,47.60002</coordinates></LineString></Placemark>
</Document></kml>
]]

local gpx = [[
<?xml version="1.0"?>
<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="47.6" lon="-87.5"><name>gate</name></wpt>
<trk><name>way in</name><trkseg><trkpt lat="47.6" lon="-87.5"/>
<trkpt lat="47.604" lon="-87.497"/>
</trkseg></trk></gpx>
]]

--- The script that a listing offers.
local function script_of(listing)
    return (listing:match("In a script:\n\n(.*)$") or ""):gsub("\n    ", "\n")
end

--- What the listing offers is right: a plan of it holds, but for what only the author knows.
local function holds(file, wanted)
    local out = kit.expect("spinney map " .. file, { status = 0, out = wanted, err = false })
    local script = script_of(out):gsub('kind = "%.%.%."', 'kind = "cover"')
    kit.put("offered.rx", (script:gsub('property "..." {',
        'property "Hazel Hill" { walked = Oct 14 2026,')))
    kit.expect("spinney check offered.rx", { status = 0, out = false })
end

return function()
    kit.put("farm.geojson", farm)
    kit.put("walk.kml", kml)
    kit.put("phone.gpx", gpx)
    -- 4.13 ac as in the plan of the same square.
    holds("farm.geojson", "  Bench      area     4.13 ac        4  stand\n")
    local out = kit.run("spinney map farm.geojson")
    for _, wanted in ipairs {
        "  coordinates  degrees of WGS 84\n  features     4 features in 1 layer\n",
        "  (no name)  point                   1\n",
        "  lot           3 of 4          3  7; 8; 9\n",
        '    property "..." { map = "farm.geojson", outline = "the farm" }\n',
        '    -- 1 feature has no name, but one by lot: { file = "farm.geojson", field = "lot" }\n',
        '    feature "brook" { kind = "stream", map = "brook" }\n',
    } do
        kit.check("the list of farm.geojson", out:find(wanted, 1, true),
            wanted .. "is not in\n" .. out)
    end
    holds("walk.kml", 'stand "ring \\"one\\"" { map = "ring \\"one\\"" }')
    holds("phone.gpx", "Layer waypoints")
    local few = farm:gsub('"name": [^,]*,', '"name": null,')
    kit.put("few.geojson", (few:gsub('"lot": (%d)', '"lot": "lot %1"')))
    holds("few.geojson", 'property "..." { map = { file = "few.geojson", field = "lot" } }')

    -- Several, each with its head; what is wrong in one does not hide the others.
    kit.expect("spinney map farm.geojson none.gpx phone.gpx", { status = 2,
        out = "phone.gpx\n=========\n", err = 'there is no map `none.gpx`' })
    kit.expect("mkdir -p far; cp farm.geojson far; spinney map far/farm.geojson",
        { status = 0, out = 'property "..." { map = "farm.geojson"', err = false })
    kit.expect("spinney map far/form.geojson", { status = 2, out = false,
        err = 'did you mean "farm.geojson"?' })
    -- A feature that is broken is told, and the rest listed.
    kit.put("broken.geojson",
        (farm:gsub("(%[%-87.49, 47.6%])(,%s*)(%[%-87.49, 47.61%])", "%3%2%1")))
    kit.expect("spinney map broken.geojson", { status = 2,
        out = "  the farm   area    broken           outline\n",
        err = "the outline of `the farm` crosses itself" })
    kit.expect("spinney map broken.geojson", { status = 2, out = "  Bench      area   4.13 ac",
        err = "draw it anew there" })
    for _, case in ipairs {
        { "plan.rx", 2, "`plan.rx` is not called like a map" },
        { "", 64, "map wants the files to look into" },
        { "farm.geojson --json", 64, "takes no --json" },
        { "farm.geojson --memory 0.01", 2, "memory" },
    } do
        kit.expect("spinney map " .. case[1], { status = case[2], out = false, err = case[3] })
    end
end
