--- What the findings say of a logger: ask one first, with the numbers that he asks; or how long
--- until the trees are big enough for one.
local M = {}
local merchantable = need "merchantable"
local quantity = need "quantity"
local rates = need "rates"

--- Does the act take enough of its stand to be spoken of? A release that takes little of much
--- is no sale, unless the little is much by itself.
local function is_release(taken, wood)
    return quantity.less(taken, wood.cords * merchantable.at "part_taken")
        and quantity.less(taken, merchantable.at "by_hand_cords")
end

--- What a sale would take of what the plan keeps there, or nil; the rest is no news to who plans
--- the cut.
local function keeps_words(record)
    local takes = merchantable.kept(record.stand, record.stand.cruise)
    if #takes == 0 then return nil end
    return "a sale would also take " .. table.concat(takes, " and ")
end

--- Words for why a logger should be asked first, or nil: enough wood in the stand, or in it
--- and those beside it on ground enough for a crew to come; what one move comes to; what his
--- machines cannot do there; what to mark.
-- @param record of an act
-- @param taken the cords that it takes
function M.words(record, taken)
    local stand = record.stand
    local wood = merchantable.of(stand)
    if not wood or is_release(taken, wood) then return nil end
    local found = merchantable.verdict(wood)
    if not found then return nil end
    local parts = { merchantable.verdict_words(wood, found) }
    local move = merchantable.moving_in(found == "together" and wood.cords_beside or wood.cords)
    if move then parts[#parts + 1] = ("one move of a crew comes to %s"):format(quantity.short(move)) end
    local years = merchantable.years(stand, record.place)
    if years then
        parts[#parts + 1] = ("the trees are thin yet: big enough on the average in %s"):format(
            merchantable.years_words(years))
    end
    for _, words in ipairs(merchantable.limits(stand)) do parts[#parts + 1] = words end
    parts[#parts + 1] = keeps_words(record)
    return table.concat(parts, "; ")
end

--- Would as much ground carry a sale once its trees are big enough?
local function is_wide(wood)
    return not quantity.less(#wood.beside > 0 and wood.area_beside or wood.area, merchantable.at "area_beside")
end

--- Words for a stand that is too young to sell, for an act that fells much of it by hand, or nil.
function M.young_words(record)
    local stand = record.stand
    local wood = stand and record.taken and merchantable.of(stand)
    if not wood or merchantable.verdict(wood) or not is_wide(wood) then return nil end
    local trees = { except = { "shrub" } }
    if quantity.less(record.taken:basal_area(trees), stand.cruise:basal_area(trees) * merchantable.at "part_taken") then
        return nil
    end
    local years = merchantable.years(stand, record.place)
    if not years then return nil end
    local enough = rates.find("sale tree", "in", record.place)
    return ("too young to sell: %s until its trees, now %s on the average, have the %s that a logger comes for")
        :format(merchantable.years_words(years), quantity.short(stand.cruise:diameter(trees)),
            quantity.short(enough.value))
end

return M
