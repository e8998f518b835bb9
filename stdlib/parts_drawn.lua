--- A part of a stand that the map tells (parts.lua), as a shape: sides of lines, areas and points,
--- distances from them, shapes of the map's own.
local M = {}
local host = need "host"
local landmarks = need "landmarks"
local objects = need "objects"
local quantity = need "quantity"

--- The sides of a landmark, in the order in which a part is drawn and told.
M.SIDES = { "north", "east", "south", "west" }
--- Feet of a line carried on through a stand, or of its loops, that are not worth a word.
local LEAST_TOLD = 1
--- Of a traverse, what may lie outside its stand unsaid: common practice, no source.
local MOST_OUTSIDE = 0.02

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
    local beside = landmarks.shapes(list, place, key)
    if not beside then return nil end
    for _, one in ipairs(beside) do
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
function M.lengths(stand, part, place)
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
    local from = landmarks.shapes(part.of, place, { "part", "of" })
    if not from then return nil end
    local list = {}
    for i, one in ipairs(from) do list[i] = one.shape end
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
function M.draw(part, base, feet, place)
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
function M.base(stand, part, place)
    local shape = stand.shape
    for _, side in ipairs(M.SIDES) do
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

return M
