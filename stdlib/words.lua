--- Functions that scripts call with one table of named values, checked as the keys of a
--- primitive are: what the handbook and the answers of stands have in common.
local M = {}
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local schema = need "schema"

--- Is it a table of named values, and not a list or an object of ours?
local function is_named(value)
    return type(value) == "table" and not objects.record(value) and not quantity.is(value) and #value == 0
end

--- The table that was meant: a lone value stands for the main key.
local function given_of(row, said, value, place)
    if value == nil then return {} end
    if is_named(value) then return value end
    if row.main then return { [row.main] = value } end
    host.raise(place, nil, "table-missing", ("%s takes a table of named values; this is %s"):format(said,
        kinds.describe(value)), row.example)
end

local THICKEST = 60 -- inches, as in a tally: what is more was meant in another unit

--- What the values are checked against. A diameter has an end, where its key tells none.
local function declare(row, said)
    for _, spec in ipairs(row.keys or {}) do
        if spec.kind == "diameter" and not spec.most then spec.most = quantity.leaf(THICKEST, "in") end
    end
    return { kind = said, keys = row.keys or {}, also = row.also }
end

--- The checked values of a call; what is wrong with them is told at their keys.
-- @param row { name, keys, main, also, example }
-- @param said how a message calls it: "handbook.height"
-- @param place of the call
function M.check(row, said, place, value, more)
    if more ~= nil then
        host.raise(place, nil, "too-many", ("%s takes one table of named values"):format(said), row.example)
    end
    row.declared = row.declared or declare(row, said)
    local before = host.fault_count()
    local values = schema.check(place, row.declared, given_of(row, said, value, place))
    if host.fault_count() > before then host.raise_faults() end
    return values
end

--- Values that something is divided by must be above nothing.
-- @param names of the keys
-- @return the values
function M.above_nothing(values, names, place)
    for _, name in ipairs(names) do
        local value = values[name]
        if value and not quantity.less(value * 0, value) then
            host.raise(place, name, "key-bounds", ("`%s` is %s; it must be more than nothing"):format(name, tostring(value)))
        end
    end
    return values
end

return M
