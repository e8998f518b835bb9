--- What scripts hold: stands, acts, crews, references. A script sees an empty table with a
--- closed metatable; its record, the real thing, is kept here. Scripts cannot reach a
--- record, so what the vocabulary has checked stays checked.
local M = {}

local records = setmetatable({}, { __mode = "k" })
local shown = setmetatable({}, { __mode = "k" }) -- what scripts see of a record

--- Makes an object of a kind ("stand", "act", ...) around a record.
-- @param class a table with `kind` and, where wanted, `index(record, key)` and
--   `call(record, argument, place)`
-- @param record the table the object stands for
function M.new(class, record)
    local object = {}
    records[object] = record
    M.show(record, object)
    record.class = class
    record.object = object
    return setmetatable(object, class.metatable or M.metatable(class))
end

--- Builds the closed metatable of a class once.
function M.metatable(class)
    local meta = { __metatable = false, __name = class.kind }
    local index = class.index
    if index then
        meta.__index = function(object, key) return index(records[object], key) end
    end
    meta.__newindex = function(object)
        error(M.says(object) .. " is described in its own table, not changed afterwards", 2)
    end
    meta.__tostring = function(object)
        local record = records[object]
        return record.class.kind .. " " .. (record.name or record.id or "")
    end
    meta.__concat = function(left, right) return tostring(left) .. tostring(right) end
    if class.call then
        meta.__call = function(object, argument) return class.call(records[object], argument) end
    end
    class.metatable = meta
    return meta
end

--- The record of an object, or nil when the value is none (or not of that kind).
function M.record(value, kind)
    local record = value ~= nil and records[value] or nil
    if record and (not kind or record.class.kind == kind) then return record end
    return nil
end

--- From now on `M.open` gives `value` in place of this table of ours.
function M.show(record, value) shown[record] = value end

local OPEN_DEPTH = 4 -- tables in one another that the vocabulary makes; authors' own may be circles

--- What a script may see of a value that the vocabulary keeps: objects in place of records,
--- and copies of our lists, so that what was checked cannot be changed afterwards.
function M.open(value, depth)
    depth = depth or OPEN_DEPTH
    if type(value) ~= "table" or records[value] or depth == 0 then return value end
    if shown[value] ~= nil then return shown[value] end
    if getmetatable(value) ~= nil then return value end -- an author's own
    local out = {}
    for key, item in next, value do out[key] = M.open(item, depth - 1) end
    return out
end

--- What a message calls a value: "a stand", "text", "a table".
function M.says(value)
    local record = M.record(value)
    if record then return (record.class.article or "a") .. " " .. record.class.kind end
    return nil
end

return M
