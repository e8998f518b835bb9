--- Dates: by when work is done and how soon it could be, and how sure it is.
local M = {}
local phrases = need "phrases"
local plan = need "plan"
local run = need "run"

--- "Bench aspen: rest openings", with the entry or year of several.
function M.job_words(act)
    local words = act.title
    if act.stand then words = ("%s: %s"):format(act.stand.name, phrases.lower(act.title)) end
    if act.entries and act.entries > 1 then words = ("%s, %d of %d"):format(words, act.entry, act.entries) end
    if act.year and #(act.values.in_year or {}) > 1 then return ("%s, year %d"):format(words, act.year) end
    return words
end

--- Why an act is not placed: the acts that stand in the reason by their ids as the papers call them, and the
--- id behind it where the reader may want to ask on.
function M.reason_words(act, with_ids)
    return ((act.reason or act.state):gsub("`([^`]+)`( ?%(?)", function(id, behind)
        local other = run.act(id)
        if not other then return nil end
        if with_ids then behind = behind == " (" and (" (%s, "):format(id) or (" (%s)%s"):format(id, behind) end
        return ("\"%s\"%s"):format(M.job_words(other), behind)
    end))
end

--- "87 in 100"; the draws are too few to tell of rare cases, and a chance below a bar is not
--- rounded up to it.
local function in_100(chance)
    if chance > 0.98 then return "over 95 in 100" end
    return ("%d in 100"):format(math.floor(chance * 100))
end

--- "Nov 2 2026", "Nov 2 2026 to Nov 9 2026"
function M.days_words(from, to)
    return from == to and tostring(from) or ("%s to %s"):format(tostring(from), tostring(to))
end

--- The day its work begins: later than the date that the plan states, where the crew comes later.
function M.first_day(act)
    local first = act.stretches and act.stretches[1]
    return first and first.from or act.start
end

--- ---- by when, and how soon it could be ----

--- " is done by Mar 14 2027; it cannot be before Mar 7 2027"
function M.by_when(goal)
    if goal.planned <= goal.not_before then return (" done by %s, and cannot be sooner"):format(tostring(goal.planned)) end
    return (" done by %s; it cannot be before %s"):format(tostring(goal.planned), tostring(goal.not_before))
end

