--- What of the plan is marked on the ground: centers of openings, ends and bends of trails and
--- of the inner edges of buffers, corners of kept clumps; as flags in a walking order.
--     local walk = need "stake".walk()     -- nil when nothing of the plan has a place
--     walk[1].name, walk[1].distance       -- "Bench aspen opening 1", feet from the start
-- The arithmetic is in src/ground/flags.h and stakeout.h.
local M = {}
local run = need "run"

local layouts, flags_known, walk_known -- made once

--- Whoever walks straight from flag to flag stays this near to the trail or the edge, ft; the wider
--- ones only while there are more flags than can be put in order. Common practice, no source.
local WITHIN_FT = { 5, 10, 20, 40 }
--- Flags nearer to one another than this are one flag, ft: common practice, no source.
M.ONE_FLAG_FT = 3
--- An edge on the rim of its stand needs no flags; this far off it lies inside, ft.
local OFF_RIM_FT = 0.5
--- Shorter pieces of a buffer's edge are slivers of two maps that do not quite agree, ft.
local LEAST_EDGE_FT = 10

--- Is the act still to be done, and not only in place of another?
local function is_planned(act)
    return not act.copy_of and act.state ~= "done" and act.state ~= "not needed"
end

-- Edges of buffers ------------------------------------------------------------------------------

--- Which sides of a ring lie inside the stand, and how many.
local function inner_sides(ring, stand)
    local count, inner, total = #ring // 2, {}, 0
    for i = 1, count do
        local k = i % count + 1
        local x, y = (ring[2 * i - 1] + ring[2 * k - 1]) / 2, (ring[2 * i] + ring[2 * k]) / 2
        inner[i] = stand:rim_distance(x, y) > OFF_RIM_FT
        if inner[i] then total = total + 1 end
    end
    return inner, total
end

local function length_of(line)
    local ft = 0
    for i = 3, #line, 2 do
        local dx, dy = line[i] - line[i - 2], line[i + 1] - line[i - 1]
        ft = ft + (dx * dx + dy * dy) ^ 0.5
    end
    return ft
end

