--- `spinney why rule NAME`, and of a season, condition, notice, rate or price: which layer's word holds,
--- what it says, and what it took the place of.
local M = {}
local host = need "host"
local quantity = need "quantity"
local run = need "run"
local wrap = need("help_text").wrap

local function windows(closed)
    local words = {}
    for i, window in ipairs(closed) do words[i] = tostring(window) end
    return table.concat(words, ", ")
end

local function rows(list, put)
    for _, row in ipairs(list or {}) do put(("up to %g %s: %s"):format(row.upto, row.unit, quantity.figure(row.value))) end
end

local function in_hundred(by_month)
    local words = {}
    for i, share in ipairs(by_month) do words[i] = ("%d"):format(math.floor(100 * share + 0.5)) end
    return table.concat(words, " ")
end

--- What a version says, by kind; `put` adds a line.
local TELL = {
    rule = function(version, put)
        put(("%s: %s%s"):format(version.level, version.says, version.off and " (switched off)" or ""))
        put("applies to: " .. table.concat(version.applies_to, ", "))
        if type(version.closed) == "table" then
            put("closed: " .. windows(version.closed))
        elseif version.closed then
            put("closed: dates of each year, computed")
        end
        if version.ground then put("ground: " .. version.ground) end
    end,
    season = function(version, put) put(tostring(version.window)) end,
    condition = function(version, put) put("weeks of a hundred that have it, January first: " .. in_hundred(version.by_month)) end,
    notice = function(version, put)
        put(("to %s, %s ahead"):format(version.to, quantity.figure(version.lead)))
        put("applies to: " .. table.concat(version.applies_to, ", "))
        if version.expires then
            put("holds: " .. (quantity.is(version.expires) and quantity.figure(version.expires) or "to the " .. version.expires))
        end
    end,
    rate = function(version, put)
        if version.value then put(quantity.figure(version.value)) end
        rows(version.by_diameter, put)
        rows(version.by_density, put)
    end,
    price = function(version, put) put(quantity.figure(version.value)) end,
}

local REGISTRIES = { rule = run.rules, season = run.seasons, condition = run.conditions, notice = run.notices,
    rate = run.rates, price = run.prices }

--- The version of that name that holds, or nil when a fault was told.
local function find(kind, name)
    local registry = REGISTRIES[kind]
    local entry = registry:get(name)
    if entry or run.property then return entry or registry:find(name) end
    local near = host.suggest(name, registry:list())
    host.fault(nil, nil, kind .. "-unknown", ("there is no %s \"%s\" that every plan starts from"):format(kind, name),
        near and ("did you mean \"%s\"?"):format(near)
             or ("for a region's %s, name a plan there too: spinney why %s \"%s\" PLAN.rx"):format(kind, kind, name))
    return nil
end

local function text(kind, name)
    local entry = find(kind, name)
    if not entry then return nil end
    local lines = {}
    local function put(words) lines[#lines + 1] = wrap(words, "  ", "    ") end
    local function tell(version, words)
        lines[#lines + 1] = wrap(("%s%s, %s"):format(words, version.layer.words, host.place_words(version.place)), "", "  ")
        TELL[kind](version, put)
        if kind ~= "rule" and version.says then put(version.says) end
        if version.ask then put("ask: " .. version.ask) end
        put("source: " .. (version.source or "no source given"))
    end
    tell(entry, ("%s \"%s\", as it holds: "):format(kind, name))
    local versions = REGISTRIES[kind]:versions(name)
    for i = #versions - 1, 1, -1 do tell(versions[i], "in place of: ") end
    return table.concat(lines, "\n") .. "\n"
end

function M.rule(name) return text("rule", name) end
function M.season(name) return text("season", name) end
function M.condition(name) return text("condition", name) end
function M.notice(name) return text("notice", name) end
function M.rate(name) return text("rate", name) end
function M.price(name) return text("price", name) end

return M
