--- Fuel mix and chain oil of saws, by the hours that they run.
local M = {}
local acts = need "acts"
local quantity = need "quantity"
local rates = need "rates"

--- Sets both of an act. A brush saw has no chain to oil.
-- @param hours in which a saw runs
-- @param with "chain saw" or "brush saw"
function M.set(record, hours, with)
    local burn = hours and rates.find("saw fuel", "gal/h", record.place)
    if not burn then return end
    local fuel = acts.set(record, "fuel", quantity.say(hours * burn.value, "gal"), "saw fuel")
    local oil = with == "chain saw" and rates.find("bar oil", "percent", record.place)
    if not oil then return end
    acts.set(record, "bar_oil", quantity.say(fuel * oil.value, "gal"), "bar oil")
    record.figures.bar_oil.inner = true -- papers tell it of the whole plan
end

--- Of work in which cutting alternates with dragging and piling.
-- @param hours of all of it, for one person
function M.set_of_clearing(record, hours, with)
    local running = hours and rates.find("saw in clearing", "percent", record.place)
    if running then M.set(record, hours * running.value, with) end
end

return M
