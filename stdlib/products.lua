--- What makes a sawlog or a stick of pulpwood, from the rates that layers may change, and the
--- wood of a stand by it.
local M = {}
local forest = need "forest"
local quantity = need "quantity"
local rates = need "rates"
local run = need "run"

--- The words that scripts use.
M.products = { "wood", "sawlogs", "pulpwood" }
M.units = { "cords", "cubic feet", "board feet", "tons" }

local function number(name, unit, place)
    local entry = rates.find(name, unit, place)
    return entry and entry.value and quantity.number(entry.value, unit)
end

--- The limits of products as forest.wood takes them.
local function limits_of(place)
    local part = number("pulpwood top, part of the tree", "percent", place)
    return {
        pulp_from = number("pulpwood tree", "in", place), pulp_top = number("pulpwood top", "in", place),
        pulp_top_part = part and part / 100, bolt = number("pulpwood bolt", "ft", place),
        hardwood_from = number("sawlog tree, hardwood", "in", place),
        hardwood_top = number("sawlog top, hardwood", "in", place),
        softwood_from = number("sawlog tree, softwood", "in", place),
        softwood_top = number("sawlog top, softwood", "in", place),
        solid = number("solid wood in a cord", "ft3", place),
    }
end

local kept -- a class whose tables have the limits, once no layer can change a rate any more

local function class_of_limits(place)
    local class = kept or { __index = limits_of(place) }
    if run.settled then kept = class end
    return class
end

--- What the forest room wants to know of the wood that is asked for.
-- @param record the stand's
-- @param asked { product, as, rule, form_class, bark }
-- @return that, and the tree length as a measure or nil
function M.ask(record, asked, place)
    need "biomass" -- bark
    local length = need("vocabulary/stand").tree_length(record)
    local ask = setmetatable({}, class_of_limits(place))
    for key, value in pairs(asked or {}) do ask[key] = value end
    ask.heights_told = record.values.tree_length ~= nil
    -- In lengths of the trees themselves: a stand's own height cannot be told by itself.
    if not quantity.fits(length, "ft") then length, ask.heights_told = nil, false end
    ask.tree_length = length and quantity.number(length, "ft") or 60
    return ask, length
end

--- Wood of an acre of trees: all of it in cords when nothing else is asked.
-- @param record the stand's; stock its trees, or what a cut takes of them
-- @param which nil, or { species =, except =, from =, below =, what = }
-- @param asked as for M.ask
function M.wood(record, stock, which, asked, place)
    local ask, length = M.ask(record, asked, place)
    local wood = forest.wood(stock, which, ask, length)
    local fit = rates.find("fit of the volume tables", "percent", place)
    return fit and fit.value and quantity.say(wood * fit.value, quantity.unit(wood)) or wood
end

--- The rate of what one truck carries.
-- @param by "weight" or "cords"
-- @param truck "usual" or "heavy"
function M.truck(by, truck, place)
    local name = by == "cords" and "truckload" or "truck payload"
    if truck == "heavy" then name = name .. ", heavy truck" end
    return rates.find(name, by == "cords" and "cord" or "ton", place)
end

--- Dry weight of what lies there when these trees are felled and their wood is taken.
function M.slash(record, stock, which, place)
    local ask = M.ask(record, nil, place)
    return forest.slash(stock, which, ask)
end

return M
