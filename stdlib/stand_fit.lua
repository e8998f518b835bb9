--- A stand's shape fitted to the property's outline and to the stands before it: ground belongs
--- to one stand.
local M = {}
local host = need "host"
local quantity = need "quantity"

--- Of a stand's ground, what may lie outside the property or in another stand and is left out
--- with a warning; more is a fault: common practice, no source.
local MOST_CUT = 0.02
--- A share less than this is no more than the rounding of two maps, and left out unsaid.
local LEAST_TOLD = 0.001

local function acres_words(ft2) return quantity.short(quantity.leaf(ft2 / need("map").FT2_PER_AC, "ac")) end

--- A stand's shape less what lies where it cannot be; nil when that is too much.
-- @param lost the shape that is left out
-- @param where "outside the property", "in stand \"Oak ridge\""
local function less(record, lost, where, id, mend)
    local ft2 = lost:area()
    if ft2 == 0 then return record.shape end
    local share = ft2 / record.shape:area()
    local words = ("%s of stand \"%s\" (%.1f percent of it) lies %s"):format(acres_words(ft2), record.name,
        share * 100, where)
    if share > MOST_CUT then
        host.fault(record.place, "map", id, words, mend)
        return nil
    end
    if share > LEAST_TOLD then host.warning(record.place, "map", id, words .. ", and is left out") end
    return record.shape:difference(lost, record.shape:words())
end

--- Checks a stand's shape against the property's outline and the stands before it.
-- @return the shape to use, nil when a fault was told
function M.fit(record, outline, stands)
    if outline then
        record.shape = less(record, record.shape:difference(outline), "outside the property", "stand-outside",
            "draw it again, or the property's outline; is it the right name?")
    end
    for _, other in ipairs(stands) do
        if record.shape and other.shape then
            record.shape = less(record, record.shape:intersection(other.shape), ("in stand \"%s\" too"):format(other.name),
                "stand-overlap", "one of the two is drawn too large: ground belongs to one stand")
        end
    end
    return record.shape
end

return M
