--- price: what a thing or an hour costs, layered.
local host = need "host"
local quantity = need "quantity"
local reference = need "reference"
local run = need "run"

local function named(entry, name, value)
    return quantity.name(value, name .. " price", ("price, %s: %s"):format(entry.layer.words, entry.source))
end

--- An entry whose value is named when it is first asked for.
local LATER = { __index = function(entry, key)
    if key ~= "value" then return nil end
    setmetatable(entry, nil)
    local as = entry.told_as
    entry.told_as = nil
    entry.value = named(entry, as.name, as.value)
    return entry.value
end }

return reference.declare({
    kind = "price", as_given = true,
    says = "what one of something costs; one quantity shared by all that use it",
    keys = {
        { "value", kind = "quantity", needed = true, says = "the price: 0.40 to 1.20 USD/plant, 45 to 75 USD/h",
          example = "45 to 75 USD/h" },
        { "says", kind = "text", says = "what it covers" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[price "tree tube" { value = 4 to 6 USD/plant,
  source = "common practice, no source" }]],
    entry = function(place, name, values)
        if not values.value then return nil end
        local entry = { says = values.says, source = values.source or "no source given", layer = host.layer(place) }
        -- Most of the built-in prices are never asked for.
        if entry.layer.kind == "built-in" then
            entry.told_as = { name = name, value = values.value }
            return setmetatable(entry, LATER)
        end
        entry.value = named(entry, name, values.value)
        return entry
    end,
}, run.prices)
