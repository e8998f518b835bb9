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

--- A patch in a season: is a lying deer hidden, a standing one, how much browse and how many
--- stems there are; nil when nothing grows.
local function season_of(stand, patch, seasons)
    local layers = growth.layers(stand, patch, seasons, plain)
    if #layers == 0 then return nil end
    local trees = growth.trees(stand, patch, seasons, plain)
    local both = deer.cover(layers, trees.diameter and trees, "bare", stand.name, plain)
    local function hides(screen) return deer.hides_within(screen, plain) <= wildlife.hides.distance end
    local stems = 0
    for _, layer in ipairs(layers) do stems = stems + plain.read(layer.stems, "stems/ac") end
    local lying = hides(both.low)
    return { lying = lying, standing = lying and hides(both.high), stems = stems,
        browse = deer.browse(layers, "winter", nil, stand.name, nil, plain) }
end

--- The same in seasons since the cut.
local function course_of(stand, patch)
    local out, best = {}, 0
    for seasons = 1, LAST do
        local year = season_of(stand, patch, seasons)
        if year then
            if year.lying then out.hides_lying = out.hides_lying or seasons end
            if year.standing then out.hides_standing = out.hides_standing or seasons end
            if year.browse > best then best, out.best_browse = year.browse, seasons end
            if year.stems >= wildlife.useful.stems then out.useful_until = seasons end
        end
    end
    return out
end

local KEYS = { "hides_lying", "hides_standing", "best_browse", "useful_until" }

--- A row for each cut patch that becomes young forest: { act, acres, first_season, hides_lying,
--- hides_standing, best_browse, useful_until, next_cut, source }.
function M.of(stand)
    local rows = {}
    for _, patch in ipairs(patches.of(stand)) do
        local first = patch.kind == "cut" and patch.clock and math.floor(patch.clock)
        if first and expected.becomes_young_forest(stand, patch) then
            local row = { act = patch.acts[1].id, acres = patch.acres, first_season = first }
            -- What is published of the next block is of aspen.
            if growth.has_suckers(stand, patch) then
                row.next_cut, row.source = first + wildlife.next_cut.every, wildlife.next_cut.source
            end
            local like = patch.like or patch
            like.course = like.course or course_of(stand, like)
            for _, key in ipairs(KEYS) do
                row[key] = like.course[key] and first + like.course[key] - 1
            end
            rows[#rows + 1] = row
        end
    end
    return rows
end

return M
