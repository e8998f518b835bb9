--- What a visit decides: an act that a trigger names is planned only when the visit has found
--- what asks for it (`found`); until then it is told, not placed.
local M = {}
local quantity = need "quantity"
local run = need "run"

run.waiting = {} -- acts that a visit has not yet asked for

local function asked_for(visit, side, trigger)
    local found = visit.values.found
    if not found or not quantity.alike(found, trigger.limit) then return false end
    if side == "if_below" then return quantity.less(found, trigger.limit) end
    return quantity.less(trigger.limit, found)
end

--- Takes acts that are not asked for out of the plan, and puts the others after their visit.
function M.apply()
    local waits = {}
    for _, visit in ipairs(run.acts) do
        for _, side in ipairs({ "if_below", "if_above" }) do
            local trigger = visit.kind == "visit" and visit.values[side]
            if trigger and trigger.act then
                if asked_for(visit, side, trigger) then
                    trigger.act.follows = trigger.act.follows or {}
                    table.insert(trigger.act.follows, { record = visit, least = 0 })
                else
                    waits[trigger.act] = true
                end
            end
        end
    end
    local list = {}
    for _, act in ipairs(run.acts) do
        if waits[act] then
            act.waiting = true
            run.waiting[#run.waiting + 1] = act
        else
            list[#list + 1] = act
        end
    end
    run.acts = list
end

return M
