--- The schedule in files: weeks, tables, and a calendar that a library reads back.
local kit = require "cli.kit"
local json = require "cli.json"
local table_of = require("cli.csv").table_of

local top = io.popen("pwd"):read("l")
local READER = kit.quote((kit.built:find("^/") and "" or top .. "/") .. kit.built
    .. "/tests/cli/ical_reader")
local DEMO = kit.quote(top .. "/examples/quill-creek/plan.rx")
local DAY = 24 * 3600

local PLAN = [=[
property "Hazel Hill" { region = "lake-states/michigan", county = "Test County",
    walked = Oct 14 2026 }
local pace = input "pace" { default = 10 h/wk, least = 1 h/wk, most = 60 h/wk,
    says = "hours a week of each" }
local from = input "from" { default = Nov 2 2026, says = "when the owners begin" }
crew "owners" { people = 2, hours_each = pace, skills = { "saw" }, from = from }
crew "loggers" { people = 3, hours_each = 40 h/wk, rate = 50 USD/h, skills = { "machine" },
    from = Jan 4 2027 }
stand "Bench aspen" { area = 4 ac, species = { ["quaking aspen"] = 100 percent },
    diameter = 6 to 9 in, crowding = "open" }
notice "cutting notice" { to = "county clerk", lead = 14 d, applies_to = { "cut" },
  says = "bring the map; the clerk, too, is busy", source = "the test" }
local fell = cut "fell" { stand = "Bench aspen", species = "aspen", hours = 120 to 200 h,
    during = Nov 1 to Feb 28,
  cost = 400 to 600 USD, crew = "owners" }
job "drag" { stand = "Bench aspen", hours = 30 h, after = fell, crew = "loggers",
    hazards = { "Chains break." } }
mow "keep open" { stand = "Bench aspen", after = fell, in_year = { 1, 2, 3 },
    during = Aug 1 to Aug 31, hours = 4 h,
  crew = "owners" }
visit "look" { stand = "Bench aspen", after = fell, wait = 1 yr, look_for = "sprouts" }
]=]

