--- What was really done fixes the past: an act done in part becomes two, the part that is
--- done and the rest that is still planned.
local M = {}
local acts = need "acts"
local calendar = need "calendar"
local host = need "host"
local quantity = need "quantity"
local run = need "run"

local function find(entry)
    local act = entry.act or run.act(entry.id)
    if act then return act end
    local ids = {}
    for i, other in ipairs(run.acts) do ids[i] = other.id end
    local near = host.suggest(entry.id, ids)
    host.fault(entry.place, "act", "act-unknown", ("the plan has no act \"%s\""):format(entry.id),
        near and ("did you mean \"%s\"?"):format(near)
             or "`spinney run --json` lists the ids of the acts")
    return nil
end

local function close(record, entry)
    if entry.values.found and record.kind ~= "visit" then
        host.fault(entry.place, "found", "done-found", ("%s is no visit: it finds nothing"):format(record.id))
    end
    record.found, record.found_at = entry.values.found, entry.place
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
    if not record.begun or entry.values.on < record.begun then record.begun = entry.values.on end
    if entry.values.hours then
        local spent = record.spent
        record.spent = { part = part + (spent and spent.part or 0),
            hours = spent and spent.hours + entry.values.hours or entry.values.hours }
    end
    record.follows = record.follows or {}
    table.insert(record.follows, { record = done, least = 0 })
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

--- A hired machine is paid by the hours it took, or will take, and not by those first planned.
local function pay_machine(record, planned, hours)
    local cost = record.machine and record.figures.machine_cost
    if not cost or quantity.number(planned, "h") <= 0 then return end
    acts.set(record, "machine_cost", quantity.say(cost.value / planned * hours, "USD"), cost.words)
end

--- Hours of the rest of an act: as the part took that is done.
function M.keep_pace(record)
    local spent, planned = record.spent, acts.get(record, "hours")
    local rate = planned and need("rates").find("rest of a job", "percent", record.place)
    if not rate then return end
    local left = acts.fraction(record)
    table.insert(record.notes, ("Hours at the pace of the part that is done: %s for %d percent. Planned for the rest: %s.")
        :format(quantity.short(spent.hours), math.floor(100 * spent.part / record.planned + 0.5), quantity.figure(planned)))
    local hours = spent.hours * quantity.leaf(left / spent.part, "h/h", "what is left for what is done") * rate.value
    for _, key in ipairs(record.figure_names) do
        local figure = record.figures[key]
        if quantity.fits(figure.value, "h") then figure.inner = true end -- they add up to what was planned
    end
    hours = acts.set(record, "hours", quantity.say(hours, "h"), "hours by the part done")
    pay_machine(record, planned, hours)
end

--- What it really took, in place of what was planned, which stays beside it.
function M.settle(record)
    if record.was_hours then
        local planned = acts.get(record, "hours")
        if planned then acts.set(record, "hours_planned", planned, "hours as planned") end
        local hours = acts.set(record, "hours", record.was_hours, "hours it took")
        if planned then pay_machine(record, planned, hours) end
    end
    if record.was_cost then acts.set(record, "cost", record.was_cost, "what it cost") end
end

--- The day after the last thing that was done, or nil.
function M.goes_on()
    local last
    for _, entry in ipairs(run.done) do
        local on = entry.values.on
        if on and (not last or on > last) then last = on end
    end
    return last and calendar.add_days(last, 1)
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
        local record = (entry.act or entry.id) and find(entry)
        local dated = entry.values.on and check_date(entry)
        if entry.values.notice then
            entry.record = record
        elseif record and dated then
            apply(record, entry)
        end
    end
end

--- What was told of notices that were filed.
function M.filings()
    local list = {}
    for _, entry in ipairs(run.done) do
        if entry.values.notice and entry.values.on then list[#list + 1] = entry end
    end
    return list
end

--- The day on which the notice was filed for an act, the last one told; of work that has begun,
--- the latest day on which it can have been. Nil when it is still to be filed.
-- @param lead days that it is filed ahead
function M.filed(record, notice, lead)
    local filed
    for _, entry in ipairs(run.done) do
        local values = entry.values
        if values.notice == notice.name and (not entry.record or entry.record == record) and values.on and
            (not filed or values.on > filed) then filed = values.on end
    end
    return filed or record.begun and calendar.add_days(record.begun, -lead) or nil
end

return M
