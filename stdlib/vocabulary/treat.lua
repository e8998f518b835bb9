--- treat: herbicide on leaves, stumps or bark: mix, product, water, tanks, active ingredient
--- against the label's yearly maximum, hours; the cautions that belong to it.
local acts = need "acts"
local ground = need "ground"
local herbicide = need "herbicide"
local host = need "host"
local materials = need "materials"
local pace = need "pace"
local phrases = need "phrases"
local quantity = need "quantity"
local spraying = need "spraying"
need "vocabulary/stand" -- kinds.species

local HOW = {
    foliar = "Wet the leaves evenly, not to dripping; live green leaves only.",
    basal = "A band of the lowest 15 in of the bark, all around; stems up to 6 in (from memory).",
}

local function add_notes(record, parts, carrier)
    local values, notes = record.values, record.notes
    local function add(words, ...) notes[#notes + 1] = words:format(...) end
    add("%s.", phrases.capital(values.ingredient) .. " in " .. carrier)
    if values.method == "stump" then
        add(carrier == "water" and "The rim of the cut surface, within 2 hours of the cut, in no case later than 24 (Univ. Minnesota Extension, second hand)."
            or "The cut surface and all bark down to the ground.")
    else
        add(HOW[values.method])
    end
    if record.usual_mix then
        add("The mix is the usual one (%s): the label decides.", record.usual_mix.source)
    end
    if record.usual_strength and parts.ingredient then
        add("The product is taken to hold %s of active ingredient (%s): read the label.",
            quantity.short(record.strength), record.usual_strength)
    end
    local gallon = quantity.leaf(1, "gal", "one gallon of mix")
    add("%s of product in each gallon of mix.", quantity.short(quantity.say(parts.product / parts.finished * gallon, "fl oz")))
    if parts.loads and quantity.number(parts.spare, "gal") > 0.01 then
        add("Fill the last tank only as far as needed: what is left over has to be used up by the label.")
    end
    if values.species then add("On: %s.", table.concat(values.species, ", ")) end
end

local function set_cost(record, product, carrier, carried)
    local values = record.values
    local price = values.price or materials.price(values.ingredient .. " product", "USD/gal")
    local cost = price and product * price
    if not cost then materials.unpriced(record, values.ingredient) end
    local oil = carrier ~= "water" and materials.price(carrier, "USD/gal")
    if carrier ~= "water" and not oil then materials.unpriced(record, carrier) end
    if oil then cost = cost and cost + carried * oil or carried * oil end
    if cost then acts.set(record, "materials_cost", quantity.say(cost, "USD"), "product" .. (oil and " and oil" or "")) end
end

local function set_mix(record, parts, area, carrier)
    local values = record.values
    acts.set(record, "mix", quantity.say(parts.finished, "gal"), "finished mix")
    local much = quantity.number(parts.product, "gal") >= 1
    local product = acts.set(record, "product", quantity.say(parts.product, much and "gal" or "fl oz"), "product")
    record.figures.product.inner = true
    acts.set(record, "product, " .. values.ingredient, product, "product with " .. values.ingredient)
    local carried = acts.set(record, "carrier", quantity.say(parts.carrier, "gal"), carrier)
    if parts.loads then
        acts.set(record, "tanks", parts.loads, "tank loads")
        -- Which tank is the last changes from draw to draw: what is left over in it has no
        -- range worth telling, and its likely value need not lie between two others.
        local low, high = quantity.ends(parts.finished, "gal")
        if low == high then
            acts.set(record, "leftover", quantity.say(parts.spare, "gal"), "left over if the last tank is filled")
        end
    end
    if parts.ingredient then
        local active = acts.set(record, "active", quantity.say(parts.ingredient, "lb"), "active ingredient")
        if area then
            acts.set(record, "active_per_acre", quantity.say(active / area, "lb/ac"), "active ingredient on an acre treated")
        end
    end
    set_cost(record, product, carrier, carried)
end

local declared = acts.declare({
    kind = "treat", named = "may", mapped = true, skill = "applicator",
    says = "herbicide on leaves, fresh stumps or bark, by active ingredient: mix, product, tanks, pounds against the label's yearly maximum",
    keys = {
        { "method", kind = "choice", of = { "foliar", "stump", "basal" }, needed = true, says = "where it is put", example = "\"stump\"" },
        { "ingredient", kind = "text", needed = true, says = "the active ingredient with its form, never a brand", example = "\"triclopyr ester\"" },
        { "species", kind = "list", of = "species", says = "what is to die; without it, what stands there" },
        { "product_strength", kind = "quantity", unit = "lb/gal", says = "active ingredient in a gallon of product, from the label: 4 lb/gal" },
        { "mix", kind = "share", says = "product in the finished mix, by volume: 20 percent" },
        { "product_rate", kind = "quantity", unit = "qt/ac", says = "product on an acre, in place of mix: 2 qt/ac" },
        { "gallons", kind = "quantity", unit = "gal/ac", says = "finished mix on an acre: 25 gal/ac" },
        { "caught", kind = "quantity", unit = "fl oz", says = "in place of gallons: what the sprayer puts out in the time it takes on 1/128 acre" },
        { "boom", kind = "boom", says = "in place of gallons: { flow = 0.3 gal/min, apart = 20 in, speed = 3 mi/h }; with `nozzles` or `swath` the hours go by it" },
        { "stumps", kind = "stump_number", says = "how many stumps or stems: 60 stems, 200 stems/ac; without it, those of the cut in `after`" },
        { "per_stump", kind = "quantity", unit = "fl oz/stem", says = "finished mix for each: 0.3 fl oz/stem; for stumps, a quart to 75 to 150 when nothing is said" },
        { "area", kind = "area", says = "ground treated, when it is not that of `on`, of the cut or of the stand" },
        { "tank", kind = "quantity", unit = "gal", says = "what the sprayer holds: 4 gal" },
        { "yearly_max", kind = "label_max", says = "the label's most for an acre and year: as active ingredient, 8 lb/ac, or as product, 2 qt/ac. Where the label counts acid equivalent, so does product_strength" },
        { "used", kind = "quantity", unit = "lb/ac", says = "what was put on that ground before, in the calendar year in which the plan starts: 2 lb/ac of the same" },
        { "carrier", kind = "text", says = "what the product is mixed with: \"water\", or \"basal oil\" for an ester on stumps or bark" },
        { "aquatic", kind = "flag", says = "a formulation labeled for aquatic sites" },
        { "through_soil", kind = "flag", says = "the ingredient works through the soil; known of common ones" },
        { "price", kind = "quantity", unit = "USD/gal", says = "what a gallon of product costs; or price \"INGREDIENT product\"" },
    },
    figures = { { "area", "ground treated" }, { "stumps", "stumps or stems" }, { "mix", "finished mix" },
        { "product", "product in it, whatever its ingredient" }, { "carrier", "water or oil" }, { "tanks", "tank loads" },
        { "leftover", "what is left when the last tank is filled; not told when the mix is a range" }, { "active", "active ingredient in all" },
        { "active_per_acre", "active ingredient on an acre treated" }, { "hours", "hours of treating" }, { "materials_cost", "product and oil" } },
    hazards = herbicide.hazards,
    answers = {
        { "a:reaches \"aspen\"", "does it reach such plants? Those it names; without names, those that are there" },
        { "a:soil_active()", "does its ingredient work through the soil?" },
        { "a:active_in_year()", "active ingredient on an acre of the same stand from all treatments of the same year with it, as ester or amine; and how many of them" },
        { "a:label_max()", "the least yearly maximum that was entered for any of them, as active ingredient; nil when none was" },
    },
    asked = herbicide.asked,
    usual_seasons = function(record) return record.values.method == "foliar" and { "leaf-on" } or nil end,
    example = [[treat { stand = "Old pasture", method = "stump", species = "autumn olive",
  ingredient = "triclopyr ester", stumps = 120 stems,
  product_strength = 4 lb/gal, mix = 20 percent, yearly_max = 8 lb/ac }]],
    title = function(record)
        local words = { foliar = "Spray leaves", stump = "Treat stumps", basal = "Treat bark" }
        local species = record.values.species
        return (words[record.values.method] or "Treat") .. (species and ": " .. table.concat(species, ", ") or "")
    end,
    takeoff = function(record)
        local values = record.values
        local carrier = herbicide.carrier(values)
        local area = spraying.area(record)
        area = area and acts.set(record, "area", quantity.say(area, "ac"), "ground treated")
        local told = host.fault_count()
        local stumps = values.method ~= "foliar" and spraying.stumps(record, area) or nil
        if host.fault_count() > told then return end
        stumps = stumps and acts.set(record, "stumps", stumps, values.method == "stump" and "stumps" or "stems")
        local parts = spraying.mix(record, area, stumps, herbicide.facts(record), carrier)
        if not parts then return end
        if values.yearly_max and not quantity.fits(values.yearly_max, "lb/ac") and not parts.ingredient then
            acts.fault(record, "yearly_max", "treat-strength", ("`yearly_max` is told as product, and how much %s a gallon of it "
                .. "holds is not known"):format(values.ingredient), "product_strength = 4 lb/gal, from the label")
        end
        set_mix(record, parts, area, carrier)
        local part = ground.part_words(record)
        if part and not values.area then table.insert(record.notes, part) end
        add_notes(record, parts, carrier)
        herbicide.judge(record)
        record.hazards = herbicide.cautions(record)
        local hours = not values.hours and spraying.hours(record, area, stumps)
        if hours then acts.set(record, "hours", pace.slowed(record, hours), "treating hours") end
    end,
})

--- Weather and haste when the author says nothing: leaves are sprayed while they are on and
--- the air is calm, bark without snow, stumps with a mix in water on the day of the cut.
local function fill_in(values)
    if values.method == "foliar" then
        if not values.during and not values.date then values.during = { { name = "leaf-on" } } end
        values.only_when = values.only_when or "calm"
    elseif values.method == "basal" then
        values.only_when = values.only_when or "no snow"
    elseif values.method == "stump" and not values.within and herbicide.carrier(values) == "water"
        and spraying.cut_of({ values = values }) then
        values.within = quantity.leaf(2, "h", "water-based mix on a fresh stump: Univ. Minnesota Extension, second hand")
    end
end

function declared.make(place, name, values, given)
    for _, act in ipairs(values.after or {}) do values.stand = values.stand or act.stand end
    values.ingredient = values.ingredient and values.ingredient:lower()
    if values.ingredient == "triclopyr" then
        host.fault(place, "ingredient", "ingredient-form", "triclopyr comes as an ester and as an amine, and they differ",
            "\"triclopyr ester\" or \"triclopyr amine\"")
    end
    fill_in(values)
    return acts.new(declared, place, name, values, given).object
end

return declared
