--- Does the way in, or the seat it leads to, give a hunter away? Findings over trails with
--- purpose "access" and seats that the map shows. What counts as near and as upwind:
--- src/ground/access.h. All of it is common practice, no source.
local M = {}
local access = need "access"
local acts = need "acts"
local ground = need "ground"
local quantity = need "quantity"
local rules = need "rules"
local run = need "run"
local shapes = need "shapes"

--- When the trail does not say.
local OFF_COVER, UPWIND = 150, 600
--- A feature this near to an end of a trail names that end, in feet: a phone's error.
local AT_END = 50
--- A stretch that begins or stops within this of an end of the way is told from that end.
local END_SLACK = 2

local ASK = "those who hunt there"
local SOURCE = "common practice, no source"

local SAYS = {
    bedding = "the way in runs through or close by bedding cover: whoever walks it moves what lies there",
    openings = "the way in runs through or close by openings: what feeds and rests there sees and smells whoever comes",
    wind = "with the wind %s the way in lies upwind of bedding cover: scent goes there before the hunter does",
    seat_in = "a seat stands in bedding cover: nobody comes to it unseen",
    seat_wind = "with the wind %s a seat lies upwind of bedding cover: hunt it on another wind, or move it",
    no_wind = "nobody has told where the wind mostly comes from: whether the ways in and the seats lie upwind of cover is not known",
}

-- What is there ---------------------------------------------------------------------------------

local function in_plan(act) return not act.copy_of and acts.counts(act) end

