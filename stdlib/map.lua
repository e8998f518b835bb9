--- What `map = "name"` means, as a shape in the property's own frame, and small helpers over
--- shapes. The files and the names in them: map_files.lua.
--
-- A shape is a value of bind/shape.h: plain numbers in feet, with words that say where it
-- comes from. Records carry theirs in `shape`.
local M = {}
local host = need "host"
local map_files = need "map_files"
local objects = need "objects"
local phrases = need "phrases"
local quantity = need "quantity"
local shapes = need "shapes"

local FT2_PER_AC = 43560
M.FT2_PER_AC = FT2_PER_AC
--- What is drawn this near touches, in feet: a phone's receiver puts a line off by about as
--- much; common practice, no source.
M.TOUCH = 15
--- A share of an area that is no more than rounding.
local ROUNDING = 1e-9
M.ROUNDING = ROUNDING
local LESS_MOST = 4 -- in the words of a stand's cover

local taken = {}  -- name and form -> shape

-- Shapes by name ------------------------------------------------------------------------------

--- Areas as one: their overlaps count once; those that do not overlap keep their order, for
--- people number openings as they list them.
local function join_areas(list, words)
    local all = list[1]:union({ table.unpack(list, 2) }, words)
    local sum = 0
    for _, shape in ipairs(list) do sum = sum + shape:area() end
    return all:area() >= sum * (1 - ROUNDING) and M.gather(list, words) or all
end

