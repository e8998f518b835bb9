--- What a visit decides: an act that a trigger names is planned only when the visit has found
--- what asks for it (`found`); until then it is told, not placed, and so is what hangs on it.
local M = {}
local host = need "host"
local quantity = need "quantity"
local run = need "run"

local function asks(found, side, trigger)
    if not found or not quantity.alike(found, trigger.limit) then return false end
    if side == "if_below" then return quantity.less(found, trigger.limit) end
    return quantity.less(trigger.limit, found)
end

--- Is a `done` of this act, or of a later entry of it? The entries are not acts as yet; an id
--- that another act has is of no entry.
local function is_of(entry, act)
    if entry.act == act or entry.id == act.id then return true end
    if entry.id == nil or run.act(entry.id) then return false end
    return entry.id:sub(1, #act.id) == act.id and entry.id:find("^%-%d+$", #act.id + 1) ~= nil
end

--- Ids of the visits, entry by entry, that found what the trigger asks for; and whether all
--- of them have found something.
local function asked_by(visit, side, trigger)
    local ids, told, count = {}, nil, 0
    for _, entry in ipairs(run.done) do
        if entry.values.found and is_of(entry, visit) then
            told = told or entry.act == visit or entry.id == visit.id
            count = count + 1
            if asks(entry.values.found, side, trigger) then ids[#ids + 1] = entry.id or visit.id end
        end
    end
    if not told and asks(visit.values.found, side, trigger) then table.insert(ids, 1, visit.id) end
    return ids, visit.values.found ~= nil or count >= (visit.values.entries or 1)
end

--- What is done already waits for no visit.
local function is_done(act)
    for _, entry in ipairs(run.done) do
        if not entry.values.notice and (entry.act == act or entry.id == act.id) then return true end
    end
    return false
end

--- Marks the acts that a trigger names: asked for by a visit, which they come after, or waiting.
local function mark_triggered()
    for _, visit in ipairs(run.acts) do
        for _, side in ipairs({ "if_below", "if_above" }) do
            local trigger = visit.kind == "visit" and visit.values[side]
            local act = trigger and trigger.act
            local ids, decided = {}, nil
            if act then ids, decided = asked_by(visit, side, trigger) end
            if #ids > 0 then
                act.asked_for = act.asked_for or {}
                table.move(ids, 1, #ids, #act.asked_for + 1, act.asked_for)
            elseif act then
                act.waiting = not is_done(act)
                act.waits_for = act.waits_for or not decided and { visit = visit, side = side, limit = trigger.limit } or nil
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

--- What an act that waits hangs on next: another act, or the visit that decides it.
local function next_of(act)
    if act.waits_for then return act.waits_for.visit end
    local values = act.values
    return values.after and values.after[1] or values.joins and values.joins[1] or act.on or act.fallback_of
end

--- A visit that hangs on what it decides itself would never come about, nor be missed.
local function check_circles()
    for _, visit in ipairs(run.waiting) do
        local act, before, steps = visit.kind == "visit" and next_of(visit), visit, 0
        while act and act ~= visit and steps < #run.waiting do
            act, before, steps = next_of(act), act, steps + 1
        end
        if act == visit and before.waits_for then
            host.fault(visit.place, visit.given.after ~= nil and "after" or nil, "visit-circle",
                ("this visit waits for %s, which waits for what the visit finds"):format(before.id),
                "after = the act whose outcome it looks at")
        end
    end
end

--- Takes acts that are not asked for out of the plan.
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
    run.waiting = {}
    for _, act in ipairs(run.acts) do
        table.insert(act.waiting and run.waiting or list, act)
    end
    run.acts = list
    check_circles()
end

--- What an act that waits hangs on: the visit and what it has to find, by way of others.
local function waits_for(act)
    local seen = 0
    while act and not act.waits_for and seen < #run.waiting do
        seen = seen + 1
        act = next_of(act)
    end
    return act and act.waits_for
end

--- "the visit to Bench for sprouts per acre"
function M.visit_words(visit)
    return ("the visit %sfor %s"):format(visit.stand and ("to %s "):format(visit.stand.name) or "", visit.values.look_for)
end

local SIDES = { if_below = "less", if_above = "more" }

--- What may come, a row for each act that waits: { act, visit, when } ("less than 5,000
--- stems/ac"; nil for one that comes with another that waits).
function M.waiting()
    local rows = {}
    for _, act in ipairs(run.waiting) do
        local asks_for = waits_for(act)
        if asks_for then
            rows[#rows + 1] = { act = act, visit = asks_for.visit, when = act.waits_for and ("%s than %s"):format(
                SIDES[asks_for.side], quantity.short(asks_for.limit)) }
        end
    end
    return rows
end

--- Puts what was asked for after the visits that did, once their entries are acts.
function M.link()
    for _, act in ipairs(run.acts) do
        for _, id in ipairs(act.asked_for or {}) do
            local visit = run.act(id)
            if visit then
                act.follows = act.follows or {}
                table.insert(act.follows, { record = visit, least = 0 })
            end
        end
    end
end

return M
