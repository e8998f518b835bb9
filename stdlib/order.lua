--- Order: what comes after what, with which waits, handed to the schedule; and the dates and
--- states brought back to the acts.
local M = {}
local calendar = need "calendar"
local entries = need "entries"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"
local spans = need "spans"

--- Least and most days after what comes before (-1: no end), and whether it is done on the same
--- crew's days: `wait` says the least, its high end the most, `within` the most too.
local function lags(record)
    local wait, soon = record.values.wait, record.values.within
    local least = wait and spans.least(wait) or 0
    local most = wait and spans.is_range(wait) and spans.most(wait) or -1
    if soon == nil then return least, most, false end
    if quantity.fits(soon, "d") then return least, spans.most(soon), false end
    return least, 1, true
end

--- The acts that come before an act, each by its entry: those it names, else the one it is done on.
local function before_of(found, record)
    local before = {}
    for _, other in ipairs(record.values.after or {}) do
        if not other.waiting then before[#before + 1] = entries.match(found, record, other) end
    end
    if #before == 0 and record.on and record.declared.follows_on ~= false then
        before[1] = entries.match(found, record, record.on)
    end
    return before
end

--- Hands links, crews and fixed dates of every act to the plan; `waits_for` of an act is what comes before it.
function M.link()
    local found = entries.by_entry()
    for _, record in ipairs(run.acts) do
        local values = record.values
        local before = before_of(found, record)
        record.waits_for = before
        local least, most, same_crew = lags(record)
        if record.year then least = math.max(least, math.floor(365.2425 * record.year - 180)) end
        for _, other in ipairs(before) do
            if same_crew and other == before[1] then
                plan.along(record.index, other.index)
            else
                plan.link(record.index, other.index, least, most)
            end
        end
        for _, follow in ipairs(record.follows or {}) do
            plan.link(record.index, follow.record.index, math.floor(follow.least), follow.most or -1)
        end
        if #before == 0 and record.year then
            plan.earliest(record.index, calendar.add_years(run.first_day, record.year - 1))
        end
        -- The day is that of the first entry; the others follow it.
        if values.date and not record.copy_of then plan.fixed(record.index, values.date) end
        if values.not_before then plan.earliest(record.index, values.not_before) end
        if values.by then plan.latest(record.index, values.by) end
        if values.in_one_week then plan.in_one_week(record.index) end
        if record.fallback_of then plan.fallback(record.fallback_of.index, record.index) end
        local days = M.days_of_nobody(record)
        if values.crew and not record.declared.before_others then
            for _, crew in ipairs(values.crew) do plan.able(record.index, crew.index) end
            if days then plan.days(record.index, days) end
        elseif days then
            plan.nobody(record.index, days)
        else
            M.able_by_skill(record)
        end
    end
end

--- Days of an act that goes by days, not by hours (a sale, a visit), or nil. Where it names a crew, they
--- are days on which that crew is there, else it takes nobody of the plan.
function M.days_of_nobody(record)
    local declared = record.declared
    local days = (declared.nobody or declared.nobody_when or function () end)(record)
    return days and math.min(days, spans.LONGEST)
end

--- Any crew with the skill the act asks for; that none has it is told by the schedule.
function M.able_by_skill(record)
    local skill = need("skills").asked(record)
    record.skill = skill
    local able = need("skills").able(skill)
    for _, crew in ipairs(able) do plan.able(record.index, crew.index) end
    if skill then plan.needs(record.index, skill) end
end

--- Brings dates, crews and reasons back to the acts' records.
function M.collect()
    for _, record in ipairs(run.acts) do
        local result = plan.result(record.index)
        record.state = result.state
        record.start, record.finish = result.start, result.finish
        record.crew = result.crew and run.crews[result.crew]
        record.stretches = result.stretches
        record.reason = result.reason
        record.usable = result.usable
        record.weeks_left = result.weeks_left
        record.carried_over = result.carried_over
        record.forbidden, record.conflict = result.forbidden, result.conflict
        record.file_by = result.filings
    end
end

return M
