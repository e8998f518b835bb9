--- Sorts a list of tables in place; what is alike keeps its order, which Lua's own sort does not promise.
local M = {}

local function sort(list, of, is_before)
    local value, place = {}, {}
    for i, one in ipairs(list) do value[one], place[one] = of(one), i end
    table.sort(list, function(a, b)
        if value[a] ~= value[b] then return is_before(value[a], value[b]) end
        return place[a] < place[b]
    end)
    return list
end

--- @param of function(one): what it goes by: numbers, texts, dates. Returns the list; so below
function M.least_first(list, of) return sort(list, of, function(a, b) return a < b end) end

function M.most_first(list, of) return sort(list, of, function(a, b) return a > b end) end

return M
