--- Checks the table of a primitive, or what a prescription asks for, against its
--- declaration; the same declaration is what `spinney help` prints.
--
-- keys = { { "width", kind = "length", default = ..., least = ..., most = ...,
--            needed = true, says = "..." }, ... } in the order they are documented.
-- A table inside another says in `at` which key of the call it is in: faults are told at the
-- very key, { "crop", "count" }.
-- also = { acres = "area" }: words that people try in place of a key, too far from it to be
-- taken for a slip of the finger.
local M = {}
local host = need "host"
local quantity = need "quantity"
local kinds = need "kinds"

--- The keys of a declaration by name; and which of them must be given or have a default, for
--- most are neither.
local function index(declared)
    declared.by_name, declared.expected = {}, {}
    for _, spec in ipairs(declared.keys) do
        declared.by_name[spec[1]] = spec
        if declared.at then spec.at = { declared.at, spec[1] } end
        if spec.needed or spec.default ~= nil then
            declared.expected[#declared.expected + 1] = spec
        end
    end
    return declared.by_name
end

--- Looks a key up in a declaration.
function M.key(declared, name)
    return (declared.by_name or index(declared))[name]
end

local function key_names(declared)
    local names = {}
    for i, spec in ipairs(declared.keys) do names[i] = spec[1] end
    return names
end

local function below(value, bound) return quantity.less(value, bound) end

--- Checks a value against `least` and `most`.
function M.bounds(place, spec, value)
    local name, at = spec[1], spec.at or spec[1]
    if value ~= value then -- neither below nor above anything
        host.fault(place, at, "key-bounds", ("`%s` is not a number"):format(name))
    elseif spec.least and below(value, spec.least) then
        host.fault(place, at, "key-bounds", ("`%s` is %s; the least is %s"):format(name,
            tostring(value), tostring(spec.least)))
    elseif spec.most and below(spec.most, value) then
        host.fault(place, at, "key-bounds", ("`%s` is %s; the most is %s"):format(name,
            tostring(value), tostring(spec.most)))
    end
end

--- What holds of every measure for which nothing else is told: it is not below zero, and a
--- share is no more than the whole.
local function plain_bounds(place, spec, kind, value)
    local wrong
    local _, most = nil, 0
    if kind == kinds.share and not spec.most then _, most = quantity.ends(value, "percent") end
    if most > 100 + 1e-9 then
        wrong = quantity.number(value, "percent") > 100 and "which is more than all of it"
            or ("and its high end is %g percent, more than all of it"):format(most)
    elseif kind ~= kinds.angle and quantity.below_zero(value) then
        wrong = "which is below zero"
    end
    if wrong then
        host.fault(place, spec.at or spec[1], "key-bounds", ("`%s` is %s, %s"):format(spec[1], tostring(value), wrong))
    end
end

--- Checks one value against its declaration.
-- @return the value to keep, or nil when a fault was told
function M.value(place, spec, value)
    local kind = kinds[spec.kind]
    if not kind then error("no kind " .. tostring(spec.kind)) end
    if kind.lua == type(value) then return value end -- nothing more to it
    local kept, wanted, hint, got = kind.take(value, spec, place, spec.at or spec[1])
    if kept == nil then
        if wanted ~= kinds.REPORTED then
            host.fault(place, spec.at or spec[1], "key-kind", ("`%s` wants %s; %s"):format(spec[1],
                wanted or kind.says, got or "this is " .. kinds.describe(value)),
                hint or kinds.mend(spec, kind, value) or spec.try)
        end
        return nil
    end
    if spec.least or spec.most then M.bounds(place, spec, kept) end
    if not spec.least and quantity.is(kept) then plain_bounds(place, spec, kind, kept) end
    return kept
end

local function unknown(place, declared, name, value)
    if type(name) ~= "string" then
        host.fault(place, nil, "key-unknown", ("%s wants names before its values; %s has none")
            :format(declared.kind, kinds.describe(value)), "write `name = value`")
        return
    end
    local near = declared.also and declared.also[name] or host.suggest(name, key_names(declared))
    host.fault(place, declared.at and { declared.at, name } or name, "key-unknown",
        ("%s has no `%s`"):format(declared.kind, name), near and ("did you mean `%s`?"):format(near)
             or declared.at and "its keys are " .. table.concat(key_names(declared), ", ")
             or ("`spinney help %s` lists its keys"):format(declared.kind))
end

--- A key that is needed and not there: left out, or given a name that is nothing.
function M.missing(place, declared, spec)
    local name = spec[1]
    local typed = not declared.at and host.typed(place, name)
    if typed then
        host.fault(place, name, "key-missing", ("`%s` is given `%s`, which is nil (nothing)"):format(name,
            typed), spec.example and ("%s = %s"):format(name, spec.example))
        return
    end
    local example = spec.example or kinds[spec.kind].example
    host.fault(place, declared.at, "key-missing", ("%s needs `%s`: %s"):format(declared.kind, name, spec.says),
        spec.try or example and ("%s = %s"):format(name, example))
end

--- Checks a whole table. All that is wrong is told, not the first thing only.
-- @param declared the declaration, with `keys` and `kind` (what it is called)
-- @param given the author's table
-- @return a new table of checked values, defaults filled in
function M.check(place, declared, given)
    local out, by_name = {}, declared.by_name or index(declared)
    for name, value in pairs(given) do
        local spec = by_name[name]
        if spec then
            out[name] = M.value(place, spec, value)
        else
            unknown(place, declared, name, value)
        end
    end
    local expected = declared.expected
    for i = 1, #expected do
        local spec = expected[i]
        local name = spec[1]
        if given[name] == nil then
            if spec.needed then
                M.missing(place, declared, spec)
            else
                out[name] = spec.default
            end
        end
    end
    return out
end

return M
