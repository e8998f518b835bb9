--- Wood, a log, a tree and a cord at a time.
local biomass = need "biomass"
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"
local rates = need "rates"

local girard = "Mesavage and Girard 1946, Tables for estimating board-foot volume of timber; equations of Wiant 1986, North. J. Appl. For. 3:124"
local beers = "Beers 1964, Purdue Agric. Exp. Sta. Res. Bull. 787, Composite hardwood volume tables"
local by_diameter = "cords by diameter: university extension table"

local function inches(n) return quantity.leaf(n, "in") end
local function feet(n) return quantity.leaf(n, "ft") end

--- Told where a log is out of its rule's range.
local function check_log(values, place)
    local number, source, from_in, to_in, from_ft, to_ft = forest.log_rule(values.rule)
    for _, row in ipairs({ { "diameter", "in", from_in, to_in }, { "length", "ft", from_ft, to_ft } }) do
        local value = quantity.number(values[row[1]], row[2])
        if value < row[3] - 1e-9 or value > row[4] + 1e-9 then
            host.raise(place, row[1], "log-range", ("the %s rule takes logs of %g to %g %s; this is %s"):format(
                values.rule, row[3], row[4], row[2], tostring(values[row[1]])),
                row[1] == "length" and value > row[4] and "scale a longer log as two or more" or nil)
        end
    end
    return number, source
end

local function log_volume(values, place)
    local number, source = check_log(values, place)
    return forest.wood_equation(values.rounded and "log scaled" or "log", source, { number },
        values.diameter, values.length)
end

local function tree_volume(values, place)
    local number, _, _, _, _, _, has = forest.log_rule(values.rule)
    if not has then
        host.raise(place, "rule", "tree-rule", ("there are no form-class tables by the %s rule"):format(values.rule),
            "rule = \"international\", \"scribner\" or \"doyle\"")
    end
    return forest.wood_equation("tree", girard, { number }, values.diameter, values.logs, values.form_class or 78)
end

local function composite(values)
    return forest.wood_equation("composite " .. values.as, beers, { values.bark and 1 or 0 },
        values.diameter, values.height)
end

--- Told where a group's species differ in what is asked.
local function raise_differ(place, species, two, what)
    host.raise(place, "species", "species-differ", ("%s differs between the species of \"%s\": %s, %s"):format(what,
        species, two[1], two[2]), ("species = \"%s\""):format(two[1]))
end

local function weight(values, place)
    local gravity, source = values.gravity, "Wood Handbook, FPL-GTR-190, ch. 4: 62.43 G (1 + moisture)"
    if values.species and not gravity then
        local told
        gravity, told = biomass.of_all(values.species, function(name) return forest.species_trait(name, "wood_gravity") end)
        if type(told) == "table" then raise_differ(place, values.species, told, "the weight of wood") end
        if not gravity then
            host.raise(place, "species", "species-gravity", ("nothing is said of the wood of %s"):format(values.species),
                "gravity = 0.45")
        end
        source = ("%s; gravity: %s"):format(source, told)
    elseif not gravity then
        host.raise(place, nil, "key-missing", "weight wants `species` or `gravity`", "species = \"red oak\"")
    end
    return forest.wood_equation("weight", source, {}, gravity, values.moisture)
end

local function group_names()
    local names = {}
    for i, group in ipairs(biomass.groups) do names[i] = group.name end
    return names
end

local function tree_biomass(values, place)
    local b0, b1, softwood, source
    if values.species then
        b0, b1, softwood, source = biomass.equation(values.species)
        if not b0 then raise_differ(place, values.species, b1, "the equation of dry weight") end
    elseif values.group then
        local group = biomass.group(values.group)
        if not group then
            local near = host.suggest(values.group, group_names())
            host.raise(place, "group", "biomass-group", ("there is no group \"%s\" in the biomass table"):format(values.group),
                near and ("did you mean \"%s\"?"):format(near) or table.concat(group_names(), "; "))
        end
        b0, b1, softwood, source = group.b0, group.b1, group.softwood, ("%s, table 4 (%s)"):format(biomass.source, group.name)
    else
        host.raise(place, nil, "key-missing", "biomass wants `species` or `group`", "species = \"red oak\"")
    end
    return forest.wood_equation("biomass", source, { b0, b1, softwood and 1 or 0, forest.biomass_part(values.part) },
        values.diameter)
