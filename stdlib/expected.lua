--- What will stand in a stand: now, after its cuts, and at the end of each growing season
--- since the first of them. Patches of different treatment are weighted by their acres; of
--- several entries each counts from its own cut.
local M = {}
local acts = need "acts"
local figures = need "expected_figures"
local forest = need "forest"
local growth = need "patch_growth"
local host = need "host"
local patches = need "patches"
local quantity = need "quantity"
local regrows = need "young_layers"
local run = need "run"
local wildlife = need "wildlife"
local young = need "young_growth"

--- What is told, in the order of a table: key, unit, words.
M.columns = {
    { "basal_area", "ft2/ac", "basal area of trees and young stems" },
    { "trees", "trees/ac", "trees standing" },
    { "stems", "stems/ac", "young stems: suckers, sprouts, shrubs" },
    { "height", "ft", "height of the highest young growth" },
    { "mean_height", "ft", "mean height of young growth" },
    { "light", "percent", "light on the ground under the trees" },
    { "hides_lying", "percent", "of a lying deer (0 to 3 ft) hidden at 50 ft, without leaves" },
    { "hides_standing", "percent", "of a standing deer (0 to 6 ft) hidden at 50 ft, without leaves" },
    { "browse", "lb/ac", "fresh winter browse within reach, no snow" },
    { "deer_days", "d/ac", "deer-days in it" },
    { "mast", "lb/ac", "nuts in a mean year" },
}
local unit_of = {}
for _, row in ipairs(M.columns) do unit_of[row[1]] = row[2] end

--- The growing seasons that a table shows.
M.years = { 1, 2, 5, 10 }

local KEPT = { kind = "kept" }

--- As it stands uncut, so many seasons from now; nil: as walked.
local function uncut_at(stand, year, how)
    return { stand = stand, patch = KEPT, how = how, said = {}, trees = growth.trees(stand, KEPT, year or 0, how),
        layers = { growth.standing_brush(stand) }, grows = {} }
end

--- What grows on a patch so many seasons after its cut; nil: nobody knows when that is.
local function cut_at(stand, patch, seasons, how)
    local at = { stand = stand, patch = patch, seasons = seasons, how = how, said = {},
        trees = growth.trees(stand, patch, seasons, how), layers = growth.layers(stand, patch, seasons, how) }
    at.grows = seasons and seasons >= 1 and at.layers or {}
    return at
end

--- What is kept by how it is worked out.
local function kept(owner, how)
    owner.at = owner.at or {}
    owner.at[how] = owner.at[how] or {}
    return owner.at[how]
end

--- A patch at a time: its trees and its young growth. Entries of one act grow alike.
local function state_of(stand, patch, year, how)
    how = how or young.measured
    local seasons = year and patches.seasons(stand, patch, year)
    local uncut = not year or patch.kind == "kept" or seasons and seasons < math.min(1, year)
    local owner, key = uncut and stand or patch.like or patch, uncut and (year or "now") or seasons or "undated"
    local there = kept(owner, how)
    there[key] = there[key] or (uncut and uncut_at(stand, year, how) or cut_at(stand, owner, seasons, how))
    return there[key]
end

--- A mean over patches by their acres; patches that have no such figure are left out.
local function weighted(values, acres, how)
    if #values <= 1 then return values[1] end
    local parts, total = {}, how.sum(acres)
    for i, value in ipairs(values) do parts[i] = value * (acres[i] / total) end
    return how.sum(parts)
end

local WHEN = { [0] = "after its first cut" }
local function when_words(year)
    return not year and "now" or WHEN[year] or ("season %d after the first cut"):format(year)
end

local all_of = {} -- a stand as it stands now: one patch

local function parts_of(stand, year)
    if year then return patches.of(stand) end
    all_of[stand] = all_of[stand] or { { kind = "kept", acres = stand.area } }
    return all_of[stand]
end

--- All patches at a time: { states, acres }.
local function states_of(stand, year, how)
    stand.states = stand.states or {}
    local there = stand.states[how] or {}
    stand.states[how] = there
    local key = year or "now"
    if not there[key] then
        local states, acres = {}, {}
        for i, patch in ipairs(parts_of(stand, year)) do
            states[i] = state_of(stand, patch, year, how)
            acres[i] = patch.acres and how.read(patch.acres, "ac")
        end
        there[key] = { states, acres }
    end
    return there[key]
end

--- A figure of a stand without a name, and of how many patches it is a mean.
local function value_of(stand, what, year, how)
    local all, values, acres = states_of(stand, year, how), {}, {}
    local figure, count = figures[what], 0
    for i = 1, #all[1] do
        local at = all[1][i]
        local value = at.said[what]
        if value == nil then
            value = figure(at) or false
            at.said[what] = value
        end
        if value then
            count = count + 1
            values[count], acres[count] = value, all[2][i]
        end
    end
    return weighted(values, acres, how), count
end

--- One figure of a stand.
-- @param year nil: as it stands now; 0: after its first cut; else growing seasons since it
function M.figure(stand, what, year)
    local value, count = value_of(stand, what, year, young.measured)
    if not value then return nil end
    for _, row in ipairs(M.columns) do
        if row[1] == what then
            return quantity.name(quantity.say(value, unit_of[what]), ("%s, %s, %s"):format(row[3], stand.name,
                when_words(year)), count > 1 and "mean of its patches by their acres" or nil)
        end
    end
