--- What is known of an active ingredient at work: what it reaches, what a year brings
--- together, what is wrong with it for a method or a place, and the cautions beside it.
local M = {}
local acts = need "acts"
local forest = need "forest"
local phrases = need "phrases"
local quantity = need "quantity"
local rules = need "rules"
local run = need "run"
local spraying = need "spraying"

--- Cautions of every treatment.
M.hazards = {
    "The label is the law: it comes before anything written here. Gloves, eye protection and what else it asks; a record of date, place, target, product, registration number, rate, amount, wind and who applied it.",
    "Mix and load 150 ft from wells and surface water, no less than 50 ft in any case (state rules, from memory). Dye in the mix shows what is done.",
}
local FOLIAR = "Spray only in a wind of 3 to 10 mph that blows away from what must live, never in still air (label texts, second hand; stewardship guidance: 3 to 8 mph), and not when rain may come within 6 hours (label text)."
local ESTER = "Ester vapor moves in heat: not above 85 F (from memory), not near conifer foliage (Pacific Northwest weed handbook)."
local BASAL = "Bark must be dry, and free of ice and snow down to the root collar (Pacific Northwest weed handbook)."

--- The facts of a record's ingredient, or nil.
function M.facts(record) return spraying.facts(record.values.ingredient) end

--- "water", or the oil that carries an ester onto bark.
function M.carrier(values)
    if values.carrier then return values.carrier end
    local facts = values.ingredient and spraying.facts(values.ingredient)
    return facts and facts.oil and facts.oil[values.method] and "basal oil" or "water"
end

--- What rules ask of a treatment.
M.asked = {}

--- Does it reach such plants? Those it names; without names, those that are there.
function M.asked.reaches(record, word)
    local list = record.values.species
    if list and #list > 0 then
        for _, name in ipairs(list) do
            if forest.species_among(name, word) then return true end
        end
        return false
    end
    local cut = record.values.method == "stump" and spraying.cut_of(record)
    local stock = cut and cut.taken or (record.stand and record.stand.cruise)
    return stock ~= nil and stock:has(word)
end

function M.asked.soil_active(record)
    if record.values.through_soil ~= nil then return record.values.through_soil end
    local facts = M.facts(record)
    return facts ~= nil and facts.soil_active == true
end

--- "triclopyr" of its ester and its amine: a label's maximum is one of the acid, whatever the
--- product carries it in.
local function acid(record) return record.values.ingredient:match("^%S+") end

--- Would both be counted against one label's maximum: same ground, acid and year?
local function same_year(record, other)
    return other.kind == "treat" and other.stand == record.stand
        and acid(other) == acid(record) and acts.counts(other)
        and other.start ~= nil and record.start ~= nil and other.start.year == record.start.year
end

--- What was put on before the plan, in the year in which it starts: the most that is told.
local function used_before(record, other, most)
    local used = record.start and record.start.year == run.first_day.year and other.values.used
    return used and (not most or quantity.less(most, used)) and used or most
end

--- All that goes on an acre of the stand in the calendar year of this act, of the same acid, as
--- if every treatment met on the same acre; and how many treatments that is.
function M.asked.active_in_year(record)
    local terms, used = { acts.get(record, "active_per_acre") }, used_before(record, record)
    for _, other in ipairs(run.acts) do
        if other ~= record and same_year(record, other) then
            terms[#terms + 1] = acts.get(other, "active_per_acre")
            used = used_before(record, other, used)
        end
    end
    if #terms == 0 then return nil end
    if used then terms[#terms + 1] = used end
    return quantity.sum(terms), #terms
end

--- The label's maximum that was entered, as active ingredient; nil when none was.
local function told_max(record)
    local told = record.values.yearly_max
    if not told or quantity.fits(told, "lb/ac") then return told end
    local holds = record.values.product_strength or record.strength
    return holds and quantity.say(told * holds, "lb/ac")
end

--- The least of the maxima entered for treatments of that ground, acid and year.
function M.asked.label_max(record)
    local least = told_max(record)
    for _, other in ipairs(run.acts) do
        local told = other ~= record and same_year(record, other) and told_max(other)
        if told and (not least or quantity.less(told, least)) then least = told end
    end
    return least
end

local function find(record, level, rule, message)
    rules.find({ level = level, rule = rule, act = record, stand = record.stand, message = message,
        ask = "a licensed applicator; read the label", source = "what the plan knows of ingredients" })
end

--- Finds what is wrong with this ingredient for this work.
function M.judge(record)
    local values, facts = record.values, M.facts(record)
    local name, method = values.ingredient, values.method
    if not facts then
        find(record, "caution", "ingredient not known", ("%s is not known here (%s): nothing is said of soil, water and usual strength")
            :format(name, spraying.meant(name)))
        return
    end
    if values.aquatic and facts.aquatic == "none" then
        find(record, "stop", "ingredient over water", ("no formulation for aquatic sites is known of %s: %s"):format(name,
            facts.aquatic_words))
    end
    if method == "basal" and facts.usual and not facts.usual.basal then
        find(record, "caution", "ingredient on bark", name .. " in water does not go through bark: basal work takes an ester in oil")
    end
    local usual = facts.usual and facts.usual[method]
    if usual and values.mix and quantity.number(values.mix, "percent") > 2 * usual[2] then
        find(record, "caution", "mix stronger than usual", ("%s for %s work is more than twice the usual %g percent of %s (%s)"):format(
            quantity.short(values.mix), method, usual[2], name, usual.source))
    end
end

--- The cautions of this method and ingredient, beside those of every treatment.
function M.cautions(record)
    local list, facts = {}, M.facts(record)
    local name, method = record.values.ingredient, record.values.method
    if method == "foliar" then list[1] = FOLIAR end
    if method == "basal" then list[1] = BASAL end
    if facts and facts.ester then list[#list + 1] = ESTER end
    if M.asked.soil_active(record) then
        list[#list + 1] = ("%s works through the soil: roots of neighbors take it up, two crown widths and more away (from memory).")
            :format(phrases.capital(name))
    end
    if facts and facts.reentry then
        list[#list + 1] = ("Nobody enters without protection for %s after %s; the longest on any label in the mix holds (%s).")
            :format(facts.reentry, name, facts.reentry_source)
    end
    return list
end

return M
