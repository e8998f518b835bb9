--- Materials that acts may need, summed over the plan: the key of the figure in an act, what
--- papers call it, the unit it is said in. A figure "KEY, NAME" is that part of the material
--- which is of one kind ("seed, white clover"); where only the parts mean anything, as with
--- herbicide products, the row is `apart`; what a sale tells of each species stands with the sale,
--- and the row is `whole`.
local M = {}
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local run = need "run"

M.list = {
    { key = "trees_cut", words = "trees cut", unit = "trees" },
    { key = "cords", words = "wood in what is felled", unit = "cord", whole = true },
    { key = "plants", words = "plants to order", unit = "plants" },
    { key = "guards", words = "guards for plants", unit = "guards" },
    { key = "fence", words = "fence", unit = "ft" },
    { key = "posts", words = "fence posts", unit = "posts" },
    { key = "seed", words = "seed, bulk", unit = "lb" },
    { key = "mix", words = "finished spray mix", unit = "gal" },
    { key = "product", words = "herbicide product", unit = "qt", apart = true },
    { key = "fuel", words = "fuel mix for saws", unit = "gal" },
    { key = "bar_oil", words = "bar oil", unit = "gal" },
    { key = "diesel", words = "diesel of mulchers", unit = "gal" },
    { key = "sawlogs", words = "sawlogs sold", unit = "board ft", whole = true },
    { key = "pulpwood", words = "pulpwood sold beside them", unit = "cord", whole = true },
    { key = "loads", words = "truckloads of wood sold", unit = nil, whole = true },
}

--- The parts of materials that acts of the plan have: by key, their names in alphabetical
--- order.
local function parts()
    local by_key, seen = {}, {}
    for _, record in ipairs(run.acts) do
        for _, figure in ipairs(record.figure_names) do
            local comma = not seen[figure] and figure:find(", ", 1, true)
            seen[figure] = true
            if comma then
                local key = figure:sub(1, comma - 1)
                by_key[key] = by_key[key] or {}
                table.insert(by_key[key], figure:sub(comma + 2))
            end
        end
    end
    for _, names in pairs(by_key) do table.sort(names) end
    return by_key
end

--- Every row of the plan's materials: the list, each row followed by its parts. A row of
--- which there is only one part is told by that part alone, and is `inner`.
function M.rows()
    local rows, by_key = {}, parts()
    for _, row in ipairs(M.list) do
        local names = not row.whole and by_key[row.key] or {}
        if not row.apart then
            rows[#rows + 1] = { key = row.key, words = row.words, unit = row.unit, inner = #names == 1 }
        end
        for _, name in ipairs(names) do
            rows[#rows + 1] = { key = row.key .. ", " .. name, words = row.words .. ": " .. name, unit = row.unit }
        end
    end
    return rows
end

--- The price of that name, where a layer has one; a fault at the price when it is told for
--- something else.
-- @param unit what it is used in: "USD/plant"
function M.price(name, unit)
    local entry = run.prices:get(name)
    if not entry then return nil end
    if quantity.fits(entry.value, unit) then return entry.value end
    host.fault(entry.place, nil, "price-unit", ("price \"%s\" is used in %s; this is %s"):format(name, unit,
        kinds.describe(entry.value)))
    return nil
end

--- Says of an act that something it takes is not in its cost, where that is figured.
function M.unpriced(record, name)
    if need("acts").is_billed(record) then return end
    record.unpriced = record.unpriced or {}
    table.insert(record.unpriced, name)
    table.insert(record.notes, ("No price is told for %s: not in the cost."):format(name))
end

--- What the cost of the plan leaves out, each once, in the order of the plan.
function M.all_unpriced()
    local names, seen = {}, {}
    for _, record in ipairs(run.acts) do
        for _, name in ipairs(need("acts").counts(record) and record.unpriced or {}) do
            if not seen[name] then names[#names + 1] = name end
            seen[name] = true
        end
    end
    return names
end

return M
