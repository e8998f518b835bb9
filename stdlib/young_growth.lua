--- What all that grows back is figured with: traits of species, doubted numbers of our tables, and
--- equations. Doubts are named leaves kept apart by stand. Worked out in one of two ways:
--- M.measured, as measures that know their range and their source; M.plain, as bare likely
--- numbers in ft, stems/ac, ft2/ac, percent, for tables that tell no more. The layers
--- themselves are in young_layers.lua.
local M = {}
local data = need "regrowth"
local forest = need "forest"
local quantity = need "quantity"
local wildlife = need "wildlife"

--- What our tables tell of species, by the start of the trait's word.
local TABLES = {
    sprout = function() return data.sprouting end,
    mast = function() return wildlife.mast end,
    browse = function() return M.ranked("browse_rank", wildlife.browse_ranks) end,
    shade = function() return M.ranked("shade_tolerance", wildlife.shade_tolerance) end,
}

--- Rows { species, traits } of a table that lists species under a rank.
function M.ranked(trait, rows)
    local out = {}
    for _, row in ipairs(rows) do
        local traits = { [trait] = row[1], source = row[2] }
        for i = 3, #row do out[#out + 1] = { row[i], traits } end
    end
    return out
end

--- Puts the traits of a table where no layer has said any; once.
local function fill(word)
    local start = word:match("^%l+")
    local rows = TABLES[start]
    if not rows then return end
    TABLES[start] = nil
    for _, row in ipairs(rows()) do forest.species_fill(row[1], row[2]) end
end

--- A trait of one species and its source, from all layers; nil when nothing is known.
function M.trait(species, word)
    fill(word)
    return forest.species_trait(species, word)
end

local doubts = {} -- by place, then by words: asked of the same place again they are the same

--- A doubted number of our tables as a leaf of its own for each place it is about.
-- @param row { low, likely, high, unit, words, source }, or a list of the three numbers
-- @param where what it is about: the name of the stand
function M.doubt(row, where, words, unit, source)
    local low, likely, high = row.low or row[1], row.likely or row[2], row.high or row[3]
    unit, words, source = unit or row.unit, words or row.words, source or row.source
    local there = doubts[where] or {}
    local known = there[words]
    if known and known.low == low and known.likely == likely and known.high == high then return known.value end
    local value
    if low == high then
        value = quantity.leaf(likely, unit, source and words .. ": " .. source or words)
    else
        local name = words .. ", " .. where
        value = quantity.name(quantity.range(low, likely, high, unit, name, source), name)
    end
    doubts[where], there[words] = there, { low = low, likely = likely, high = high, value = value }
    return value
end

local percents = {} -- by words, then by number

--- A certain percent of our tables.
function M.percent(number, words)
    local there = percents[words] or {}
    percents[words] = there
    there[number] = there[number] or quantity.leaf(number, "percent", words)
    return there[number]
end

--- An equation over measures.
function M.equation(name, operands, numbers, words) return forest.regrowth(name, operands, numbers or {}, words) end

M.measured = {
    equation = M.equation,
    percent_of = function(value, percent, words) return value * M.percent(percent, words) end,
    share_of = function(value, share, unit) return quantity.say(value * share, unit) end,
    leaf = quantity.leaf,
    sum = quantity.sum,
    read = function(value) return value end,
}

local function sum_of(list)
    local sum = 0
    for i = 1, #list do sum = sum + list[i] end
    return sum
end

M.plain = {
    equation = forest.regrowth_number,
    percent_of = function(value, percent) return value * percent / 100 end,
    share_of = function(value, share) return value * quantity.number(share, "percent") / 100 end,
    leaf = function(number) return number end,
    sum = sum_of,
    read = function(value, unit) return quantity.is(value) and quantity.number(value, unit) or value end,
}

local eaten = {} -- by species

--- Percent of a species' twigs that deer eat, as a plain number.
function M.wanted(species)
    if not eaten[species] then
        local rank = M.trait(species, "browse_rank") or 1
        eaten[species] = wildlife.wanted[math.floor(math.min(3, math.max(0, rank)) + 0.5)]
    end
    return eaten[species]
end

--- Growth in diameter of a species: a year as it stands, and with room, in percent of that.
function M.growth(where, species)
    for _, row in ipairs(data.growth) do
        if row[1] == "all" or forest.species_among(row[1], species) then
            return M.doubt(row.rate, where, "growth in diameter, " .. species, "in", data.growth.source),
                M.doubt(row.gain, where, "growth with room, " .. species, "percent", data.growth.source), row.rate[2]
        end
    end
end

return M
