--- Kinds of values that keys of the vocabulary take. One declaration checks a value, says
--- what was wrong, and documents itself in `spinney help`.
--
-- A kind is { says = "a length, such as 40 ft", take = function(value, spec, place) } where
-- take gives the value to keep, or nil and the words for what is wrong (nil words: "wants
-- SAYS; this is ...").
local M = {}
local host = need "host"
local phrases = need "phrases"
local quantity = need "quantity"
local calendar = need "calendar"
local objects = need "objects"

local function finite(number) return number - number == 0 end

--- "an area (3 ac)", "text (\"forty\")", "a window (Nov 15 to Mar 31)".
function M.describe(value)
    if quantity.is(value) then return quantity.describe(value) end
    local when = calendar.kind(value)
    if when then return ("a %s (%s)"):format(when, tostring(value)) end
    local object = objects.says(value)
    if object then return object end
    local kind = type(value)
    if value == nil then return "nil (nothing)" end
    if kind == "string" then
        local short = #value > 24 and value:sub(1, 21) .. "..." or value
        return ("text (\"%s\")"):format((short:gsub("%c", " ")))
    end
    if kind == "number" then
        return finite(value) and ("a bare number (%s)"):format(tostring(value)) or "a number that is not finite"
    end
    if kind == "boolean" then return tostring(value) end
    if kind == "table" then return "a table" end
    return "a " .. kind
end

local function measured(unit, example, noun)
    return {
        says = ("%s, such as %s"):format(noun, example),
        unit = unit,
        take = function(value, spec)
            if quantity.is(value) and quantity.fits(value, unit) then return value end
            if spec.bare and type(value) == "number" then return quantity.leaf(value, unit) end
            return nil
        end,
    }
end

M.length = {
    says = "a length, such as 40 ft or 1 tree_length",
    unit = "ft",
    take = function(value)
        if quantity.is(value) and (quantity.fits(value, "ft") or quantity.fits(value, "tree_length")) then
            return value
        end
        return nil
    end,
}
M.diameter = measured("in", "12 in", "a diameter")
M.area = measured("ac", "3.4 ac", "an area")
M.money = measured("USD", "150 USD", "money")
M.wage = measured("USD/h", "45 USD/h", "money per hour of work")
M.work = measured("h", "6 h", "hours of work")
M.weekly = measured("h/wk", "10 h/wk", "hours of work a week")
M.span = measured("d", "3 wk", "a time that passes (d, wk, mo, yr)")
M.span.unit = nil -- a bare 4 may be days or years: no mend is offered
M.share = {
    says = "a share, such as 25 percent",
    unit = "percent",
    take = function(value)
        if type(value) == "number" and value >= 0 and value <= 1 then
            return quantity.leaf(value * 100, "percent")
        end
        if not quantity.is(value) then return nil end
        if quantity.fits(value, "percent") then return quantity.say(value, "percent") end
        -- Square feet cut over an acre of stand: a share, when a share is asked for.
        if quantity.fits(value, "ft2/ac") then
            return quantity.say(value / quantity.leaf(43560, "ft2/ac", "square feet in an acre"), "percent")
        end
        return nil
    end,
}
M.density = measured("trees/ac", "15 trees/ac", "a number of trees per area")
M.basal_area = measured("ft2/ac", "60 ft2/ac", "a basal area")
M.slope = measured("percent", "12 percent", "a slope")
M.angle = measured("deg", "12 deg", "an angle")
--- A quantity of a stated unit: { kind = "quantity", unit = "gal/ac" }.
M.quantity = {
    says = "a quantity",
    take = function(value, spec)
        if not quantity.is(value) then
            if spec.bare and type(value) == "number" then return quantity.leaf(value, spec.unit) end
            return nil, ("a quantity in %s"):format(spec.unit or "some unit")
        end
        if spec.unit and not quantity.fits(value, spec.unit) then
            return nil, ("a quantity in %s"):format(spec.unit)
        end
        return value
    end,
}

-- `lua`: every value of that type of Lua's will do, as it is.
M.text = { says = "text in quotes", lua = "string", take = function(v) return type(v) == "string" and v or nil end }
M.flag = { says = "true or false", lua = "boolean",
           take = function(v) if type(v) == "boolean" then return v end return nil end }
M.number = { says = "a bare number", take = function(v) return type(v) == "number" and v or nil end }
M.count = {
    says = "a whole number",
    take = function(v)
        if type(v) == "number" and v >= 0 and v == math.floor(v) then return math.tointeger(v) end
        if quantity.is(v) and quantity.is_count(v) then return quantity.whole(v) end
        return nil
    end,
}
M.date = { says = "a date, such as Nov 1 2026",
           take = function(v) return calendar.kind(v) == "date" and v or nil end }
M.window = {
    says = "a window, such as Nov 15 to Mar 31",
    take = function(v)
        if calendar.kind(v) == "window" then return v end
        if calendar.kind(v) == "day" then return calendar.window(v, v) end
        return nil
    end,
}
M["function"] = { says = "a function", lua = "function", take = function(v) return type(v) == "function" and v or nil end }
M.table = { says = "a table", take = function(v)
    return type(v) == "table" and not objects.record(v) and v or nil end }
M.any = { says = "any value", take = function(v) return v end }

--- One of a few words: { kind = "choice", of = { "flush", "stump" } }; `also` has the mends
--- for other words that people try.
M.choice = {
    says = "one of a few words",
    take = function(value, spec)
        for _, word in ipairs(spec.of) do if value == word then return value end end
        local also = spec.also and spec.also[value]
        local near = not also and type(value) == "string" and host.suggest(value, spec.of)
        return nil, "one of " .. M.quoted(spec.of), also or near and ("did you mean \"%s\"?"):format(near)
    end,
}

--- An object of a kind, or its name: { kind = "object", of = "stand" }.
function M.object(of, example, find)
    return {
        says = ("a %s or its name"):format(of),
        take = function(value, _, place, key)
            local record = objects.record(value, of)
            if record then return record end
            if type(value) == "string" and find then
                local found = find(value, place, key)
                return found, found == nil and M.REPORTED or nil
            end
            return nil
        end,
        example = example or ("\"Name of the %s\""):format(of),
    }
end
--- The mend for a value of the wrong kind, where an easy one shows; else nil.
-- @param spec the key's declaration, kind the kind it wants
function M.mend(spec, kind, value)
    local key, unit = spec[1], spec.unit or kind.unit
    if type(value) == "number" then
        if kind == M.date then return "dates are written as Oct 14 2026" end
        if kind == M.text then return ("%s = \"%s\""):format(key, tostring(value)) end
        return unit and value >= 0 and finite(value) and ("%s = %s %s"):format(key, tostring(value), unit) or nil
    end
    if type(value) == "string" then
        if kind == M.flag then
            local word = value:lower()
            if word == "yes" or word == "true" then return key .. " = true" end
            if word == "no" or word == "false" then return key .. " = false" end
        end
        local dated = kind == M.date or kind == M.window
        local typed = value:match("^%-?%d[%w./ ]*$") or dated and value:match("^%u%l%l %d[%w ]*$")
        if dated and not value:match("^%u%l%l %d") then
            return kind == M.date and "dates are written as Oct 14 2026"
                or "a window is written as Nov 15 to Mar 31"
        end
        if typed and (unit or dated or kind == M.number or kind == M.count) then
            return ("without quotes: %s = %s"):format(key, typed)
        end
        return nil
    end
    if kind == M.date and calendar.kind(value) == "day" then
        return ("a date has its year: %s = %s 2026"):format(key, tostring(value))
    end
    if quantity.is(value) then
        if kind == M.work and quantity.fits(value, "d") then return "hours of work are said in h or min" end
        if kind == M.span and quantity.fits(value, "h") then
            return "time that passes is said in d, wk, mo or yr"
        end
    end
    return nil
end

--- Returned as words by a kind that has told the fault itself.
M.REPORTED = {}

--- "\"a\", \"b\" or \"c\"".
function M.quoted(words)
    local parts = {}
    for i, word in ipairs(words) do parts[i] = ("\"%s\""):format(word) end
    return phrases.listed(parts, "or")
end

--- One value or a list of them, always kept as a list: { kind = "list", of = "species" }.
M.list = {
    says = "one value or a list",
    take = function(value, spec, place, key)
        local of = M[spec.of]
        local whole, words, mend = of.take(value, spec, place, key)
        if whole ~= nil then
            if spec.least or spec.most then need("schema").bounds(place, spec, whole) end
            return { whole }
        end
        if words == M.REPORTED then return nil, words end
        if type(value) ~= "table" or objects.record(value) or mend and value[1] == nil then
            return nil, (words or of.says) .. ", or a list of them", mend or M.mend(spec, of, value)
        end
        local out = {}
        for i, item in ipairs(value) do
            local kept, wrong, hint = of.take(item, spec, place, key)
            if kept == nil then
                if wrong == M.REPORTED then return nil, wrong end
                return nil, (wrong or of.says) .. ", or a list of them", hint,
                    ("number %d of the list is %s"):format(i, M.describe(item))
            end
            if spec.least or spec.most then need("schema").bounds(place, spec, kept) end
            out[i] = kept
        end
        for name in pairs(value) do
            if type(name) ~= "number" then
                return nil, "a list without names", nil, ("there is a `%s` in it"):format(tostring(name))
            end
        end
        return out
    end,
}

--- Kinds that are declared beside what they are about: the module that does so.
local HOMES = {
    stand = "acts", crew = "acts", feature = "acts", act = "acts", when = "acts", dates = "acts", soon = "acts",
    condition = "acts", part = "acts", edge = "acts",
    species = "vocabulary/stand", leave = "felling", tree_number = "felling", ratio = "vocabulary/cut",
    residual = "marking_keys", limits = "marking_keys", crop = "marking_keys", patches = "marking_keys",
    strips = "marking_keys", cost_share = "costs", off_days = "crew_hours", work_rate = "vocabulary/job",
    work_price = "vocabulary/job", amount = "vocabulary/job", rate_density = "vocabulary/rate", label_max = "spraying",
    map = "map_files", map_files = "map_files",
}

return setmetatable(M, { __index = function(_, kind)
    if not HOMES[kind] then return nil end
    need(HOMES[kind])
    return rawget(M, kind)
end })
