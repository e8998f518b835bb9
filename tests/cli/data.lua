--- The plan as JSON: it reads, has the keys that are promised, in their order, and says what
--- the paper says.
local kit = require "cli.kit"
local json = require "cli.json"

local function read(command)
    local out, err, status = kit.run(command)
    local fine, value = pcall(json.read, out)
    kit.check(command .. " is JSON", fine and status <= 1, tostring(value) .. "\n" .. err)
    kit.check(command .. " ends with a newline", out:sub(-1) == "\n" and out:sub(-2, -2) ~= "\n")
    return fine and value or {}
end

--- Are the keys these, in this order? Those with ? may be missing.
local function keys(name, object, wanted)
    local got, at = json.keys(object), 1
    if not got then return kit.fail(name, "no object") end
    for key in wanted:gmatch("%S+") do
        local plain = key:gsub("%?$", "")
        if got[at] == plain then
            at = at + 1
        elseif plain == key then
            return kit.fail(name, ("%s is wanted, the keys are %s"):format(key, table.concat(got,
                " ")))
        end
    end
    kit.check(name, at == #got + 1, "more keys: " .. table.concat(got, " ", at))
end

local function is_date(text) return text == json.null or text:find("^%d%d%d%d%-%d%d%-%d%d$") end
local function is_text(text) return text == json.null or type(text) == "string" end

local function quantity(name, q)
    keys(name, q, "value low high unit median?")
    local fine = type(q.value) == "number" and type(q.low) == "number" and type(q.high) == "number"
        and type(q.unit) == "string" and q.low <= q.high
    kit.check(name .. ": numbers", fine, ("%s %s %s"):format(q.low, q.value, q.high))
end

local function quantities(name, object)
    for _, key in ipairs(json.keys(object) or {}) do
        quantity(name .. "." .. key, object[key])
    end
end

local TIMES = { "now", "after", "year 1", "year 2", "year 5", "year 10" }
local PERCENTS = { "light", "hides_lying", "hides_standing" }

--- Openings and trails on the map, where there are some.
local function ways_out(name, told)
    if told == json.null then return end
    -- Openings without a trail are laid out, and have no ways to be looked at.
    keys(name, told, (#told.openings > 0 and "trail_length farthest_cover? longest_sight opened "
        .. "out_of_reach? " or "") .. "openings dead_ends candidates")
    for _, row in ipairs(told.openings) do
        keys(name .. ", an opening", row,
            "act number ways_out ways_asked lon lat area shunned_distance? shunned")
        quantity(name .. ", an opening's area", row.area)
        kit.check(name .. ": its ways", row.ways_out >= 0 and row.ways_asked >= 0)
    end
    for _, row in ipairs(told.dead_ends) do
        keys(name .. ", a dead end", row, "act lon lat length where")
    end
    for _, row in ipairs(told.candidates) do
        keys(name .. ", a candidate", row,
            "act seed candidate kept openings trails evenness cost failed length")
    end
end

--- What will stand there: times in order, now alone where nothing is cut.
local function expected(name, stand)
    for i, row in ipairs(stand.expected) do
        local label = ("%s, %s"):format(name, row.when)
        keys(label, row, "when year season use basal_area trees stems height mean_height light "
            .. "hides_lying hides_standing browse deer_days mast")
        kit.check(label .. ": in order", row.when == TIMES[i])
        local years = tonumber(row.when:match("%d+") or row.when == "after" and 0)
        kit.check(label .. ": its year", row.year == (years or json.null), tostring(row.year))
        kit.check(label .. ": its season", (row.season == json.null) == ((years or 0) == 0),
            tostring(row.season))
        for _, key in ipairs(json.keys(row) or {}) do
            if type(row[key]) == "table" and row[key] ~= json.null then
                quantity(label .. "." .. key, row[key])
            end
        end
        for _, key in ipairs(PERCENTS) do
            kit.check(label .. "." .. key, row[key].low >= 0 and row[key].high <= 100,
                tostring(row[key].high))
        end
    end
    local count = #stand.expected
    kit.check(name .. ": as many times", count < 2 or count == #TIMES, tostring(count))
    for _, row in ipairs(stand.stages) do
        keys(name .. ": stages", row,
            "act first_season hides_lying hides_standing best_browse useful_until next_cut")
        for _, key in ipairs { "hides_lying", "hides_standing", "best_browse", "useful_until" } do
            local fine = row[key] == json.null or row[key] >= row.first_season
            kit.check(("%s: %s"):format(name, key), fine)
        end
    end
end

local function stands(plan)
    for _, stand in ipairs(plan.stands) do
        local name = "stand " .. stand.name
        keys(name, stand, "name known_from area basal_area? trees? diameter? ground species "
            .. "expected stages ways_out")
        expected(name, stand)
        ways_out(name .. ", ways out", stand.ways_out)
        quantity(name .. ".area", stand.area)
        local acres = 0
        keys(name .. ": ground", stand.ground, "kept open trail buffer cut worked untouched")
        for _, key in ipairs(json.keys(stand.ground)) do
            quantity(name .. ".ground." .. key, stand.ground[key])
            acres = acres + stand.ground[key].value
        end
        kit.check(name .. ": all of its ground", math.abs(acres - stand.area.value) < 1e-6,
            ("%.9f of %.9f"):format(acres, stand.area.value))
        for _, row in ipairs(stand.species) do
            keys(name .. " species", row, "species basal_area trees diameter?")
            quantity(name .. " " .. row.species, row.basal_area)
            quantity(name .. " " .. row.species, row.trees)
        end
    end
end

local STATES = { placed = true, unplaced = true, done = true, ["not needed"] = true }

local function acts(plan)
    local ids = {}
    for _, act in ipairs(plan.acts) do
        local name = "act " .. act.id
        keys(name, act,
            "id kind title stand prescription crew state start finish quantities notices "
            .. "during reason usable weeks_left float_weeks chance chance_or_more not_before "
            .. "source")
        kit.check(name .. ": an id of its own", not ids[act.id])
        ids[act.id] = act
        kit.check(name .. ": state", STATES[act.state], act.state)
        kit.check(name .. ": dates", is_date(act.start) and is_date(act.finish)
            and (act.state ~= "placed" or act.start <= act.finish))
        kit.check(name .. ": words", is_text(act.stand) and is_text(act.prescription)
            and is_text(act.crew)
            and is_text(act.reason) and is_text(act.during))
        local placed = act.state == "placed"
        kit.check(name .. ": a chance where it is placed", placed == (type(act.chance) == "number")
            and (not placed or act.chance >= 0 and act.chance <= 1))
        kit.check(name .. ": no sooner than it can be", not placed or act.finish >= act.not_before)
        kit.check(name .. ": share", act.usable >= 0 and act.usable <= 1 and act.weeks_left >= -1)
        keys(name .. ": source", act.source, "file line")
        quantities(name, act.quantities)
        for _, notice in ipairs(act.notices) do
            keys(name .. ": notice", notice, "name to file_by filed filings")
            local first = notice.filings[1]
            kit.same(name .. ": the first filing", notice.file_by, first and first.by or json.null)
            for i, filing in ipairs(notice.filings) do
                keys(name .. ": filing", filing, "from by")
                kit.check(name .. ": filings in order", filing.from <= filing.by
                    and (i == 1 or notice.filings[i - 1].by < filing.by), filing.by)
            end
        end
    end
    return ids
end

local LEVELS = { stop = 1, caution = 2, note = 3 }

local function warnings(plan, ids)
    local before = 1
    for _, warning in ipairs(plan.warnings) do
        local name = ("warning %s"):format(warning.rule)
        keys(name, warning, "level rule act stand date message ask source")
        kit.check(name .. ": level", LEVELS[warning.level], warning.level)
        kit.check(name .. ": the gravest first", LEVELS[warning.level] >= before)
        before = LEVELS[warning.level] or before
        kit.check(name .. ": its act is there", warning.act == json.null or ids[warning.act],
            tostring(warning.act))
        kit.check(name .. ": words", is_text(warning.stand) and is_text(warning.message)
            and is_text(warning.ask)
            and is_text(warning.source) and is_date(warning.date) and warning.message ~= "")
    end
    for _, row in ipairs(plan.unplaced) do
        keys("unplaced", row, "act reason")
        kit.check("unplaced " .. row.act, ids[row.act] and ids[row.act].state == "unplaced"
            and row.reason ~= "")
    end
    for id, act in pairs(ids) do
        local told = false
        for _, row in ipairs(plan.unplaced) do told = told or row.act == id end
        kit.check(id .. " is told when it is not placed", told == (act.state == "unplaced"))
    end
end

--- The figures of the paper and those of the data are the same.
local function agrees(plan, paper)
    kit.check("hours of the paper", paper:find(("work     %.3g h"):format(plan.totals.hours.value),
        1, true),
        tostring(plan.totals.hours.value))
    local counts = { stop = 0, caution = 0, note = 0 }
    for _, warning in ipairs(plan.warnings) do counts[warning.level] = counts[warning.level] + 1 end
    kit.check("as many stops, cautions and notes", paper:find(("%d stop"):format(counts.stop), 1,
        true)
        and paper:find(("%d caution"):format(counts.caution), 1, true)
        and paper:find(("%d note"):format(counts.note), 1, true))
    local hours = 0
    for _, act in ipairs(plan.acts) do
        if act.state == "placed"
            and act.quantities.hours then hours = hours + act.quantities.hours.value end
    end
    kit.check("the hours add up", math.abs(hours - plan.totals.hours.value) < 1e-6 * hours,
        tostring(hours))
end

--- The days by which all are done, and before which they cannot be.
local function finish(plan)
    keys("finish", plan.finish, "first_year marked_first all")
    local last = ""
    for _, act in ipairs(plan.acts) do
        if act.state == "placed" and act.finish > last then last = act.finish end
    end
    for name, goal in pairs(plan.finish) do
        keys("finish " .. name, goal, "acts planned not_before")
        kit.check("finish " .. name, goal.acts == 0 or goal.planned >= goal.not_before)
    end
    if last ~= "" then kit.same("the last of all", last, plan.finish.all.planned) end
end

local function whole(path)
    local quoted = kit.quote(path)
    local plan = read("spinney run --json " .. quoted)
    keys(path, plan,
        "property region county walked starts stands acts finish totals warnings unplaced waiting")
    stands(plan)
    quantities("totals", plan.totals)
    warnings(plan, acts(plan))
    finish(plan)
    agrees(plan, (kit.run("spinney run " .. quoted)))
    return plan
end

return function()
    local plan = whole("plan.rx")
    kit.same("property", "Hazel Hill", plan.property)
    kit.same("region", "lake-states/michigan", plan.region)
    kit.same("walked", "2026-10-14", plan.walked)
    kit.same("a measure without spread", plan.stands[1].area.low, plan.stands[1].area.high)
    kit.same("no warning more than there is", 2, #plan.acts)
    whole("stopped.rx")
    local creek = whole(io.popen("pwd"):read("l") .. "/examples/quill-creek/plan.rx")
    kit.check("the demo has stands, acts and a stop", #creek.stands >= 5 and #creek.acts >= 6
        and creek.warnings[1].level == "stop")
    -- As little as there can be.
    kit.put("bare.rx", "property \"Bare\" { walked = Oct 14 2026 }\n")
    plan = read("spinney run bare.rx --json")
    keys("a bare plan", plan,
        "property region county walked starts stands acts finish totals warnings unplaced waiting")
    kit.check("empty lists", #plan.stands == 0 and #plan.acts == 0 and #plan.unplaced == 0
        and plan.region == json.null, tostring(plan.region))
    -- What a visit may ask for, and what comes with it, is no act as yet.
    kit.put("waits.rx", [[
property "Waits" { walked = Oct 14 2026 }
local fence = job "fence" { hours = 5 to 8 h }
job "gate" { hours = 2 h, after = fence }
visit "look" { look_for = "sprouts", if_below = { 5000 stems/ac, fence } }
local spray = job "spray" { hours = 1 h }
visit "decided" { look_for = "weeds", found = 1 stems/ft2, if_above = { 2 stems/ft2, spray } }
]])
    plan = read("spinney run waits.rx --json")
    kit.same("only the visits are acts", "look decided", plan.acts[1].id .. " " .. plan.acts[2].id)
    kit.same("what may come", 2, #plan.waiting)
    for i, row in ipairs(plan.waiting) do
        keys("waiting", row, "act title visit when quantities")
        kit.same("which waits", i == 1 and "fence" or "gate", row.act)
        kit.same("for which visit", "look", row.visit)
        kit.same("to find what", i == 1 and "less than 5,000 stems/ac" or json.null, row.when)
        quantities("waiting", row.quantities)
    end
    kit.same("what it would take", 5, plan.waiting[1].quantities.hours.low)
    kit.expect("spinney run wrong.rx --json", { status = 2, out = false, err = "error: " })
end
