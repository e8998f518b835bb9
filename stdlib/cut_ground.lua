--- Cuts in patches and strips: how much ground they are. Where they lie is for the map.
local M = {}
local acts = need "acts"
local ground = need "ground"
local quantity = need "quantity"

--- Ground of patches or strips, out of what may be cut; nil when a fault is told.
function M.acres(record, whole)
    local values = record.values
    for _, pair in ipairs({ { "patches", "strips" }, { "part", "patches" }, { "part", "strips" } }) do
        if values[pair[1]] and values[pair[2]] then
            return acts.fault(record, pair[2], "key-twice", ("`%s` and `%s` each say on which ground"):format(pair[1], pair[2]),
                "keep one of them")
        end
    end
    if values.patches then
        local area = quantity.say(values.patches.size * values.patches.count * acts.fraction(record), "ac")
        if quantity.less(whole, area) then
            return acts.fault(record, "patches", "patches-ground", ("the patches take %s, and \"%s\" has %s to work on")
                :format(quantity.short(area), record.stand.name, quantity.short(whole)), "fewer or smaller patches")
        end
        return area
    end
    local width = ground.feet(values.strips.width, record.stand, record.place, { "strips", "width" })
    local apart = ground.feet(values.strips.apart, record.stand, record.place, { "strips", "apart" })
    if not width or not apart then return nil end
    if quantity.number(width, "ft") <= 0 then
        return acts.fault(record, { "strips", "width" }, "key-bounds", "strips of no width take no trees")
    end
    return quantity.say(whole * (width / (width + apart)), "ac")
end

return M
