--- Would the wood of a stand carry a commercial sale? The numbers a logger asks first.
local M = {}
local host = need "host"
local phrases = need "phrases"
local products = need "products"
local quantity = need "quantity"
local rates = need "rates"
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
    own_cords = { value = 5, unit = "cord", says = "less is not gone to for, whatever stands beside it",
        source = "common practice, no source" },
    area_beside = { value = 5, unit = "ac", says = "when it is cut along with others near by",
        source = "Forest Products Journal 64(7-8):273, 2014: of 15 mechanized loggers 85 percent would cut 5 ac when the move is under 5 mi" },
    part_taken = { value = 25, unit = "percent", says = "of the stand's wood: a cut that takes less is a release, no sale",
        source = "common practice, no source" },
}

--- A threshold as a measure.
function M.at(name)
    local row = M.thresholds[name]
    return quantity.leaf(row.value, row.unit, row.source)
end

local function is_beside(a, b)
    if a.shape and b.shape then return need("map").touch(a, b) end
    for _, name in ipairs(a.values.beside or {}) do if name == b.name then return true end end
    for _, name in ipairs(b.values.beside or {}) do if name == a.name then return true end end
    return false
end

--- The stands that a sale could take along: those named in `beside`, each way, and those
--- beside them, as far as one can go without leaving such ground.
-- Those without a tree of 5 in are passed through, not counted.
local function neighbors(stand)
    local reached, queue, list = { [stand] = true }, { stand }, {}
    local i = 1
    while queue[i] do
        for _, other in ipairs(run.stands) do
            if not reached[other] and other.cruise and other.area and is_beside(queue[i], other) then
                reached[other] = true
                queue[#queue + 1] = other
                if other.cruise:has({ from = M.thresholds.least_diameter.value }) then list[#list + 1] = other end
            end
        end
        i = i + 1
    end
    return list
end

local PICK = { from = M.thresholds.least_diameter.value, what = "trees of 5 in and more" }

--- Cords an acre of what a logger counts. Kept, once no layer can change a rate any more: each
--- cut by hand asks for its own stand and for all beside it.
local function cords_of(stand)
    local cords = stand.cords_counted or products.wood(stand, stand.cruise, PICK, nil, stand.place)
    if run.settled then stand.cords_counted = cords end
    return cords
end

--- Cords of trees of 5 in and more.
-- @return { per_acre, cords, area, beside = list of stands, cords_beside, area_beside } (the
--   last two with the stands beside; all measures), or nil when nothing is known of the trees
function M.of(stand)
    if not stand.cruise or not stand.area then return nil end
    local per_acre = cords_of(stand)
    local out = { per_acre = per_acre, area = stand.area, beside = neighbors(stand),
        cords = quantity.say(per_acre * stand.area, "cord") }
    out.cords_beside, out.area_beside = out.cords, out.area
    for _, other in ipairs(out.beside) do
        out.cords_beside = out.cords_beside + cords_of(other) * other.area
        out.area_beside = out.area_beside + other.area
    end
    out.cords_beside = quantity.say(out.cords_beside, "cord")
    return out
end

--- One move of a logging crew, for each cord; nil where there is no wood to speak of.
function M.moving_in(cords, place)
    local entry = rates.find("moving in", "USD", place)
    if not entry or not quantity.less(quantity.leaf(0.5, "cord"), cords) then return nil end
    return quantity.say(entry.value / cords, "USD/cord")
end

--- What a logger's machines can and cannot do there, in words.
function M.limits(stand)
    local values, out = stand.values, {}
    if not values.access then out[#out + 1] = "nothing is said of how machines and trucks get there" end
    if values.access == "foot" then out[#out + 1] = "it is reached on foot: a logger needs a way in for machines and trucks" end
    if values.access == "small machine" then out[#out + 1] = "only a small machine gets there: trucks need a landing on a road" end
    if values.ground == "wet" or values.ground == "standing water" then
        out[#out + 1] = "the ground bears machines only when it is frozen"
    elseif values.ground == "moist" then
        out[#out + 1] = "the ground bears machines when it is frozen or dry"
    end
    if values.slope and quantity.number(values.slope, "percent") > 35 then
        out[#out + 1] = "it is steep for machines: over 35 percent (common practice, no source)"
    end
    return out
end

--- Trees of pulpwood size and more, for each acre, of some that the plan has use for.
local function counted(stock, row, words)
    local pick = { species = row.species, below = row.below, what = words,
        from = math.max(row.from or 0, M.thresholds.least_diameter.value) }
    if not stock:has(pick) then return nil end
    local trees = stock:trees(pick)
    if row.amount and quantity.number(trees, "trees/ac") > row.amount then
        trees = quantity.leaf(row.amount, "trees/ac", "as many as are to be kept")
    end
    return trees
end

--- Does a tree stand in it? By the map, else as it is told.
local function stands_in(feature, stand)
    if feature.shape and stand.shape then return need("map").distance(feature, stand) == 0 end
    for _, beside in ipairs(feature.values.beside or {}) do
        if beside == stand or beside == stand.name then return true end
    end
    return false
end

--- Of what the plan keeps there, in words with numbers: trees that `keep` names, den trees.
-- @param set_aside true: what `keep` names is out of these already
function M.kept(stand, stock, set_aside)
    local out = {}
    for _, row in ipairs(set_aside and {} or need("felling").kept_rows(stand, stand.area)) do
        local species = row.species and #row.species > 0 and table.concat(row.species, ", ") or "trees"
        local trees = counted(stock, row, "trees to keep")
        if trees then out[#out + 1] = ("%s of %s that the plan keeps"):format(quantity.short(trees), species) end
    end
    for _, feature in ipairs(run.features) do
        if feature.values.kind == "den tree" and stands_in(feature, stand) then
            out[#out + 1] = ("the den tree \"%s\", unless it is marked to stay"):format(feature.name)
        end
    end
    return out
end

--- What a sale of all trees of 5 in and more would take that the habitat has use for: what the
--- plan keeps, and trees that bear mast.
function M.takes(stand, stock, set_aside)
    local out = M.kept(stand, stock, set_aside)
    local mast = counted(stock, { species = { "mast" } }, "mast trees")
    if mast then out[#out + 1] = ("%s that bear mast"):format(quantity.short(mast)) end
    return out
end

--- Years until the trees are big enough for a sale, or nil when they are, or are none.
function M.years(stand, place)
    local stock = stand.cruise
    local trees = { except = { "shrub" } }
    local diameter = stock:diameter(trees)
    local enough = rates.find("sale tree", "in", place)
    if not diameter or not enough or not quantity.less(diameter, enough.value) then return nil end
    local all = stock:trees(trees)
    local poles = stock:trees({ except = { "shrub" }, from = M.thresholds.least_diameter.value })
    local few = quantity.number(poles, "trees/ac") < 0.1 * quantity.number(all, "trees/ac")
    if few and quantity.number(stock:share("aspen"), "percent") >= 50 then
        local young = rates.find("young aspen to pulpwood", "yr", place)
        return young and young.value
    end
    local growth = rates.find("diameter growth", "in/yr", place)
    return growth and quantity.say((enough.value - diameter) / growth.value, "yr")
end

--- "about 15 to 20 years".
function M.years_words(years)
    local soonest, latest = quantity.ends(years, "yr")
    soonest, latest = math.max(1, math.floor(soonest + 0.5)), math.max(1, math.floor(latest + 0.5))
    if latest == soonest then return "about " .. phrases.count(soonest, "year") end
    return ("about %d to %d years"):format(soonest, latest)
end

--- Cords, by themselves or with the stands beside, and how that speaks for a sale: "own",
--- "ask", "together" or nil.
function M.verdict(wood)
    if not quantity.less(wood.cords, M.at "by_hand_cords") then
        return quantity.less(wood.cords, M.at "sale_cords") and "ask" or "own"
    end
    local enough = not quantity.less(wood.cords_beside, M.at "by_hand_cords")
    local wide = not quantity.less(wood.area_beside, M.at "area_beside")
    local some = not quantity.less(wood.cords, M.at "own_cords")
    return #wood.beside > 0 and some and enough and wide and "together" or nil
end

local function names_of(stands)
    local names = {}
    for i, other in ipairs(stands) do names[i] = other.name end
    return names
end

--- In words, what a verdict says.
function M.verdict_words(wood, found)
    if found == "own" then return ("about %s of wood, enough for a sale of its own"):format(quantity.short(wood.cords)) end
    if found == "ask" then return ("about %s of wood, enough to ask"):format(quantity.short(wood.cords)) end
    return ("about %s of wood together with %s, beside it"):format(quantity.short(wood.cords_beside),
        table.concat(names_of(wood.beside), ", "))
end

--- What a stand answers to s:sale(): advice with its numbers, never a promise of a price.
function M.report(stand, place)
    local wood = M.of(stand)
    if not wood then
        host.raise(place, nil, "stand-unknown-area", ("the area of \"%s\" is not told"):format(stand.name), "area = 3.4 ac")
    end
    local found = M.verdict(wood)
    local out = { cords = wood.cords, area = wood.area, with_others = names_of(wood.beside),
        cords_together = wood.cords_beside, area_together = wood.area_beside,
        tons = quantity.say(products.wood(stand, stand.cruise, PICK, { as = "tons" }, place) * wood.area, "ton"),
        sawlogs = quantity.say(products.wood(stand, stand.cruise, { what = "sawlogs" },
            { product = "sawlogs", as = "board feet" }, place) * wood.area, "board ft"),
        pulpwood = quantity.say(products.wood(stand, stand.cruise, { what = "pulpwood" },
            { product = "pulpwood" }, place) * wood.area, "cord"),
        moving_in = M.moving_in(wood.cords, place), moving_in_together = M.moving_in(wood.cords_beside, place),
        worth_asking = found ~= nil, years = M.years(stand, place), limits = M.limits(stand),
        takes = M.takes(stand, stand.cruise) }
    local load = products.truck("weight", "usual", place)
    out.loads = load and out.tons / load.value
    local why = { found and M.verdict_words(wood, found)
        or out.moving_in and ("about %s of wood: less than a logger comes for"):format(quantity.short(wood.cords))
        or "no wood that a logger would come for" }
    local move = found == "together" and out.moving_in_together or out.moving_in
    if move then why[#why + 1] = ("one move of a crew comes to %s"):format(quantity.short(move)) end
    if out.years then
        why[#why + 1] = "big enough in " .. M.years_words(out.years)
    end
    out.why = why
    return out
end

return M
