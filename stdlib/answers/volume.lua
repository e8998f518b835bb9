--- What a stand answers about its wood: by product, in the units of the trade; its weight; what
--- is left on the ground; truckloads; would it sell.
local forest = need "forest"
local host = need "host"
local products = need "products"
local quantity = need "quantity"

local function trees(record, place) return need("answers").trees(record, place) end

local species_key = { "species", kind = "list", of = "species", says = "which species or groups; all without it" }
local from_key = { "at_least", kind = "diameter", says = "only trees of this diameter and more" }
local below_key = { "below", kind = "diameter", says = "only trees under this diameter" }

--- Which trees the keys mean.
local function which(values, what)
    local species = values.species and #values.species > 0 and values.species or nil
    return { species = species, from = values.at_least and quantity.number(values.at_least, "in"),
        below = values.below and quantity.number(values.below, "in"),
        what = (species and table.concat(species, ", ") .. ", " or "") .. what }
end

local function rule_words() return forest.log_rules() end

--- The unit that was meant, when it was not said.
local function unit_of(values)
    return values.as or (values.rule and "board feet") or "cords"
end

local function check_volume(values, place)
    local as = unit_of(values)
    if as == "board feet" and values.product and values.product ~= "sawlogs" then
        host.raise(place, "product", "wood-board-feet", ("board feet are of sawlogs; this is %s"):format(values.product),
            "product = \"sawlogs\", or as = \"cords\"")
    end
    if as ~= "board feet" and values.rule then
        host.raise(place, "rule", "wood-rule", ("a log rule gives board feet, not %s"):format(as),
            "leave out `as`, or leave out `rule`")
    end
    if values.form_class and (as ~= "board feet" or not select(7, forest.log_rule(values.rule or "international"))) then
        host.raise(place, "form_class", "wood-form-class", "form classes are for board feet by the rules international, scribner and doyle",
            "rule = \"international\"")
    end
    return as
end

local function volume(record, values, place)
    local as = check_volume(values, place)
    local product = as == "board feet" and "sawlogs" or values.product or "wood"
    return products.wood(record, trees(record, place), which(values, product), { product = product, as = as,
        rule = values.rule, form_class = values.form_class, bark = values.bark }, place)
end

local function loads(record, values, place)
    local stock = trees(record, place)
    local asked = { product = values.product or "wood", as = values.by == "cords" and "cords" or "tons" }
    local unit = values.by == "cords" and "cord" or "ton"
    local load = products.truck(values.by, values.truck, place)
    if not load then host.raise_faults() end
    local wood = products.wood(record, stock, which(values, asked.product), asked, place)
    if not record.area then
        host.raise(place, nil, "stand-unknown-area", ("the area of \"%s\" is not told"):format(record.name), "area = 3.4 ac")
    end
    return quantity.say(wood * record.area, unit) / load.value
end

return {
    { name = "volume", main = "product",
        says = "wood an acre: by product, in cords, cubic feet, tons or, by a log rule, board feet. Cords and tons go by diameter alone where the stand's tree_length is not told, else by diameter and height",
        keys = {
            { "product", kind = "choice", of = products.products,
                says = "\"wood\": all of it (the usual); \"sawlogs\": butt logs of trees thick enough; \"pulpwood\": the rest. Sizes are rates, such as rate \"sawlog tree, hardwood\"" },
            { "as", kind = "choice", of = products.units, says = "\"cords\" (the usual, stacked, 79 ft3 of solid wood), \"cubic feet\" (solid), \"tons\" (green), \"board feet\"" },
            { "rule", kind = "choice", of = rule_words(), says = "log rule, for board feet of sawlogs; \"international\" is the quarter-inch rule" },
            { "form_class", kind = "number", least = 60, most = 95, says = "form class of the trees, for the rules international, scribner and doyle; 78 when not told" },
            { "bark", kind = "flag", says = "cubic feet with bark" }, species_key, from_key, below_key },
        example = "s:volume { product = \"sawlogs\", species = \"oak\", rule = \"scribner\" }", call = volume },
    { name = "tons", says = "green weight of wood an acre",
        keys = { { "product", kind = "choice", of = products.products, says = "as for volume" }, species_key, from_key, below_key },
        main = "species", example = "s:tons \"aspen\"",
        call = function(record, values, place)
            local product = values.product or "wood"
            return products.wood(record, trees(record, place), which(values, product .. ", green"),
                { product = product, as = "tons" }, place)
        end },
    { name = "biomass", main = "part",
        says = "dry weight of trees of 1 in and more, an acre: of all above ground, or of a part",
        keys = { { "part", kind = "choice", of = forest.biomass_parts(), default = "above ground",
            says = "stem wood and bark to a 4-in top, branches, foliage; the crown is branches and foliage; roots come beside it" },
            species_key, from_key, below_key },
        example = "s:biomass { part = \"foliage\", species = \"red pine\" }",
        call = function(record, values, place)
            need "biomass"
            return forest.biomass(trees(record, place), which(values, values.part), values.part)
        end },
    { name = "slash", main = "species",
        says = "dry weight of tops, limbs and leaves that lie there an acre when these trees are felled and their wood taken up to the pulpwood top; trees too thin for that lie there whole",
        keys = { species_key, from_key, below_key }, example = "s:slash \"aspen\"",
        call = function(record, values, place)
            return products.slash(record, trees(record, place), which(values, "slash"), place)
        end },
    { name = "loads", main = "product",
        says = "truckloads of the whole stand, by green weight against rate \"truck payload\", or by cords against rate \"truckload\"",
        keys = { { "product", kind = "choice", of = products.products, says = "as for volume" },
            { "by", kind = "choice", of = { "weight", "cords" }, default = "weight", says = "what fills the truck" },
            { "truck", kind = "choice", of = { "usual", "heavy" }, default = "usual", says = "\"heavy\": of many axles, as Michigan lets drive; rates \"truckload, heavy truck\" and \"truck payload, heavy truck\"" },
            species_key, from_key, below_key },
        example = "s:loads { by = \"cords\" }", call = loads },
    { name = "sale",
        says = "would it carry a commercial sale? Advice with its numbers, never a promise of a price. Gives a table: cords, sawlogs (board feet), pulpwood (cords), tons, loads, area, with_others (names), cords_together, area_together, moving_in and moving_in_together (USD a cord), worth_asking, why (list of words), years (until big enough, nil when it is), limits and takes (lists of words)",
        keys = {}, example = "s:sale().cords_together",
        call = function(record, _, place)
            trees(record, place)
            return need("merchantable").report(record, place)
        end },
}
