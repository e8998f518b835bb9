--- What was really done fixes the past: an act done in part becomes two, the part that is
--- done and the rest that is still planned.
local M = {}
local acts = need "acts"
local host = need "host"
local quantity = need "quantity"
local run = need "run"

local function find(entry)
    if entry.act then return entry.act end
    local ids = {}
    for _, act in ipairs(run.acts) do
        if act.id == entry.id then return act end
        ids[#ids + 1] = act.id
    end
    local near = host.suggest(entry.id, ids)
    host.fault(entry.place, "act", "act-unknown", ("the plan has no act \"%s\""):format(entry.id),
        near and ("did you mean \"%s\"?"):format(near)
             or "`spinney run --json` lists the ids of the acts")
    return nil
end

local function close(record, entry)
    record.was = { from = entry.values.on, to = entry.values.on }
    record.was_hours = entry.values.hours
    record.was_says = entry.values.says
    record.title = record.title .. ", done"
end

--- Applies every `done` to the list of acts.
function M.apply()
    for _, entry in ipairs(run.done) do
        local record = find(entry)
        if record and entry.values.on then
            local share = entry.values.share and quantity.number(entry.values.share, "percent") / 100 or 1
            if record.was then
                host.fault(entry.place, "act", "done-twice", ("%s is done already"):format(record.id))
            elseif share >= 1 then
                close(record, entry)
            elseif share > 0 then
                local done = acts.copy(record, "done")
                done.fraction = acts.fraction(record) * share
                done.entry, done.entries, done.year = record.entry, record.entries, record.year
                record.fraction = acts.fraction(record) * (1 - share)
                close(done, entry)
                record.follows = record.follows or {}
                table.insert(record.follows, { record = done, least = 0 })
                table.insert(run.acts, done)
            end
        end
    end
end

return M
