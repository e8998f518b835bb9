--- The vocabulary: which primitives there are, and what happens when a script says one.
--
-- The face of a primitive is a C function that notes its caller's line (so that a tail call
-- does not lose it) and comes here. `kind "name" { ... }` arrives in two steps, `kind
-- { ... }` in one. Each primitive's module under stdlib/vocabulary/ declares its keys and
-- makes its record; it is loaded when first said.
local M = {}
local host = need "host"
local objects = need "objects"
local schema = need "schema"
local kinds = need "kinds"
local run = need "run"

--- The primitives, grouped as in `spinney help`.
M.groups = {
    { "what is there", { "property", "stand", "feature", "tally", "traverse" } },
    { "what is done", { "cut", "keep", "opening", "trail", "buffer", "plant", "protect", "seed",
        "treat", "prune", "mow", "burn", "mulch", "sale", "visit", "job", "done" } },
    { "what governs", { "season", "condition", "rule", "notice", "rate", "price", "species", "site_curve", "crew" } },
    { "what reuses", { "prescription", "apply", "use", "input", "pack" } },
}

local is_primitive, is_act, declarations = {}, {}, {}
for _, group in ipairs(M.groups) do
    for _, name in ipairs(group[2]) do is_primitive[name] = true end
end
for _, name in ipairs(M.groups[2][2]) do is_act[name] = name ~= "done" end

--- The declaration of a primitive, or nil.
function M.declaration(kind)
    local known = declarations[kind]
    if known == nil and is_primitive[kind] then
        known = need("vocabulary/" .. kind)
        declarations[kind] = known
    end
    return known
end

--- Is this the name of a kind of act? Asked without loading its module.
function M.is_act(name) return is_act[name] == true end

--- Every primitive's name, in the order of help.
function M.names()
    local names = {}
    for _, group in ipairs(M.groups) do
        for _, name in ipairs(group[2]) do names[#names + 1] = name end
    end
    return names
end

local function make(declared, place, name, given)
    -- `apply` is checked against what its prescription asks for.
    local values = declared.unchecked and given or schema.check(place, declared, given)
    return declared.make(place, name, values, given)
end

--- A name without its table: the id, the words and the mend. It may be a slip of a name
--- that is there.
local function without_table(record)
    local kind, name = record.declared.kind, record.name
    local names = {}
    for _, known in ipairs(record.declared.list or {}) do names[#names + 1] = known.name end
    local near = host.suggest(name, names)
    local words = record.declared.list and ", and no such %s is described before it" or ""
    return "table-missing", ("%s \"%s\" has no table" .. words):format(kind, name, kind),
        near and ("did you mean %s \"%s\"?"):format(kind, near) or ("%s \"%s\" { ... }"):format(kind, name)
end

--- A named primitive still waiting for its table; a plain mention when none follows.
local Named = { kind = "name" }
function Named.index(record)
    record.filled = true
    host.raise(record.place, nil, without_table(record))
end
Named.call = function(record, given)
    local declared = record.declared
    record.filled = true
    if type(given) ~= "table" or objects.record(given) then
        host.fault(record.place, nil, "table-missing",
            ("%s \"%s\" wants a table after its name; this is %s"):format(declared.kind,
                record.name, kinds.describe(given)), ("%s \"%s\" { ... }"):format(declared.kind, record.name))
        return nil
    end
    return make(declared, record.place, record.name, given)
end

--- How a primitive is said: `stand "name" { ... }`.
function M.form(declared)
    return declared.kind .. (declared.named == "never" and " { ... }" or " \"name\" { ... }")
end

--- Entered by the face of a primitive.
-- @param kind the primitive
-- @param place where it was said
function M.enter(kind, place, first, ...)
    local declared = M.declaration(kind)
    if select("#", ...) > 0 then
        host.fault(place, nil, "too-many", ("%s takes %s"):format(kind, declared.takes or declared.plain and "one name alone"
            or declared.named == "never" and "one table" or "a name or one table"),
            declared.plain and not declared.takes and declared.example or M.form(declared))
    end
    if declared.plain then return declared.plain(place, first) end
    if type(first) == "string" then
        if declared.named == "never" then
            host.fault(place, nil, "name-unwanted", ("%s takes no name, only a table"):format(kind),
                M.form(declared))
        end
        if first:match("^%s*$") then
            host.fault(place, nil, "name-empty", ("%s has an empty name"):format(kind))
        elseif first:find("\0", 1, true) then
            host.fault(place, nil, "name-zero", ("the name of this %s has a zero byte in it"):format(kind),
                "write the name without it")
        end
        local record = { declared = declared, name = first, place = place }
        if declared.reference then return declared.reference(record) end
        local known = declared.known and declared.known(first)
        if known then return known end
        run.pending[#run.pending + 1] = record
        return objects.new(Named, record)
    end
    if type(first) == "table" and not objects.record(first) then
        if declared.named == "must" then
            host.fault(place, nil, "name-missing", ("%s wants a name before its table"):format(kind),
                ("%s \"name\" { ... }"):format(kind))
            return nil
        end
        return make(declared, place, nil, first)
    end
    host.fault(place, nil, "table-missing", ("%s wants %s; this is %s"):format(kind,
        declared.named == "never" and "a table" or "a name and a table", kinds.describe(first)),
        M.form(declared))
    return nil
end

--- A second table for a name already described: `make` tells that it is taken.
function M.make_again(declared, name, given)
    local place = host.here(declared.kind)
    return make(declared, place, name, type(given) == "table" and given or {})
end

--- Told when a script has ended: names without a table are a fault each.
function M.finish()
    for _, record in ipairs(run.pending) do
        if not record.filled then
            host.fault(record.place, nil, without_table(record))
        end
    end
    run.pending = {}
end

return M
