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
    local names = {}
    for i, point in ipairs(points) do
        if point.name == said.name then return point end
        names[i] = point.name
    end
    local near = host.suggest(said.name, names)
    return nil, { id = "traverse-point", from = said.from, to = said.to,
        words = ("there is no corner \"%s\""):format(said.name),
        hint = near and ("did you mean \"%s\"?"):format(near)
            or "a corner of the map, or a point that was named before" }
end

--- Where it starts, and where it should end when that is somewhere else.
local function find_ends(read, given)
    local from, to, fault = given.from, nil, nil
    if read.from and given.points then from, fault = known(read.from, given.points) end
    if not fault and read.close_on then
        to, fault = known(read.close_on, given.points or {})
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

--- Reads and adjusts a traverse.
-- @param place of the primitive that has the text, and `key` where in it
-- @param given { pace (ft), declination (degrees, east positive), points (list of { name, x, y }: known corners),
-- from ({ x, y }: where it starts, when it names no corner) }, each may be nil
-- @param source of the file the text is from; nil for a string of the script
-- @return what `run` of need "survey" gives (points and measured as lists of { x, y } in ft, length, miss,
-- one_in, area in ft2 ...), and with it `calls`, `ending`, `named` (list of { name, x, y }), `assumed` (true when
-- bearings were taken as true without a word); nil when faults were told
function M.make(place, key, text, given, source)
    local read, faults = reader.read(text, given)
    if not read then
        tell_all(place, key, text, source, faults)
        return nil
    end
    local from, to, fault = find_ends(read, given)
    if fault then
        tell_all(place, key, text, source, { fault })
        return nil
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
    run.calls, run.ending, run.assumed, run.named = read.calls, read.ending, read.assumed, named_points(read, run)
    return run
end

return M
