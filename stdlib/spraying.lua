--- What a herbicide treatment takes: the ground and the stumps, the mix on them, the product
--- in the mix, the active ingredient in the product. What the author leaves out comes from
--- ingredients.lua, and is told with its source.
local M = {}
local acts = need "acts"
local entries = need "entries"
local felling = need "felling"
local ground = need "ground"
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local rates = need "rates"
local work = need "work"

local INGREDIENTS = need "ingredients"

--- What is known of an ingredient, by its whole name or its first word ("imazapyr salt"); nil
--- when nothing is.
function M.facts(name)
    return INGREDIENTS[name] or INGREDIENTS[name:match("^[%a%-]+") or ""]
end

--- Names of those known, in alphabetical order.
function M.ingredients()
    local list = {}
    for name in pairs(INGREDIENTS) do list[#list + 1] = name end
    table.sort(list)
    return list
end

--- "did you mean ...?" for an ingredient that is not known; when none is near, those known.
function M.meant(name)
    local list = M.ingredients()
    local near = host.suggest(name, list) or host.suggest(name:match("^[%a%-]+") or "", list)
    return near and ("did you mean %s?"):format(near) or "known are " .. table.concat(list, ", ")
end

--- Stumps or stems, in all or for each acre; a count of trees is one stump each.
kinds.stump_number = {
    says = "a number of stems, such as 60 stems or 200 stems/ac",
    unit = "stems",
    take = function(value)
        if not quantity.is(value) then return nil end
        for _, unit in ipairs({ "stems", "stems/ac", "trees", "trees/ac" }) do
            if quantity.fits(value, unit) then return value end
        end
        return nil
    end,
}

--- A boom: what its nozzles put out, how far apart, how fast it goes; or the whole of it.
kinds.boom = {
    says = "a boom: { flow = 0.3 gal/min, apart = 20 in, speed = 3 mi/h } of one nozzle and the distance between two; or of the whole boom with `swath` in place of `apart`",
    take = function(value, _, place, key)
        if type(value) ~= "table" or need("objects").record(value) then return nil end
        local before = host.fault_count()
        local boom = need("schema").check(place, { kind = "boom", at = key, keys = {
            { "flow", kind = "quantity", unit = "gal/min", needed = true, says = "what a nozzle or the whole boom puts out", example = "0.3 gal/min" },
            { "speed", kind = "quantity", unit = "mi/h", needed = true, says = "how fast it goes", example = "3 mi/h" },
            { "apart", kind = "length", says = "from nozzle to nozzle" },
            { "swath", kind = "length", says = "the whole width" },
            { "nozzles", kind = "count", least = 1, says = "how many, for the acres an hour" },
        } }, value)
        if host.fault_count() > before then return nil, kinds.REPORTED end
        if (boom.apart ~= nil) == (boom.swath ~= nil) then
            return nil, nil, "apart = 20 in, or swath = 222 in", "it tells " .. (boom.apart and "both `apart` and `swath`"
                or "neither `apart` nor `swath`")
        end
        local covered = quantity.say(boom.speed * (boom.apart or boom.swath), "ac/h")
        if quantity.number(covered, "ac/h") <= 0 then return nil, nil, nil, "it covers no ground" end
        boom.gallons = quantity.name(quantity.say(boom.flow / quantity.name(covered, "ground covered"), "gal/ac"), "boom")
        return boom
    end,
}

--- The most that a label allows on an acre in a year, as active ingredient or as product.
kinds.label_max = {
    says = "pounds of active ingredient or an amount of product for an acre, such as 8 lb/ac or 2 qt/ac", unit = "lb/ac",
    take = function(value)
        if not quantity.is(value) then return nil end
        return (quantity.fits(value, "lb/ac") or quantity.fits(value, "qt/ac")) and value or nil
    end,
}

local function stems_of(trees) return trees * quantity.leaf(1, "stems/tree", "one stump for each tree") end

--- The cut whose stumps are treated, or nil.
function M.cut_of(record)
    local list = { record.on }
    for _, act in ipairs(record.values.after or {}) do list[#list + 1] = act end
    for _, act in ipairs(list) do
        if act.kind == "cut" or act.kind == "sale" then return act end
    end
    return nil
end

--- Ground that is treated, in acres; for stumps that of the cut. Nil when there is none.
function M.area(record)
    local area = record.values.area
    if area then
        local fraction = acts.fraction(record)
        return fraction < 1 and area * fraction or area
    end
    local cut = not record.on and not record.by_shape and M.cut_of(record)
    local acres = cut and entries.figure(record, cut, "acres")
    if not acres then return ground.of(record) end
    return record.values.part and acres * record.values.part.share or acres
end

--- Trees of the wanted species that a cut takes.
local function trees_taken(act, species)
    if not species then return acts.get(act, "trees_cut") end
    local acres = acts.get(act, "acres")
    if not act.taken or not acres then return nil end
    local trees = act.taken:trees({ species = species, what = table.concat(species, ", ") .. " felled" })
    return quantity.say(felling.doubted(act, trees) * acres, "trees")
end

local function stumps_of_cut(record)
    local cut = M.cut_of(record)
    if not cut then return nil end
    if (cut.entries or 1) > 1 and record.entries ~= cut.entries and not record.copy_of then
        host.fault(record.place, nil, "treat-entries", ("%s is done in %d entries, and its stumps are treated with each")
            :format(cut.id, cut.entries), ("entries = %d, every = the same time as the cut"):format(cut.entries))
        return nil
    end
    local trees = entries.share(record, cut, trees_taken(cut, record.values.species))
    if not trees then return nil end
    if quantity.number(trees, "trees") <= 0 then
        host.fault(record.place, "species", "treat-no-stumps", ("%s takes no %s, so there are no stumps of it"):format(
            cut.id, table.concat(record.values.species or { "trees" }, ", ")), "the species that the cut takes")
        return nil
    end
    return stems_of(trees)
end

--- Stumps or stems; nil when it is not known how many.
-- @param area ground treated, or nil
function M.stumps(record, area)
    local told = record.values.stumps
    if not told then return stumps_of_cut(record) end
    if quantity.fits(told, "trees") or quantity.fits(told, "trees/ac") then told = stems_of(told) end
    if quantity.fits(told, "stems") then
        local fraction = acts.fraction(record)
        return fraction < 1 and told * fraction or told
    end
    return area and quantity.say(told * area, "stems")
end

--- Gallons of mix on an acre: told, or from what was caught on 1/128 acre.
local function gallons(values)
    if values.boom then return values.boom.gallons end
    if not values.caught then return values.gallons end
    local plot = quantity.leaf(1 / 128, "ac", "1/128 acre: a gallon has 128 fl oz, so fl oz caught are gallons an acre")
    return quantity.say(values.caught / plot, "gal/ac")
end

--- Mix for each stump: told, or what a quart usually does.
local function per_stump(record)
    if record.values.per_stump then return record.values.per_stump end
    if record.values.method ~= "stump" then return nil end
    local many = rates.find("stumps for a quart", "stems/qt", record.place)
    return many and quantity.say(1 / many.value, "fl oz/stem")
end

--- The product's share of the mix: told, or the usual one of that ingredient and method.
local function share(record, facts)
    local told = record.values.mix
    if told then return told end
    local usual = facts and facts.usual and facts.usual[record.values.method]
    if not usual then return nil end
    local low, high = usual[1], usual[2]
    record.usual_mix = usual
    local words = ("usual mix of %s: %s"):format(record.values.ingredient, usual.source)
    if low == high then return quantity.leaf(low, "percent", words) end
    return quantity.range(low, (low + high) / 2, high, "percent", "mix of " .. record.id, words)
end

--- Active ingredient in the product: told, else the usual one, kept for the notes.
local function strength(record, facts)
    local told = record.values.product_strength
    if told or not facts then return told end
    local prefix = record.values.aquatic and facts.aquatic_strength and "aquatic_" or ""
    local usual = facts[prefix .. "strength"]
    if not usual then return nil end
    record.usual_strength = facts[prefix .. "strength_source"]
    record.strength = quantity.leaf(usual, "lb/gal", record.usual_strength)
    return record.strength
end

local function missing(record, words, hint)
    host.fault(record.place, nil, "key-missing", words, hint)
end

--- What the mix goes on, and how much of it there: { area } or { amount }, and rate.
local function rate_of(record, area, stumps)
    local values = record.values
    local on_ground = values.gallons or values.caught or values.boom
    if (values.gallons and 1 or 0) + (values.caught and 1 or 0) + (values.boom and 1 or 0) > 1 then
        host.fault(record.place, nil, "treat-gallons", "`gallons`, `caught` and `boom` each say how much mix goes on an acre",
            "keep one of them")
        return nil
    end
    if values.method == "foliar" or on_ground then
        if not on_ground then
            missing(record, "foliar spraying needs `gallons`: how much finished mix goes on an acre",
                "gallons = 25 gal/ac; or caught = 25 fl oz, what you spray on 1/128 acre (18.5 x 18.5 ft); or boom = { ... }")
            return nil
        elseif not area then
            missing(record, "treat needs `area`, `on` or `stand`: the ground to spray", "area = 0.5 ac")
            return nil
        end
        return { area = area, rate = gallons(values) }
    end
    local rate = per_stump(record)
    if not rate then
        missing(record, "basal treatment needs `per_stump`, the mix for each stem, or `gallons` for each acre",
            "per_stump = 1 fl oz/stem")
        return nil
    elseif not stumps then
        missing(record, "how many stumps or stems are treated is not known", "stumps = 60 stems, or after = the cut that makes them")
        return nil
    end
    return { amount = stumps, rate = rate }
end

--- All that goes into the tank: the parts of work.mix, or nil when a fault was told.
-- @param carrier "water", "basal oil"
function M.mix(record, area, stumps, facts, carrier)
    local wish = rate_of(record, area, stumps)
    if not wish then return nil end
    local values = record.values
    if values.product_rate then
        if values.mix then
            host.fault(record.place, "product_rate", "treat-product", "`mix` and `product_rate` each say how much product goes in",
                "keep one of them")
            return nil
        elseif not wish.area then
            host.fault(record.place, "product_rate", "treat-product", "`product_rate` is for an acre; stumps and stems take a share of the mix",
                "mix = 20 percent")
            return nil
        end
        wish.product_rate = values.product_rate
    else
        wish.share = share(record, facts)
        if not wish.share then
            missing(record, ("treat needs `mix` or `product_rate`: no usual %s mix of %s is known here"):format(values.method,
                values.ingredient), not facts and M.meant(values.ingredient) or "mix = 20 percent, as the label has it")
            return nil
        end
    end
    wish.strength, wish.tank, wish.carrier = strength(record, facts), values.tank, carrier
    return work.mix(wish)
end

local RATES = { foliar = { "spraying leaves", "ac/h" }, stump = { "treating stumps", "stems/h" },
    basal = { "treating bark", "ac/h" } }

--- Hours with a boom: speed by width, in part of the time; nil when its width is not known.
local function boom_hours(record, area)
    local boom = record.values.boom
    local width = boom.swath or boom.nozzles and boom.apart * quantity.leaf(boom.nozzles, "h/h", "nozzles")
    local part = rates.find("boom at work", "percent", record.place)
    if not width or not part or not area then return nil end
    local rate = quantity.name(quantity.say(boom.speed * width * part.value, "ac/h"), "ground sprayed in an hour")
    return work.hours(area, rate, "treating")
end

--- Hours by the rate of the method; nil when what it goes by is not known.
function M.hours(record, area, stumps)
    local by_boom = record.values.boom and boom_hours(record, area)
    if by_boom then return by_boom end
    local name, unit = RATES[record.values.method][1], RATES[record.values.method][2]
    local amount = area
    if unit == "stems/h" then amount = stumps end
    if not amount then return nil end
    local entry = rates.find(name, unit, record.place)
    return entry and work.hours(amount, entry.value, "treating")
end

return M
