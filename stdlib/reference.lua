--- Layered things said by name: `season "dormant"` is the one that holds when the plan is
--- settled; `season "dormant" { ... }` describes it in the layer of the file it stands in.
local M = {}
local host = need "host"
local objects = need "objects"
local schema = need "schema"
local kinds = need "kinds"
local run = need "run"

--- Completes a declaration whose things live in a registry.
-- @param declared `kind`, `keys`, `says`, and `entry(place, name, values)` which gives the
--   table to keep (or nil when it told a fault); `as_given` where checking changes no value,
--   so that what is built in, of which nothing is wrong, need not be checked at each start;
--   `answer(entry, key)` for what a script may ask of it that is no key, or nil
-- @param registry one of run's
function M.declare(declared, registry)
    declared.named = "must"
    declared.registry = registry
    local class = { kind = declared.kind }
    function class.index(record, key)
        if key == "name" then return record.name end
        local entry = registry:find(record.name, record.place)
        if not entry then host.raise_faults() end
        if not schema.key(declared, key) then return declared.answer and declared.answer(entry, key) end
        return objects.open(entry[key])
    end
    function class.call(record, given)
        record.described = true
        if type(given) ~= "table" or objects.record(given) then
            host.fault(record.place, nil, "table-missing",
                ("%s \"%s\" wants a table after its name; this is %s"):format(declared.kind,
                    record.name, kinds.describe(given)))
            return nil
        end
        local as_given = declared.as_given and host.layer(record.place).kind == "built-in"
        declared.make(record.place, record.name, as_given and given or schema.check(record.place, declared, given), given)
        return record.object
    end
    declared.class = class
    function declared.reference(pending)
        local record = { name = pending.name, place = pending.place }
        run.mentions[#run.mentions + 1] = { registry = registry, record = record }
        return objects.new(class, record)
    end
    function declared.make(place, name, values, given)
        local entry = declared.entry(place, name, values, given)
        if entry then
            entry.place = place
            registry:define(name, entry)
        end
    end
    return declared
end

--- Told when the script has ended: names mentioned that no layer describes.
function M.finish()
    for _, mention in ipairs(run.mentions) do
        if not mention.record.described then
            mention.registry:find(mention.record.name, mention.record.place)
        end
    end
    run.mentions = {}
end

return M
