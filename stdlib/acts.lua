--- What all acts share: the keys that say where, when, by whom and after what, and the
--- record of an act. Each kind of act adds its own keys and its takeoff (the quantities).
local M = {}
local host = need "host"
local quantity = need "quantity"
local objects = need "objects"
local kinds = need "kinds"
local run = need "run"
need "act_kinds"

--- Keys that every act takes.
M.keys = {
    { "stand", kind = "stand", says = "the stand it is done in", example = "\"Bench aspen\"" },
    { "part", kind = "part", says = "the part of the stand it is done in (spinney help parts)" },
    { "during", kind = "list", of = "when", says = "season, window or dates in which it may be done; several: any of them. Without it all year, but for what has its own season: plant, burn, spraying of leaves" },
    { "on", kind = "any", says = "the act it is done on (an opening, a trail, a planting)" },
    { "date", kind = "date", says = "the very day it is to start, where that is fixed" },
    { "not_before", kind = "date", says = "the first day it may start" },
    { "by", kind = "date", says = "the last day it may finish" },
    { "after", kind = "list", of = "act", says = "acts that must be finished first" },
    { "wait", kind = "span", most = quantity.leaf(20, "yr"), says = "least time after those, such as 3 wk or 1 yr; 3 to 6 wk: the least and the most" },
    { "within", kind = "soon", says = "most time after those: 2 wk; for stump treatment hours of the same crew's day: 2 h" },
    { "in_one_week", kind = "flag", says = "it is not spread over several weeks; without a crew: its days follow one another" },
    { "crew", kind = "list", of = "crew", says = "who may do it; without it, any crew with the skill" },
    { "entries", kind = "count", least = 1, most = 12, says = "in how many equal entries it is done" },
    { "every", kind = "span", most = quantity.leaf(20, "yr"), says = "time between entries, such as 5 yr; 4 to 6 yr: the least and the most" },
    { "in_year", kind = "list", of = "count", most = 30, says = "years after the acts it follows, such as { 1, 2, 3 }: once in each; with `entries`, in each after its own entry" },
    { "only_when", kind = "condition", says = "condition of ground or weather it needs" },
    { "otherwise", kind = "act", says = "the act to do instead when this one cannot be placed" },
    { "hours", kind = "work", says = "hours of work, in place of those computed from rates" },
    { "cost", kind = "money", says = "cost, in place of that computed" },
    { "cost_share", kind = "cost_share", says = "what a program is expected to pay for it: 800 USD, 150 USD/ac, or 60 percent of its cost" },
    { "program", kind = "text", says = "which program, contract or practice pays" },
    { "hazards", kind = "list", of = "text", says = "cautions of its own, in words" },
    { "says", kind = "text", says = "a sentence for the owner's plan" },
    { "first", kind = "flag", says = "do this as early as can be, before others" },
}

--- For acts whose ground may be an area of the map: `mapped = true` in their declaration.
local MAP = { "map", kind = "map", says = "the part of the stand it is done in, as an area of the property's map or a traverse round it" }

local Act = { kind = "act", article = "an" }
local OWN = { kind = true, id = true, name = true, title = true, start = true, finish = true }
--- What a script or a rule may ask of an act: its keys as given, `kind`, `id`, `stand`,
--- `start`, `finish` (dates, once scheduled), and its quantities once settled.
function Act.index(record, key)
    if OWN[key] then return record[key] end
    if key == "stand" then return record.stand and record.stand.object end
    if not run.settled then
        if record.declared and need("schema").key(record.declared, key) then
            if key ~= "hours" and key ~= "cost" then return objects.open(record.values[key]) end
        end
        host.raise(nil, nil, "act-early", ("the %s of an act are settled when the script has ended, "
            .. "so `%s` cannot be read yet"):format("quantities", tostring(key)),
            "read it in a function given to `suits`, a rule or a report")
    end
    local figure = record.figures[key]
    if figure then return figure.value end
    local value = record.values[key]
    if value ~= nil then return objects.open(value) end
    local answer = need("act_answers").of(record, key)
    if answer == nil and not need("schema").key(record.declared, key) then need("act_words").check(key, OWN) end
    return answer
end
M.class = Act

