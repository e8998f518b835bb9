--- prescription: a standard treatment, kept as a script: what it asks for, what it suits,
--- its steps.
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local reference = need "reference"
local run = need "run"

local M

--- What an ask may declare about itself.
local ASK_KEYS = { kind = true, of = true, unit = true, default = true, least = true, most = true,
    needed = true, says = true }

--- The kinds that help lists; others are of our own keys.
local ASKED = { "stand", "feature", "crew", "act", "species", "length", "area", "span", "share", "density", "money", "work",
    "text", "number", "count", "flag", "date", "window", "choice", "list", "quantity" }

--- The kind of an ask that names none is read from its default.
local function guess_kind(default)
    if quantity.is(default) then
        if quantity.fits(default, "ft") then return "length" end
        return "quantity", quantity.unit(default)
    end
    if type(default) == "number" then return "number" end
    if type(default) == "string" then return "text" end
    if type(default) == "boolean" then return "flag" end
    local calendar = need "calendar"
    if calendar.kind(default) == "date" then return "date" end
    if calendar.kind(default) then return "window" end
    return "any"
end

--- Are the bounds of an ask or input of the same kind as its default?
-- @param at where a bound was written: function(name) giving host.fault's key
local function alike_bounds(place, at, spec)
    local default = spec.default
    if default == nil then return end
    for _, name in ipairs({ "least", "most" }) do
        local bound = spec[name]
        local alike = type(bound) == type(default) and type(bound) ~= "table"
        if alike and quantity.is(default) then alike = quantity.alike(bound, default) end
        if bound ~= nil and not alike then
            host.fault(place, at(name), "key-kind", ("`%s` is %s, and `default` is %s"):format(name,
                kinds.describe(bound), kinds.describe(default)))
            spec[name] = nil
        end
    end
end

local function read_asks(place, name, asks)
    -- The kinds of objects and species are declared with these.
    need "acts"
    need "vocabulary/stand"
    local keys = {}
    local names = {}
    for ask in pairs(asks) do
        if type(ask) ~= "string" then
            host.fault(place, "asks", "ask-name", "each ask wants a name", "to = { kind = \"stand\" }")
        else
            names[#names + 1] = ask
        end
    end
    table.sort(names)
    for _, ask in ipairs(names) do
        local given = asks[ask]
        local spec = { ask }
        if type(given) ~= "table" then
            host.fault(place, { "asks", ask }, "ask-table", ("the ask `%s` wants a table; this is %s"):format(ask,
                kinds.describe(given)), ask .. " = { default = 40 ft }")
            given = { kind = "any" }
        end
        for key, value in pairs(given) do
            if not ASK_KEYS[key] then
                local near = host.suggest(tostring(key), { "kind", "of", "unit", "default", "least",
                    "most", "needed", "says" })
                host.fault(place, { "asks", ask, tostring(key) }, "key-unknown", ("an ask has no `%s`"):format(tostring(key)),
                    near and ("did you mean `%s`?"):format(near))
            end
            spec[key] = value
        end
        if not spec.kind then spec.kind, spec.unit = guess_kind(spec.default) end
        if type(spec.kind) ~= "string" or not kinds[spec.kind] then
            local near = host.suggest(tostring(spec.kind), ASKED)
            host.fault(place, { "asks", ask, "kind" }, "ask-kind", ("the ask `%s` is of an unknown kind \"%s\""):format(ask,
                tostring(spec.kind)), near and ("did you mean \"%s\"?"):format(near)
                or ("kinds: %s"):format(table.concat(ASKED, ", ")))
            spec.kind = "any"
        end
        alike_bounds(place, function(bound) return { "asks", ask, bound } end, spec)
        spec.says = spec.says or "(not said)"
        if spec.default == nil and spec.needed == nil then spec.needed = true end
        keys[#keys + 1] = spec
    end
    return { kind = name, keys = keys }
end

M = reference.declare({
    kind = "prescription",
    says = "a standard treatment: what it asks for, what ground it suits, its steps",
    keys = {
        { "title", kind = "text", needed = true, says = "what the owner reads", example = "\"Sprout cover\"" },
        { "says", kind = "text", says = "what it does and for which animals" },
        { "asks", kind = "table", default = {}, says = "its inputs: { to = { kind = \"stand\" }, width = { default = 40 ft, least = 25 ft, most = 90 ft, says = \"...\" } }" },
        { "suits", kind = "table", default = {}, says = "tests of the ground: { { function (o) return ... end, \"why it does not suit\" }, ... }" },
        { "steps", kind = "function", needed = true, says = "function(o): the acts, o holding what was asked",
          example = "function (o) ... end" },
        { "expect", kind = "table", default = {}, says = "what to expect by year: { { 1, \"sprouts knee high\" }, { 5, \"...\" } }" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[prescription "clear brush" {
  title = "Clear brush", asks = { to = { kind = "stand" } },
  steps = function (o) job "clear brush" { stand = o.to, hours = 6 h } end,
}]],
    more = [[
an ask:
  kind           "stand", "feature", "crew", "act", "species"; "length", "area",
                 "span", "share", "density", "money", "work"; "text", "number",
                 "count", "flag", "date", "window"; "choice", of = { "a", "b" };
                 "list", of = "species"; "quantity", unit = "gal/ac". Without a
                 kind, that of the default.
  default        what it is when nothing is said; without a default it is needed
  needed         false: may be left out, and is nil then
  least, most    its bounds
  says           what it is, for help and for messages]],
    entry = function(place, name, values)
        local declared = read_asks(place, name, values.asks or {})
        for i, test in ipairs(values.suits or {}) do
            if type(test) ~= "table" or type(test[1]) ~= "function" or type(test[2]) ~= "string" then
                host.fault(place, "suits", "suits-row", ("row %d of `suits` wants a function and words")
                    :format(i), "{ function (o) return o.to.area >= 1 ac end, \"smaller patches stay shaded\" }")
            end
        end
        for i, row in ipairs(values.expect or {}) do
            if type(row) ~= "table" or math.type(row[1]) ~= "integer" or type(row[2]) ~= "string" then
                host.fault(place, "expect", "expect-row", ("row %d of `expect` wants a year and words")
                    :format(i), "{ 1, \"sprouts knee high\" }")
            end
        end
        return { title = values.title or name, says = values.says, declared = declared, suits = values.suits,
            steps = values.steps, expect = values.expect, source = values.source }
    end,
}, run.prescriptions)
M.alike_bounds = alike_bounds

return M
