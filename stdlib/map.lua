--- The property's maps: what `map = "name"` means, as a shape in the property's own frame, and
--- small helpers over shapes. The room that reads maps is loaded when a property has one.
--
-- A shape is a value of bind/shape.h: plain numbers in feet, with words that say where it
-- comes from. Records carry theirs in `shape`.
local M = {}
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local shapes = need "shapes"

local FT2_PER_AC = 43560
M.FT2_PER_AC = FT2_PER_AC
--- What is drawn this near touches, in feet: a phone's receiver puts a line off by about as
--- much; common practice, no source.
M.TOUCH = 15
--- Of a stand's ground, what may lie outside the property or in another stand and is left out
--- with a warning; more is a fault: common practice, no source.
local MOST_CUT = 0.02
--- A share less than this is no more than the rounding of two maps, and left out unsaid.
local LEAST_TOLD = 0.001
--- A share of an area that is no more than rounding.
local ROUNDING = 1e-9
M.ROUNDING = ROUNDING
local NAMES_MOST = 12 -- in a hint
local LESS_MOST = 4 -- in the words of a stand's cover

local files = {}  -- { map =, name = }, as the property lists them
local named = {}  -- name -> list of { map, index, form, kind }
local names = {}  -- in the order of the maps
local taken = {}  -- name and form -> shape
local frame
local is_broken = false -- a map of the property could not be read, which is told