end

-- Convert ------------------------------------------------------------------------------------

--- Space that a cord takes up in a stack, wood, bark and air: Minn. Stat. 239.33.
local stacks = { ["4-ft lengths"] = 128, ["sawed, ranked"] = 110, ["sawed, loose"] = 160, ["split, ranked"] = 120,
    ["split, loose"] = 175 }
local stack_words = { "4-ft lengths", "sawed, ranked", "sawed, loose", "split, ranked", "split, loose" }

local kinds_of = { cords = "cord", ["cubic feet"] = "ft3", ["rough cubic feet"] = "ft3", ["board feet"] = "board ft", tons = "ton" }

--- Which of them an amount is said in.
local function kind_of(amount)
    if quantity.fits(amount, "ton") then return "tons" end
    local unit = quantity.unit(amount)
    if unit == "cord" or unit == "cords" then return "cords" end
    if unit:find("board", 1, true) or unit:find("mbf", 1, true) then return "board feet" end
    return quantity.fits(amount, "ft3") and "cubic feet" or nil
end

local function rate(name, unit, place)
    local entry = rates.find(name, unit, place)
    if not entry then host.raise_faults() end
    return entry.value
end

--- Green tons in a cord of a species.
local function tons_per_cord(values, place)
    local tons, source
    if values.species then tons, source = biomass.of_all(values.species, forest.tons_per_cord) end
    if type(source) == "table" then raise_differ(place, values.species, source, "the weight of a cord") end
    if not tons then
        host.raise(place, "species", "species-tons", values.species
            and ("nothing is said of the weight of a cord of %s"):format(values.species)
            or "weight goes by species: none is told", "species = \"red oak\"")
    end
    return quantity.leaf(tons, "ton", ("green tons in a cord of %s: %s"):format(values.species, source))
end

--- What one cord is, in each of them.
local function in_a_cord(kind, values, place)
    if kind == "cords" then return quantity.leaf(1, "cord", "one cord") end
    if kind == "cubic feet" then return values.cord_holds or rate("solid wood in a cord", "ft3", place) end
    if kind == "rough cubic feet" then
        return quantity.leaf(stacks[values.stack], "ft3", ("space of a cord, %s, with bark and air: Minn. Stat. 239.33"):format(values.stack))
    end
    if kind == "board feet" then return rate("board feet in a cord", "board ft", place) end
    return tons_per_cord(values, place)
end

local function convert(values, place)
    local from = kind_of(values.amount)
    if not from then
        host.raise(place, "amount", "convert-amount", ("an amount of wood is in cord, ft3, board ft or ton; this is %s")
            :format(need("kinds").describe(values.amount)), "amount = 12 cord")
    end
    return quantity.say(values.amount / in_a_cord(from, values, place) * in_a_cord(values.to, values, place),
        kinds_of[values.to])
end

