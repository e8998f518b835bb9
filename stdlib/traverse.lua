--- A line run by compass and pace, or by the calls of a deed: its text read and adjusted, and
--- what is wrong with it told where it was written. How the text goes: traverse/reader.lua;
--- the arithmetic: src/ground/traverse.h.
---     local t = need "traverse".make(place, "calls", text, { pace = 2.6, points = corners })
local host = need "host"
local reader = need "traverse/reader"
local survey = need "survey"

local M = {}

local function tell_all(place, key, text, source, faults)
    for _, fault in ipairs(faults) do
        survey.tell(text, place, key, source, fault.id, fault.from, fault.to, fault.words, fault.hint)
    end
end

--- The known point that was named; a fault with the nearest name when there is none.
local function known(said, points)
    local names, words, hint = {}, nil, nil
    for i, point in ipairs(points) do
        names[i] = point.name
        if point.name == said.name and not words then
            if not point.find then return point end
            local at
            at, words = point.find()
            if at or not words then return at end
            hint = "a corner is one point: give each a name of its own"
        end
    end
    local near = host.suggest(said.name, names)
    return nil, { id = "traverse-point", from = said.from, to = said.to,
        words = words or ("there is no corner \"%s\""):format(said.name),
        hint = hint or (near and ("did you mean \"%s\"?"):format(near)
            or "a corner of the map, or a point that was named before") }
end

--- Where it starts, and where it should end when that is somewhere else.
local function find_ends(read, given)
    local from, to, fault = given.from, nil, nil
    if read.from and given.points then from, fault = known(read.from, given.points) end
    if not fault and read.close_on then
        to, fault = known(read.close_on, given.points or {})
        for _, call in ipairs(fault and read.calls or {}) do
            if call.name == read.close_on.name then
                fault.words = ("\"%s\" is a point of this same traverse"):format(call.name)
                fault.hint = "two traverses: one that leads there, and one round the area that starts there"
            end
        end
        if to and not from then
            fault = { id = "traverse-start", from = read.close_on.from, to = read.close_on.to,
                words = "what ends on a known corner starts at one too", hint = "at its head: from \"NW corner\"" }
        end
    end
    return from, to, fault
end

local SLIPS = {
    backward = "call %d, %s, may run the other way: %s",
    ["east for west"] = "east and west may be exchanged in call %d, %s: %s",
    ["north for south"] = "north and south may be exchanged in call %d, %s: %s",
    twice = "call %d, %s, may be said twice",
}

--- One slip that would explain the miss, in words.
local function slip_words(read, run)
    if not run.slip then return nil end
    local call = read.calls[run.slip_call]
    return SLIPS[run.slip]:format(run.slip_call, call.words,
        survey.quadrant(survey.mended(call.azimuth, run.slip)))
end

--- How well it closes, in words: "misses by 13.4 ft to N 42° E, 1 in 88"; nil without a check.
function M.closure(run)
    if not run.one_in then return nil end
    if run.one_in == math.huge then return "closes exactly" end
    return ("misses by %.1f ft to %s, 1 in %.0f"):format(run.miss, survey.quadrant(run.miss_azimuth, "degrees"),
        math.floor(run.one_in))
end

--- An area's sides do not cross or touch one another.
local function check_sides(place, key, text, source, read, run)
    if not run.crossed then return true end
    local last = read.calls[math.min(run.crosses, #read.calls)]
    local words = run.crosses > #read.calls and ("the side back to the start crosses or touches call %d, %s"):format(
            run.crossed, read.calls[run.crossed].words)
        or ("call %d, %s, crosses or touches call %d, %s"):format(run.crosses, last.words, run.crossed,
            read.calls[run.crossed].words)
    survey.tell(text, place, key, source, "traverse-crossed", last.from, last.to, words,
        slip_words(read, run) or "the line round an area does not cross itself: is a bearing misread?")
    return false
end

--- A miss that is too much is a fault, one that is only much a warning.
local function check_closure(place, key, text, source, read, run)
    local good, worst = survey.most.good_one_in, survey.most.worst_one_in
    if not run.one_in or run.one_in >= good then return true end
    local is_worst = run.one_in < worst
    local words = ("the traverse %s; by compass and pace 1 in %d is usual"):format(M.closure(run), good)
    survey.tell(text, place, key, source, "traverse-miss", read.end_from, read.end_to, words,
        slip_words(read, run)
            or is_worst and "a call is missing or misread; a last side not measured: back to start" or nil,
        not is_worst)
    return not is_worst
end

--- The points that were named, with where they are.
local function named_points(read, run)
    local list = {}
    if read.from then list[1] = { name = read.from.name, x = run.points[1].x, y = run.points[1].y } end
    for i, call in ipairs(read.calls) do
        local at = run.points[i + 1]
        if call.name then list[#list + 1] = { name = call.name, x = at.x, y = at.y } end
    end
    return list
end

--- A corner that was told beside the text counts as said in it.
local function start_outside(place, read, given)
    if not given.starts then return true end
    if read.from then
        host.fault(place, "from", "key-twice", "`from` and the calls each say where it starts", "take out one of them")
        return false
    end
    read.from = { name = given.starts, outside = true, from = 1, to = 1 }
    return true
end

--- Reads and adjusts a traverse.
-- @param place of the primitive that has the text, and `key` where in it
-- @param given { pace (ft), declination (degrees, east positive), points (list of { name, x, y }: known corners, or
-- { name, find }, where find gives { x, y }; nothing when it told a fault; or nil and words), starts (the name of the
-- corner it starts at, told beside the text, in `from`), from ({ x, y }: where it starts, when it names no corner) },
-- each may be nil
-- @param source of the file the text is from; nil for a string of the script
-- @return what `run` of need "survey" gives (points and measured as lists of { x, y } in ft, length, miss,
-- one_in, area in ft2 ...), and with it `calls`, `ending`, `named` (list of { name, x, y }), `assumed` (true when
-- bearings were taken as true without a word), `declination`, `from` (the name of its first corner), `placed` (true
-- when that corner is known); nil when faults were told
function M.make(place, key, text, given, source)
    local read, faults = reader.read(text, given)
    if not read then
        tell_all(place, key, text, source, faults)
        return nil
    end
    if not start_outside(place, read, given) then return nil end
    local told = host.fault_count()
    local from, to, fault = find_ends(read, given)
    if fault and read.from and read.from.outside and fault.from == read.from.from and fault.id == "traverse-point" then
        host.fault(place, "from", fault.id, fault.words, fault.hint)
        return nil
    elseif fault then
        tell_all(place, key, text, source, { fault })
        return nil
    elseif host.fault_count() > told then
        return nil -- a point of the map that could not be read
    end
    local run, id, words, hint = survey.run(read.calls, { from = from, to = to, ending = read.ending,
        declination = read.declination })
    if not run then
        local last = read.calls[#read.calls]
        tell_all(place, key, text, source, { { id = id, from = read.end_from or last.from, to = read.end_to or last.to,
            words = words, hint = hint } })
        return nil
    end
    if not check_closure(place, key, text, source, read, run) then return nil end
    if not check_sides(place, key, text, source, read, run) then return nil end
    run.declination, run.from, run.placed = read.declination, read.from and read.from.name, from ~= nil
    run.calls, run.ending, run.assumed, run.named = read.calls, read.ending, read.assumed, named_points(read, run)
    return run
end

return M