--- The parts of several shapes of one form in one shape, as they come.
function M.gather(list, words)
    local parts = {}
    for _, shape in ipairs(list) do
        for _, part in ipairs(shape:parts()) do parts[#parts + 1] = part end
    end
    return shapes.make(list[1]:kind(), parts, words)
end

--- Shapes of one form as one shape. Areas that overlap count once.
function M.join(list, words)
    if #list == 1 then return list[1] end
    if list[1]:kind() == "area" then return join_areas(list, words) end
    return M.gather(list, words)
end

--- The rims of an area, as lines.
function M.rim(shape, words)
    local parts = shape:parts()
    for _, part in ipairs(parts) do
        part[#part + 1], part[#part + 2] = part[1], part[2]
        part.hole = nil
    end
    return shapes.make("line", parts, words)
end

--- Coordinates this near are the same, in feet: what is saved twice is rounded twice.
local SAME = 0.1

--- Do two shapes of a form have the same points in the same order?
local function is_same(one, other)
    local parts, others = one:parts(), other:parts()
    if #parts ~= #others then return false end
    for i, part in ipairs(parts) do
        if #part ~= #others[i] then return false end
        for k, number in ipairs(part) do
            if math.abs(number - others[i][k]) > SAME then return false end
        end
    end
    return true
end

--- "creek.geojson, tracks.gpx"
local function files_of(found)
    local list, seen = {}, {}
    for _, at in ipairs(found) do
        if not seen[at.file] then list[#list + 1] = at.file.name end
        seen[at.file] = true
    end
    return list
end

--- The shapes less those that were saved twice; that a name stands in two maps is told.
local function each_once(name, found, list, place, key)
    local kept, twice = {}, false
    for _, shape in ipairs(list) do
        local known = false
        for _, other in ipairs(kept) do known = known or is_same(shape, other) end
        if not known then kept[#kept + 1] = shape end
        twice = twice or known
    end
    local maps = files_of(found)
    if #maps > 1 or twice then
        local where = #maps > 1 and "maps " .. phrases.listed(maps)
            or ("map %s more than once"):format(maps[1])
        host.warning(place, key, "map-twice", ("\"%s\" is in %s: %s"):format(name, where,
            #kept == 1 and "it is the same, and counts once" or "all of them are taken"
            .. (twice and ", what is the same once" or "")),
            #kept > 1 and "give them names of their own if they are not one thing" or nil)
    end
    return kept
end

local function by_name(name, form, place, key)
    local known = taken[name .. "\0" .. (form or "")]
    if known then return known end
    local found = map_files.find(name, form, place, key)
    if not found then return nil end
    local list = {}
    for i, at in ipairs(found) do
        local shape, mended = host.placed(place, key, at.file.map.shape, at.file.map, at.index, map_files.frame(),
            { as_area = form == "area", name = name })
        if not shape then return nil end
        if mended then
            host.warning(place, key, "map-mended", ("\"%s\" of map %s: %s"):format(name, at.file.name, mended.words))
        end
        if form == "line" and shape:kind() == "area" then shape = M.rim(shape, "rim of " .. shape:words()) end
        list[i] = shape
    end
    if #list > 1 then list = each_once(name, found, list, place, key) end
    local shape = host.placed(place, key, M.join, list, list[1]:words())
    taken[name .. "\0" .. (form or "")] = shape
    return shape
end

local function one_shape(value, form, place, key)
    local record = objects.record(value, "traverse")
    if not record then return by_name(value, form, place, key) end
    if record.is_broken then return nil end -- which was told
    -- As with a name: a rim serves as a line; and a point is where the calls end.
    if form == "line" and record.shape:kind() == "area" then
        return M.rim(record.shape, "rim of " .. record.shape:words()), record.floats
    elseif form == "point" and record.shape:kind() == "line" then
        return record.end_point, record.floats
    end
    if form and record.shape and record.shape:kind() ~= form then
        host.fault(place, key, "map-form", ("this traverse gives %s, and %s is wanted here"):format(
            map_files.FORM_WORDS[record.shape:kind()], map_files.FORM_WORDS[form]),
            form == "area" and "end its calls with `close`" or nil)
        return nil
    end
    return record.shape, record.floats
end

--- The shape that a `map` key means.
-- @param value a name, a traverse, or a list of them
-- @param form "area", "line" or "point"; nil for any
-- @return the shape, and true when it has no place (a traverse that starts nowhere known); nil when a fault was told
function M.take(value, form, place, key)
    if type(value) ~= "table" or objects.record(value) then return one_shape(value, form, place, key) end
    local list, words, afloat = {}, {}, false
    for i, one in ipairs(value) do
        local shape, floats = one_shape(one, form or (list[1] and list[1]:kind()), place, { key, i })
        if not shape then return nil end
        list[i], words[i] = shape, shape:words()
        afloat = afloat or floats
    end
    if afloat and #list > 1 then
        host.fault(place, key, "traverse-afloat", "a traverse without a known corner cannot be laid beside other shapes",
            "start its calls with from \"NW corner\", a corner that the map or a feature gives a place")
        return nil
    end
    return host.placed(place, key, M.join, list, table.concat(words, " and ")), afloat
end

-- Figures -------------------------------------------------------------------------------------

--- A shape's area, as a quantity that says where it is from.
-- @param words its name for `why`; nil: it has none
-- @param source where it is from; nil: the shape's words
function M.acres(shape, words, source)
    local leaf = quantity.leaf(shape:area() / FT2_PER_AC, "ac", source or shape:words())
    return words and quantity.name(leaf, words) or leaf
end

--- A shape's length, likewise.
function M.feet(shape, words, source)
    local leaf = quantity.leaf(shape:length(), "ft", source or shape:words())
    return words and quantity.name(leaf, words) or leaf
end

--- The strip within so many feet of a shape.
function M.strip(shape, feet, words) return shape:buffer(feet, "round", words) end

--- All of the shapes, overlaps once; nil of none.
function M.union(list, words)
    if #list == 0 then return nil end
    if #list == 1 then return list[1] end
    return list[1]:union({ table.unpack(list, 2) }, words)
end

local apart = {} -- by record and record

--- Feet between two records that have shapes; nil when one of them has none.
function M.distance(one, other)
    if not one.shape or not other.shape then return nil end
    apart[one], apart[other] = apart[one] or {}, apart[other] or {}
    local feet = apart[one][other] or one.shape:apart(other.shape)
    apart[one][other], apart[other][one] = feet, feet
    return feet
end

--- Do they touch, as nearly as a map can tell, or lie so near? Nil when one has no shape.
function M.touch(one, other, feet)
    local distance = M.distance(one, other)
    return distance and distance <= math.max(feet or 0, M.TOUCH)
end

--- The stand's shape less what buffers and kept clumps take; asked once they are drawn.
function M.cover(stand)
    if stand.cover then return stand.cover end
    local list, words = {}, {}
    for _, act in ipairs(need("run").acts) do
        if act.stand == stand and act.ground_taken and act.shape and not act.copy_of then
            list[#list + 1], words[#words + 1] = act.shape, act.cover_words or act.id
        end
    end
    stand.cover = stand.shape
    if #list > 0 then
        if #words > LESS_MOST then words = { table.concat(words, ", ", 1, LESS_MOST - 1), ("%d more"):format(#words - LESS_MOST + 1) } end
        stand.cover = stand.shape:difference(M.union(list), ("%s, less %s"):format(stand.shape:words(),
            table.concat(words, " and ")))
    end
    return stand.cover
end

return M
