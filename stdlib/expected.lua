--- What will stand in a stand: now, after its cuts, and at the end of each growing season
--- since the first of them. Patches of different treatment are weighted by their acres; of
--- several entries each counts from its own cut.
local M = {}
local acts = need "acts"
local data = need "regrowth"
local deer = need "deer"
local forest = need "forest"
local growth = need "patch_growth"
local host = need "host"
local patches = need "patches"
local quantity = need "quantity"
local run = need "run"
local wildlife = need "wildlife"
local young = need "young_growth"

local none = growth.none

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

local function highest(layers, key)
    local value
    for _, layer in ipairs(layers) do
        value = value and math.max(value, layer[key]) or layer[key]
    end
    return value
end

local figures = {}

function figures.trees(at) return at.trees.trees end
function figures.basal_area(at)
    local sum = at.trees.basal_area
    for _, layer in ipairs(at.grows) do
        sum = sum + young.equation("basal area of young stems", { layer.stems, layer.mean }, {},
            "0.12 in for each foot above "
            .. "breast height: common practice, no source")
    end
    return sum
end
function figures.stems(at)
    local list = {}
    for i, layer in ipairs(at.layers) do list[i] = layer.stems end
    return #list > 0 and quantity.sum(list) or none("stems/ac", "no young stems")
end
function figures.height(at) return highest(at.grows, "dominant") end
function figures.mean_height(at)
    local first = at.grows[1]
    return first and first.mean
end
function figures.light(at)
    return young.equation("light on the ground", { at.trees.basal_area }, { wildlife.light.loss },
        wildlife.light.source)
end
local function cover(at)
    at.cover = at.cover or deer.cover(at.layers, at.trees.diameter and at.trees, "bare", at.stand.name)
    return at.cover
end
function figures.hides_lying(at) return cover(at).lying end
function figures.hides_standing(at) return cover(at).standing end

--- Trees under 3 in as a layer to browse; nil where there are none.
-- @param stock of trees, or nil
local function small_trees(stock)
    local small = { below = 3, what = "trees under 3 in" }
    if not stock or not stock:has(small) then return nil end
    -- Feet of height for each inch, and 5 more: common practice, no source.
    local height = stock:diameter(small) * quantity.leaf(6, "ft/in", "height of small trees: " .. data.brush.source)
        + quantity.leaf(5, "ft")
    return { words = "small trees", dominant = height, mean = height, wanted = 70,
        stems = quantity.say(stock:trees(small) * quantity.leaf(1, "stems/tree", "each tree a stem"), "stems/ac") }
end

