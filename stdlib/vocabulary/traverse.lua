--- traverse: a line walked by compass and pace, or told by a deed: its calls give a shape.
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

local PACE_LEAST, PACE_MOST = 1, 8 -- ft, as traverse/reader.lua has them

local M = {
    kind = "traverse", named = "never", takes = "its calls in quotes, or one table",
    says = "a line by compass and pace, or by the calls of a deed: where it comes back to its start, an area; "
        .. "`map` of a stand, a feature or an act takes it",
    keys = {
        { "calls", kind = "text", says = "its calls, one a line or with semicolons between",
          example = "[[ from \"NW corner\"; N 42 E 130 ft; S 45 30 E 3.2 chains; 210 deg 55 paces; close ]]" },
        { "file", kind = "text", says = "or the name of a file that holds them, found as `use` finds scripts",
          example = "\"pasture.txt\"" },
        { "from", kind = "text", says = "the corner it starts at, where the calls do not say it" },
        { "pace", kind = "length", least = quantity.leaf(PACE_LEAST, "ft"), most = quantity.leaf(PACE_MOST, "ft"),
          says = "length of this walker's pace; without it the property's" },
        { "declination", kind = "angle", least = quantity.leaf(-45, "deg"), most = quantity.leaf(45, "deg"),
          says = "how far the needle points east of true north, west below zero; without it the property's" },
    },
    example = [==[local clearing = traverse [[
  from "NW corner"; pace 2.6 ft
  E 210 ft; S 10 30 E 3.2 chains
  due west 88 paces; N 5 W 213 ft
  close ]]
stand "Clearing" { map = clearing }]==],
    more = [[
calls:
  from "NW corner"              the corner it starts at, said first: a feature
                                of kind corner or another point with a place, a
                                point of the property's map by its name, or a
                                point that a traverse before it has named
  N 42 E 130 ft                 a bearing and a length: N 42 E, S 45 30 E with
  S 45 30 15 E 3.2 chains       minutes, and seconds; N 10°15' W, NE, due west;
  210 deg 55 paces              or degrees from north by east
  E 2 chains 20 links to "post" the point where the call ends gets a name
                                lengths: ft, yards, m, chains, links, rods,
                                poles, perches, paces
  pace 2.6 ft                   of the calls below; else the property's pace
  declination 3.5 W             how far the needle is off; else the property's.
  magnetic                      Where one is known, bearings are by the needle:
  true                          `true` on a line says that those below are not,
                                `210 deg true 55 paces` that this one is not
  close                         the last call came back to the start
  close on "SE corner"          or to another known corner
  back to start                 the last side was not measured
  # a remark                    to the end of its line; so does --

  What ends with `close` or `back to start` is an area, the rest is a line;
  where a point is wanted (a nest, a seat), it is the end of that line.
  Without a known corner it has no place: it gives an area or a length to a
  stand, but no map. Lengths are level ones.

  By how much it misses its start is told, and each call gets its share of that
  by its length: the compass (Bowditch) rule. By compass and pace 1 in 50 is
  usual; worse than 1 in 10 is refused, with the slip that would explain it
  where there is one. Common practice, no source. It is never a survey: lines
  with a neighbor are run by a licensed surveyor.]],
}

--- What a traverse answers in a script.
M.answers = {
    { "t.area", "the area inside, when it comes back to its start" },
    { "t.length", "length of its calls; `back to start` is not in it" },
    { "t.miss", "how far its end misses where it should be, where that is known" },
    { "t.closure", "the same in words: \"misses by 13.4 ft to N 42° E, 1 in 88\"" },
    { "t.calls", "how many calls it has" },
}

-- Corners that are known ------------------------------------------------------------------------

--- Points that traverses before have named: { name, x, y }.
local named_before = {}

--- The one point of a shape, or nil and how many it has.
local function only_point(shape)
    local parts = shape:parts()
    if #parts ~= 1 or #parts[1] ~= 2 then return nil, #parts end
    return { x = parts[1][1], y = parts[1][2] }
end

