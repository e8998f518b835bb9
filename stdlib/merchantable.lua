--- Would the wood of a stand carry a commercial sale? The numbers a logger asks first.
local M = {}
local quantity = need "quantity"
local run = need "run"

--- What speaks for a sale. Between the two columns a logger takes the block, and the owner
--- does the edges, trails and releases.
M.thresholds = {
    least_diameter = { value = 5, unit = "in",
        source = "Woodland Stewardship, Univ. Minnesota Extension 2009, ch. 2: smallest pulpwood tree" },
    by_hand_cords = { value = 50, unit = "cord", says = "less is cut by hand",
        source = "common practice, no source" },
    sale_cords = { value = 100, unit = "cord", says = "as much carries a sale of its own",
        source = "common practice, no source" },
    area_beside = { value = 5, unit = "ac", says = "when it is cut along with others near by",
        source = "Forest Products Journal 64(7-8):273, 2014: of 15 mechanized loggers 85 percent would cut 5 ac when the move is under 5 mi" },
    part_taken = { value = 25, unit = "percent", says = "of the stand's wood: a cut that takes less is a release, no sale",
        source = "common practice, no source" },
}

local function at(name)
    local row = M.thresholds[name]
    return quantity.leaf(row.value, row.unit, row.source)
end

--- The stands that a sale could take along: those named in `beside`, each way.
local function neighbors(stand)
    local list = {}
    for _, other in ipairs(run.stands) do
        local near = false
        for _, name in ipairs(stand.values.beside or {}) do near = near or name == other.name end
        for _, name in ipairs(other.values.beside or {}) do near = near or name == stand.name end
        if near and other ~= stand and other.cruise then list[#list + 1] = other end
    end
    return list
end

--- Cords of trees of 5 in and more.
-- @return { per_acre, cords, area, beside = list of stands, cords_beside, area_beside } (the
--   last two with the stands beside; all measures), or nil when nothing is known of the trees
function M.of(stand)
    if not stand.cruise or not stand.area then return nil end
    local pick = { from = M.thresholds.least_diameter.value, what = "trees of 5 in and more" }
    local per_acre = stand.cruise:cords(pick)
    local out = { per_acre = per_acre, area = stand.area, beside = neighbors(stand),
        cords = quantity.say(per_acre * stand.area, "cord") }
    out.cords_beside, out.area_beside = out.cords, out.area
    for _, other in ipairs(out.beside) do
        out.cords_beside = out.cords_beside + other.cruise:cords(pick) * other.area
        out.area_beside = out.area_beside + other.area
    end
    out.cords_beside = quantity.say(out.cords_beside, "cord")
    return out
end

--- Words for why a logger should be asked first, or nil: enough wood in the stand, or in it
--- and those beside it on ground enough for a crew to come.
-- @param taken the cords that an act takes of it, or nil for the stand as such
function M.words(stand, taken)
    local wood = M.of(stand)
    if not wood then return nil end
    -- A release that takes little of much is no sale, unless the little is much by itself.
    if taken and quantity.less(taken, wood.cords * at "part_taken")
        and quantity.less(taken, at "by_hand_cords") then
        return nil
    end
    if not quantity.less(wood.cords, at "by_hand_cords") then
        local much = not quantity.less(wood.cords, at "sale_cords")
        return ("about %s of wood, %s"):format(quantity.short(wood.cords), much
            and "enough for a sale of its own" or "enough to ask")
    end
    local enough = not quantity.less(wood.cords_beside, at "by_hand_cords")
    local wide = not quantity.less(wood.area_beside, at "area_beside")
    if #wood.beside == 0 or not enough or not wide then return nil end
    local names = {}
    for i, other in ipairs(wood.beside) do names[i] = other.name end
    return ("about %s of wood together with %s, beside it"):format(quantity.short(wood.cords_beside),
        table.concat(names, ", "))
end

return M
