--- rate: how much of a job is done in an hour, or how many hours it takes, layered.
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local reference = need "reference"
local run = need "run"

--- Keys whose values are rows, up to which measure each: its units, and a row of each kind.
local BY = {
    by_diameter = { units = { "in" }, what = "a diameter", larger = "of larger diameter",
        example = "by_diameter = { { 4 in, 40 trees/h }, { 8 in, 20 trees/h } }" },
    by_density = { units = { "trees/ac", "stems/ac" }, what = "a number of trees or stems for an area", larger = "denser",
        example = "by_density = { { 100 trees/ac, 1.5 to 2.5 }, { 400 trees/ac, 2 to 3 } }" },
}

local function unit_of(value, units)
    for _, unit in ipairs(units) do
        if quantity.is(value) and quantity.fits(value, unit) then return unit end
    end
    return nil
end

--- A rate itself: a measure, or a bare ratio.
local function measured(value)
    if quantity.is(value) then return value end
    return type(value) == "number" and value >= 0 and quantity.leaf(value, "h/h") or nil
end

--- The rows of a rate as { upto, value }; nil when a fault was told.
local function rows_of(place, key, by, list, named)
    local rows, before = {}, nil
    for i, row in ipairs(list) do
        local upto, value, unit
        if type(row) == "table" then upto, value = row[1], measured(row[2]) end
        unit = unit_of(upto, by.units)
        if not unit or not value then
            host.fault(place, key, "rate-row", ("row %d wants %s and a rate in a table of its own"):format(i, by.what),
                by.example)
            return nil
        end
        if quantity.below_zero(value) then
            host.fault(place, key, "rate-row", ("row %d is %s, which is below zero"):format(i, tostring(value)))
            return nil
        end
        if before and not (quantity.alike(before, upto) and quantity.less(before, upto)) then
            host.fault(place, key, "rate-row", ("row %d must be %s than the row before"):format(i, by.larger))
            return nil
        end
        before = upto
        rows[i] = { upto = quantity.number(upto, unit), unit = unit, value = quantity.name(value,
            ("%s, up to %s"):format(named.name, tostring(upto)), named.words) }
    end
    if #rows == 0 then
        host.fault(place, key, "rate-row", ("`%s` has no rows"):format(key), by.example)
        return nil
    end
    return rows
end

--- Fills in the values of a rate, named for `why`; false when a fault was told.
local function fill(entry, name, place, layer, values)
    local words = ("%s rate, %s: %s"):format(name, layer.words, entry.source)
    if values.value then entry.value = quantity.name(values.value, name, words) end
    for _, key in ipairs({ "by_diameter", "by_density" }) do
        if values[key] then
            entry[key] = rows_of(place, key, BY[key], values[key], { name = name, words = words })
            if not entry[key] then return false end
        end
    end
    return true
end

--- An entry whose values are filled in when one of them is first asked for.
local LATER = { __index = function(entry, key)
    if key ~= "value" and not BY[key] then return nil end
    setmetatable(entry, nil)
    local as = entry.told_as
    entry.told_as = nil
    fill(entry, as.name, as.place, entry.layer, as.values)
    return rawget(entry, key)
end }

local M = reference.declare({
    kind = "rate", as_given = true,
    says = "how fast a job goes: one value, or one for each diameter class; one quantity shared by all that use it",
    keys = {
        { "value", kind = "quantity", says = "the rate: 10 to 20 trees/h, 1 to 2 h/ac",
          example = "0.25 to 0.5 ac/h" },
        { "by_diameter", kind = "table", says = "values by diameter: { { 4 in, 40 trees/h }, { 8 in, 20 trees/h }, ... }: up to that diameter; the last row holds above" },
        { "by_density", kind = "table", says = "values by how dense trees or stems stand: { { 100 trees/ac, 1.5 to 2.5 }, { 400 trees/ac, 2 to 3 } }, likewise" },
        { "says", kind = "text", says = "what it covers" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[rate "felling, owner" { value = 8 to 12 trees/h,
  source = "common practice, no source" }]],
    entry = function(place, name, values, given)
        if given.value ~= nil and not values.value then return nil end
        if not values.value and not values.by_diameter and not values.by_density then
            host.fault(place, nil, "key-missing", "rate needs `value`, `by_diameter` or `by_density`",
                "value = 8 to 12 trees/h")
            return nil
        end
        local entry = { says = values.says, source = values.source or "no source given" }
        local layer = host.layer(place)
        -- Most of the built-in rates are never asked for, and nothing is wrong with them.
        if layer.kind == "built-in" then
            entry.layer, entry.told_as = layer, { name = name, place = place, values = values }
            return setmetatable(entry, LATER)
        end
        if not fill(entry, name, place, layer, values) then return nil end
        return entry
    end,
}, run.rates)

--- The row that a diameter or a density falls into, else the one value.
local function at(rows, number, value)
    for _, row in ipairs(rows or {}) do
        if number <= row.upto then return row.value end
    end
    return rows and rows[#rows].value or value
end

--- The rate for a diameter in inches (or the one value).
function M.at(entry, inches) return at(entry.by_diameter, inches, entry.value) end

--- The rate for a density: trees or stems for each acre (or the one value).
function M.at_density(entry, number) return at(entry.by_density, number, entry.value) end

--- The value for what is told of the trees or of the brush, else the one value.
-- @param diameter, density measures, or nil
-- @return nil and what is missing, "diameter" or "density", where the rate goes by it
function M.pick(entry, diameter, density)
    if diameter and entry.by_diameter then return M.at(entry, quantity.number(diameter, "in")) end
    if density and entry.by_density then
        local unit = unit_of(density, BY.by_density.units)
        return M.at_density(entry, quantity.number(density, unit))
    end
    if entry.value then return entry.value end
    return nil, entry.by_diameter and "diameter" or "density"
end

--- What to write for it.
M.told = { diameter = "diameter = 6 in", density = "density = 4000 stems/ac" }

--- Trees or stems for an area, for a rate that goes by them.
kinds.rate_density = {
    says = "a number of trees or stems for an area, such as 200 trees/ac or 4000 stems/ac", unit = "stems/ac",
    take = function(value) return unit_of(value, BY.by_density.units) and value or nil end,
}

return M
