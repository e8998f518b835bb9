--- seed: grass, clover or a mix sown: from pure live seed to what the bags must weigh.
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local kinds = need "kinds"
local materials = need "materials"
local objects = need "objects"
local pace = need "pace"
local quantity = need "quantity"
local rates = need "rates"
local schema = need "schema"
local work = need "work"

local METHODS = {
    broadcast = { rate = "seeding",
        note = "Broadcast half of it one way and half across, on firm bare soil; then press it in." },
    drill = { rate = "seeding, drill", skill = "machine",
        note = "Drill it no deeper than three times the seed is thick: common practice, no source." },
    frost = { rate = "seeding",
        note = "Frost seeding: on bare soil that freezes by night and thaws by day; never on ice, snow or a slope." },
}

--- One kind of seed in a mix.
local ITEM = { kind = "seed", keys = {
    { "name", kind = "text", says = "its name, first in its table: { \"white clover\", rate = 4 lb/ac }" },
    { "rate", kind = "quantity", unit = "lb/ac", needed = true, says = "pure live seed on an acre", example = "4 lb/ac" },
    { "purity", kind = "share", says = "from the tag: 95 percent" },
    { "germination", kind = "share", says = "from the tag: 85 percent" },
    { "dormant", kind = "share", says = "dormant or hard seed, from the tag, where it is not in the germination" },
    { "seeds_per_lb", kind = "quantity", unit = "seeds/lb", bare = true, says = "how many make a pound: 12800" },
    { "price", kind = "quantity", unit = "USD/lb", says = "what a pound in the bag costs" },
} }

local function take_item(value, place)
    if type(value) ~= "table" or objects.record(value) then return nil end
    local name = value.name or value[1]
    if type(name) ~= "string" or #value > 1 then return nil end
    local named = {}
    for key, given in pairs(value) do
        if key ~= 1 then named[key] = given end
    end
    named.name = name
    return schema.check(place, ITEM, named)
end

kinds.seed_mix = {
    says = "seeds, each with its rate: { { \"white clover\", rate = 4 lb/ac, purity = 95 percent, germination = 85 percent } }",
    take = function(value, _, place)
        if type(value) ~= "table" or objects.record(value) then return nil end
        if type(value[1]) == "string" or value.name then value = { value } end
        local mix, seen = {}, {}
        for i, one in ipairs(value) do
            local item = take_item(one, place)
            if not item then
                return nil, ("a list of seeds, and number %d is %s"):format(i, kinds.describe(one)),
                    "{ \"white clover\", rate = 4 lb/ac, purity = 95 percent, germination = 85 percent }"
            end
            if seen[item.name] then
                host.fault(place, "mix", "seed-twice", ("%s is in the mix twice"):format(item.name), "one row for each")
            end
            seen[item.name] = true
            mix[i] = item
        end
        return #mix > 0 and mix or nil
    end,
}

--- Acres to seed; nil when a fault was told.
local function area_of(record)
    local values = record.values
    local fraction = acts.fraction(record)
    if values.area then return fraction < 1 and values.area * fraction or values.area end
    if values.length or values.width then
        if not values.length or not values.width then
            host.fault(record.place, nil, "key-missing", "a strip needs both `length` and `width`", "length = 600 ft, width = 12 ft")
            return nil
        end
        local length = ground.feet(values.length, record.stand, record.place, "length")
        local width = ground.feet(values.width, record.stand, record.place, "width")
        if not length or not width then return nil end
        local strip = length * width
        if not ground.check_room(record, quantity.say(strip, "ac"), "the strip takes") then return nil end
        return fraction < 1 and strip * fraction or strip
    end
    local area = ground.of(record)
    if not area then
        host.fault(record.place, nil, "key-missing", "seed needs `on`, `area`, `length` and `width`, or `stand`: the ground to seed",
            "on = trail")
    end
    return area
end

--- Purity and germination, with the dormant seed in it; of an unread tag the usual.
local function tag(record, item)
    local whole = quantity.leaf(100, "percent", "of the seed that lives")
    if item.purity and item.germination then
        local live = item.dormant and item.germination + item.dormant or item.germination
        return item.purity, live
    end
    local unread = rates.find("unread seed tag", "percent", record.place)
    if not unread then return nil end
    local low, high = quantity.ends(unread.value, "percent")
    table.insert(record.notes, ("Read the tag of the %s: purity and germination are not told, so the bag is taken to hold %g to %g percent of pure live seed.")
        :format(item.name, low, high))
    -- Each bag has a tag of its own.
    return quantity.range(low, quantity.number(unread.value, "percent"), high, "percent",
        ("tag of %s, %s"):format(item.name, record.id), ("unread seed tag rate, %s: %s"):format(unread.layer.words, unread.source)), whole
