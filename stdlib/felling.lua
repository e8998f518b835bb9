--- Which trees an act takes and leaves, and how long felling them lasts: what `cut` and
--- `sale` have in common.
local M = {}
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local rates = need "rates"
local run = need "run"

--- Trees left, as a number or a basal area for each acre.
kinds.leave = {
    says = "trees or basal area for each acre, such as 15 trees/ac or 30 ft2/ac",
    unit = "trees/ac",
    take = function(value)
        if not quantity.is(value) then return nil end
        if quantity.fits(value, "trees/ac") then return quantity.say(value, "trees/ac") end
        return quantity.fits(value, "ft2/ac") and value or nil
    end,
}
--- A number of trees, in all or for each acre.
kinds.tree_number = {
    says = "a number of trees, such as 12 trees or 4 trees/ac",
    take = function(value)
        if quantity.is(value) and (quantity.fits(value, "trees/ac") or quantity.fits(value, "trees")) then
            return value
        end
        return nil
    end,
}

local THICKEST = quantity.leaf(60, "in") -- as in a tally: what is more was meant in another unit

--- Keys that say which trees.
M.keys = {
    { "species", kind = "list", of = "species", says = "which species or groups; without it, all", example = "\"aspen\"" },
    { "except", kind = "list", of = "species", says = "species or groups that are left in any case" },
    { "at_least", kind = "diameter", most = THICKEST, says = "only trees of this diameter and more: 5 in" },
    { "below", kind = "diameter", most = THICKEST, says = "only trees under this diameter: 12 in" },
    { "share", kind = "share", says = "how much of those trees is taken; without it, all" },
    { "to", kind = "residual",
        says = "how much is left on each acre in all, kept trees among it: 60 ft2/ac, 150 trees/ac, 60 percent or \"B line\" of the stocking guide" },
    { "from", kind = "choice", of = { "below", "above", "across" },
        also = { bottom = "from = \"below\": the smallest first", top = "from = \"above\": the largest first" },
        says = "which go first: \"below\" the smallest, \"above\" the largest, \"across\" all sizes alike" },
    { "order", kind = "list", of = "species", says = "which species go first, the worst before others: { \"red maple\", \"aspen\" }" },
    { "limits", kind = "limits", says = "least diameters by species, in place of `at_least`: { [\"red oak\"] = 18 in }; without that and `species`, only these are taken" },
    { "leave", kind = "leave", says = "how much of those trees is left, beside what is kept: 15 trees/ac or 30 ft2/ac" },
    { "leave_which", kind = "choice", of = { "largest", "smallest", "as found" }, default = "as found",
        says = "which of them are left" },
    { "leave_species", kind = "list", of = "species", says = "species of what is left, when not all that is cut" },
    { "leave_marked", kind = "text", says = "what marks trees that are left, such as \"yellow ribbon\"" },
    { "marked", kind = "tree_number", says = "how many are marked: 12 trees, or 4 trees/ac" },
    { "patches", kind = "patches", says = "only in so many patches: { count = 3, size = 0.5 ac }" },
    { "strips", kind = "strips", says = "only in strips with ground left between: { width = 40 ft, apart = 80 ft }" },
}

--- Inches of a diameter key, or nil.
local function inches(value) return value and quantity.number(value, "in") or nil end

--- Trees for each acre, as a bare number; of a number in all, over the given acres.
function M.per_acre(value, acres)
    if quantity.fits(value, "trees/ac") then return quantity.number(value, "trees/ac") end
    local over = quantity.number(acres, "ac")
    return over > 0 and quantity.number(value, "trees") / over or 0
end

--- How many a `keep` keeps on each acre, as told or as drawn on the map; nil: all of them.
function M.kept_number(act, acres)
    local number = act.kept_trees or act.values.count
    return number and M.per_acre(number, acres)
end

