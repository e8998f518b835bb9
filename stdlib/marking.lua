--- How trees are marked for cutting: down to a residual, from below or above, by diameter
--- limits and species, around crop trees, in patches and strips. Read when an act says so.
local M = {}
local acts = need "acts"
local forest = need "forest"
local ground = need "ground"
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local schema = need "schema"

local LINES = { a = "A", b = "B", c = "C" }

--- What is left on the acre, of all trees.
kinds.residual = {
    says = "what is left on each acre, such as 60 ft2/ac, 150 trees/ac, 60 percent of full stocking or \"B line\"",
    take = function(value)
        if type(value) == "string" then
            local line = LINES[value:lower():match("^(%a)[%- ]line$")]
            return line and { line = line, words = "the " .. line .. " line" } or nil
        end
        if not quantity.is(value) then return nil end
        for _, unit in ipairs({ "trees/ac", "ft2/ac", "percent" }) do
            if quantity.fits(value, unit) then return quantity.say(value, unit) end
        end
        return nil
    end,
}

--- A table of named values in a key, checked like that of a primitive.
local function named(kind, keys, words)
    local declared = { kind = kind, keys = keys, at = kind }
    return { says = words, take = function(value, _, place)
        if type(value) ~= "table" or objects.record(value) or quantity.is(value) or #value > 0 then return nil end
        local before = host.fault_count()
        local out = schema.check(place, declared, value)
        if host.fault_count() > before then return nil, kinds.REPORTED end
        return out
    end }
end

