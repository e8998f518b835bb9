--- Reads bearings: `N 42 E`, `S 45 30 E`, `N 10°15'30" W`, `N 45-30 E`, `due north`, `SW`,
--- `210 deg`, `210°30'`, `azimuth 210`; to azimuths in degrees.
local M = {}

local WINDS = {
    n = 0, north = 0, ne = 45, northeast = 45, e = 90, east = 90, se = 135, southeast = 135,
    s = 180, south = 180, sw = 225, southwest = 225, w = 270, west = 270, nw = 315, northwest = 315,
}
local FROM = { n = "N", north = "N", s = "S", south = "S" }
local TO = { e = "E", east = "E", w = "W", west = "W" }
local PARTS = {
    d = 1, deg = 1, degree = 1, degrees = 1, min = 2, minute = 2, minutes = 2, sec = 3, second = 3, seconds = 3,
}
local PART_WORDS = { "degrees", "minutes", "seconds" }
local AZIMUTH = { az = true, azimuth = true, bearing = true }

--- Words a bearing may start with, for "did you mean".
M.words = { "N", "S", "E", "W", "NE", "SE", "SW", "NW", "north", "south", "east", "west", "northeast", "southeast",
    "southwest", "northwest", "due", "azimuth" }

--- Whether a word may start one.
M.starts = { due = true }
for word in pairs(WINDS) do M.starts[word] = true end
for word in pairs(AZIMUTH) do M.starts[word] = true end

M.FORM = "N 42 E, S 45 30 E, or 210 deg"

--- Which part of an angle the number at `ahead` says it is, and how many tokens say so.
local function told_part(c, ahead)
    local t = c:peek(ahead)
    if t.mark then return PARTS[t.mark], 1 end
    local next = c:peek(ahead + 1)
    if next.kind == "mark" then return PARTS[next.mark], 2 end
    return c:meaning(PARTS, ahead + 1), 2
end

local function check_part(c, t, index, told, value, before)
    if told and told ~= index then
        return c:fail(t, t, "traverse-angle",
            ("%s stand where %s are wanted"):format(PART_WORDS[told], PART_WORDS[index]),
            "degrees, minutes, seconds: N 42°30'15\" E")
    elseif index > 1 and value >= 60 then
        return c:fail(t, t, "traverse-angle", ("%s of an angle are below 60"):format(PART_WORDS[index]),
            "a length comes behind the bearing, with its unit: 130 ft")
    elseif before and before % 1 ~= 0 then
        return c:fail(t, t, "traverse-angle", ("%s stand behind a fraction"):format(PART_WORDS[index]),
            "42.5, or 42 30, not both")
    end
    return true
end

--- Reads degrees, minutes and seconds. `loose`: numbers without a mark go on with it too.
local function angle(c, loose)
    local sum, before = 0, nil
    for index = 1, 3 do
        local t = c:peek()
        local told, size = told_part(c, 0)
        if index > 1 and not (t.kind == "number" and (loose or told == 2 or told == 3)) then break end
        if t.kind ~= "number" then
            return c:fail(t, t, "traverse-angle", "an angle is wanted here", M.FORM)
        end
        local value = tonumber(t.text)
        if not check_part(c, t, index, told, value, before) then return nil end
        for _ = 1, told and size or 1 do c:take() end
        if loose and c:peek(1).kind == "number" then c:take_kind("-") end
        sum, before = sum + value / 60^(index - 1), value
    end
    return sum
end
M.angle = angle

--- How many tokens at hand could belong to an angle; how many of them are numbers, and whether
--- any has a mark.
local function angle_ahead(c)
    local ahead, numbers, marked = 0, 0, false
    while true do
        local t = c:peek(ahead)
        if t.kind == "number" then
            numbers, marked = numbers + 1, marked or t.mark ~= nil
        elseif t.kind == "mark" or c:meaning(PARTS, ahead) then
            marked = true
        elseif t.kind ~= "-" then
            return ahead, numbers, marked
        end
        ahead = ahead + 1
    end
end

local function no_side(c, first, ahead)
    local t = c:peek(ahead)
    local last = t.kind == "end" and c:peek(ahead - 1) or t
    return c:fail(first, last, "traverse-bearing", ("`%s` does not say to which side, east or west"):format(
        c:typed(first, c:peek(ahead - 1))), c.near(t.kind == "word" and t.text, { "east", "west" },
        "N 42 E leans 42 degrees east from north"))
end

--- `N 42 E`, or a plain `N` before a length.
local function quadrant(c, units)
    local first = c:take()
    local from = FROM[first.text]
    local ahead, numbers, marked = angle_ahead(c)
    if not c:meaning(TO, ahead) then
        local is_length = numbers == 1 and not marked and c:meaning(units, ahead)
        if numbers == 0 or is_length then return WINDS[first.text] end
        return no_side(c, first, ahead)
    end
    local at = c:peek()
    local degrees = angle(c, true)
    if not degrees then return nil end
    if not c:meaning(TO) then
        return c:fail(c:peek(), c:peek(), "traverse-angle",
            "an angle has degrees, minutes and seconds, no more", M.FORM)
    end
    if degrees > 90 then
        return c:fail(at, at, "traverse-angle", "an angle from north or south is 90 degrees at most",
            ("if it is an azimuth: %s deg"):format(at.text))
    end
    local side = TO[c:take().text]
    local azimuth = from == "N" and degrees or 180 - degrees
    return (side == "E" and azimuth or 360 - azimuth) % 360
end

local function azimuth(c, said)
    local t = c:peek()
    if not said and told_part(c, 0) ~= 1 then
        return c:fail(t, t, "traverse-bearing", ("`%s` is no bearing"):format(c:typed(t)),
            ("N %s E from north, or as an azimuth: %s deg"):format(t.text, t.text))
    end
    local degrees = angle(c, false)
    if degrees and degrees > 360 then
        return c:fail(t, t, "traverse-angle", "an azimuth is 360 degrees at most", "210 deg")
    end
    return degrees and degrees % 360
end

--- Reads the bearing at hand.
-- @param units words of length: a plain `N` stands before one
-- @return the azimuth in degrees; nil when a fault was kept
function M.read(c, units)
    local t = c:peek()
    if t.kind == "number" then return azimuth(c, false) end
    if c:meaning(AZIMUTH) then
        c:take()
        return azimuth(c, true)
    end
    local due = c:take_word("due")
    if due and not c:meaning(WINDS) then
        return c:fail(c:peek(), c:peek(), "traverse-bearing", "due north, south, east or west is wanted here",
            c.near(c:peek().text, M.words, "due north"))
    elseif c:meaning(WINDS) then
        if not due and c:meaning(FROM) then return quadrant(c, units) end
        return WINDS[c:take().text]
    end
    return c:fail(t, t, "traverse-bearing", "a bearing is wanted here", M.FORM)
end

return M
