--- A part of a stand that the map tells: which side of what it lies on, how near to what, or
--- which shape of the map it is. Said as a table; what stands in it must all hold:
---     part = { north_of = "two-track", beyond = 100 ft, of = "Quill Creek" }
-- The table is checked when it is said (act_kinds.lua) and becomes a shape when the script
-- has ended, for what it names may be described further down.
local M = {}
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

local SIDES = { "north", "east", "south", "west" }
--- Less than this of a stand is nothing, and what lacks less is all of it.
local NOTHING = 1e-6
--- Feet of a line carried on through a stand, or of its loops, that are not worth a word.
local LEAST_TOLD = 1
--- Of a traverse, what may lie outside its stand unsaid: common practice, no source.
local MOST_OUTSIDE = 0.02

local function is_landmark(value)
    return type(value) == "string" or objects.record(value, "feature") or objects.record(value, "stand")
        or objects.record(value, "traverse")
end

--- What a part lies beside: a feature, a stand, a name of the map, or several of them.
kinds.landmark = {
    says = "a feature, a kind of feature, a stand, a name in the map, or a list of these",
    take = function(value)
        if is_landmark(value) then return { value } end
        if type(value) ~= "table" or objects.record(value) or #value == 0 then return nil end
        local list = {}
        for i, one in ipairs(value) do
            if not is_landmark(one) then return nil, nil, nil, "there is " .. kinds.describe(one) .. " in it" end
            list[i] = one
        end
        return list
    end,
}

M.keys = {
    { "north_of", kind = "landmark", says = "on the north side of it: of a line, an area or a point", example = "\"two-track\"" },
    { "south_of", kind = "landmark", says = "on its south side" },
    { "east_of", kind = "landmark", says = "on its east side" },
    { "west_of", kind = "landmark", says = "on its west side" },
    { "within", kind = "length", says = "no farther than this from what is told in `of`", example = "2 tree_length" },
    { "beyond", kind = "length", says = "farther than this from what is told in `of`", example = "100 ft" },
    { "of", kind = "landmark", says = "from what `within` and `beyond` are measured", example = "\"Quill Creek\"" },
    { "map", kind = "map", says = "a shape of the map, or a traverse round it" },
}

local function declared(key) return { kind = "part", at = key, keys = M.keys } end

--- What a script sees of a part: one that is handed on has these.
local SEEN = { words = true, share = true }

--- Whether a value is said in the words of a map.
function M.is_mapped(value)
    if type(value) ~= "table" or objects.record(value) then return false end
    for key in pairs(value) do
        if type(key) == "string" and not SEEN[key] then return true end
    end
    return false
end

--- The keys that must stand beside one another.
local function check_together(place, key, part)
    local measured = part.within and "within" or part.beyond and "beyond"
    if measured and not part.of then
        host.fault(place, { key, measured }, "key-missing", ("`%s` needs `of`: from what it is measured"):format(measured),
            ("%s = %s, of = \"Quill Creek\""):format(measured, tostring(part[measured])))
        return false
    elseif part.of and not measured then
        host.fault(place, { key, "of" }, "key-alone", "`of` goes with `within` or `beyond`, and neither is told",
            "within = 2 tree_length, of = ...")
        return false
    end
    return true
end

