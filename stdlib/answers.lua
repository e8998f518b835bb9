--- What a stand answers: `stand:stocking()`, `stand:volume { product = "sawlogs" }`.
---
--- Each topic is a module under stdlib/answers/ that returns a list of rows:
--- { name, says, keys (as those of a primitive), main (the key that a lone value stands for),
---   example, call = function(record, values, place) }, where `record` is the stand's. A topic
--- is read when one of its names is first asked for.
local M = {}
local host = need "host"
local objects = need "objects"
local words = need "words"

--- Topics in the order of help: module, title, names.
M.topics = {
    { "trees", "trees", { "basal_area", "trees", "diameter", "share", "has", "cords" } },
    { "cruise", "snags, den trees, regeneration", { "snags", "den_trees", "regeneration", "stocked_plots" } },
    { "ground", "its ground", { "acres_of" } },
    { "density", "density", { "density_index", "relative_density", "importance", "crown_cover", "classes" } },
    { "precision", "how sure", { "interval", "plots_needed" } },
    { "volume", "wood", { "volume", "tons", "biomass", "slash", "loads", "sale" } },
    { "site", "site", { "site_index", "height", "dominant_height" } },
    { "stocking", "stocking", { "stocking", "stocking_line", "stocking_guide" } },
    { "expected", "what comes", { "expected", "outlook", "stages", "planted", "mast", "browse_in_reach",
        "sprouting" } },
}

local topic_of = {}
for _, topic in ipairs(M.topics) do
    for _, name in ipairs(topic[3]) do topic_of[name] = topic[1] end
end

--- All names, in the order of the topics.
function M.names()
    local names = {}
    for _, topic in ipairs(M.topics) do
        for _, name in ipairs(topic[3]) do names[#names + 1] = name end
    end
    return names
end

--- The row of a name, or nil.
function M.row(name)
    local topic = topic_of[name]
    for _, row in ipairs(topic and need("answers/" .. topic) or {}) do
        if row.name == name then return row end
    end
    return nil
end

--- The trees of a stand; told at the place when nothing is said of them.
function M.trees(record, place)
    if record.cruise then return record.cruise end
    return host.raise(place, nil, "stand-unknown-trees", ("nothing is said of the trees of \"%s\"")
        :format(record.name), "give it a tally, or species, diameter and basal_area by eye")
end

local functions = {}

--- What `stand.NAME` is in a script; nil when there is no such answer.
function M.find(name)
    if functions[name] then return functions[name] end
    local row = type(name) == "string" and M.row(name)
    if not row then return nil end
    functions[name] = host.face(name, function(place, object, ...)
        local record = objects.record(object, "stand")
        if not record then
            host.raise(place, nil, "stand-answer", ("%s is asked of a stand with a colon"):format(name),
                ("write stand:%s"):format(row.example:match(":(.+)$") or name .. "()"))
        end
        return row.call(record, words.check(row, "stand:" .. name, place, ...), place)
    end)
    return functions[name]
end

return M
