--- A plan with a map, and layouts on it: openings, a trail that forks, buffers along a creek
--- and a kept clump. The map's places lie on open water in Lake Superior, on purpose.
local M = {}

local function feature(name, kind, coordinates)
    local form = '{"type":"Feature","properties":{"name":"%s"},'
        .. '"geometry":{"type":"%s","coordinates":%s}}'
    return form:format(name, kind, coordinates)
end

--- A box of west, south, east, north, in ten-thousandths of a degree from 87.5 W 47.6 N.
local function box(west, south, east, north)
    local function at(x, y) return ("[%.7f,%.7f]"):format(-87.5 + x * 1e-4, 47.6 + y * 1e-4) end
    return ("[[%s,%s,%s,%s,%s]]"):format(at(west, south), at(east, south), at(east, north), at(west,
        north),
        at(west, south))
end

local function line(...)
    local list = {}
    for i, at in ipairs { ... } do list[i] = { longitude = at[1], latitude = at[2] } end
    return list
end

--- The trail, which forks, and the creek.
M.path = {
    line({ -87.49945, 47.6004 }, { -87.4992, 47.6009 }, { -87.4989, 47.6012 },
        { -87.49855, 47.6015 }),
    line({ -87.4989, 47.6012 }, { -87.4987, 47.6008 }, { -87.49801, 47.6007 }),
}
M.creek = line({ -87.5, 47.6011 }, { -87.4985, 47.6002 }, { -87.49, 47.6005 })

local function written(places)
    local list = {}
    for i, at in ipairs(places) do list[i] = ("[%.7f,%.7f]"):format(at.longitude, at.latitude) end
    return ("[%s]"):format(table.concat(list, ","))
end

M.map = '{"type":"FeatureCollection","features":[\n' .. table.concat({
    feature("Farm", "Polygon", box(0, 0, 100, 60)),
    feature("Bench aspen", "Polygon", box(0, 0, 20, 20)),
    feature("Oak", "Polygon", box(20, 0, 50, 20)),
    feature("glades", "MultiPolygon", ("[%s,%s]"):format(box(4, 3, 7, 5), box(13, 14, 16, 16))),
    feature("path", "MultiLineString", ("[%s,%s]"):format(written(M.path[1]), written(M.path[2]))),
    feature("clump", "Polygon", box(2, 16, 6, 18.5)),
    feature("gate", "Point", "[-87.5001,47.5999]"),
    feature("far gate", "Point", "[-87.49,47.606]"),
    feature("creek", "LineString", written(M.creek)),
}, ",\n") .. "\n]}\n"

--- @param name of the stand, as it is written in the script
--- @param more keys of the property
function M.plan(name, more)
    return ([=[
property "Hazel Hill" { region = "lake-states/michigan", walked = Oct 14 2026, map = "farm.geojson",
  outline = "Farm"%s }
stand NAME { map = "Bench aspen", species = { ["bigtooth aspen"] = 100 percent },
  diameter = 6 to 8 in, crowding = "crowded" }
feature "Alder creek" { kind = "stream", map = "creek", width = 8 ft }
feature "North gate" { kind = "gate", map = "gate" }
feature "Far gate" { kind = "gate", map = "far gate" }
buffer { of = "Alder creek", inside = NAME, width = 40 ft }
keep { stand = NAME, map = "clump" }
local fell = cut "fell" { stand = NAME, species = "aspen", how = "flush" }
local open = opening "rest" { stand = NAME, use = "rest", map = "glades", after = fell }
trail { stand = NAME, map = "path", joins = open, width = 6 ft, after = fell }
]=]):format(more or ", declination = -3.5 deg, pace = 2.6 ft"):gsub("NAME",
    (("%q"):format(name):gsub("%%", "%%%%"))) .. ""
end

return M