--- The corners that calls may name, in the order they are looked for: features, points of
--- the map, points of the traverses before.
local function corners(place, key)
    local list = {}
    local function add(name, shape_of)
        list[#list + 1] = { name = name, find = function()
            local shape = shape_of()
            if not shape then return nil end
            local at, count = only_point(shape)
            if at then return at end
            return nil, ("there are %d points \"%s\""):format(count, name)
        end }
    end
    for _, feature in ipairs(run.features) do
        if feature.shape and feature.shape:kind() == "point" then
            add(feature.name, function() return feature.shape end)
        end
    end
    if run.property and run.property.values.map then
        local map = need "map"
        for _, feature in ipairs(need("map_files").features()) do
            if feature.form == "point" then
                add(feature.name, function() return map.take(feature.name, "point", place, key) end)
            end
        end
    end
    for _, point in ipairs(named_before) do list[#list + 1] = point end
    return list
end

-- What it is ------------------------------------------------------------------------------------

local function count_words(n, word) return n == 1 and "1 " .. word or ("%d %ss"):format(n, word) end

--- "misses by 13.4 ft to N 42° E, 1 in 88, adjusted by the compass rule", or nil.
local function miss_words(made)
    if made.ending == "back" then return "last side not measured" end
    local closure = need("traverse").closure(made)
    if not closure or made.one_in == math.huge then return closure end
    return closure .. ", adjusted by the compass rule"
end

--- "traverse from NW corner of 7 calls".
local function calls_words(record)
    local start = not record.floats and record.from and " from " .. record.from or ""
    return ("traverse%s%s of %s"):format(record.file and " " .. record.file or "", start,
        count_words(#record.run.calls, "call"))
end

local function shape_of(record)
    local made, flat = record.run, {}
    local is_ring = made.ending == "closed" or made.ending == "back"
    for i = 1, made.ending == "closed" and #made.points - 1 or #made.points do
        flat[#flat + 1] = made.points[i].x
        flat[#flat + 1] = made.points[i].y
    end
    return need("shapes").make(is_ring and "area" or "line", { flat }, record.words)
end

local Traverse = { kind = "traverse" }

local ANSWERS = {
    area = function(record)
        if record.shape:kind() ~= "area" then
            host.raise(nil, nil, "traverse-open", "this traverse does not come back to its start, and has no area",
                "end its calls with `close`")
        end
        return need("map").acres(record.shape, "area inside the traverse")
    end,
    length = function(record)
        return quantity.name(quantity.leaf(record.run.length, "ft", record.words), "length of the traverse")
    end,
    miss = function(record)
        return record.run.miss and quantity.name(quantity.leaf(record.run.miss, "ft", record.words), "miss of the traverse")
    end,
    closure = function(record)
        return need("traverse").closure(record.run) or "nothing to check it by"
    end,
    calls = function(record) return #record.run.calls end,
}

function Traverse.index(record, key)
    if record.is_broken and ANSWERS[key] then
        host.raise(nil, nil, "traverse-broken", ("this traverse is wrong, as is told of it, and has no `%s`"):format(key))
    end
    if ANSWERS[key] then return ANSWERS[key](record) end
    local near = host.suggest(tostring(key), { "area", "length", "miss", "closure", "calls" })
    host.raise(nil, nil, "key-unknown", ("a traverse has no `%s`"):format(tostring(key)),
        near and ("did you mean `%s`?"):format(near) or "`spinney help traverse` tells what it answers")
end

-- Reading it ------------------------------------------------------------------------------------

--- The text of the calls, its key, and the source when it is a file's.
local function text_of(place, values)
    if values.calls and values.file then
        host.fault(place, "file", "traverse-two", "a traverse has `calls` or a `file`, not both", "take out one of them")
        return nil
    elseif values.calls then
        return values.calls, "calls"
    elseif not values.file then
        host.fault(place, nil, "key-missing", "traverse needs `calls`: its bearings and lengths, or `file`: where they are",
            "calls = [[ from \"NW corner\"; N 42 E 130 ft; ... ; close ]]")
        return nil
    end
    local text, source, words, hint = need("forest").notes(values.file)
    if text then return text, "file", source end
    host.fault(place, "file", source, words, hint) -- the second is the fault's id then
    return nil
end

local function told(values, key, unit)
    local value = values[key] or run.property and run.property.values[key]
    return value and quantity.number(value, unit)
end

--- One that a fault was told of: what is made of it is left out without a word.
local function broken(place) return objects.new(Traverse, { place = place, is_broken = true, name = "" }) end

local function make(place, values, text, key, source)
    local points = corners(place, key)
    local given = { pace = told(values, "pace", "ft"), declination = told(values, "declination", "deg"),
        points = #points > 0 and points or nil, starts = values.from }
    local made = need("traverse").make(place, key, text, given, source)
    if not made then return broken(place) end
    local record = { place = place, values = values, run = made, floats = not made.placed, from = made.from,
        file = values.file, name = "" }
    local miss = miss_words(made)
    record.words = calls_words(record) .. (miss and ", " .. miss or "")
    record.shape = shape_of(record)
    local last = made.points[#made.points]
    record.end_point = need("shapes").make("point", { { last.x, last.y } }, "end of " .. record.words)
    if not record.floats then
        for _, point in ipairs(made.named) do named_before[#named_before + 1] = point end
    end
    run.traverses = run.traverses or {}
    run.traverses[#run.traverses + 1] = record
    return objects.new(Traverse, record)
end

--- `traverse [[ ... ]]` and `traverse { calls = [[ ... ]], ... }`.
function M.plain(place, first)
    if type(first) == "string" then return make(place, {}, first, "") end
    if type(first) ~= "table" or objects.record(first) then
        host.fault(place, nil, "table-missing", ("traverse wants %s; this is %s"):format(M.takes, kinds.describe(first)),
            "traverse [[ N 42 E 130 ft; ... ; close ]]")
        return broken(place)
    end
    local values = need("schema").check(place, M, first)
    local text, key, source = text_of(place, values)
    if not text then return broken(place) end
    return make(place, values, text, key, source)
end

-- What the plan says of it ----------------------------------------------------------------------

local function is_of(value, record)
    if type(value) ~= "table" then return false end
    if objects.record(value) then return objects.record(value) == record end
    for _, one in ipairs(value) do
        if objects.record(one) == record then return true end
    end
    return false
end

--- Whose shape it gave: "the line of Bench aspen", and the stand.
local function whose(record)
    for _, stand in ipairs(run.stands) do
        if is_of(stand.values.map, record) then return "the line round " .. stand.name, stand end
    end
    for _, feature in ipairs(run.features) do
        if is_of(feature.values.map, record) then return feature.name end
    end
    for _, act in ipairs(run.acts) do
        local part = act.values.part
        if is_of(act.values.map, record) or part and is_of(part.map, record) then
            return ("the ground of \"%s\""):format(act.title), act.stand
        end
    end
    return nil
end

local function needle_words(degrees)
    if degrees == 0 then return "on true north" end
    return ("%g° %s of true north"):format(math.abs(degrees), degrees < 0 and "west" or "east")
end

--- How its bearings were taken.
local function bearing_words(made)
    local magnetic = false
    for _, call in ipairs(made.calls) do magnetic = magnetic or call.magnetic end
    if magnetic then return "bearings by the needle, " .. needle_words(made.declination) end
    return made.assumed and "bearings taken as true, for no declination is told" or "bearings from true north"
end

--- Each traverse that something was made of, as a note of the plan.
function M.tell()
    for _, record in ipairs(run.traverses) do
        local owner, stand = whose(record)
        if owner then
            local made = record.run
            local miss = made.ending == "back" and "its last side was not measured; "
                or miss_words(made) and ("it %s; "):format(miss_words(made)) or ""
            need("rules").find({ level = "note", rule = "traverse", stand = stand,
                message = ("%s is a %s; %s%s"):format(owner, calls_words(record), miss, bearing_words(made)),
                ask = "a licensed surveyor, before anything is cut or fenced along a neighbor's line",
                source = "compass (Bowditch) rule, in textbooks of surveying (Ghilani and Wolf, Elementary Surveying; from memory)" })
        end
    end
end

return M
