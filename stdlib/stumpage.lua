--- What a sale brings: only where prices are told, never guessed. A price is of a species or
--- group, of one product of it, or of all wood:
---     price "stumpage, aspen" { value = 20 to 30 USD/cord, source = "bids opened in March" }
---     price "stumpage, red oak sawlogs" { value = 300 USD/mbf, source = "a mill's list" }
---     price "stumpage, pulpwood" { value = 15 USD/cord, source = "a mill's list" }
--- What is said of a species comes before what is said of a product, the narrower group before
--- the wider.
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

--- The entry of the species itself, else of the narrowest group that it is among.
-- @param tail "" or the product after a blank
local function of_species(species, tail)
    local exact = run.prices:get("stumpage, " .. species .. tail)
    if exact then return exact end
    local best, breadth
    for _, name in ipairs(run.prices:list()) do
        local word = name:match("^stumpage, (.+)" .. tail .. "$")
        if word and forest.species_known(word) and forest.species_among(word, species) then
            local wide = forest.species_breadth(word)
            if not best or wide < breadth then best, breadth = run.prices:get(name), wide end
        end
    end
    return best
end

--- The price of a product of a species, and whether it is one of all its wood: what is said of
--- the product of the species, of all wood of the species, of the product, of all wood.
local function price_of(species, product)
    local of_product = of_species(species, " " .. product)
    if of_product then return usable(of_product, product), false end
    local of_wood = of_species(species, "")
    if of_wood then return usable(of_wood), true end
    local any = run.prices:get("stumpage, " .. product)
    if any then return usable(any, product), false end
    any = run.prices:get("stumpage")
    return any and usable(any), true
end

--- What one product of a species brings, or nil.
local function brings(record, acres, species, product, price)
    local as = price.boards and "board feet" or "cords"
    local what = product and ("%s of %s"):format(product, species) or species
    local wood = felling.wood(record, acres, { species = { species }, what = what }, as, product)
    return quantity.name(quantity.say(wood * price.value, "USD"), ("%s, %s"):format(what, record.id))
end

local function has(record, species, product)
    local wood = products.wood(record.stand, record.taken, { species = { species } }, { product = product }, record.place)
    return quantity.number(wood, "cord/ac") > 0
end

--- What a species brings, a term for each price; what of it has no price goes into `without`.
local function terms_of(record, acres, species, without)
    local sawlogs, all_saw = price_of(species, "sawlogs")
    local pulpwood, all_pulp = price_of(species, "pulpwood")
    if all_saw and all_pulp then
        if not sawlogs then without[#without + 1] = species end
        return sawlogs and { brings(record, acres, species, nil, sawlogs) } or {}
    end
    local terms = {}
    for _, row in ipairs({ { "sawlogs", sawlogs }, { "pulpwood", pulpwood } }) do
        if has(record, species, row[1]) then
            if row[2] then
                terms[#terms + 1] = brings(record, acres, species, row[1], row[2])
            else
                without[#without + 1] = ("%s of %s"):format(row[1], species)
            end
        end
    end
    return terms
end

--- Sets the figure "stumpage" of a sale, and that of each species in it, and notes what has
--- no price.
function M.set(record, acres)
    local all, without = {}, {}
    for _, species in ipairs(record.taken:species()) do
        local terms = has(record, species) and terms_of(record, acres, species, without) or {}
        if #terms > 0 then
            local sum = #terms == 1 and terms[1] or quantity.sum(terms)
            all[#all + 1] = acts.set(record, "stumpage, " .. species, sum, ("%s sold"):format(species))
            record.figures["stumpage, " .. species].inner = true
        end
    end
    if #all == 0 then return end
    acts.set(record, "stumpage", quantity.sum(all), "stumpage, at the prices told")
    if #without > 0 then
        table.insert(record.notes, ("No price is told for %s; it is not counted in."):format(table.concat(without, ", ")))
    end
end

return M
