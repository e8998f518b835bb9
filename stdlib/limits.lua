--- Limits: which days are left to each act, on what ground, and whom to tell first. From its
--- own `during`, the owner's quiet weeks, and the rules; before the schedule.
local M = {}
local calendar = need "calendar"
local dates = need "dates"
local host = need "host"
local kinds = need "kinds"
local plan = need "plan"
local run = need "run"
local season = need "season_days"
local spans = need "spans"

--- Asks a rule's or notice's own question about an act; no question means yes.
-- @param name what a message calls it: "rule oak-wilt"
local function asks(name, test, record)
    if not test then return true end
    return host.within(name, record.place, test, record.object)
end

--- The seasons that an act of this kind is done in where the plan says neither window nor date, as far
--- as a layer has them; nil where it may be done all year.
local function usual_days(record)
    local names = not record.was and not record.values.date and record.declared.usual_seasons and record.declared.usual_seasons(record)
    local list = {}
    for _, name in ipairs(names or {}) do
        local entry = run.seasons:get(name)
        if entry then list[#list + 1] = { name = name, place = entry.place } end
    end
    if #list == 0 then return nil end
    local words = {}
    for i, entry in ipairs(list) do words[i] = entry.name end
    table.insert(record.notes, ("No `during` is told: season %s."):format(table.concat(words, " or ")))
    return list
end

--- The days the act's own `during` leaves open.
local function own_days(record)
    local list = record.values.during or usual_days(record)
    if not list then return end
    local open, words, dated
    for _, entry in ipairs(list) do
        local days = not entry.from and season.days(entry)
        if entry.from then
            dated = dated or {}
            dated[#dated + 1] = entry
        elseif days then
            open = open and calendar.union(open, days) or days
            -- A window speaks for itself.
            if not entry.window then words = words and (words .. ", " .. entry.name) or entry.name end
        end
    end
    if not open and not dated then return end
    record.own_open, record.own_dates = open, dated
    plan.open(record.index, open, words or "")
    local told = { words or open and tostring(open) }
    for _, entry in ipairs(dated or {}) do
        plan.opening(record.index, entry.from, entry.to)
        told[#told + 1] = dates.days_words(entry.from, entry.to)
    end
    record.window_words = table.concat(told, ", ")
end

--- A rule's closed days for an act: windows, or a function's dated stretches for each year.
local function close(rule, record)
    if type(rule.closed) ~= "function" then
        for _, window in ipairs(rule.closed) do plan.limit(record.index, rule.name, rule.level, window) end
        return
    end
    for year = plan.first_year(), plan.last_year() do
        local from, to = host.within("rule " .. rule.name, record.place, rule.closed,
            record.object, year)
        to = to or from
        if calendar.kind(from) == "window" then
            plan.limit(record.index, rule.name, rule.level, from)
            return
        elseif calendar.kind(from) == "date" and calendar.kind(to) == "date" then
            plan.limit_dates(record.index, rule.name, rule.level, from, to)
        elseif from then
            host.fault(rule.place, "closed", "rule-closed", ("the days that rule \"%s\" closes are %s; "
                .. "two dates or a window are wanted"):format(rule.name, kinds.describe(from)),
                "return date(year, 11, 15), date(year, 11, 30)")
            return
        end
    end
end

local function lead_days(notice)
    return spans.longest(notice.lead)
end

local function expiry_days(notice)
    if notice.expires == "end of year" then return -1 end
    if notice.expires == nil then return 0 end
    return spans.shortest(notice.expires)
end

local function condition(record, word, why)
    if record.condition then return end
    record.condition = word
    record.condition_why = why
    plan.condition(record.index, word, run.conditions:get(word).by_month)
end

--- The weeks in which the owner hunts: of every year, or of their dates alone.
local function quiet_weeks(record)
    for _, off in ipairs(run.property.values.hunting or {}) do
        if off.from then
            plan.limit_dates(record.index, "the owner's hunting weeks", "stop", off.from, off.to)
        else
            local days = season.days(off.entry)
            if days then plan.limit(record.index, "the owner's hunting weeks", "stop", days) end
        end
    end
end

--- Puts every limit on every act.
function M.apply()
    for _, record in ipairs(run.acts) do
        own_days(record)
        if record.values.only_when then
            condition(record, record.values.only_when, "as planned")
        end
        if not record.declared.quiet then quiet_weeks(record) end
        for _, rule in ipairs(run.rules:for_acts(record.kind)) do
            if (rule.closed or rule.ground) and asks("rule " .. rule.name, rule.only_for, record) then
                if rule.closed then close(rule, record) end
                if rule.ground then
                    record.ground_rules = record.ground_rules or {}
                    table.insert(record.ground_rules, rule)
                    condition(record, rule.ground, "rule " .. rule.name)
                end
            end
        end
        for _, notice in ipairs(run.notices:for_acts(record.kind)) do
            if asks("notice " .. notice.name, notice.when, record) then
                record.notices = record.notices or {}
                table.insert(record.notices, notice)
                local lead = lead_days(notice)
                plan.notice(record.index, notice.name, notice.to, lead, expiry_days(notice),
                    #run.done > 0 and need("past").filed(record, notice, lead) or nil)
            end
        end
    end
end

return M
