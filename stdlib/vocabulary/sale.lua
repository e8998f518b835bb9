--- sale: trees sold standing to a logger: what is in it, how many truckloads, what it brings
--- where the plan knows a price.
local acts = need "acts"
local felling = need "felling"
local ground = need "ground"
local host = need "host"
local products = need "products"
local phrases = need "phrases"
local quantity = need "quantity"
local rates = need "rates"

local function species_words(list)
    return list and #list > 0 and phrases.listed(list) or "timber"
end

--- Sawlogs and pulpwood, where there are both.
local function set_products(record, acres)
    if not acts.get(record, "cords") then return end
    local sawlogs = felling.wood(record, acres, { what = "sawlogs sold" }, "board feet", "sawlogs")
    if quantity.number(sawlogs, "board ft") <= 0 then return end
    acts.set(record, "sawlogs", quantity.say(sawlogs, "board ft"), "sawlogs in it, International 1/4-inch rule")
    acts.set(record, "pulpwood", quantity.say(felling.wood(record, acres, { what = "pulpwood sold" }, "cords", "pulpwood"),
        "cord"), "pulpwood in it, beside the sawlogs")
end

--- Trucks are full by weight, and a cord of oak is heavier than one of aspen.
local function set_loads(record)
    local tons = acts.get(record, "tons")
    local load = products.truck("weight", record.values.truck, record.place)
    if tons and load then acts.set(record, "loads", tons / load.value, "truckloads") end
end

--- A figure of one species, which papers tell in the table of the sale.
local function set_of(record, key, species, value, words)
    local named = acts.set(record, key .. ", " .. species, value, words)
    record.figures[key .. ", " .. species].inner = true
    return named
end

--- Wood of each species by its products, and its truckloads: a mill buys by both.
local function set_species(record, acres)
    local load = acts.get(record, "cords") and products.truck("weight", record.values.truck, record.place)
    if not load then return end
    for _, species in ipairs(record.taken:species()) do
        local function wood(as, product)
            local what = product and ("%s of %s"):format(product, species) or species
            return felling.wood(record, acres, { species = { species }, what = what }, as, product)
        end
        local cords = wood("cords")
        if quantity.number(cords, "cord") > 0 then
            set_of(record, "cords", species, quantity.say(cords, "cord"), species .. " in the sale")
            set_of(record, "loads", species, quantity.say(wood("tons"), "ton") / load.value, "truckloads of " .. species)
            local sawlogs = acts.get(record, "sawlogs") and wood("board feet", "sawlogs")
            if sawlogs and quantity.number(sawlogs, "board ft") > 0 then
                set_of(record, "sawlogs", species, quantity.say(sawlogs, "board ft"), "sawlogs of " .. species)
            end
            if sawlogs then
                set_of(record, "pulpwood", species, quantity.say(wood("cords", "pulpwood"), "cord"), "pulpwood of " .. species)
            end
        end
    end
end

--- What the owner should know of a sale: what one move of a crew costs against it, and which
--- trees it takes that the plan has a use for.
local function tell(record)
    local merchantable = need "merchantable"
    local cords = acts.get(record, "cords")
    local move = cords and merchantable.moving_in(cords, record.place)
    if move then
        table.insert(record.notes, ("One move of a crew and its machines comes to about %s.")
            :format(quantity.short(move)))
    end
    if cords and not acts.get(record, "stumpage") then
        table.insert(record.notes, "No price of the wood is told; what it brings is not counted in.")
    end
    local takes = merchantable.takes(record.stand, record.taken, true)
    if #takes > 0 then table.insert(record.notes, ("It takes %s."):format(table.concat(takes, "; "))) end
end

local keys = {}
for i, spec in ipairs(felling.keys) do keys[i] = spec end
keys[#keys + 1] = { "slash", kind = "choice", of = { "lop and leave", "pile", "burn piles", "carry off", "leave whole" },
    default = "leave whole", says = "what the contract asks to be done with tops and limbs" }
