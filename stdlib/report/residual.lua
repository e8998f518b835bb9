--- What a marking rule leaves, by species and diameter: a table beside the cut.
local M = {}

local WIDTH = 4 -- inches of a class: a table of six fits the page

--- Is there a rule by which trees are marked?
local function is_marked(act)
    local values = act.values
    return values.to or values.from or values.order or values.limits or values.crop
end

local function add(into, rows, key)
    for _, row in ipairs(rows) do
        local species = into.of[row.species]
        if not species then
            species = { name = row.species, at = {}, area = 0 }
            into.of[row.species] = species
            table.insert(into.list, species)
        end
        local class = species.at[row.from] or { left = 0, taken = 0 }
        species.at[row.from] = class
        class[key] = class[key] + row.trees
        if key == "left" then species.area = species.area + row.basal_area end
        if not into.classes[row.from] then
            into.classes[row.from] = row
            table.insert(into.order, row.from)
        end
    end
end

--- "12 of 20": trees left of those that stood; whole trees, and "under 1" of few.
local function cell_of(class)
    if not class then return "" end
    local function said(trees) return trees > 0 and trees < 0.5 and "under 1" or ("%.0f"):format(trees) end
    local there = class.left + class.taken
    if class.taken <= there * 1e-9 then return said(there) end
    return ("%s of %s"):format(said(class.left), said(there))
end

--- Of a cut with a marking rule; nothing for others.
function M.write(d, act)
    if not act.taken or not act.left or not is_marked(act) then return end
    local all = { of = {}, list = {}, classes = {}, order = {} }
    add(all, act.left:classes(WIDTH), "left")
    add(all, act.taken:classes(WIDTH), "taken")
    table.sort(all.order)
    table.sort(all.list, function(a, b)
        if a.area ~= b.area then return a.area > b.area end
        return a.name < b.name
    end)
    local columns, rows = { { "left, trees an acre", wrap = true } }, {}
    for i, from in ipairs(all.order) do
        columns[i + 1] = { ("%g to %g in"):format(math.max(from, 0), all.classes[from].below), align = "right" }
    end
    for i, species in ipairs(all.list) do
        rows[i] = { species.name }
        for k, from in ipairs(all.order) do rows[i][k + 1] = cell_of(species.at[from]) end
        table.insert(rows[i], { bare = act.left:basal_area(species.name) })
    end
    columns[#columns + 1] = { "basal area left, ft2/ac", align = "number" }
    d:table { columns = columns, rows = rows }
end

return M