--- Openings with a shape, and the cover that deer lie in: features of that kind, stands with
--- rest openings. Each { shape =, words = }.
local function surroundings()
    local bedding, openings, seen = {}, {}, {}
    for _, feature in ipairs(run.features) do
        if feature.kind_of == "cover" and feature.shape and feature.shape:kind() == "area" then
            bedding[#bedding + 1] = { shape = feature.shape, words = feature.name }
        end
    end
    for _, act in ipairs(run.acts) do
        if act.kind == "opening" and in_plan(act) then
            local stand = act.stand
            local is_bed = act.values.use == "rest" and stand.shape
            if is_bed and not seen[stand] then
                seen[stand] = true
                bedding[#bedding + 1] = { shape = stand.shape, words = "the cover of " .. stand.name }
            end
            if act.shape then
                openings[#openings + 1] = { shape = act.shape, words = act.id, in_bed = is_bed ~= nil }
            end
        end
    end
    return bedding, openings
end

local function shapes_of(list)
    local out = {}
    for i, one in ipairs(list) do out[i] = one.shape end
    return out
end

--- The wind as bearing and degrees to each side, nil when it is not told.
local function wind()
    local told = run.property.values.wind
    if not told then return nil end
    return quantity.number(told.from, "deg"), quantity.number(told.spread, "deg") / 2
end

-- Words -----------------------------------------------------------------------------------------

--- Whole feet: "1,127".
local function feet(x)
    local digits = ("%d"):format(math.floor(x + 0.5))
    return #digits > 3 and digits:sub(1, -4) .. "," .. digits:sub(-3) or digits
end

--- The feature that a place is at: a gate, a seat, a corner; else a road or another trail.
local function place_words(x, y)
    for _, kinds in ipairs({ { gate = true, seat = true, corner = true, house = true }, { road = true, trail = true } }) do
        local best, name = AT_END, nil
        for _, feature in ipairs(run.features) do
            local away = kinds[feature.kind_of] and feature.shape and feature.shape:distance(x, y)
            if away and away < best then best, name = away, feature.name end
        end
        if name then return " at " .. name end
    end
    return ""
end

local function ends_of(line)
    local ends = {}
    for i, part in ipairs(line:parts()) do
        ends[i] = { length = shapes.make("line", { part }):length(), start = place_words(part[1], part[2]) }
    end
    return ends
end

--- "from 120 to 260 ft after its start at pine gate"; `way` has the ends of its parts.
local function stretch_words(way, found)
    local part = way.ends[found.part]
    local of = #way.ends > 1 and ("part %d of it, "):format(found.part) or ""
    local at_start, at_end = found.from < END_SLACK, found.to > part.length - END_SLACK
    if at_start and at_end then return of .. ("all %s ft of it"):format(feet(part.length)) end
    if at_end then return of .. ("from %s ft after its start%s to its end"):format(feet(found.from), part.start) end
    if at_start then
        return of .. ("its first %s ft%s"):format(feet(found.to), part.start ~= "" and ", from its start" .. part.start or "")
    end
    return of .. ("from %s to %s ft after its start%s"):format(feet(found.from), feet(found.to), part.start)
end

--- "from 250°, 20° to each side,"
local function in_wind(says, from, spread)
    return says:format(("from %.0f°, %.0f° to each side,"):format(from, spread))
end

-- What is found ---------------------------------------------------------------------------------

--- Of near stretches, those that do not lie round one that crosses: they say the same.
local function crosses_within(list, near)
    for _, one in ipairs(list) do
        if one.kind == "crosses" and one.part == near.part and one.area == near.area
            and one.from >= near.from - END_SLACK and one.to <= near.to + END_SLACK then
            return true
        end
    end
    return false
end

local function where(way, found, area)
    local words = stretch_words(way, found)
    if found.kind == "crosses" then return ("%s, through %s"):format(words, area.words) end
    if found.kind == "upwind" and found.distance == 0 then return ("%s, in %s"):format(words, area.words) end
    return ("%s, %s ft from %s"):format(words, feet(found.distance), area.words)
end

local function find_of(way, says, detail)
    rules.find({ level = "caution", rule = "way in", message = says, detail = detail, ask = ASK, source = SOURCE,
        act = way.act, stand = way.act and way.act.stand, date = way.act and way.act.start })
end

local function check_bedding(way, bedding, from, spread)
    local list = access.check { way = way.line, bedding = shapes_of(bedding), near = way.off_cover,
        upwind = from and way.upwind or 0, from = from, spread = spread }
    for _, found in ipairs(list) do
        local area = bedding[found.area]
        if found.kind == "upwind" then
            find_of(way, in_wind(SAYS.wind, from, spread), where(way, found, area))
        elseif found.kind == "crosses" or not crosses_within(list, found) then
            find_of(way, SAYS.bedding, where(way, found, area))
        end
    end
end

--- Openings in bedding cover are near it as it is: of those only what runs through.
local function check_openings(way, openings)
    local list = access.check { way = way.line, openings = shapes_of(openings), near = way.off_cover }
    for _, found in ipairs(list) do
        local area = openings[found.area]
        local is_new = found.kind == "crosses" or not area.in_bed and not crosses_within(list, found)
        if found.kind ~= "upwind" and is_new then find_of(way, SAYS.openings, where(way, found, area)) end
    end
end

--- A distance that the trail tells, or the usual one.
local function distance(record, key, usual)
    local told = record.values[key]
    local length = told and ground.feet(told, record.stand, record.place, key)
    return length and quantity.number(length, "ft") or usual
end

local function ways_in()
    local ways = {}
    for _, act in ipairs(run.acts) do
        if act.kind == "trail" and act.values.purpose == "access" and act.line and in_plan(act) then
            ways[#ways + 1] = { act = act, line = act.line, ends = ends_of(act.line),
                off_cover = distance(act, "off_cover", OFF_COVER), upwind = distance(act, "upwind", UPWIND) }
        end
    end
    return ways
end

--- How far a seat should not be upwind: as the way in that comes to it says.
local function upwind_of(seat, ways)
    for _, way in ipairs(ways) do
        if way.line:apart(seat.shape) < AT_END then return way.upwind end
    end
    return UPWIND
end

local function check_seat(seat, ways, bedding, from, spread)
    local list = access.check { seats = seat.shape, bedding = shapes_of(bedding),
        upwind = from and upwind_of(seat, ways) or 0, from = from, spread = spread }
    local inside = {}
    for _, found in ipairs(list) do
        local area = bedding[found.area]
        local detail = ("%s, %s ft from %s"):format(seat.name, feet(found.distance), area.words)
        if found.kind == "crosses" then
            inside[found.area] = true
            detail = ("%s, in %s"):format(seat.name, area.words)
            rules.find({ level = "caution", rule = "seat", message = SAYS.seat_in, detail = detail, ask = ASK, source = SOURCE })
        elseif found.kind == "upwind" and not inside[found.area] then
            rules.find({ level = "caution", rule = "seat", message = in_wind(SAYS.seat_wind, from, spread), detail = detail,
                ask = ASK, source = SOURCE })
        end
    end
end

--- Looks at all ways in and seats of the map, once all shapes are there.
function M.judge()
    local seats = {}
    for _, feature in ipairs(run.features) do
        if feature.kind_of == "seat" and feature.shape then seats[#seats + 1] = feature end
    end
    local ways = ways_in()
    if #ways == 0 and #seats == 0 then return end
    local bedding, openings = surroundings()
    local from, spread = wind()
    for _, way in ipairs(ways) do
        if #bedding > 0 then check_bedding(way, bedding, from, spread) end
        if #openings > 0 then check_openings(way, openings) end
    end
    for _, seat in ipairs(seats) do
        if #bedding > 0 then check_seat(seat, ways, bedding, from, spread) end
    end
    if not from and #bedding > 0 then
        rules.find({ level = "note", rule = "wind", message = SAYS.no_wind, ask = ASK, source = SOURCE })
    end
end

return M
