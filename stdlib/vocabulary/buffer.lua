--- buffer: a strip along a line or a water in which nothing, or only careful cutting, is
--- allowed; its ground comes off the stand before anything else is figured.
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

--- The kinds of feature, as declared by `feature`.
local function feature_kinds()
    return need("schema").key(need "vocabulary/feature", "kind").of
end

kinds.feature_or_kind = {
    says = "a feature, its name, or a kind of feature such as \"property line\" or \"stream\"",
    take = function(value)
        local record = objects.record(value, "feature")
        if record then return record end
        return type(value) == "string" and value or nil
    end,
}

--- Does a strip of that width along a feature take ground of the stand? By their shapes, else
--- as it is told.
local function is_beside(feature, stand, width)
    if feature.shape and stand.shape and width then
        return need("drawn_kept").reaches(feature, stand, quantity.number(width, "ft"))
    end
    for _, one in ipairs(feature.values.beside or {}) do
        if one == stand then return true end
    end
    return false
end

--- The features that `of` means, and what the papers call them; nil when a fault was told.
local function find_features(record, width)
    local of = record.values.of
    if type(of) ~= "string" then return { of }, of.name, of.kind_of end
    for _, feature in ipairs(run.features) do
        if feature.name == of then return { feature }, feature.name, feature.kind_of end
    end
    local known = {}
    for _, kind in ipairs(feature_kinds()) do
        known[#known + 1] = kind
        if kind == of then
            local found = {}
            for _, feature in ipairs(run.features) do
                if feature.kind_of == kind and is_beside(feature, record.stand, width) then
                    found[#found + 1] = feature
                end
            end
            return found, "the " .. kind, kind
        end
    end
    for _, feature in ipairs(run.features) do known[#known + 1] = feature.name end
    local near = host.suggest(of, known)
    host.fault(record.place, "of", "feature-unknown", ("there is no feature \"%s\", and no such kind of feature")
        :format(of), near and ("did you mean \"%s\"?"):format(near) or "`spinney help feature` lists the kinds")
    return nil
end

--- How long the strip is: as told, else as the features run.
local function strip_length(record, features, words)
    if record.values.length then return ground.feet(record.values.length, record.stand, record.place, "length") end
    local terms = {}
    for _, feature in ipairs(features) do
        local length = feature.values.length
        if length then terms[#terms + 1] = ground.feet(length, record.stand, feature.place, "length") end
    end
    if #terms == 0 or #terms < #features then
        host.fault(record.place, nil, "buffer-length", ("how far %s runs along \"%s\" is not known, so the "
            .. "buffer has no length"):format(words, record.stand.name),
            ("say length = 600 ft here, or in feature \"...\" { beside = \"%s\", length = 600 ft }"):format(
                record.stand.name))
        return nil
    end
    return quantity.sum(terms)
end

local ALLOWED = {
    ["directional felling"] = "Trees may be felled here, one by one, away from %s.",
    ["cutting by hand"] = "Cutting by hand only, no machines, along %s.",
    nothing = "Nothing is cut, driven or sprayed here, along %s.",
}

--- The ground of a buffer by its length, and that length; nil when a fault was told.
local function by_length(record, features, width, words)
    local length = width and strip_length(record, features, words)
    if not length then return nil end
    length = acts.set(record, "length", length, "buffer length")
    local area = quantity.say(width * length, "ac")
    return record.values.sides == 2 and area * 2 or area, length
end

--- Its ground and length; those of a mapped stand come from shapes.
local function measure(record, features, width, words)
    if not record.stand.shape and not record.values.map then return by_length(record, features, width, words) end
    return need("drawn_kept").buffer(record, features, width, function(unmapped)
        return strip_length(record, unmapped, words)
    end)
end

local declared = acts.declare({
    kind = "buffer", named = "may", quiet = true, before_others = true,
    says = "a strip along a line, a water or another feature in which nothing, or only careful cutting, is done",
    keys = {
        { "of", kind = "feature_or_kind", needed = true, says = "what it runs along: a feature, its name, or all of a kind that are beside the stand",
          example = "\"property line\"" },
        { "inside", kind = "stand", says = "the stand whose ground it takes", example = "\"Bench aspen\"" },
        { "width", kind = "length", says = "how wide, from the line or the bank", example = "1 tree_length" },
        { "length", kind = "length", says = "how long; without it, as far as the feature runs" },
        { "map", kind = "map", says = "its own ground in the property's map; without it, on the map, all of the stand within `width` of the feature" },
        { "sides", kind = "count", least = 1, most = 2, default = 1, says = "2 when it runs through the stand and both sides are spared; a map tells it by itself" },
        { "allow", kind = "choice", of = { "nothing", "directional felling", "cutting by hand" }, default = "nothing",
            says = "what may be done in it; only where nothing may, its ground comes off the stand" },
    },
    figures = { { "width", "its width" }, { "length", "its length" }, { "area", "its ground, at most that of the stand" } },
    nobody = function() return 1 end,
    example = [[buffer { of = "property line", inside = "Bench aspen",
  width = 1 tree_length, length = 420 ft }]],
    title = function(record)
        local of = record.values.of
        return "Buffer along " .. (type(of) == "string" and of or of and of.name or "")
    end,
    takeoff = function(record)
        local width = record.values.width and ground.feet(record.values.width, record.stand, record.place, "width")
        if record.values.width and not width then return end
        local features, words, kind = find_features(record, width)
        if not features then return end
        record.buffered_kind, record.buffered, record.along = kind, features, words
        width = width and acts.set(record, "width", width, "buffer width")
        local area, length = measure(record, features, width, words)
        if not area then return end
        if not record.figures.length then acts.set(record, "length", length, "buffer length") end
        record.strip = width and quantity.short(width)
        record.cover_words = (record.strip and record.strip .. " along " or "buffer along ") .. words
        local _, most = quantity.ends(area, "ac")
        if most > quantity.number(record.stand.area, "ac") then area = math.min(area, record.stand.area) end
        if record.values.allow == "nothing" and not record.copy_of then record.ground_taken = area end
        local fraction = acts.fraction(record)
        acts.set(record, "area", fraction < 1 and area * fraction or area, "ground of the buffer")
        table.insert(record.notes, ALLOWED[record.values.allow]:format(words))
    end,
})

function declared.make(place, name, values, given)
    if not values.width and given.width == nil and given.map == nil then
        need("schema").missing(place, declared, need("schema").key(declared, "width"))
    end
    if values.inside and values.stand and values.inside ~= values.stand then
        host.fault(place, "stand", "buffer-stand", "`inside` and `stand` name two stands", "one of them is enough")
    end
    values.stand = values.inside or values.stand
    if not values.stand and given.inside == nil and given.stand == nil then
        host.fault(place, nil, "key-missing", "buffer needs `inside`: the stand whose ground it takes",
            "inside = \"Bench aspen\"")
        return nil
    end
    if not values.stand or not values.of then return nil end
    return acts.new(declared, place, name, values, given).object
end

return declared
