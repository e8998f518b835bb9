--- property: the land a plan is for.
local host = need "host"
local objects = need "objects"
local kinds = need "kinds"
local quantity = need "quantity"
local run = need "run"

--- Where the wind mostly comes from, a bearing, and how far it turns to both sides together.
kinds.wind = {
    says = "where it comes from and how far it turns: { from = 250 deg, spread = 40 deg }",
    take = function(value, _, place, key)
        if type(value) ~= "table" or objects.record(value) then return nil end
        return need("schema").check(place, { kind = "wind", at = key, keys = {
            { "from", kind = "angle", needed = true, least = quantity.leaf(0, "deg"), most = quantity.leaf(360, "deg"),
              says = "the bearing it comes from, from true north", example = "250 deg" },
            { "spread", kind = "angle", least = quantity.leaf(0, "deg"), most = quantity.leaf(180, "deg"),
              default = quantity.leaf(60, "deg", "common practice, no source"), says = "the angle it turns over in all" },
        } }, value)
    end,
}

local LATEST = 2170 -- a plan looks years ahead, and the calendar ends with 2200

local M = {
    kind = "property", named = "must",
    says = "the property a plan is for: its region brings that region's seasons and rules",
    keys = {
        { "region", kind = "text", says = "region, and state under it, whose rules and seasons hold",
          example = "\"lake-states/michigan\"" },
        { "county", kind = "text", says = "county, for the offices to ask" },
        { "walked", kind = "date", says = "the day it was walked; the plan starts the day after" },
        { "starts", kind = "date", says = "the first day of work, when not the day after the walk" },
        { "owner", kind = "text", says = "whom the plan is for" },
        { "map", kind = "map_files", says = "its map: GeoJSON, GPX, KML, Shapefile or GeoPackage; several: { \"farm.geojson\", \"track.gpx\", { file = \"lots.shp\", field = \"LABEL\" } }",
          example = "\"farm.geojson\"" },
        { "outline", kind = "map", says = "name of the whole property in the map: no stand may lie outside it" },
        { "declination", kind = "angle", least = quantity.leaf(-40, "deg"), most = quantity.leaf(40, "deg"),
          says = "how far a compass points east of true north; west is below zero: -3.5 deg" },
        { "pace", kind = "length", least = quantity.leaf(1, "ft"), most = quantity.leaf(6, "ft"),
          says = "length of the walker's pace, the step of both feet or of one as they count it" },
        { "wind", kind = "wind", says = "where the wind mostly comes from in the hunting weeks: { from = 250 deg, spread = 40 deg }" },
        { "lines", kind = "table", says = "how well each property line is known: { north = \"surveyed\", east = \"old fence\" }" },
        { "goals", kind = "list", of = "text", says = "what the owner wants, first things first" },
        { "budget", kind = "money", says = "what the owner means to spend" },
        { "contingency", kind = "share", says = "added to labor, machines and materials for what nobody foresees, in place of the rates: 10 to 20 percent" },
        { "hunting", kind = "list", of = "off_days", says = "weeks the owner hunts, of every year or by their dates, { from = Nov 21 2026, to = Nov 29 2026 }: nothing is planned then" },
        { "tax_program", kind = "text", says = "forest tax program or contract the land is enrolled in" },
        { "rare_species", kind = "text", says = "what the state's heritage program answered, with its date" },
        { "notes", kind = "text", says = "anything else the owner should read at the head of the plan" },
    },
    example = [[property "Quill Creek" {
  region = "lake-states/michigan", county = "Alder County",
  walked = Oct 14 2026,
  lines = { north = "surveyed", east = "old fence" },
  goals = { "deer cover", "ruffed grouse" },
}]],
}

--- What a property answers in a script, beside its keys.
M.answers = {
    { "p:total { of = \"cords\", confidence = 90 percent }",
      "total over the stands described so far, of cords, trees or basal area, with its error and interval: "
      .. "{ total, error, low, high, freedom, words }" },
}

--- How well a line may be known, from best to worst; the last three are unclear.
M.line_words = { "surveyed", "marked", "agreed", "old fence", "unmarked", "disputed" }

--- `p:total { of = "cords" }`: over all stands, with its error.
local total
local function total_of()
    total = total or host.face("total", function(place, object, ...)
        if not objects.record(object, "property") then
            host.raise(place, nil, "property-answer", "total is asked of a property with a colon", "write p:total { of = \"cords\" }")
        end
        local precision = need "answers/precision"
        return precision.total(run.stands, need("words").check(precision.total_row, "total", place, ...), place)
    end)
    return total
end

local Property = { kind = "property" }
function Property.index(record, key)
    if key == "name" then return record.name end
    if key == "total" then return total_of() end
    return objects.open(record.values[key])
end

function M.make(place, name, values, given)
    if run.property then
        host.fault(place, nil, "property-twice", ("the plan already has the property \"%s\", at %s")
            :format(run.property.name, host.place_words(run.property.place)))
        return run.property.object
    end
    for side, word in pairs(values.lines or {}) do
        local known = false
        for _, good in ipairs(M.line_words) do known = known or good == word end
        if not known then
            local near = type(word) == "string" and host.suggest(word, M.line_words)
            host.fault(place, { "lines", tostring(side) }, "line-words", ("the %s line is %s; a line is %s"):format(
                tostring(side), type(word) == "string" and "\"" .. word .. "\"" or kinds.describe(word),
                kinds.quoted(M.line_words)), near and ("did you mean \"%s\"?"):format(near) or nil)
        end
    end
    for _, key in ipairs({ "walked", "starts" }) do
        if values[key] and values[key].year > LATEST then
            host.fault(place, key, "key-bounds", ("`%s` is %s; plans are made up to %d"):format(key,
                tostring(values[key]), LATEST))
            values[key] = nil
        end
    end
    local record = { name = name, place = place, values = values }
    run.property = record
    if values.map then
        need("map_files").open(place, values.map)
    elseif given.map ~= nil then
        need("map_files").broken()
    end
    if values.outline then record.shape = need("map").take(values.outline, "area", place, "outline") end
    if values.region then need("regions").load(values.region, place) end
    return objects.new(Property, record)
end

return M
