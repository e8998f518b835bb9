--- A closed traverse, balanced by the compass rule, and its area.
local list = {}
local WOLF = "Ghilani and Wolf, Elementary Surveying, 13th ed., chapters 10 and 12"

-- Its courses as azimuths, printed to a second; the balanced coordinates start at
-- A = (10,000.00, 5,000.00).
local SCRIPT = [==[local calls = [[
    126 deg 55 min 17 sec, 647.25 ft
    178 deg 18 min 58 sec, 203.03 ft
    15 deg 31 min 54 sec, 720.35 ft
    284 deg 35 min 20 sec, 610.24 ft
    206 deg 9 min 41 sec, 285.13 ft
    close ]]
local t = traverse { calls = calls }
]==]

local function add(ask, unit, printed, to, where)
    list[#list + 1] = { script = SCRIPT, ask = ask, unit = unit, printed = printed, to = to,
        source = WOLF, seen = "memory", where = where }
end

add("t.length", "ft", 2466.00, 0.01, "length of the five courses")
add("t.miss", "ft", 0.08, 0.01, "linear misclosure")
-- Printed as 1/30,000, to the nearest ten thousand.
add("t.length:number \"ft\" / t.miss:number \"ft\"", nil, 30000, 10000, "relative precision")
add("t.area", "ft2", 272600, 100, "area by coordinates, to the nearest hundred")
add("t.area", "ac", 6.258, 0.001, "the same in acres")

return list
