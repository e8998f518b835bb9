--- Openings and trails without a map, on a stand that has one, are laid out: where each opening
--- lies and where the trails run (layout.h has the method). An opening and the only trail that
--- joins it are one design; several openings in a stand are placed one after the other, each off
--- those before, and the trails join them where they are.
---
--- Records get `shape` and `line` as from a map, and `why_laid_out`: the scores of the candidates.
local M = {}
local asks = need "layout/asks"
local covers = need "layout/cover"
local edges = need "layout/edges"
local host = need "host"
local layout = need "layout"
local map = need "map"
local named = need "layout/named"
local quantity = need "quantity"
local run = need "run"
local shapes = need "shapes"

--- Openings and trails keep so far off a kept tree, in feet: common practice, no source.
local OFF_TREE = 10
--- Openings that no trail leads to begin so near what `toward` names: common practice, no source.
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
                if gap then ask.shuns[#ask.shuns + 1] = { line = act.shape, least = gap, of_plan = true } end
            elseif act.kind == "trail" and act.line and gap then
                local width = need("vocabulary/trail").width_of(act)
                ask.shuns[#ask.shuns + 1] = { line = act.line, least = quantity.number(width, "ft") / 2,
                    of_plan = true }
            end
        end
    end
end

-- Designs -------------------------------------------------------------------------------------

local function again(shape, words) return shapes.make(shape:kind(), shape:parts(), words) end

--- Does it, and keeps what cannot be met for the findings.
-- @param record whose place faults are told at
-- @param openings the acts whose openings it has, in their order
-- @param near what they are to lie near, in words; nil: anywhere
local function design(record, ask, seed, openings, near)
    ask.trees, ask.seed = trees_of(record.stand), seed
    local out = host.placed(record.place, nil, layout.design, ask)
    if not out then return nil end
    run.layouts[#run.layouts + 1] = { act = record, stand = record.stand, seed = seed, out = out, openings = openings,
        shuns = ask.shuns, near = near }
    return out, asks.words_of(out, seed, ask.cover)
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

--- The scores are told with what is laid out, `why_laid_out`, and not wherever its shape counts.
local function has_openings(opening, out, words, scores)
    if out.openings:is_empty() then
        table.insert(opening.notes, "There is room for none: the figures are those asked for.")
        return
    end
    opening.why_laid_out = scores
    opening.shape, opening.doubt = again(out.openings, words), asks.doubt_of_opening(opening)
end

local function has_trails(trail, out, words, scores, width)
    if out.trails:is_empty() then return end
    trail.why_laid_out = scores
    trail.line, trail.doubt = again(out.trails, words), asks.doubt_of(width, "ft")
    trail.shape = trail.line:buffer(quantity.number(width, "ft") / 2, "flat",
        ("%s wide, along the trails of the %s"):format(quantity.short(width), words))
end

local function begin(record)
    local cover = asks.ground_of(record)
    if not cover or cover:is_empty() then return nil end
    return { cover = cover, keep_outs = {}, exits = {}, shuns = {} }
end

--- Openings alone. Without a trail, `toward` is what they lie near.
local function place_openings(opening, with_trail)
    local ask = begin(opening)
    local at, notes = edges.of(opening.stand, covers.of(opening.stand), { opening, with_trail })
    if not ask or not at then return end
    local near, names = not with_trail and named.of(opening, "toward"), nil
    if near and #near > 0 then
        local strips = {}
        local far = NEAR + asks.width_of(opening)
        for i, one in ipairs(near) do strips[i] = map.strip(one.shape, ask.cover:apart(one.shape) + far) end
        names = need("vocabulary/opening").edge_words(opening.values.toward)
        ask.cover = covers.tidy(ask.cover:intersection(map.union(strips),
            ("%s, near %s"):format(ask.cover:words(), names)))
    end
    for _, shun in ipairs(at.shuns) do ask.shuns[#ask.shuns + 1] = { line = shun.shape, least = shun.opening } end
    local gap = asks.opening(ask, opening)
    if not gap then return end
    in_the_way(ask, opening, nil, gap)
    if not with_trail then table.insert(opening.notes, notes.shun) end
    local seed = opening.values.seed or with_trail and with_trail.values.seed or SEED
    local out, words, scores = design(opening, ask, seed, { opening }, names)
    if out then has_openings(opening, out, words, scores) end
end

--- An opening and the trail that joins it, at once.
local function lay_out_both(opening, trail)
    local ask = begin(opening)
    local at, notes = edges.of(opening.stand, covers.of(opening.stand), { opening, trail })
    if not ask or not at then return end
    local gap, width = asks.opening(ask, opening), asks.trail(ask, trail)
    if not gap or not width then return end
    add_edges(ask, at)
    in_the_way(ask, opening, trail, gap)
    add_notes(trail, notes)
    local out, words, scores = design(trail, ask, opening.values.seed or trail.values.seed or SEED, { opening })
    if not out then return end
    has_openings(opening, out, words, scores)
    has_trails(trail, out, words, scores, width)
end

--- Trails to openings that are there.
local function lay_out_trails(trail)
    local parts, records = {}, { trail }
    for _, act in ipairs(joined(trail)) do
        -- One that found no ground is told of with its opening.
        for _, part in ipairs(act.shape and act.shape:parts() or {}) do parts[#parts + 1] = part end
        if act.shape then records[#records + 1] = act end
    end
    if #parts == 0 then return end
    local ask = begin(trail)
    local at, notes = edges.of(trail.stand, covers.of(trail.stand), records)
    local width = ask and at and asks.trail(ask, trail)
    if not width then return end
    ask.openings = shapes.make("area", parts, "the openings it joins")
    add_edges(ask, at)
    in_the_way(ask, trail)
    add_notes(trail, notes)
    local out, words, scores = design(trail, ask, trail.values.seed or SEED, { table.unpack(records, 2) })
    if out then has_trails(trail, out, words, scores, width) end
end

-- A stand -------------------------------------------------------------------------------------

--- Openings and trails of a stand that are to be laid out, and how many there are already.
local function sort_out(stand)
    local openings, trails, others = {}, {}, 0
    for _, act in ipairs(run.acts) do
        local there = act.kind == "opening" and act.shape or act.kind == "trail" and act.line
        if act.stand ~= stand or not is_first(act) then
            goto next
        elseif is_open(act) then
            openings[#openings + 1] = act
        elseif is_wanted(act) then
            trails[#trails + 1] = act
        elseif there then
            others = others + 1
        end
        ::next::
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
    local one_each = #openings == 1 and #trails == 1 and others == 0
    if one_each and trail_of(openings[1], trails) and #joined(trails[1]) == 1 then
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
        local wanted = (act.kind == "opening" or act.kind == "trail") and is_first(act)
        if wanted and act.stand and act.stand.shape then named.find(act) end
    end
    for _, stand in ipairs(run.stands) do
        if stand.shape then lay_out(stand) end
    end
    for _, act in ipairs(run.acts) do
        local first = act.copy_of
        if first and (act.kind == "opening" or act.kind == "trail") then
            act.shape, act.line, act.doubt = first.shape, first.line, first.doubt
            act.why_laid_out = first.why_laid_out
        end
    end
end

return M
