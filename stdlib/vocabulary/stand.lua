--- stand: a piece of woodland or field that is treated as one: how large, what stands on it.
local estimates = need "estimates"
local forest = need "forest"
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

--- A species, or a group of species, by any of its names.
kinds.species = {
    says = "a species or a group of species, such as \"bigtooth aspen\" or \"oak\"",
    take = function(value, _, place, key)
        if type(value) ~= "string" then return nil end
        if forest.species_known(value) then return value end
        local near = forest.species_near(value)
        host.fault(place, key, "species-unknown", ("there is no species \"%s\""):format(value),
            near and ("did you mean \"%s\"?"):format(near) or "`spinney help species` lists them")
        return nil, kinds.REPORTED
    end,
}

local M = {
    kind = "stand", named = "must", list = run.stands,
    says = "a piece of woodland or field treated as one; described by a tally, by eye, or not walked",
    keys = {
        { "area", kind = "area", needed = true, says = "its area", example = "3.4 ac" },
        { "tally", kind = "text", says = "cruise notes: baf 10 / radius 24 ft / size 1/10 ac, then a line a plot",
          example = "[[ baf 10\nplot 1: red oak 12 14 ]]" },
        { "species", kind = "table", says = "by eye: shares of the basal area, { [\"bigtooth aspen\"] = 60 percent, [\"red maple\"] = 40 percent }" },
        { "diameter", kind = "any", says = "by eye: diameters, 4 to 8 in" },
        { "basal_area", kind = "basal_area", says = "by eye: basal area, 60 to 90 ft2/ac" },
        { "crowding", kind = "choice", of = { "open", "moderate", "crowded", "dense" },
          says = "by eye, when the basal area was not judged" },
        { "walked", kind = "flag", default = true, says = "false: not walked; what is said of it is a guess" },
        { "age", kind = "span", says = "age: 45 to 55 yr" },
        { "tree_length", kind = "length", says = "height of its tallest trees: one tree length",
          example = "60 to 70 ft" },
        { "site_index", kind = "table", says = "height at age 50 by species: { [\"red oak\"] = 62 ft }" },
        { "ground", kind = "choice", of = { "dry", "moist", "wet", "standing water" }, default = "moist",
          says = "how wet the ground is in an ordinary summer" },
        { "slope", kind = "slope", says = "steepness: 12 percent" },
        { "slope_faces", kind = "text", says = "where the slope faces" },
        { "soil", kind = "text", says = "soil, in words" },
        { "brush", kind = "choice", of = { "light", "medium", "heavy" }, default = "medium",
          says = "how thick the brush is that a crew walks and cuts through" },
        { "health", kind = "text", says = "health, in words" },
        { "regeneration", kind = "text", says = "seedlings and sprouts, in words" },
        { "browse", kind = "choice", of = { "none", "light", "moderate", "heavy" },
          says = "how hard deer have bitten it" },
        { "invasives", kind = "list", of = "species", says = "invasive plants seen" },
        { "access", kind = "choice", of = { "foot", "small machine", "truck" }, default = "foot",
          says = "what can be driven to it" },
        { "width", kind = "length", says = "its narrowest width, where that matters to a cut" },
        { "beside", kind = "list", of = "text", says = "stands beside it, that a sale could take with it" },
        { "contract", kind = "text", says = "conservation contract or easement its cover is under, such as \"CRP until 2031\"" },
        { "says", kind = "text", says = "what the owner should know of it" },
    },
    example = [==[stand "Bench aspen" {
  area = 3.4 ac, ground = "moist", tree_length = 60 to 66 ft,
  tally = [[
    baf 10
    plot 1: bigtooth aspen 7 8 8 9 11; red oak 14; red maple 5
    plot 2: bigtooth aspen 6 8 9 10 10 12; paper birch 8
  ]],
}]==],
}

--- What a stand answers in a script, beside its keys.
M.answers = {
    { "s.area", "its area" },
    { "s.tree_length", "one tree length of it" },
    { "s:basal_area \"aspen\"", "basal area an acre of a species or group; of all without a name" },
    { "s:trees \"aspen\"", "trees an acre, likewise" },
    { "s:diameter \"aspen\"", "diameter of the tree of mean basal area" },
    { "s:share \"aspen\"", "share of the basal area" },
    { "s:has \"oak\"", "is there any?" },
    { "s:cords \"aspen\"", "cords an acre, by a simple table of cords a tree" },
    { "s.plots", "how many plots the tally has (0 by eye)" },
}

