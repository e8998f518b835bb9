--- The cover of a stand as openings and trails are laid out in it and looked at: its shape less
--- buffers and kept clumps, without the needles and slivers that rounding leaves where one shape
--- is taken from another. Nobody leads a trail into them, they are as far off as any ground, and
--- one of no width at all makes one piece of two.
local M = {}
local map = need "map"
local run = need "run"
local shapes = need "shapes"

--- Ground narrower than this, in feet, is none.
local NARROW = 0.5

--- What is taken out is taken by so much more, so that it goes beyond a rim that it shares.
local BEYOND = 0.25

local function apart(ax, ay, bx, by) return math.sqrt((ax - bx) ^ 2 + (ay - by) ^ 2) end

--- From a point to a piece of line.
local function off(px, py, ax, ay, bx, by)
    local dx, dy = bx - ax, by - ay
    local square = dx * dx + dy * dy
    local t = square > 0 and math.max(0, math.min(1, ((px - ax) * dx + (py - ay) * dy) / square)) or 0
    return apart(px, py, ax + t * dx, ay + t * dy)
end

--- Is the corner at b a needle's point: does the rim come back along itself?
local function is_needle(ax, ay, bx, by, cx, cy)
    if (bx - ax) * (cx - bx) + (by - ay) * (cy - by) >= 0 then return false end
    return math.min(off(ax, ay, bx, by, cx, cy), off(cx, cy, ax, ay, bx, by)) < NARROW
end

--- The neighbors of each corner of a ring.
local function neighbors(count)
    local before, after = {}, {}
    for i = 1, count do before[i], after[i] = i - 1, i + 1 end
    before[1], after[count] = count, 1
    return before, after
end

--- A ring without its needles. By neighbors, for a rim has up to some hundred thousand corners:
--- where one is taken out, the corners beside it are looked at again.
local function without_needles(ring)
    local left = #ring // 2
    local before, after = neighbors(left)
    local at, sound = 1, 0
    while sound < left and left >= 3 do
        local a, b, c = 2 * before[at], 2 * at, 2 * after[at]
        if is_needle(ring[a - 1], ring[a], ring[b - 1], ring[b], ring[c - 1], ring[c]) then
            local from, to = before[at], after[at]
            after[from], before[to], after[at] = to, from, nil
            left, sound, at = left - 1, math.max(0, sound - 2), from
        else
            at, sound = after[at], sound + 1
        end
    end
    local kept = { hole = ring.hole }
    for i = 1, #ring // 2 do
        if after[i] then kept[#kept + 1], kept[#kept + 2] = ring[2 * i - 1], ring[2 * i] end
    end
    return kept
end

local function is_sliver(ring)
    if #ring < 6 then return true end
    local hole = ring.hole
    ring.hole = nil
    local one = shapes.make("area", { ring })
    ring.hole = hole
    return 2 * one:area() / one:length() < NARROW
end

--- The shape without what is narrower than half a foot. Its words stay.
function M.tidy(shape)
    local kept = {}
    for _, ring in ipairs(shape:parts()) do
        local sound = without_needles(ring)
        if not is_sliver(sound) then kept[#kept + 1] = sound end
    end
    return shapes.make("area", kept, shape:words())
end

--- What is taken out of a stand.
local function taken(stand)
    local list = {}
    for _, act in ipairs(run.acts) do
        if act.stand == stand and act.ground_taken and act.shape and not act.copy_of then
            list[#list + 1] = map.strip(act.shape, BEYOND)
        end
    end
    return map.union(list)
end

--- That of a stand, made once.
function M.of(stand)
    if not stand.tidy_cover then
        local out = taken(stand)
        local words = map.cover(stand):words()
        stand.tidy_cover = M.tidy(out and stand.shape:difference(out, words) or stand.shape)
    end
    return stand.tidy_cover
end

return M