--- The runs of inner sides, as lines; the ring itself when all of it lies inside.
local function inner_lines(ring, stand, into)
    local inner, total = inner_sides(ring, stand)
    local count, first, line = #inner, 1, nil
    if total == count then
        line = table.move(ring, 1, #ring, 1, {})
        line[#line + 1], line[#line + 2] = ring[1], ring[2]
        into[#into + 1] = line
        return
    end
    while inner[first] do first = first + 1 end -- a run is not begun in its middle
    for step = 1, count do
        local i = (first + step - 1) % count + 1
        local k = i % count + 1
        if inner[i] then
            line = line or { ring[2 * i - 1], ring[2 * i] }
            line[#line + 1], line[#line + 2] = ring[2 * k - 1], ring[2 * k]
        end
        if line and (not inner[i] or step == count) then
            if length_of(line) >= LEAST_EDGE_FT then into[#into + 1] = line end
            line = nil
        end
    end
end

--- The edge of a strip within its stand, as lines; nil when there is none.
function M.inner_edge(strip, stand, words)
    local lines = {}
    for _, ring in ipairs(strip:parts()) do inner_lines(ring, stand, lines) end
    return #lines > 0 and need("shapes").make("line", lines, words) or nil
end

-- Layouts ---------------------------------------------------------------------------------------

--- How each kind of act is flagged: adds what it adds to the list.
local FLAGGED = {}

function FLAGGED.opening(act, add)
    for _, one in ipairs(act.shape and need("stakeout").singles(act.shape) or {}) do
        add { kind = "opening", word = "opening", shape = one, flag = one }
    end
end

function FLAGGED.trail(act, add)
    if act.line then add { kind = "trail", word = "trail", shape = act.line, flag = act.line, bends = true } end
end

function FLAGGED.buffer(act, add)
    local edge = act.shape and act.stand and act.stand.shape and M.inner_edge(act.shape, act.stand.shape, act.shape:words())
    if edge then add { kind = "buffer", word = "buffer", shape = act.shape, flag = edge, bends = true } end
end

function FLAGGED.keep(act, add)
    if act.shape then
        add { kind = "corner", word = "kept clump", shape = act.shape, flag = act.shape, bends = true }
    end
end

--- What the plan lays out on the ground, in its order: { kind, name, act, shape, flag (the shape that
--- is flagged), bends (flagged too, not the center alone) }. Numbered stand by stand.
function M.layouts()
    if layouts then return layouts end
    local list, counts = {}, {}
    for _, act in ipairs(run.acts) do
        local flag = is_planned(act) and FLAGGED[act.kind]
        local function add(layout)
            local where = act.stand and act.stand.name .. " " or ""
            local key = where .. layout.word
            counts[key] = (counts[key] or 0) + 1
            layout.act, layout.name = act, ("%s %d"):format(key, counts[key])
            list[#list + 1] = layout
        end
        if flag then flag(act, add) end
    end
    layouts = list
    return list
end

-- Flags -----------------------------------------------------------------------------------------

local function cell(x, y) return ("%d %d"):format(x // M.ONE_FLAG_FT, y // M.ONE_FLAG_FT) end

--- The flag of the list that stands where this one would.
local function same_place(cells, flag)
    for dx = -1, 1 do
        for dy = -1, 1 do
            local near = cells[cell(flag.x + dx * M.ONE_FLAG_FT, flag.y + dy * M.ONE_FLAG_FT)]
            for _, other in ipairs(near or {}) do
                local x, y = other.x - flag.x, other.y - flag.y
                if x * x + y * y < M.ONE_FLAG_FT ^ 2 then return other end
            end
        end
    end
    return nil
end

--- One flag for all that meet in a place: `also` lists the others.
local function joined(flags)
    local list, cells = {}, {}
    for _, flag in ipairs(flags) do
        local other = same_place(cells, flag)
        if other then
            table.insert(other.also, flag.name)
        else
            flag.also = {}
            list[#list + 1] = flag
            local key = cell(flag.x, flag.y)
            cells[key] = cells[key] or {}
            table.insert(cells[key], flag)
        end
    end
    return list
end

--- The flags of the plan: { name, kind, x, y (ft in the property's frame), run (those of one line, walked
--- one after the other), also }, and how near the way between them stays to what is flagged, ft.
function M.flags()
    if flags_known then return flags_known, flags_known.within end
    flags_known = {}
    for _, within in ipairs(#M.layouts() > 0 and WITHIN_FT or {}) do
        local items = {}
        for i, layout in ipairs(M.layouts()) do
            items[i] = { kind = layout.kind, name = layout.name, shape = layout.flag,
                within = layout.bends and within or nil }
        end
        flags_known = joined(need("stakeout").flags(items))
        flags_known.within = within
        if #flags_known <= need("stakeout").most then break end
    end
    return flags_known, flags_known.within
end

--- The gate that lies nearest to a flag, and where; nil when there is none on the map.
local function gate_of(flags)
    local best, name, at
    for _, feature in ipairs(run.features) do
        if feature.kind_of == "gate" and feature.shape then
            for _, flag in ipairs(flags) do
                local ft, x, y = feature.shape:distance(flag.x, flag.y)
                if not best or ft < best then best, name, at = ft, feature.name, { x = x, y = y } end
            end
        end
    end
    return at, name
end

local function plain(quantity, unit) return quantity and need("quantity").number(quantity, unit) or nil end

--- The flags in walking order, each with the way to it: { name, kind, also, x, y, longitude, latitude,
--- azimuth, magnetic, distance, paces }, degrees and feet; what is not known is nil. With them `length`
--- (ft), `within` (ft), `start` (name of the gate), `declination` (degrees) and `pace` (ft). Nil without flags.
function M.walk()
    if walk_known then return walk_known end
    local flags = M.flags()
    if #flags == 0 then return nil end
    local values = run.property.values
    local declination, pace = plain(values.declination, "deg"), plain(values.pace, "ft")
    local at, start = gate_of(flags)
    local order = need("host").placed(run.property.place, nil, need("stakeout").order, flags,
        { start = at, declination = declination, pace = pace })
    if not order then return nil end
    local frame = need("map_files").frame()
    local walk = { length = order.length, within = flags.within, start = start, declination = declination, pace = pace }
    for i, stake in ipairs(order) do
        local flag = flags[stake.flag]
        local longitude, latitude = frame:place(flag.x, flag.y)
        walk[i] = { name = flag.name, kind = flag.kind, also = flag.also, x = flag.x, y = flag.y, longitude = longitude,
            latitude = latitude, azimuth = stake.azimuth, magnetic = declination and stake.magnetic,
            distance = stake.distance, paces = stake.paces }
    end
    walk_known = walk
    return walk
end

return M
