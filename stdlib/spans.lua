--- Time that passes, as whole days: a range stands for the least and the most of it.
local M = {}
local quantity = need "quantity"

local NEARLY = 1e-6 -- weeks and years are counted in fractions of days

--- No time is longer: a hundred years, past the end of every schedule.
M.LONGEST = 36525

local function ends(span)
    local low, high = quantity.ends(span, "d")
    return math.min(low, M.LONGEST), math.min(high, M.LONGEST)
end

--- Is it told as a range?
function M.is_range(span)
    local low, high = quantity.ends(span, "d")
    return low < high
end

--- Days that are to pass before it is over, by its low end.
function M.least(span)
    local low = ends(span)
    return math.ceil(low - NEARLY)
end

--- Days that may pass at most, by its high end; of one time alone, the whole days of it.
function M.most(span)
    local _, high = ends(span)
    return math.max(math.floor(high + NEARLY), M.is_range(span) and M.least(span) or 0)
end

--- Days to be on the safe side of it: it may take as long as its high end.
function M.longest(span)
    local _, high = ends(span)
    return math.ceil(high - NEARLY)
end

--- Days that it surely lasts: no more than its low end.
function M.shortest(span)
    local low = ends(span)
    return math.floor(low + NEARLY)
end

return M
