--- Rules speak once everything is known: quantities, dates, what could not be placed.
local M = {}
local host = need "host"
local objects = need "objects"
local plan = need "plan"
local run = need "run"

run.findings = {}
local LEVELS = { stop = 1, caution = 2, note = 3 }

--- Records a finding.
-- @param finding { level, rule, message, detail, ask, source, act (record), stand (record), date }
function M.find(finding)
    run.findings[#run.findings + 1] = finding
end

--- What rules may ask of the plan as a whole.
local Plan = { kind = "plan" }
function Plan.index(_, key)
    if key == "property" then return run.property.object end
    if key == "total_hours" then return run.totals.hours end
    if key == "total_cost" then return run.totals.cost end
    local lists = { acts = run.acts, stands = run.stands, features = run.features, crews = run.crews }
    if lists[key] then
        local out = {}
        for i, record in ipairs(lists[key]) do out[i] = record.object end
        return out
    end
    return nil
end

local function speak_of(rule, kind, record, whole)
    if rule.failed then return end -- told once: it would fail of every act
    local told = host.fault_count()
    local said = host.within("rule " .. rule.name, record.place, rule.when, record.object, whole)
    rule.failed = host.fault_count() > told
    if not said then return end
    M.find({ level = rule.level, rule = rule.name, message = rule.says,
        detail = type(said) == "string" and said or nil, ask = rule.ask,
        source = rule.source, act = kind == "act" and record or nil,
        stand = kind == "stand" and record or (kind == "act" and record.stand or nil),
        date = kind == "act" and record.start or nil })
end

--- Does a rule speak of this act? What is done is past mending, but for the rules that ask
--- for something beside it.
local function concerns(rule, record)
    return not record.was or rule.of_done or false
end

--- What stands against a date that the plan states, but for the closed days of `told`.
local function speak_of_fixed(record, told)
    for _, side in ipairs({ { "stop", record.forbidden }, { "caution", record.conflict } }) do
        local points = {}
        for point in ((side[2] or "") .. "; "):gmatch("(.-); ") do
            local again = point == ""
            for _, name in ipairs(told) do
                again = again or point == name or point:sub(1, #name + 7) == name .. ", from "
            end
            if not again then points[#points + 1] = point end
        end
        if #points > 0 then
            -- Done along with another, it comes on the date of that one.
            local date = record.values.date and "the date it is fixed on" or "the date of what it is done along with"
            M.find({ level = side[1], rule = "fixed date", message = ("%s, %s, does not work: %s"):format(date,
                tostring(record.start), table.concat(points, "; ")), ask = "the consultant who planned it",
                source = "the plan itself", act = record, stand = record.stand, date = record.start })
        end
    end
end

--- Closed days that it is worked on: a fixed date, or a soft limit that could not be kept.
local function speak_of_dates(record)
    local told = plan.breaches(record.index)
    for _, name in ipairs(told) do
        local rule = run.rules:get(name)
        local level = rule and rule.level or "stop"
        local message = rule and rule.says or "this falls in " .. name
        M.find({ level = level, rule = name, message = message,
            detail = ("planned for %s"):format(tostring(record.start)), ask = rule and rule.ask, source = rule and rule.source or "the plan itself",
            act = record, stand = record.stand, date = record.start })
    end
    speak_of_fixed(record, told)
    for _, rule in ipairs(record.ground_rules or {}) do
        M.find({ level = rule.level, rule = rule.name, message = rule.says, ask = rule.ask,
            source = rule.source, act = record, stand = record.stand, date = record.start })
    end
end

--- Is the day one of those that the act's own `during` leaves?
local function in_window(record, day)
    if not record.window_words or record.own_open and record.own_open:has(day) then return true end
    for _, dates in ipairs(record.own_dates or {}) do
        if dates.from <= day and day <= dates.to then return true end
    end
    return false
end

--- What was done on a day that was closed: past mending, but perhaps something follows from it.
local function speak_of_done(record)
    local done = ("done on %s"):format(tostring(record.was.to))
    for _, name in ipairs(plan.breaches(record.index)) do
        local rule = run.rules:get(name)
        M.find({ level = rule and rule.level ~= "note" and "caution" or "note", rule = name,
            message = rule and rule.says or "this falls in " .. name, detail = done, ask = rule and rule.ask,
            source = rule and rule.source or "the plan itself", act = record, stand = record.stand, date = record.was.to })
    end
    local values = record.values
    if record.kind == "visit" and (values.if_below or values.if_above) and not (record.found or values.found) then
        M.find({ level = "note", rule = "visit without a finding", message = "nothing is told of what this visit found, which "
            .. "decides what comes next: done { ..., found = 3200 stems/ac }", detail = done, ask = "who made the visit",
            source = "the plan itself", act = record, stand = record.stand, date = record.was.to })
    end
    if not in_window(record, record.was.to) then
        M.find({ level = "note", rule = "done out of season", message = "this was done outside its window",
            detail = ("%s; its window: %s"):format(done, record.window_words), ask = "the consultant who planned it",
            source = "the plan itself", act = record, stand = record.stand, date = record.was.to })
    end
end

local function sort()
    -- What is particular to this plan before what holds everywhere.
    need("sorted").least_first(run.findings, function(finding)
        return 2 * LEVELS[finding.level] + (finding.detail and 0 or 1)
    end)
end

--- One finding for a rule and stand, not one for each of six acts that share it.
local function merge()
    local out, seen = {}, {}
    for _, finding in ipairs(run.findings) do
        local key = table.concat({ finding.rule, finding.message, finding.detail or "",
            finding.stand and finding.stand.name or "" }, "\0")
        local first = seen[key]
        if first and finding.act then
            first.more = first.more or {}
            table.insert(first.more, finding.act)
        elseif not first then
            seen[key] = finding
            out[#out + 1] = finding
        end
    end
    run.findings = out
end

--- The whole message: what the rule says, and what is particular here.
function M.words(finding)
    if not finding.detail then return finding.message end
    return ("%s (%s)"):format(finding.message, finding.detail)
end

--- Lets every rule of the last layer's word speak of every act, stand and the plan.
function M.speak()
    local whole = objects.new(Plan, {})
    local of_kind = { act = {} }
    for _, record in ipairs(run.acts) do
        if record.state ~= "not needed" then
            if record.was then speak_of_done(record) else speak_of_dates(record) end
            of_kind[record.kind] = of_kind[record.kind] or {}
            table.insert(of_kind[record.kind], record)
            table.insert(of_kind.act, record)
        end
    end
    for _, name in ipairs(run.rules:list()) do
        local rule = run.rules:get(name)
        if rule.when and not rule.off then
            for _, word in ipairs(rule.applies_to) do
                if word == "plan" then
                    speak_of(rule, "plan", objects.record(whole), whole)
                elseif word == "stand" then
                    for _, record in ipairs(run.stands) do speak_of(rule, "stand", record, whole) end
                else
                    for _, record in ipairs(of_kind[word] or {}) do
                        if concerns(rule, record) then speak_of(rule, "act", record, whole) end
                    end
                end
            end
        end
    end
    for _, record in ipairs(run.acts) do
        if record.risk and record.risk.low then
            need("dates").speak(M.find)
            break
        end
    end
    merge()
    sort()
    for _, finding in ipairs(run.findings) do
        plan.finding(finding.level, finding.rule, M.words(finding), finding.ask or "",
            finding.source or "", finding.act and finding.act.index, finding.stand and
            finding.stand.index, finding.date)
    end
end

return M
