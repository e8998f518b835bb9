--- What slows work down on the ground: a slope or heavy brush, the worse of the two, once;
--- and deep snow besides. Each is a rate, a percent of the usual pace.
local M = {}
local quantity = need "quantity"
local rates = need "rates"

--- The key of acts that snow slows.
M.snow = { "snow", kind = "length", says = "settled snow that it is done in: 14 in; deep snow slows the work" }

local function find(name, words, place)
    local entry = rates.find(name, "percent", place)
    return entry and { value = entry.value, words = words }
end

--- The rate of the pace on ground so steep, and what to call it.
local function slope_words(stand, place)
    local slope = stand.values.slope
    for _, row in ipairs(slope and { { "very steep ground", "pace on a steep slope" }, { "steep ground", "pace on a slope" } } or {}) do
        local from = rates.find(row[1], "percent", place)
        if from and quantity.less(from.value, slope) then return row[2], row[1] end
    end
    return nil
end

--- What of the ground slows the work most, or nil.
local function of_ground(record, in_brush)
    local brush = in_brush and record.stand.values.brush == "heavy"
        and find("pace in heavy brush", "heavy brush", record.place)
    local name, words = slope_words(record.stand, record.place)
    local slope = name and find(name, words, record.place)
    if brush and slope then return quantity.less(slope.value, brush.value) and slope or brush end
    return brush or slope or nil
end

local function of_snow(record)
    local snow = record.values.snow
    local deep = snow and rates.find("deep snow", "in", record.place)
    if not deep or not quantity.fits(snow, "in") or not quantity.less(deep.value, snow) then return nil end
    return find("pace in deep snow", "deep snow", record.place)
end

--- How fast the work goes, of the usual pace, as a measure; nil where nothing slows it. Says
--- so in the act's notes.
-- @param in_brush does brush that stands there slow it? Not where the rate is one of brush
function M.of(record, in_brush)
    if not record.stand then return nil end
    if record.pace ~= nil then return record.pace or nil end -- told already
    local all, words = nil, {}
    for _, part in ipairs({ of_ground(record, in_brush) or false, of_snow(record) or false }) do
        if part then
            all = all and all * part.value or part.value
            words[#words + 1] = part.words
        end
    end
    record.pace = all or false
    if not all then return nil end
    table.insert(record.notes, ("The work goes at about %s of the usual pace: %s."):format(
        quantity.short(quantity.say(all, "percent")), table.concat(words, ", ")))
    return all
end

--- Hours at that pace.
function M.slowed(record, hours, in_brush)
    local pace = hours and M.of(record, in_brush)
    return pace and quantity.say(hours / pace, "h") or hours
end

return M
