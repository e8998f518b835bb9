--- Keys that say how trees are marked for cutting: kinds of their values. Read when an act
--- has one of them.
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local schema = need "schema"

local LINES = { a = "A", b = "B" } -- of C no equation was seen

--- What is left on the acre, of all trees.
kinds.residual = {
    says = "what is left on each acre, such as 60 ft2/ac, 150 trees/ac, 60 percent of full stocking or \"B line\"",
    take = function(value)
        if type(value) == "string" then
            local word = value:lower():match("^(%a)[%- ]line$")
            local line = LINES[word]
            if line then return { line = line, words = "the " .. line .. " line" } end
            if word == "c" then return nil, "the \"A line\" or \"B line\": no equation of the C line was seen", "to = \"B line\"" end
            return nil
        end
        if not quantity.is(value) then return nil end
        for _, unit in ipairs({ "trees/ac", "ft2/ac", "percent" }) do
            if quantity.fits(value, unit) then return quantity.say(value, unit) end
        end
        return nil
    end,
}

--- A table of named values in a key, checked like that of a primitive.
local function named(kind, keys, words)
    local declared = { kind = kind, keys = keys, at = kind }
    return { says = words, take = function(value, _, place)
        if type(value) ~= "table" or objects.record(value) or quantity.is(value) or #value > 0 then return nil end
        local before = host.fault_count()
        local out = schema.check(place, declared, value)
        if host.fault_count() > before then return nil, kinds.REPORTED end
        return out
    end }
end

--- Diameters by species.
kinds.limits = {
    says = "diameters by species, such as { [\"red oak\"] = 18 in }",
    take = function(value, _, place, key)
        if type(value) ~= "table" or objects.record(value) or next(value) == nil then return nil end
        local out, words = {}, {}
        for word in pairs(value) do
            if type(word) ~= "string" then return nil end
            words[#words + 1] = word
        end
        table.sort(words)
        for _, word in ipairs(words) do
            local inches = value[word]
            local known, wrong = kinds.species.take(word, nil, place, key)
            if not known then return nil, wrong end
            if kinds.diameter.take(inches, {}) == nil or quantity.below_zero(inches) then
                return nil, nil, nil, ("of \"%s\" it is %s"):format(word, kinds.describe(inches))
            end
            out[#out + 1] = { word = word, inches = quantity.number(inches, "in") }
        end
        return out
    end,
}

kinds.crop = named("crop", {
    { "trees", kind = "act", says = "the keep that names the crop trees, in place of the next four" },
    { "species", kind = "list", of = "species", says = "species of the crop trees" },
    { "at_least", kind = "diameter", says = "their least diameter" },
    { "below", kind = "diameter", says = "they are thinner than this" },
    { "count", kind = "tree_number", says = "how many: 6 trees/ac" },
    { "sides", kind = "count", least = 1, most = 4, default = 4, says = "on how many of four sides they are freed" },
    { "gap", kind = "length", default = quantity.leaf(0, "ft", "what touches"), says = "free sky around the crown: 5 to 10 ft" },
    { "spacing", kind = "choice", of = { "random", "regular" }, says = "how trees stand; without it, anything between" },
}, "a table of what is freed: { species = \"oak\", at_least = 10 in, count = 6 trees/ac, sides = 4, gap = 5 to 10 ft }")
kinds.patches = named("patches", {
    { "count", kind = "count", needed = true, least = 1, says = "how many", example = "3" },
    { "size", kind = "area", needed = true, says = "how large each is", example = "0.5 ac" },
}, "a table: { count = 3, size = 0.5 ac }")
kinds.strips = named("strips", {
    { "width", kind = "length", needed = true, says = "how wide each is", example = "40 ft" },
    { "apart", kind = "length", needed = true, says = "ground left between two", example = "80 ft" },
}, "a table: { width = 40 ft, apart = 80 ft }")

return kinds
