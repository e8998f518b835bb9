--- Where the ground of a stand goes (ledger.lua), by shapes: each row less all before it,
--- overlaps once; and what no shape covers is measured by itself, so that the sum is no
--- foregone one.
local M = {}
local ledger = need "ledger"
local map = need "map"
local quantity = need "quantity"
local shapes = need "shapes"

local function acres(shape) return shape:area() / map.FT2_PER_AC end

--- The shape of a claim; nil when it goes by numbers, as what is planned only in part does: the
--- map does not say in which.
local function shape_of(claim)
    local record = claim.record
    if not record.shape or claim.all then return nil end
    if ledger.OF_REST[claim.row] and (not record.by_shape or record.values.patches or record.values.strips) then return nil end
    if claim.share < 1 - 1e-9 and claim.row ~= "kept" and claim.row ~= "buffer" then return nil end
    return record.shape
end

--- Gives a claim what of its shape lies in the stand and is not taken yet.
local function give_shape(book, claim, shape, stand)
    local ground = shape:intersection(book.ground or stand.shape, shape:words())
    if ground:is_empty() then
        claim.elsewhere = not book.ground or shape:intersection(stand.shape):is_empty()
        if claim.elsewhere then return 0 end
    else
        book.ground = (book.ground or stand.shape):difference(ground)
    end
    claim.own = map.acres(ground)
    if claim.record.doubt then claim.own = claim.own * claim.record.doubt end
    return acres(ground)
end

--- What is not taken yet, as a shape; then nothing is left.
local function give_rest(book, stand)
    local rest = acres(book.ground or stand.shape)
    book.ground = shapes.make("area", {}, "nothing")
    return rest
end

--- One row. Ground that goes by numbers lies somewhere: after it nobody knows which shapes make
--- room for it, and all rows take at most what is left.
function M.give(book, row, stand)
    local given, asked, all = 0, 0, false
    for _, claim in ipairs(book.of_row[row]) do
        local shape = shape_of(claim)
        all = all or claim.all
        claim.elsewhere = not shape and claim.record.stand ~= stand
        if shape then
            given = given + give_shape(book, claim, shape, stand)
        elseif not claim.elsewhere and not claim.all then
            asked = asked + ledger.wanted(claim, book)
        end
        local number = claim.record.taken_number
        if shape and number then asked = asked + quantity.number(number, "ac") end
    end
    if book.by_number then given = math.min(given, book.left) end
    book.by_number = book.by_number or (asked > 0 and not all)
    if all then given = book.by_number and book.left or given + give_rest(book, stand) end
    local numbers = all and 0 or math.min(asked, math.max(0, book.left - given))
    book.rows[row] = given + numbers
    book.left = math.max(0, book.left - book.rows[row])
    for _, claim in ipairs(book.of_row[row]) do claim.scale = asked > 0 and numbers / asked or 0 end
end

--- What no row has: measured, where all of them are shapes.
function M.untouched(book, stand)
    if book.by_number then return book.left end
    return give_rest(book, stand)
end

return M
