--- What will stand in a stand that is cut: a table for its trees and its young growth, one for
--- what that is to game, how sure that is, who uses it when, and when to cut the next. Likely
--- values in the tables: drawing the spread of each would take longer than all the rest of the
--- plan (`why` and data have them).
local M = {}
local expected = need "expected"
local patches = need "patches"
local quantity = need "quantity"
local wildlife = need "wildlife"

--- Columns in the order of the tables: key, title, how much it must differ to say something,
--- and the least that is worth telling.
local STANDS = {
    { "basal_area", "basal area, ft2/ac", 0, 0 },
    { "trees", "trees an acre", 0, 0 },
    { "stems", "young stems an acre", 100, 100, young = true },
    { "height", "height of the highest, ft", 1, 1, young = true },
}
local FROM = ("hidden at %d ft, percent"):format(wildlife.look_from.feet)
local IS_GOOD_FOR = {
    { "light", "light on the ground, percent", 5, 5, whole = true },
    { "hides_lying", "lying deer " .. FROM, 5, 5, whole = true },
    { "hides_standing", "standing deer " .. FROM, 5, 5, whole = true },
    { "browse", "winter browse, lb/ac", 5, 5, whole = true },
    { "mast", "nuts, lb/ac", 2, 2, whole = true },
}

--- Likely values of a column at all times, and whether they say something.
local function values_of(stand, times, column)
    local values, least, most = {}, math.huge, -math.huge
    for i, time in ipairs(times) do
        local value = expected.number(stand, column[1], time.year)
        values[i] = value and (column.whole and math.floor(value + 0.5) or value) or false
        if value then least, most = math.min(least, value), math.max(most, value) end
    end
    return values, most >= column[4] and most - least >= column[3]
end

local function label_of(stand, time)
    if not time.year then return "now" end
    if time.year > 0 then return ("year %d (%d)"):format(time.year, time.season) end
    local first = patches.first_season(stand)
    for _, patch in ipairs(patches.of(stand)) do
        if patch.clock and math.floor(patch.clock) > first then return "after the first" end
    end
    return "after the cut"
end

--- @return the keys of the columns that say something
local function put_table(d, stand, times, list)
    local columns, rows, said = { "" }, {}, {}
    for i, time in ipairs(times) do rows[i] = { label_of(stand, time) } end
    for _, column in ipairs(list) do
        local values, says = values_of(stand, times, column)
        if says then
            said[column[1]] = true
            columns[#columns + 1] = { column[2], align = "number" }
            for i in ipairs(times) do rows[i][#columns] = values[i] or "" end
        end
    end
    if #columns > 1 then d:table { columns = columns, rows = rows } end
    return said
end

--- Does anything come up from root or stump that is more than brush?
local function grows(stand)
    for _, patch in ipairs(patches.of(stand)) do
        if patch.kind == "cut" and #patch.fells > 0 then
            for _, year in ipairs(expected.years) do
                if expected.number(stand, "height", year) then return true end
            end
        end
    end
    return false
end

local function columns_of(stand)
    local young, list = grows(stand), {}
    for _, column in ipairs(STANDS) do
        if young or not column.young then list[#list + 1] = column end
    end
    return list
end

--- How sure the height is: told for one year.
local SURE = 5

--- The height that is told with how sure it is: drawn ahead with all else that is printed, so
--- made once. Nil where nothing is cut.
function M.height(stand)
    if stand.sure_height == nil then
        local cut = stand.cruise and patches.first_season(stand)
        stand.sure_height = cut and expected.unnamed(stand, "height", SURE) or false
    end
    return stand.sure_height or nil
end

local function put_how_sure(d, stand, times)
    for _, time in ipairs(times) do
        local height = time.year == SURE and M.height(stand)
        if height then
            d:definition(("Height, year %d (%d)"):format(time.year, time.season), { height })
        end
    end
end

--- "deer: forage, cover; woodcock: singing ground"
local function use_words(uses)
    local games, order = {}, {}
    for _, use in ipairs(uses) do
        if not games[use.game] then
            games[use.game] = {}
            order[#order + 1] = use.game
        end
        table.insert(games[use.game], use.use)
    end
    for i, game in ipairs(order) do order[i] = ("%s: %s"):format(game, table.concat(games[game], ", ")) end
    return table.concat(order, "; ")
end

--- Who uses it, by year.
local function put_uses(d, stand, times)
    for _, time in ipairs(times) do
        local uses = time.year and time.year > 0 and expected.uses(stand, time.year) or {}
        if #uses > 0 then d:definition(("Use, year %d (%d)"):format(time.year, time.season), { use_words(uses) }) end
    end
end

local function hides_words(row)
    if not row.hides_lying then return nil end
    local words = ("lying from %d on"):format(row.hides_lying)
    if row.hides_standing then words = words .. (", standing from %d on"):format(row.hides_standing) end
    return ("%s (%d percent at %d ft, without leaves)"):format(words, wildlife.hides.percent, wildlife.hides.distance)
end

local function put_stage(d, row, entries)
    local function put(key, ...)
        if ... then d:definition(key, { ... }) end
    end
    put("Hides a deer", hides_words(row))
    put("Most browse", row.best_browse and tostring(row.best_browse))
    local last = row.useful_until and tostring(row.useful_until)
    if row.ends then
        put("Useful until", last, "; then fewer than ", wildlife.useful.stems, " stems stand on an acre")
    else
        put("Useful until", last, " at least")
    end
    put("Cut the next", row.next_cut and tostring(row.next_cut))
    if entries > 0 then
        d:definition("Later entries", { "each as many years after its own cut" })
    end
end

--- The stages of what most of the stand is; of entries those of the first.
local function put_stages(d, stand)
    local least = wildlife.told_from * quantity.number(stand.area, "ac")
    local rows, entries = need("stages").of(stand, least), 0
    for _, row in ipairs(rows) do
        if row.like then entries = entries + 1 end
    end
    if rows[1] then put_stage(d, rows[1], entries) end
end

--- "Year 2 (2028)" of what a prescription says of a year.
-- @param first its first growing season on the calendar, or nil
function M.year_words(year, first)
    if not first then return ("Year %d"):format(year) end
    return ("Year %d (%d)"):format(year, first + year - 1)
end

--- Of a stand that is cut; nothing for others.
function M.write(d, stand)
    if not stand.cruise or not patches.first_season(stand) then return end
    local times = expected.times(stand)
    d:paragraph { { strong = "What will stand there. " },
        ("Years are growing seasons since the first cut: year 1 is that of %d."):format(times[3].season) }
    local said = put_table(d, stand, times, columns_of(stand))
    put_table(d, stand, times, IS_GOOD_FOR)
    if said.height then put_how_sure(d, stand, times) end
    put_uses(d, stand, times)
    put_stages(d, stand)
end

--- Heights of what is planted: a line a kind, once for all plantings of it.
function M.planted(d, stand)
    local rows, of_species = {}, {}
    for _, year in ipairs(expected.years) do
        local seen = {}
        for _, row in ipairs(expected.planted(stand, year)) do
            local name = row.species
            if not of_species[name] then
                of_species[name] = { name }
                rows[#rows + 1] = of_species[name]
            end
            if not seen[name] then table.insert(of_species[name], { bare = row.height }) end
            seen[name] = true
        end
    end
    if #rows == 0 then return end
    local columns = { { "height of what is planted, ft", wrap = true } }
    for _, year in ipairs(expected.years) do
        columns[#columns + 1] = { ("season %d"):format(year), align = "number" }
    end
    d:table { columns = columns, rows = rows }
end

return M
