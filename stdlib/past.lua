--- What was really done fixes the past: an act done in part becomes two, the part that is
--- done and the rest that is still planned.
local M = {}
local acts = need "acts"
local calendar = need "calendar"
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
    record.was_days = entry.values.days
    record.was_cost = entry.values.cost
    record.was_by = entry.values.by
    record.was_says = entry.values.says
end

--- A part that is done becomes an act of its own; the rest of the act comes after it.
local function split(record, entry, part, rest)
    local done = acts.copy(record, "done")
    done.fraction, done.part_done = part, true
    done.entry, done.entries, done.year = record.entry, record.entries, record.year
    record.fraction = rest
    close(done, entry)
    record.follows = record.follows or {}
    table.insert(record.follows, { record = done, least = 0 })
    record.parts_done = record.parts_done or {}
    table.insert(record.parts_done, done)
    table.insert(run.acts, done)
end

--- Applies one `done`. Its share is one of the act as planned, so that two halves make a whole.
local function apply(record, entry)
    local left = acts.fraction(record)
    record.planned = record.planned or left
    local share = entry.values.share
    local part = share and record.planned * quantity.number(share, "percent") / 100 or left
    if record.was then
        host.fault(entry.place, "act", "done-twice", ("%s is done already"):format(record.id))
    elseif part > left + 1e-9 and left < record.planned then
        host.fault(entry.place, "share", "done-more", ("only %d percent of %s is still to be done"):format(
            math.floor(100 * left / record.planned + 0.5), record.id), "without `share` all that is left is done")
    elseif part >= left - 1e-9 then
        close(record, entry)
    elseif part > 0 then
        split(record, entry, part, left - part)
    end
end

--- What it really took, in place of what was planned, which stays beside it.
function M.settle(record)
    if record.was_hours then
        local planned = acts.get(record, "hours")
        if planned then acts.set(record, "hours_planned", planned, "hours as planned") end
        acts.set(record, "hours", record.was_hours, "hours it took")
    end
    if record.was_cost then acts.set(record, "cost", record.was_cost, "what it cost") end
end

--- What is done may have taken longer than was planned, and so may the rest: worth a word from
--- a tenth more or less.
local WORTH_TELLING = 0.1

--- Says of the rest of an act how long it takes at the pace of what is done.
function M.tell_pace(record)
    local took, planned, left = 0, 0, acts.get(record, "hours")
    for _, done in ipairs(not record.was and left and record.parts_done or {}) do
        local was = acts.get(done, "hours_planned")
        if was then
            took = took + quantity.number(acts.get(done, "hours"), "h")
            planned = planned + quantity.number(was, "h")
        end
    end
    if planned <= 0 or took <= 0 or math.abs(took / planned - 1) < WORTH_TELLING then return end
    local function said(hours) return quantity.short(quantity.leaf(hours, "h")) end
    table.insert(record.notes, ("What is done took %s where %s was planned: at that pace the rest comes to %s.")
        :format(said(took), said(planned), said(quantity.number(left, "h") * took / planned)))
end

local YEARS_BEFORE = 2 -- from the walk back: what lies further back the walk has seen
local YEARS_PLANNED = 16 -- as far ahead as the schedule plans

--- A day that belongs to no act of this plan is most likely a slip of the pen.
local function check_date(entry)
    local on, values = entry.values.on, run.property.values
    local from = values.walked or values.starts
    if not on or not from then return true end
    local words
    if on < calendar.add_years(from, -YEARS_BEFORE) then
        words = ("`on` (%s) lies more than %d years before the plan (%s)"):format(tostring(on), YEARS_BEFORE, tostring(from))
    elseif on > calendar.add_years(values.starts or from, YEARS_PLANNED) then
        words = ("`on` (%s) lies after the %d years planned"):format(tostring(on), YEARS_PLANNED)
    else
        return true
    end
    host.fault(entry.place, "on", "done-date", words,
        "the day it was finished; what was done long before the walk describes the stand as it was walked")
    return false
end

--- Applies every `done` to the list of acts.
function M.apply()
    for _, entry in ipairs(run.done) do
        local record = find(entry)
        if record and entry.values.on and check_date(entry) then apply(record, entry) end
    end
end

return M
