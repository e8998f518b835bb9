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

--- A ring without its needles, in place.
local function without_needles(ring)
    local i, count, sound = 1, #ring / 2, 0
    while sound < count and count >= 3 do
        local a, b, c = (i - 2) % count, (i - 1) % count, i % count
        if is_needle(ring[2 * a + 1], ring[2 * a + 2], ring[2 * b + 1], ring[2 * b + 2], ring[2 * c + 1], ring[2 * c + 2]) then
            table.remove(ring, 2 * b + 2)
            table.remove(ring, 2 * b + 1)
            count, sound = count - 1, 0
            i = math.max(1, i - 1)
        else
            i, sound = i % count + 1, sound + 1
        end
    end
    return ring
end

local function is_sliver(ring)
    if #ring < 6 then return true end
    local one = shapes.make("area", { { table.unpack(ring) } })
    return 2 * one:area() / one:length() < NARROW
end

--- The shape without what is narrower than half a foot. Its words stay.
function M.tidy(shape)
    local kept = {}
    for _, ring in ipairs(shape:parts()) do
        without_needles(ring)
        if not is_sliver(ring) then kept[#kept + 1] = ring end
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
