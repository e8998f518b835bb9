--- The flags for spreadsheets, receivers and map programs.
local M = {}
local flags = need "report/flags"
local page = need "page"
local run = need "run"
local stake = need "stake"
local survey = need "survey"

local function number(value, decimals) return value and { value, decimals } or false end

--- Degrees to a tenth, below a full turn: what rounds to 360 is north.
local function degrees(value) return value and { math.floor(value * 10 + 0.5) % 3600 / 10, 1 } or false end

--- One row a flag: plain numbers, units in the head.
function M.csv()
    local walk = stake.walk()
    local rows = { { "number", "flag", "kind", "also", "from", "true_degrees", "compass_degrees", "feet", "paces",
        "longitude", "latitude" } }
    for i, flag in ipairs(walk) do
        rows[i + 1] = { { i, 0 }, flag.name, flag.kind, table.concat(flag.also, "; "),
            i > 1 and { i - 1, 0 } or walk.start or false, degrees(flag.azimuth), degrees(flag.magnetic),
            number(flag.distance, 1), number(flag.paces, 1), { flag.longitude, 7 }, { flag.latitude, 7 } }
    end
    return page.csv(rows)
end

--- "N 42° E (compass 046°), 130 ft, 50 paces from flag 3"
local function note(walk, i)
    local flag = walk[i]
    local words = {}
    if flag.azimuth then
        words[1] = survey.quadrant(flag.azimuth, "degrees")
        if flag.magnetic then words[1] = ("%s (compass %s)"):format(words[1], survey.azimuth(flag.magnetic, "degrees")) end
        words[2] = flags.short(flag.distance) .. " ft"
        if flag.paces then words[3] = flags.short(flag.paces) .. " paces" end
    end
    local text = table.concat(words, ", ")
    if text ~= "" then text = ("%s from %s"):format(text, i > 1 and ("flag %d"):format(i - 1) or walk.start) end
    if #flag.also > 0 then text = ("%s%salso %s"):format(text, text == "" and "" or "; ", table.concat(flag.also, "; ")) end
    return text ~= "" and text or nil
end

--- Stands first, then what is laid out in them, then kept trees.
local function shapes()
    local list, seen = {}, {}
    for _, layout in ipairs(stake.layouts()) do
        local stand = layout.act.stand
        if stand and stand.shape and not seen[stand] then
            seen[stand] = true
            list[#list + 1] = { name = stand.name, kind = "stand", shape = stand.shape }
        end
    end
    for _, layout in ipairs(stake.layouts()) do
        list[#list + 1] = { name = layout.name, kind = layout.kind == "corner" and "kept clump" or layout.kind,
            note = layout.act.title, shape = layout.shape }
    end
    for _, act in ipairs(run.acts) do
        if act.trees and not act.copy_of then
            list[#list + 1] = { name = (act.stand and act.stand.name .. " " or "") .. "kept trees", kind = "kept tree",
                shape = act.trees }
        end
    end
    return list
end

--- As GPX, KML or GeoJSON.
-- @param format "gpx", "kml" or "geojson"
function M.handout(format)
    local walk = stake.walk()
    local list = {}
    for i, flag in ipairs(walk) do
        list[i] = { name = flag.name, kind = flag.kind, note = note(walk, i), x = flag.x, y = flag.y }
    end
    return need("map_files").frame():handout(format, { title = run.property.name, route = "stake-out", flags = list,
        shapes = shapes() })
end

return M
