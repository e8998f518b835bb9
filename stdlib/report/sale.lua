--- What is in a sale, in the owner's paper: a table of its species and what each brings.
local M = {}
local quantity = need "quantity"

--- Columns after the name: key of the figures, heading.
local COLUMNS = {
    { "cords", "wood, cords" }, { "sawlogs", "sawlogs, board ft" }, { "pulpwood", "pulpwood, cords" },
    { "loads", "loads" }, { "stumpage", "brings, USD" },
}

local function figure(act, key, species) return act.figures[("%s, %s"):format(key, species)] end

--- Species of the sale that have wood, those with the most first.
local function species_of(act)
    local list = {}
    for _, name in ipairs(act.taken:species()) do
        local wood = figure(act, "cords", name)
        if wood then list[#list + 1] = { name = name, wood = quantity.number(wood.value, "cord") } end
    end
    return need("sorted").most_first(list, function(one) return one.wood end)
end

--- Of a sale of several species; of one, its figures say it all.
function M.write(d, act)
    local list = species_of(act)
    if #list < 2 then return end
    local columns, used = { { "in the sale", wrap = true } }, {}
    for _, column in ipairs(COLUMNS) do
        local there = false
        for _, species in ipairs(list) do there = there or figure(act, column[1], species.name) ~= nil end
        if there then
            used[#used + 1] = column[1]
            columns[#columns + 1] = { column[2], align = "number", wrap = true }
        end
    end
    local rows = {}
    for i, species in ipairs(list) do
        rows[i] = { species.name }
        for _, key in ipairs(used) do
            local one = figure(act, key, species.name)
            table.insert(rows[i], one and { bare = one.value, spread = key == "stumpage" } or "")
        end
    end
    d:table { columns = columns, rows = rows }
end

return M
