--- The patches of a stand after the plan: ground that was cut, openings that are kept open,
--- ground that was left alone; each with its acres, what stands on it, and since when.
local M = {}
local acts = need "acts"
local data = need "regrowth"
local ground = need "ground"
local quantity = need "quantity"
local run = need "run"

--- Days of the year to the first of a month, near enough for a share of a season.
local BEFORE = { 0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334 }
local function day_of(month, day) return BEFORE[month] + day end

--- A date on the clock of growing seasons: the whole part is the year of the first season, the
--- rest the share of it that was gone.
local function clock_of(date)
    local from, to = data.season.from, data.season.to
    local first, last = day_of(from[1], from[2]), day_of(to[1], to[2])
    local day = day_of(date.month, date.day)
    if day <= first then return date.year end
    if day > last then return date.year + 1 end
    return date.year + (day - first) / (last - first + 1)
end

--- When an act is done, on that clock; nil while nobody knows.
local function clock(record)
    local from = record.was and record.was.from or record.start
    local to = record.was and record.was.to or record.finish or from
    if not from then return nil end
    return (clock_of(from) + clock_of(to)) / 2
end

local WAYS = { flush = true, ["high stump"] = true, brush = true }

--- Does the act fell, so that what it takes comes again from root and stump?
local function fells(record)
    return record.kind == "sale" or record.kind == "cut" and (WAYS[record.values.how] or false)
end

