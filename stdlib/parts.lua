--- A part of a stand that the map tells: which side of what it lies on, how near to what, or
--- which shape of the map it is. Said as a table; what stands in it must all hold:
---     part = { north_of = "two-track", beyond = 100 ft, of = "Quill Creek" }
-- The table is checked when it is said (act_kinds.lua) and becomes a shape when the script
-- has ended, for what it names may be described further down.
local M = {}
local drawn = need "parts_drawn"
local host = need "host"
local kinds = need "kinds"
local landmarks = need "landmarks"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

--- Less than this of a stand is nothing, and what lacks less is all of it.
local NOTHING = 1e-6

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

-- In words ------------------------------------------------------------------------------------
local function length_words(length)
    local words = tostring(length)
    return words == "1 tree_length" and "one tree length" or (words:gsub("tree_length", "tree length"))
end

--- "north of the two-track and within 2 tree lengths of Quill Creek".
function M.words(part)
    if part.said then return part.said end
    local list = {}
    for _, side in ipairs(drawn.SIDES) do
        local of = part[side .. "_of"]
        if of then list[#list + 1] = ("%s of %s"):format(side, landmarks.names(of)) end
    end
    if part.within then list[#list + 1] = ("within %s of %s"):format(length_words(part.within), landmarks.names(part.of)) end
    if part.beyond then
        list[#list + 1] = ("more than %s from %s"):format(length_words(part.beyond), landmarks.names(part.of))
    end
    if type(part.map) == "string" then
        list[#list + 1] = "in " .. landmarks.with_article(part.map)
    elseif part.map then
        list[#list + 1] = "in " .. landmarks.names(objects.record(part.map) and { part.map } or part.map)
    end
    return table.concat(list, " and ")
end

-- Its shape -------------------------------------------------------------------------------------

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
    local feet = drawn.lengths(stand, part, place)
    local base = feet and drawn.base(stand, part, place)
    local shape = base and drawn.draw(part, base, numbers(feet), place)
    if not shape then return nil end
    part.base, part.feet = base, feet
    -- The same under words of its own, for `why`.
    part.shape = need("shapes").make("area", shape:kind() == "area" and shape:parts() or {},
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
                local shape = drawn.draw(part, part.base, feet, place)
                if not shape then return nil end
                areas[i] = (within and shape:intersection(within) or shape):area()
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
