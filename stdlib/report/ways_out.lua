--- "Openings and ways out": what the check of each stand's openings and trails found.
local M = {}
local map = need "map"
local quantity = need "quantity"
local run = need "run"
local where = need "layout/where"

local feet = where.feet

local function plan_feet(number) return quantity.leaf(number, "ft") end

--- "2 (2 asked)"
local function ways_words(opening)
    if opening.asked == 0 then return tostring(opening.ways) end
    return ("%d (%d asked)"):format(opening.ways, opening.asked)
end

local function table_of(d, checks)
    local rows, shunned = {}, false
    for _, check in ipairs(checks) do
        for _, opening in ipairs(check.openings) do shunned = shunned or opening.shunned ~= nil end
    end
    for _, check in ipairs(checks) do
        for _, opening in ipairs(check.openings) do
            local row = { check.stand.name, tostring(opening.number), map.acres(opening.shape), ways_words(opening) }
            if shunned then
                row[5] = opening.shunned and ("%s, %s"):format(feet(opening.shunned_feet), opening.shunned) or ""
            end
            rows[#rows + 1] = row
        end
    end
    local columns = { { "stand", wrap = true }, { "opening", align = "number" }, { "area", align = "number" },
        { "ways out", wrap = true } }
    if shunned then columns[5] = { "nearest shunned edge", wrap = true } end
    d:table { columns = columns, rows = rows }
end

--- "142 ft from a trail or opening (at most 150 ft asked), 60 ft N of opening 3"
local function farthest(check)
    local far = check.found.farthest
    if not far then return "no trail or opening is near any of it" end
    return ("%s from a trail or opening%s, %s"):format(feet(far.distance), check.reach and
        (" (at most %s asked)"):format(feet(check.reach)) or "", where.words(far.x, far.y, check.stand, check.openings))
end

local function summary(d, check)
    local found = check.found
    d:item { { strong = check.stand.name } }
    d:definition("Trails", { plan_feet(found.trail_length), (" to %d place%s where animals leave"):format(#found.exits,
        #found.exits == 1 and "" or "s") })
    d:definition("Farthest cover", { farthest(check) })
    d:definition("Longest sight", { feet(found.longest_sight) .. " along a trail", check.sight and
        (" (at most %s asked)"):format(feet(check.sight)) or "" })
    d:definition("Dead ends", { #check.dead_ends == 0 and "none" or tostring(#check.dead_ends) })
    if found.cover > 0 then
        d:definition("Opened", { ("%.1f percent of the cover"):format(100 * found.opened / found.cover) })
    end
end

--- Writes the section; nothing where no stand has both openings and trails on the map.
function M.write(d)
    local checks = {}
    for _, stand in ipairs(run.stands) do checks[#checks + 1] = stand.ways end
    if #checks == 0 then return end
    d:heading(2, "Openings and ways out")
    table_of(d, checks)
    for _, check in ipairs(checks) do summary(d, check) end
end

return M
