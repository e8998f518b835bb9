--- What fails of a layout, or of openings and trails as they were walked, told as findings: the
--- ask, by how much, where, and, of a layout, what would meet it.
local M = {}
local phrases = need "phrases"
local quantity = need "quantity"
local rules = need "rules"
local run = need "run"
local where = need "layout/where"

--- Places of one kind that are told one by one; the others are counted.
local PLACES_MOST = 4

--- Shorter stubs lead nowhere by chance: a phone's receiver puts a track off by as much (common
--- practice, no source).
local STUB = 10

local feet = where.feet

local function find(act, message)
    rules.find({ level = "caution", rule = "openings and trails", message = message, act = act, stand = act.stand,
        ask = "the consultant who planned it", source = "the plan itself" })
end

local function place(check, point, but) return where.words(point.x, point.y, check.stand, check.openings, but) end

--- "1 way out", "2 ways out"
local function counted(number, one, many) return ("%d %s"):format(number, number == 1 and one or many) end

-- A layout that cannot meet its asks ----------------------------------------------------------------

--- A layout counts its own openings, the papers those of the stand.
local function numbered(words, row, openings)
    local numbers = {}
    for _, act in ipairs(row.openings) do
        for _, opening in ipairs(openings) do
            if opening.act == act then numbers[#numbers + 1] = opening.number end
        end
    end
    return (words:gsub("opening (%d+)", function(n) return "opening " .. (numbers[tonumber(n)] or n) end))
end

--- The key that says how many openings there are.
local function count_key(row)
    local values = row.openings[1].values
    for _, key in ipairs({ "spacing", "share", "per_acre" }) do
        if values[key] then return key end
    end
    return "count"
end

--- "setbacks of 75 percent of those asked", in feet where they are all the same.
local function in_feet(remedy, row)
    local least
    for _, shun in ipairs(row.shuns) do
        if not shun.of_plan then
            if least and shun.least ~= least then return remedy end
            least = shun.least
        end
    end
    return least and (remedy:gsub("setbacks of (%d+) percent of those asked", function(percent)
        return ("a setback of %s"):format(feet(math.floor(least * tonumber(percent) / 100)))
    end)) or remedy
end

--- "openings 30 ft wide", as they were asked for: with their length, or by their area.
local function narrower(width, opening)
    local asks, values = need "layout/asks", opening.values
    local part = width / asks.width_of(opening)
    if values.area and not values.width then
        return ("openings of %g ac"):format(math.floor(quantity.number(values.area, "ac") * part * part * 100) / 100)
    end
    local length = asks.length_of(opening)
    return ("openings %s wide"):format(feet(width)) .. (length and (" and %s long"):format(feet(math.floor(length * part))) or "")
end

--- What would meet it, in the terms of the plan; nil when nothing is known to.
local function remedy_of(trouble, row)
    local list = {}
    for one in ((trouble.remedy or "") .. ", or "):gmatch("(.-), or ") do
        local width = one:match("^openings ([%d,]+) ft wide$")
        if not width then
            list[#list + 1] = one ~= "" and in_feet(one, row) or nil
        elseif not row.near then -- where what is near depends on the width
            list[#list + 1] = narrower(tonumber((width:gsub(",", ""))), row.openings[1])
        end
    end
    return #list > 0 and table.concat(list, ", or ") or nil
end

--- Has the check found what the layout counts more strictly?
local function is_narrow(trouble, check)
    if trouble.ask ~= "ways_out" or not check then return false end
    for _, opening in ipairs(check.openings) do
        if opening.ways < opening.asked then return false end
    end
    return true
end

--- Those of all layouts. In `stand.unmet` stays which asks were told.
function M.of_layouts()
    for _, row in ipairs(run.layouts) do
        local check = row.stand.ways
        row.stand.unmet = row.stand.unmet or {}
        for _, trouble in ipairs(row.out.troubles) do
            row.stand.unmet[trouble.ask] = true
            local words = numbered(trouble.words, row, check and check.openings or {})
            if check and trouble.x and trouble.ask ~= "ways_out" then words = ("%s, %s"):format(words, place(check, trouble)) end
            if is_narrow(trouble, check) then
                words = words .. ", for trails that share ground in a narrow place count as one"
            end
            if row.near and trouble.ask == "count" then words = ("%s near %s"):format(words, row.near) end
            local remedy = remedy_of(trouble, row)
            if remedy then words = ("%s. What would meet it: %s"):format(words, remedy) end
            find(row.act, ("the layout does not meet `%s`: %s"):format(trouble.ask == "count" and count_key(row) or trouble.ask, words))
        end
    end
end

--- Tells the first few, and how many more there are.
local function each(list, tell)
    for i, one in ipairs(list) do
        if i > PLACES_MOST then return #list - PLACES_MOST end
        tell(one)
    end
    return 0
end

-- What lies on the ground -----------------------------------------------------------------------

local function held_words(check, opening)
    local parts = {}
    for i, hold in ipairs(opening.held_by) do
        if hold.kind == "trail" then
            parts[i] = ("%s of trail %s"):format(feet(hold.length), place(check, hold, opening))
        elseif hold.kind == "opening" then
            parts[i] = "opening " .. hold.opening
        elseif hold.kind == "exit" then
            parts[i] = ("the way to %s, %s"):format(check.exits[hold.exit].name, place(check, hold, opening))
        else
            parts[i] = "the junction " .. place(check, hold, opening)
        end
    end
    return phrases.listed(parts)
end

--- The trail that leads to an opening, to speak of, else any.
local function trail_to(check, opening)
    for _, trail in ipairs(check.trails) do
        for _, act in ipairs(trail.act.values.joins or {}) do
            if act == opening.act then return trail.act end
        end
    end
    return check.trail_act
end

local function ways_out(check)
    if check.stand.unmet.ways_out then return end
    local list = {}
    for _, opening in ipairs(check.openings) do
        if opening.ways < opening.asked then list[#list + 1] = opening end
    end
    local more = each(list, function(opening)
        local words = ("opening %d has %s, and %d %s asked"):format(opening.number, opening.ways == 0 and "no way out"
            or counted(opening.ways, "way out", "ways out"), opening.asked, opening.asked == 1 and "is" or "are")
        if #opening.held_by > 0 then words = ("%s: all lead over %s"):format(words, held_words(check, opening)) end
        find(trail_to(check, opening), words)
    end)
    if more > 0 then find(check.trail_act, counted(more, "more opening has", "more openings have") .. " fewer ways out than asked") end
end

local function dead_ends(check)
    local list = {}
    for _, stop in ipairs(check.found.dead_ends) do
        if stop.length >= STUB then list[#list + 1] = stop end
    end
    check.dead_ends = list
    local more = each(list, function(stop)
        local act = stop.trail and check.trails[stop.trail].act or check.trail_act
        local at = place(check, stop)
        if stop.loop then
            find(act, ("dead end: a loop of trail only leads back, %s; %s lead nowhere"):format(at, feet(stop.length)))
        elseif stop.alone then
            find(act, ("dead end: %s of trail are joined to no opening and no way out; they end %s"):format(feet(stop.length), at))
        else
            find(act, ("dead end: the trail ends in the cover %s; %s of it lead nowhere"):format(at, feet(stop.length)))
        end
    end)
    if more > 0 then find(check.trail_act, counted(more, "more dead end", "more dead ends")) end
end

local function reach(check)
    local far, asked = check.found.farthest, check.reach
    if not asked or check.stand.unmet.reach or (far and far.distance <= asked + 0.5) then return end
    local words = ("some cover lies %s from any trail or opening, and at most %s are asked: %s"):format(feet(far.distance),
        feet(asked), place(check, far))
    local share = math.floor(check.found.beyond * 100 + 0.5)
    find(check.reach_act, share > 0 and ("%s; %d percent of the cover lie farther off"):format(words, share) or words)
end

--- The longest line of sight of each trail, and how many more are too long.
local function sights(check)
    if check.stand.unmet.sight then return end
    local rows, order = {}, {}
    for _, line in ipairs(check.found.sights) do
        local trail = check.trails[line.trail]
        if trail.sight and line.length > trail.sight then
            if not rows[trail] then
                rows[trail] = { longest = line, count = 0 }
                order[#order + 1] = trail
            end
            rows[trail].count = rows[trail].count + 1
        end
    end
    for _, trail in ipairs(order) do
        local row = rows[trail]
        local words = ("one sees %s along the trail, and at most %s are asked: %s"):format(feet(row.longest.length),
            feet(trail.sight), place(check, row.longest))
        if row.count > 1 then words = ("%s; %s too long"):format(words, counted(row.count - 1, "more line of sight is", "more lines of sight are")) end
        find(trail.act, words)
    end
end

--- Stretches of one trail, or one opening, and one edge or keep-out, as one.
local function gathered(list)
    local groups, order = {}, {}
    for _, at in ipairs(list) do
        local key = ("%s %d"):format(at.opening and "opening " .. at.opening or "trail " .. at.trail, at.of)
        local group = groups[key]
        if not group then
            group = { first = at, length = 0, distance = at.distance, least = at.least, count = 0 }
            groups[key], order[#order + 1] = group, group
        end
        group.length, group.count = group.length + at.length, group.count + 1
        if at.distance < group.distance then group.distance, group.first = at.distance, at end
    end
    return order
end

local function shunned(check)
    for _, group in ipairs(gathered(check.found.near)) do
        local at = group.first
        local shun = check.shuns[at.of]
        local away = group.distance < 0.5 and "meets" or ("lies %s from"):format(feet(group.distance))
        if at.opening then
            local opening = check.openings[at.opening]
            find(opening.act, ("opening %d %s %s, and %s are to be kept"):format(opening.number, away, shun.name, feet(shun.opening)))
        else
            find(check.trails[at.trail].act, ("%s of trail %s within %s of %s, %s: %s"):format(feet(group.length),
                group.length < 1.5 and "lies" or "lie", feet(shun.trail), shun.name,
                group.distance < 0.5 and "and meet it" or "as near as " .. feet(group.distance), place(check, at)))
        end
    end
end

local function through(check)
    for _, group in ipairs(gathered(check.found.through)) do
        -- The way out may end at a buffer's very edge.
        if group.length >= 1 then
            find(check.trails[group.first.trail].act, ("%s of trail run through %s: %s"):format(feet(group.length),
                check.outs[group.first.of].name, place(check, group.first)))
        end
    end
end

--- A way in, or another trail that leads to no opening, in what the plan leaves alone.
function M.crossed(act, stand, length, name, x, y)
    find(act, ("%s of trail run through %s: %s"):format(feet(length), name, where.words(x, y, stand, {})))
end

--- Those of a stand's openings and trails.
function M.of(check)
    check.stand.unmet = check.stand.unmet or {}
    ways_out(check)
    dead_ends(check)
    reach(check)
    sights(check)
    shunned(check)
    through(check)
end

return M
