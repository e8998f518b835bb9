--- What holds dates back: of the finish of a plan, of the start of one act.
local M = {}
local dates = need "dates"
local phrases = need "phrases"
local plan = need "plan"
local run = need "run"

local function named(act) return ("%s (%s)"):format(dates.job_words(act), act.id) end

local YEAR = 365.2425

--- ", by at least 3 weeks"; "" of no days.
local function at_least_words(days)
    if days == 0 then return "" end
    if days >= 2 * YEAR then return (", by at least %.1f years"):format(math.floor(days / YEAR * 10) / 10) end
    if days >= 14 and days % 7 == 0 then return (", by at least %d weeks"):format(days // 7) end
    return ", by at least " .. phrases.count(days, "day")
end

--- What it has to wait for, before days and crews are asked; and the act behind it.
local WAITS = {
    nothing = function() return nil end,
    date = function(act) return ("its date is stated: %s"):format(tostring(act.start)) end,
    earliest = function(_, held) return ("it is not to start before %s"):format(tostring(held.from)) end,
    notice = function(_, held)
        return ("the notice \"%s\" is filed %s ahead: not before %s"):format(held.notice, phrases.count(held.lead, "day"),
            tostring(held.from))
    end,
    after = function(_, held, other)
        return ("it waits for %s, done %s%s"):format(named(other), tostring(other.finish),
            at_least_words(held.least)), other
    end,
    follower = function(_, _, other)
        return ("%s has to follow it soon, and cannot sooner than %s"):format(named(other), tostring(other.start))
    end,
    ["stands in"] = function(_, _, other) return ("it stands in for %s, which cannot be placed"):format(named(other)) end,
}

--- The crew: what it does first, or that it is not there.
local function crew_words(act, held)
    local crew = act.crew and ("crew " .. act.crew.name) or "it"
    local busy = held.busy and run.acts[held.busy]
    if busy then return ("%s is busy with %s, until %s"):format(crew, named(busy), tostring(busy.finish)), busy end
    if held.crew_away then return ("%s is not at work before %s"):format(crew, tostring(act.start)) end
    if held.too_short then return ("what was left of its season was too short for it: it starts with the next, %s")
        :format(tostring(act.start)) end
    return nil
end

--- A notice that ended with the year, and lets nothing be done before it was filed anew.
local function renewed_words(act, held)
    return ("the notice \"%s\" runs out with the year: for %d it is filed from Jan 1 %d on, %d days ahead"):format(held.renewed,
        act.start.year, act.start.year, held.renewed_lead)
end

--- What closes them really, which need not be the window that was asked for.
local function days_closed(held)
    local words = ("its days are closed until %s"):format(tostring(held.opens))
    if held.closed then words = ("%s, and had been open until %s"):format(words, tostring(held.closed)) end
    return held.closed_by ~= "" and ("%s: %s"):format(words, held.closed_by) or words
end

--- So long a job tells why it takes until then.
local LONG_DAYS = 14

local function work_words(act)
    local hours, crew = act.figures.hours, act.crew
    if not hours or not crew or need("calendar").add_days(act.start, LONG_DAYS) > act.finish then return nil end
    local figure, people = need("quantity").figure, crew.values.people
    local words = ("its %s take until %s, at %s%s of crew %s"):format((figure(hours.value):gsub("%s*%(.*", "")),
        tostring(act.finish), people > 1 and people .. " x " or "", figure(crew.values.hours_each), crew.name)
    if act.carried_over then return words .. "; too much for one season, it goes on in the next" end
    return words
end

--- One link: lines of reasons, and the act to go on with.
local function link(act, held)
    local lines, behind = {}, nil
    local function put(words) lines[#lines + 1] = words end
    local beside = held.beside and run.acts[held.beside]
    if beside then
        put(("%s draws it out: alone it would be finished %s"):format(named(beside), tostring(held.alone)))
    end
    local long = work_words(act)
    if long then put(long) end
    local crew, busy = crew_words(act, held)
    if crew then put(crew) end
    if busy then return lines, busy end
    if held.renewed then put(renewed_words(act, held)) end
    if held.opens then put(days_closed(held)) end
    -- Closed since before the plan began: what it waits for held it back no longer than that.
    if (not held.opens or held.closed or held.by == "stands in") and not (held.renewed and held.by == "notice") then
        local words
        words, behind = WAITS[held.by](act, held, held.act and run.acts[held.act])
        if words then put(words) end
    end
    if #lines == (long and 1 or 0) then put(("nothing: it starts as soon as the plan does, %s"):format(tostring(plan.starts()))) end
    return lines, behind
end

local function put_chain(out, act, wrap)
    local seen = {}
    while act do
        out[#out + 1] = wrap(("%s: %s%s"):format(named(act), dates.days_words(dates.first_day(act), act.finish), act.crew and ", " .. act.crew.name or ""), "  ", "    ")
        if seen[act] then
            out[#out + 1] = "      and so round: they hold one another\n"
            return
        end
        seen[act] = true
        local held = plan.held(act.index)
        if not held then
            out[#out + 1] = "      it is done\n"
            return
        end
        local lines, behind = link(act, held)
        for _, line in ipairs(lines) do out[#out + 1] = wrap(line, "      ", "        ") end
        act = behind
    end
end

local function last_of(wanted)
    local last
    for _, act in ipairs(run.acts) do
        if act.state == "placed" and not act.declared.before_others and wanted(act) and
            (not last or act.finish > last.finish) then last = act end
    end
    return last
end

local function lines_of(chunks)
    local lines = {}
    for i, chunk in ipairs(chunks) do lines[i] = chunk:sub(-1) == "\n" and chunk or chunk .. "\n" end
    return table.concat(lines)
end

--- What holds the finish back: of all, and of the work of the first year where that is another.
function M.of_finish()
    local wrap = need("help_text").wrap
    local goals, out = plan.goals(), {}
    local last = last_of(function() return true end)
    if not last then return "nothing is placed: there is no finish\n" end
    local year = goals.first_year
    if year.acts > 0 and year.planned < goals.all.planned then
        local of_year = last_of(function(act) return act.crew and act.finish == year.planned end)
        out[#out + 1] = wrap(("The work that could begin in the first year is%s. Last of it, and what each waits for:")
            :format(dates.by_when(year)), "", "")
        if of_year then put_chain(out, of_year, wrap) end
        out[#out + 1] = "\n"
    end
    out[#out + 1] = wrap(("All is%s. Last of it, and what each waits for:"):format(dates.by_when(goals.all)), "", "")
    put_chain(out, last, wrap)
    local left_out = dates.left_out_words()
    if left_out then out[#out + 1] = "\n" .. wrap(left_out .. ".", "", "") end
    return lines_of(out)
end

--- What holds back the start of one act, or nil when there is none of that name.
function M.of_start(id)
    local act = run.act(id)
    if not act then return nil end
    local wrap = need("help_text").wrap
    if act.state ~= "placed" and act.state ~= "done" then
        return wrap(("%s is not placed: %s"):format(id, dates.reason_words(act, true)), "", "  ") .. "\n"
    end
    local out = { wrap("What holds it back, and what each waits for:", "", "") }
    put_chain(out, act, wrap)
    return lines_of(out)
end

return M
