--- plant: trees and shrubs set out, in rows, over an area or by number: how many, how many
--- to order, how long it takes, what they cost.
local acts = need "acts"
local forest = need "forest"
local ground = need "ground"
local guards = need "guards"
local materials = need "materials"
local pace = need "pace"
local planting = need "planting"
local quantity = need "quantity"
local rates = need "rates"
local rules = need "rules"
local work = need "work"

--- Live stakes stand a foot apart, trees for a crown a hundred feet at most: outside lies a slip
--- of the pen. Common practice, no source.
local NEAREST, FARTHEST = quantity.leaf(1, "ft"), quantity.leaf(100, "ft")

--- How long roots wait: a conservation district's planting sheet, Michigan, and Minnesota DNR's
--- planting guide (both seen); soaking is from memory.
local STOCK = {
    ["bare-root"] = { rate = "planting", notes = {
        "Bare roots: planted within 7 days of delivery, kept cool, moist and out of the sun; longer only refrigerated or heeled in.",
        "Soak the roots an hour or two before planting, not overnight, and carry them wet: common practice, no source." } },
    container = { rate = "planting, container", notes = {
        "Container plants: water them the evening before, loosen roots that circle, set the top of the ball level with the soil." } },
}
--- Nothing is planted in frozen ground. Fall planting is a layer's word: bare roots set in fall heave out
--- of the ground over a northern winter (common practice, no source).
local SEASONS = {
    ["bare-root"] = { "spring planting", "fall planting" },
    container = { "container planting" },
}
local SPOT = "Each plant in a spot of 2 to 4 ft free of sod and weeds, for three summers."
local REPLANT = "Replant where fewer than 70 percent live in the second year: common practice, no source."

local function set_order(record, planted)
    local values = record.values
    local losses = values.losses
    if not losses and not values.survival then
        local usual = rates.find("planting losses", "percent", record.place)
        if not usual then return nil end
        losses = usual.value
    end
    local terms, cost = {}, nil
    for i, row in ipairs(planting.by_species(record, planted)) do
        local order = work.plants_to_order(row.plants, losses, values.survival)
        order = acts.set(record, "plants, " .. row.name, order, row.name .. " to order")
        terms[i] = order
        local price = values.price or materials.price("plant, " .. row.name, "USD/plant")
            or materials.price("plant, " .. values.stock, "USD/plant")
        if price then
            cost = cost and cost + order * price or order * price
        else
            materials.unpriced(record, ("%s, %s"):format(row.name, values.stock))
        end
    end
    local whole = acts.set(record, "plants", quantity.sum(terms), "plants to order")
    record.figures["plants" .. (#terms == 1 and ", " .. values.species[1] or "")].inner = true
    if values.survival then
        table.insert(record.notes, ("Ordered so that enough live at a survival of %s; what is not planted at once "
            .. "replaces the dead."):format(quantity.short(values.survival)))
    elseif quantity.number(losses, "percent") > 0 then
        table.insert(record.notes, ("Ordered with %s on top for what arrives broken or dies in the first weeks.")
            :format(quantity.short(losses)))
    end
    return whole, cost
end

local function set_hours(record, planted)
    local values = record.values
    local rate = rates.find(STOCK[values.stock].rate, "plants/h", record.place)
    if not rate then return end
    local hours = work.hours(planted, rate.value, "planting")
    if values.guards then hours = guards.hours_with_planting(record, planted, values.guards, hours) end
    hours = pace.slowed(record, hours)
    if hours then acts.set(record, "hours", hours, values.guards and "planting and guarding hours" or "planting hours") end
end

--- Nobody plants what others spend their winters cutting out.
local function warn_of_invasives(record)
    for _, name in ipairs(record.values.species) do
        if forest.species_among("invasive", name) then
            rules.find({ level = "stop", rule = "planting an invasive plant", act = record, stand = record.stand,
                message = name .. " is an invasive plant: it spreads from where it is planted, and several states forbid it",
                ask = "the state's department of agriculture", source = "the species table" })
        end
    end
end

return acts.declare({
    kind = "plant", named = "may", mapped = true, skill = "planting",
    says = "plants trees or shrubs: in rows along a length, at a spacing over ground, or a number of them",
    keys = {
        { "species", kind = "plant_species", needed = true, says = "what is planted; several: as many of each, or by shares",
          example = "\"white spruce\"" },
        { "stock", kind = "choice", of = { "bare-root", "container" }, default = "bare-root", says = "how they come" },
        { "rows", kind = "count", least = 1, most = 50, says = "rows along a length" },
        { "length", kind = "length", says = "length of each row" },
        { "in_row", kind = "length", least = NEAREST, most = FARTHEST, says = "distance from plant to plant in a row" },
        { "between", kind = "length", least = NEAREST, most = FARTHEST, says = "distance between rows" },
        { "spacing", kind = "spacing", each = { "spacing", least = NEAREST, most = FARTHEST }, says = "over ground: between rows and in the row, { 10 ft, 8 ft }, or one distance both ways" },
        { "triangular", kind = "flag", says = "each plant as far from all its neighbors: about 15 percent more of them" },
        { "area", kind = "area", says = "ground to plant, when it is not that of `on` or of the stand" },
        { "count", kind = "plant_number", says = "a number of plants, in place of spacing or rows" },
        { "survival", kind = "share", says = "share of them that lives: enough more are ordered to replace the rest" },
        { "losses", kind = "share", says = "ordered on top for plants that never take; rate \"planting losses\" when neither is told" },
        { "guards", kind = "choice", of = guards.names, says = "guards put on as they are planted; `protect` does it later" },
        { "price", kind = "quantity", unit = "USD/plant", says = "what one costs, in place of the price list" },
    },
    figures = { { "planted", "plants that go into the ground" }, { "plants", "plants to order, whole ones; `plants, NAME` of each species" },
        { "length", "length of each row" }, { "area", "ground planted" }, { "guards", "guards" },
        { "hours", "hours of planting" }, { "materials_cost", "plants and guards" } },
    hazards = {
        "Have buried lines marked before any hole is dug; gloves and eye protection with wire and stakes.",
    },
    example = [[plant "screen" { stand = "Old pasture", species = "white spruce",
  rows = 3, length = 600 ft, in_row = 8 ft, between = 10 ft,
  during = season "spring planting" }]],
    more = [[
without `during`: bare roots in season "spring planting", and in "fall planting"
where a region or a pack has it; containers in season "container planting".]],
    asked = { digs = function() return true end },
    usual_seasons = function(record) return SEASONS[record.values.stock] end,
    title = function(record) return "Plant " .. planting.words(record.values.species) end,
    takeoff = function(record)
        local planted = planting.count(record)
        if not planted then return end
        planted = acts.set(record, "planted", planted, "plants in the ground")
        local part = ground.part_words(record)
        if part then table.insert(record.notes, part) end
        warn_of_invasives(record)
        local ordered, cost = set_order(record, planted)
        if not ordered then return end -- the fault is told
        if record.values.guards then
            local guarding = guards.set(record, planted, record.values.guards)
            if guarding then cost = cost and cost + guarding or guarding end
        end
        if cost then acts.set(record, "materials_cost", quantity.say(cost, "USD"), "materials") end
        if not record.values.hours then set_hours(record, planted) end
        for _, note in ipairs(STOCK[record.values.stock].notes) do table.insert(record.notes, note) end
        if (record.values.rows or 1) > 1 then table.insert(record.notes, "Rows staggered: each plant beside a gap of the next row.") end
        table.insert(record.notes, SPOT)
        table.insert(record.notes, REPLANT)
    end,
})
