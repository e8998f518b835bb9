--- What rules may ask of what lies around an act: features beside its stand, buffers along
--- them, contracts on the land, and whether the act fells, digs or sprays into the soil.
--- act_answers.lua has the answers about the trees it takes and leaves, and calls these.
local M = {}
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

--- For `spinney help act answers`.
M.rows = {
    { "a:beside(feature)", "does its stand touch that feature, or its own ground where the map shows it? a:beside(feature, 100 ft): or lie so near it" },
    { "a:near_kind \"nest\"", "does its stand touch a feature of that kind? a:near_kind(\"roost\", \"bat\", 150 ft): one of those animals, or so near it" },
    { "a:buffered \"stream\"", "is there a buffer along it, named or by its kind, in the same stand? Along a property line or a power line only one of a tree length counts, or one with directional felling" },
    { "a:kept_off(feature)", "is there a buffer of a tree length along it in which nothing is cut?" },
    { "a:buffer_width(feature)", "the widest buffer along it in the same stand; 0 ft when there is none" },
    { "a:directed()", "is a felling direction planned?" },
    { "a:fells()", "do trees come down? a:fells(3 in): of that diameter and more" },
    { "a:is_clearcut()", "does it take at least half of the basal area, and trees of 5 in and more?" },
    { "a:clump_share()", "how much of the stand is kept in clumps" },
    { "a:is_first_mowing()", "is it the mowing of a seeding's first summer?" },
    { "a:under_contract()", "is its ground under a conservation contract, by the stand's or the property's word?" },
    { "a:digs()", "are holes made in the ground: plants, posts, gates?" },
    { "a:reaches \"aspen\"", "does the herbicide of a treatment meet such plants, by its species, or by what stands there when it names none?" },
    { "a:soil_active()", "does its active ingredient work through the soil?" },
    { "a:active_in_year()", "active ingredient on an acre from all treatments of the stand in that year; nil when there is none" },
    { "a:label_max()", "the least yearly maximum of a label that was entered for them; nil when none was" },
    { "a.property", "the property" },
    { "a.carried_over", "is it too large for one season?" },
}

local answers = {}
M.answers = answers
M.plain = {
    property = function() return run.property and run.property.object end,
    carried_over = function(record) return record.carried_over end,
}

-- Features ------------------------------------------------------------------------------------

--- Does a stand touch a feature, or lie within a distance of it? By their shapes where both are
--- on the map, else as it is told.
function M.touches(feature, stand, within)
    if feature.shape and stand.shape then
        return need("map").touch(feature, stand, within and quantity.number(within, "ft"))
    end
    for _, one in ipairs(feature.values.beside or {}) do
        if one == stand then
            local distance = feature.values.distance
            return distance == nil or quantity.number(distance, "ft") == 0
                or (within ~= nil and not quantity.less(within, distance))
        end
    end
    return false
end

--- Does an act's ground touch a feature? Where the map shows it, its own ground counts, not all
--- of the stand: an opening in the middle lies beside no line.
local function meets(feature, record, within)
    if record.shape and feature.shape then
        return need("map").touch(feature, record, within and quantity.number(within, "ft"))
    end
    return M.touches(feature, record.stand, within)
end

--- Distances of features are told in tree lengths too: those of the stand.
local function in_feet(length, stand)
    if not length or quantity.fits(length, "ft") then return length end
    return need("ground").feet(length, stand)
end

function answers.beside(record, feature, within)
    feature = objects.record(feature, "feature")
    return feature ~= nil and record.stand ~= nil
        and meets(feature, record, in_feet(within, record.stand))
end

function answers.near_kind(record, kind, animal, within)
    if not record.stand then return false end
    within = in_feet(within, record.stand)
    for _, feature in ipairs(run.features) do
        local species = (feature.values.species or ""):lower()
        if feature.kind_of == kind and meets(feature, record, within)
            and (not animal or species:find(animal, 1, true)) then
            return true
        end
    end
    return false
end

--- Is a buffer along a feature, told by its name or its kind?
local function runs_along(buffer, word)
    if buffer.buffered_kind == word then return true end
    for _, feature in ipairs(buffer.buffered or {}) do
        if feature.name == word then return true end
    end
    return false
end

