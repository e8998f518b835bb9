--- Buffers, kept clumps and kept trees on the map: what is taken out of a stand before anything
--- else is drawn (drawn.lua).
local M = {}
local acts = need "acts"
local drawn = need "drawn"
local host = need "host"
local map = need "map"
local quantity = need "quantity"
local run = need "run"

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

--- Strips along features, overlaps once, how far they run, and the doubt of their width.
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
    local function area(ft)
        local drawn_so = {}
        for i, feature in ipairs(features) do drawn_so[i] = map.strip(feature.shape, ft + to_bank(feature)) end
        return map.union(drawn_so):intersection(stand):area()
    end
    return all, lengths, drawn.doubt_of(width, area)
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
        local from, stand = shape, record.stand.shape
        record.doubt = drawn.doubt_of(width, function(ft)
            local strip = map.strip(from, ft)
            return (stand and strip:intersection(stand) or strip):area()
        end)
        local line = shape:kind() == "line" and shape:beside(record.stand.shape or map.strip(shape, 1),
            quantity.number(width, "ft"))
        shape = map.strip(shape, quantity.number(width, "ft"), ("within %s of %s"):format(quantity.short(width), shape:words()))
        record.shape = drawn.within(record, shape)
        local length = line and record.shape and map.feet(line, "length of the buffer")
        return record.shape and drawn.with_doubt(map.acres(record.shape), record.doubt), length
    end
    record.shape = drawn.within(record, shape)
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
        record.shape, lengths, record.doubt = strips(record, mapped, width)
        areas[1] = drawn.with_doubt(map.acres(record.shape), record.doubt)
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
        drawn.warn_apart(record, "length", record.values.length, length, "ft")
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
        if drawn.says_twice(record, { "area", "count" }, "how many trees stay") then return nil end
        record.trees = drawn.within(record, shape)
        if not record.trees then return nil end
        return "trees", quantity.leaf(#record.trees:parts(), "trees", shape:words())
    end
    if drawn.says_twice(record, { "area" }, "how much ground stays") or not drawn.take_area(record) then return nil end
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
            own, taken = drawn.lay(taken, act.shape)
            terms[#terms + 1] = drawn.with_doubt(map.acres(own), act.doubt)
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

return M
