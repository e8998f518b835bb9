--- The openings and trails of a stand as they lie, mapped or laid out: ways out of every opening,
--- dead ends, the farthest cover, sight lines, what is shunned, how much is opened. One check for
--- both (routes.h has what is looked at).
local M = {}
local asks = need "layout/asks"
local edges = need "layout/edges"
local quantity = need "quantity"
local routes = need "routes"
local run = need "run"
local shapes = need "shapes"

--- A trail that was walked ends that near what it leads to, as a phone's receiver puts it; one
--- that was laid out is exact. Feet; common practice, no source.
local SNAP, SNAP_LAID_OUT = 10, 2
--- A trail that is laid out over cells keeps its distance by so much, in feet.
local ROUNDING = 0.05
local WET = { lake = true, wetland = true }

local function is_of(act, stand)
    return act.stand == stand and not act.copy_of and not act.fallback_of
end

--- The rings of a shape as openings, each with its holes.
local function one_by_one(shape)
    local rings, list = {}, {}
    local parts = shape:parts()
    for _, part in ipairs(parts) do
        if not part.hole then
            rings[#rings + 1] = { part }
            list[#list + 1] = shapes.make("area", { part }, shape:words())
        end
    end
    for _, part in ipairs(parts) do
        for i, whole in ipairs(part.hole and list or {}) do
            if whole:has(part[1], part[2]) then
                table.insert(rings[i], part)
                break
            end
        end
    end
    for i, ring in ipairs(rings) do
        if #ring > 1 then list[i] = shapes.make("area", ring, shape:words()) end
    end
    return list
end

local function is_way_out(trail)
    local purpose = trail.values.purpose
    return trail.values.joins ~= nil or purpose ~= "access" and purpose ~= "machine"
end

--- Openings, one by one, and trails of a stand that are on the map; whether a trail was walked;
--- and the first act that is a trail, on the map or not (one that found no ground). Ways for people
--- and machines are no ways out, unless they join openings.
local function gather(stand)
    local openings, trails, walked, first = {}, {}, false, nil
    for _, act in ipairs(run.acts) do
        if act.kind == "opening" and act.shape and is_of(act, stand) then
            for _, shape in ipairs(one_by_one(act.shape)) do
                openings[#openings + 1] = { act = act, shape = shape, number = #openings + 1 }
            end
        elseif act.kind == "trail" and is_of(act, stand) and is_way_out(act) then
            local width = act.line and need("vocabulary/trail").width_of(act)
            if act.line or not act.values.length then first = first or act end
            if width then
                trails[#trails + 1] = { act = act, line = act.line, width = quantity.number(width, "ft") }
                walked = walked or act.values.map ~= nil
            end
        end
    end
    return openings, trails, walked, first
end

local function joins(trail, act)
    for _, joined in ipairs(trail.act.values.joins or {}) do
        if joined == act then return true end
    end
    return false
end

--- How many ways out are asked of an opening.
local function ways_asked(opening, trails, first)
    local most = 0
    for _, trail in ipairs(#trails > 0 and trails or { { act = first } }) do
        local told = trail.act.values.ways_out
        if joins(trail, opening.act) then
            most = math.max(most, told or asks.WAYS_OUT)
        elseif told and not trail.act.values.joins then
            most = math.max(most, told)
        end
    end
    return most
end

--- The least that any trail asks of a distance, and which trail; nil when none does.
local function least_asked(trails, key)
    local least, of
    for _, trail in ipairs(trails) do
        local told = trail.act.values[key]
        local feet = told and need("ground").feet(told, trail.act.stand, trail.act.place, key)
        feet = feet and quantity.number(feet, "ft")
        trail[key] = feet
        if feet and (not least or feet < least) then least, of = feet, trail.act end
    end
    return least, of
end

--- Buffers, kept clumps and open water of a stand: { name, shape }.
function M.keep_outs(stand)
    local list = {}
    for _, act in ipairs(run.acts) do
        if act.stand == stand and act.ground_taken and act.shape and not act.copy_of then
            list[#list + 1] = { name = act.along and "the buffer along " .. act.along or act.cover_words or act.id,
                shape = act.shape }
        end
    end
    for _, feature in ipairs(run.features) do
        local wet = feature.shape and WET[feature.kind_of] and feature.shape:kind() == "area"
        if wet and stand.shape:apart(feature.shape) == 0 then
            list[#list + 1] = { name = feature.name, shape = feature.shape }
        end
    end
    return list
end

local function acts_of(openings, trails)
    local list, seen = {}, {}
    for _, rows in ipairs({ openings, trails }) do
        for _, row in ipairs(rows) do
            if not seen[row.act] then list[#list + 1] = row.act end
            seen[row.act] = true
        end
    end
    return list
end

--- The table that the check is asked with.
local function asked(check)
    local ask = { cover = check.cover, trails = check.trails, openings = {}, exits = {}, shuns = {}, keep_outs = {},
        snap = check.walked and SNAP or SNAP_LAID_OUT, reach = check.reach, reached = check.reached, sight = check.sight }
    for i, opening in ipairs(check.openings) do ask.openings[i] = opening.shape end
    for i, exit in ipairs(check.exits) do ask.exits[i] = { edge = exit.line, apart = exit.apart } end
    for i, shun in ipairs(check.shuns) do
        ask.shuns[i] = { edge = shun.shape, trail = math.max(0, shun.trail - ROUNDING),
            opening = math.max(0, shun.opening - ROUNDING) }
    end
    for i, out in ipairs(check.outs) do ask.keep_outs[i] = out.shape end
    return ask
end

--- The nearest edge that is shunned, of an opening.
local function nearest_shunned(opening, shuns)
    for _, shun in ipairs(shuns) do
        local feet = opening.shape:apart(shun.shape)
        if not opening.shunned_feet or feet < opening.shunned_feet then
            opening.shunned_feet, opening.shunned = feet, shun.name
        end
    end
end

--- What the plan leaves open is said with a trail that was walked; of one that is laid out it is
--- said already.
local function note_edges(trails, notes)
    for _, trail in ipairs(trails) do
        if trail.act.values.map then
            table.insert(trail.act.notes, notes.toward)
            table.insert(trail.act.notes, notes.shun)
            return
        end
    end
end

--- Looks at a stand; nil when there is nothing to look at, or a fault was told.
local function look(stand)
    local openings, trails, walked, first = gather(stand)
    if #openings == 0 or not first then return nil end
    local cover = need("layout/cover").of(stand)
    local at, notes = edges.of(stand, cover, acts_of(openings, trails))
    if not at or cover:is_empty() then return nil end
    local check = { stand = stand, cover = cover, openings = openings, trails = trails, walked = walked, trail_act = first,
        exits = at.exits, shuns = at.shuns, outs = M.keep_outs(stand) }
    note_edges(trails, notes)
    check.reach, check.reach_act = least_asked(trails, "reach")
    check.reached = check.reach_act and asks.reached(check.reach_act)
    check.sight = least_asked(trails, "sight")
    check.found = routes.check(asked(check))
    for i, opening in ipairs(openings) do
        opening.asked, opening.ways = ways_asked(opening, trails, first), check.found.openings[i].ways
        opening.held_by = check.found.openings[i].held_by
        nearest_shunned(opening, check.shuns)
    end
    return check
end

--- Checks every stand that has both; what each came to is in `stand.ways`. What fails becomes
--- findings.
function M.all()
    local host, findings = need "host", need "layout/findings"
    for _, stand in ipairs(run.stands) do
        if stand.shape then stand.ways = host.within("stand " .. stand.name, stand.place, look, stand) end
    end
    if host.fault_count() > 0 then return end
    findings.of_layouts()
    for _, stand in ipairs(run.stands) do
        if stand.ways then
            run.looked_at = true
            findings.of(stand.ways)
        end
    end
    need("layout/crossed").all()
end

return M
