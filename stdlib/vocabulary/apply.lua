--- apply: carries out a prescription on a stand, with what it asks for.
local host = need "host"
local objects = need "objects"
local run = need "run"
local schema = need "schema"

local M = {
    kind = "apply", named = "must",
    says = "carries out a prescription: apply \"sprout-cover\" { to = \"Bench aspen\", width = 50 ft }",
    keys = {}, unchecked = true,
    example = [[apply "sprout-cover" { to = "Bench aspen", ways_out = 3 }]],
    open_keys = "what the prescription asks for; spinney help sprout-cover tells what that one does",
}

--- Finds a prescription: described already, in a pack, or in the book.
local function find(name, place)
    local entry = run.prescriptions:get(name)
    local read = not entry and host.use_prescription(name, place)
    if read then entry = run.prescriptions:get(name) end
    if entry then return entry end
    if read then
        host.fault(place, nil, "prescription-unknown",
            ("prescriptions/%s.rx describes no prescription \"%s\""):format(name, name),
            "the prescription and its file have one name")
        return nil
    end
    local names = {}
    for _, known in ipairs(run.prescriptions:list()) do names[#names + 1] = known end
    for _, known in ipairs(host.book()) do names[#names + 1] = known end
    local near = host.suggest(name, names)
    host.fault(place, nil, "prescription-unknown", ("there is no prescription \"%s\""):format(name),
        near and ("did you mean \"%s\"?"):format(near) or "`spinney help prescriptions` lists them")
    return nil
end

--- The stand that it is told of: that in `to`, else the first it asks for.
local function applied_to(entry, values)
    local function stand_in(key)
        local value = values[key]
        return type(value) == "table" and objects.record(value.object, "stand") or nil
    end
    local stand = stand_in "to"
    for _, spec in ipairs(entry.declared.keys) do stand = stand or stand_in(spec[1]) end
    return stand
end

--- What was asked for, as steps and tests read it: a word that the prescription does not ask for is a
--- slip of its pen, where one that may be left out is nil.
local function asked_of(entry, name, values)
    local known, words = {}, {}
    for i, spec in ipairs(entry.declared.keys) do known[spec[1]], words[i] = true, spec[1] end
    return setmetatable(objects.open(values), { __metatable = false, __index = function(_, word)
        if known[word] then return nil end
        local near = host.suggest(tostring(word), words)
        return host.raise(nil, nil, "key-unknown", ("%s asks for no `%s`"):format(name, tostring(word)),
            near and ("did you mean `%s`?"):format(near) or #words > 0 and "it asks for " .. table.concat(words, ", ") or nil)
    end })
end

function M.make(place, name, _, given)
    local entry = find(name, place)
    if not entry then return nil end
    local before = host.fault_count()
    local values = schema.check(place, entry.declared, given)
    if host.fault_count() > before then return nil end
    local application = { prescription = entry, name = name, place = place, values = values,
        asked = asked_of(entry, name, values), acts = {} }
    application.stand = applied_to(entry, values)
    run.applied[#run.applied + 1] = application
    local outer = run.current
    application.outer = outer
    run.current = application
    local result = host.within("prescription " .. name, place, entry.steps, application.asked)
    run.current = outer
    return result
end

return M
