--- What `toward` and `shun` of openings and trails name: features and stands by their names, and
--- kinds of features near the stand.
local M = {}
local feature = need "vocabulary/feature"
local host = need "host"
local map = need "map"
local run = need "run"

--- A kind of feature means those so near the stand, in feet: common practice, no source.
local NEAR, NEAR_SHUNNED = 330, 1320

local function thing(record) return { name = record.name or record.id, shape = record.line or record.shape } end

--- Features of a kind near the stand; those without a shape are counted.
-- @param within feet; nil: as near as a way out leads there
-- @return the list, and how many have no shape
function M.of_kind(stand, kind, within)
    local list, unmapped = {}, 0
    for _, one in ipairs(run.features) do
        if one.kind_of == kind then
            if not one.shape then
                unmapped = unmapped + 1
            elseif map.distance(one, stand) <= (within or NEAR) then
                list[#list + 1] = thing(one)
            end
        end
    end
    return list, unmapped
end

local function fault_unknown(record, key, word)
    local known = {}
    for _, list in ipairs({ run.features, run.stands }) do
        for _, one in ipairs(list) do known[#known + 1] = one.name end
    end
    for _, kind in ipairs(feature.kinds()) do known[#known + 1] = kind end
    local near = host.suggest(word, known)
    host.fault(record.place, key, "layout-edge", ("there is no feature, no kind of feature and no stand \"%s\""):format(word),
        near and ("did you mean \"%s\"?"):format(near)
            or "on a stand with a map it is found there: feature \"...\" { kind = \"cover\", map = \"...\" }")
end

local function warn(record, key, words)
    host.warning(record.place, key, "layout-unmapped", words .. (key == "toward" and ", so no way out leads there"
        or ", so nothing is kept off it"))
end

--- By a feature's or a stand's name, or a kind of feature. Nil when a fault was told.
local function by_word(record, key, word)
    for _, list in ipairs({ run.features, run.stands }) do
        for _, one in ipairs(list) do
            if one.name == word then return { thing(one) } end
        end
    end
    if not feature.is_kind(word) then
        fault_unknown(record, key, word)
        return nil
    end
    local list, unmapped = M.of_kind(record.stand, word, key == "shun" and NEAR_SHUNNED or nil)
    if #list == 0 and unmapped > 0 then
        warn(record, key, ("the map has no %s"):format(word))
    elseif #list == 0 and key == "toward" then
        warn(record, key, ("no %s lies within %d ft of %s"):format(word, NEAR, record.stand.name))
    end
    return list
end

--- What a key of an opening or a trail names: a list of { name, shape }; nil when a fault was
--- told or the key is not said.
function M.of(record, key)
    record.edges = record.edges or {}
    if record.edges[key] ~= nil then return record.edges[key] or nil end
    local words = record.values[key]
    local list, sound = {}, true
    for _, word in ipairs(words or {}) do
        local found
        if type(word) == "string" then found = by_word(record, key, word) else found = { thing(word) } end
        sound = sound and found
        for _, one in ipairs(found or {}) do
            if one.shape then
                list[#list + 1] = one
            else
                warn(record, key, ("%s has no shape on the map"):format(one.name))
            end
        end
    end
    if not sound then record.edges.failed = true end
    record.edges[key] = words and sound and list or false
    return record.edges[key] or nil
end

--- Looks up what an act names, so that all slips are told at once.
function M.find(record)
    M.of(record, "toward")
    M.of(record, "shun")
end

return M
