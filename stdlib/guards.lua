--- Guards for plants: what each kind is called, how long it takes to put on, what it costs.
--- `plant` puts them on at once, `protect` later; the hours are the same.
local M = {}
local acts = need "acts"
local host = need "host"
local kinds = need "kinds"
local materials = need "materials"
local quantity = need "quantity"
local rates = need "rates"
local run = need "run"
local work = need "work"

--- `with` is the rate of planting and guarding in one; the guarding alone is what it takes
--- longer than planting.
M.ways = {
    tube = { words = "tubes", with = "planting, mat and tube",
        note = "Tubes: staked upright on the windward side, pushed into the soil, netted on top against birds." },
    cage = { words = "cages", with = "planting, cage",
        note = "Cages: welded wire 5 ft tall (a cylinder of about 5 ft of it), two stakes each." },
    mat = { words = "mats", note = "Mats: 3 ft square, pinned at the corners, on ground free of sod." },
}
M.names = { "tube", "cage", "mat" }

--- A number of plants, as a measure.
kinds.plant_number = {
    says = "a number of plants, such as 120 or 120 plants",
    take = function(value)
        if type(value) == "number" and value >= 0 and value == math.floor(value) then
            return quantity.leaf(value, "plants")
        end
        if quantity.is(value) and quantity.fits(value, "plants") then return value end
        return nil
    end,
}

local ONE = "one guard for each plant"

local function rate(name, place)
    local entry = rates.find(name, "plants/h", place)
    return entry and entry.value
end

--- A rate of guarding alone, where a layer has one: "guarding, mat".
local function own_rate(how, place)
    local name = "guarding, " .. how
    return run.rates:get(name) and rate(name, place)
end

--- Hours of putting guards on plants that stand already.
function M.hours(record, plants, how)
    local own = own_rate(how, record.place)
    if own then return work.hours(plants, own, "guarding") end
    local with, alone = rate(M.ways[how].with, record.place), rate("planting", record.place)
    if not with or not alone then return nil end
    if not quantity.less(with, alone) then
        host.fault(record.place, "how", "rate-order", ("planting with %s is as fast as planting alone, by the rates: "
            .. "nothing is left for the guards"):format(M.ways[how].words),
            ("rate \"guarding, %s\" { value = 15 to 25 plants/h, source = \"...\" }"):format(how))
        return nil
    end
    return work.hours(plants, with, "planting and guarding") - work.hours(plants, alone, "planting")
end

--- Hours of planting and guarding in one. The rates of both together are of bare roots.
function M.hours_with_planting(record, plants, how, planting)
    local in_one = record.values.stock == "bare-root" and not own_rate(how, record.place)
    local with = in_one and rate(M.ways[how].with, record.place)
    if with then return work.hours(plants, with, "planting and guarding") end
    local alone = M.hours(record, plants, how)
    return alone and planting + alone
end

--- Sets how many guards, and gives what they cost; nil where no price is known.
function M.set(record, plants, how, price)
    local one = quantity.leaf(1, "guards/plant", ONE)
    acts.set(record, "guards", math.ceil(plants * one, "guards"), M.ways[how].words)
    table.insert(record.notes, M.ways[how].note)
    price = price or materials.price("guard, " .. how, "USD/plant")
    if not price then
        materials.unpriced(record, M.ways[how].words)
        return nil
    end
    return math.ceil(plants, "plants") * price
end

return M