--- Of young growth, and of the small trees that stand: as tall as when they were tallied.
function figures.browse(at)
    if not at.browse then
        local layers = table.move(at.layers, 1, #at.layers, 1, {})
        layers[#layers + 1] = small_trees(at.trees.stock)
        at.browse = deer.browse(layers, "winter", nil, at.stand.name)
    end
    return at.browse
end
function figures.deer_days(at) return deer.deer_days(figures.browse(at), at.stand.name) end
function figures.mast(at)
    if not at.trees.stock then return none("lb/ac", "no trees") end
    -- A cut that takes little frees few crowns: what all bear rises as their growth does.
    local freed = at.patch.kind == "cut" and at.seasons and at.seasons >= wildlife.released.after
    local released = freed and growth.room(at.stand, at.patch) or nil
    return (deer.mast(at.trees.stock, at.stand.name, { released = released, grown = at.trees.grown }))
end

--- A patch at a time: its trees and its young growth.
local function state_of(stand, patch, year)
    local key = year or "now"
    patch.at = patch.at or {}
    if patch.at[key] then return patch.at[key] end
    local seasons = year and (year == 0 and 0 or patches.seasons(stand, patch, year))
    local at = { stand = stand, patch = patch, seasons = seasons }
    if not year then
        at.trees, at.layers, at.grows = growth.trees(stand, { kind = "kept" }, 0), { growth.standing_brush(stand) }, {}
    else
        local since = seasons
        if patch.kind == "kept" then since = year elseif seasons and seasons < 1 and year > 0 then since = -year end
        at.trees, at.layers = growth.trees(stand, patch, since), growth.layers(stand, patch, since)
        at.grows = patch.kind ~= "kept" and since and since >= 1 and at.layers or {}
    end
    patch.at[key] = at
    return at
end

--- A mean over patches by their acres; patches that have no such figure are left out.
local function weighted(values, acres)
    if #values == 0 then return nil end
    if #values == 1 then return values[1] end
    local parts, total = {}, quantity.sum(acres)
    for i, value in ipairs(values) do parts[i] = value * (acres[i] / total) end
    return quantity.sum(parts)
end

local WHEN = { [0] = "after its cuts" }
local function when_words(year)
    return not year and "now" or WHEN[year] or ("season %d after the first cut"):format(year)
end

--- One figure of a stand.
-- @param year nil: as it stands now; 0: after its cuts; else growing seasons since the first
function M.figure(stand, what, year)
    local values, acres = {}, {}
    for _, patch in ipairs(year and patches.of(stand) or { { kind = "kept", acres = stand.area } }) do
        local value = figures[what](state_of(stand, patch, year))
        if value then
            values[#values + 1], acres[#acres + 1] = value, patch.acres
        end
    end
    local value = weighted(values, acres)
    if not value then return nil end
    for _, row in ipairs(M.columns) do
        if row[1] == what then
            return quantity.name(quantity.say(value, unit_of[what]), ("%s, %s, %s"):format(row[3], stand.name,
                when_words(year)),
                #values > 1 and "mean of its patches by their acres" or nil)
        end
    end
end

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
        and quantity.number(figures.light(at), "percent") >= OPEN_LIGHT
end

--- Which game uses a patch some seasons after its cut.
local function uses(seasons, stems, acres)
    local list = {}
    for _, row in ipairs(wildlife.calendar) do
        local enough = (not row.stems or stems >= row.stems[1]) and (not row.acres or acres >= row.acres)
        if seasons >= row.from and seasons <= row.to and enough then list[#list + 1] = ("%s: %s"):format(row.game,
            row.use) end
    end
    return list
end

--- What a year looks like, in words.
local function words_of(stand, year)
    if not year then return "as walked" end
    if year == 0 then return "stumps and slash; what is kept stands" end
    local said, seen = {}, {}
    for _, patch in ipairs(patches.of(stand)) do
        local at = state_of(stand, patch, year)
        local acres = quantity.number(patch.acres, "ac")
        if acres >= wildlife.told_from * quantity.number(stand.area, "ac") and is_young_forest(at) then
            for _, use in ipairs(uses(at.seasons, quantity.number(figures.stems(at), "stems/ac"), acres)) do
                if not seen[use] then said[#said + 1] = use end
                seen[use] = true
            end
        end
    end
    return table.concat(said, "; ")
end

--- Rows for a table: now, after, and the years that are shown.
function M.rows(stand)
    local rows = {}
    local function add(when, year)
        local row = M.all(stand, year)
        row.when, row.year, row.words = when, year, words_of(stand, year)
        row.cover = row.hides_standing
        rows[#rows + 1] = row
    end
    add("now", nil)
    if patches.first_season(stand) then
        add("after", 0)
        for _, year in ipairs(M.years) do add("year " .. year, year) end
    end
    return rows
end

--- Plain likely figures of a patch, season by season: { stems, mean, dominant, hidden low, high }.
local LAST = 25
local function plain_year(stand, patch, seasons)
    local layers = growth.layers(stand, patch, seasons)
    if #layers == 0 then return nil end
    local out = { stems = 0, dominant = 0 }
    for _, layer in ipairs(layers) do
        out.stems = out.stems + quantity.number(layer.stems, "stems/ac")
        out.dominant = math.max(out.dominant, quantity.number(layer.dominant, "ft"))
    end
    local trees = growth.trees(stand, patch, seasons)
    local both = deer.cover(layers, trees.diameter and trees, "bare", stand.name)
    local wanted, from = wildlife.hides.distance, "ft"
    local function hides(screen) return quantity.number(deer.hides_within(screen), from) <= wanted end
    out.lying = hides(both.low)
    out.standing = out.lying and hides(both.high)
    out.browse = quantity.number(deer.browse(layers, "winter", nil, stand.name), "lb/ac")
    return out
end

--- When each cut patch hides a deer, feeds it best, and leaves the useful stage; and when to cut
--- the next. Years are those of growing seasons on the calendar.
function M.stages(stand)
    local rows = {}
    for _, patch in ipairs(patches.of(stand)) do
        local first = patch.kind == "cut" and patch.clock and math.floor(patch.clock)
        if first and is_young_forest(state_of(stand, patch, first - patches.first_season(stand) + 1)) then
            local row = { act = patch.acts[1].id, acres = patch.acres, first_season = first }
            -- What is published of the next block is of aspen.
            if growth.has_suckers(stand, patch) then
                row.next_cut, row.source = first + wildlife.next_cut.every, wildlife.next_cut.source
            end
            local best = 0
            for seasons = 1, LAST do
                local year = plain_year(stand, patch, seasons)
                if year then
                    if year.lying then row.hides_lying = row.hides_lying or first + seasons - 1 end
                    if year.standing then row.hides_standing = row.hides_standing or first + seasons - 1 end
                    if year.browse > best then best, row.best_browse = year.browse, first + seasons - 1 end
                    if year.stems >= wildlife.useful.stems then row.useful_until = first + seasons - 1 end
                end
            end
            rows[#rows + 1] = row
        end
    end
    return rows
end

--- Brush and small trees as they stand now.
function M.layers_now(stand)
    local layers = { growth.standing_brush(stand) }
    layers[#layers + 1] = small_trees(stand.cruise)
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
                out[#out + 1] = { species = name, height = young.planted_height(stand.name, kind, year) }
            end
        end
    end
    return out
end

return M
