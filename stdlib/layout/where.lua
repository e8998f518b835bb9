--- Where a point lies, in words for somebody who stands in the wood: "60 ft NE of opening 2".
local M = {}
local run = need "run"

local OCTANTS = { "N", "NE", "E", "SE", "S", "SW", "W", "NW" }
--- Openings further off, and features, in feet, do not say where a place is.
local OPENING_NEAR, FEATURE_NEAR = 600, 100

--- "NE": which way it is from one point to another.
local function octant(dx, dy)
    local turn = math.atan(dx, dy) / (2 * math.pi) -- from north, clockwise
    return OCTANTS[math.floor(turn * 8 + 0.5) % 8 + 1]
end

local function feet(number) return ("%d ft"):format(math.floor(number + 0.5)) end

--- By the nearest opening.
-- @param but an opening that is known to be there, and says nothing
local function by_opening(x, y, openings, but)
    local best, least
    for _, opening in ipairs(openings) do
        local distance = opening.shape:distance(x, y)
        if opening ~= but and distance <= math.min(least or OPENING_NEAR, OPENING_NEAR) then
            if not least or distance < least then best, least = opening, distance end
        end
    end
    if not best then return nil end
    if least == 0 then return "in opening " .. best.number end
    local cx, cy = best.shape:center()
    if least < 1 then return ("at the %s edge of opening %d"):format(octant(x - cx, y - cy), best.number) end
    return ("%s %s of opening %d"):format(feet(least), octant(x - cx, y - cy), best.number)
end

--- By the nearest feature of the map.
local function by_feature(x, y)
    local best, least
    for _, feature in ipairs(run.features) do
        local distance = feature.shape and feature.shape:distance(x, y)
        if distance and distance <= FEATURE_NEAR and (not least or distance < least) then
            best, least = feature, distance
        end
    end
    if not best then return nil end
    return least < 1 and "at " .. best.name or ("%s from %s"):format(feet(least), best.name)
end

--- @param openings of the stand: { shape, number }
function M.words(x, y, stand, openings, but)
    local opening, feature = by_opening(x, y, openings, but), by_feature(x, y)
    if opening then return feature and opening .. ", " .. feature or opening end
    local cx, cy = stand.shape:center()
    local side = ("in the %s of %s"):format(octant(x - cx, y - cy), stand.name)
    return feature and side .. ", " .. feature or side
end

M.feet = feet

return M