local function new_patch(list, kind, acres, record)
    local patch = { kind = kind, acres = acres, acts = { record }, clock = record and clock(record), name = record
        and record.id }
    list[#list + 1] = patch
    return patch
end

--- Cuts over all of the stand's ground are one patch; parts and entries are patches of their own.
local function add_cut(list, record, whole)
    local acres = acts.get(record, "acres") or ground.of(record)
    if not ground.is_whole(record) then
        new_patch(list, "cut", acres, record)
        return whole
    end
    if not whole then return new_patch(list, "cut", acres, record) end
    table.insert(whole.acts, record)
    local at = clock(record)
    -- What comes again does so after the last felling that counts: the one with more of it.
    if at and fells(record) and (not whole.clock or at > whole.clock) then whole.clock = at end
    return whole
end

--- The cut that an opening lies in, or nil.
local function around(list, opening)
    for _, before in ipairs(opening.values.after or {}) do
        for _, patch in ipairs(list) do
            for _, act in ipairs(patch.acts) do
                if patch.kind == "cut" and (act == before or act.copy_of == before) then return patch end
            end
        end
    end
    return nil
end

local function less(acres, taken)
    return math.max(acres - taken, quantity.leaf(0, "ac", "never less than no ground"))
end

--- The ground that a cut's patch has on the map; nil: it goes by numbers.
local function shape_of(patch, stand)
    local record = patch.acts[1]
    local values = record and record.values
    if patch.kind ~= "cut" or not stand.shape or values.patches or values.strips or values.area then return nil end
    if values.part or values.map or record.on then return record.by_shape and record.shape or nil end
    return need("map").cover(stand)
end

--- Takes an opening's ground from the cuts that it lies in: on the map what of it lies there, else
--- all of it from the cut that it comes after. Of a cut in entries each has its part of it.
-- @return the patch that it lies in, or nil
local function take_out(list, opening, area, stand)
    local after, most, inside = around(list, opening), 0, nil
    local whole = opening.shape and opening.shape:kind() == "area" and opening.shape:area() or 0
    local rounding = whole > 0 and need("map").ROUNDING or 0
    for _, patch in ipairs(list) do
        local ground_of = whole > 0 and shape_of(patch, stand)
        local share = patch == after and not ground_of and 1 or 0
        if ground_of then
            share = opening.shape:intersection(ground_of):area() / whole * acts.fraction(patch.acts[1])
        end
        if share >= 1 - rounding then
            patch.acres = less(patch.acres, area)
        elseif share > rounding then
            patch.acres = less(patch.acres, area * quantity.leaf(share * 100, "percent", "what of it lies in "
                .. patch.name))
        end
        if share > most + rounding then most, inside = share, patch end
    end
    return inside
end

--- Years after its clearing in which an opening is mowed.
local function upkeep(opening)
    local years = {}
    for _, act in ipairs(run.acts) do
        local on = act.on and (act.on == opening or act.on == opening.copy_of)
        if on and acts.counts(act) and (act.kind == "mow" or act.kind == "mulch" or act.kind == "burn") then
            years[#years + 1] = act.year or 1
        end
    end
    table.sort(years)
    return years
end

--- What is left of the stand's ground.
local function add_rest(list, stand)
    local terms = {}
    for i, patch in ipairs(list) do terms[i] = patch.acres end
    local rest = #terms == 0 and stand.area or less(stand.area, quantity.sum(terms))
    if quantity.number(rest, "ac") > 0.005 then new_patch(list, "kept", rest, nil) end
end

--- Entries of one act, cut as early in their season, grow alike: each is `like` the first.
local function pair_entries(list)
    for i, patch in ipairs(list) do
        local first = #patch.acts == 1 and patch.acts[1] and patch.acts[1].copy_of
        for k = 1, first and i - 1 or 0 do
            local other = list[k]
            if #other.acts == 1 and other.acts[1] == first and patch.clock and other.clock
                and patch.clock % 1 == other.clock % 1 then
                patch.like = other
            end
        end
    end
end

--- The patches of a stand, in the order of the plan, what is left alone last.
function M.of(stand)
    if stand.patches then return stand.patches end
    local list, whole = {}, nil
    for _, act in ipairs(run.acts) do
        local there = act.stand == stand and acts.counts(act)
        if there and (act.kind == "cut" or act.kind == "sale") and (act.taken or act.values.how == "brush") then
            whole = add_cut(list, act, whole)
        end
    end
    for _, act in ipairs(run.acts) do
        if act.stand == stand and act.kind == "opening" and acts.get(act, "area") and acts.counts(act) then
            local area = acts.get(act, "area")
            local inside = take_out(list, act, area, stand)
            local patch = new_patch(list, "opening", area, act)
            patch.inside, patch.mowed = inside, upkeep(act)
        end
    end
    add_rest(list, stand)
    for _, patch in ipairs(list) do patch.fells = patch.kind == "cut" and M.felled(patch) or nil end
    pair_entries(list)
    stand.patches = list
    return list
end

--- The acts of a patch that fell.
function M.felled(patch)
    local out = {}
    for _, act in ipairs(patch.acts) do
        if fells(act) then out[#out + 1] = act end
    end
    return out
end

--- The first growing season after any cut of the stand, on the calendar; nil where none is cut.
function M.first_season(stand)
    if stand.first_season == nil then
        local first
        for _, patch in ipairs(M.of(stand)) do
            if patch.clock and (not first or patch.clock < first) then first = patch.clock end
        end
        stand.first_season = first and math.floor(first) or false
    end
    return stand.first_season or nil
end

--- The first growing season after any of these acts that fells, clears or plants; nil where
--- none does.
local GROWS_AFTER = { cut = true, sale = true, plant = true, seed = true }
function M.first_season_of(list)
    local first
    for _, act in ipairs(list) do
        local at = GROWS_AFTER[act.kind] and acts.counts(act) and clock(act)
        if at and (not first or at < first) then first = at end
    end
    return first and math.floor(first)
end

--- Growing seasons of a patch at the end of the stand's season `year`: 1 is its first, less
--- than 1 when it is not cut yet; nil where it never is.
function M.seasons(stand, patch, year)
    local first = M.first_season(stand)
    if not patch.clock or not first then return nil end
    return first + year - math.floor(patch.clock)
end

--- The share of its first season that a patch has left, and whether leaves were out.
function M.season_left(patch)
    local gone = patch.clock and patch.clock - math.floor(patch.clock) or 0
    return 1 - gone, gone > 0
end

return M