--- The acts that could not be placed.
function M.unplaced()
    local list = {}
    for _, act in ipairs(run.acts) do
        if act.state == "unplaced" then list[#list + 1] = act end
    end
    return list
end

--- "2 jobs could not be placed, and are not counted", nil when all are: whoever reads that all is done should not
--- have to look further down for what is not.
function M.left_out_words()
    local count = #M.unplaced()
    if count == 0 then return nil end
    return ("%s could not be placed, and %s not counted"):format(phrases.count(count, "job"), count == 1 and "is" or "are")
end

--- Sentences on the finish of the whole, of the first year's work, and of each act marked first.
function M.finish_words()
    local goals, list = plan.goals(), {}
    if goals.all.acts == 0 then return list end
    local year = goals.first_year
    if year.acts > 0 and year.planned < goals.all.planned then
        list[#list + 1] = ("The work that could begin in the first year is%s."):format(M.by_when(year))
    end
    list[#list + 1] = ("All is%s."):format(M.by_when(goals.all))
    for _, act in ipairs(run.acts) do
        local held = act.values.first and act.state == "placed" and plan.held(act.index)
        if held then
            list[#list + 1] = ("%s comes first: it is%s."):format(M.job_words(act),
                M.by_when { planned = act.finish, not_before = held.soonest })
        end
    end
    local left_out = M.left_out_words()
    if left_out then list[#list + 1] = left_out .. ": see below." end
    return list
end

--- ---- how sure ----

--- Finds out how sure the dates are, and brings it to the acts: chance, or_more, low, float_weeks, sought, helps.
function M.judge()
    plan.tell_risk()
    for _, act in ipairs(run.acts) do act.risk = plan.risk(act.index) end
end

--- Were hours drawn, and does each act keep its season anyway?
-- @return nil when nothing is known, "sure" or "drawn"
function M.how_sure()
    local known
    for _, act in ipairs(run.acts) do
        local risk = act.risk
        if risk and risk.chance then
            known = known or "sure"
            if not risk.or_more and risk.chance < 1 then return "drawn" end
        end
    end
    return known
end

--- " (about 65 of 100 open days are fit)", of an act that waits for ground or weather; "" where all are, or
--- where it has no day.
function M.fit_words(act)
    if act.state ~= "placed" or not act.usable or act.usable >= 1 then return "" end
    return (" (about %d of 100 open days are fit)"):format(math.floor(act.usable * 100 + 0.5))
end

--- Does any act that has a day wait for ground or weather?
function M.waits_for_ground()
    for _, act in ipairs(run.acts) do
        if act.condition and act.state == "placed" then return true end
    end
    return false
end

--- By what the chances are told.
function M.chance_by_words()
    return M.waits_for_ground() and "by the ranges of the hours and the fit weeks of ground and weather"
        or "by the ranges of the hours"
end

--- "87 in 100", "" where there is none.
function M.chance_words(act)
    local risk = act.risk
    if not risk or not risk.chance then return "" end
    return risk.or_more and "over 90 in 100" or in_100(risk.chance)
end

--- The same for a column that says "in 100": "87", ">95".
function M.chance_short(act)
    return (M.chance_words(act):gsub("^over ", ">"):gsub(" in 100$", ""))
end

local WEEKS_TOLD, WEEKS_A_YEAR = 104, 365.2425 / 7

--- "14 wk", "11 yr" where nobody would count the weeks, "" where its season has no end.
function M.float_words(act)
    local weeks = act.risk and act.risk.float_weeks or -1
    if act.state ~= "placed" or weeks < 0 then return "" end
    if weeks < WEEKS_TOLD then return ("%d wk"):format(weeks) end
    return ("%d yr"):format(math.floor(weeks / WEEKS_A_YEAR))
end

local HELP_WORDS = {
    sooner = function() return "taken before other work" end,
    person = function(_, help) return ("with one more person in crew %s"):format(help.crew) end,
    ["next season"] = function(_, help)
        return help["end"] == "nowhere" and "moved to its next season" or
            ("moved to its next season, from %s"):format(tostring(help.from))
    end,
}

local END_WORDS = {
    enough = function(help) return in_100(help.chance) end,
    short = function(help) return in_100(help.chance) end,
    ["leaves out"] = function() return "other work would be left out" end,
    ["not needed"] = function(_, act)
        return act.fallback_of and ("%s would be done, and this not needed"):format(act.fallback_of.id) or "this would not be needed"
    end,
    nowhere = function() return "it would not fit" end,
}

local function is_enough(help) return help["end"] == "enough" or help["end"] == "not needed" end

--- What was tried, with the chance that each gives: what is enough, then what is not.
local function help_words(act)
    local risk, enough, rest = act.risk, {}, {}
    if not risk.sought then return "what would help was tried for acts before it alone" end
    for _, help in ipairs(risk.helps) do
        local list = is_enough(help) and enough or rest
        list[#list + 1] = ("%s: %s"):format(HELP_WORDS[help.kind](act, help), END_WORDS[help["end"]](help, act))
    end
    if #enough + #rest == 0 then return "its date is stated, and nothing else could be tried" end
    local words = {}
    if #enough > 0 then words[1] = "what would help: " .. table.concat(enough, "; ") end
    if #rest > 0 then
        words[#words + 1] = (#enough > 0 and "Not enough: " or "nothing that was tried is enough: ") .. table.concat(rest, "; ")
    end
    return table.concat(words, ". ")
end

--- Chances this near one another are taken for one: they are drawn.
local ALIKE = 0.02

--- Was something tried for it that is enough?
local function has_remedy(act)
    for _, help in ipairs(act.risk.helps or {}) do
        if is_enough(help) then return true end
    end
    return false
end

--- The act before it that makes it late, unless for itself alone something would help.
local function waits_for(act)
    for _, other in ipairs(act.waits_for) do
        local risk = other.risk
        if risk and risk.low and risk.chance <= act.risk.chance + ALIKE and (has_remedy(other) or not has_remedy(act)) then
            return other
        end
    end
    return nil
end

--- What would help it; of an act that is only as late as one before it, which that is.
local function remedy_words(act)
    local other = waits_for(act)
    if not other then return help_words(act) end
    while waits_for(other) do other = waits_for(other) end
    return "as late as what it waits for: " .. M.job_words(other)
end

--- Cautions for acts that may not be done in their season.
function M.speak(find)
    for _, act in ipairs(run.acts) do
        local risk = act.risk
        if risk and risk.low then
            find { level = "caution", rule = "season at risk",
                message = ("this may not be done in its season: the chance that it is%s, %s, is %s")
                    :format(act.fallback_of and ", where it is needed" or "", M.chance_by_words(), in_100(risk.chance)),
                detail = remedy_words(act), ask = "the consultant who planned it",
                source = "the schedule made again with other hours and weeks of ground, by chance",
                act = act, stand = act.stand, date = act.start }
        end
    end
end

return M
