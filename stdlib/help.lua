--- `spinney help`: printed from the very declarations that check scripts.
local M = {}
local host = need "host"
local prelude = need "prelude"
local quantity = need "quantity"
local run = need "run"
local text = need "help_text"
local TOPICS = need "help_topics"

--- Pages made from what is loaded, beside the topics in words; filled below.
local LISTS = {}

--- Words that help knows beside the primitives, in alphabetical order.
local function topics()
    local names = {}
    for _, topic in ipairs(TOPICS) do names[#names + 1] = topic[1] end
    for name in pairs(LISTS) do names[#names + 1] = name end
    table.sort(names)
    return names
end

local function topic(word)
    for _, entry in ipairs(TOPICS) do
        if entry[1] == word then return { entry[2] } end
    end
    return LISTS[word] and LISTS[word]()
end

--- The page on which a word is explained that has none of its own.
local function explained(word)
    for _, entry in ipairs(TOPICS) do
        for _, other in ipairs(entry[3] or {}) do
            if other == word then return { entry[2] } end
        end
    end
    return nil
end

local function overview()
    local out = { "Spinney reads scripts (.rx): Lua 5.4 with measures, ranges and dates.", "" }
    for _, group in ipairs(prelude.groups) do
        out[#out + 1] = group[1] .. ":"
        for _, name in ipairs(group[2]) do
            out[#out + 1] = text.row(name, text.in_short(prelude.declaration(name).says), 17)
        end
        out[#out + 1] = ""
    end
    out[#out + 1] = "More: spinney help WORD, where WORD is one of the above, a prescription, or"
    out[#out + 1] = text.wrap(table.concat(topics(), ", "), "  ", "  ")
    return out
end

--- A measure, or both ends of a range: "1 to 2 h/ac".
local function ends(value)
    local unit = quantity.unit(value)
    if unit == "" then return ("%g to %g"):format(value:low(), value:high()) end
    local low, high = quantity.ends(value, unit)
    if low == high then return quantity.short(value) end
    local from, to = quantity.short(quantity.leaf(low, unit)), quantity.short(quantity.leaf(high, unit))
    local number, said = from:match("^(%S+) ?(.*)$")
    if said == to:match("^%S+ ?(.*)$") then from = number end
    return from .. " to " .. to
end

--- What a layered name holds, in a few words.
local holds = {
    rate = function(entry)
        if entry.value then return ends(entry.value) end
        local rows = entry.by_diameter or entry.by_density
        return ("%s to %s, by %s"):format(quantity.short(rows[1].value), quantity.short(rows[#rows].value),
            entry.by_diameter and "diameter" or "density")
    end,
    price = function(entry) return ends(entry.value) end,
    season = function(entry) return tostring(entry.window) end,
    condition = function(entry)
        local by_month = {}
        for i, share in ipairs(entry.by_month) do by_month[i] = ("%d"):format(math.floor(100 * share + 0.5)) end
        return table.concat(by_month, " ")
    end,
    notice = function(entry) return "to " .. entry.to end,
    rule = function(entry) return entry.level .. ", for " .. table.concat(entry.applies_to, ", ") end,
}

--- How many layers describe each name of a registry.
local function counted(registry)
    local counts = {}
    for _, name in ipairs(registry:list()) do counts[name] = #registry:versions(name) end
    return counts
end

--- The names of a registry; of those that were `before`, only what was described since.
local function known(registry, before, out)
    local rows = {}
    for _, name in ipairs(registry:list()) do
        if not before or #registry:versions(name) > (before[name] or 0) then
            rows[#rows + 1] = { name, holds[registry.kind](registry:get(name)) }
        end
    end
    if #rows == 0 then return end
    out[#out + 1] = ""
    out[#out + 1] = before and registry.kind .. "s:" or ("%ss that every plan starts from:"):format(
        registry.kind)
    for _, row in ipairs(rows) do out[#out + 1] = text.row(row[1], row[2], 32) end
end

local function primitive(declared)
    local shared = {}
    for _, spec in ipairs(declared.act and need("acts").keys or {}) do shared[spec] = true end
    local out = text.primitive(declared, shared)
    if declared.registry and holds[declared.kind] then
        known(declared.registry, nil, out)
        out[#out + 1] = ""
        out[#out + 1] = "A region and a pack add theirs: spinney help regions, spinney help packs."
    end
    return out
end

function LISTS.acts()
    local out = { "acts", "  Keys that every act takes, beside its own.", "" }
    for _, spec in ipairs(need("acts").keys) do text.key(spec, out) end
    out[#out + 1] = ""
    out[#out + 1] = "what is figured of every act, as far as it takes any:"
    text.rows({ { "hours", "person-hours; of what is done those it took" },
        { "hours_planned", "of what is done, those that were planned" },
        { "partner_hours", "of a safety partner, in them" }, { "labor_cost", "hours by the rate of its crew" },
        { "materials_cost", "what it takes, where prices are told" },
        { "machine_cost", "hired machines, and fuel of an own one" },
        { "moving_cost", "bringing a machine" }, { "contract_cost", "work bought by the amount" },
        { "cost", "all of these; or as told, by the plan or a bill" } }, out)
    return out
end

function LISTS.answers()
    local out = { "answers", text.wrap("What a rule, a notice or a test of a prescription may ask of an act `a`, "
        .. "beside its keys and its figures. Every act answers all of them.", "  ", "  "), "" }
    text.rows(need("act_answers").rows, out)
    out[#out + 1] = ""
    out[#out + 1] = "A stand answers what `spinney help stand` says."
    return out
end

function LISTS.handbook() return need("help_words").handbook() end

function LISTS.units()
    local out = { "units" }
    for _, row in ipairs(quantity.units()) do out[#out + 1] = text.row(row.name, row.words, 17) end
    out[#out + 1] = ""
    out[#out + 1] = text.wrap("Of these others are made, without blanks: ft2, ft3, ft2/ac, stems/ac, gal/ac, "
        .. "USD/h. A pack adds its own: spinney help packs.", "", "")
    return out
end

--- Species by their names, as a tally takes them.
local function species_lines(out)
    out[#out + 1] = ""
    out[#out + 1] = text.wrap("known: " .. table.concat(need("forest").species_names(), ", "), "", "  ")
end

function LISTS.prescriptions()
    local out, seen = { "prescriptions of the book and the packs:" }, {}
    local names = host.book()
    table.sort(names)
    for _, name in ipairs(names) do
        if not seen[name] and host.use_prescription(name, nil) then
            out[#out + 1] = text.row(name, run.prescriptions:get(name).title, 22)
        end
        seen[name] = true
    end
    out[#out + 1] = "More on one: spinney help NAME."
    return out
end

local function region_names()
    local names, seen = {}, {}
    for _, name in ipairs(host.regions()) do
        if not seen[name] then names[#names + 1] = name end
        seen[name] = true
    end
    table.sort(names)
    return names
end

function LISTS.regions()
    local out = { "regions" }
    for _, name in ipairs(region_names()) do out[#out + 1] = "  " .. name end
    out[#out + 1] = ""
    out[#out + 1] = text.wrap("A property names its region, property \"...\" { region = \"lake-states/michigan\" }, "
        .. "and the state brings what its region holds along. What one adds: spinney help NAME. "
        .. "Rules are told as published, with their source, not as law: check them locally.", "", "")
    return out
end

--- What a region adds, or nil when there is none of that name.
local function region(word)
    for _, name in ipairs(region_names()) do
        if name == word then
            local parent = name:match("^(.*)/")
            if parent then host.load_region(parent, "region") end
            local registries = { run.seasons, run.conditions, run.rules, run.notices, run.rates, run.prices }
            local before = {}
            for i, registry in ipairs(registries) do before[i] = counted(registry) end
            host.load_region(name, parent and "state" or "region")
            local out = { name }
            if parent then out[2] = "  with all of " .. parent .. ", and of its own:" end
            for i, registry in ipairs(registries) do known(registry, before[i], out) end
            return out
        end
    end
    return nil
end

local function prescription(word)
    for _, name in ipairs(host.book()) do
        if name == word and host.use_prescription(word, nil) then
            return text.prescription(run.prescriptions:get(word))
        end
    end
    return nil
end

--- A key: which words take it and what it means there, or nil.
local function key(word)
    local rows, shared = {}, {}
    for _, spec in ipairs(need("acts").keys) do
        shared[spec] = true
        if spec[1] == word then rows[1] = { "every act", spec.says } end
    end
    for _, name in ipairs(prelude.names()) do
        for _, spec in ipairs(prelude.declaration(name).keys) do
            if spec[1] == word and not shared[spec] then rows[#rows + 1] = { name, spec.says } end
        end
    end
    if #rows == 0 then return nil end
    local out = { word, "  A key of", "" }
    text.rows(rows, out)
    out[#out + 1] = ""
    out[#out + 1] = "More: spinney help and the word on the left; of every act: spinney help acts."
    return out
end

local function unknown(word)
    local names = prelude.names()
    for _, name in ipairs(topics()) do names[#names + 1] = name end
    for _, entry in ipairs(TOPICS) do table.move(entry[3] or {}, 1, #(entry[3] or {}), #names + 1, names) end
    for _, name in ipairs(host.book()) do names[#names + 1] = name end
    for _, name in ipairs(region_names()) do names[#names + 1] = name end
    for _, name in ipairs(need("help_words").names()) do names[#names + 1] = name end
    table.sort(names)
    local near = host.suggest(word, names)
    host.fault(nil, nil, "help-unknown", ("there is no help on \"%s\""):format(word),
        near and ("did you mean `spinney help %s`?"):format(near) or "`spinney help` lists the words")
    return nil
end

--- The text for a word, or nil when a fault was told.
function M.text(word)
    local out
    local declared = word and prelude.declaration(word)
    if not word then
        out = overview()
    elseif declared then
        out = primitive(declared)
        if word == "species" then species_lines(out) end
        if word == "stand" then need("help_words").stand(out) end
    else
        out = topic(word) or need("help_words").page(word) or region(word) or prescription(word) or key(word)
            or explained(word) or unknown(word)
    end
    return out and table.concat(out, "\n") .. "\n"
end

return M
