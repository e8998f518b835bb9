--- Acts on the map: the shape of the ground that each covers, and the figures that come from it.
---
--- Records get `shape` (areas), a trail `line` too, a keep of single trees `trees` (points); what
--- a traverse without a known corner measures is in `afloat`, for it has no place. A width that
--- is a range is drawn at its likely value: the figures keep the doubt (`record.doubt`).
local M = {}
local acts = need "acts"
local host = need "host"
local map = need "map"
local quantity = need "quantity"
local run = need "run"

local NUMBER = "h/h" -- both units fall away

--- What is told beside a shape and is off by more than this is worth a word: common practice,
--- no source.
local APART = 0.10
--- Of an act's shape, what may lie outside its stand unsaid: the rounding of two maps.
local LEAST_TOLD = 0.001

-- Shapes --------------------------------------------------------------------------------------

--- A width's doubt: itself over its likely value; nil when it is no range.
local function doubt_of(width)
    local low, high = quantity.ends(width, "ft")
    if low == high then return nil end
    return width / quantity.leaf(quantity.number(width, "ft"), "ft", "its likely value, at which it is drawn")
end

local function with_doubt(area, doubt) return doubt and area * doubt or area end

local function warn_apart(record, key, told, measured, unit)
    local share = quantity.number(told, unit) / quantity.number(measured, unit)
    if math.abs(share - 1) > APART then
        host.warning(record.place, key, key .. "-apart", ("`%s` is %s, and the map makes it %s, which is used"):format(
            key, tostring(told), quantity.short(measured)), ("take `%s` out, or draw the map again"):format(key))
    end
end

--- What of a shape lies in the act's stand; nil when nothing does, and the fault is told.
local function within(record, shape)
    local stand = record.stand and record.stand.shape
    if not stand then return shape end
    local inside = shape:intersection(stand, shape:words())
    if inside:is_empty() then
        return acts.fault(record, "map", "act-outside", ("%s lies outside stand \"%s\""):format(shape:words(),
            record.stand.name), "another name, or the stand that it lies in")
    end
    local lost = 1 - inside:area() / shape:area()
    if shape:kind() == "area" and lost > LEAST_TOLD and not record.copy_of then
        host.warning(record.place, "map", "act-outside", ("%.1f percent of %s lies outside stand \"%s\", and is left out")
            :format(lost * 100, shape:words(), record.stand.name))
    end
    return inside
end

--- The shape that `map` of an act means, within its stand: in `record.shape`, or `afloat`.
-- @return true when there is one
local function take_area(record)
    local shape, floats = map.take(record.values.map, "area", record.place, "map")
    if not shape then return false end
    record.map_words = shape:words()
    if floats then
        record.afloat = shape
    else
        record.shape = within(record, shape)
    end
    return record.shape ~= nil or record.afloat ~= nil
end

--- Are there keys that say by numbers what `map` says? Then that is told.
local function says_twice(record, keys, words)
    for _, key in ipairs(keys) do
        if record.given[key] ~= nil then
            acts.fault(record, key, "key-twice", ("`map` and `%s` each say %s"):format(key, words), "keep one of them")
            return true
        end
    end
    return false
end

--- A shape less what was taken before, and all that is taken then.
-- @param taken a shape, or nil
function M.lay(taken, shape)
    if not taken then return shape, shape end
    local own = shape:difference(taken, shape:words())
    return own, taken:union(own, "ground taken")
end

-- Buffers and clumps: taken out of the stand ------------------------------------------------------

--- A stream's strip is told from its bank: half its width more, when it is drawn as a line.
local function to_bank(feature)
    local width = feature.shape:kind() == "line" and feature.values.width
    return width and quantity.number(width, "ft") / 2 or 0
end

--- Does a strip of that width along a feature reach the stand? Nil when the map does not say.
function M.reaches(feature, stand, feet)
    if not feature.shape or not stand.shape then return nil end
    return map.distance(feature, stand) < feet + to_bank(feature)
end

local function strip_words(width, feature) return ("within %s of %s"):format(quantity.short(width), feature.shape:words()) end