local function buffers_of(record)
    local list = {}
    for _, act in ipairs(run.acts) do
        if act.kind == "buffer" and act.stand == record.stand and act.stand then list[#list + 1] = act end
    end
    return list
end

local function width_of(buffer)
    return buffer.figures.width and buffer.figures.width.value
end

--- Wide enough? A line asks for a tree length, or for trees felled away from it.
local function keeps_off(buffer)
    if buffer.buffered_kind ~= "property line" and buffer.buffered_kind ~= "utility line" then return true end
    if buffer.values.allow == "directional felling" then return true end
    local width = width_of(buffer)
    return width ~= nil and not quantity.less(width, need("vocabulary/stand").tree_length(buffer.stand))
end

function answers.buffered(record, word)
    for _, buffer in ipairs(buffers_of(record)) do
        if runs_along(buffer, word) and keeps_off(buffer) then return true end
    end
    return false
end

function answers.kept_off(record, feature)
    feature = objects.record(feature, "feature")
    for _, buffer in ipairs(feature and buffers_of(record) or {}) do
        local width = width_of(buffer)
        if runs_along(buffer, feature.name) and buffer.values.allow == "nothing" and width
            and not quantity.less(width, need("vocabulary/stand").tree_length(buffer.stand)) then
            return true
        end
    end
    return false
end

function answers.buffer_width(record, feature)
    feature = objects.record(feature, "feature")
    local widest = quantity.leaf(0, "ft", "no buffer is planned")
    for _, buffer in ipairs(feature and buffers_of(record) or {}) do
        local width = width_of(buffer)
        if width and runs_along(buffer, feature.name) and quantity.less(widest, width) then widest = width end
    end
    return widest
end

function answers.directed(record)
    if record.values.direction then return true end
    for _, buffer in ipairs(buffers_of(record)) do
        if buffer.values.allow == "directional felling" then return true end
    end
    return false
end

-- Trees -----------------------------------------------------------------------------------------

--- A mulcher grinds what is thinner than this, in inches: common practice, no source.
local MULCHED_BELOW = 8

--- Which trees come down in acts that do not choose among them: all of an opening that was
--- not felled before, the thin ones where a mulcher goes. Nil for other kinds.
local function comes_down(record, diameter)
    local from = diameter and quantity.number(diameter, "in")
    if record.kind == "mulch" then return { from = from, below = MULCHED_BELOW } end
    if record.kind ~= "opening" then return nil end
    for _, act in ipairs(record.values.after or {}) do
        if (act.kind == "cut" or act.kind == "sale") and act.stand == record.stand then return nil end
    end
    return { from = from }
end

--- Are trees of a species taken by such an act?
function M.clears(record, species, diameter)
    local pick = comes_down(record, diameter)
    local cruise = record.stand and record.stand.cruise
    if not pick or not cruise then return false end
    pick.species = species and { species }
    return cruise:has(pick)
end

local FELLED = { flush = true, ["high stump"] = true, hinge = true }

function answers.fells(record, diameter)
    if record.kind == "cut" and not FELLED[record.values.how] then return false end
    if record.kind == "cut" or record.kind == "sale" then
        if not record.taken then return true end
        return record.taken:has({ from = diameter and quantity.number(diameter, "in") })
    end
    return M.clears(record, nil, diameter)
end

--- The least diameter that counts as a tree of the harvest, in inches (as for cords).
local HARVESTED = 5

function answers.is_clearcut(record)
    if not record.taken or not answers.fells(record) then return false end
    if not record.taken:has({ from = HARVESTED }) then return false end
    return not quantity.less(record.taken:basal_area(), record.left:basal_area())
end

function answers.clump_share(record)
    local acres = 0
    for _, act in ipairs(run.acts) do
        if act.kind == "keep" and act.stand == record.stand and act.stand and act.figures.area then
            acres = acres + quantity.number(act.figures.area.value, "ac")
        end
    end
    local whole = record.stand and quantity.number(record.stand.area, "ac") or 0
    return quantity.leaf(whole > 0 and 100 * acres / whole or 0, "percent", "clumps kept in the stand")
end

-- Ground and contracts -------------------------------------------------------------------------

function answers.is_first_mowing(record)
    if record.kind ~= "mow" or (record.year or 1) > 1 then return false end
    if record.on and record.on.kind == "seed" then return true end
    for _, act in ipairs(record.values.after or {}) do
        if act.kind == "seed" then return true end
    end
    return false
end

local CONTRACT_WORDS = { "crp", "conservation reserve", "contract", "easement" }

function answers.under_contract(record)
    if record.stand and record.stand.values.contract then return true end
    local program = (run.property.values.tax_program or ""):lower()
    for _, word in ipairs(CONTRACT_WORDS) do
        if program:find(word, 1, true) then return true end
    end
    return false
end

local DIGGING_WORDS = { "post", "gate", "fence", "dig", "auger", "culvert" }

--- Of a job its words tell; `plant` and `protect` answer in their own way.
function answers.digs(record)
    local words = { record.name }
    words[#words + 1] = record.values.says
    local text = table.concat(words, " "):lower()
    for _, word in ipairs(DIGGING_WORDS) do
        if text:find("%f[%a]" .. word) then return true end
    end
    return false
end

-- Herbicide: `treat` answers these in its own way ----------------------------------------------

function answers.reaches() return false end
function answers.soil_active() return false end
function answers.active_in_year() return nil end
function answers.label_max() return nil end

return M
