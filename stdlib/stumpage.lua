--- What a sale brings: only where prices are told, never guessed. A price is of a species or
--- group, of one product of it, or of all wood:
---     price "stumpage, aspen" { value = 20 to 30 USD/cord, source = "bids opened in March" }
---     price "stumpage, red oak sawlogs" { value = 300 USD/mbf, source = "a mill's list" }
---     price "stumpage, pulpwood" { value = 15 USD/cord, source = "a mill's list" }
local M = {}
local acts = need "acts"
local felling = need "felling"
local forest = need "forest"
local host = need "host"
local kinds = need "kinds"
local products = need "products"
local quantity = need "quantity"
local run = need "run"

--- Is it for each thousand board feet? A board foot and a cord are both so many cubic feet, and
--- yet no fixed part of each other.
local function by_board_feet(value)
    local unit = quantity.unit(value) or ""
    return quantity.fits(value, "USD/mbf") and (unit:find("mbf", 1, true) or unit:find("board", 1, true)) ~= nil
end

--- A price as it can be used for a product (nil: all wood), else a fault at the price.
local function usable(entry, product)
    local value, boards = entry.value, by_board_feet(entry.value)
    if quantity.fits(value, "USD/cord") and (not boards or product == "sawlogs") then return { value = value, boards = boards } end
    if not entry.told then
        local sawlogs = boards and not product
        host.fault(entry.place, nil, "price-unit", ("price \"%s\" is used for each cord%s; this is %s"):format(entry.name,
            product == "sawlogs" and " or thousand board feet" or "", kinds.describe(value)),
            sawlogs and ("board feet are of sawlogs: price \"%s sawlogs\""):format(entry.name) or "value = 20 to 30 USD/cord")
    end
    entry.told = true
    return nil
end

--- The price of a product of a species, where a layer has one: of the species, of a group of it,
--- of the product as such.
-- @param product "sawlogs", "pulpwood" or nil: all wood
local function price_of(species, product)
    local tail = product and " " .. product or ""
    local exact = run.prices:get("stumpage, " .. species .. tail)
    if exact then return usable(exact, product) end
    for _, name in ipairs(run.prices:list()) do
        local word = name:match("^stumpage, (.+)" .. tail .. "$")
        if word and forest.species_known(word) and forest.species_among(word, species) then
            return usable(run.prices:get(name), product)
        end
    end
    local any = run.prices:get(product and "stumpage, " .. product or "stumpage")
    return any and usable(any, product)
end

--- What one product of a species brings, or nil.
local function brings(record, acres, species, product, price)
    local as = price.boards and "board feet" or "cords"
    local what = product and ("%s, %s"):format(species, product) or species
    local wood = felling.wood(record, acres, { species = { species }, what = what }, as, product)
    return quantity.name(quantity.say(wood * price.value, "USD"), ("%s, %s"):format(what, record.id))
end

local function has(record, species, product)
    local wood = products.wood(record.stand, record.taken, { species = { species } }, { product = product }, record.place)
    return quantity.number(wood, "cord/ac") > 0
end

--- Adds what a species brings to `terms`, and what of it has no price to `without`.
local function add(record, acres, species, terms, without)
    local sawlogs, pulpwood, all = price_of(species, "sawlogs"), price_of(species, "pulpwood"), price_of(species)
    if not sawlogs and not pulpwood then
        if all then terms[#terms + 1] = brings(record, acres, species, nil, all) else without[#without + 1] = species end
        return
    end
    for _, row in ipairs({ { "sawlogs", sawlogs or all }, { "pulpwood", pulpwood or all } }) do
        if has(record, species, row[1]) then
            if row[2] then
                terms[#terms + 1] = brings(record, acres, species, row[1], row[2])
            else
                without[#without + 1] = ("%s of %s"):format(row[1], species)
            end
        end
    end
end

--- Sets the figure "stumpage" of a sale, and notes what has no price.
function M.set(record, acres)
    local terms, without = {}, {}
    for _, species in ipairs(record.taken:species()) do
        if has(record, species) then add(record, acres, species, terms, without) end
    end
    if #terms == 0 then return end
    acts.set(record, "stumpage", quantity.sum(terms), "stumpage, at the prices told")
    if #without > 0 then
        table.insert(record.notes, ("No price is told for %s; it is not counted in."):format(table.concat(without, ", ")))
    end
end

return M
