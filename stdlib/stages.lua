--- When each cut patch of a stand hides a deer, feeds it best, and leaves the useful stage; and
--- when to cut the next. By likely values; years are those of growing seasons on the calendar.
local M = {}
local deer = need "deer"
local expected = need "expected"
local growth = need "patch_growth"
local patches = need "patches"
local quantity = need "quantity"
local wildlife = need "wildlife"
local young = need "young_growth"

local plain = young.plain
local LAST = 25 -- seasons that are looked at: as far as the equations reach
local PAST = 3  -- so many poorer seasons after the best one, and it was the best

--- A patch in a season: its layers, and how many stems they are.
local function season_of(stand, patch, seasons)
    local layers = growth.layers(stand, patch, seasons, plain)
    local stems = 0
    for _, layer in ipairs(layers) do stems = stems + plain.read(layer.stems, "stems/ac") end
    return { layers = layers, stems = stems, seasons = seasons }
end

--- When it first hides a lying deer, and a standing one.
local function look_at_cover(stand, patch, season, out)
    if out.hides_standing or #season.layers == 0 then return end
    local trees = growth.trees(stand, patch, season.seasons, plain)
    local both = deer.cover(season.layers, trees.diameter and trees, "bare", stand.name, plain)
    local function hides(screen) return deer.hides_within(screen, plain) <= wildlife.hides.distance end
    if not hides(both.low) then return end
    out.hides_lying = out.hides_lying or season.seasons
    if hides(both.high) then out.hides_standing = season.seasons end
end

local function look_at_browse(stand, season, best)
    if best.season and season.seasons > best.season + PAST then return end
    local pounds = deer.browse(season.layers, "winter", nil, stand.name, nil, plain)
    if pounds > best.pounds then best.pounds, best.season = pounds, season.seasons end
end

--- The course of a patch, in seasons since its cut.
local function course_of(stand, patch)
    local out, best = {}, { pounds = 0 }
    for seasons = 1, LAST do
        local season = season_of(stand, patch, seasons)
        look_at_cover(stand, patch, season, out)
        look_at_browse(stand, season, best)
        if season.stems >= wildlife.useful.stems then out.useful_until = seasons end
    end
    out.best_browse = best.season
    out.ends = out.useful_until ~= nil and out.useful_until < LAST
    return out
end

local KEYS = { "hides_lying", "hides_standing", "best_browse", "useful_until" }

--- A row for each cut patch that becomes young forest: { act, acres, first_season, hides_lying,
--- hides_standing, best_browse, useful_until, ends (it is useful no longer after that: else it is as
--- far as is looked at), like (the act whose later entry it is), next_cut, source }.
-- @param least acres of a patch that is worth telling of, or nil
function M.of(stand, least)
    local rows = {}
    for _, patch in ipairs(patches.of(stand)) do
        local cut = patch.kind == "cut" and patch.clock and quantity.number(patch.acres, "ac") >= (least or 0)
        local first = cut and math.floor(patch.clock)
        if first and expected.becomes_young_forest(stand, patch) then
            local row = { act = patch.acts[1].id, acres = patch.acres, first_season = first }
            -- What is published of the next block is of aspen.
            if growth.has_suckers(stand, patch) then
                row.next_cut, row.source = first + wildlife.next_cut.every, wildlife.next_cut.source
            end
            local like = patch.like or patch
            row.like = patch.like and patch.like.acts[1].id
            like.course = like.course or course_of(stand, like)
            for _, key in ipairs(KEYS) do
                row[key] = like.course[key] and first + like.course[key] - 1
            end
            row.ends = like.course.ends
            rows[#rows + 1] = row
        end
    end
    return rows
end

return M