return {
    { name = "log_volume", says = "board feet in a log, by a log rule",
        keys = {
            { "rule", kind = "choice", of = forest.log_rules(), needed = true, says = "\"international\" is the quarter-inch rule", example = "\"scribner c\"" },
            { "diameter", kind = "diameter", needed = true, says = "inside bark, at the small end", example = "12 in" },
            { "length", kind = "length", needed = true, says = "of the log", example = "16 ft" },
            { "rounded", kind = "flag", default = true, says = "as a scale stick reads it: whole inches; International to the nearest 5, Decimal C in tens, others to the foot. false: as the rule computes it" },
        },
        gives = "board feet", source = "Doyle; Scribner by formula (Bruce and Schumacher 1950); Scribner Decimal C table (FSH 2409.11); International: Mich. Comp. Laws 290.401, Clark 1906",
        example = "handbook.log_volume { rule = \"international\", diameter = 12 in,\n  length = 16 ft }", call = log_volume },
    { name = "tree_volume", says = "board feet in a standing tree, by form class and 16-ft logs",
        keys = {
            { "rule", kind = "choice", of = forest.log_rules(), needed = true, says = "international, scribner or doyle", example = "\"doyle\"" },
            { "diameter", kind = "diameter", needed = true, least = inches(5), most = inches(60), says = "at breast height; the tables hold 10 to 40 in", example = "24 in" },
            { "logs", kind = "number", needed = true, least = 0.5, most = 6, says = "how many 16-ft logs, by the half", example = "2.5" },
            { "form_class", kind = "number", least = 60, most = 95, says = "diameter inside bark at the top of the first log, in percent of that at breast height; 78 when not told" },
        },
        gives = "board feet", source = girard,
        example = "handbook.tree_volume { rule = \"doyle\", diameter = 24 in,\n  logs = 2.5, form_class = 82 }", call = tree_volume },
    { name = "composite_volume", says = "wood in a standing tree, by diameter and merchantable height, of no particular species",
        keys = {
            { "diameter", kind = "diameter", needed = true, least = inches(1), most = inches(60), says = "at breast height", example = "10 in" },
            { "height", kind = "length", needed = true, least = feet(4), most = feet(84), says = "merchantable height", example = "26 ft" },
            { "as", kind = "choice", of = { "cords", "cubic feet", "board feet" }, default = "cords", says = "board feet are by the International quarter-inch rule" },
            { "bark", kind = "flag", says = "cubic feet with bark" },
        },
        gives = "cords, cubic feet or board feet", source = beers,
        example = "handbook.composite_volume { diameter = 10 in, height = 26 ft,\n  as = \"cubic feet\", bark = true }", call = composite },
    { name = "cords", main = "diameter", says = "cords in a standing tree, by its diameter alone",
        keys = { { "diameter", kind = "diameter", needed = true, most = inches(60), says = "at breast height", example = "12 in" } },
        gives = "cords", source = by_diameter, example = "handbook.cords { diameter = 12 in }",
        call = function(values) return forest.wood_equation("cords", by_diameter, {}, values.diameter) end },
    { name = "weight", main = "species", says = "weight of a cubic foot of wood",
        keys = {
            { "species", kind = "species", says = "its specific gravity is taken from the species table" },
            { "gravity", kind = "number", least = 0.05, most = 1.4, says = "specific gravity instead: green volume, dry weight" },
            { "moisture", kind = "quantity", unit = "percent", default = quantity.leaf(12, "percent"), most = quantity.leaf(300, "percent"),
                says = "water, in percent of the dry weight; green wood has about 80 to 100 (common practice, from memory)" },
        },
        gives = "lb/ft3", source = "Wood Handbook, FPL-GTR-190, ch. 4", example = "handbook.weight { gravity = 0.4, moisture = 12 percent }", call = weight },
    { name = "biomass", says = "dry weight of a tree or a part of it, by national equations",
        keys = {
            { "species", kind = "species", says = "which species, or" },
            { "group", kind = "text", says = "a group of the table, or a word of it: \"aspen\", \"pine\", \"mixed hardwood\", \"oak\"" },
            { "diameter", kind = "diameter", needed = true, least = inches(1), most = inches(100), says = "at breast height", example = "10 in" },
            { "part", kind = "choice", of = forest.biomass_parts(), default = "above ground", says = "the crown is branches and foliage; roots come beside the rest" },
        },
        gives = "pounds, dry", source = biomass.source, example = "handbook.biomass { species = \"red oak\", diameter = 10 in, part = \"foliage\" }", call = tree_biomass },
    { name = "convert", says = "an amount of wood in another unit of the trade, by rates that layers may change: none of these is exact",
        keys = {
            { "amount", kind = "quantity", needed = true, says = "12 cord, 900 ft3 (solid), 5000 board ft, 30 ton (green)", example = "12 cord" },
            { "to", kind = "choice", of = { "cords", "cubic feet", "rough cubic feet", "board feet", "tons" }, needed = true, says = "what it is wanted in: \"cubic feet\" are solid wood, \"rough cubic feet\" the stack with bark and air", example = "\"tons\"" },
            { "stack", kind = "choice", of = stack_words, default = "4-ft lengths", says = "how the wood lies, for rough cubic feet: a cord is 128 of them in 4-ft lengths" },
            { "species", kind = "species", says = "for weights" },
            { "cord_holds", kind = "quantity", unit = "ft3", least = quantity.leaf(40, "ft3"), most = quantity.leaf(128, "ft3"), says = "solid wood in a cord, instead of rate \"solid wood in a cord\"" },
        },
        gives = "the amount", source = "Minn. Stat. 239.33 and Woodland Stewardship 2009, ch. 2 (79 ft3 of wood, tons a cord); board feet in a cord from memory",
        example = "handbook.convert { amount = 12 cord, to = \"tons\", species = \"red oak\" }", call = convert },
}
