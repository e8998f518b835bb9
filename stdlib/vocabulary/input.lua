--- input: a value that whoever runs the plan may set: `spinney run --set width="45 ft"`.
local host = need "host"
local run = need "run"
local schema = need "schema"

local M = {
    kind = "input", named = "must",
    says = "a value that may be set when the plan is run (--set name=value); gives the value",
    keys = {
        { "default", kind = "any", needed = true, says = "the value when nothing is set", example = "40 ft" },
        { "least", kind = "any", says = "the least it may be" },
        { "most", kind = "any", says = "the most it may be" },
        { "says", kind = "text", says = "what it is" },
    },
    example = [[local width = input "width" { default = 40 ft, least = 25 ft,
  says = "width of each opening" }]],
    more = [[
of every kind: measures, whole numbers, dates, windows, text:
  crew "owner" { people = input "people" { default = 2, least = 1, most = 4 },
    hours_each = input "hours" { default = 10 h/wk }, skills = { "saw" },
    from = input "begin" { default = Nov 1 2026 } }

set by its name; what has blanks or signs stands in quotes:
  spinney run PLAN.rx --set people=3 --set "hours=14 h/wk"
  spinney why PLAN.rx finish --set "begin=Dec 1 2026"]],
}

function M.make(place, name, values)
    local calendar = need "calendar"
    local quantity = need "quantity"
    if run.inputs[name] then
        host.fault(place, nil, "name-taken", ("input \"%s\" is already declared at %s"):format(name,
            host.place_words(run.inputs[name].place)))
        return nil
    end
    if values.default == nil then return nil end
    need("vocabulary/prescription").alike_bounds(place, function(bound) return bound end, values)
    local value, default = values.default, values.default
    local typed = host.setting(name)
    if type(default) == "string" and typed and not typed:match("^%s*[\"'%[]") then
        value = typed -- a text needs no quotes on the command line
    elseif typed then
        value = host.evaluate(name, typed)
        local same = type(value) == type(default) and calendar.kind(value) == calendar.kind(default)
        if same and quantity.is(default) then same = quantity.alike(value, default) end
        if not same then
            host.fault(place, nil, "set-kind", ("--set %s is %s; the input wants one like %s"):format(name,
                need("kinds").describe(value), tostring(default)),
                ("--set %s=\"%s\""):format(name:find("%s") and "\"" .. name .. "\"" or name, tostring(default)))
            value = default
        end
    end
    run.inputs[name] = { name = name, place = place, value = value }
    run.input_names[#run.input_names + 1] = name
    if values.least or values.most then
        schema.bounds(place, { name, least = values.least, most = values.most }, value)
    end
    return value
end

return M
