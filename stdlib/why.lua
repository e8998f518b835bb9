--- `spinney why PLAN.rx NAME`: finds the quantity a person means by a name.
-- Names: "total.hours", "bench-aspen/cut.hours", "Bench aspen.basal_area", a global of the
-- plan. `spinney why rule NAME` and the like: why_layers.lua.
local M = {}
local host = need "host"
local quantity = need "quantity"
local run = need "run"
local wrap = need("help_text").wrap

local function candidates()
    local list = {}
    local function add(name, value) list[#list + 1] = { name = name, value = value } end
    for _, key in ipairs(run.total_names or {}) do add("total." .. key, run.totals[key]) end
    for _, act in ipairs(run.acts) do
        for _, key in ipairs(act.figure_names) do
            local figure = act.figures[key]
            add(act.id .. "." .. key, figure.value)
            list[#list].label = ("%s, %s"):format(figure.words, act.id)
        end
    end
    for _, stand in ipairs(run.stands) do
        add(stand.name .. ".area", stand.area)
        if stand.cruise then
            add(stand.name .. ".basal_area", stand.cruise:basal_area())
            add(stand.name .. ".trees", stand.cruise:trees())
            add(stand.name .. ".diameter", stand.cruise:diameter())
            for _, row in ipairs(need("vocabulary/stand").rows(stand)) do
                add(("%s.basal_area.%s"):format(stand.name, row.species), row.basal_area)
                add(("%s.trees.%s"):format(stand.name, row.species), row.trees)
            end
        end
    end
    for _, name in ipairs(run.input_names) do
        if quantity.is(run.inputs[name].value) then add(name, run.inputs[name].value) end
    end
    local globals = host.globals()
    table.sort(globals)
    for _, name in ipairs(globals) do
        local value = host.global(name)
        if quantity.is(value) then add(name, value) end
    end
    return list
end

--- A species of a stand by another of its names: "Oak ridge.trees.red oak".
local function other_name(name)
    local forest = need "forest"
    for _, stand in ipairs(run.stands) do
        local key, word = name:sub(#stand.name + 1):match("^%.([%a_]+)%.(.+)$")
        if key and name:sub(1, #stand.name) == stand.name and stand.cruise and forest.species_known(word) then
            local found
            for _, row in ipairs(need("vocabulary/stand").rows(stand)) do
                if forest.species_among(word, row.species) then
                    if found then return nil end
                    found = ("%s.%s.%s"):format(stand.name, key, row.species)
                end
            end
            return found
        end
    end
    return nil
end

--- What is told after an answer's name: "red oak", 5, or year 5 and "height" of "5.height".
local function told_after(word, of)
    local number, what = of:match("^(%d+)%.?([%a_]*)$")
    if not number then return of end
    if what == "" then return math.tointeger(number) end
    local row = need("answers").row(word)
    return { [row.main or "year"] = math.tointeger(number), what = what }
end

--- An answer of a stand by name: "Oak ridge.stocking", "Oak ridge.site_index.red oak",
--- "Bench aspen.expected.5", "Bench aspen.expected.5.height".
-- @return a function that gives it, or nil
local function answer(name)
    for _, stand in ipairs(run.stands) do
        if name:sub(1, #stand.name + 1) == stand.name .. "." then
            local word, of = name:sub(#stand.name + 2):match("^([%a_]+)%.?(.*)$")
            local ask = word and need("answers").find(word)
            if ask then
                return function()
                    if of == "" then return ask(stand.object) end
                    return ask(stand.object, told_after(word, of))
                end
            end
        end
    end
    return nil
end

--- What a thing that the plan keeps under a name answers: "clearing.area".
local function of_global(name)
    local global = name:match("^([%a_][%w_]*)%.[%a_][%w_]*$")
    if not global or need("objects").record(host.global(global)) == nil then return nil end
    return function() return host.evaluate("what is asked", name, "the question") end
end

--- What a line of a script would give: `handbook.plot_radius { size = 0.1 ac }`.
local function question(name)
    if not name:find('[({:"]') then return nil end
    return function() return host.evaluate("what is asked", name, "the question") end
end

--- What holds the plan's finish back, or an act's start: "finish", "bench-aspen/fell.start"; how
--- sure its days are: "bench-aspen/fell.chance", "bench-aspen/fell.float".
local function dates(name)
    if name == "finish" then return need("held_back").of_finish() end
    local id = name:match("^(.*)%.start$") or name:match("^(.*)%.finish$")
    return id and need("held_back").of_start(id) or need("why_risk").text(name)
end

--- The quantity of that name, or nil when a fault was told. The name may be the one that an
--- explanation shows: "felling hours, bench-aspen/fell".
function M.find(name)
    local names, other = {}, other_name(name)
    for _, one in ipairs(candidates()) do
        if one.name == name or one.name == other or one.label == name then return one.value end
        names[#names + 1] = one.name
    end
    if #run.acts > 0 then names[#names + 1] = "finish" end
    if run.property.values.budget then names[#names + 1] = "total.budget" end
    for _, act in ipairs(run.acts) do
        for _, word in ipairs({ "start", "chance", "float" }) do names[#names + 1] = ("%s.%s"):format(act.id, word) end
    end
    local seen = {}
    for _, one in ipairs(names) do seen[one] = true end
    for _, stand in ipairs(run.stands) do
        for _, word in ipairs(need("answers").names()) do
            local one = stand.name .. "." .. word
            if not seen[one] then names[#names + 1] = one end
        end
    end
    host.fault(nil, nil, "why-unknown", ("the plan has no quantity \"%s\""):format(name),
        need("why_mend").words(name, names))
    return nil
end

local function sorted_keys(value)
    local keys = {}
    for key in pairs(value) do keys[#keys + 1] = key end
    table.sort(keys, function(a, b)
        if type(a) ~= type(b) then return type(a) == "number" end
        if type(a) == "number" then return a < b end
        return tostring(a) < tostring(b)
    end)
    return keys
end

local function is_table(value) return type(value) == "table" and not need("objects").record(value) end

--- A thing inside a table, a line or more, indented.
local function inside(value, name, indent)
    if not is_table(value) then
        local words = quantity.is(value) and quantity.figure(value) or tostring(value)
        return wrap(("%s: %s"):format(name, words), indent, indent .. "  ") .. "\n"
    end
    local parts = { ("%s%s:\n"):format(indent, name) }
    for _, key in ipairs(sorted_keys(value)) do
        parts[#parts + 1] = inside(value[key], tostring(key), indent .. "  ")
    end
    if #parts == 1 then parts[1] = ("%s%s: none\n"):format(indent, name) end
    return table.concat(parts)
end

--- A quantity explained, under the name it has or is given.
local function explained(value, name, renamed)
    if quantity.is(value) then
        local named = quantity.named(value) and not renamed
        return quantity.explain(named and value or quantity.name(value, name))
    elseif not is_table(value) then
        return tostring(value) .. "\n"
    end
    local parts = {}
    for i, key in ipairs(sorted_keys(value)) do
        parts[i] = quantity.is(value[key]) and explained(value[key], tostring(key), true)
            or inside(value[key], tostring(key), "")
    end
    return #parts > 0 and table.concat(parts, "\n") or "nothing\n"
end

--- The explanation of the quantity of that name, or of what a line of a script would give.
function M.text(name)
    if name == "total.budget" or name == "budget" and host.global(name) == nil then return need("why_budget").text() end
    local dated = dates(name)
    if dated then return dated end
    local ask = answer(name) or of_global(name) or question(name)
    if not ask then
        local value = M.find(name)
        return value and explained(value, name)
    end
    local value = ask()
    if value ~= nil then return explained(value, name:find('[({:"]') and "what is asked" or name) end
    host.fault(nil, nil, "why-unknown", "that gives nothing", "spinney help why")
    return nil
end

return M
