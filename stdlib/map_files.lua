--- The files of a property's map, and the features in them by name. The room that reads maps is
--- loaded when a property has one. What a name means as a shape: map.lua.
local M = {}
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local phrases = need "phrases"

local NAMES_MOST = 12 -- in a hint

local files = {}  -- { map =, name = }, as the property lists them
local named = {}  -- name -> list of { file, index, form, kind }
local names = {}  -- in the order of the maps
local frame
local is_broken = false -- a map of the property could not be read, which is told

--- The files of a property's map: a name, { file = "b.shp", field = "LABEL" }, or a list.
kinds.map_files = {
    says = "a map's file, such as \"farm.geojson\", or a list of files",
    take = function(value, _, place, key)
        local list = {}
        local function add(one, at)
            if type(one) == "string" then
                list[#list + 1] = { file = one, at = at }
                return true
            end
            if type(one) ~= "table" or objects.record(one) then
                return nil, nil, nil, "there is " .. kinds.describe(one) .. " in it"
            end
            if type(one.file) ~= "string" then
                return nil, nil, "{ file = \"lots.shp\", field = \"LABEL\" }", "a table in it names no `file`"
            end
            local kept = need("schema").check(place, M.file_keys(at), one)
            kept.at = { at, "file" }
            list[#list + 1] = kept
            return true
        end
        if type(value) == "string" or (type(value) == "table" and value.file) then
            if not add(value, key) then return nil end
            return list
        end
        if type(value) ~= "table" or objects.record(value) then return nil end
        if #value == 0 then return nil, nil, nil, "the table names no file" end
        for i, one in ipairs(value) do
            local ok, _, hint, got = add(one, { key, i })
            if not ok then
                host.fault(place, { key, i }, "key-kind", ("`map` wants files; %s"):format(got), hint)
                return nil, kinds.REPORTED
            end
        end
        return list
    end,
}

--- What can be said of one file.
-- @param at where it stands: the property's key, or an entry of the list there
function M.file_keys(at)
    return { kind = "map", at = at, keys = {
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
local function tell_about(place, at, file, about)
    local nowhere = about.without_shape
    if nowhere > 0 then
        host.warning(place, at, "map-nowhere", ("%s of map %s %s no place, and %s left out"):format(
            phrases.count(nowhere, "feature"), file, nowhere == 1 and "has" or "have",
            nowhere == 1 and "is" or "are"))
    end
    if about.unsaid then
        host.warning(place, at, "map-datum", ("map %s does not say what its coordinates are; they are taken as degrees of WGS84")
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
        local map = host.placed(place, file.at, maps.read, file.file, file)
        if not map then
            M.broken()
        else
            local lon, lat = map:middle()
            west, east = math.min(west, lon), math.max(east, lon)
            south, north = math.min(south, lat), math.max(north, lat)
            local opened = { map = map, name = file.file }
            files[#files + 1] = opened
            note_names(opened)
            tell_about(place, file.at, file.file, map:about())
        end
    end
    if #files > 0 then frame = host.placed(place, "map", maps.frame, (west + east) / 2, (south + north) / 2) end
end

-- A name that is looked for --------------------------------------------------------------------

--- What a message calls a form.
M.FORM_WORDS = { area = "an area", line = "a line", point = "a point" }

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

--- Of which no feature has a name.
local function nameless_files()
    local list, has = {}, {}
    for _, name in ipairs(names) do
        for _, at in ipairs(named[name]) do has[at.file] = true end
    end
    for _, file in ipairs(files) do
        if not has[file] then list[#list + 1] = file end
    end
    return list
end

local function with_field(file, field) return ("map = { file = \"%s\", field = \"%s\" }"):format(file.name, field) end

--- The attribute in which a map without names says the one that is looked for; nil when none does.
local function named_elsewhere(name)
    local function plainly(text) return text:match("^%s*(.-)%s*$"):lower() end
    local wanted = plainly(name)
    for _, file in ipairs(nameless_files()) do
        for i = 1, file.map:count() do
            for _, attribute in ipairs(file.map:feature(i).attributes) do
                if plainly(attribute.text) == wanted then
                    return ("%s has it as %s: %s"):format(file.name, attribute.field, with_field(file, attribute.field))
                end
            end
        end
    end
    return nil
end

local function list_names()
    local parts = {}
    for _, file in ipairs(nameless_files()) do
        local fields = fields_of(file.map)
        if #fields > 0 then
            parts[#parts + 1] = ("nothing in %s has a name, but %s: %s"):format(file.name, some_of(fields),
                with_field(file, fields[1]))
        end
    end
    if #names > 0 then parts[#parts + 1] = (#parts > 0 and "there is " or "it has ") .. some_of(names) end
    return #parts > 0 and table.concat(parts, "; ") or "no feature of it has a name"
end

--- The names of features of a form, for a hint; nil when there are none.
local function list_form(form)
    local list = {}
    for _, name in ipairs(names) do
        if named[name][1].form == form then list[#list + 1] = name end
    end
    return #list > 0 and ("%ss in it: %s"):format(form, some_of(list)) or nil
end

--- The name of a key that may lie in others, and be an entry of a list.
local function key_word(key)
    if type(key) ~= "table" then return type(key) == "string" and key or nil end
    for i = #key, 1, -1 do
        local word = key_word(key[i])
        if word then return word end
    end
    return nil
end

--- Do the two differ by their capitals alone?
local function is_case(near, name) return near and near:lower() == name:lower() end

--- The map's features of that name and form; nil when a fault was told.
function M.find(name, form, place, key)
    if not named[name] and is_broken then return nil end
    if not M.is_there() then
        host.fault(place, key, "map-missing", ("`%s` names \"%s\", and the property has no map before it"):format(
            key_word(key), name), "property \"...\" { map = \"farm.geojson\", ... } at the head of the plan")
        return nil
    end
    if not named[name] then
        local near = host.suggest(name, names)
        host.fault(place, key, "map-name", ("the property's map has no \"%s\""):format(name),
            not is_case(near, name) and named_elsewhere(name) or near and ("did you mean \"%s\"?"):format(near) or list_names())
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
            M.FORM_WORDS[named[name][1].form], M.FORM_WORDS[form]), list_form(form))
        return nil
    end
    -- A point of the same name is no part of it.
    local first = found[1].form
    for i = #found, 1, -1 do
        if found[i].form ~= first then table.remove(found, i) end
    end
    return found
end

return M
