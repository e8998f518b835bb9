--- Rates as takeoffs use them: in the unit they need, by species, by diameter.
local M = {}
local forest = need "forest"
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local run = need "run"

--- A rate's entry whose values can be said in a unit, else a fault at the rate.
function M.find(name, unit, place)
    local entry = run.rates:find(name, place)
    if not entry then return nil end
    local value = entry.value or (entry.by_diameter or entry.by_density)[1].value
    if not quantity.fits(value, unit) then
        if not entry.told then
            host.fault(entry.place, nil, "rate-unit", ("rate \"%s\" is used in %s; this is %s"):format(name, unit,
                kinds.describe(value)))
        end
        entry.told = true
        return nil
    end
    return entry
end

local LAYERS = { ["built-in"] = 1, region = 2, state = 3, pack = 4, property = 5, plan = 6 }

--- Is a layer's word earlier than another's? What a plan says of all trees comes before what
--- the built-in rates say of oak.
local function is_earlier(entry, than)
    local a, b = entry.layer, than.layer
    if LAYERS[a.kind] ~= LAYERS[b.kind] then return LAYERS[a.kind] < LAYERS[b.kind] end
    return a.order < b.order
end

local by_species = {} -- for each base: { name, word, breadth } of rates such as "felling, oak"

local function species_rates(base)
    if by_species[base] then return by_species[base] end
    local list = {}
    for _, name in ipairs(run.rates:list()) do
        local word = name:sub(1, #base + 2) == base .. ", " and name:sub(#base + 3)
        if word and forest.species_known(word) then
            list[#list + 1] = { name = name, word = word, breadth = forest.species_breadth(word) }
        end
    end
    by_species[base] = list
    return list
end

--- The felling rate of a species: of the crew asked for, of the species, of the narrowest
--- group that has one, else the general one.
function M.for_species(record, base, species)
    local crews = record.values.crew
    if crews and #crews == 1 and run.rates:get(base .. ", " .. crews[1].name) then
        return base .. ", " .. crews[1].name
    end
    local best
    local general = run.rates:get(base)
    for _, row in ipairs(species_rates(base)) do
        if forest.species_among(row.word, species) and (not best or row.breadth < best.breadth)
            and not (general and is_earlier(run.rates:get(row.name), general)) then
            best = row
        end
    end
    return best and best.name or base
end

--- The rate of a way of felling: its own, "felling high stumps", unless a later layer or the
--- one crew that does it has its own word on felling as such.
function M.method(record, base, way)
    local own, general = run.rates:get(base .. " " .. way), run.rates:get(base)
    local crews = record.values.crew
    local of_crew = crews and #crews == 1 and run.rates:get(base .. ", " .. crews[1].name)
    if not own or of_crew or (general and is_earlier(own, general)) then return base end
    return own.name
end

--- A rate's rows as { from, below, value }: diameters up to a row's own belong to it.
function M.rows(entry)
    if not entry.by_diameter then return { { value = entry.value } } end
    local rows, from = {}, nil
    for i, row in ipairs(entry.by_diameter) do
        local below = i < #entry.by_diameter and row.upto + 1e-9 or nil
        rows[i] = { from = from, below = below, value = row.value }
        from = below
    end
    return rows
end

return M
