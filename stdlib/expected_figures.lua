--- The figures of a patch at a time: what stands on it, what grows, what hides and feeds deer.
-- Of expected.lua, whose columns tell their units and words. `at` = { stand, patch, trees, layers,
-- grows (layers once they do), seasons, how (as quantities or as bare numbers) }.
local M = {}
local data = need "regrowth"
local deer = need "deer"
local growth = need "patch_growth"
local quantity = need "quantity"
local wildlife = need "wildlife"
local young = need "young_growth"

local function highest(at, layers)
    local value
    for _, layer in ipairs(layers) do
        local height = at.how.read(layer.dominant, "ft")
        value = value and math.max(value, height) or height
    end
    return value
end

function M.trees(at) return at.trees.trees end
function M.basal_area(at)
    local parts = { at.trees.basal_area }
    for _, layer in ipairs(at.grows) do
        parts[#parts + 1] = at.how.equation("basal area of young stems", { layer.stems, layer.mean }, {},
            "0.12 in for each foot above breast height: common practice, no source")
    end
    return at.how.sum(parts)
end
function M.stems(at)
    local list = {}
    for i, layer in ipairs(at.layers) do list[i] = at.how.read(layer.stems, "stems/ac") end
    return #list > 0 and at.how.sum(list) or at.how.leaf(0, "stems/ac", "no young stems")
end
function M.height(at) return highest(at, at.grows) end
function M.mean_height(at)
    local first = at.grows[1]
    return first and at.how.read(first.mean, "ft")
end
function M.light(at)
    return at.how.equation("light on the ground", { at.trees.basal_area }, { wildlife.light.loss },
        wildlife.light.source)
end
local function cover(at)
    at.cover = at.cover or deer.cover(at.layers, at.trees.diameter and at.trees, "bare", at.stand.name, at.how)
    return at.cover
end
function M.hides_lying(at) return cover(at).lying end
function M.hides_standing(at) return cover(at).standing end

local small_of = {} -- by stock

local function find_small(stock)
    local small = { below = 3, what = "trees under 3 in" }
    if not stock:has(small) then return nil end
    -- Feet of height for each inch, and 5 more: common practice, no source.
    local source = "height of small trees: " .. data.brush.source
    local height = stock:diameter(small) * quantity.leaf(6, "ft/in", source) + quantity.leaf(5, "ft", source)
    return { words = "small trees", dominant = height, mean = height, wanted = 70,
        stems = quantity.say(stock:trees(small) * quantity.leaf(1, "stems/tree", "each tree a stem"), "stems/ac") }
end

--- Trees under 3 in as a layer to browse; nil where there are none.
-- @param stock of trees, or nil
function M.small_trees(stock)
    if not stock then return nil end
    if small_of[stock] == nil then small_of[stock] = find_small(stock) or false end
    return small_of[stock] or nil
end

--- Of young growth, and of the small trees that stand: as tall as when they were tallied.
function M.browse(at)
    if not at.browse then
        local layers = table.move(at.layers, 1, #at.layers, 1, {})
        layers[#layers + 1] = M.small_trees(at.trees.stock)
        at.browse = deer.browse(layers, "winter", nil, at.stand.name, nil, at.how)
    end
    return at.browse
end
function M.deer_days(at) return deer.deer_days(M.browse(at), at.stand.name, at.how) end
function M.mast(at)
    if not at.trees.stock then return at.how.leaf(0, "lb/ac", "no trees") end
    -- A cut that takes little frees few crowns: what all bear rises as their growth does.
    local freed = at.patch.kind == "cut" and at.seasons and at.seasons >= wildlife.released.after
    local options = { released = freed and growth.room(at.stand, at.patch) or nil, grown = at.trees.grown }
    if at.how == young.plain then return deer.mast_number(at.trees.stock, at.stand.name, options) end
    return (deer.mast(at.trees.stock, at.stand.name, options))
end

return M