--- The files of a property's map: a name, { file = "b.shp", field = "LABEL" }, or a list.
kinds.map_files = {
    says = "a map's file, such as \"farm.geojson\", or a list of files",
    take = function(value, _, place, key)
        local list = {}
        local function add(one)
            if type(one) == "string" then one = { file = one } end
            if type(one) ~= "table" or objects.record(one) then
                return nil, nil, nil, "there is " .. kinds.describe(one) .. " in it"
            end
            if type(one.file) ~= "string" then
                return nil, nil, "{ file = \"lots.shp\", field = \"LABEL\" }", "a table in it names no `file`"
            end
            local kept = need("schema").check(place, M.file_keys(key), one)
            list[#list + 1] = kept
            return true
        end
        if type(value) == "string" or (type(value) == "table" and value.file) then
            if not add(value) then return nil end
            return list
        end
        if type(value) ~= "table" or objects.record(value) then return nil end
        if #value == 0 then return nil, nil, nil, "the table names no file" end
        for _, one in ipairs(value) do
            local ok, says, hint, got = add(one)
            if not ok then return nil, says, hint, got end
        end
        return list
    end,
}

--- What can be said of one file.
function M.file_keys(key)
    return { kind = "map", at = key, keys = {
        { "file", kind = "text", needed = true, says = "its name" },
        { "field", kind = "text", says = "the attribute that names its features; without it `name`" },
        { "kind_field", kind = "text", says = "the attribute that says what they are; without it `kind` or `type`" },
        { "swapped", kind = "flag", says = "its coordinates stand as latitude, longitude" },
    } }
end

--- What `map` of a stand, a feature or an act takes.
kinds.map = {
    says = "a name in the property's map, a list of names, or a traverse",
    take = function(value)
        if type(value) == "string" or objects.record(value, "traverse") then return value end
        if type(value) ~= "table" or objects.record(value) then return nil end
        if #value == 0 then return nil, nil, nil, "the list names nothing" end
        for i, one in ipairs(value) do
            if type(one) ~= "string" and not objects.record(one, "traverse") then
                return nil, nil, nil, ("number %d of the list is %s"):format(i, kinds.describe(one))
            end
        end
        return value
    end,
}

--- Does the property have a map?
function M.is_there() return #files > 0 end

--- The property's frame (need "maps"), or nil without a map.
function M.frame() return frame end

--- The files that were read, as they lie from where Spinney was called.
function M.paths()
    local list = {}
    for i, file in ipairs(files) do list[i] = file.map:about().file end
    return list
end

--- The features of the maps that have a name: { name, kind, form } each, in their order.
function M.features()
    local list = {}
    for _, name in ipairs(names) do
        for _, at in ipairs(named[name]) do list[#list + 1] = { name = name, kind = at.kind, form = at.form } end
    end
    return list
end

local function note_names(file)
    for i = 1, file.map:count() do
        local feature = file.map:feature(i)
        if feature.name then
            if not named[feature.name] then
                named[feature.name] = {}
                names[#names + 1] = feature.name
            end
            table.insert(named[feature.name], { file = file, index = i, form = feature.form, kind = feature.kind })
        end
    end
end

--- What the map says of itself that its reader should know.
local function tell_about(place, file, about)
    local nowhere = about.without_shape
    if nowhere > 0 then
        host.warning(place, "map", "map-nowhere", ("%d feature%s of map %s %s no place, and %s left out"):format(
            nowhere, nowhere == 1 and "" or "s", file, nowhere == 1 and "has" or "have",
            nowhere == 1 and "is" or "are"))
    end
    if about.unsaid then
        host.warning(place, "map", "map-datum", ("map %s does not say what its coordinates are; they are taken as degrees of WGS84")
            :format(file), file:find("%.shp$") and "copy the file that ends in .prj too" or nil)
    end
end

--- A map of the property could not be read: what names something in it is not told too.
function M.broken() is_broken = true end

--- Opens the maps of a property: `values.map`.
function M.open(place, list)
    local maps = need "maps"
    local west, south, east, north = math.huge, math.huge, -math.huge, -math.huge
    for _, file in ipairs(list) do
        local map = host.placed(place, "map", maps.read, file.file, file)
        if not map then
            M.broken()
        else
            local lon, lat = map:middle()
            west, east = math.min(west, lon), math.max(east, lon)
            south, north = math.min(south, lat), math.max(north, lat)
            local opened = { map = map, name = file.file }
            files[#files + 1] = opened
            note_names(opened)
            tell_about(place, file.file, map:about())
        end
    end
    if #files > 0 then frame = host.placed(place, "map", maps.frame, (west + east) / 2, (south + north) / 2) end
end

-- Shapes by name ------------------------------------------------------------------------------

local FORM_WORDS = { area = "an area", line = "a line", point = "a point" }

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

--- "creek, south line and 5 more" of a list of names.
local function some_of(list)
    local words = table.concat(list, ", ", 1, math.min(#list, NAMES_MOST))
    return #list > NAMES_MOST and ("%s and %d more"):format(words, #list - NAMES_MOST) or words
end

--- The attributes that the features of a map have, in the order they come.
local function fields_of(map)
    local list, seen = {}, {}
    for i = 1, map:count() do
        for _, attribute in ipairs(map:feature(i).attributes) do
            if not seen[attribute.field] then
                seen[attribute.field] = true
                list[#list + 1] = attribute.field
            end
        end
    end
    return list
end

local function list_names()
    if #names > 0 then return "it has " .. some_of(names) end
    for _, file in ipairs(files) do
        local fields = fields_of(file.map)
        if #fields > 0 then
            return ("its features have no name, but %s: map = { file = \"%s\", field = \"%s\" }"):format(some_of(fields),
                file.name, fields[1])
        end
    end
    return "no feature of it has a name"
end

--- The names of features of a form, for a hint; nil when there are none.
local function list_form(form)
    local list = {}
    for _, name in ipairs(names) do
        if named[name][1].form == form then list[#list + 1] = name end
    end
    return #list > 0 and ("%ss in it: %s"):format(form, some_of(list)) or nil
end

--- The map's features of that name and form; nil when a fault was told.
local function find(name, form, place, key)
    if not named[name] and is_broken then return nil end
    if not M.is_there() then
        host.fault(place, key, "map-missing", ("`%s` names \"%s\", and the property has no map before it"):format(
            type(key) == "table" and key[#key] or key, name), "property \"...\" { map = \"farm.geojson\", ... } at the head of the plan")
        return nil
    end
    if not named[name] then
        local near = host.suggest(name, names)
        host.fault(place, key, "map-name", ("the property's map has no \"%s\""):format(name),
            near and ("did you mean \"%s\"?"):format(near) or list_names())
        return nil
    end
    local found = {}
    for _, at in ipairs(named[name]) do
        -- A line that was walked round an area is closed to one.
        if not form or at.form == form or (form == "area" and at.form == "line") or (form == "line" and at.form == "area") then
            found[#found + 1] = at
        end
    end
    if #found == 0 then
        host.fault(place, key, "map-form", ("\"%s\" is %s in the map, and %s is wanted here"):format(name,
            FORM_WORDS[named[name][1].form], FORM_WORDS[form]), list_form(form))
        return nil
    end
    -- A point of the same name is no part of it.
    local first = found[1].form
    for i = #found, 1, -1 do
        if found[i].form ~= first then table.remove(found, i) end
    end
    return found
end

local function by_name(name, form, place, key)
    local known = taken[name .. "\0" .. (form or "")]
    if known then return known end
    local found = find(name, form, place, key)
    if not found then return nil end
    local list = {}
    for i, at in ipairs(found) do
        local shape, mended = host.placed(place, key, at.file.map.shape, at.file.map, at.index, frame,
            { as_area = form == "area", name = name })
        if not shape then return nil end
        if mended then
            host.warning(place, key, "map-mended", ("\"%s\" of map %s: %s"):format(name, at.file.name, mended.words))
        end
        if form == "line" and shape:kind() == "area" then shape = M.rim(shape, "rim of " .. shape:words()) end
        list[i] = shape
    end
    local shape = host.placed(place, key, M.join, list, list[1]:words())
    taken[name .. "\0" .. (form or "")] = shape
    return shape
end

local function one_shape(value, form, place, key)
    local record = objects.record(value, "traverse")
    if not record then return by_name(value, form, place, key) end
    -- As with a name: a rim serves as a line; and a point is where the calls end.
    if form == "line" and record.shape:kind() == "area" then
        return M.rim(record.shape, "rim of " .. record.shape:words()), record.floats
    elseif form == "point" and record.shape:kind() == "line" then
        return record.end_point, record.floats
    end
    if form and record.shape and record.shape:kind() ~= form then
        host.fault(place, key, "map-form", ("this traverse gives %s, and %s is wanted here"):format(
            FORM_WORDS[record.shape:kind()], FORM_WORDS[form]), form == "area" and "end its calls with `close`" or nil)
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
        local shape, floats = one_shape(one, form or (list[1] and list[1]:kind()), place, key)
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
function M.acres(shape, words)
    local leaf = quantity.leaf(shape:area() / FT2_PER_AC, "ac", shape:words())
    return words and quantity.name(leaf, words) or leaf
end

--- A shape's length, likewise.
function M.feet(shape, words)
    local leaf = quantity.leaf(shape:length(), "ft", shape:words())
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
    apart[one] = apart[one] or {}
    apart[one][other] = apart[one][other] or one.shape:apart(other.shape)
    return apart[one][other]
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

local function acres_words(ft2) return quantity.short(quantity.leaf(ft2 / FT2_PER_AC, "ac")) end

--- A stand's shape less what lies where it cannot be; nil when that is too much.
-- @param lost the shape that is left out
-- @param where "outside the property", "in stand \"Oak ridge\""
local function less(record, lost, where, id, mend)
    local ft2 = lost:area()
    if ft2 == 0 then return record.shape end
    local share = ft2 / record.shape:area()
    local words = ("%s of stand \"%s\" (%.1f percent of it) lies %s"):format(acres_words(ft2), record.name,
        share * 100, where)
    if share > MOST_CUT then
        host.fault(record.place, "map", id, words, mend)
        return nil
    end
    if share > LEAST_TOLD then host.warning(record.place, "map", id, words .. ", and is left out") end
    return record.shape:difference(lost, record.shape:words())
end

--- Checks a stand's shape against the property's outline and the stands before it.
-- @return the shape to use, nil when a fault was told
function M.fit_stand(record, outline, stands)
    if outline then
        record.shape = less(record, record.shape:difference(outline), "outside the property", "stand-outside",
            "draw it again, or the property's outline; is it the right name?")
    end
    for _, other in ipairs(stands) do
        if record.shape and other.shape then
            record.shape = less(record, record.shape:intersection(other.shape), ("in stand \"%s\" too"):format(other.name),
                "stand-overlap", "one of the two is drawn too large: ground belongs to one stand")
        end
    end
    return record.shape
end

return M
