--- What rules and tests may ask of any act beyond its keys and quantities. Every question
--- has an answer for every act, so that a rule need not know what kind it looks at.
local M = {}
local forest = need "forest"
local host = need "host"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"
local around = need "act_surroundings"

local MATURE = 5 -- inches: smaller trees are not what stands over sprouts

--- For `spinney help`.
M.rows = {
    { "a:takes \"oak\"", "does it fell, girdle or break such trees? a:takes(\"oak\", 8 in): of that diameter and more" },
    { "a:leaves()", "trees left for each acre, of 5 in and more; a:leaves \"oak\": of those" },
    { "a:basal_area_of \"oak\"", "basal area that it takes of such trees, for each acre" },
    { "a:taken_classes()", "what it takes by species and diameter class: a list of { species, diameter, trees, basal_area }, the last two for each acre; a:taken_classes(1 in): classes of 1 in, in place of 2" },
    { "a:left_classes()", "what stands after it, likewise" },
    { "a:stands_beside \"oak\"", "are such trees left standing on the same ground?" },
    { "a:stocking()", "how full the ground stands after it, in percent of the guide that fits; a:stocking \"upland oak\": of that one" },
    { "a:names \"oak\"", "do its keys name such trees?" },
    { "a:is_sprout_cut()", "does what comes after it live by aspen sprouts?" },
    { "a:in_sprout_cut()", "is it done in a stand where such a cut is planned?" },
    { "a:leads_from(opening)", "is it a trail that joins that opening?" },
    { "a:ways_found()", "of openings on the map that trails lead to: the fewest ways out that one of them has; nil where the map does not show it" },
    { "a:sale_words()", "words for why a logger should be asked first, with the numbers that he asks, or nil" },
    { "a:young_words()", "words for a stand of which it takes much, and that is too young to sell, or nil" },
    { "a.entry, a.entries, a.year", "which entry of how many, or which year" },
    { "a.crew_people", "how many people the crew has that does it" },
    { "a.by_hand", "is wood cut by hand?" },
}

