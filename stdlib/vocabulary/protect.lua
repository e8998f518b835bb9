--- protect: guards or a fence against deer, mice and grass, on a planting or on sprouts.
local acts = need "acts"
local entries = need "entries"
local ground = need "ground"
local guards = need "guards"
local host = need "host"
local materials = need "materials"
local pace = need "pace"
local phrases = need "phrases"
local quantity = need "quantity"
local rates = need "rates"
local work = need "work"

--- Years until guards come off: common practice, no source; from memory.
local STAYS = { tube = 5, cage = 8, fence = 8 }

local function missing(record, words, hint)
    host.fault(record.place, nil, "key-missing", words, hint)
end

--- The plants that get guards: told, or all of the planting.
local function plants_of(record)
    local count = record.values.count
    if count then
        local fraction = acts.fraction(record)
        return fraction < 1 and count * fraction or count
    end
    local plants = record.on and entries.figure(record, record.on, "planted")
    if not plants then
        missing(record, "protect needs `on`, a planting, or `count`: how many plants get guards", "on = planted")
    end
    return plants
end

--- Around rows or ground: a row's distance outside of the plants.
local function around(record)
    local outline = record.on and record.on.outline
    local area = not outline and record.on and ground.of_act(record.on)
    if area then
        local side = area ^ 0.5
        outline = { length = side, width = side }
    end
    if not outline then return nil end
    local length, width = outline.length, outline.width
    if outline.margin then length, width = length + outline.margin * 2, width + outline.margin * 2 end
    table.insert(record.notes, "The fence runs around it"
        .. (outline.margin and ", a row's distance outside." or ", taken as square until it is mapped."))
    return (length + width) * 2
end

local function set_fence(record)
    local values = record.values
    local length = values.length
    if length then
        length = ground.feet(length, record.stand, record.place, "length")
    else
        length = around(record)
        if not length then
            missing(record, "a fence needs `length`, or `on` a planting whose ground is known", "length = 800 ft")
            return nil
        end
    end
    if not length then return nil end
    local fraction = acts.fraction(record)
    if fraction < 1 then length = length * fraction end
    length = acts.set(record, "fence", quantity.say(length, "ft"), "fence")
    local usual = not values.posts_every and rates.find("fence posts", "ft", record.place)
    local step = usual and usual.value
        or values.posts_every and ground.feet(values.posts_every, record.stand, record.place, "posts_every")
    if not step then return nil end
    local post = quantity.leaf(1, "posts", "one post for each step of a closed fence")
    acts.set(record, "posts", math.ceil(length / step * post, "posts"), "posts")
    table.insert(record.notes, "Fence against deer: 8 ft high, tight to the ground, a gate, flagged so that deer see it: common practice, no source.")
    local price = values.price or materials.price("fence", "USD/ft")
    if not price then materials.unpriced(record, "the fence") end
    local rate = not values.hours and rates.find("fencing", "h/ft", record.place)
    return price and length * price, rate and work.hours(length, rate.value, "fencing")
end

local function set_guards(record)
    local plants = plants_of(record)
    if not plants then return nil end
    local how = record.values.how
    local cost = guards.set(record, plants, how, record.values.price)
    return cost, not record.values.hours and guards.hours(record, plants, how)
end

local TITLES = { tube = "Tubes", cage = "Cages", mat = "Mats", fence = "Fence" }

local function title(record)
    local words = TITLES[record.values.how] or "Guards"
    return record.on and words .. ": " .. phrases.lower(record.on.title) or words
end

local declared = acts.declare({
    kind = "protect", named = "may",
    says = "puts tubes, cages, mats or a fence around plants or sprouts",
    keys = {
        { "how", kind = "choice", of = { "tube", "cage", "mat", "fence" }, needed = true, says = "with what", example = "\"cage\"" },
        { "count", kind = "plant_number", says = "how many plants, when not all of the planting in `on`" },
        { "length", kind = "length", says = "length of a fence, when it is not around what is in `on`" },
        { "posts_every", kind = "length", says = "distance from post to post of a fence; rate \"fence posts\" when nothing is said" },
        { "stays", kind = "span", says = "how long it stays: 6 yr" },
        { "price", kind = "quantity", says = "what a guard costs (USD/plant), or a foot of fence (USD/ft), in place of the price list" },
    },
    figures = { { "guards", "guards" }, { "fence", "length of the fence" }, { "posts", "its posts" },
        { "hours", "hours of putting it up" }, { "materials_cost", "guards or fence" } },
    hazards = {
        "Have buried lines marked before posts or stakes are driven; gloves and eye protection with wire.",
    },
    example = [[local planted = plant "screen" { stand = "Old pasture",
  species = "white spruce", count = 120 }
protect { on = planted, how = "cage", after = planted, within = 3 wk }]],
    asked = { digs = function(record) return record.values.how ~= "mat" end },
    title = title,
    takeoff = function(record)
        local values = record.values
        local cost, hours
        if values.how == "fence" then
            cost, hours = set_fence(record)
        else
            cost, hours = set_guards(record)
        end
        hours = pace.slowed(record, hours)
        if hours then acts.set(record, "hours", hours, values.how == "fence" and "fencing hours" or "guarding hours") end
        if cost then acts.set(record, "materials_cost", quantity.say(cost, "USD"), "materials") end
        local stays = values.stays and quantity.short(values.stays) or STAYS[values.how] and STAYS[values.how] .. " yr"
        if stays then
            table.insert(record.notes, ("Look at it every spring; it comes off after about %s, or when the tops are out of reach.")
                :format(stays))
        end
    end,
})

function declared.make(place, name, values, given)
    local unit = values.how == "fence" and "USD/ft" or "USD/plant"
    if values.price and not quantity.fits(values.price, unit) then
        host.fault(place, "price", "key-kind", ("`price` wants a price in %s; this is %s"):format(unit,
            need("kinds").describe(values.price)))
    end
    return acts.new(declared, place, name, values, given).object
end

return declared
