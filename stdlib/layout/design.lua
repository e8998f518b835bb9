--- Openings and trails without a map, on a stand that has one, are laid out: where each opening
--- lies and where the trails run (layout.h has the method). An opening and the only trail that
--- joins it are one design; several openings in a stand are placed one after the other, each off
--- those before, and the trails join them where they are.
---
--- Records get `shape` and `line` as from a map, whose words tell the scores of the candidates.
local M = {}
local covers = need "layout/cover"
local edges = need "layout/edges"
local ground = need "ground"
local host = need "host"
local layout = need "layout"
local map = need "map"
local quantity = need "quantity"
local run = need "run"
local shapes = need "shapes"

--- Ways out of an opening when none are told: with one, what lies in it can be shut in. Common
--- practice, no source.
M.WAYS_OUT = 2
--- Openings and trails keep so far off a kept tree, in feet: common practice, no source.
local OFF_TREE = 10
--- Openings that no trail leads to lie so near what `toward` names: common practice, no source.
local NEAR = 200
local SEED = 1

-- What is to be laid out ----------------------------------------------------------------------

local function is_first(record) return not record.copy_of and not record.afloat end

--- Is it an opening that is to be placed?
local function is_open(record)
    return record.kind == "opening" and is_first(record) and not record.values.map and not record.shape
        and (record.values.width or record.values.area)
end

