--- What stands and grows on a patch at a time: its trees, and its layers of young growth.
local M = {}
local data = need "regrowth"
local forest = need "forest"
local patches = need "patches"
local quantity = need "quantity"
local regrows = need "young_layers"
local young = need "young_growth"

local function site_index_of(stand)
    local told = stand.values.site_index or {}
    local names = {}
    for name in pairs(told) do
        if type(name) == "string" and forest.species_among("aspen", name) then names[#names + 1] = name end
    end
    table.sort(names)
    local value = names[1] and told[names[1]]
    return quantity.is(value) and quantity.fits(value, "ft") and value or nil
end

--- Nothing of it.
local function none(unit, words) return quantity.leaf(0, unit, words) end
M.none = none

--- Trees of a patch after its acts: basal area and number.
local function left_of(stand, patch)
    if patch.left then return patch.left end
    local whole = stand.cruise
    local last, chained = nil, true
    for i, act in ipairs(patch.acts) do
        if act.left then
            if last then
                local after = false
                for _, before in ipairs(act.values.after or {}) do after = after or before == patch.acts[i - 1] end
                chained = chained and after
            end
            last = act
        end
    end
    local left = {}
    if patch.kind == "opening" then
        left = { basal_area = none("ft2/ac", "cleared"), trees = none("trees/ac", "cleared") }
    elseif last and chained then
        left = { stock = last.left, basal_area = last.left:basal_area({ what = "trees left" }),
            trees = last.left:trees({ what = "trees left" }) }
    elseif whole then
        local stock = whole
        for _, act in ipairs(patch.acts) do
            if act.taken then stock = stock:without(act.taken) end
        end
        left = { stock = stock, basal_area = stock:basal_area({ what = "trees left" }),
            trees = stock:trees({ what = "trees left" }) }
    end
    patch.left = left
    return left
end

--- The species that most of a stock's basal area is of.
local function main_species(stock)
    local area, most, name = {}, 0, nil
    for _, row in ipairs(stock:classes(0)) do
        local all = (area[row.species] or 0) + row.basal_area
        area[row.species] = all
        if all > most then most, name = all, row.species end
    end
    return name
end

--- Of what released trees gain, the part that a cut gives: 0 to 1, as light as it is.
function M.room(stand, patch)
    if patch.room then return patch.room end
    local before = stand.cruise and quantity.number(stand.cruise:basal_area(), "ft2/ac") or 0
    local taken = before - quantity.number(left_of(stand, patch).basal_area, "ft2/ac")
    patch.room = before > 0 and math.max(0, math.min(1, taken / before / data.stand_growth.full_at)) or 1
    return patch.room
end

--- A percent of what trees do as they stand, where so much of the room is given.
-- @param part of the room, 0 to 1
function M.with_room(gain, part)
    if part >= 1 then return gain end
    local level = quantity.leaf(100, "percent", "as they stood")
    return level + (gain - level) * quantity.leaf(part * 100, "percent", "room that so light a cut gives: "
        .. data.stand_growth.source)
end

--- Trees as they stand, uncut.
local function uncut_of(stand)
    if not stand.uncut then
        local stock = stand.cruise
        stand.uncut = stock and { stock = stock, basal_area = stock:basal_area(), trees = stock:trees() } or {}
    end
    return stand.uncut
end

--- How fast such trees grow: what it takes beside the years; the same for all years.
-- @param left { stock, basal_area, trees }
-- @param room the part of the room that a cut gave them, or nil
local function growth_of(stand, left, room)
    if left.growth then return left.growth end
    local stock = left.stock
    local main = main_species(stock)
    local rate, gain, likely = young.growth(stand.name, main)
    -- Old brush is as thick as it gets: its stems die as others come up (common practice, no
    -- source).
    if forest.species_among("shrub", main) then
        rate, likely = quantity.leaf(0, "in", "old brush grows no thicker: common practice, no source"), 0
    end
    left.growth = {
        diameter = stock:diameter({ what = "trees left" }),
        rate = rate * young.doubt(data.stand_growth, stand.name), likely = likely * data.stand_growth.likely / 100,
        gain = room and M.with_room(gain, room) or young.percent(100, "not released"),
    }
    return left.growth
end

--- Trees on a patch some seasons after: they grow thicker, and faster where a cut gave them room.
-- @param how young_growth's measured (the usual) or plain; so below
function M.trees(stand, patch, seasons, how)
    how = how or young.measured
    local uncut = patch.kind == "kept" or patch.clock and seasons and seasons < 0
    local left = uncut and uncut_of(stand) or left_of(stand, patch)
    local stock = left.stock
    if not stock or not stock:has() then
        return { basal_area = how.read(left.basal_area or none("ft2/ac", "nothing is said of trees"), "ft2/ac"),
            trees = how.read(left.trees or none("trees/ac", "nothing is said of trees"), "trees/ac"), grown = 0 }
    end
    local years = math.abs(seasons or 0) -- below zero: so long it has stood uncut
    local by = growth_of(stand, left, not uncut and patch.kind == "cut" and M.room(stand, patch) or nil)
    return { trees = how.read(left.trees, "trees/ac"), stock = stock, diameter = by.diameter, grown = by.likely * years,
        basal_area = years == 0 and how.read(left.basal_area, "ft2/ac") or how.equation("basal area after some years",
            { left.basal_area, by.diameter, by.rate, by.gain }, { years }, data.growth.source) }
end

--- What the equations of young growth need to know of a patch.
local function place_of(stand, patch)
    if patch.place then return patch.place end
    local left, in_leaf = patches.season_left(patch)
    local values = stand.values
    local wheels = false
    for _, act in ipairs(patch.acts) do wheels = wheels or act.kind == "sale" end
    local frozen = false
    for _, act in ipairs(patch.acts) do
        local when = act.values.only_when
        frozen = frozen or when == "frozen" or when == "dry" or when == "dry or frozen"
    end
    local terms = {}
    for _, act in ipairs((patch.inside or patch).fells or {}) do
        if act.taken and act.taken:has("aspen") then
            terms[#terms + 1] = act.taken:basal_area({ species = { "aspen" }, what = "aspen felled" })
        end
    end
    patch.place = {
        name = stand.name, aspen = #terms > 0 and quantity.sum(terms) or nil, site_index = site_index_of(stand),
        age = values.age and quantity.say(values.age, "yr"), browsing = values.browse, season_left = left,
            in_leaf = in_leaf,
        wheels = wheels, rutted = wheels and not frozen and data.rutted[values.ground or "moist"] or 0,
        residual = patch.kind == "opening" and none("ft2/ac", "open ground") or left_of(stand, patch).basal_area
            or none("ft2/ac", "nothing is said of trees"),
    }
    return patch.place
end

--- Does aspen come again from its roots there?
function M.has_suckers(stand, patch) return place_of(stand, patch).aspen ~= nil end

--- Are shrubs counted in the stand's notes? Beside a stand judged by eye, brush that is told is
--- brush: shares of basal area do not count it.
local function find_shrubs(stand)
    if stand.values.brush and stand.cruise and stand.cruise:plots() == 0 then return false end
    for _, name in ipairs(stand.cruise and stand.cruise:species() or {}) do
        if forest.species_among("shrub", name) then return true end
    end
    return false
end

local function counts_shrubs(stand)
    if stand.counts_shrubs == nil then stand.counts_shrubs = find_shrubs(stand) end
    return stand.counts_shrubs
end

--- Brush that stands under trees and is not cut: as high as a person, at most.
local function standing_brush(stand)
    if counts_shrubs(stand) then return nil end
    if stand.standing_brush then return stand.standing_brush end
    local height = young.doubt({ 2.5, 4, 6 }, stand.name, "height of the brush under the trees", "ft",
        data.brush.source)
    stand.standing_brush = { words = "brush", stems = regrows.brush_stems(stand), dominant = height, wanted = 70,
        mean = height * young.percent(75, "mean of the highest brush: " .. data.brush.source) }
    return stand.standing_brush
end

--- Does felling so much leave the brush under the trees standing? Common practice, no source.
local LIGHT_CUT = 0.5
local function judge_brush(stand, patch)
    local taken = 0
    for _, act in ipairs(patch.fells) do
        if act.values.how == "brush" or not act.taken or not stand.cruise then return false end
        taken = taken + quantity.number(act.taken:basal_area(), "ft2/ac")
    end
    return not stand.cruise or taken < LIGHT_CUT * quantity.number(stand.cruise:basal_area(), "ft2/ac")
end

local function brush_stands(stand, patch)
    if patch.brush_stands == nil then patch.brush_stands = judge_brush(stand, patch) end
    return patch.brush_stands
end

local MOWED = 0.6 -- of the stems come again after each mowing: common practice, no source

--- An opening comes up from where its last mowing left it.
local function opening_layers(stand, patch, seasons, how)
    local since, times = seasons, 0
    for _, year in ipairs(patch.mowed) do
        if year <= seasons then since, times = seasons - year, times + 1 end
    end
    if since < 1 then return {} end
    local place, layers = place_of(stand, patch), {}
    local kept = quantity.leaf(100 * MOWED ^ times, "percent",
        ("stems that come again after %d mowings: common practice, no source"):format(times))
    if place.aspen then layers[1] = regrows.suckers(place, since, how) end
    layers[#layers + 1] = regrows.shrubs(place, regrows.shrub_row("other"), regrows.brush_stems(stand), since, how)
    for _, layer in ipairs(layers) do layer.stems = how.share_of(layer.stems, kept, "stems/ac") end
    return layers
end

--- The layers of young growth on a patch.
function M.layers(stand, patch, seasons, how)
    how = how or young.measured
    if patch.kind == "kept" or not seasons or seasons < 0 then return { standing_brush(stand) } end
    if seasons < 1 then return { patch.kind == "cut" and brush_stands(stand, patch) and standing_brush(stand)
        or nil } end
    if patch.kind == "opening" then return opening_layers(stand, patch, seasons, how) end
    local place, layers = place_of(stand, patch), {}
    if place.aspen then layers[#layers + 1] = regrows.suckers(place, seasons, how) end
    for _, act in ipairs(patch.fells) do
        if act.taken then
            local treated = need("treated_stumps").after(act)
            layers[#layers + 1] = regrows.sprouts(place, act.taken, treated, seasons, how)
            for _, layer in ipairs(regrows.cut_shrubs(place, act.taken, treated, seasons, how)) do layers[#layers + 1] = layer end
        end
    end
    if brush_stands(stand, patch) then
        layers[#layers + 1] = standing_brush(stand)
    elseif not counts_shrubs(stand) then
        layers[#layers + 1] = regrows.shrubs(place, regrows.shrub_row("other"), regrows.brush_stems(stand), seasons, how)
    end
    return layers
end

M.standing_brush = standing_brush

return M