for _, row in ipairs(around.rows) do M.rows[#M.rows + 1] = row end

local answers = {}

local function pick(species, diameter)
    return { species = species and { species }, from = diameter and quantity.number(diameter, "in") }
end

function answers.takes(record, species, diameter)
    if not record.taken then return around.clears(record, species, diameter) end
    return record.taken:has(pick(species, diameter))
end

function answers.leaves(record, species, diameter)
    local stock = record.left or (record.stand and record.stand.cruise)
    if not stock then return quantity.leaf(0, "trees/ac", "nothing is said of the trees") end
    return stock:trees(pick(species, diameter or quantity.leaf(MATURE, "in")))
end

--- The width of a class as asked for; a script's slip is told.
local function class_width(key, width)
    if width == nil or need("kinds").diameter.take(width, {}) and quantity.number(width, "in") >= 0.1 then return width end
    return host.raise(nil, nil, "key-kind", ("%s wants the width of a class, such as 1 in; this is %s"):format(key,
        need("kinds").describe(width)), ("act:%s(1 in)"):format(key))
end

function answers.taken_classes(record, width)
    return need("marking_words").classes(record, record.taken, class_width("taken_classes", width))
end

function answers.left_classes(record, width)
    local stock = record.left or (record.stand and record.stand.cruise)
    return need("marking_words").classes(record, stock, class_width("left_classes", width))
end

function answers.basal_area_of(record, species)
    if not record.taken then return quantity.leaf(0, "ft2/ac", "nothing is said of the trees") end
    return record.taken:basal_area(species)
end

function answers.stands_beside(record, species)
    local stock = record.left or (record.stand and record.stand.cruise)
    return stock ~= nil and stock:has(species)
end

function answers.stocking(record, guide)
    local stock = record.left or (record.stand and record.stand.cruise)
    if not stock then return quantity.leaf(0, "percent", "nothing is said of the trees") end
    if not stock:has() then return quantity.leaf(0, "percent", "no trees are left") end
    return need("stocking").percent(stock, { guide = guide })
end

function answers.names(record, species)
    for _, word in ipairs(record.values.species or {}) do
        if forest.species_among(word, species) then return true end
    end
    return false
end

local aspen_words = {} -- asked once: the species table is complete when the script has ended

--- Does a word mean nothing but aspen?
local function is_aspen(word)
    if aspen_words[word] ~= nil then return aspen_words[word] end
    local only = false
    for _, name in ipairs(forest.species_names()) do
        if forest.species_among(word, name) then
            only = forest.species_among("aspen", name)
            if not only then break end
        end
    end
    aspen_words[word] = only
    return only
end

local function sprouts(record)
    local values = record.values
    if record.kind ~= "cut" and record.kind ~= "sale" then return false end
    if record.kind == "cut" and values.how ~= "flush" and values.how ~= "high stump" then return false end
    if values.share and quantity.number(values.share, "percent") < 50 then return false end
    -- A thinning leaves an overstory, and sprouts do not live under one.
    if (values.to or values.crop) and record.taken and
        quantity.less(record.taken:basal_area(), record.left:basal_area()) then
        return false
    end
    for _, word in ipairs(values.species or {}) do
        if is_aspen(word) then return true end
    end
    local taken = record.taken
    return taken ~= nil and taken:has() and quantity.number(taken:share("aspen"), "percent") >= 50
end

--- A cut down to the stump that names aspen, or takes mostly aspen, and at least half of it.
function answers.is_sprout_cut(record)
    if record.sprouts == nil then record.sprouts = sprouts(record) end
    return record.sprouts
end

function answers.in_sprout_cut(record)
    for _, act in ipairs(run.acts) do
        if act.stand == record.stand and act.stand and act.state ~= "not needed" and answers.is_sprout_cut(act) then
            return true
        end
    end
    return false
end

function answers.leads_from(record, opening)
    opening = objects.record(opening, "act")
    if not opening or record.kind ~= "trail" then return false end
    for _, joined in ipairs(record.values.joins or {}) do
        if joined == opening or joined == opening.copy_of then return true end
    end
    return record.on ~= nil and (record.on == opening or record.on == opening.copy_of)
end

function answers.ways_found(record)
    local least
    for _, opening in ipairs(record.stand and record.stand.ways and record.stand.ways.openings or {}) do
        if opening.act == record or opening.act == record.copy_of then least = math.min(least or opening.ways, opening.ways) end
    end
    return least
end

function answers.sale_words(record)
    local cords = record.figures.cords
    if not cords or not record.stand then return nil end
    return need("log_first").words(record, cords.value)
end

function answers.young_words(record)
    return need("log_first").young_words(record)
end

local plain = {
    crew_people = function(record) return record.crew and record.crew.values.people end,
    by_hand = function(record) return record.kind == "cut" end,
    entry = function(record) return record.entry end,
    entries = function(record) return record.entries end,
    year = function(record) return record.year end,
}

local asking = {} -- by answer: what a script calls, the same for every act

local function asked_with_colon(key, answer)
    return function(object, ...)
        local asked = objects.record(object, "act")
        if not asked then
            host.raise(nil, nil, "act-answer", ("%s is asked of an act with a colon"):format(key),
                ("act:%s(...)"):format(key))
        end
        return answer(asked, ...)
    end
end

--- The answer of an act to a key: a value, a function to be called with a colon, or nil. A
--- kind of act may answer in its own way, by functions in `declared.asked`.
function M.of(record, key)
    local part = plain[key] or around.plain[key]
    if part then return part(record) end
    local own = record.declared.asked
    local answer = own and own[key] or answers[key] or around.answers[key]
    if not answer then return nil end
    asking[answer] = asking[answer] or asked_with_colon(key, answer)
    return asking[answer]
end

--- Every word that acts of any kind answer to, beside their keys and quantities, as a set.
function M.words()
    local words = {}
    for _, list in ipairs({ plain, around.plain, answers, around.answers }) do
        for word in pairs(list) do words[word] = true end
    end
    return words
end

return M
