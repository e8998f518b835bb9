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
--- Of openings that are drawn, what may lie in buffers and kept clumps unsaid: likewise.
local MOST_IN_KEPT = 0.01
--- Of an act's shape, what may lie outside its stand unsaid: the rounding of two maps.
local LEAST_TOLD = 0.001

-- Shapes --------------------------------------------------------------------------------------

--- A straight strip's area goes with its width; what comes this near to that is one.
local STRAIGHT = 0.01

--- A width's doubt: itself over its likely value; nil when it is no range. Ground that does not
--- grow as its width does (a ring round a tree, a strip told from a bank) has less or more of it.
-- @param area what ground of so many feet has, in square feet; nil: it grows as the width does
function M.doubt_of(width, area)
    local low, high = quantity.ends(width, "ft")
    if low == high then return nil end
    local likely = quantity.number(width, "ft")
    local doubt = width / quantity.leaf(likely, "ft", "its likely value, at which it is drawn")
    local at_likely = area and area(likely) or 0
    if at_likely == 0 then return doubt end
    local share = (area(high) - area(low)) / (high - low) * likely / at_likely
    if math.abs(share - 1) < STRAIGHT then return doubt end
    return doubt * quantity.leaf(share, NUMBER, "how the ground grows with the width, as drawn at its low and high value")
        + quantity.leaf(1 - share, NUMBER, "what of it does not")
end

--- The area, with a width's doubt where it has one.
function M.with_doubt(area, doubt) return doubt and area * doubt or area end

--- Warns of a length told beside a shape that the shape does not bear out.
function M.warn_apart(record, key, told, measured, unit)
    if record.copy_of then return end
    local share = quantity.number(told, unit) / quantity.number(measured, unit)
    if math.abs(share - 1) > APART then
        host.warning(record.place, key, key .. "-apart", ("`%s` is %s, and the map makes it %s, which is used"):format(
            key, tostring(told), quantity.short(measured)), ("take `%s` out, or draw the map again"):format(key))
    end
end

--- What of a shape lies in the act's stand; nil when nothing does, and the fault is told.
function M.within(record, shape)
    local stand = record.stand and record.stand.shape
    if not stand then return shape end
    local inside = shape:intersection(stand, shape:words())
    if inside:is_empty() then
        return acts.fault(record, "map", "act-outside", ("%s lies outside stand \"%s\""):format(shape:words(),
            record.stand.name), "another name, or the stand that it lies in")
    end
    if shape:kind() ~= "area" then return inside end
    local lost = 1 - inside:area() / shape:area()
    if lost < map.ROUNDING then return shape end -- its parts in their order
    if lost > LEAST_TOLD and not record.copy_of then
        host.warning(record.place, "map", "act-outside", ("%.1f percent of %s lies outside stand \"%s\", and is left out")
            :format(lost * 100, shape:words(), record.stand.name))
    end
    return inside
end

--- The shape that `map` of an act means, within its stand: in `record.shape`, or `afloat`.
-- @return true when there is one
function M.take_area(record)
    local shape, floats = map.take(record.values.map, "area", record.place, "map")
    if not shape then return false end
    record.map_words = shape:words()
    if floats then
        record.afloat = shape
    else
        record.shape = M.within(record, shape)
    end
    return record.shape ~= nil or record.afloat ~= nil
end

--- Are there keys that say by numbers what `map` says? Then that is told.
function M.says_twice(record, keys, words)
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

-- Acts ------------------------------------------------------------------------------------------

local function draw_opening(record)
    if not record.values.map then return end
    if M.says_twice(record, { "count", "per_acre", "share", "area", "length" }, "how many openings there are, and how large")
        or not M.take_area(record) or not record.shape then
        return
    end
    local stand = record.stand
    if not stand.shape or map.cover(stand) == stand.shape then return end
    local inside = 1 - record.shape:intersection(map.cover(stand)):area() / record.shape:area()
    if inside > MOST_IN_KEPT then
        need("rules").find({ level = "caution", rule = "ground", act = record, stand = stand,
            message = ("%d percent of the openings lie in buffers in which nothing is done, or in a kept clump"):format(
                math.floor(inside * 100 + 0.5)),
            ask = "the consultant who planned it", source = "the plan itself" })
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
    record.line, record.doubt = line, M.doubt_of(width)
    record.shape = line:buffer(quantity.number(width, "ft") / 2, "flat", ("%s, %s wide"):format(line:words(),
        quantity.short(width)))
end

--- Ground that the map shows: what of it buffers and clumps leave.
local function draw_ground(record)
    local part = record.values.part
    if record.values.map then
        if M.says_twice(record, { "part", "area" }, "on which ground") or not M.take_area(record) then return end
    elseif part and part.shaped then
        record.shape = need("parts").shape(record.stand, part, record.place)
        if not record.shape then return end
        record.map_words = part.words
    else
        return
    end
    record.by_shape = true
    if not record.shape or not record.stand or not record.stand.shape then return end
    if record.shape:is_empty() then return end -- a part that is nothing: that was told
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

--- Draws all acts but buffers and clumps, which are drawn before them (drawn_kept.lua).
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
function M.acres(record)
    local part = record.values.part
    if part and part.shaped and not record.values.map then
        return need("parts").acres(record.stand, part, record.place, map.cover(record.stand), record.shape:words())
    end
    return map.acres(record.shape or record.afloat, "mapped ground of " .. record.id)
end

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
    local area = M.with_doubt(map.acres(shape, "area of the openings", record.why_laid_out), record.doubt)
    return count == 1 and area or area / quantity.leaf(count, NUMBER, "how many there are")
end

--- The length of a trail that is drawn, all of it, wherever it runs; and its ground.
function M.trail(record)
    local line = record.line or record.afloat
    local length = map.feet(line, "length of the trail", record.why_laid_out)
    local told = record.values.length
    if told and quantity.fits(told, "ft") then M.warn_apart(record, "length", told, length, "ft") end
    local area = record.shape and M.with_doubt(map.acres(record.shape), record.doubt)
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