--- Checks such a table as it is said; nil when a fault was told.
-- @return { shaped = true, said (words of the author's own), north_of = ..., ... }
function M.take(value, place, key)
    local told, before = {}, host.fault_count()
    for name, one in pairs(value) do
        if type(name) == "string" then told[name] = one end
    end
    for i, one in ipairs(value) do
        if i > 1 or type(one) ~= "string" then
            host.fault(place, key, "part-share", ("in a part that the map tells, %s has no use"):format(kinds.describe(one)),
                "the map gives the share: take it out")
            return nil
        end
    end
    local part = need("schema").check(place, declared(key), told)
    if host.fault_count() > before or not check_together(place, key, part) then return nil end
    part.shaped, part.said = true, value[1]
    run.shaped_parts = true
    objects.show(part, value) -- an act that is handed it reads it anew
    return part
end

-- What is named ---------------------------------------------------------------------------------

local function with_article(name)
    return name:find("^%l") and not name:find("^the ") and "the " .. name or name
end

local function name_of(value)
    if type(value) == "string" then return with_article(value) end
    local record = objects.record(value)
    return record.class.kind == "traverse" and "the traverse" or with_article(record.name)
end

local function names_of(list)
    local words = {}
    for i, one in ipairs(list) do words[i] = name_of(one) end
    if #words == 1 then return words[1] end
    return table.concat(words, ", ", 1, #words - 1) .. " and " .. words[#words]
end

local function length_words(length)
    local words = tostring(length)
    return words == "1 tree_length" and "one tree length" or (words:gsub("tree_length", "tree length"))
end

--- "north of the two-track and within 2 tree lengths of Quill Creek".
function M.words(part)
    if part.said then return part.said end
    local list = {}
    for _, side in ipairs(SIDES) do
        local of = part[side .. "_of"]
        if of then list[#list + 1] = ("%s of %s"):format(side, names_of(of)) end
    end
    if part.within then list[#list + 1] = ("within %s of %s"):format(length_words(part.within), names_of(part.of)) end
    if part.beyond then
        list[#list + 1] = ("more than %s from %s"):format(length_words(part.beyond), names_of(part.of))
    end
    if type(part.map) == "string" then
        list[#list + 1] = "in " .. with_article(part.map)
    elseif part.map then
        list[#list + 1] = "in " .. names_of(objects.record(part.map) and { part.map } or part.map)
    end
    return table.concat(list, " and ")
end

--- A place it has none of, told with the mend.
local function no_place(record, what, place, key)
    host.fault(place, key, "part-no-place", ("%s \"%s\" has no place"):format(what, record.name),
        ("%s \"%s\" { map = ... }, its name in the property's map"):format(what, record.name))
    return nil
end

--- All features of a kind that have a place: their shapes; nil when it is no kind.
local function of_kind(word)
    local list
    for _, feature in ipairs(run.features) do
        if feature.kind_of == word then
            list = list or {}
            if feature.shape then list[#list + 1] = feature.shape end
        end
    end
    return list
end

--- The record that a name or an object means, and what it is; nil for a name of the map.
local function record_of(value)
    local record = objects.record(value)
    if record then return record, record.class.kind end
    for _, feature in ipairs(run.features) do
        if feature.name == value then return feature, "feature" end
    end
    for _, stand in ipairs(run.stands) do
        if stand.name == value then return stand, "stand" end
    end
    return nil
end

local function unknown(name, place, key)
    local names = {}
    for _, list in ipairs({ run.features, run.stands, need("map_files").features() }) do
        for _, one in ipairs(list) do names[#names + 1] = one.name end
    end
    local near = host.suggest(name, names)
    host.fault(place, key, "landmark-unknown", ("there is no feature, no stand and nothing in the map called \"%s\"")
        :format(name), near and ("did you mean \"%s\"?"):format(near) or "feature \"" .. name .. "\" { kind = ..., map = ... }")
    return nil
end

--- The shapes of one landmark, a list; nil when a fault was told.
local function shapes_of(value, place, key)
    local record, kind = record_of(value)
    if record then
        if record.is_broken then return nil end -- which was told
        if kind == "traverse" and record.floats then
            host.fault(place, key, "traverse-afloat", "this traverse starts at no known corner, and has no place",
                "start its calls with from \"NW corner\"")
            return nil
        end
        if not record.shape then return no_place(record, kind, place, key) end
        return { record.shape }
    end
    local list = of_kind(value)
    if list then
        if #list > 0 then return list end
        host.fault(place, key, "part-no-place", ("no feature of kind \"%s\" has a place"):format(value),
            "feature \"...\" { map = ... }, its name in the property's map")
        return nil
    end
    local map = need "map"
    for _, one in ipairs(need("map_files").features()) do
        if one.name == value then
            local shape = map.take(value, nil, place, key)
            return shape and { shape }
        end
    end
    return unknown(value, place, key)
end

local function all_shapes(list, place, key)
    local all = {}
    for _, value in ipairs(list) do
        local shapes = shapes_of(value, place, key)
        if not shapes then return nil end
        local record = objects.record(value)
        local name = record and (record.class.kind == "traverse" and "the traverse" or record.name) or value
        for _, shape in ipairs(shapes) do
            all[#all + 1] = { shape = shape, name = name == "the traverse" and name or ("\"%s\""):format(name) }
        end
    end
    return all
end

-- Its shape -------------------------------------------------------------------------------------

--- Points and areas one at a time; of an area its rims without the holes.
local function single(shape)
    if shape:kind() == "line" then return { shape } end
    local list = {}
    for _, part in ipairs(shape:parts()) do
        if shape:kind() == "area" then
            if not part.hole then list[#list + 1] = need("shapes").make("area", { part }, shape:words()) end
        else
            for i = 1, #part, 2 do
                list[#list + 1] = need("shapes").make("point", { { part[i], part[i + 1] } }, shape:words())
            end
        end
    end
    return list
end

local function feet_words(ft) return quantity.short(quantity.leaf(ft, "ft")) end

--- Tells where a line was mended so that it parts the stand.
local function tell_line(stand, name, carried, loops, place, key)
    local through = carried:is_empty() and 0 or carried:intersection(stand.shape):length()
    if through > LEAST_TOLD then
        host.warning(place, key, "part-carried", ("%s does not reach right across stand \"%s\": carried straight on for %s")
            :format(name, stand.name, feet_words(through)))
    end
    if loops > LEAST_TOLD then
        host.warning(place, key, "part-loops", ("%s crosses its own way: its loops of %s are left out"):format(name,
            feet_words(loops)))
    end
end

--- What of `shape` lies on that side of all of the landmarks.
local function on_side(stand, shape, side, list, place, key)
    local landmarks = all_shapes(list, place, key)
    if not landmarks then return nil end
    for _, one in ipairs(landmarks) do
        for _, of in ipairs(single(one.shape)) do
            local area, carried, loops = host.placed(place, key, need("sides").of, of, side, stand.shape, one.name,
                ("%s of %s"):format(side, of:words()))
            if not area then return nil end
            if of:kind() == "line" then tell_line(stand, one.name, carried, loops, place, key) end
            shape = host.placed(place, key, shape.intersection, shape, area)
            if not shape then return nil end
        end
    end
    return shape
end

--- The lengths that are told, in feet: { within, beyond }, quantities.
local function lengths_of(stand, part, place)
    local feet, ground = {}, need "ground"
    for _, key in ipairs({ "within", "beyond" }) do
        if part[key] then
            feet[key] = ground.feet(part[key], stand, place, { "part", key })
            if not feet[key] then return nil end
        end
    end
    return feet
end

--- What of `shape` lies near enough to, or far enough from, the landmarks.
local function at_distance(shape, part, feet, place)
    local landmarks = all_shapes(part.of, place, { "part", "of" })
    if not landmarks then return nil end
    local list = {}
    for i, one in ipairs(landmarks) do list[i] = one.shape end
    local function strip(ft)
        local strips = {}
        for i, one in ipairs(list) do
            strips[i] = ft > 0 and one:buffer(ft) or one
        end
        return need("map").union(strips)
    end
    return host.placed(place, "part", function()
        if feet.within then shape = shape:intersection(strip(feet.within)) end
        if feet.beyond then shape = shape:difference(strip(feet.beyond)) end
        return shape
    end)
end

--- The part as a shape, when lengths are those bare numbers of feet; the sides are `base`.
local function draw(part, base, feet, place)
    if not part.of then return base end
    return at_distance(base, part, feet, place)
end

--- What was walked for the stand and lies outside it hints at a slip; a wet end of the map may
--- well reach over.
local function tell_outside(stand, walked, place)
    local lost = 1 - walked:intersection(stand.shape):area() / walked:area()
    if lost > MOST_OUTSIDE then
        host.warning(place, { "part", "map" }, "part-outside", ("%.1f percent of the traverse lies outside stand \"%s\", and is left out")
            :format(lost * 100, stand.name))
    end
end

--- The shape of the sides and of the map's own, before distances are looked at.
local function base_shape(stand, part, place)
    local shape = stand.shape
    for _, side in ipairs(SIDES) do
        local list = part[side .. "_of"]
        if list then
            shape = on_side(stand, shape, side, list, place, { "part", side .. "_of" })
            if not shape then return nil end
        end
    end
    if part.map then
        local own, floats = need("map").take(part.map, "area", place, { "part", "map" })
        if own and floats then
            host.fault(place, { "part", "map" }, "traverse-afloat",
                "this traverse starts at no known corner, and has no place in the stand", "start its calls with from \"NW corner\"")
            return nil
        end
        if own and objects.record(part.map) then tell_outside(stand, own, place) end
        shape = own and host.placed(place, { "part", "map" }, shape.intersection, shape, own)
    end
    return shape
end

local function numbers(feet)
    local bare = {}
    for key, length in pairs(feet) do bare[key] = quantity.number(length, "ft") end
    return bare
end

--- Told once for a part that is nothing, or all.
local function tell_sizes(stand, part, place)
    local share = part.shape:area() / stand.shape:area()
    if share < NOTHING then
        host.warning(place, "part", "part-empty", ("nothing of stand \"%s\" lies %s"):format(stand.name, M.words(part)))
    elseif share > 1 - NOTHING then
        host.warning(place, "part", "part-whole", ("all of stand \"%s\" lies %s"):format(stand.name, M.words(part)))
    end
end

local function can_be_drawn(stand, place)
    if stand and stand.shape then return true end
    if not stand then
        host.fault(place, "part", "part-no-stand", "a part that the map tells is one of a stand, and none is told",
            "stand = \"...\"")
    else
        host.fault(place, "part", "part-no-place", ("stand \"%s\" has no shape, and nobody can measure such a part of it")
            :format(stand.name), "say the share beside words, part = { \"north of the two-track\", 40 percent }; or give the stand its `map`")
    end
    return false
end

--- The shape of a part, areas within the stand's; nil when a fault was told. Lengths that are
--- not known well are drawn at their likely value.
function M.shape(stand, part, place)
    if part.shape then return part.shape end
    if not can_be_drawn(stand, place) then return nil end
    local feet = lengths_of(stand, part, place)
    local base = feet and base_shape(stand, part, place)
    local drawn = base and draw(part, base, numbers(feet), place)
    if not drawn then return nil end
    part.base, part.feet = base, feet
    -- The same under words of its own, for `why`.
    part.shape = need("shapes").make("area", drawn:kind() == "area" and drawn:parts() or {},
        ("%s, %s"):format(stand.shape:words(), M.words(part)))
    tell_sizes(stand, part, place)
    return part.shape
end

--- What the doubt of a length does to the part's acres: each foot more moves its edge by a
--- foot, so that the length of that edge is what the area grows by.
local function with_doubt(part, acres, within, place)
    for _, key in ipairs({ "within", "beyond" }) do
        local length = part.feet[key]
        local low, high = 0, 0
        if length then low, high = quantity.ends(length, "ft") end
        if high > low then
            local feet = numbers(part.feet)
            local likely, areas = feet[key], {}
            for i, ft in ipairs({ low, high }) do
                feet[key] = ft
                local drawn = draw(part, part.base, feet, place)
                if not drawn then return nil end
                areas[i] = (within and drawn:intersection(within) or drawn):area()
            end
            local edge = quantity.leaf((areas[2] - areas[1]) / (high - low), "ft",
                "the edge, as shapes drawn with the low and the high length tell it")
            local more = quantity.say(edge * (length - quantity.leaf(likely, "ft", "the length that it is drawn with")), "ac")
            acres = acres + quantity.name(more, "more or less by the doubt of `" .. key .. "`")
        end
    end
    return acres
end

--- The part's acres: of what lies in `within` too, when that is told (a shape in the stand).
--- Lengths that are not known well leave theirs in it. Nil when a fault was told.
function M.acres(stand, part, place, within, words)
    local shape = M.shape(stand, part, place)
    if not shape then return nil end
    if within then shape = shape:intersection(within, words or shape:words()) end
    return with_doubt(part, need("map").acres(shape, "area " .. M.words(part)), within, place)
end

--- The part's share of its stand, under a name for `why`; nil when a fault was told.
function M.share(stand, part, place)
    local acres = M.acres(stand, part, place)
    if not acres then return nil end
    local share = quantity.say(acres / stand.area, "percent")
    return quantity.name(share, ("share of %s that lies %s"):format(stand.name, M.words(part)))
end

--- When the script has ended: the parts of acts get their shapes and shares.
function M.settle()
    for _, record in ipairs(run.acts) do
        local part = record.values.part
        if part and part.shaped and not part.share then
            part.words = M.words(part)
            -- A part that cannot be drawn was told; no act is figured then.
            part.share = M.share(record.stand, part, record.place) or quantity.leaf(0, "percent", "no part")
            objects.show(part, { words = part.words, share = part.share })
        end
    end
end

return M