--- Reads cruise notes into a stand's record; faults are put at the very place in the text.
function M.read_tally(record, place, key, text)
    record.tally_place = place
    record.cruise = forest.tally(text, record.name, place, key)
end

local function by_eye(record, place, values)
    local before = host.fault_count()
    local shares = {}
    local names = {}
    for name in pairs(values.species or {}) do
        if type(name) == "string" then
            names[#names + 1] = name
        else
            host.fault(place, "species", "eye-shares", "each species by eye has its share",
                "species = { [\"red oak\"] = 60 percent, [\"red maple\"] = 40 percent }")
        end
    end
    if #names == 0 and host.fault_count() == before then
        host.fault(place, values.species and "species" or nil, "eye-shares",
            "a stand judged by eye needs `species`: their shares of the basal area",
            "species = { [\"red oak\"] = 60 percent, [\"red maple\"] = 40 percent }")
    elseif #names > 40 then
        host.fault(place, "species", "eye-shares", "at most 40 species are judged by eye")
    end
    table.sort(names)
    for _, name in ipairs(names) do
        local known, id, message, mend = forest.species_one(name)
        if not known then host.fault(place, { "species", name }, id, message, mend) end
        local share = kinds.share.take(values.species[name])
        if not share then
            host.fault(place, { "species", name }, "key-kind", ("the share of %s wants %s; this is %s"):format(name,
                kinds.share.says, kinds.describe(values.species[name])),
                kinds.mend({ ("[\"%s\"]"):format(name) }, kinds.share, values.species[name]))
        elseif known then
            local percent = quantity.number(share, "percent")
            if percent <= 0 or percent > 100 then
                host.fault(place, { "species", name }, "eye-share", ("the share of %s is %s; it lies above 0 and up to 100 percent")
                    :format(name, tostring(share)))
            end
            shares[#shares + 1] = { species = name, percent = percent }
        end
    end
    local low, high = 4, 10 -- inches, when nothing was judged: common practice, no source
    if values.diameter ~= nil then
        if quantity.is(values.diameter) and quantity.fits(values.diameter, "in") then
            low, high = quantity.ends(values.diameter, "in")
        else
            host.fault(place, "diameter", "key-kind", ("`diameter` wants a diameter or a range, such as 4 to 8 in; this is %s")
                :format(kinds.describe(values.diameter)), type(values.diameter) == "number"
                and ("diameter = %s in"):format(tostring(values.diameter)) or nil)
        end
    end
    local density = { 45, 65, 85 } -- "moderate"
    if values.basal_area then
        density[1], density[3] = quantity.ends(values.basal_area, "ft2/ac")
        density[2] = quantity.number(values.basal_area, "ft2/ac")
    else
        for _, row in ipairs(estimates.crowding) do
            if row.word == (values.crowding or "moderate") then density = { row.low, row.likely, row.high } end
        end
    end
    if host.fault_count() > before then return end
    local doubt = estimates.doubt
    record.cruise = forest.estimate(record.name, place, {
        shares = shares, least = low, most = high, low = density[1], likely = density[2],
        high = density[3], walked = values.walked ~= false,
        density_percent = doubt.density_percent, share_points = doubt.share_points,
        diameter_percent = doubt.diameter_percent, not_walked_times = doubt.not_walked_times,
    })
end

--- One tree length: as told, else from the mean diameter. Height of 10 ft and 6 ft more for
--- each inch, at most 80 ft: common practice, no source.
local function tree_length(record)
    if record.length then return record.length end
    local told = record.values.tree_length
    if told then
        record.length = quantity.name(told, "tree length of " .. record.name)
        return record.length
    end
    local inches = 8
    local diameter = record.cruise and record.cruise:diameter()
    if diameter then inches = quantity.number(diameter, "in") end
    local feet = math.min(80, 10 + 6 * inches)
    record.length = quantity.name(quantity.range(feet * 0.85, feet, feet * 1.15, "ft",
        "height of the trees of " .. record.name,
        "10 ft and 6 ft for each inch of mean diameter: common practice, no source"),
        "tree length of " .. record.name)
    return record.length
end
M.tree_length = tree_length

local function answer(name)
    return function(object, species)
        local record = objects.record(object, "stand")
        if not record then
            host.raise(nil, nil, "stand-answer", ("%s is asked of a stand with a colon"):format(name),
                ("write stand:%s \"aspen\""):format(name))
        end
        local list = species
        if type(species) ~= "table" then list = { species } end
        for _, word in ipairs(list) do
            if type(word) ~= "string" then
                host.raise(nil, nil, "key-kind", ("%s wants a species or a list of them; this is %s")
                    :format(name, kinds.describe(word)))
            end
            if not kinds.species.take(word, nil, nil, nil) then host.raise_faults() end
        end
        if not record.cruise then
            host.raise(nil, nil, "stand-unknown-trees", ("nothing is said of the trees of \"%s\"")
                :format(record.name), "give it a tally, or species, diameter and basal_area by eye")
        end
        return record.cruise[name](record.cruise, species)
    end
end

local ANSWERS = { basal_area = answer "basal_area", trees = answer "trees", diameter = answer "diameter",
    share = answer "share", has = answer "has", cords = answer "cords" }

local Stand = { kind = "stand" }
function Stand.index(record, key)
    if ANSWERS[key] then return ANSWERS[key] end
    if key == "name" then return record.name end
    if key == "area" then return record.area end
    if key == "tree_length" then return tree_length(record) end
    if key == "plots" then return record.cruise and record.cruise:plots() or 0 end
    if key == "acts" then
        local out = {}
        for _, act in ipairs(run.acts) do
            if act.stand == record then out[#out + 1] = act.object end
        end
        return out
    end
    if key == "species" or key == "diameter" then return objects.open(record.values[key]) end
    if not need("schema").key(M, key) then
        local near = host.suggest(tostring(key), { "area", "tree_length", "basal_area", "trees",
            "diameter", "share", "has", "cords", "plots", "acts", "ground", "slope", "access" })
        host.raise(nil, nil, "key-unknown", ("a stand has no `%s`"):format(tostring(key)),
            near and ("did you mean `%s`?"):format(near))
    end
    return objects.open(record.values[key])
end

--- A row for each species present: its basal area, trees, diameter and share.
function M.rows(record)
    if record.rows then return record.rows end
    record.rows = {}
    for i, name in ipairs(record.cruise:species()) do
        record.rows[i] = { species = name, basal_area = record.cruise:basal_area(name),
            trees = record.cruise:trees(name), diameter = record.cruise:diameter(name),
            share = record.cruise:share(name) }
    end
    return record.rows
end

--- When the script has ended: are the stands beside it described?
function M.finish()
    for _, record in ipairs(run.stands) do
        for _, name in ipairs(record.values.beside or {}) do
            run.find_stand(name, record.place, "beside")
        end
    end
end

function M.known(name) return run.known(run.stands, name) end

--- A table after a name that is taken: told by make.
function Stand.call(record, given)
    return need("prelude").make_again(M, record.name, given)
end

function M.make(place, name, values)
    for _, stand in ipairs(run.stands) do
        if stand.name == name then
            host.fault(place, nil, "name-taken", ("stand \"%s\" is already described at %s"):format(name,
                host.place_words(stand.place)), "give one of the two another name")
        end
    end
    local record = { name = name, place = place, values = values }
    if values.area then record.area = quantity.name(values.area, "area of " .. name) end
    if values.tally and values.species then
        host.fault(place, "species", "stand-twice", "a stand has a tally or is judged by eye, not both",
            "take out `species`, or `tally`")
    elseif values.tally then
        M.read_tally(record, place, "tally", values.tally)
    elseif values.species or values.basal_area or values.crowding or values.diameter then
        by_eye(record, place, values)
    end
    if values.slope then record.slope = values.slope end
    run.stands[#run.stands + 1] = record
    return objects.new(Stand, record)
end

return M
