--- Reads what a stand's `site_index` tells: a height at 50 years for each species, or the
--- trees it is to be worked out from. Kept apart from site.lua, which only who asks needs.
local M = {}
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"

local LEAST, MOST = 10, 200 -- ft: what lies outside was meant in another unit

local EXAMPLE = "site_index = { [\"red oak\"] = 62 ft, [\"aspen\"] = { height = 66 ft, age = 48 yr } }"

local TREE = { height = "ft", age = "yr", years_to_breast_height = "yr" }

--- A table of ours or of an author's, not a measure, not a stand.
local function is_table(value)
    return type(value) == "table" and not quantity.is(value) and not objects.record(value)
end

--- One measured tree. What is wrong with it is told at its key.
local function tree_of(place, word, given)
    local tree, names = {}, {}
    local where = { "site_index", word }
    for name in pairs(given) do names[#names + 1] = tostring(name) end
    table.sort(names)
    for _, name in ipairs(names) do
        local value, key = given[name], { "site_index", word, name }
        if TREE[name] then
            if not (quantity.is(value) and quantity.fits(value, TREE[name])) then
                host.fault(place, key, "key-kind", ("`%s` of a site tree wants %s; this is %s"):format(name,
                    TREE[name] == "ft" and "a height, such as 62 ft" or "years, such as 55 yr", kinds.describe(value)),
                    type(value) == "number" and ("%s = %s %s"):format(name, tostring(value), TREE[name]) or nil)
            elseif quantity.number(value, TREE[name]) <= 0 then
                host.fault(place, key, "key-bounds", ("`%s` of a site tree is %s"):format(name, tostring(value)))
            end
        elseif name == "at" then
            if value ~= "total" and value ~= "breast height" then
                host.fault(place, key, "key-kind", "`at` of a site tree is \"total\" or \"breast height\"")
            end
        elseif name == "curve" then
            if type(value) ~= "string" then
                host.fault(place, key, "key-kind", "`curve` of a site tree wants the name of one")
            end
        else
            local near = host.suggest(name, { "height", "age", "at", "curve", "years_to_breast_height" })
            host.fault(place, key, "key-unknown", ("a site tree has no `%s`"):format(name),
                near and ("did you mean `%s`?"):format(near) or "it has `height`, `age`, `at`, `curve`")
        end
        tree[name] = value
    end
    for _, name in ipairs({ "height", "age" }) do
        if tree[name] == nil then
            host.fault(place, where, "key-missing", ("a site tree of %s needs its `%s`"):format(word, name),
                "{ height = 62 ft, age = 55 yr }")
        end
    end
    return tree
end

local function trees_of(place, word, given)
    if #given == 0 then return { tree_of(place, word, given) } end
    local trees = {}
    for i, one in ipairs(given) do
        if is_table(one) then
            trees[i] = tree_of(place, word, one)
        else
            host.fault(place, { "site_index", word }, "key-kind", ("tree %d of %s wants its height and age; this is %s")
                :format(i, word, kinds.describe(one)), "{ { height = 62 ft, age = 55 yr }, { height = 66 ft, age = 58 yr } }")
        end
    end
    return trees
end

--- Reads the key of a stand into its record: `site` = { species, value or trees }, by name.
function M.read(record, place, given)
    local names = {}
    for name in pairs(given) do
        if type(name) == "string" then
            names[#names + 1] = name
        else
            host.fault(place, "site_index", "site-index", "each species has its site index", EXAMPLE)
        end
    end
    table.sort(names)
    record.site = {}
    for _, name in ipairs(names) do
        local value, row = given[name], { species = name }
        if not kinds.species.take(name, nil, place, { "site_index", name }) then
            row = nil -- told
        elseif quantity.is(value) and quantity.fits(value, "ft") then
            local feet = quantity.number(value, "ft")
            if feet < LEAST or feet > MOST then
                host.fault(place, { "site_index", name }, "key-bounds",
                    ("the site index of %s is %s; it lies between %d and %d ft"):format(name, tostring(value), LEAST, MOST),
                    "it is the height in feet at 50 years")
            end
            row.value = value
        elseif is_table(value) then
            row.trees = trees_of(place, name, value)
        else
            host.fault(place, { "site_index", name }, "key-kind",
                ("the site index of %s wants a height at 50 years, or a measured tree; this is %s"):format(name,
                kinds.describe(value)), type(value) == "number" and ("[\"%s\"] = %s ft"):format(name, tostring(value))
                or EXAMPLE)
        end
        record.site[#record.site + 1] = row
    end
end

return M