--- Trees that a `keep` of the same stand names.
function M.kept_rows(stand, acres)
    local rows = {}
    for _, act in ipairs(run.acts) do
        if act.kind == "keep" and act.stand == stand and not act.ground_taken and not act.values.area and not act.copy_of then
            local values = act.values
            rows[#rows + 1] = { species = values.species, from = inches(values.at_least),
                below = inches(values.below), order = values.which,
                amount = M.kept_number(act, acres), of = act }
        end
    end
    return rows
end

local KEEPS_MOST = 16 -- rows that one cut can set aside

--- What is set aside before anything is cut: kept trees, marked ones, those to leave.
local function rows_left(record, acres)
    local values = record.values
    local rows = M.kept_rows(record.stand, acres)
    local own = { species = values.species, except = values.except, from = inches(values.at_least),
        below = inches(values.below) }
    local function add(row)
        rows[#rows + 1] = { species = own.species, except = own.except, from = own.from, below = own.below,
            amount = row.amount, measure = row.measure, order = row.order }
        if row.species then
            rows[#rows].species, rows[#rows].from, rows[#rows].below = row.species, nil, nil
        end
    end
    if values.marked then add({ amount = M.per_acre(values.marked, acres) }) end
    if values.leave then
        local by_area = quantity.fits(values.leave, "ft2/ac")
        add({ species = values.leave_species, order = values.leave_which,
            measure = by_area and "basal area" or "trees",
            amount = quantity.number(values.leave, by_area and "ft2/ac" or "trees/ac") })
    end
    if #rows > KEEPS_MOST then
        host.fault(record.place, nil, "keeps-many", ("more than %d kinds of trees are kept out of this cut")
            :format(KEEPS_MOST), "say some of them together: keep { species = { \"oak\", \"cherry\" } }")
        return nil
    end
    return rows
end

--- The trees there before this act: as walked, or as an act before it over the same ground
--- has left them; and what that act has counted out.
local function standing(record)
    local stock, counted = record.stand.cruise, nil
    if not ground.is_whole(record) then return stock end
    for _, before in ipairs(record.values.after or {}) do
        if before.stand == record.stand and before.left and ground.is_whole(before) then
            stock, counted = before.left, before.counted
        end
    end
    return stock, counted
end

--- Splits the trees: `record.taken` and `record.left` are stocks for each acre. False when
--- nothing is known of the trees.
function M.split(record, acres)
    local values = record.values
    local stock, counted = standing(record)
    if not stock then return false end
    local rows = rows_left(record, acres)
    if not rows then return false end
    local pick = { species = values.species, except = values.except, from = inches(values.at_least),
        below = inches(record.below or values.below) }
    local how = { share = 1 }
    if values.share then
        how.share = quantity.number(values.share, "percent") / 100
        local low, high = quantity.ends(values.share, "percent")
        if high > low then
            record.taken_doubt = values.share / quantity.leaf(how.share * 100, "percent", "its likely value")
        end
    end
    if values.to or values.from or values.order or values.limits or values.crop then
        return need("marking").split(record, { stock = stock, counted = counted or {}, pick = pick, how = how,
            rows = rows, acres = acres })
    end
    record.taken, record.left = stock:cut(pick, how, rows)
    return true
end

--- The ground that is cut: that of the act, or of its patches or strips; nil when a fault is
--- told.
function M.ground(record)
    local whole = ground.of(record)
    if not record.values.patches and not record.values.strips then return whole end
    return need("cut_ground").acres(record, whole)
end

--- A figure of what is taken, with the doubt of a share that is a range.
function M.doubted(record, figure)
    return record.taken_doubt and figure * record.taken_doubt or figure
end

--- Sets what is taken and left: trees, basal area. What was counted out while marking is
--- as certain as it was asked for.
function M.set_trees(record, acres, done)
    local counted = record.counted or {}
    local trees = counted.trees_taken or M.doubted(record, record.taken:trees({ what = "trees " .. done }))
    acts.set(record, "trees_cut", quantity.say(trees * acres, "trees"), "trees " .. done)
    acts.set(record, "trees_left", counted.trees_left or record.left:trees({ what = "trees left" }),
        "trees left standing")
    acts.set(record, "basal_area_taken", counted.basal_area_taken
        or M.doubted(record, record.taken:basal_area({ what = "trees " .. done })), "basal area taken")
    acts.set(record, "basal_area_left", counted.basal_area_left or record.left:basal_area({ what = "trees left" }),
        "basal area left")
    -- Where less is left than is taken, what comes next is no thinned stand but a young one.
    if record.left:has() and not quantity.less(record.left:basal_area(), record.taken:basal_area()) then
        acts.set(record, "stocking_left", need("stocking").percent(record.left, {}), "stocking left")
    end
    if record.crop then
        acts.set(record, "felled_each", M.doubted(record, record.taken:trees({ what = "trees " .. done }))
            / record.crop.count, "trees felled for each crop tree")
    end
end

--- Sets how the trees are marked, in words.
function M.set_marking(record)
    local values = record.values
    if not (values.to or values.from or values.order or values.limits or values.crop or values.patches or values.strips) then
        return
    end
    for _, words in ipairs(need("marking_words").of(record)) do table.insert(record.notes, words) end
end

--- Wood in what is taken, on all of its ground.
-- @param which as products.wood takes it
-- @param as "cords", "board feet" or "tons"
-- @param product nil for all of it
function M.wood(record, acres, which, as, product)
    return M.doubted(record, need("products").wood(record.stand, record.taken, which, { as = as, product = product },
        record.place)) * acres
end

--- Sets the wood in what is taken.
-- @param words what the owner reads: "wood in what is felled"
function M.set_wood(record, acres, words)
    if not record.taken:has({ from = 5 }) then return end -- the least diameter that makes cords
    local which = { what = "what is taken" }
    acts.set(record, "cords", quantity.say(M.wood(record, acres, which, "cords"), "cord"), words)
    acts.set(record, "tons", quantity.say(M.wood(record, acres, which, "tons"), "ton"), "its green weight")
end

--- "trees of 4 to 8 in", with the rate's name where several rates are at work.
function M.class_words(names, name, row)
    local words
    if not row.from and not row.below then
        words = "trees"
    elseif not row.below then
        words = ("trees over %g in"):format(row.from)
    elseif not row.from or row.from <= 0 then
        words = ("trees up to %g in"):format(row.below)
    else
        words = ("trees of %g to %g in"):format(row.from, row.below)
    end
    if #names > 1 then words = ("%s (%s)"):format(words, name) end
    return words
end

--- Hours of felling what is taken, by diameter and species group. The classes share the
--- draw of the total, so that their doubts do not cancel out.
-- @param base name of the rate: "felling", "girdling", ...
function M.hours(record, acres, base)
    -- Each class is a named part, so that `why` reads as a crew would reckon it.
    local groups, names = {}, {}
    for _, species in ipairs(record.taken:species()) do
        local name = rates.for_species(record, base, species)
        if not groups[name] then
            groups[name] = {}
            names[#names + 1] = name
        end
        table.insert(groups[name], species)
    end
    local classes = {}
    for _, name in ipairs(names) do
        local entry = rates.find(name, "trees/h", record.place, "by_diameter")
        for _, row in ipairs(entry and rates.rows(entry) or {}) do
            local class = { species = groups[name], from = row.from, below = row.below, rate = row.value,
                words = M.class_words(names, name, row) }
            if record.taken:has(class) then classes[#classes + 1] = class end
        end
    end
    local total = record.taken:trees({ what = "trees felled" })
    local terms = {}
    for i, class in ipairs(classes) do
        local trees = #classes > 1 and record.taken:part(total, nil, class) or total
        local felled = quantity.name(quantity.say(M.doubted(record, trees) * acres, "trees"),
            ("%s, %s"):format(class.words, record.id))
        terms[i] = quantity.say(felled / class.rate, "h")
    end
    if #terms == 0 then return quantity.leaf(0, "h", "there are no such trees") end
    return quantity.sum(terms)
end

return M
