--- rate: how much of a job is done in an hour, or how many hours it takes, layered.
local host = need "host"
local quantity = need "quantity"
local reference = need "reference"
local run = need "run"

local M = reference.declare({
    kind = "rate",
    says = "how fast a job goes: one value, or one for each diameter class; one quantity shared by all that use it",
    keys = {
        { "value", kind = "quantity", says = "the rate: 10 to 20 trees/h, 1 to 2 h/ac",
          example = "0.25 to 0.5 ac/h" },
        { "by_diameter", kind = "table", says = "values by diameter: { { 4 in, 40 trees/h }, { 8 in, 20 trees/h }, ... }: up to that diameter; the last row holds above" },
        { "says", kind = "text", says = "what it covers" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[rate "felling, owner" { value = 8 to 12 trees/h,
  source = "common practice, no source" }]],
    entry = function(place, name, values, given)
        if given.value ~= nil and not values.value then return nil end
        if not values.value and not values.by_diameter then
            host.fault(place, nil, "key-missing", "rate needs `value` or `by_diameter`",
                "value = 8 to 12 trees/h")
            return nil
        end
        local source = values.source or "no source given"
        local entry = { says = values.says, source = source }
        local layer = host.layer(place)
        local words = ("%s rate, %s: %s"):format(name, layer.words, source)
        if values.value then entry.value = quantity.name(values.value, name, words) end
        if values.by_diameter then
            entry.by_diameter = {}
            local before
            for i, row in ipairs(values.by_diameter) do
                local upto, value
                if type(row) == "table" then upto, value = row[1], row[2] end
                if not (quantity.is(upto) and quantity.fits(upto, "in") and quantity.is(value)) then
                    host.fault(place, "by_diameter", "rate-row",
                        ("row %d wants a diameter and a rate in a table of its own"):format(i),
                        "by_diameter = { { 4 in, 40 trees/h }, { 8 in, 20 trees/h } }")
                    return nil
                end
                if before and not quantity.less(before, upto) then
                    host.fault(place, "by_diameter", "rate-row",
                        ("row %d must be of larger diameter than the row before"):format(i))
                    return nil
                end
                before = upto
                entry.by_diameter[i] = { upto = quantity.number(upto, "in"), value = quantity.name(value,
                    ("%s, up to %s"):format(name, tostring(upto)), words) }
            end
        end
        return entry
    end,
}, run.rates)

--- The rate for a diameter in inches (or the one value).
function M.at(entry, inches)
    if not entry.by_diameter then return entry.value end
    for _, row in ipairs(entry.by_diameter) do
        if inches <= row.upto then return row.value end
    end
    return entry.by_diameter[#entry.by_diameter].value
end

return M
