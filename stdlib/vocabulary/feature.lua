--- feature: a line, a water, a road, a den tree, a seat: what acts keep their distance from.
need "acts" -- kinds.stand
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local run = need "run"

--- A stand, or the name of one that may be described further down.
kinds.stand_later = {
    says = "a stand or its name",
    take = function(value)
        return objects.record(value, "stand") or (type(value) == "string" and value) or nil
    end,
}

local M = {
    kind = "feature", named = "must", list = run.features,
    says = "something on the ground that acts run along, keep away from or lead to",
    keys = {
        { "kind", kind = "choice", needed = true, says = "what it is", example = "\"stream\"",
          of = { "property line", "stream", "lake", "wetland", "road", "house", "well", "utility line",
              "den tree", "nest", "roost", "seat", "food", "cover", "gate", "corner", "trail" },
          also = { ["trout stream"] = "kind = \"stream\", trout = true", creek = "kind = \"stream\"",
              brook = "kind = \"stream\"", river = "kind = \"stream\"", pond = "kind = \"lake\"",
              boundary = "kind = \"property line\"", fence = "kind = \"property line\", certainty = \"old fence\"" } },
        { "map", kind = "map", says = "its name in the property's map, or a traverse along it",
          example = "\"Quill Creek\"" },
        { "beside", kind = "list", of = "stand_later", says = "stands it touches or runs through; they may be described further down. A map tells it by itself" },
        { "length", kind = "length", says = "how far it runs beside them" },
        { "width", kind = "length", says = "width of a stream" },
        { "slope", kind = "slope", says = "slope of the ground down to it" },
        { "distance", kind = "length", says = "distance from the stand, when it is not beside it" },
        { "certainty", kind = "choice", of = { "surveyed", "marked", "agreed", "old fence", "unmarked", "disputed" },
          says = "how well a property line is known" },
        { "trout", kind = "flag", says = "designated trout water" },
        { "species", kind = "text", says = "whose nest, den or roost it is" },
        { "known_active", kind = "flag", says = "seen in use this year" },
        { "says", kind = "text", says = "a remark" },
    },
    example = [[feature "Quill Creek" { kind = "stream", width = 8 ft, slope = 6 percent,
  beside = "Alder run", length = 900 ft }]],
}

--- The kinds of feature.
function M.kinds() return need("schema").key(M, "kind").of end

--- Is it one of them?
function M.is_kind(word)
    for _, kind in ipairs(M.kinds()) do
        if kind == word then return true end
    end
    return false
end

local Feature = { kind = "feature" }
function Feature.index(record, key)
    if key == "name" then return record.name end
    if key == "beside" then
        local list, there = {}, {}
        for i, stand in ipairs(record.values.beside or {}) do
            list[i] = type(stand) == "string" and stand or stand.object
            there[stand] = true
        end
        for _, stand in ipairs(record.shape and run.stands or {}) do
            if not there[stand] and need("map").touch(record, stand) then list[#list + 1] = stand.object end
        end
        return list
    end
    return objects.open(record.values[key])
end

function M.known(name) return run.known(run.features, name) end

--- A table after a name that is taken: told by make.
function Feature.call(record, given)
    return need("prelude").make_again(M, record.name, given)
end

--- When the script has ended: names of stands become stands.
function M.finish()
    for _, record in ipairs(run.features) do
        local beside = {}
        for _, stand in ipairs(record.values.beside or {}) do
            if type(stand) == "string" then stand = run.find_stand(stand, record.place, "beside") end
            beside[#beside + 1] = stand
        end
        record.values.beside = beside
    end
end

--- What a kind of feature must be on a map; the others may be anything.
local FORMS = { ["property line"] = "line", ["utility line"] = "line", trail = "line", ["den tree"] = "point",
    nest = "point", seat = "point", gate = "point", corner = "point", well = "point" }

function M.make(place, name, values)
    for _, feature in ipairs(run.features) do
        if feature.name == name then
            host.fault(place, nil, "name-taken", ("feature \"%s\" is already described at %s"):format(name,
                host.place_words(feature.place)), "give one of the two another name")
        end
    end
    local record = { name = name, place = place, values = values, kind_of = values.kind }
    if values.map then
        local shape, floats = need("map").take(values.map, FORMS[values.kind], place, "map")
        if floats then
            host.fault(place, "map", "traverse-afloat", "a feature needs a place, and this traverse starts at no known corner",
                "start its calls with from \"NW corner\", a corner that the map or another feature gives a place")
        end
        record.shape = shape
    end
    run.features[#run.features + 1] = record
    return objects.new(Feature, record)
end

return M
