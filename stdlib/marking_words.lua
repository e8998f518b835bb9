--- What the crew reads of how trees are marked: a sentence for each key, and of each ten
--- trees of a size how many go; and what scripts read of it, class by class.
local M = {}
local phrases = need "phrases"
local quantity = need "quantity"

local FROM = { below = "the smallest first", above = "the largest first", across = "of all sizes alike" }
local WIDTH = 2 -- inches of a class, as a crew reads them off a stick

--- How many of ten, in words.
local function of_ten(taken, there)
    local ten = math.floor(10 * taken / there + 0.5)
    if taken >= there * (1 - 1e-9) then return "all" end
    if taken <= there * 1e-9 then return "none" end
    if ten >= 10 then return "nearly all" end
    return ten < 1 and "hardly any" or tostring(ten)
end

--- "of 3 to 7 in all, of 7 to 9 in 4, of 9 to 11 in none"; nil when nothing is taken.
local function sizes(classes)
    local parts, any = {}, false
    for _, class in ipairs(classes) do
        local words = of_ten(class.taken, class.there)
        local last = parts[#parts]
        any = any or words ~= "none"
        if last and last.words == words then
            last.below = class.below
        else
            parts[#parts + 1] = { words = words, from = class.from, below = class.below }
        end
    end
    for i, part in ipairs(parts) do
        parts[i] = ("of %g to %g in %s"):format(math.max(part.from, 0), part.below, part.words)
    end
    return any and table.concat(parts, ", ") or nil
end

--- Classes with how many stand and how many are taken, by species or of all together.
local function classes(record, by_species)
    local groups, at = {}, {}
    local function put(rows, key)
        for _, row in ipairs(rows) do
            local name = by_species and row.species or ""
            local group = at[name]
            if not group then
                group = { name = name, list = {}, at = {} }
                at[name], groups[#groups + 1] = group, group
            end
            local class = group.at[row.diameter]
            if not class then
                class = { diameter = row.diameter, from = row.from, below = row.below, there = 0, taken = 0 }
                group.at[row.diameter], group.list[#group.list + 1] = class, class
            end
            class.there = class.there + row.trees
            class[key] = class[key] + (key == "taken" and row.trees or 0)
        end
    end
    put(record.taken:classes(WIDTH), "taken")
    put(record.left:classes(WIDTH), "there")
    for _, group in ipairs(groups) do
        table.sort(group.list, function(a, b) return a.diameter < b.diameter end)
    end
    return groups
end

--- The marking guide, a sentence a species.
local function guide(record)
    local values = record.values
    local by_species = values.order or values.limits or values.species
    local out = {}
    for _, group in ipairs(classes(record, by_species)) do
        local words = sizes(group.list)
        if words then
            out[#out + 1] = ("Of each 10 %s %s."):format(by_species and group.name .. " trees" or "trees", words)
        end
    end
    return "Marking guide: take about so many. " .. table.concat(out, " ")
end

--- "5 to 10 ft".
local function span(length)
    local low, high = quantity.ends(length, "ft")
    return low < high and ("%.3g to %.3g ft"):format(low, high) or quantity.short(length)
end

local function crop_words(record)
    local crop, values = record.crop, record.values.crop
    local named = values.trees and values.trees.values or values
    local words = named.species and phrases.listed(named.species) or "trees"
    if named.at_least then words = words .. (" of %s and more"):format(quantity.short(named.at_least)) end
    local near = quantity.number(crop.gap, "ft") > 0 and (" or comes within %s of it"):format(span(crop.gap)) or ""
    local sides = values.sides == 4 and "all sides" or ("%d of 4 sides"):format(values.sides)
    return ("Crop trees: %s, %s. Take what touches such a crown%s, on %s: about %s for each; trees under half as thick stand below it and may stay.")
        :format(quantity.short(crop.count), words, near, sides, quantity.short(record.figures.felled_each.value))
end

local function goal_words(to)
    if not quantity.is(to) then return (" down to %s"):format(to.words) end
    if quantity.fits(to, "percent") then return (" down to %s of full stocking"):format(quantity.short(to)) end
    return (" until %s are left"):format(quantity.short(to))
end

--- Sentences for the crew's sheet.
function M.of(record)
    local values, out = record.values, {}
    if values.patches then
        local count, size = values.patches.count, quantity.short(values.patches.size)
        out[#out + 1] = count == 1 and ("In 1 patch of %s."):format(size) or ("In %d patches of %s each."):format(count, size)
    elseif values.strips then
        out[#out + 1] = ("In strips %s wide, with %s left between them."):format(quantity.short(values.strips.width),
            quantity.short(values.strips.apart))
    end
    for _, row in ipairs(values.limits or {}) do
        out[#out + 1] = ("Of %s only trees of %g in and more."):format(row.word, row.inches)
    end
    if not record.taken then return out end
    if record.crop then
        out[#out + 1] = crop_words(record)
    elseif values.to or values.from or values.order then
        local first = values.order and phrases.listed(values.order) .. " before others" .. (values.from and ", " or "") or ""
        first = first .. (values.from and FROM[values.from] or not values.order and FROM.across or "")
        local goal = values.to and goal_words(values.to) or ""
        out[#out + 1] = ("Take %s%s."):format(first, goal)
        out[#out + 1] = guide(record)
    elseif values.limits then
        out[#out + 1] = guide(record)
    end
    return out
end

--- Rows of a stock by species and diameter class: what `a:taken_classes()` answers.
-- @param width of a class, a length; 2 in when nil
function M.classes(record, stock, width)
    local felling = need "felling"
    local out = {}
    local step = width and quantity.number(width, "in") or 2
    for i, row in ipairs(stock and stock:classes(step) or {}) do
        local pick = { species = { row.species }, from = row.from, below = row.below,
            what = ("%s of %g in"):format(row.species, row.diameter) }
        local trees, basal_area = stock:trees(pick), stock:basal_area(pick)
        if stock == record.taken then trees, basal_area = felling.doubted(record, trees), felling.doubted(record, basal_area) end
        out[i] = { species = row.species, diameter = quantity.leaf(row.diameter, "in", "its class"),
            trees = trees, basal_area = basal_area }
    end
    return out
end

return M
