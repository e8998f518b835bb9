--- opening: ground kept open in cover: how many, how large, how long to clear.
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local pace = need "pace"
local phrases = need "phrases"
local quantity = need "quantity"
local rates = need "rates"
local saw_fuel = need "saw_fuel"

local M = {}

--- A bare number: both units fall away.
local NUMBER = "h/h"

local TITLES = {
    rest = "Rest openings", feeding = "Feeding openings", ["singing ground"] = "Singing ground",
    brood = "Brood openings", ["food plot"] = "Food plot", shrub = "Shrub openings",
}

--- The ground of one opening, or nil when a fault was told.
local function each(record)
    local values = record.values
    if record.shape or record.afloat then
        if values.width and not values.map then
            acts.set(record, "width", ground.feet(values.width, record.stand, record.place, "width"), "width of each")
        end
        return need("drawn").each(record)
    end
    if values.map then return nil end -- the fault is told
    if values.area then return quantity.say(values.area, "ac") end
    if not values.width then
        host.fault(record.place, nil, "key-missing", "opening needs `width`, or the `area` of each",
            "width = 40 ft")
        return nil
    end
    local width = ground.feet(values.width, record.stand, record.place, "width")
    local length = values.length and ground.feet(values.length, record.stand, record.place, "length")
    if not width or (values.length and not length) then return nil end
    width = acts.set(record, "width", width, "width of each")
    length = length and acts.set(record, "length", length, "length of each") or width
    local oval = quantity.leaf(math.pi / 4, NUMBER, "a natural outline is an oval: pi / 4 of width x length")
    return quantity.say(oval * width * length, "ac")
end

--- How many there are, as a measure.
local function count_of(record, one)
    local values = record.values
    local count, words = values.count or 1, nil
    if record.shape or record.afloat then
        count, words = need("drawn").count(record)
    elseif values.share then
        local total = values.share * record.grounds
        count = math.ceil(quantity.number(total, "ac") / quantity.number(one, "ac") - 1e-9)
    elseif values.per_acre then
        count = math.max(1, math.floor(values.per_acre * quantity.number(record.grounds, "ac") + 0.5))
    elseif values.spacing then
        local spacing = ground.feet(values.spacing, record.stand, record.place, "spacing")
        if not spacing then return nil end
        count = math.max(1, math.floor(quantity.number(record.grounds, "ft2") / quantity.number(spacing, "ft") ^ 2))
        words = "in rows, until it is mapped: one to each square of that spacing, common practice, no source"
    end
    return quantity.leaf(M.in_entry(record, count), NUMBER, record.fraction and "the part that this is" or words)
end

--- How many of them fall to one entry of several: whole ones, the odd ones first.
function M.in_entry(record, count)
    if record.fraction then return count * record.fraction end
    local entries = record.entries or 1
    if count < entries and not record.copy_of then
        host.fault(record.place, "entries", "opening-entries", ("%s cannot be made in %d entries"):format(
            phrases.count(count, "opening"), entries), "fewer entries, or more openings")
    end
    return count // entries + ((record.entry or 1) <= count % entries and 1 or 0)
end

--- "the alder, Oak ridge"
local function edge_words(values)
    local list = {}
    for i, value in ipairs(values) do list[i] = type(value) == "string" and value or value.name or value.id end
    return table.concat(list, ", ")
end

--- Is the ground felled over before? Then the trees are gone, and only brush is left.
local function felled_before(record)
    for _, act in ipairs(record.values.after or {}) do
        if (act.kind == "cut" or act.kind == "sale") and act.stand == record.stand then return act end
    end
    return nil
end

local function set_hours(record, area)
    local felled = felled_before(record)
    local name = "clearing brush, " .. record.stand.values.brush
    if felled then
        table.insert(record.notes, ("The trees are felled before (%s); here brush and what is left between "
            .. "the stumps is cut."):format(felled.id))
    elseif record.stand.cruise then
        name = "clearing trees and brush"
        table.insert(record.notes, "The trees on it are felled and cleaned up as part of this.")
    end
    local entry = rates.find(name, "h/ac", record.place)
    if entry then
        local hours = acts.set(record, "hours", pace.slowed(record, quantity.say(area * entry.value, "h")), "clearing hours")
        saw_fuel.set_of_clearing(record, hours, record.stand.cruise and not felled and "chain saw" or "brush saw")
    end
end

