--- "What is there" of the owner's plan: each stand as it was walked, in two tables, then its
--- species and what was said of it.
local M = {}
local forest = need "forest"
local phrases = need "phrases"
local quantity = need "quantity"

local function percent(share)
    return ("%d percent"):format(math.floor(quantity.number(share, "percent") + 0.5))
end

--- Drawn ahead with all else that is printed, so made once. Nil without trees.
function M.diameter(stand)
    if stand.diameter == nil then stand.diameter = stand.cruise and stand.cruise:diameter() or false end
    return stand.diameter or nil
end

local function counts(d, stands)
    local rows = {}
    for i, stand in ipairs(stands) do
        local cruise = stand.cruise
        rows[i] = { { strong = stand.name }, stand.area, cruise and cruise:basal_area() or "",
            cruise and cruise:trees() or "", M.diameter(stand) or "", stand.walked_words or "" }
    end
    d:table { columns = { { "stand", wrap = true }, { "area", align = "number" },
        { "basal area", align = "number" }, { "trees", align = "number" },
        { "mean diameter", align = "number" }, { "known from", wrap = true } }, rows = rows }
end

--- How full it stands, and by which guide.
local function stocking(stand)
    local of = need "stocking"
    local guide = of.choose(stand.cruise)
    return of.percent(stand.cruise, { guide = guide.name }), guide.name
end

--- "68 (bigtooth aspen)" of each species that its site index is told of.
local function site_index(stand)
    local parts = {}
    for _, told in ipairs(stand.site or {}) do
        if #parts > 0 then parts[#parts + 1] = "; " end
        parts[#parts + 1] = { bare = need("site_stand").told_index(stand, told) }
        parts[#parts + 1] = (" (%s)"):format(told.species)
    end
    return parts
end

--- Wood an acre of a product; nothing where there is none.
local function wood(stand, product, as, unit)
    local value = need("products").wood(stand, stand.cruise, { what = product }, { product = product, as = as },
        stand.place)
    return quantity.number(value, unit) > 0 and { bare = value } or ""
end

local function has_trees(stand) return stand.cruise ~= nil and stand.cruise:has() end

--- Columns of the second table: title, alignment, what stands in it. Likely values: `why` has
--- the ranges.
local COLUMNS = {
    { { "stocking, percent", align = "number" }, function(stand) return { bare = stand.full } end },
    { { "by guide", wrap = true }, function(stand) return stand.guide end },
    { { "height, ft", align = "number" },
      function(stand) return { bare = need("vocabulary/stand").tree_length(stand) } end },
    { { "site index, ft", wrap = true }, site_index },
    { { "pulp, cords an acre", align = "number" },
      function(stand) return wood(stand, "pulpwood", "cords", "cord/ac") end },
    { { "sawlogs, board ft an acre", align = "number" },
      function(stand) return wood(stand, "sawlogs", "board feet", "board ft/ac") end },
}

local function is_empty(cell) return cell == nil or cell == "" or type(cell) == "table" and next(cell) == nil end

--- What a forester asks next: stocking, height, site, wood. What no stand has is left out.
local function density(d, stands)
    local list, cells = {}, {}
    for _, stand in ipairs(stands) do
        if has_trees(stand) then
            list[#list + 1] = stand
            stand.full, stand.guide = stocking(stand)
        end
    end
    if #list == 0 then return end
    local columns = { { "stand", wrap = true } }
    for i, stand in ipairs(list) do cells[i] = { { strong = stand.name } } end
    for _, column in ipairs(COLUMNS) do
        local values, some = {}, false
        for i, stand in ipairs(list) do
            values[i] = column[2](stand)
            some = some or not is_empty(values[i])
        end
        if some then
            columns[#columns + 1] = column[1]
            for i in ipairs(list) do cells[i][#columns] = values[i] end
        end
    end
    d:table { columns = columns, rows = cells }
end

--- Snags, den trees and regeneration, where the notes speak of them: runs for a sentence.
local function tallied(stand)
    local out = {}
    local function add(words, value)
        if not value then return end
        out[#out + 1] = #out == 0 and " " .. words or "; " .. words:lower()
        out[#out + 1] = value
    end
    add("Snags: ", forest.snags(stand.cruise, {}, "snags"))
    add("Den trees: ", forest.dens(stand.cruise, {}, "den trees"))
    add("Regeneration: ", forest.regeneration(stand.cruise, {}, "regeneration"))
    if #out > 0 then out[#out + 1] = "." end
    return out
end

local function words_of(stand)
    if not stand.cruise then return stand.values.says end
    local parts = {}
    for _, row in ipairs(need("vocabulary/stand").rows(stand)) do
        parts[#parts + 1] = ("%s %s"):format(row.species, percent(row.share))
    end
    return table.concat(parts, ", ") .. "."
end

--- The stands: counts, how full they are, and a line of words on each.
function M.write(d, stands)
    d:heading(2, "What is there")
    counts(d, stands)
    density(d, stands)
    for _, stand in ipairs(stands) do
        local words = words_of(stand)
        if words then
            d:item { { strong = stand.name .. ": " }, words, stand.cruise and tallied(stand) or "",
                stand.cruise and stand.values.says and " " .. phrases.sentence(stand.values.says) or "" }
        end
    end
end

return M
