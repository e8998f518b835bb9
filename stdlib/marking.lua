--- How trees are marked for cutting: down to a residual, from below or above, by diameter
--- limits and species, around crop trees. Read when an act says so.
local M = {}
local acts = need "acts"
local forest = need "forest"
local quantity = need "quantity"

--- Keys that contradict one another; false when there are any.
local function agree(record)
    local values, good = record.values, true
    local function clash(key, other, words)
        if values[key] and values[other] then
            good = acts.fault(record, key, "key-twice", ("`%s` and `%s` each say %s"):format(other, key, words),
                "keep one of them") or false
        end
    end
    clash("to", "share", "how much is cut")
    clash("to", "leave", "how much is left")
    for _, key in ipairs({ "share", "to", "leave", "from", "order" }) do clash(key, "crop", "which trees are cut") end
    for _, key in ipairs({ "from", "order" }) do
        if values[key] and not (values.to or values.share or values.crop) then
            good = acts.fault(record, key, "key-alone", ("`%s` says which trees go first, and neither `to` nor `share` says how many go")
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
            good = acts.fault(record, "order", "order-none", ("`order` names \"%s\", and there is none in \"%s\"")
                :format(word, record.stand.name), "there are " .. table.concat(stock:species(), ", ")) or false
        end
    end
    return good
end

local function set_limits(values, pick, how)
    how.limits_only = not values.species and not values.at_least
    how.limits = { not how.limits_only and { "all", pick.from or 0 } or nil }
    pick.from = nil
    local rows = {}
    for i, row in ipairs(values.limits) do rows[i] = { row.word, row.inches, forest.species_breadth(row.word) } end
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
        return acts.fault(record, "to", "to-above", ("`to` leaves %s, and %s stand in \"%s\""):format(
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
        acts.fault(record, "to", "to-out-of-reach", ("`to` leaves %s, and %s are left when all is cut that may be")
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

--- Splits the trees as felling.split does, by the keys that this module is about.
-- @param cut what felling has read so far: { stock, counted, pick, how = { share = 0.5 },
--   rows = what is kept, acres }
function M.split(record, cut)
    local values, how = record.values, cut.how
    if not agree(record) or not in_order(record, cut.stock) then return false end
    if values.limits then set_limits(values, cut.pick, how) end
    how.from, how.order = values.from, values.order
    if values.crop then return need("crown_release").free(record, cut) end
    local residual
    if values.to then
        residual = set_residual(record, cut)
        if not residual then return false end
    end
    record.taken, record.left = cut.stock:cut(cut.pick, how, cut.rows)
    return not residual or set_counted(record, cut, residual)
end

return M