return acts.declare({
    kind = "opening", named = "may", needs_stand = true, skill = "saw",
    says = "ground kept open in cover, for resting, feeding, singing, broods, a food plot or shrubs",
    keys = {
        { "use", kind = "choice", needed = true, of = { "rest", "feeding", "singing ground", "brood", "food plot", "shrub" },
            says = "what it is for", example = "\"rest\"" },
        { "count", kind = "count", least = 1, says = "how many" },
        { "per_acre", kind = "number", says = "how many for each acre of the stand's workable ground, in place of count" },
        { "share", kind = "share", says = "how much of that ground they take, in place of count" },
        { "width", kind = "length", says = "width of each: 40 ft, or 1.5 tree_length", example = "40 ft" },
        { "length", kind = "length", says = "length of each; without it, the width" },
        { "area", kind = "area", says = "area of each, in place of width and length" },
        { "map", kind = "map", says = "the openings in the property's map, by a name or a list: as many as there are areas, as large as they are drawn" },
        pace.snow,
        { "spacing", kind = "length", least = quantity.leaf(10, "ft"), says = "from centre to centre at the least, as many as there is room for, in place of count" },
        { "gap", kind = "length", says = "least cover between two of them, where they are laid out; without it, half a width" },
        { "toward", kind = "list", of = "edge", says = "where animals may leave to; without a trail, what they lie near. On a stand with a map features, kinds of feature or stands; else words: \"south slope\"" },
        { "shun", kind = "list", of = "edge", says = "what they keep away from, likewise: \"the road\"" },
        { "setback", kind = "length", says = "how far at the least from what is shunned, where they are laid out; without it, 66 ft (common practice, no source)" },
        { "seed", kind = "count", most = 999999, says = "another number, another layout; the same one repeats it. Without it, 1" },
        { "candidates", kind = "count", least = 1, most = 20, says = "how many layouts are tried, of which the best is kept; without it, 3" },
    },
    figures = { { "count", "how many" }, { "width", "width of each" }, { "length", "length of each" },
        { "area_each", "area of each" }, { "area", "area of all" },
        { "treatable_area", "what of it can be mowed, seeded or sprayed" }, { "hours", "hours of clearing" },
        { "fuel", "fuel mix for the saws" }, { "bar_oil", "oil for their chains, where trees are felled as part of it" } },
    hazards = { "A brush saw throws wood and stones: nobody else within 50 ft, face and legs covered (common practice, no source)." },
    answers = need("act_answers").rows,
    example = [[opening "rest" { stand = "Bench aspen", use = "rest", count = 3,
  width = 40 ft, length = 60 ft }]],
    title = function(record) return TITLES[record.values.use] or "Openings" end,
    edge_words = edge_words,
    takeoff = function(record)
        local values = record.values
        local ways = (values.count and 1 or 0) + (values.per_acre and 1 or 0) + (values.share and 1 or 0) + (values.spacing and 1 or 0)
        if ways > 1 then
            host.fault(record.place, nil, "opening-count", "`count`, `per_acre`, `share` and `spacing` each say how many openings there are",
                "keep one of them")
            return
        end
        local one = each(record)
        if not one then return end
        record.grounds = ground.workable(record.stand)
        if values.part then record.grounds = record.grounds * values.part.share end
        one = acts.set(record, "area_each", one, "area of each opening")
        local count = count_of(record, one)
        if not count then return end
        count = acts.set(record, "count", count, "number of openings")
        local area = acts.set(record, "area", quantity.say(one * count, "ac"), "area of the openings")
        local usable = rates.find("treatable part of an opening", "percent", record.place)
        if usable then
            acts.set(record, "treatable_area", quantity.say(area * usable.value, "ac"), "what of it can be treated")
        end
        local part = ground.part_words(record)
        if part then table.insert(record.notes, part) end
        if values.toward then table.insert(record.notes, ("Near %s."):format(edge_words(values.toward))) end
        if values.shun then table.insert(record.notes, ("Away from %s."):format(edge_words(values.shun))) end
        if quantity.number(area, "ac") > quantity.number(record.grounds, "ac") + 1e-9 then
            host.fault(record.place, nil, "opening-ground", ("the openings take %s, and \"%s\" has %s to work on")
                :format(quantity.short(area), record.stand.name, quantity.short(record.grounds)),
                "fewer or smaller openings")
            return
        end
        if not values.hours then set_hours(record, area) end
    end,
})