end

--- The same as a measure without a name, for a table, or as a bare number in the unit of its
--- column.
function M.unnamed(stand, what, year)
    local value = value_of(stand, what, year, young.measured)
    return value and quantity.say(value, unit_of[what])
end
function M.number(stand, what, year) return (value_of(stand, what, year, young.plain)) end

--- All figures of a stand at a time.
function M.all(stand, year)
    local out = {}
    for _, row in ipairs(M.columns) do out[row[1]] = M.figure(stand, row[1], year) end
    return out
end

--- Is it young forest, with the sky open over it?
local OPEN_LIGHT = 40 -- percent: common practice, no source
local function is_young_forest(at)
    return at.patch.kind == "cut" and #at.patch.fells > 0 and at.seasons and at.seasons >= 1 and #at.grows > 0
        and figures.light(at) >= OPEN_LIGHT
end

--- Is a patch young forest in the first season after its cut?
function M.becomes_young_forest(stand, patch)
    local year = math.floor(patch.clock) - patches.first_season(stand) + 1
    return is_young_forest(state_of(stand, patch, year, young.plain))
end

--- Which game uses a patch some seasons after its cut: rows of wildlife.calendar.
local function uses(seasons, stems, acres)
    local list = {}
    for _, row in ipairs(wildlife.calendar) do
        local enough = (not row.stems or stems >= row.stems[1]) and (not row.acres or acres >= row.acres)
        if seasons >= row.from and seasons <= row.to and enough then
            list[#list + 1] = row
        end
    end
    return list
end

--- Which game uses a stand in a year: rows of wildlife.calendar, each once.
function M.uses(stand, year)
    local list, seen = {}, {}
    for _, patch in ipairs(patches.of(stand)) do
        local at = state_of(stand, patch, year, young.plain)
        local acres = quantity.number(patch.acres, "ac")
        if acres >= wildlife.told_from * quantity.number(stand.area, "ac") and is_young_forest(at) then
            for _, row in ipairs(uses(at.seasons, figures.stems(at), acres)) do
                if not seen[row] then list[#list + 1] = row end
                seen[row] = true
            end
        end
    end
    return list
end

--- What a year looks like, in words.
local function words_of(stand, year)
    if not year then return "as walked" end
    if year == 0 then return "stumps and slash; what is kept stands" end
    local said = {}
    for i, row in ipairs(M.uses(stand, year)) do said[i] = ("%s: %s"):format(row.game, row.use) end
    return table.concat(said, "; ")
end

--- The times that a table shows: nil (now), 0 (after its first cut), growing seasons since.
-- @return a list of { when, year, season (the year of that season on the calendar) }
function M.times(stand)
    local list, first = { { when = "now" } }, patches.first_season(stand)
    if not first then return list end
    list[2] = { when = "after", year = 0 }
    for _, year in ipairs(M.years) do
        list[#list + 1] = { when = "year " .. year, year = year, season = first + year - 1 }
    end
    return list
end

--- Rows for a table: now, after, and the years that are shown.
function M.rows(stand)
    local rows = {}
    for i, time in ipairs(M.times(stand)) do
        local row = M.all(stand, time.year)
        row.when, row.year, row.season, row.words = time.when, time.year, time.season, words_of(stand, time.year)
        row.cover = row.hides_standing
        rows[i] = row
    end
    return rows
end

--- Brush and small trees as they stand now.
function M.layers_now(stand)
    local layers = { growth.standing_brush(stand) }
    layers[#layers + 1] = figures.small_trees(stand.cruise)
    return layers
end

--- Is everything known that the future of a stand hangs on?
function M.check(record, place)
    local waiting = not run.settled
    for _, act in ipairs(run.acts) do waiting = waiting or act.stand == record and not act.state end
    if waiting then
        host.raise(place, nil, "expected-early",
            ("what will stand in \"%s\" hangs on the dates of its acts, which are known "
            .. "when the script has ended"):format(record.name), "ask in the function of a rule or in a report")
    end
    for _, act in ipairs(run.acts) do
        if act.stand == record and act.state == "unplaced" and act.taken then
            host.warning(place, nil, "expected-undated", ("%s has no date, so what stands in \"%s\" is told as if it "
                .. "were not done"):format(act.id, record.name), "a crew that can do it, or a window that fits, gives it one")
        end
    end
end

--- Planted stock of a stand: height of each kind in a growing season since planting.
function M.planted(stand, year)
    local out = {}
    for _, act in ipairs(run.acts) do
        if act.kind == "plant" and act.stand == stand and acts.get(act, "planted") then
            for _, name in ipairs(act.values.species) do
                local kind = forest.species_among("shrub", name) and "shrub" or forest.species_among("conifer", name)
                    and "conifer"
                    or "hardwood"
                out[#out + 1] = { species = name, height = regrows.planted_height(stand.name, kind, year) }
            end
        end
    end
    return out
end

return M
