--- pack: the manifest of a pack, in its pack.rx: units of its own, files to read.
local host = need "host"
local kinds = need "kinds"
local packs = need "packs"
local quantity = need "quantity"

local M = {
    kind = "pack", named = "never",
    says = "the manifest of a pack, in its pack.rx: units it adds, files to read at the start",
    keys = {
        { "says", kind = "text", says = "what the pack is for" },
        { "units", kind = "table", default = {}, says = "new units: { { \"bundle\", plural = \"bundles\" } } is a count of its own; { { \"rope\", like = \"ft\", factor = 20 } } is 20 ft" },
        { "reads", kind = "list", of = "text", default = {}, says = "files of the pack to read, in this order" },
    },
    example = [[pack { units = { { "bundle", plural = "bundles" } },
  reads = { "rates.rx", "rules.rx" } }]],
}

local function define(place, unit)
    if type(unit) ~= "table" or type(unit[1]) ~= "string" then
        host.fault(place, "units", "unit-row", ("a unit wants a name; this is %s"):format(kinds.describe(unit)),
            "{ \"post\", plural = \"posts\" }")
        return
    end
    for _, row in ipairs({ { "plural", "string" }, { "like", "string" }, { "factor", "number" }, { "source", "string" } }) do
        local key, kind = row[1], row[2]
        if unit[key] ~= nil and type(unit[key]) ~= kind then
            host.fault(place, "units", "unit-row", ("`%s` of the unit \"%s\" wants %s; this is %s"):format(key, unit[1],
                kind == "string" and "text" or "a bare number", kinds.describe(unit[key])),
                "{ \"rope\", like = \"ft\", factor = 20 }")
            return
        end
    end
    local ok, message = quantity.define(unit[1], unit.plural or unit[1], unit.like, unit.factor or 1,
        unit.source or "the pack's own")
    if not ok then host.fault(place, "units", "unit-row", message) end
end

function M.make(place, _, values)
    local layer = host.layer(place)
    if layer.kind ~= "pack" then
        host.fault(place, nil, "pack-place", "pack stands only in the pack.rx of a pack",
            "say rates and rules right here: the plan is a layer of its own")
        return nil
    end
    for _, unit in ipairs(values.units or {}) do define(place, unit) end
    for _, name in ipairs(values.reads or {}) do
        table.insert(packs.reads[layer.pack], { name = name, place = place })
    end
    return nil
end

return M
