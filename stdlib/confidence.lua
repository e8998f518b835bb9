--- The key `confidence`: how often in a hundred an interval is meant to hold the truth.
local M = {}
local host = need "host"
local quantity = need "quantity"

--- The key, with what holds when nothing is said.
function M.key(percent)
    return { "confidence", kind = "share", default = quantity.leaf(percent, "percent"),
        says = "how often in a hundred such an interval is meant to hold the truth" }
end

--- What was said, as a part of 1; told at its key when it is no confidence.
function M.of(values, place)
    local percent = quantity.number(values.confidence, "percent")
    if percent < 50 or percent > 99.9 then
        host.raise(place, "confidence", "key-bounds", ("`confidence` is %s; it lies between 50 and 99.9 percent")
            :format(tostring(values.confidence)))
    end
    return percent / 100
end

return M
