--- What a visit decides: an act that a trigger names is planned only when the visit has found
--- what asks for it (`found`); until then it is told, not placed, and so is what hangs on it.
local M = {}
local quantity = need "quantity"
local run = need "run"

local function asked_for(visit, side, trigger)
    local found = visit.values.found
    if not found or not quantity.alike(found, trigger.limit) then return false end
    if side == "if_below" then return quantity.less(found, trigger.limit) end
    return quantity.less(trigger.limit, found)
end

--- What is done already waits for no visit.
local function is_done(act)
    for _, entry in ipairs(run.done) do
        if entry.act == act or entry.id == act.id then return true end
    end
    return false
end

--- Marks the acts that a trigger names: asked for by a visit, which they come after, or waiting.
local function mark_triggered()
    for _, visit in ipairs(run.acts) do
        for _, side in ipairs({ "if_below", "if_above" }) do
            local trigger = visit.kind == "visit" and visit.values[side]
            local act = trigger and trigger.act
            if act and asked_for(visit, side, trigger) then
                act.asked_for = true
                act.follows = act.follows or {}
                table.insert(act.follows, { record = visit, least = 0 })
            elseif act then
                act.waiting = not is_done(act)
            end
        end
    end
    for _, act in ipairs(run.acts) do
        if act.asked_for then act.waiting = nil end
    end
end

local function all_wait(list)
    for _, act in ipairs(list or {}) do
        if not act.waiting then return false end
    end
    return list ~= nil and #list > 0
end

--- Does the act hang on one that waits: follows it, is done on it, joins it, stands in for it?
local function hangs_on_waiting(act)
    local values = act.values
    return all_wait(values.after) or all_wait(values.joins) or (act.on and act.on.waiting)
        or (act.fallback_of and act.fallback_of.waiting)
end

--- Takes acts that are not asked for out of the plan, and puts the others after their visit.
function M.apply()
    mark_triggered()
    local more = true
    while more do
        more = false
        for _, act in ipairs(run.acts) do
            if not act.waiting and not act.asked_for and not is_done(act) and hangs_on_waiting(act) then
                act.waiting, more = true, true
            end
        end
    end
    local list = {}
    for _, act in ipairs(run.acts) do
        if not act.waiting then list[#list + 1] = act end
    end
    run.acts = list
end

return M