--- What a trail joins, each once.
local function joined(record)
    local list, seen = {}, {}
    for _, act in ipairs(record.values.joins or {}) do
        if not seen[act] then list[#list + 1] = act end
        seen[act] = true
    end
    return list
end

--- Is it a trail that is to be laid out? Why not is said on paper.
local function is_wanted(record)
    if record.kind ~= "trail" or not is_first(record) or record.values.map or record.values.length then return false end
    if record.values.purpose == "access" then return false end
    local list = joined(record)
    for _, act in ipairs(list) do
        if act.stand ~= record.stand then return false end
    end
    return #list > 0
end

-- Numbers -------------------------------------------------------------------------------------

--- The likely value of a key in feet, nil when it is not said, false when a fault was told.
local function feet_of(record, key)
    local told = record and record.values[key]
    if not told then return nil end
    local feet = ground.feet(told, record.stand, record.place, key)
    return feet and quantity.number(feet, "ft") or false
end

--- What an uncertain figure is of its likely value; nil when it is certain.
local function doubt_of(value, unit)
    if not value then return nil end
    local low, high = quantity.ends(value, unit)
    if low == high then return nil end
    return value / quantity.leaf(quantity.number(value, unit), unit, "its likely value, for which it is laid out")
end

--- How far the area of openings may be off what is laid out.
local function doubt_of_opening(record)
    local values = record.values
    if values.area then return doubt_of(quantity.say(values.area, "ac"), "ac") end
    local doubt = doubt_of(ground.feet(values.width, record.stand, record.place, "width"), "ft")
    local long = values.length and doubt_of(ground.feet(values.length, record.stand, record.place, "length"), "ft")
    if not values.length then long = doubt end
    if doubt and long then return doubt * long end
    return doubt or long
end

--- Width and area of one opening, in feet; nil when a fault was told.
local function size_of(record)
    local values = record.values
    local width, length = feet_of(record, "width"), feet_of(record, "length")
    if width == false or length == false then return nil end
    local area = values.area and quantity.number(values.area, "ac") * map.FT2_PER_AC
    if area then return width or math.sqrt(area * 4 / math.pi), area end
    if not length then return width, 0 end
    return math.min(width, length), math.pi / 4 * width * length
end

--- The ground that openings are to lie in.
local function ground_of(record)
    local part = record.values.part
    local cover = covers.of(record.stand)
    if not part or not part.shaped then return cover end
    local shape = need("parts").shape(record.stand, part, record.place)
    return shape and covers.tidy(shape:intersection(cover, shape:words()))
end

--- How many openings: a number, or the least distance between their centres.
local function count_of(record, cover, area, width)
    local values = record.values
    local acres = cover:area() / map.FT2_PER_AC
    local part = values.part
    if part and not part.shaped then acres = acres * quantity.number(part.share, "percent") / 100 end
    if values.spacing then return nil, feet_of(record, "spacing") end
    if values.share then
        local one = area > 0 and area or math.pi / 4 * width * width
        return math.max(1, math.ceil(quantity.number(values.share, "percent") / 100 * acres * map.FT2_PER_AC / one - 1e-9))
    end
    if values.per_acre then return math.max(1, math.floor(values.per_acre * acres + 0.5)) end
    return values.count or 1
end

-- What lies in the way ------------------------------------------------------------------------

local function is_other(act, record, with)
    return act.stand == record.stand and is_first(act) and act ~= record and act ~= with
        and act.fallback_of ~= record and record.fallback_of ~= act
end

--- Kept trees of the stand.
local function trees_of(stand)
    local list = {}
    for _, act in ipairs(run.acts) do
        if act.kind == "keep" and act.stand == stand and is_first(act) and act.trees then
            for _, part in ipairs(act.trees:parts()) do
                for i = 1, #part, 2 do list[#list + 1] = { x = part[i], y = part[i + 1], radius = OFF_TREE } end
            end
        end
    end
    return list
end

--- Openings and trails that are there already, but for what a trail joins.
-- @param gap feet that an opening keeps off another; nil for a trail alone
local function in_the_way(ask, record, with, gap)
    local joins = {}
    for _, act in ipairs(record.kind == "trail" and joined(record) or {}) do joins[act] = true end
    for _, act in ipairs(run.acts) do
        if is_other(act, record, with) and not joins[act] then
            if act.kind == "opening" and act.shape then
                ask.keep_outs[#ask.keep_outs + 1] = act.shape
                if gap then ask.shuns[#ask.shuns + 1] = { line = act.shape, least = gap } end
            elseif act.kind == "trail" and act.line and gap then
                ask.shuns[#ask.shuns + 1] = { line = act.line, least = quantity.number(need("vocabulary/trail").width_of(act), "ft") / 2 }
            end
        end
    end
end

-- Words ---------------------------------------------------------------------------------------

--- "2,140"
function M.whole(number)
    local text = ("%d"):format(math.floor(number + 0.5))
    local from
    repeat text, from = text:gsub("^(%-?%d+)(%d%d%d)", "%1,%2") until from == 0
    return text
end

local function score_words(score)
    local parts = { ("%d opening%s"):format(score.openings, score.openings == 1 and "" or "s") }
    if score.trails > 0 then parts[2] = M.whole(score.length) .. " ft of trail" end
    parts[#parts + 1] = ("evenness %.2f"):format(score.evenness)
    if score.trails > 0 then parts[#parts + 1] = "cost " .. M.whole(score.cost) end
    if score.failed > 0 then
        parts[#parts + 1] = ("%d ask%s not met"):format(score.failed, score.failed == 1 and "" or "s")
    end
    return table.concat(parts, ", ")
end

--- Where the figures come from: the ground, and the scores of all candidates.
local function words_of(out, seed, cover)
    local list = {}
    for i, score in ipairs(out.scores) do
        list[i] = ("%d%s: %s"):format(i, i == out.best and " (kept)" or "", score_words(score))
    end
    return ("layout in %s; candidates of seed %d: %s"):format(cover:words(), seed, table.concat(list, "; "))
end

local function again(shape, words) return shapes.make(shape:kind(), shape:parts(), words) end

-- Designs -------------------------------------------------------------------------------------

--- Does it, and keeps what cannot be met for the findings.
-- @param record whose place faults are told at
-- @param openings the acts whose openings it has, in their order
local function design(record, ask, seed, openings)
    ask.trees, ask.seed = trees_of(record.stand), seed
    local out = host.placed(record.place, nil, layout.design, ask)
    if not out then return nil end
    run.layouts[#run.layouts + 1] = { act = record, stand = record.stand, seed = seed, out = out, openings = openings, shuns = ask.shuns }
    return out, words_of(out, seed, ask.cover)
end

local function add_edges(ask, at)
    for _, exit in ipairs(at.exits) do ask.exits[#ask.exits + 1] = { line = exit.line, apart = exit.apart } end
    for _, shun in ipairs(at.shuns) do
        ask.shuns[#ask.shuns + 1] = { line = shun.shape, least = math.max(shun.opening, shun.trail) }
    end
end

local function add_notes(record, notes)
    table.insert(record.notes, notes.toward)
    table.insert(record.notes, notes.shun)
end

--- What a trail asks; nil when a fault was told.
local function trail_asks(ask, trail)
    local width = need("vocabulary/trail").width_of(trail)
    local reach, sight = feet_of(trail, "reach"), feet_of(trail, "sight")
    if not width or reach == false or sight == false then return nil end
    ask.trail_width, ask.reach, ask.sight = quantity.number(width, "ft"), reach, sight
    ask.ways_out = trail.values.ways_out or M.WAYS_OUT
    if not trail.values.ways_out then
        table.insert(trail.notes, ("%d ways out of each opening, since `ways_out` is not told."):format(M.WAYS_OUT))
    end
    -- A trail that joins openings needs a way between them: what asks for no way out asks for one.
    ask.ways_out = math.max(1, ask.ways_out)
    return width
end

local function opening_asks(ask, opening)
    local width, area = size_of(opening)
    local gap = feet_of(opening, "gap")
    if not width or gap == false then return nil end
    ask.width, ask.area, ask.gap = width, area, gap
    ask.count, ask.spacing = count_of(opening, ask.cover, area, width)
    ask.candidates = opening.values.candidates
    return gap or width / 2
end

local function has_openings(opening, out, words)
    if out.openings:is_empty() then return end -- told as a finding
    opening.shape, opening.doubt = again(out.openings, words), doubt_of_opening(opening)
end

local function has_trails(trail, out, words, width)
    if out.trails:is_empty() then return end
    trail.line, trail.doubt = again(out.trails, words), doubt_of(width, "ft")
    trail.shape = trail.line:buffer(quantity.number(width, "ft") / 2, "flat", ("%s wide, along the trails of the %s"):format(
        quantity.short(width), words))
end

local function begin(record)
    local cover = ground_of(record)
    if not cover or cover:is_empty() then return nil end
    return { cover = cover, keep_outs = {}, exits = {}, shuns = {} }
end

--- Openings alone. Without a trail, `toward` is what they lie near.
local function place_openings(opening, with_trail)
    local ask = begin(opening)
    local at, notes = edges.of(opening.stand, covers.of(opening.stand), { opening, with_trail })
    if not ask or not at then return end
    local near = not with_trail and edges.near(opening)
    if near and #near > 0 then
        local strips = {}
        for i, one in ipairs(near) do strips[i] = map.strip(one.shape, ask.cover:apart(one.shape) + NEAR) end
        ask.cover = ask.cover:intersection(map.union(strips), ("%s, within %d ft of %s"):format(ask.cover:words(), NEAR,
            need("vocabulary/opening").edge_words(opening.values.toward)))
    end
    for _, shun in ipairs(at.shuns) do ask.shuns[#ask.shuns + 1] = { line = shun.shape, least = shun.opening } end
    local gap = opening_asks(ask, opening)
    if not gap then return end
    in_the_way(ask, opening, nil, gap)
    if not with_trail then table.insert(opening.notes, notes.shun) end
    local out, words = design(opening, ask, opening.values.seed or with_trail and with_trail.values.seed or SEED, { opening })
    if out then has_openings(opening, out, words) end
end

--- An opening and the trail that joins it, at once.
local function lay_out_both(opening, trail)
    local ask = begin(opening)
    local at, notes = edges.of(opening.stand, covers.of(opening.stand), { opening, trail })
    if not ask or not at then return end
    local gap, width = opening_asks(ask, opening), trail_asks(ask, trail)
    if not gap or not width then return end
    add_edges(ask, at)
    in_the_way(ask, opening, trail, gap)
    add_notes(trail, notes)
    local out, words = design(trail, ask, opening.values.seed or trail.values.seed or SEED, { opening })
    if not out then return end
    has_openings(opening, out, words)
    has_trails(trail, out, words, width)
end

--- Trails to openings that are there.
local function lay_out_trails(trail)
    local parts, records = {}, { trail }
    for _, act in ipairs(joined(trail)) do
        if not act.shape then return end -- told with the opening
        for _, part in ipairs(act.shape:parts()) do parts[#parts + 1] = part end
        records[#records + 1] = act
    end
    local ask = begin(trail)
    local at, notes = edges.of(trail.stand, covers.of(trail.stand), records)
    local width = ask and at and trail_asks(ask, trail)
    if not width then return end
    ask.openings = shapes.make("area", parts, "the openings it joins")
    add_edges(ask, at)
    in_the_way(ask, trail)
    add_notes(trail, notes)
    local out, words = design(trail, ask, trail.values.seed or SEED, joined(trail))
    if out then has_trails(trail, out, words, width) end
end

-- A stand -------------------------------------------------------------------------------------

--- Openings and trails of a stand that are to be laid out, and whether there are others.
local function sort_out(stand)
    local openings, trails, others = {}, {}, 0
    for _, act in ipairs(run.acts) do
        if act.stand == stand and is_open(act) then
            openings[#openings + 1] = act
        elseif act.stand == stand and is_wanted(act) then
            trails[#trails + 1] = act
        elseif act.stand == stand and is_first(act) and (act.kind == "opening" and act.shape or act.kind == "trail" and act.line) then
            others = others + 1
        end
    end
    return openings, trails, others
end

local function trail_of(opening, trails)
    for _, trail in ipairs(trails) do
        for _, act in ipairs(joined(trail)) do
            if act == opening then return trail end
        end
    end
    return nil
end

local function lay_out(stand)
    local openings, trails, others = sort_out(stand)
    if #openings == 1 and #trails == 1 and others == 0 and trail_of(openings[1], trails) and #joined(trails[1]) == 1 then
        host.within(trails[1].id, trails[1].place, lay_out_both, openings[1], trails[1])
        return
    end
    for _, opening in ipairs(openings) do
        host.within(opening.id, opening.place, place_openings, opening, trail_of(opening, trails))
    end
    for _, trail in ipairs(trails) do host.within(trail.id, trail.place, lay_out_trails, trail) end
end

--- Lays out all that has no map on a stand that has one.
function M.all()
    for _, act in ipairs(run.acts) do
        if (act.kind == "opening" or act.kind == "trail") and act.stand and act.stand.shape and is_first(act) then edges.find(act) end
    end
    for _, stand in ipairs(run.stands) do
        if stand.shape then lay_out(stand) end
    end
    for _, act in ipairs(run.acts) do
        local first = act.copy_of
        if first and (act.kind == "opening" or act.kind == "trail") then
            act.shape, act.line, act.doubt = first.shape, first.line, first.doubt
        end
    end
end

return M