--- The events of a calendar, as the library reads them; fails on whatever it finds wrong.
local function events_of(path)
    local out = kit.expect(READER .. " <" .. path, { status = 0, err = false })
    local list, seen = {}, {}
    for line in out:gmatch("[^\n]+") do
        local event, k = {}, 0
        for cell in line:gmatch("([^\t]*)\t") do
            k = k + 1
            event[({ "uid", "from", "to", "alarms", "summary", "location", "categories",
                "description" })[k]] = cell
        end
        kit.check(path .. ": a UID is there once", #event.uid == 36 and not seen[event.uid], line)
        seen[event.uid] = true
        list[#list + 1] = event
    end
    kit.check(path .. " has events", #list > 0)
    return list
end

local function day_number(iso)
    local y, m, d = iso:match("^(%d%d%d%d)%-?(%d%d)%-?(%d%d)$")
    return os.time { year = tonumber(y), month = tonumber(m), day = tonumber(d), hour = 12,
        isdst = false } // DAY
end

--- Lines of 75 bytes at most, each ended by CR LF.
local function check_lines(path)
    local text = kit.read(kit.path(path))
    local good = text:sub(-2) == "\r\n" and not text:gsub("\r\n",
        ""):find("[\r\n%z\1-\8\11-\31\127]")
    for line in text:gmatch("(.-)\r\n") do good = good and #line <= 75 and utf8.len(line) ~= nil end
    kit.check(path .. ": its lines", good)
end

--- Every row with days is an event of its days, with an alarm, and every notice one of its own.
local function check_calendar(name, plan, rows, events)
    local left = {}
    for _, event in ipairs(events) do left[event.summary .. "\t" .. event.from] = event end
    local function take(words, from)
        local found = left[words .. "\t" .. from:gsub("-", "")]
        left[words .. "\t" .. from:gsub("-", "")] = nil
        return kit.check(("%s: an event for %s on %s"):format(name, words, from), found) and found
    end
    local dated, starts = 0, day_number(plan.starts)
    for _, row in ipairs(rows) do
        if row.start ~= "" then
            dated = dated + 1
            local event = take(row.act .. (row.stretches ~= "1"
                and (", stretch %s of %s"):format(row.stretch,
                row.stretches) or ""), row.start)
            if event then
                kit.same(name .. ": the day after", day_number(row.finish) + 1,
                    day_number(event.to))
                kit.check(name .. ": its act", event.description:find("Act " .. row.id, 1, true),
                    event.description)
                kit.check(name .. ": its place", event.location:find(row.stand, 1, true) and
                    event.location:find(plan.property, 1, true), event.location)
                kit.check(name .. ": its crew", event.description:find(row.crew, 1, true),
                    event.description)
                local days = math.min(7, day_number(row.start) - starts)
                kit.same(name .. ": its alarm", row.state == "done" and ""
                    or tostring((-days * 24 + 7) * 3600),
                    event.alarms)
            end
        end
    end
    kit.check(name .. ": acts have days", dated > 0)
    local filed = {}
    for _, act in ipairs(plan.acts) do
        for _, notice in ipairs(act.notices) do
            for i, filing in ipairs(notice.filings) do
                local words = ("To file%s: %s to %s"):format(i > 1 and " again" or "",
                    notice.name, notice.to)
                if not filed[words .. filing.by] then
                    filed[words .. filing.by] = true
                    local event = take(words, filing.by)
                    kit.check(name .. ": a filing has its alarm", event
                        and tonumber(event.alarms) <= 7 * 3600)
                    kit.same(name .. ": and is called one", "filing", event and event.categories)
                end
            end
        end
    end
    kit.check(name .. ": no other events", next(left) == nil, tostring(next(left)))
end

--- The table of acts against the data.
local function check_acts(name, plan, rows)
    local of, sums = {}, {}
    for _, act in ipairs(plan.acts) do of[act.id] = act end
    for _, row in ipairs(rows) do
        local act, sum = of[row.id], sums[row.id]
        if not kit.check(name .. ": the act " .. row.id, act) then return end
        if not sum then
            sum = { start = row.start, hours_low = 0, hours_likely = 0, hours_high = 0,
                cost_likely = 0, rows = 0 }
            sums[row.id] = sum
        end
        sum.rows, sum.finish = sum.rows + 1, row.finish
        for _, key in ipairs { "hours_low", "hours_likely", "hours_high", "cost_likely" } do
            sum[key] = sum[key] + (tonumber(row[key]) or 0)
        end
        kit.same(name .. ": its stretch", row.start ~= "" and tostring(sum.rows) or "", row.stretch)
        kit.same(name .. ": its state", act.state, row.state)
        kit.same(name .. ": its crew", act.crew == json.null and "" or act.crew, row.crew)
        kit.same(name .. ": its float", act.float_weeks == json.null and ""
            or tostring(act.float_weeks), row.float_weeks)
        kit.check(name .. ": its chance", act.chance == json.null and row.chance == "" or
            math.abs(act.chance - (tonumber(row.chance) or 9)) <= 0.005, row.chance)
        kit.same(name .. ": why not", act.reason == json.null and "" or act.reason, row.reason)
    end
    for id, sum in pairs(sums) do
        local act = of[id]
        kit.same(name .. ": its start", act.start == json.null and "" or act.start, sum.start)
        kit.same(name .. ": its finish", act.finish == json.null and "" or act.finish, sum.finish)
        local hours, cost = act.quantities.hours, act.quantities.cost
        local near = 0.006 * sum.rows
        kit.check(name .. ": its hours", math.abs((hours and hours.value
            or 0) - sum.hours_likely) <= near and
            math.abs((hours and hours.low or 0) - sum.hours_low) <= near and
            math.abs((hours and hours.high or 0) - sum.hours_high) <= near, id)
        kit.check(name .. ": its cost", math.abs((cost and cost.value
            or 0) - sum.cost_likely) <= near, id)
    end
    for _, act in ipairs(plan.acts) do
        local kept = act.kind == "buffer" or act.kind == "keep"
        kit.check(name .. ": every act with a day is told", kept or sums[act.id], act.id)
    end
end

--- The hours of the weeks against the data, and no crew has more than it has.
local function check_weeks(name, plan, folder)
    local rows = table_of(kit.read(kit.path(folder .. "/weeks.csv")))
    local paper = kit.read(kit.path(folder .. "/weeks.txt"))
    local by_act, by_week, told = {}, {}, {}
    for _, row in ipairs(rows) do
        by_act[row.act] = (by_act[row.act] or 0) + tonumber(row.hours)
        local key = row.week .. row.crew
        by_week[key] = by_week[key] or { used = 0, there = tonumber(row.crew_hours),
            week = row.week }
        by_week[key].used = by_week[key].used + tonumber(row.hours)
        kit.same(name .. ": weeks begin on Monday", 4,
            day_number(row.week) % 7) -- Jan 1 1970 was a Thursday
        kit.check(name .. ": a row once", not told[row.week .. row.act])
        told[row.week .. row.act] = true
    end
    for _, week in pairs(by_week) do
        kit.check(name .. ": no more hours than there are", week.used <= week.there + 0.05,
            week.week)
        local y, m, d = week.week:match("(%d+)-(%d+)-(%d+)")
        local months = { "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct",
            "Nov", "Dec" }
        local year = (paper .. "\n\n\n"):match("\n" .. y .. "\n%-%-%-%-\n(.-)\n\n\n")
        kit.check(name .. ": the paper has the week", year and
            year:find("\n  " .. months[tonumber(m)] .. " " .. tonumber(d) .. " ", 1, true),
                week.week)
    end
    for _, act in ipairs(plan.acts) do
        local hours = act.state == "placed" and act.crew ~= json.null and act.quantities.hours
        kit.check(name .. ": the weeks of an act add up", math.abs((hours and hours.value
            or 0) - (by_act[act.id] or 0)) < 0.2,
            act.id)
    end
    kit.check(name .. ": there are weeks", #rows > 0)
end

--- Writes the plan's files and holds them against one another.
local function check_all(name, command, folder, status)
    kit.expect("spinney run " .. command .. " -o " .. folder, { status = status, err = false })
    local plan = json.read(kit.read(kit.path(folder .. "/plan.json")))
    local rows = table_of(kit.read(kit.path(folder .. "/schedule.csv")))
    local events = events_of(folder .. "/schedule.ics")
    check_lines(folder .. "/schedule.ics")
    check_acts(name, plan, rows)
    check_calendar(name, plan, rows, events)
    check_weeks(name, plan, folder)
    return plan, rows, events
end

local function uids(events)
    local list = {}
    for _, event in ipairs(events) do list[event.summary] = event end
    return list
end

--- The same act has the same UID whenever it is done.
local function moved_dates(events)
    local before = uids(events)
    kit.expect("spinney run farm.rx -o moved --set 'from=Nov 23 2026' --set 'pace=11 h/wk'",
        { status = 0 })
    local after, moved, same = uids(events_of("moved/schedule.ics")), 0, 0
    for summary, event in pairs(after) do
        local old = before[summary]
        if old then
            kit.same("the UID of " .. summary, old.uid, event.uid)
            moved = moved + (old.from ~= event.from and 1 or 0)
            same = same + 1
        end
    end
    kit.check("several are the same", same >= 5, tostring(same))
    kit.check("and have moved", moved >= 2, tostring(moved))
    -- A year less: those that stay keep theirs.
    kit.put("fewer.rx", (PLAN:gsub("{ 1, 2, 3 }", "{ 2, 3 }")))
    kit.expect("spinney run fewer.rx -o fewer", { status = 0 })
    local fewer = uids(events_of("fewer/schedule.ics"))
    for _, year in ipairs { "year 2", "year 3" } do
        for summary, event in pairs(fewer) do
            if summary:find(year, 1, true) then kit.same("the UID of " .. summary,
                before[summary].uid, event.uid) end
        end
    end
    -- Another property is another calendar.
    kit.put("other.rx", (PLAN:gsub("Hazel Hill", "Hazel Hills")))
    kit.expect("spinney run other.rx -o other", { status = 0 })
    local known = {}
    for _, event in ipairs(events) do known[event.uid] = true end
    for _, event in ipairs(events_of("other/schedule.ics")) do
        kit.check("no UID of another property", not known[event.uid], event.summary)
    end
end

--- What was done stands where it was, without an alarm; the rest is another event.
local function done_in_part(events)
    kit.put("half.rx", PLAN
        .. 'done { act = "bench-aspen/fell", share = 50 percent, on = Dec 5 2026, hours = 70 h, '
        .. 'says = "cold; the saw was dull" }\n')
    local _, _, after = check_all("half done", "half.rx", "half", 0)
    local done
    for _, event in ipairs(after) do
        if event.categories:find("^done") then done = event end
    end
    if not kit.check("what is done is an event", done) then return end
    kit.same("on its day", "20261205", done.from)
    kit.same("without an alarm", "", done.alarms)
    kit.check("with its remark", done.description:find("cold; the saw was dull", 1, true),
        done.description)
    for _, event in ipairs(events) do kit.check("it is an event of its own",
        event.uid ~= done.uid) end
end

--- A notice that expires with the year is filed again in the next, and both days are told.
local function filed_again()
    kit.put("again.rx", (PLAN:gsub("lead = 14 d,", 'lead = 14 d, expires = "end of year",')
        :gsub("120 to 200 h", "220 to 260 h")))
    kit.expect("spinney run again.rx -o filed", { status = 0 })
    local days, seen = {}, {}
    for _, event in ipairs(events_of("filed/schedule.ics")) do
        if event.categories == "filing" then
            days[#days + 1] = event.from
            kit.check("another filing, another UID", not seen[event.uid])
            -- Filed on New Year's Day at the soonest, and that is its last day too.
            kit.same("a filing that can be too soon says so", event.from == "20270101",
                event.description:find("Not before Jan 1 2027", 1, true) ~= nil)
            kit.check("what rings a week ahead does not say today",
                not event.summary:find("today", 1, true))
            seen[event.uid] = true
        end
    end
    kit.same("it is filed", "20261019 20270101", table.concat(days, " "))
    for _, name in ipairs { "plan.txt", "weeks.txt", "schedule.csv" } do
        kit.check(name .. " tells of it",
            kit.read(kit.path("filed/" .. name)):find("again", 1, true))
    end
end

--- A crew that comes by the day, a logger, is named and kept to its days; each week has it.
local function by_the_day()
    kit.put("logger.rx", PLAN
        .. 'crew "logger" { people = 2, hours_each = 40 h/wk, from = Jan 11 2027, '
        .. 'off = { Jan 20 to Jan 21 } }\n'
        .. 'sale "poles" { stand = "Bench aspen", crew = "logger", days = 12 d, '
        .. 'during = Dec 15 to Mar 10, species = "aspen", share = 10 percent }\n')
    local plan, rows = check_all("by the day", "logger.rx", "logger", 0)
    for _, act in ipairs(plan.acts) do
        if act.kind == "sale" then
            kit.same("who", "logger", act.crew)
            kit.same("twelve days of the crew's", "2027-01-11 2027-01-24",
                act.start .. " " .. act.finish)
            kit.same("no hours of it", nil, act.quantities.hours)
        end
    end
    for _, row in ipairs(rows) do
        if row.kind == "sale" then kit.same("who, in the table", "logger", row.crew) end
    end
    local paper = kit.read(kit.path("logger/weeks.txt"))
    kit.check("the crew's own line", paper:find("\n  logger   1 job by the day\n", 1, true), paper)
    kit.check("its first week", paper:find("Jan 11: Bench aspen: sale of aspen,", 1, true), paper)
    kit.check("its second week",
        paper:find("\n  Jan 18  logger   Bench aspen: sale of aspen, until", 1, true), paper)
end

local NAMES = { "comma, semicolon; back\\slash", "BEGIN:VEVENT", "END:VCALENDAR\\nX", "=1+1",
    "'quoted' \"twice\"",
    "\xc3\x89rabli\xc3\xa8re \xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae "
        .. ("\xf0\x9f\x8c\xb2"):rep(4),
    ("very long "):rep(15) .. "name" }

local function awkward_names()
    local parts = { 'property "The Smiths\'; a, b\\\\c" { '
        .. 'region = "lake-states/michigan", walked = Oct 14 2026 }\n',
        'crew "A, B; C" { people = 1, hours_each = 10 h/wk, skills = { "saw" } }\n' }
    for i, name in ipairs(NAMES) do
        local quoted = ("%q"):format(name):gsub("\\\n", "\\n")
        parts[#parts + 1] = ([[
stand %s { area = %d ac, species = { ["quaking aspen"] = 100 percent },
  diameter = 6 to 9 in, crowding = "open" }
job %s { stand = %s, hours = 3 h, crew = "A, B; C", says = %s }
]]):format(quoted, i, quoted, quoted, quoted)
    end
    kit.put("awkward.rx", table.concat(parts))
    kit.expect("spinney run awkward.rx -o awkward", { status = 0, err = false })
    check_lines("awkward/schedule.ics")
    local events, rows = events_of("awkward/schedule.ics"),
        table_of(kit.read(kit.path("awkward/schedule.csv")))
    kit.same("an event each", #NAMES, #events)
    kit.same("a row each", #NAMES, #rows)
    local places, stands = {}, {}
    for _, event in ipairs(events) do places[event.location] = event end
    for _, row in ipairs(rows) do stands[row.stand] = row end
    for _, name in ipairs(NAMES) do
        local event = places[name .. ", The Smiths'; a, b\\c"]
        kit.check("the place of " .. name, event)
        kit.check("the remark of " .. name, event and event.description:find(name, 1, true))
        kit.check("the row of " .. name, stands[name:find("^=") and "'" .. name or name])
    end
end

local function without_dates()
    kit.put("bare.rx", 'property "Bare" { region = "lake-states/michigan", walked = Oct 14 2026 }\n'
        .. 'stand "S" { area = 2 ac }\n')
    kit.expect("spinney run bare.rx -o no-acts", { status = 0, err = false })
    kit.same("a plan without acts", "plan.json\nplan.txt\n", (kit.run("LC_ALL=C ls no-acts")))
    kit.put("none.rx", kit.read(kit.path("bare.rx"))
        .. 'job "x" { stand = "S", hours = 3 h, by = Oct 1 2026 }\n')
    local _, _, status = kit.run("spinney run none.rx -o none")
    kit.check("a plan whose act has no place", status < 2)
    kit.same("has a table of it", "plan.json\nplan.txt\nschedule.csv\n",
        (kit.run("LC_ALL=C ls none")))
    local row = table_of(kit.read(kit.path("none/schedule.csv")))[1]
    kit.same("its state", "unplaced", row.state)
    kit.check("and why", #row.reason > 10, row.reason)
    kit.same("without a date", "", row.start .. row.finish .. row.stretch)
end

--- What is done has dates, and no week is left for it.
local function all_done()
    kit.put("past.rx", kit.read(kit.path("bare.rx"))
        .. 'crew "owners" { people = 1, hours_each = 8 h/wk }\n'
        .. 'local x = job "x" { stand = "S", hours = 3 h }\n'
        .. 'done { act = x, on = Oct 10 2026, hours = 4 h }\n')
    kit.expect("spinney run past.rx -o past", { status = 0, err = false })
    kit.same("no week is written of what is done",
        "plan.json\nplan.txt\nschedule.csv\nschedule.ics\n", (kit.run("LC_ALL=C ls past")))
    kit.same("it is an event", "20261010", events_of("past/schedule.ics")[1].from)
end

--- The crew comes later than on the date that the plan states: all tell the day it comes.
local function comes_later()
    kit.put("later.rx", kit.read(kit.path("bare.rx"))
        .. 'crew "owners" { people = 1, hours_each = 8 h/wk, off = Nov 2 2026 }\n'
        .. 'job "x" { stand = "S", hours = 3 h, date = Nov 2 2026 }\n')
    check_all("a late crew", "later.rx", "late", 0)
    kit.same("the day it comes", "2026-11-03",
        table_of(kit.read(kit.path("late/schedule.csv")))[1].start)
    kit.check("and that it is late", kit.read(kit.path("late/plan.txt"))
        :find("fixed on, Nov 2 2026, does not work", 1, true))
end

return function()
    kit.put("farm.rx", PLAN)
    local _, _, events = check_all("the farm", "farm.rx", "farm", 0)
    local _, rows = check_all("Quill Creek", DEMO, "creek", 1)
    local pauses = false
    for _, row in ipairs(rows) do pauses = pauses or row.stretch == "2" end
    kit.check("an act of Quill Creek pauses", pauses)
    kit.run("mkdir again && cp creek/* again/")
    kit.expect("spinney run " .. DEMO .. " -o again", { status = 1 })
    for _, file in ipairs { "schedule.ics", "schedule.csv", "weeks.csv", "weeks.txt" } do
        kit.same(file .. ": the same bytes twice", kit.read(kit.path("creek/" .. file)),
            kit.read(kit.path("again/" .. file)))
    end
    kit.check("the day of the plan is stamped",
        kit.read(kit.path("creek/schedule.ics")):find("DTSTAMP:20261014T000000Z",
        1, true))
    moved_dates(events)
    done_in_part(events)
    filed_again()
    by_the_day()
    awkward_names()
    without_dates()
    all_done()
    comes_later()
end
