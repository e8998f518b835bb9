--- What openings and trails ask of a layout, as plain numbers of feet; and the words in which a
--- layout says what became of it.
local M = {}
local covers = need "layout/cover"
local ground = need "ground"
local map = need "map"
local phrases = need "phrases"
local quantity = need "quantity"

--- Ways out of an opening when none are told: with one, what lies in it can be shut in. Common
--- practice, no source.
M.WAYS_OUT = 2

--- The likely value of a key in feet, nil when it is not said, false when a fault was told.
local function feet_of(record, key)
    local told = record and record.values[key]
    if not told then return nil end
    local feet = ground.feet(told, record.stand, record.place, key)
    return feet and quantity.number(feet, "ft") or false
end

--- What an uncertain figure is of its likely value; nil when it is certain.
function M.doubt_of(value, unit)
    if not value then return nil end
    local low, high = quantity.ends(value, unit)
    if low == high then return nil end
    return value / quantity.leaf(quantity.number(value, unit), unit, "its likely value, for which it is laid out")
end

--- How far the area of openings may be off what is laid out.
function M.doubt_of_opening(record)
    local values = record.values
    if values.area then return M.doubt_of(quantity.say(values.area, "ac"), "ac") end
    local function doubt_in(key)
        return values[key] and M.doubt_of(ground.feet(values[key], record.stand, record.place, key), "ft")
    end
    local doubt, long = doubt_in("width"), doubt_in("length")
    if not values.length then long = doubt end
    if doubt and long then return doubt * long end
    return doubt or long
end

--- Width and area of one opening, in feet; nil when a fault was told.
local function size_of(record)
    local values = record.values
    local width, length = feet_of(record, "width"), feet_of(record, "length")
    if width == false or length == false then return nil end
    local area = values.area and quantity.number(values.area, "ac") * map.FT2_PER_AC
    if area then return width or math.sqrt(area * 4 / math.pi), area end
    if not length then return width, 0 end
    return math.min(width, length), math.pi / 4 * width * length
end

--- How wide an opening is laid out, in feet; 0 when a fault was told.
function M.width_of(record) return size_of(record) or 0 end

--- How long, in feet, where that is told and goes with a width; nil else.
function M.length_of(record)
    local values = record.values
    return values.width and values.length and not values.area and feet_of(record, "length") or nil
end

--- The ground that openings are to lie in.
function M.ground_of(record)
    local part = record.values.part
    local cover = covers.of(record.stand)
    if not part or not part.shaped then return cover end
    local shape = need("parts").shape(record.stand, part, record.place)
    return shape and covers.tidy(shape:intersection(cover, shape:words()))
end

--- How many openings: a number, or the least distance between their centres.
local function count_of(record, cover, area, width)
    local values = record.values
    local acres = cover:area() / map.FT2_PER_AC
    local part = values.part
    if part and not part.shaped then acres = acres * quantity.number(part.share, "percent") / 100 end
    if values.spacing then return nil, feet_of(record, "spacing") end
    if values.share then
        local one = area > 0 and area or math.pi / 4 * width * width
        local all = quantity.number(values.share, "percent") / 100 * acres * map.FT2_PER_AC
        return math.max(1, math.ceil(all / one - 1e-9))
    end
    if values.per_acre then return math.max(1, math.floor(values.per_acre * acres + 0.5)) end
    return values.count or 1
end

local CUTS = { cut = true, sale = true }

--- The cover that a trail's `reach` is asked of: what grows up where the cuts that it comes after
--- go. Nil: all of the stand's, as where one of them goes over all of it, or none has a shape.
-- @param trail with the openings it joins: what comes after a cut with them does with it
function M.reached(trail)
    local list, words, cover = {}, {}, covers.of(trail.stand)
    local records = { trail, table.unpack(trail.values.joins or {}) }
    for _, record in ipairs(records) do
        for _, act in ipairs(record.values.after or {}) do
            if CUTS[act.kind] and act.stand == trail.stand then
                if not act.by_shape or not act.shape then return nil end
                list[#list + 1], words[#words + 1] = act.shape, act.id
            end
        end
    end
    if #list == 0 then return nil end
    local shape = covers.tidy(cover:intersection(map.union(list), "cover of " .. table.concat(words, ", ")))
    return not shape:is_empty() and shape or nil
end

--- What a trail asks; nil when a fault was told.
-- @return its width
function M.trail(ask, trail)
    local width = need("vocabulary/trail").width_of(trail)
    local reach, sight = feet_of(trail, "reach"), feet_of(trail, "sight")
    if not width or reach == false or sight == false then return nil end
    ask.trail_width, ask.reach, ask.sight = quantity.number(width, "ft"), reach, sight
    ask.reached = reach and M.reached(trail)
    ask.ways_out = trail.values.ways_out or M.WAYS_OUT
    if not trail.values.ways_out then
        table.insert(trail.notes, ("%d ways out of each opening, since `ways_out` is not told."):format(M.WAYS_OUT))
    end
    -- A trail that joins openings needs a way between them: what asks for no way out asks for one.
    ask.ways_out = math.max(1, ask.ways_out)
    return width
end

--- What openings ask; nil when a fault was told.
-- @return the least ground between two of them
function M.opening(ask, opening)
    local width, area = size_of(opening)
    local gap = feet_of(opening, "gap")
    if not width or gap == false then return nil end
    ask.width, ask.area, ask.gap = width, area, gap
    ask.count, ask.spacing = count_of(opening, ask.cover, area, width)
    if ask.spacing == false then return nil end
    ask.candidates = opening.values.candidates
    return gap or width / 2
end

-- Words ---------------------------------------------------------------------------------------

--- "2,140"
function M.whole(number)
    local text = ("%d"):format(math.floor(number + 0.5))
    local from
    repeat text, from = text:gsub("^(%-?%d+)(%d%d%d)", "%1,%2") until from == 0
    return text
end

local function score_words(score)
    local parts = { phrases.count(score.openings, "opening") }
    if score.trails > 0 then parts[2] = M.whole(score.length) .. " ft of trail" end
    parts[#parts + 1] = ("evenness %.2f"):format(score.evenness)
    if score.trails > 0 then parts[#parts + 1] = "cost " .. M.whole(score.cost) end
    if score.failed > 0 then
        parts[#parts + 1] = phrases.count(score.failed, "ask") .. " not met"
    end
    return table.concat(parts, ", ")
end

--- Where the figures come from: the ground; and the same with the scores of all candidates.
function M.words_of(out, seed, cover)
    local list = {}
    for i, score in ipairs(out.scores) do
        list[i] = ("%d%s: %s"):format(i, i == out.best and " (kept)" or "", score_words(score))
    end
    local short = "layout in " .. cover:words()
    return short, ("%s; candidates of seed %d: %s"):format(short, seed, table.concat(list, "; "))
end

return M
