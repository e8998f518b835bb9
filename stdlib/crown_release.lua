--- Crop trees freed: which of the trees around them are cut.
local M = {}
local acts = need "acts"
local ground = need "ground"
local quantity = need "quantity"

--- The keep that has the crop trees: its place among the rows, or nil.
local function crop_row(record, rows, acres)
    local crop = record.values.crop
    if crop.trees then
        for i, row in ipairs(rows) do
            if row.of == crop.trees then return i end
        end
        return acts.fault(record, { "crop", "trees" }, "crop-keep",
            ("`trees` wants a keep of trees in \"%s\""):format(record.stand.name),
            "crop = { species = \"oak\", count = 6 trees/ac }")
    end
    if not crop.count then
        return acts.fault(record, "crop", "key-missing", "crop needs `count`, or `trees`: how many trees are freed",
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
-- @param cut as marking.split has it
function M.free(record, cut)
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
        acts.fault(record, "crop", "crop-none", ("there are no such crop trees in \"%s\""):format(record.stand.name),
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

return M