--- Declares a kind of act: its own keys before the shared ones.
function M.declare(declared)
    local keys = {}
    local own = {}
    for _, spec in ipairs(declared.keys) do
        keys[#keys + 1] = spec
        own[spec[1]] = true
    end
    for _, spec in ipairs(M.keys) do
        if not own[spec[1]] then keys[#keys + 1] = spec end
        if spec[1] == "part" and declared.mapped then keys[#keys + 1] = MAP end
    end
    declared.keys = keys
    declared.also = setmetatable(declared.also or {}, { __index = need "act_also" })
    declared.act = true
    declared.named = declared.named or "may"
    declared.make = declared.make or function(place, name, values, given)
        return M.new(declared, place, name, values, given).object
    end
    return declared
end

--- The least and the most time after what comes before.
local function check_lags(place, values)
    local spans = need "spans"
    local wait, soon = values.wait, values.within
    if soon and quantity.fits(soon, "d") and spans.is_range(soon) then
        host.fault(place, "within", "key-bounds", ("`within` is the most time that may pass, not a range: %s"):format(
            quantity.figure(soon)), "wait = 3 to 6 wk says the least and the most")
    elseif not wait or not soon then
        return
    elseif spans.is_range(wait) then
        host.fault(place, "within", "key-twice", ("`wait` (%s) and `within` each say the most time that may pass"):format(
            quantity.figure(wait)), "keep one of them")
    elseif quantity.fits(soon, "h") and spans.least(wait) > 0 then
        host.fault(place, "within", "key-order", ("`within` in hours asks for the same days, and `wait` for %s between")
            :format(tostring(wait)), "within = 4 wk, the most time that passes; or no `wait`")
    elseif quantity.fits(soon, "d") and spans.most(soon) < spans.least(wait) then
        host.fault(place, "within", "key-order", ("`within` (%s) is over before `wait` (%s) is"):format(
            tostring(soon), tostring(wait)))
    end
end

--- Does it come after an act in as many entries, each of which its own follow?
local function follows_entries(values, on)
    for _, other in ipairs(values.after or { on }) do
        if other.values.entries == values.entries then return true end
    end
    return false
end

--- Keys that must go with one another.
local function check_together(place, values, given, stand, on)
    if (values.entries or 1) > 1 and given.every == nil and not follows_entries(values, on) then
        host.fault(place, nil, "key-missing", ("%d entries need `every`: the time between them")
            :format(values.entries), "every = 5 yr; or after = an act in as many entries: then each follows its own")
    end
    if values.every and given.entries == nil then
        host.fault(place, "every", "key-alone", "`every` is the time between entries, and no `entries` are told",
            "entries = 4 beside it; what is done once in each of some years: in_year = { 1, 2, 3 }")
    end
    local seen = {}
    for _, year in ipairs(values.in_year or {}) do
        if seen[year] then
            host.fault(place, "in_year", "year-twice", ("`in_year` has the year %d twice"):format(year),
                "in each year it is done once; for more, another act")
            break
        end
        seen[year] = true
    end
    for _, key in ipairs({ "wait", "within" }) do
        if values[key] and given.after == nil and given.on == nil then
            host.fault(place, key, "key-alone", ("`%s` counts from the acts in `after`, and none is told"):format(key),
                "after = the act it follows; or not_before = Oct 1 2026, the first day it may start")
        end
    end
    check_lags(place, values)
    if values.not_before and values.by and values.by < values.not_before then
        host.fault(place, "by", "key-order", ("`by` (%s) lies before `not_before` (%s)"):format(
            tostring(values.by), tostring(values.not_before)))
    end
    if quantity.is(values.at_least) and quantity.is(values.below) and
        not quantity.less(values.at_least, values.below) then
        host.fault(place, "below", "key-order", ("`below` (%s) leaves nothing of `at_least` (%s)"):format(
            tostring(values.below), tostring(values.at_least)))
    end
    -- A prescription tests its ground itself, and says so as a finding.
    local area = values.area
    if stand and stand.area and not run.current and quantity.is(area) and quantity.less(stand.area, area) then
        host.fault(place, "area", "key-bounds", ("`area` is %s, and \"%s\" has %s"):format(tostring(area),
            stand.name, tostring(stand.area)))
    end
end

--- A new act record, appended to the plan.
function M.new(declared, place, name, values, given)
    local on = values.on and objects.record(values.on, "act")
    if values.on ~= nil and not on then
        host.fault(place, "on", "key-kind", ("`on` wants an act; this is %s"):format(kinds.describe(values.on)))
    end
    local stand = values.stand or (on and on.stand) or nil
    check_together(place, values, given, stand, on)
    if declared.needs_stand and not stand and given.stand == nil then
        host.fault(place, nil, "key-missing", ("%s needs `stand`: the stand it is done in"):format(declared.kind),
            "stand = \"Bench aspen\"")
    end
    local record = {
        kind = declared.kind, declared = declared, place = place, values = values, given = given,
        name = name, stand = stand, on = on, figures = {}, figure_names = {}, notes = {},
        applied = run.current, chain = run.current and run.current.prescription.name or nil,
    }
    record.id = run.act_id(stand, name or declared.kind)
    record.title = declared.title and declared.title(record) or (name or declared.kind)
    run.acts[#run.acts + 1] = record
    run.draws = run.draws or values.map ~= nil
    if run.current then run.current.acts[#run.current.acts + 1] = record end
    local instead = values.otherwise
    if instead and instead.fallback_of then
        host.fault(place, "otherwise", "otherwise-twice", ("%s already stands in for %s"):format(instead.id,
            instead.fallback_of.id), "give each of the two an act of its own")
    elseif instead then
        instead.fallback_of = record
    end
    objects.new(Act, record)
    return record
end

--- The fraction of the whole that this record is: one of several entries, or what is left
--- when a part is done.
function M.fraction(record)
    return (record.fraction or 1) / (record.fraction and 1 or (record.entries or 1))
end

--- What of an amount told for the whole act falls to this record.
function M.portion(record, amount)
    local fraction = M.fraction(record)
    return fraction == 1 and amount or amount * fraction
end

--- Tells a fault of a key of an act once, though an act in several entries is figured several
--- times.
-- @return nil, for the figure that is not made
function M.fault(record, key, id, words, mend)
    if not record.copy_of then host.fault(record.place, key, id, words, mend) end
    return nil
end

--- Sets a quantity of an act and names it for `why`.
-- @param words what it is called in the explanation, such as "felling hours"
-- @param how the formula's source, or nil
function M.set(record, key, value, words, how)
    if value == nil then return nil end
    local named = quantity.name(value, ("%s, %s"):format(words, record.id), how)
    if not record.figures[key] then record.figure_names[#record.figure_names + 1] = key end
    record.figures[key] = { value = named, words = words }
    return named
end

--- A quantity set before, or nil.
function M.get(record, key)
    local figure = record.figures[key]
    return figure and figure.value or nil
end

--- The cautions of an act, each once: of its kind, of how it is done, of the plan's own.
function M.hazards(record)
    local list, told = {}, {}
    for _, source in ipairs({ record.declared.hazards or {}, record.hazards or {}, record.values.hazards or {} }) do
        for _, words in ipairs(source) do
            if not told[words] then list[#list + 1] = words end
            told[words] = true
        end
    end
    return list
end

--- The same act once more: another entry, or another year.
function M.copy(record, n)
    local copy = { kind = record.kind, declared = record.declared, place = record.place,
        values = record.values, given = record.given, name = record.name, stand = record.stand,
        on = record.on, figures = {}, figure_names = {}, notes = {}, title = record.title,
        applied = record.applied, chain = record.chain, copy_of = record }
    copy.id = run.act_id(record.stand, ("%s-%s"):format(record.name or record.kind, n))
    objects.new(Act, copy)
    return copy
end

--- The crew whose rate pays for an act: the one that did it or is to do it; while nobody is,
--- the one asked for, else the first with the skill.
function M.paying_crew(record)
    local doing = record.was_by or record.crew
    if doing then return doing end
    local asked = record.values.crew
    if asked and #asked > 0 then return asked[1] end
    local skill = record.declared.skill
    if type(skill) == "function" then skill = skill(record) end
    for _, crew in ipairs(run.crews) do
        for _, word in ipairs(crew.values.skills) do
            if word == skill then return crew end
        end
    end
    return skill == nil and run.crews[1] or nil
end

--- Is it part of the plan's work: neither left out, nor only standing by for another?
function M.counts(record) return record.state ~= "not needed" and record.state ~= "unplaced" end

--- Is its cost told, by the plan or by a bill of what is done, and not figured from what it takes?
function M.is_billed(record) return record.values.cost ~= nil or record.was_cost ~= nil end

--- Labor, materials, machines and what is bought make the cost, unless it is told.
function M.cost_of_hours(record)
    if M.is_billed(record) then
        record.cost_parts = { stated = M.get(record, "cost") }
        return
    end
    local hours = M.get(record, "hours")
    local crew = (not record.declared.nobody or record.values.crew) and M.paying_crew(record)
    -- A hired machine comes with its operator.
    local labor = hours and crew and crew.rate and not record.operator_paid and hours * crew.rate or nil
    -- A logger is paid by the wood.
    if not hours and record.values.crew and crew.rate and record.kind ~= "sale" and need("order").days_of_nobody(record) then
        need("materials").unpriced(record, "the days of crew " .. crew.name)
    end
    local moving = record.moving and M.set(record, "moving_cost", record.moving, "bringing the machine")
    local parts = { labor = labor, materials = M.get(record, "materials_cost"), machine = M.get(record, "machine_cost"),
        moving = moving, contract = M.get(record, "contract_cost") }
    record.cost_parts = parts
    local terms = {}
    for _, key in ipairs({ "labor", "materials", "machine", "moving", "contract" }) do
        if parts[key] then terms[#terms + 1] = parts[key] end
    end
    if #terms == 0 then return end
    if labor and #terms > 1 then
        terms[1] = M.set(record, "labor_cost", labor, "labor")
        parts.labor = terms[1]
    end
    M.set(record, "cost", quantity.sum(terms), "cost")
    -- A cost of one part is told once.
    for _, key in ipairs({ "materials_cost", "machine_cost", "moving_cost", "contract_cost" }) do
        if record.figures[key] then record.figures[key].inner = #terms == 1 end
    end
end

return M