end

--- One seed of the mix: its pounds, its cost, its seeds on a square foot.
local function set_item(record, item, area)
    local purity, germination = tag(record, item)
    if not purity then return nil end
    local parts = work.seed { area = area, rate = item.rate, purity = purity, germination = germination }
    local bulk = acts.set(record, "seed, " .. item.name, quantity.say(parts.bulk, "lb"), item.name .. " in the bag")
    local price = item.price or materials.price("seed, " .. item.name, "USD/lb")
    if not price then materials.unpriced(record, item.name) end
    return quantity.say(parts.pure_live, "lb"), bulk, price and bulk * price,
        item.seeds_per_lb and quantity.say(item.rate * item.seeds_per_lb, "seeds/ft2")
end

local function set_seed(record, area)
    local live, bulk, cost, seeds, counted = {}, {}, {}, {}, {}
    for i, item in ipairs(record.values.mix) do
        local price, dense
        live[i], bulk[i], price, dense = set_item(record, item, area)
        if not live[i] then return end -- the fault is told
        cost[#cost + 1] = price or nil
        if dense then
            seeds[#seeds + 1] = dense
            counted[#counted + 1] = item.name
        end
    end
    acts.set(record, "pure_live", quantity.sum(live), "pure live seed")
    acts.set(record, "seed", quantity.sum(bulk), "seed in the bags")
    if #bulk == 1 then record.figures["seed, " .. record.values.mix[1].name].inner = true end
    if #seeds > 0 then
        acts.set(record, "seeds", quantity.sum(seeds), "live seeds on the ground")
        if #seeds < #live then
            table.insert(record.notes, ("Seeds are counted of %s only."):format(table.concat(counted, ", ")))
        end
    end
    if #cost > 0 then acts.set(record, "materials_cost", quantity.say(quantity.sum(cost), "USD"), "materials") end
end

local function names(mix)
    local list = {}
    for i, item in ipairs(mix or {}) do list[i] = item.name end
    if #list > 3 then return ("a mix of %d"):format(#list) end
    return #list > 0 and table.concat(list, ", ") or "the ground"
end

local declared = acts.declare({
    kind = "seed", named = "may", mapped = true,
    says = "sows a seed or a mix, told in pure live seed, and reckons what the bags must weigh by their tags",
    keys = {
        { "mix", kind = "seed_mix", needed = true, says = "what is sown: for each its name, `rate`, and from the tag `purity` and `germination`",
          example = "{ { \"white clover\", rate = 4 lb/ac, purity = 98 percent, germination = 85 percent } }" },
        { "method", kind = "choice", of = { "broadcast", "drill", "frost" }, default = "broadcast", says = "how it is sown" },
        { "area", kind = "area", says = "ground to seed, when it is not that of `on` or of the stand" },
        { "length", kind = "length", says = "of a strip, with `width`" },
        { "width", kind = "length", says = "of a strip, with `length`" },
    },
    figures = { { "area", "ground seeded" }, { "pure_live", "pure live seed" }, { "seed", "seed as it comes in the bag; `seed, NAME` of each" },
        { "seeds", "live seeds on a square foot, where `seeds_per_lb` is told" }, { "hours", "hours of seeding" },
        { "materials_cost", "seed" } },
    hazards = { "Seed that was treated is poison: gloves, none left lying where birds feed." },
    example = [[seed { stand = "Old pasture", length = 600 ft, width = 12 ft,
  method = "frost", during = season "frost seeding",
  mix = { { "white clover", rate = 4 lb/ac, purity = 98 percent,
            germination = 85 percent } } }]],
    skill = function(record) return (METHODS[record.values.method] or METHODS.broadcast).skill end,
    title = function(record)
        return (record.values.method == "frost" and "Frost-seed " or "Seed ") .. names(record.values.mix)
    end,
    takeoff = function(record)
        local values = record.values
        local area = area_of(record)
        if not area then return end
        area = acts.set(record, "area", quantity.say(area, "ac"), "ground seeded")
        local part = ground.part_words(record)
        if part and not values.area and not values.length then table.insert(record.notes, part) end
        set_seed(record, area)
        local method = METHODS[values.method]
        table.insert(record.notes, method.note)
        if values.hours then return end
        local rate = rates.find(method.rate, "ac/h", record.place)
        local hours = rate and work.hours(area, rate.value, "seeding")
        if hours then acts.set(record, "hours", pace.slowed(record, hours), "seeding hours") end
    end,
})

--- Frost seeding is told by its weeks: the season of that name, when nothing else is said.
function declared.make(place, name, values, given)
    if values.method == "frost" and not values.during and not values.date then
        values.during = { { name = "frost seeding" } }
    end
    return acts.new(declared, place, name, values, given).object
end

return declared
