--- trail: a path that joins openings, leads out of them, or lets people and machines in.
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local pace = need "pace"
local phrases = need "phrases"
local quantity = need "quantity"
local rates = need "rates"
local saw_fuel = need "saw_fuel"
local run = need "run"

--- Widths when none is told: common practice, no source.
local WIDTHS = { walking = 4, access = 9, deer = 5, machine = 10 }
local WIDTH_SOURCE = "usual width: common practice, no source"
local FOR = { walking = "walking", deer = "deer", machine = "machines" }
local TITLES = { walking = "Foot trail", access = "Access trail", deer = "Deer trails", machine = "Machine trail" }

--- The brushing rates are for trails up to this wide; "wide trail" up to the next; above it
--- the hours grow with the width.
local FOOT_WIDTH, WIDE_WIDTH = 6, 10

local NUMBER = "h/h"
local ESTIMATE = "until it is mapped: paths between the openings sqrt(openings x ground), and half of "
    .. "sqrt(ground) for each way out: common practice, no source"

--- How many openings it joins, over all their entries; nil when none.
local function openings_joined(record)
    local terms = {}
    for _, joined in ipairs(record.values.joins or {}) do
        for _, act in ipairs(run.acts) do
            local count = (act == joined or act.copy_of == joined) and acts.get(act, "count")
            if count then terms[#terms + 1] = count end
        end
    end
    if #terms == 0 then return nil end
    return quantity.sum(terms)
end

--- Length without a map, from the number of openings and the ground they lie in.
local function estimate(record)
    if not record.stand then
        host.fault(record.place, nil, "trail-length", "how long the trail is cannot be guessed without a stand",
            "length = 600 ft, or the stand it runs through")
        return nil
    end
    local whole = ground.workable(record.stand)
    if record.values.part then whole = whole * record.values.part.share end
    local side = whole ^ 0.5
    local count = openings_joined(record)
    local length = count and (count * whole) ^ 0.5 or nil
    local ways = record.values.ways_out or (count and 0 or 1)
    if ways > 0 then
        local out = side * quantity.leaf(ways / 2, NUMBER, ("half for each of %d ways out"):format(ways))
        length = length and length + out or out
    end
    local doubt = quantity.range(60, 100, 170, "percent", "bends of " .. record.id,
        "how far an unmapped trail may be off: common practice, no source")
    table.insert(record.notes, "Its length is an estimate until it is mapped.")
    return quantity.say(length * doubt, "ft")
end

local function trail_width(record)
    local width = record.values.width
    if width then return ground.feet(width, record.stand, record.place, "width") end
    return quantity.leaf(WIDTHS[record.values.purpose], "ft", WIDTH_SOURCE)
end

local function set_hours(record, length, width)
    local brush = record.stand and record.stand.values.brush or "medium"
    local stems = record.values.stems
    local entry = rates.find(stems and "trail brushing" or "trail brushing, " .. brush, "h/ft", record.place, stems and "by_density")
    if not entry then return end
    local hours = length * (stems and need("vocabulary/rate").at_density(entry, quantity.number(stems, "stems/ac")) or entry.value)
    local feet = quantity.number(width, "ft")
    if feet > FOOT_WIDTH then
        local wide = rates.find("wide trail", "percent", record.place)
        if not wide then return end
        hours = hours * wide.value
        if feet > WIDE_WIDTH then
            hours = hours * width / quantity.leaf(WIDE_WIDTH, "ft", "width that the rate is for")
        end
    end
    hours = acts.set(record, "hours", pace.slowed(record, quantity.say(hours, "h")), "trail hours")
    saw_fuel.set_of_clearing(record, hours, "brush saw")
end

--- Its length, how that was got, and its ground where the map shows it; nil when a fault was told.
local function measure(record)
    local values = record.values
    if record.line or record.afloat then
        local length, area = need("drawn").trail(record)
        return length, nil, area
    end
    if values.map then return nil end -- the fault is told
    if values.length then return ground.feet(values.length, record.stand, record.place, "length") end
    return estimate(record), ESTIMATE
end

return acts.declare({
    kind = "trail", named = "may", skill = "saw",
    says = "a path brushed out: joins openings, leads out of them, lets people or machines in",
    keys = {
        { "joins", kind = "list", of = "act", says = "the openings it joins" },
        { "ways_out", kind = "count", most = 12, says = "how many routes lead out of each opening; on a stand with a map, 2 when none are told" },
        { "purpose", kind = "choice", of = { "walking", "access", "deer", "machine" }, default = "walking",
            says = "who goes on it; gives the width when none is told" },
        { "toward", kind = "list", of = "edge", says = "where animals may leave to: features, kinds of feature or stands on the map. Without it, anywhere over the rim of the stand" },
        { "shun", kind = "list", of = "edge", says = "where they must not, and what it keeps away from, likewise: \"road\", \"house\", an access trail" },
        { "setback", kind = "length", says = "how far at the least from what is shunned; without it, 66 ft (common practice, no source)" },
        { "reach", kind = "length", least = quantity.leaf(10, "ft"), says = "no cover of the stand lies farther than this from a trail or an opening" },
        { "sight", kind = "length", least = quantity.leaf(10, "ft"), says = "nobody sees farther than this along it" },
        { "seed", kind = "count", most = 999999, says = "another number, another layout; the same one repeats it. Without it, 1" },
        { "width", kind = "length", says = "how wide it is brushed out" },
        { "length", kind = "length", says = "how long; without it, it is laid out on the map where it joins openings, else a rough estimate until it is mapped" },
        { "off_cover", kind = "length", least = quantity.leaf(0, "ft"), most = quantity.leaf(2000, "ft"),
            says = "a way in on the map: how far it should stay from bedding cover and openings; 150 ft when it is not said (common practice, no source)" },
        { "upwind", kind = "length", least = quantity.leaf(0, "ft"), most = quantity.leaf(5280, "ft"),
            says = "a way in on the map: how far from bedding cover it should not lie upwind of it; 600 ft when it is not said (common practice, no source)" },
        { "stems", kind = "quantity", unit = "stems/ac", says = "stems of brush on an acre of its line, in place of the stand's `brush`: 5000 stems/ac" },
        pace.snow,
        { "map", kind = "map", says = "its line in the property's map, such as a track: its length is all of that line, and it takes ground of every stand that it runs through" },
    },
    figures = { { "length", "its length" }, { "width", "its width" }, { "area", "its ground" }, { "hours", "hours of brushing" },
        { "fuel", "fuel mix for the brush saw" } },
    hazards = { "A brush saw throws wood and stones: nobody else within 50 ft, face and legs covered (common practice, no source)." },
    answers = need("act_answers").rows,
    example = [[local rest = opening "rest" { stand = "Bench aspen", use = "rest",
  count = 3, width = 40 ft }
trail { stand = "Bench aspen", joins = rest, ways_out = 2, width = 6 ft,
  purpose = "deer" }]],
    title = function(record) return TITLES[record.values.purpose] or "Trail" end,
    width_of = trail_width,
    make = function(place, name, values, given)
        for _, act in ipairs(values.joins or {}) do
            if act.kind ~= "opening" then
                host.fault(place, "joins", "trail-joins", ("a trail joins openings; %s is a %s"):format(act.id, act.kind),
                    "joins = the result of opening { ... }")
            end
            values.stand = values.stand or act.stand
        end
        for _, key in ipairs({ "off_cover", "upwind" }) do
            if values[key] and values.purpose ~= "access" then
                host.fault(place, key, "key-alone", ("`%s` is about a way in, and this is a trail for %s"):format(key,
                    FOR[values.purpose]), "purpose = \"access\"")
            end
        end
        return acts.new(need "vocabulary/trail", place, name, values, given).object
    end,
    takeoff = function(record)
        local values = record.values
        local length, how, area = measure(record)
        local width = trail_width(record)
        if not length or not width then return end
        length = acts.set(record, "length", acts.portion(record, length), "trail length", how)
        width = acts.set(record, "width", width, "trail width")
        acts.set(record, "area", area and acts.portion(record, area) or quantity.say(length * width, "ac"), "ground of the trail")
        local part = ground.part_words(record)
        if part then table.insert(record.notes, part) end
        if values.ways_out then
            table.insert(record.notes, phrases.count(values.ways_out, "way out", "ways out") .. ".")
        end
        local words = need("vocabulary/opening").edge_words
        if values.toward then table.insert(record.notes, ("Animals leave toward %s."):format(words(values.toward))) end
        if values.shun then table.insert(record.notes, ("Away from %s."):format(words(values.shun))) end
        if not values.hours then set_hours(record, length, width) end
    end,
})
