--- price: what a thing or an hour costs, layered.
local host = need "host"
local quantity = need "quantity"
local reference = need "reference"
local run = need "run"

return reference.declare({
    kind = "price",
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
        local source = values.source or "no source given"
        local words = ("price, %s: %s"):format(host.layer(place).words, source)
        return { value = quantity.name(values.value, name .. " price", words), says = values.says,
            source = source }
    end,
}, run.prices)
