--- What a part of a stand lies beside, within or beyond: features, kinds of features, stands,
--- names of the map, traverses; their words, and their shapes once the script has ended.
local M = {}
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local phrases = need "phrases"
local run = need "run"

local function is_landmark(value)
    return type(value) == "string" or objects.record(value, "feature") or objects.record(value, "stand")
        or objects.record(value, "traverse")
end

--- What a part lies beside: a feature, a stand, a name of the map, or several of them.
kinds.landmark = {
    says = "a feature, a kind of feature, a stand, a name in the map, or a list of these",
    take = function(value)
        if is_landmark(value) then return { value } end
        if type(value) ~= "table" or objects.record(value) or #value == 0 then return nil end
        local list = {}
        for i, one in ipairs(value) do
            if not is_landmark(one) then return nil, nil, nil, "there is " .. kinds.describe(one) .. " in it" end
            list[i] = one
        end
        return list
    end,
}

--- "the two-track", but "Quill Creek".
function M.with_article(name)
    return name:find("^%l") and not name:find("^the ") and "the " .. name or name
end

local function name_of(value)
    if type(value) == "string" then return M.with_article(value) end
    local record = objects.record(value)
    return record.class.kind == "traverse" and "the traverse" or M.with_article(record.name)
end

--- "the two-track and Quill Creek"
function M.names(list)
    local words = {}
    for i, one in ipairs(list) do words[i] = name_of(one) end
    return phrases.listed(words)
end

--- A place it has none of, told with the mend.
local function no_place(record, what, place, key)
    host.fault(place, key, "part-no-place", ("%s \"%s\" has no place"):format(what, record.name),
        ("%s \"%s\" { map = ... }, its name in the property's map"):format(what, record.name))
    return nil
end

--- All features of a kind that have a place: their shapes; nil when it is no kind.
local function of_kind(word)
    local list
    for _, feature in ipairs(run.features) do
        if feature.kind_of == word then
            list = list or {}
            if feature.shape then list[#list + 1] = feature.shape end
        end
    end
    return list
end

--- The record that a name or an object means, and what it is; nil for a name of the map.
local function record_of(value)
    local record = objects.record(value)
    if record then return record, record.class.kind end
    for _, feature in ipairs(run.features) do
        if feature.name == value then return feature, "feature" end
    end
    for _, stand in ipairs(run.stands) do
        if stand.name == value then return stand, "stand" end
    end
    return nil
end

local function unknown(name, place, key)
    local names = {}
    for _, list in ipairs({ run.features, run.stands, need("map_files").features() }) do
        for _, one in ipairs(list) do names[#names + 1] = one.name end
    end
    local near = host.suggest(name, names)
    host.fault(place, key, "landmark-unknown", ("there is no feature, no stand and nothing in the map called \"%s\"")
        :format(name), near and ("did you mean \"%s\"?"):format(near) or "feature \"" .. name .. "\" { kind = ..., map = ... }")
    return nil
end

--- The shapes of one landmark, a list; nil when a fault was told.
local function shapes_of(value, place, key)
    local record, kind = record_of(value)
    if record then
        if record.is_broken then return nil end -- which was told
        if kind == "traverse" and record.floats then
            host.fault(place, key, "traverse-afloat", "this traverse starts at no known corner, and has no place",
                "start its calls with from \"NW corner\"")
            return nil
        end
        if not record.shape then return no_place(record, kind, place, key) end
        return { record.shape }
    end
    local list = of_kind(value)
    if list then
        if #list > 0 then return list end
        host.fault(place, key, "part-no-place", ("no feature of kind \"%s\" has a place"):format(value),
            "feature \"...\" { map = ... }, its name in the property's map")
        return nil
    end
    local map = need "map"
    for _, one in ipairs(need("map_files").features()) do
        if one.name == value then
            local shape = map.take(value, nil, place, key)
            return shape and { shape }
        end
    end
    return unknown(value, place, key)
end

--- The shapes of landmarks, { shape, name } each; nil when a fault was told.
function M.shapes(list, place, key)
    local all = {}
    for _, value in ipairs(list) do
        local shapes = shapes_of(value, place, key)
        if not shapes then return nil end
        local record = objects.record(value)
        local name = record and (record.class.kind == "traverse" and "the traverse" or record.name) or value
        for _, shape in ipairs(shapes) do
            all[#all + 1] = { shape = shape, name = name == "the traverse" and name or ("\"%s\""):format(name) }
        end
    end
    return all
end

return M