keys[#keys + 1] = { "truck", kind = "choice", of = { "usual", "heavy" }, default = "usual",
    says = "what hauls it: \"heavy\" trucks of many axles, where the state lets them drive; rates \"truck payload\" and \"truck payload, heavy truck\"" }
keys[#keys + 1] = { "days", kind = "span", most = quantity.leaf(20, "yr"), says = "how long the logger works, in place of what cords and the rate give" }

--- How many days the logger is there, when the plan does not say.
local function count_days(record)
    local cords = acts.get(record, "cords")
    local entry = rates.find("logging", "cord/d", record.place)
    if not cords or not entry then return 1 end
    return math.ceil(quantity.number(cords, "cord") / quantity.number(entry.value, "cord/d") - 1e-9)
end

local function days_of(record)
    local told = record.values.days
    return math.max(1, told and math.ceil(quantity.number(told, "d")) or record.days or 1)
end

return acts.declare({
    kind = "sale", named = "may", mapped = true, needs_stand = true, nobody = days_of,
    says = "trees sold standing to a logger, under a written contract",
    keys = keys,
    figures = { { "acres", "ground of the sale, after buffers and kept clumps" }, { "trees_cut", "trees sold" },
        { "trees_left", "trees left standing, for each acre" }, { "basal_area_taken", "basal area taken, for each acre" },
        { "basal_area_left", "basal area left, for each acre" },
        { "stocking_left", "how full it stands after it, in percent of the guide that fits; where no more is taken than left" },
        { "cords", "wood in it (trees of 5 in and more)" }, { "tons", "its green weight" },
        { "sawlogs", "sawlogs in it, board feet by the International 1/4-inch rule; where there are any" },
        { "pulpwood", "pulpwood in it, cords; where there are sawlogs beside it" }, { "loads", "truckloads, by the green weight" },
        { "stumpage", "what it brings, only where prices are told; it and what is told of wood, sawlogs, pulpwood and loads also of each species: `cords, NAME`" } },
    answers = need("act_answers").rows,
    hazards = {
        "Nobody walks in the sale while machines work: two tree lengths from any tree being felled (OSHA 1910.266(h)(1)).",
        "Only under a written contract, with proof of insurance, lines marked and cutting notice given. The volume here is an estimate, not an offer.",
    },
    example = [[sale "poles" { stand = "Bench aspen", species = "aspen", at_least = 5 in,
  during = season "frozen ground" }]],
    more = [[
what it brings goes by prices: of a product of a species or group (in USD/cord,
sawlogs in USD/mbf too), else of all its wood, else of a product of all, else
of all wood; of two groups the narrower holds:
  price "stumpage, red oak sawlogs" { value = 300 USD/mbf, source = "bids" }
  price "stumpage, aspen" { value = 20 to 30 USD/cord, source = "bids" }
  price "stumpage, pulpwood" { value = 15 USD/cord, source = "a mill" }
  price "stumpage" { value = 10 USD/cord, source = "a mill" }

by a logger of the plan, who comes on certain days, told as a crew:
  crew "logger" { people = 2, hours_each = 40 h/wk, from = Dec 15 2026 }
  sale "thinning" { stand = "Bench aspen", share = 30 percent,
    crew = "logger" }]],
    title = function(record) return "Sale of " .. species_words(record.values.species) end,
    takeoff = function(record)
        local acres = acts.set(record, "acres", felling.ground(record), "ground of the sale")
        if not acres then return end -- the fault is told
        local part = ground.part_words(record)
        if part then table.insert(record.notes, part) end
        if not felling.split(record, acres) then
            if record.stand.cruise then return end -- the fault is told
            host.fault(record.place, "stand", "stand-unknown-trees", ("nothing is said of the trees of \"%s\", "
                .. "so what is sold there cannot be counted"):format(record.stand.name),
                "give it a tally, or species, diameter and basal_area by eye")
            return
        end
        felling.set_trees(record, acres, "sold")
        felling.set_marking(record)
        felling.set_wood(record, acres, "wood in the sale")
        set_products(record, acres)
        set_loads(record)
        set_species(record, acres)
        record.days = count_days(record)
        need("stumpage").set(record, acres)
        tell(record)
    end,
})
