--- stand: a piece of woodland or field that is treated as one: how large, what stands on it.
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
    also = { acres = "area", acreage = "area", size = "area", cruise = "tally", height = "tree_length" },
    says = "a piece of woodland or field treated as one; described by a tally, by eye, or not walked",
    keys = {
        { "area", kind = "area", least = quantity.leaf(0.01, "ac"), says = "its area, or `map`: its name in the property's map", example = "3.4 ac" },
        { "map", kind = "map", says = "its name in the property's map, or a traverse round it: its area comes from there",
          example = "\"Bench aspen\"" },
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
        { "site_index", kind = "table", says = "height at age 50 by species: { [\"red oak\"] = 62 ft }; or measured trees, one or a list: { [\"red oak\"] = { height = 62 ft, age = 55 yr } }" },
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
        { "access", kind = "choice", of = { "foot", "small machine", "truck" },
          says = "what can be driven to it; \"foot\": nothing. Without it nothing is known" },
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
    { "s:species_there()", "names of the species in it, a list" },
    { "s.plots", "how many plots the tally has (0 by eye)" },
}

--- Reads cruise notes into a stand's record; faults are put at the very place in the text.
-- @param key of the call at `place` that has the text
-- @param source of a file's text, nil for a text in the script
function M.read_tally(record, place, key, text, source)
    record.tally_place = place
    record.cruise = forest.tally(text, record.name, place, key, source)
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

local ANSWERS = {}

function ANSWERS.species_there(stand)
    local record, names = objects.record(stand, "stand"), {}
    if not record then
        host.raise(nil, nil, "stand-answer", "species_there is asked of a stand with a colon", "write stand:species_there()")
    end
    for i, name in ipairs(record.cruise and record.cruise:species() or {}) do names[i] = name end
    return names
end

local Stand = { kind = "stand" }
function Stand.index(record, key)
    if ANSWERS[key] then return ANSWERS[key] end
    if key == "name" then return record.name end
    if key == "area" then return record.area end
    if key == "tree_length" then return tree_length(record) end
    -- In a script what was counted or judged; what was told is for the papers.
    if key == "basal_area" or key == "diameter" or key == "regeneration" then return need("answers").find(key) end
    if key == "site_index" then return need("site_stand").answer(record) end
    if key == "plots" then return record.cruise and record.cruise:plots() or 0 end
    if key == "acts" then
        local out = {}
        for _, act in ipairs(run.acts) do
            if act.stand == record then out[#out + 1] = act.object end
        end
        return out
    end
    if not need("schema").key(M, key) then
        local answers = need "answers"
        local found = answers.find(key)
        if found then return found end
        local names = answers.names()
        for _, name in ipairs({ "area", "tree_length", "plots", "acts", "ground", "slope", "access" }) do
            names[#names + 1] = name
        end
        local near = host.suggest(tostring(key), names)
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

--- How far an area that is told may be from the map's, before somebody should look.
local APART = 0.02

--- The stand's shape and area, from the map, and what was told of its area beside it.
local function read_map(record, values)
    local map = need "map"
    local shape, floats = map.take(values.map, "area", record.place, "map")
    if not shape then return end
    if not floats then
        record.shape = shape
        local property = run.property
        shape = need("stand_fit").fit(record, property and property.shape, run.stands)
        if not shape then return end
    end
    record.area = map.acres(shape, "area of " .. record.name)
    local told = values.area
    if told and math.abs(quantity.number(told, "ac") / quantity.number(record.area, "ac") - 1) > APART then
        host.warning(record.place, "area", "area-apart", ("`area` is %s, and the map makes it %s, which is used"):format(
            tostring(told), quantity.short(record.area)), "take `area` out, or draw the stand again")
    end
end

function M.make(place, name, values, given)
    for _, stand in ipairs(run.stands) do
        if stand.name == name then
            host.fault(place, nil, "name-taken", ("stand \"%s\" is already described at %s"):format(name,
                host.place_words(stand.place)), "give one of the two another name")
        end
    end
    local record = { name = name, place = place, values = values }
    if values.map then
        read_map(record, values)
    elseif values.area then
        record.area = quantity.name(values.area, "area of " .. name)
    elseif given.area == nil and given.map == nil then
        need("schema").missing(place, M, need("schema").key(M, "area"))
    end
    if values.tally and values.species then
        host.fault(place, "species", "stand-twice", "a stand has a tally or is judged by eye, not both",
            "take out `species`, or `tally`")
    elseif values.tally then
        M.read_tally(record, place, "tally", values.tally)
    elseif values.species or values.basal_area or values.crowding or values.diameter then
        need("by_eye").judge(record, place, values)
    end
    if values.site_index then need("site_told").read(record, place, values.site_index) end
    if values.slope then record.slope = values.slope end
    run.stands[#run.stands + 1] = record
    return objects.new(Stand, record)
end

return M
