--- What is planted where: the three ways in which `plant` is told how many (rows along a
--- length, a spacing over ground, a number), and the split among species.
local M = {}
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local phrases = need "phrases"
local quantity = need "quantity"
local work = need "work"
need "vocabulary/stand" -- kinds.species

--- A bare number: both units fall away.
local NUMBER = "h/h"

--- One of the distances of a spacing, within what `each` of the key's declaration allows.
local function step(value, spec, place)
    local kept = kinds.length.take(value, spec)
    if kept and spec.each then need("schema").bounds(place, spec.each, kept) end
    return kept
end

--- { 8 ft, 10 ft } between rows and in the row, or one distance both ways.
kinds.spacing = {
    says = "a distance, such as 8 ft, or two: { 10 ft, 8 ft } between rows and in the row",
    unit = "ft",
    take = function(value, spec, place)
        local one = step(value, spec, place)
        if one then return { one, one, even = true } end
        if type(value) ~= "table" or objects.record(value) or #value ~= 2 then return nil end
        local between, in_row = step(value[1], spec, place), step(value[2], spec, place)
        if not between or not in_row then return nil end
        return { between, in_row, even = not quantity.less(between, in_row) and not quantity.less(in_row, between) }
    end,
}

--- Species, alone, listed (as many of each) or with shares; kept as a list of names whose
--- shares stand in `shares`.
kinds.plant_species = {
    says = "a species, a list of them, or shares: { [\"white spruce\"] = 70 percent, [\"American plum\"] = 30 percent }",
    take = function(value, _, place, key)
        if type(value) ~= "table" or #value > 0 or next(value) == nil then
            return kinds.list.take(value, { of = "species" }, place, key)
        end
        local names, shares, whole = {}, {}, 0
        for name in pairs(value) do names[#names + 1] = tostring(name) end
        table.sort(names)
        for _, name in ipairs(names) do
            local known, words = kinds.species.take(name, nil, place, key)
            if not known then return nil, words end
            shares[name] = kinds.share.take(value[name])
            if not shares[name] then
                return nil, ("a share for %s"):format(name), ("[\"%s\"] = 70 percent"):format(name)
            end
            whole = whole + quantity.number(shares[name], "percent")
        end
        if math.abs(whole - 100) > 0.5 then
            host.fault(place, key, "plant-shares", ("the shares of the species come to %g percent, not 100"):format(whole),
                "shares that make 100 percent together")
            return nil, kinds.REPORTED
        end
        names.shares = shares
        return names
    end,
}

--- "white spruce", "white spruce and American plum".
function M.words(list)
    if not list or #list == 0 then return "plants" end
    return phrases.listed(list)
end

local function divided(record, value)
    local fraction = acts.fraction(record)
    return fraction < 1 and value * fraction or value
end

local function feet(record, key) return ground.feet(record.values[key], record.stand, record.place, key) end

--- Plants in rows: one at each end of a row and one for each whole step between.
local function in_rows(record)
    local values = record.values
    if not values.length or not values.in_row then
        host.fault(record.place, nil, "key-missing", "rows need `length` and `in_row`: how long a row is, and the "
            .. "distance from plant to plant in it", "length = 600 ft, in_row = 8 ft")
        return nil
    end
    local length, in_row = feet(record, "length"), feet(record, "in_row")
    local between = values.between and feet(record, "between")
    if not length or not in_row or (values.between and not between) then return nil end
    if quantity.less(length, in_row) then
        acts.fault(record, "in_row", "plant-room", ("a row of %s has no room for two plants %s apart"):format(
            quantity.short(length), quantity.short(in_row)), "a longer row; or count = 3, a number of plants")
        return nil
    end
    local rows = quantity.leaf(values.rows or 1, NUMBER, "rows")
    local plants = work.plants_in_rows(length, in_row, rows)
    acts.set(record, "length", divided(record, length), "length of each row")
    if between then
        local strip = quantity.say(length * between * rows, "ac")
        if not ground.check_room(record, strip, "the rows take") then return nil end
        acts.set(record, "area", divided(record, strip), "ground of the rows")
        record.outline = { length = length, width = (rows - quantity.leaf(1, NUMBER, "one row less")) * between,
            margin = between }
    end
    return divided(record, plants)
end

--- Plants over ground, each with its whole space.
local function spaced(record)
    local values = record.values
    local area = values.area and divided(record, values.area) or ground.of(record)
    if not area then
        host.fault(record.place, nil, "key-missing", "plant needs `area`, `on` or `stand`: the ground to plant",
            "area = 0.5 ac")
        return nil
    end
    local spacing = values.spacing
    if values.triangular and not spacing.even then
        host.fault(record.place, "triangular", "plant-triangular", "a triangular planting has one distance from plant "
            .. "to plant; `spacing` tells two", "spacing = 8 ft")
        return nil
    end
    local between = ground.feet(spacing[1], record.stand, record.place, "spacing")
    local in_row = ground.feet(spacing[2], record.stand, record.place, "spacing")
    if not between or not in_row then return nil end
    area = acts.set(record, "area", quantity.say(area, "ac"), "ground planted")
    local side = quantity.say(area ^ 0.5, "ft")
    record.outline = { length = side, width = side, margin = between }
    local plants = work.plants_on_area(area, between, in_row, values.triangular)
    if quantity.number(plants, "plants") < 1 then
        acts.fault(record, "spacing", "plant-room", ("at %s by %s, %s has no room for one plant"):format(
            quantity.short(between), quantity.short(in_row), quantity.short(area)), "a closer spacing; or count = 3, a number of plants")
        return nil
    end
    return plants
end

--- The plants that go into the ground; nil when a fault was told.
function M.count(record)
    local values = record.values
    local ways = {}
    if values.count then ways[#ways + 1] = "count" end
    if values.rows or values.length or values.in_row or values.between then ways[#ways + 1] = "rows" end
    if values.spacing then ways[#ways + 1] = "spacing" end
    if #ways == 0 then
        host.fault(record.place, nil, "key-missing", "plant needs `spacing` over an area, `rows` along a `length`, or "
            .. "`count`: how many plants", "rows = 3, length = 600 ft, in_row = 8 ft, between = 10 ft")
        return nil
    elseif #ways > 1 then
        host.fault(record.place, nil, "plant-ways", ("`%s` and `%s` each say how many plants"):format(ways[1], ways[2]),
            "keep one of them")
        return nil
    end
    if values.count then return divided(record, values.count) end
    return values.spacing and spaced(record) or (not values.spacing and in_rows(record)) or nil
end

--- Each species' part of a number of plants: { name, plants } in the order told.
function M.by_species(record, plants)
    local list = record.values.species
    local rows = {}
    for i, name in ipairs(list) do
        local share = list.shares and list.shares[name]
        if not share and #list > 1 then
            share = quantity.leaf(100 / #list, "percent", ("shared evenly among %d species"):format(#list))
        end
        rows[i] = { name = name, plants = share and plants * share or plants }
    end
    return rows
end

return M