--- Diameters by species.
kinds.limits = {
    says = "diameters by species, such as { [\"red oak\"] = 18 in }",
    take = function(value, _, place, key)
        if type(value) ~= "table" or objects.record(value) or next(value) == nil then return nil end
        local out, words = {}, {}
        for word in pairs(value) do
            if type(word) ~= "string" then return nil end
            words[#words + 1] = word
        end
        table.sort(words)
        for _, word in ipairs(words) do
            local inches = value[word]
            local known, wrong = kinds.species.take(word, nil, place, key)
            if not known then return nil, wrong end
            if kinds.diameter.take(inches, {}) == nil or quantity.below_zero(inches) then
                return nil, nil, nil, ("of \"%s\" it is %s"):format(word, kinds.describe(inches))
            end
            out[#out + 1] = { word = word, inches = quantity.number(inches, "in") }
        end
        return out
    end,
}

kinds.crop = named("crop", {
    { "trees", kind = "act", says = "the keep that names the crop trees, in place of the next four" },
    { "species", kind = "list", of = "species", says = "species of the crop trees" },
    { "at_least", kind = "diameter", says = "their least diameter" },
    { "below", kind = "diameter", says = "they are thinner than this" },
    { "count", kind = "tree_number", says = "how many: 6 trees/ac" },
    { "sides", kind = "count", least = 1, most = 4, default = 4, says = "on how many of four sides they are freed" },
    { "gap", kind = "length", default = quantity.leaf(0, "ft", "what touches"), says = "free sky around the crown: 5 to 10 ft" },
    { "spacing", kind = "choice", of = { "random", "regular" }, says = "how trees stand; without it, anything between" },
}, "a table of what is freed: { species = \"oak\", at_least = 10 in, count = 6 trees/ac, sides = 4, gap = 5 to 10 ft }")
kinds.patches = named("patches", {
    { "count", kind = "count", needed = true, least = 1, says = "how many", example = "3" },
    { "size", kind = "area", needed = true, says = "how large each is", example = "0.5 ac" },
}, "a table: { count = 3, size = 0.5 ac }")
kinds.strips = named("strips", {
    { "width", kind = "length", needed = true, says = "how wide each is", example = "40 ft" },
    { "apart", kind = "length", needed = true, says = "ground left between two", example = "80 ft" },
}, "a table: { width = 40 ft, apart = 80 ft }")

--- Tells a fault of a key once, though an act in several entries is figured several times.
local function fault(record, key, id, words, mend)
    if not record.copy_of then host.fault(record.place, key, id, words, mend) end
    return nil
end

--- Keys that contradict one another; false when there are any.
local function agree(record)
    local values, good = record.values, true
    local function clash(key, other, words)
        if values[key] and values[other] then
            good = fault(record, key, "key-twice", ("`%s` and `%s` each say %s"):format(other, key, words),
                "keep one of them") or false
        end
    end
    clash("to", "share", "how much is cut")
    clash("to", "leave", "how much is left")
    for _, key in ipairs({ "share", "to", "leave", "from", "order" }) do clash(key, "crop", "which trees are cut") end
    for _, key in ipairs({ "from", "order" }) do
        if values[key] and not (values.to or values.share or values.crop) then
            good = fault(record, key, "key-alone", ("`%s` says which trees go first, and neither `to` nor `share` says how many go")
                :format(key), "to = 60 ft2/ac or share = 30 percent beside it") or false
        end
    end
    return good
end

--- Are the species of `order` there?
local function in_order(record, stock)
    local good = true
    for _, word in ipairs(record.values.order or {}) do
        if not stock:has(word) then
            good = fault(record, "order", "order-none", ("`order` names \"%s\", and there is none in \"%s\"")
                :format(word, record.stand.name), "there are " .. table.concat(stock:species(), ", ")) or false
        end
    end
    return good
end

--- How many species a word means: the narrower word has the last say.
local function breadth(word)
    local count = 0
    for _, name in ipairs(forest.species_names()) do
        if forest.species_among(word, name) then count = count + 1 end
    end
    return count
end

local function set_limits(values, pick, how)
    how.limits_only = not values.species and not values.at_least
    how.limits = { not how.limits_only and { "all", pick.from or 0 } or nil }
    pick.from = nil
    local rows = {}
    for i, row in ipairs(values.limits) do rows[i] = { row.word, row.inches, breadth(row.word) } end
    table.sort(rows, function(a, b)
        if a[3] ~= b[3] then return a[3] > b[3] end
        return a[1] < b[1]
    end)
    for _, row in ipairs(rows) do how.limits[#how.limits + 1] = row end
end

local UNITS = { trees = "trees/ac", ["basal area"] = "ft2/ac" }

local function standing_of(stock, measure)
    local figure = measure == "trees" and stock.trees or stock.basal_area
    return figure(stock, { what = "what stands" })
end

--- What stands before the cut; as an act before has counted it out, where it did.
local function standing(cut)
    return cut.counted[cut.how.measure == "trees" and "trees_left" or "basal_area_left"]
        or standing_of(cut.stock, cut.how.measure)
end

--- The basal area of a line of the stocking guide for what `stock` is.
local function on_the_line(record, stock, to)
    local stand = record.stand
    local seen = { name = stand.name, values = stand.values, area = stand.area, cruise = stock, place = stand.place }
    local row = need("answers").row("stocking_line")
    local of_full = quantity.is(to)
    local line = row.call(seen, { line = of_full and "A" or to.line, as = "basal area" }, record.place)
    return of_full and quantity.say(line * to, "ft2/ac") or line
end

local ROUNDS, NEAR = 20, 0.01 -- ft2/ac

--- A line is that of the mean diameter, and the mean diameter is that of what is left: cut,
--- look at what is left, and cut again until both agree.
local function line_residual(record, cut)
    local to, left, how = record.values.to, cut.stock, cut.how
    local residual
    for _ = 1, ROUNDS do
        local before = residual and quantity.number(residual, "ft2/ac")
        residual = on_the_line(record, left, to)
        how.to, how.measure = quantity.number(residual, "ft2/ac"), "basal area"
        if before and math.abs(before - how.to) < NEAR then break end
        local _, rest = cut.stock:cut(cut.pick, how, cut.rows)
        left = rest
    end
    return quantity.leaf(how.to, "ft2/ac", "basal area of " .. (quantity.is(to) and "that stocking" or to.words))
end

--- What is left in all, as a measure, set in `how`; nil when the fault is told.
local function set_residual(record, cut)
    local to, how = record.values.to, cut.how
    local residual = to
    if not quantity.is(to) or quantity.fits(to, "percent") then
        residual = line_residual(record, cut)
    else
        how.measure = quantity.fits(to, "trees/ac") and "trees" or "basal area"
        how.to = quantity.number(to, UNITS[how.measure])
    end
    local stands = standing(cut)
    if quantity.number(stands, UNITS[how.measure]) < how.to then
        return fault(record, "to", "to-above", ("`to` leaves %s, and %s stand in \"%s\""):format(
            quantity.short(residual), quantity.short(stands), record.stand.name), "nothing needs to be cut; or say less")
    end
    return residual
end

--- What is left when it is counted while marking, and what is so taken: the doubt of what
--- stands is all in what is taken.
local function set_counted(record, cut, residual)
    local how = cut.how
    local unit = UNITS[how.measure]
    local kept = standing_of(record.left, how.measure)
    if quantity.number(kept, unit) > how.to * (1 + 1e-9) + 1e-9 then
        fault(record, "to", "to-out-of-reach", ("`to` leaves %s, and %s are left when all is cut that may be")
            :format(quantity.short(residual), quantity.short(kept)),
            "more species or sizes, fewer trees kept, or more left")
        return false
    end
    local stands = standing(cut)
    local low = quantity.ends(stands, unit)
    local _, most = quantity.ends(residual, unit)
    local left = residual
    if low < most then left = math.min(residual, stands) end
    local key = how.measure == "trees" and "trees" or "basal_area"
    record.counted = { [key .. "_left"] = left, [key .. "_taken"] = quantity.say(stands - left, unit) }
    return true
end

--- The keep that has the crop trees: its place among the rows, or nil.
local function crop_row(record, rows, acres)
    local crop = record.values.crop
    if crop.trees then
        for i, row in ipairs(rows) do
            if row.of == crop.trees then return i end
        end
        return fault(record, { "crop", "trees" }, "crop-keep",
            ("`trees` wants a keep of trees in \"%s\""):format(record.stand.name),
            "crop = { species = \"oak\", count = 6 trees/ac }")
    end
    if not crop.count then
        return fault(record, "crop", "key-missing", "crop needs `count`, or `trees`: how many trees are freed",
            "count = 6 trees/ac")
    end
    local row = { species = crop.species, order = "largest", amount = need("felling").per_acre(crop.count, acres),
        from = crop.at_least and quantity.number(crop.at_least, "in"),
        below = crop.below and quantity.number(crop.below, "in") }
    table.insert(rows, 1, row) -- before other keeps, which may name the same trees
    return 1
end

local EVENNESS = { random = { 0, 0 }, regular = { 1, 1 } }
local SOURCE = "stems and crowns by chance, from trees at random to trees evenly spaced: common practice, no source"

--- Fells what touches the crop trees' crowns. How many that are hangs on the gap and on how
--- trees stand: the ends of both give the range.
local function free(record, cut)
    local crop, how = record.values.crop, cut.how
    how.crop = crop_row(record, cut.rows, cut.acres)
    if not how.crop then return false end
    local gap = ground.feet(crop.gap, record.stand, record.place, { "crop", "gap" })
    local even = EVENNESS[crop.spacing] or { 0, 1 }
    local low, high = quantity.ends(gap, "ft")
    local found
    local usual = need("crowns").usual
    how.crown_start, how.crown_slope = usual[1], usual[2]
    local function felled(gap_ft, evenness)
        how.sides, how.gap, how.evenness = crop.sides, gap_ft, evenness
        local taken, left
        taken, left, found = cut.stock:cut(cut.pick, how, cut.rows)
        return quantity.number(taken:trees(), "trees/ac"), taken, left
    end
    local ends = {}
    for _, feet in ipairs({ low, high }) do
        for _, evenness in ipairs(even) do ends[#ends + 1] = (felled(feet, evenness)) end
    end
    local likely
    likely, record.taken, record.left = felled(quantity.number(gap, "ft"), (even[1] + even[2]) / 2)
    local count = found[how.crop]
    if count <= 0 then
        fault(record, "crop", "crop-none", ("there are no such crop trees in \"%s\""):format(record.stand.name),
            "there are " .. table.concat(cut.stock:species(), ", "))
        return false
    end
    if likely > 0 then
        local least, most = math.min(likely, table.unpack(ends)), math.max(likely, table.unpack(ends))
        if most > least then
            record.taken_doubt = quantity.range(100 * least / likely, 100, 100 * most / likely, "percent",
                "trees that touch crown to crown, " .. record.id, SOURCE) / quantity.leaf(100, "percent", "the likely number")
        end
    end
    record.crop = { count = quantity.leaf(count, "trees/ac", "crop trees"), gap = gap }
    return true
end

--- Splits the trees as felling.split does, by the keys that this module is about.
-- @param cut what felling has read so far: { stock, counted, pick, how = { share = 0.5 },
--   rows = what is kept, acres }
function M.split(record, cut)
    local values, how = record.values, cut.how
    if not agree(record) or not in_order(record, cut.stock) then return false end
    if values.limits then set_limits(values, cut.pick, how) end
    how.from, how.order = values.from, values.order
    if values.crop then return free(record, cut) end
    local residual
    if values.to then
        residual = set_residual(record, cut)
        if not residual then return false end
    end
    record.taken, record.left = cut.stock:cut(cut.pick, how, cut.rows)
    return not residual or set_counted(record, cut, residual)
end

--- Ground of patches or strips, out of what may be cut; nil when a fault is told.
function M.acres(record, whole)
    local values = record.values
    for _, pair in ipairs({ { "patches", "strips" }, { "part", "patches" }, { "part", "strips" } }) do
        if values[pair[1]] and values[pair[2]] then
            return fault(record, pair[2], "key-twice", ("`%s` and `%s` each say on which ground"):format(pair[1], pair[2]),
                "keep one of them")
        end
    end
    if values.patches then
        local area = quantity.say(values.patches.size * values.patches.count * acts.fraction(record), "ac")
        if quantity.less(whole, area) then
            return fault(record, "patches", "patches-ground", ("the patches take %s, and \"%s\" has %s to work on")
                :format(quantity.short(area), record.stand.name, quantity.short(whole)), "fewer or smaller patches")
        end
        return area
    end
    local width = ground.feet(values.strips.width, record.stand, record.place, { "strips", "width" })
    local apart = ground.feet(values.strips.apart, record.stand, record.place, { "strips", "apart" })
    if not width or not apart then return nil end
    if quantity.number(width, "ft") <= 0 then
        return fault(record, { "strips", "width" }, "key-bounds", "strips of no width take no trees")
    end
    return quantity.say(whole * (width / (width + apart)), "ac")
end

return M
