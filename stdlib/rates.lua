--- Rates as takeoffs use them: in the unit they need, by species, by diameter.
local M = {}
local forest = need "forest"
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local run = need "run"

local function tell(entry, id, words, ...)
    if not entry.told then host.fault(entry.place, nil, id, words:format(...)) end
    entry.told = true
    return nil
end

local ROWS = { by_diameter = "diameter", by_density = "density" }

--- "a rate in ac/h, or in h/ac": how much in an hour, or how long for one of them.
local function turned_round(unit)
    local amount = not unit:find("^gal/") and unit:match("^(.+)/h$")
    return amount and "h/" .. amount or unit:match("^h/.+$") and unit:sub(3) .. "/h" or nil
end

--- Work is divided by these; of fuel a machine may take none.
local function divides(name, unit)
    return name:find("^pace[ ,]") ~= nil or (unit:find("/[hd]$") ~= nil and not unit:find("^gal/"))
end

--- A value in the unit that is used; told the other way round it is turned; nil and a fault
--- where it is neither.
local function usable(entry, value, unit)
    local other = turned_round(unit)
    local wrong_way = not quantity.fits(value, unit) and other and quantity.fits(value, other)
    if not wrong_way and not quantity.fits(value, unit) then
        return tell(entry, "rate-unit", "rate \"%s\" is used in %s; this is %s", entry.name,
            other and unit .. " or " .. other or unit, kinds.describe(value))
    end
    if (wrong_way or divides(entry.name, unit)) and quantity.number(value, wrong_way and other or unit) <= 0 then
        return tell(entry, "rate-zero", "rate \"%s\" is %s: work that goes by it would never end", entry.name,
            tostring(value))
    end
    return wrong_way and quantity.name(quantity.say(1 / value, unit), entry.name .. ", turned round") or value
end

local function usable_rows(entry, rows, unit)
    local kept = {}
    for i, row in ipairs(rows) do
        local value = usable(entry, row.value, unit)
        if not value then return nil end
        kept[i] = { upto = row.upto, unit = row.unit, value = value }
    end
    return kept
end

--- A rate in the unit that work goes by: `value`, and the rows that are asked for where it has
--- them. A layer may tell it the other way round, h/ac for ac/h. Else a fault at the rate.
-- @param by "by_diameter" or "by_density" where the work goes by it; without it, one value
function M.find(name, unit, place, by)
    local entry = run.rates:find(name, place)
    if not entry then return nil end
    entry.used = entry.used or {}
    local key = unit .. (by or "")
    if entry.used[key] then return entry.used[key] end
    local value, rows = entry.value, by and entry[by]
    if not value and not rows then
        local other = entry.by_diameter and "by_diameter" or "by_density"
        return tell(entry, "rate-rows", "rate \"%s\" is used %s; this goes by %s", name,
            by and "by " .. ROWS[by] or "as one value", ROWS[other])
    end
    local found = { name = name, layer = entry.layer, source = entry.source }
    if value then found.value = usable(entry, value, unit) end
    if rows then found[by] = usable_rows(entry, rows, unit) end
    if (value and not found.value) or (rows and not found[by]) then return nil end
    entry.used[key] = found
    return found
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