--- Strips along features, overlaps once, and how far they run.
local function strips(record, features, width)
    local stand, list, lengths, words = record.stand.shape, {}, {}, {}
    local feet = quantity.number(width, "ft")
    for _, feature in ipairs(features) do
        local reach, kind = feet + to_bank(feature), feature.shape:kind()
        list[#list + 1] = map.strip(feature.shape, reach)
        words[#words + 1] = strip_words(width, feature)
        local line = kind == "line" and feature.shape or kind == "area" and map.rim(feature.shape, "rim of "
            .. feature.shape:words())
        if line then
            local beside = line:beside(stand, reach, ("%s, beside %s"):format(line:words(), record.stand.name))
            lengths[#lengths + 1] = map.feet(beside, "length along " .. feature.name)
        end
    end
    local all = map.union(list):intersection(stand, ("%s, in %s"):format(table.concat(words, " and "), stand:words()))
    return all, lengths
end

local function sort_by_shape(features)
    local mapped, unmapped = {}, {}
    for _, feature in ipairs(features) do
        table.insert(feature.shape and mapped or unmapped, feature)
    end
    return mapped, unmapped
end

--- The features whose strips reach the stand; of those that do not, a word.
local function reaching(record, features, width)
    local list = {}
    for _, feature in ipairs(features) do
        if M.reaches(feature, record.stand, quantity.number(width, "ft")) then
            list[#list + 1] = feature
        elseif not record.copy_of then
            host.warning(record.place, "of", "buffer-far", ("%s lies %s from stand \"%s\": a buffer of %s does not reach it")
                :format(feature.name, quantity.short(quantity.leaf(map.distance(feature, record.stand), "ft")),
                    record.stand.name, quantity.short(width)))
        end
    end
    return list
end

--- A buffer that the map draws itself: an area, or a line that is widened.
local function mapped_buffer(record, width)
    local shape, floats = map.take(record.values.map, not width and "area" or nil, record.place, "map")
    if not shape then return nil end
    if floats or shape:kind() ~= "area" then
        if floats then
            return acts.fault(record, "map", "traverse-afloat", "a buffer needs a place, and this traverse starts at no known corner",
                "start its calls with from \"NW corner\", a corner that the map or a feature gives a place")
        end
        record.doubt = doubt_of(width)
        local line = shape:kind() == "line" and shape:beside(record.stand.shape or map.strip(shape, 1),
            quantity.number(width, "ft"))
        shape = map.strip(shape, quantity.number(width, "ft"), ("within %s of %s"):format(quantity.short(width), shape:words()))
        record.shape = within(record, shape)
        local length = line and record.shape and map.feet(line, "length of the buffer")
        return record.shape and with_doubt(map.acres(record.shape), record.doubt), length
    end
    record.shape = within(record, shape)
    return record.shape and map.acres(record.shape)
end

--- The ground of a buffer on a mapped stand, and its length (nil when it has none).
-- @param features what it runs along
-- @param by_length a function that gives the length of features without a shape, nil after a fault
-- @return nil when a fault was told
function M.buffer(record, features, width, by_length)
    if record.values.map then return mapped_buffer(record, width) end
    local mapped, unmapped = sort_by_shape(features)
    local areas, lengths = {}, {}
    mapped = reaching(record, mapped, width)
    if #mapped > 0 then
        record.shape, lengths = strips(record, mapped, width)
        record.doubt = doubt_of(width)
        areas[1] = with_doubt(map.acres(record.shape), record.doubt)
    end
    if #unmapped > 0 then
        local length = by_length(unmapped)
        if not length then return nil end
        local numbers = quantity.say(width * length * (record.values.sides or 1), "ac")
        record.taken_number, areas[#areas + 1], lengths[#lengths + 1] = numbers, numbers, length
        local names = {}
        for i, feature in ipairs(unmapped) do names[i] = feature.name end
        table.insert(record.notes, ("The map does not have %s: that strip is figured by its length."):format(
            table.concat(names, ", ")))
    end
    if #areas == 0 then
        table.insert(record.notes, ("None of it comes so near %s."):format(record.stand.name))
        return quantity.leaf(0, "ac", "no such feature comes so near"), quantity.leaf(0, "ft", "no such feature comes so near")
    end
    local length = #lengths > 0 and quantity.sum(lengths) or nil
    if length and record.values.length and #unmapped == 0 and quantity.fits(record.values.length, "ft") then
        warn_apart(record, "length", record.values.length, length, "ft")
    end
    return quantity.sum(areas), length
end

--- Kept trees drawn as points, or a clump.
-- @return "trees" with how many, "clump" with its ground; nil when a fault was told
function M.keep(record)
    local values = record.values
    local shape = map.take(values.map, nil, record.place, "map")
    if not shape then return nil end
    if shape:kind() == "point" then
        if says_twice(record, { "area", "count" }, "how many trees stay") then return nil end
        record.trees = within(record, shape)
        if not record.trees then return nil end
        return "trees", quantity.leaf(#record.trees:parts(), "trees", shape:words())
    end
    if says_twice(record, { "area" }, "how much ground stays") or not take_area(record) then return nil end
    return "clump", map.acres(record.shape or record.afloat)
end

--- What buffers and clumps take of a mapped stand, each what those before it have not taken.
local function taken_of(stand)
    local terms, taken, whole = {}, nil, true
    for _, act in ipairs(run.acts) do
        if act.stand == stand and act.ground_taken and not act.shape then
            terms[#terms + 1], whole = act.ground_taken, false
        elseif act.stand == stand and act.ground_taken then
            local own
            own, taken = M.lay(taken, act.shape)
            terms[#terms + 1] = with_doubt(map.acres(own), act.doubt)
            terms[#terms + 1] = act.taken_number
            if act.doubt or act.taken_number then whole = false end
        end
    end
    return terms, whole
end

--- Workable ground of a mapped stand and what is taken of it, nil when nothing is.
function M.rest(stand)
    local terms, whole = taken_of(stand)
    if #terms == 0 then return stand.area, nil end
    if not whole then return stand.area - quantity.sum(terms), quantity.sum(terms) end
    local cover = map.cover(stand)
    return quantity.leaf(cover:area() / map.FT2_PER_AC, "ac", cover:words()), quantity.sum(terms)
end

-- Acts drawn after those ---------------------------------------------------------------------------

local function draw_opening(record)
    if not record.values.map then return end
    if not says_twice(record, { "count", "per_acre", "share", "area", "length" }, "how many openings there are, and how large") then
        take_area(record)
    end
end

local function draw_trail(record)
    if not record.values.map then return end
    local line, floats = map.take(record.values.map, "line", record.place, "map")
    if not line then return end
    if floats then
        record.afloat = line
        return
    end
    local width = need("vocabulary/trail").width_of(record)
    if not width then return end
    record.line, record.doubt = line, doubt_of(width)
    record.shape = line:buffer(quantity.number(width, "ft") / 2, "flat", ("%s, %s wide"):format(line:words(),
        quantity.short(width)))
end

--- Ground that the map shows: what of it buffers and clumps leave.
local function draw_ground(record)
    local part = record.values.part
    if record.values.map then
        if says_twice(record, { "part", "area" }, "on which ground") or not take_area(record) then return end
    elseif part and part.shaped then
        record.shape = need("parts").shape(record.stand, part, record.place)
        if not record.shape then return end
        record.map_words = record.shape:words()
    else
        return
    end
    record.by_shape = true
    if not record.shape or not record.stand or not record.stand.shape then return end
    local words = record.shape:words()
    local cover = map.cover(record.stand)
    if cover ~= record.stand.shape then
        record.shape = record.shape:intersection(cover, words .. ", less buffers and kept clumps")
    end
    if record.shape:is_empty() then
        acts.fault(record, record.values.map and "map" or "part", "act-ground",
            ("%s lies in buffers and kept clumps: no ground is left to work on"):format(words))
    end
end

local DRAW = { opening = draw_opening, trail = draw_trail }

--- Draws all acts but buffers and clumps, which are before them.
function M.draw()
    for _, record in ipairs(run.acts) do
        local first = record.copy_of
        if first and not record.declared.before_others then
            for _, key in ipairs({ "shape", "line", "afloat", "doubt", "by_shape", "map_words" }) do record[key] = first[key] end
        elseif not first and not record.declared.before_others then
            host.within(record.id, record.place, DRAW[record.kind] or draw_ground, record)
        end
    end
end

--- The ground of an act that is drawn.
function M.acres(record) return map.acres(record.shape or record.afloat, "mapped ground of " .. record.id) end

--- How many openings are drawn.
function M.count(record)
    local shape, count = record.shape or record.afloat, 0
    for _, part in ipairs(shape:parts()) do
        if not part.hole then count = count + 1 end
    end
    return count, shape:words()
end

--- One of the drawn openings, on the average.
function M.each(record)
    local shape = record.shape or record.afloat
    local count = M.count(record)
    local area = with_doubt(map.acres(shape, "area of the openings"), record.doubt)
    return count == 1 and area or area / quantity.leaf(count, NUMBER, "how many there are")
end

--- The length of a trail that is drawn, all of it, wherever it runs; and its ground.
function M.trail(record)
    local line = record.line or record.afloat
    local length = map.feet(line, "length of the trail")
    local told = record.values.length
    if told and quantity.fits(told, "ft") and not record.copy_of then warn_apart(record, "length", told, length, "ft") end
    local area = record.shape and with_doubt(map.acres(record.shape), record.doubt)
    local stand = record.stand and record.stand.shape
    if record.line and stand then
        local outside = line:length() - line:intersection(stand):length()
        if outside > LEAST_TOLD * line:length() and outside >= 1 then
            table.insert(record.notes, ("Of it %s lie outside %s."):format(quantity.short(quantity.leaf(outside, "ft")),
                record.stand.name))
        end
    end
    return length, area
end

return M
