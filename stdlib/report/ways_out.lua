--- "Openings and ways out": what the check of each stand's openings and trails found.
local M = {}
local map = need "map"
local phrases = need "phrases"
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
    if not far then return "none is looked at" end
    return ("%s from a trail or opening%s, %s"):format(feet(far.distance), check.reach and
        (" (at most %s asked)"):format(feet(check.reach)) or "", where.words(far.x, far.y, check.stand, check.openings))
end

local function summary(d, check)
    local found = check.found
    d:item { { strong = check.stand.name } }
    d:definition("Trails", { plan_feet(found.trail_length), (" to %s where animals leave"):format(
        phrases.count(#found.exits, "place")) })
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

-- Data ------------------------------------------------------------------------------------------

--- Longitude and latitude of a point, as pairs of keys and numbers.
local function place(x, y)
    local lon, lat = need("map_files").frame():place(x, y)
    return "lon", lon, "lat", lat
end

local function fill_openings(plan, check)
    local index = check.stand.index
    for _, opening in ipairs(check.openings) do
        plan.ways_row(index, "openings", opening.act.index, opening.shunned, { "number", opening.number, "ways_out",
            opening.ways, "ways_asked", opening.asked, place(opening.shape:inside()) })
        plan.ways_figure(index, "openings", "area", "area", map.acres(opening.shape))
        if opening.shunned then
            plan.ways_figure(index, "openings", "shunned_distance", "nearest shunned edge", plan_feet(opening.shunned_feet))
        end
    end
end

local function fill_dead_ends(plan, check)
    local index = check.stand.index
    for _, stop in ipairs(check.dead_ends) do
        local act = stop.trail and check.trails[stop.trail].act or check.trail_act
        plan.ways_row(index, "dead_ends", act.index, where.words(stop.x, stop.y, check.stand, check.openings), { place(stop.x, stop.y) })
        plan.ways_figure(index, "dead_ends", "length", "length", plan_feet(stop.length))
    end
end

local function fill_candidates(plan, stand)
    for _, row in ipairs(run.layouts) do
        for i, score in ipairs(row.stand == stand and row.out.scores or {}) do
            plan.ways_row(stand.index, "candidates", row.act.index, nil, { "seed", row.seed, "candidate", i,
                "kept", i == row.out.best and 1 or 0, "openings", score.openings, "trails", score.trails,
                "evenness", score.evenness, "cost", score.cost, "failed", score.failed })
            plan.ways_figure(stand.index, "candidates", "length", "length of the trails", plan_feet(score.length))
        end
    end
end

local function fill_whole(plan, check)
    local index, found = check.stand.index, check.found
    local function figure(key, words, value) plan.ways_figure(index, nil, key, words, value) end
    figure("trail_length", "length of the trails", plan_feet(found.trail_length))
    if found.farthest then figure("farthest_cover", "farthest cover", plan_feet(found.farthest.distance)) end
    figure("longest_sight", "longest sight along a trail", plan_feet(found.longest_sight))
    if found.cover > 0 then
        figure("opened", "share of the cover that is opened", quantity.leaf(100 * found.opened / found.cover, "percent"))
        if check.reach then
            figure("out_of_reach", "share of the cover out of reach", quantity.leaf(100 * found.beyond, "percent"))
        end
    end
end

--- Puts it all into the plan: only data tells it so.
function M.fill()
    local plan = need "plan"
    for _, stand in ipairs(run.stands) do
        if stand.ways then
            fill_whole(plan, stand.ways)
            fill_openings(plan, stand.ways)
            fill_dead_ends(plan, stand.ways)
        end
        fill_candidates(plan, stand)
    end
end

return M
