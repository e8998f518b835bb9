--- What `toward` and `shun` of openings and trails mean on the map: where animals may leave the
--- cover, and what openings and trails keep off.
local M = {}
local map = need "map"
local named = need "layout/named"
local quantity = need "quantity"
local shapes = need "shapes"

--- Ways out count as different ones so far apart along an edge: common practice, no source.
M.APART = 150
--- Least distance from what is shunned, when none is told, one chain: common practice, no source.
M.SETBACK = 66
--- Of the cover's rim, what lies so much farther from an edge than the nearest of it still faces
--- it: common practice, no source.
local FACING = 50
--- What is shunned when the plan does not say: common practice, no source.
local SHUNNED = { "road", "house", "property line" }

local PRACTICE = "(common practice, no source)"

-- Ways out ------------------------------------------------------------------------------------

--- The outer rims of the cover, as lines, one for each piece of it that lies by itself: a way out
--- on one bank is none on the other. Nobody leaves into a clump that is kept.
local function rims_of(cover)
    local rims = {}
    for _, part in ipairs(cover:parts()) do
        if not part.hole then
            part[#part + 1], part[#part + 2] = part[1], part[2]
            rims[#rims + 1] = shapes.make("line", { part }, "rim of " .. cover:words())
        end
    end
    return rims
end

local strips = {} -- by shape, then by feet: what is laid out is looked at again

local function strip_of(shape, feet)
    strips[shape] = strips[shape] or {}
    strips[shape][feet] = strips[shape][feet] or map.strip(shape, feet)
    return strips[shape][feet]
end

local gaps = {} -- by cover, then by shape

local function gap_of(cover, shape)
    gaps[cover] = gaps[cover] or {}
    gaps[cover][shape] = gaps[cover][shape] or cover:apart(shape)
    return gaps[cover][shape]
end

--- Where animals leave the cover for a thing: over the rim that faces it (along a stream that
--- runs through, where it comes in and goes out); or, where all of it lies in the cover, where it
--- is. A list, empty when there is no such place.
local function exits_to(cover, rims, shape)
    local list, near = {}, strip_of(shape, gap_of(cover, shape) + FACING)
    for _, rim in ipairs(rims) do
        local facing = rim:intersection(near)
        if not facing:is_empty() then list[#list + 1] = facing end
    end
    if #list > 0 then return list end
    if shape:kind() == "point" then return { shape } end
    return { (shape:kind() == "area" and map.rim(shape) or shape):intersection(cover) }
end

--- Ground near what is shunned, where no trail may lead: strips.
local function near_shunned(shuns)
    local list = {}
    for _, shun in ipairs(shuns) do list[#list + 1] = strip_of(shun.shape, shun.trail) end
    return list
end

local function boxes_meet(one, other)
    local west, south, east, north = one:box()
    local w, s, e, n = other:box()
    return w <= east and west <= e and s <= north and south <= n
end

--- An exit less what lies near things that are shunned.
local function free_of(line, shunned)
    if line:kind() == "point" then return line end
    for _, strip in ipairs(shunned) do
        if line:is_empty() then break end
        if boxes_meet(line, strip) then line = line:difference(strip) end
    end
    return line
end

-- All of it -----------------------------------------------------------------------------------

local function setback_of(record)
    local told = record.values.setback
    if not told then return nil end
    local feet = need("ground").feet(told, record.stand, record.place, "setback")
    return feet and quantity.number(feet, "ft")
end

--- Adds a thing to keep off; told twice, the larger distance holds.
local function keep_off(list, one, kind, feet)
    for _, shun in ipairs(list) do
        if shun.shape == one.shape then
            shun[kind] = math.max(shun[kind] or 0, feet)
            return
        end
    end
    list[#list + 1] = { name = one.name, shape = one.shape, [kind] = feet }
end

--- What the acts name; nil when none of them says `shun`.
local function told_shuns(records)
    local list, told = {}, false
    for _, record in ipairs(records) do
        local things = named.of(record, "shun")
        told = told or things ~= nil
        for _, one in ipairs(things or {}) do keep_off(list, one, record.kind, setback_of(record) or M.SETBACK) end
    end
    -- What only openings or only trails name holds for both.
    for _, shun in ipairs(list) do
        shun.opening = shun.opening or shun.trail
        shun.trail = shun.trail or shun.opening
    end
    return told and list or nil
end

local function usual_shuns(stand, records, kinds, toward)
    local list, feet = {}, nil
    for _, record in ipairs(records) do feet = math.max(feet or 0, setback_of(record) or 0) end
    feet = feet and feet > 0 and feet or M.SETBACK
    for _, kind in ipairs(kinds) do
        for _, one in ipairs((named.of_kind(stand, kind))) do
            local wanted = false
            for _, other in ipairs(toward) do wanted = wanted or other.shape == one.shape end
            if not wanted then
                keep_off(list, one, "opening", feet)
                keep_off(list, one, "trail", feet)
            end
        end
    end
    return list
end

local function told_toward(records)
    local list, told, seen = {}, false, {}
    for _, record in ipairs(records) do
        local things = named.of(record, "toward")
        told = told or things ~= nil
        for _, one in ipairs(things or {}) do
            if not seen[one.shape] then list[#list + 1] = one end
            seen[one.shape] = true
        end
    end
    return list, told
end

--- Adds as exits what of the lines is not shunned.
local function add_exits(exits, name, lines, shunned)
    for _, line in ipairs(lines) do
        line = free_of(line, shunned)
        if not line:is_empty() then exits[#exits + 1] = { name = name, line = line, apart = M.APART } end
    end
    return exits
end

local function exits_of(cover, rims, toward, shunned)
    local exits = {}
    for _, one in ipairs(toward) do add_exits(exits, one.name, exits_to(cover, rims, one.shape), shunned) end
    return exits
end

local function names_of(list)
    local names = {}
    for i, one in ipairs(list) do names[i] = one.name end
    return table.concat(names, ", ")
end

--- What the acts of a stand, openings and trails, ask of its edges.
-- @return { exits = { { name, line, apart } }, shuns = { { name, shape, opening, trail } } } with
--     distances in feet, and notes on what the plan leaves open: { toward, shun }; nil when a fault was told
function M.of(stand, cover, records)
    local toward, is_told = told_toward(records)
    local shuns = told_shuns(records)
    for _, record in ipairs(records) do
        if record.edges.failed then return nil end
    end
    local rims, notes = rims_of(cover), {}
    local usual = shuns == nil
    shuns = shuns or usual_shuns(stand, records, SHUNNED, toward)
    local shunned = near_shunned(shuns)
    local exits = exits_of(cover, rims, toward, shunned)
    if #exits == 0 then
        local name = "the rim of " .. stand.name
        add_exits(exits, name, rims, shunned)
        if #exits == 0 and usual then
            -- A stand that lines run round: animals cross a line, not a road.
            shuns = usual_shuns(stand, records, { "road", "house" }, toward)
            add_exits(exits, name, rims, near_shunned(shuns))
        end
        notes.toward = ("%s animals may leave anywhere over the rim of %s, and ways out are %d ft apart %s."):format(
            is_told and "Nothing of `toward` is on the map:" or "No `toward` is told:", stand.name, M.APART, PRACTICE)
    end
    if usual and #shuns > 0 then
        notes.shun = ("No `shun` is told: %d ft are kept off %s %s."):format(math.floor(shuns[1].opening + 0.5),
            names_of(shuns), PRACTICE)
    end
    return { exits = exits, shuns = shuns }, notes
end

return M
