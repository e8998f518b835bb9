--- cut: trees felled, girdled or hinge-cut, or brush cut down: what is taken, what is left,
--- how many hours, how much wood.
local acts = need "acts"
local felling = need "felling"
local ground = need "ground"
local host = need "host"
local kinds = need "kinds"
local pace = need "pace"
local phrases = need "phrases"
local quantity = need "quantity"
local rates = need "rates"
local saw_fuel = need "saw_fuel"
local run = need "run"

--- A bare ratio: hours of cleanup for each hour of felling.
kinds.ratio = {
    says = "a bare number or a range of them, such as 2 to 3",
    take = function(value)
        if type(value) == "number" and value >= 0 then return value end
        return quantity.is(value) and quantity.fits(value, "percent") and value or nil
    end,
}

--- What each way of cutting is called, its rate, its word for what is done to a tree, what
--- becomes of the slash when nothing is said, and how it is done.
local WAYS = {
    flush = { title = "Cut %s flush", rate = "felling", done = "felled", slash = "pile", wood = true,
        note = "Stumps as low as the saw allows." },
    ["high stump"] = { title = "Cut %s, high stumps", rate = "felling", method = "high stumps", done = "felled", slash = "pile",
        wood = true, note = "Stumps about waist high." },
    hinge = { title = "Hinge-cut %s", rate = "hinge cutting", done = "hinge-cut",
        note = "Cut at waist height or lower, only so far that the top lies down on living wood." },
    girdle = { title = "Girdle %s", rate = "girdling", done = "girdled",
        note = "Two cuts all around the stem, through bark and sapwood; the tree stays standing." },
    brush = { title = "Cut %s with the brush saw", done = "cut", note = "Cut close to the ground." },
}

--- What becomes of the slash, in the words of the crew's sheet.
local SLASH = {
    ["lop and leave"] = "Slash: cut the tops up where they lie, no higher than the knee, and leave them.",
    pile = "Slash: limb, buck and pile.",
    ["burn piles"] = "Slash: pile for burning, away from trees that stay.",
    ["carry off"] = "Slash: carry all of it off.",
    ["leave whole"] = "Slash: leave the tops whole where they fall.",
}

--- A brush saw takes what is thinner than this: common practice, no source.
local BRUSH_BELOW = 4
--- Stems that a hinge cut is for, in inches: common practice, no source.
local HINGE_FROM, HINGE_BELOW = 3, 6

local HAZARDS = {
    hinge = "A hinge-cut stem can split upward, kick back or roll: only stems of 3 to 6 in, at waist height or lower, by a trained cutter, never alone, not along trails.",
    girdle = "Girdled trees stand dead and come down at any time in the years after: none within two tree lengths of a trail, a line, a seat or a house.",
    brush = "A brush saw throws wood and stones: nobody else within 50 ft, face and legs covered (common practice, no source).",
}

local function species_words(list, otherwise)
    if not list or #list == 0 then return otherwise end
    return phrases.listed(list)
end

local function felling_hours(record, acres, way)
    local hours
    if way.rate then
        hours = felling.hours(record, acres, way.method and rates.method(record, way.rate, way.method) or way.rate)
    else
        local entry = rates.find("brush cutting", "ac/h", record.place)
        if not entry then return nil end
        hours = acres / entry.value
    end
    return pace.slowed(record, quantity.say(hours, "h"), record.values.how ~= "brush")
end

local function cleanup_ratio(record)
    if record.values.cleanup then return record.values.cleanup end
    local slash = record.slash
    if not slash or slash == "leave whole" then return nil end
    local entry = rates.find("cleanup, " .. slash, "percent", record.place, "by_density")
    if not entry or not entry.by_density then return entry and entry.value end
    local per_acre = record.taken and quantity.number(record.taken:trees(), "trees/ac") or 0
    return need("vocabulary/rate").at_density(entry, per_acre)
end

--- Hours of dragging what is felled farther than cleanup counts.
local function dragging(record, acres)
    local far = record.values.drag and ground.feet(record.values.drag, record.stand, record.place, "drag")
    local counted = far and rates.find("cleanup distance", "ft", record.place)
    if not counted or not record.taken or not quantity.less(counted.value, far) then return nil end
    local hundreds = (far - counted.value) / quantity.leaf(100, "ft", "the step of the rate")
    local hours = pace.slowed(record, quantity.say(felling.hours(record, acres, "dragging") * hundreds, "h"), true)
    return acts.set(record, "drag_hours", hours, "dragging hours")
end

local function set_fuel(record, hours, cleanup)
    local running = cleanup and rates.find("saw in cleanup", "percent", record.place)
    if cleanup and not running then return end
    saw_fuel.set(record, cleanup and hours + cleanup * running.value or hours,
        record.values.how == "brush" and "brush saw" or "chain saw")
end

local function set_hours(record, acres, way)
    local hours = felling_hours(record, acres, way)
    if not hours then return end
    local ratio = cleanup_ratio(record)
    local named = acts.set(record, "felling_hours", hours, way.rate and "felling hours" or "cutting hours")
    local cleanup = ratio and acts.set(record, "cleanup_hours", quantity.say(named * ratio, "h"), "cleanup hours")
    local drag = way.rate and dragging(record, acres)
    local all = cleanup and named + cleanup or named
    if not cleanup and not drag then record.figures.felling_hours.inner = true end
    acts.set(record, "hours", drag and all + drag or all, "hours")
    set_fuel(record, named, cleanup)
end

--- Trees among those to be hinge-cut that are too thin or too thick for it.
local function outside_hinge(record)
    local taken = record.taken
    if not taken then return nil end
    local parts = {}
    if taken:has({ below = HINGE_FROM }) then
        parts[1] = ("%s under %g in"):format(quantity.short(taken:trees({ below = HINGE_FROM })), HINGE_FROM)
    end
    if taken:has({ from = HINGE_BELOW }) then
        parts[#parts + 1] = ("%s of %g in and more"):format(quantity.short(taken:trees({ from = HINGE_BELOW })), HINGE_BELOW)
    end
    return #parts > 0 and ("Not for a hinge cut, though the figures count them: %s. Fell these flush or leave them.")
        :format(table.concat(parts, ", ")) or nil
end

--- How it is to be done, a sentence each.
local function set_notes(record, way)
    local values, notes = record.values, record.notes
    local function add(words) if words then notes[#notes + 1] = words end end
    add(ground.part_words(record))
    add(way.note)
    if values.share then
        -- A crew counts trees, not percent.
        local each = way.wood and record.taken and record.taken:has() and record.taken:trees({ what = "trees " .. way.done })
        add(("Take %s of them%s."):format(quantity.short(values.share), each and
            (", about %s"):format(quantity.short(felling.doubted(record, each))) or ""))
    end
    felling.set_marking(record)
    if values.how == "hinge" then add(outside_hinge(record)) end
    if values.except then add(("Leave all %s."):format(species_words(values.except))) end
    if values.leave then
        local which = values.leave_which == "as found" and "" or ", the " .. values.leave_which
        add(("Leave %s of %s%s."):format(quantity.short(values.leave),
            species_words(values.leave_species or values.species, "what stands"), which))
    end
    if values.leave_marked then
        add(("Leave whatever has a %s%s."):format(values.leave_marked, values.marked and
            (" (%s)"):format(quantity.short(values.marked)) or
            ": how many is not known, so the figures count these as cut"))
    end
    if values.direction then add(("Felling direction: %s."):format(values.direction)) end
    for _, act in ipairs(run.acts) do
        local allow = act.kind == "buffer" and act.stand == record.stand and act.strip and act.values.allow
        if allow == "directional felling" and way.wood then
            add(("Within %s of %s only trees that are felled away from it."):format(act.strip, act.along))
        elseif allow == "cutting by hand" then
            add(("Within %s of %s only by hand."):format(act.strip, act.along))
        end
    end
    add(SLASH[record.slash])
    if values.reason then add(("The reason: %s."):format((values.reason:gsub("%.$", "")))) end
end

local keys = {}
for i, spec in ipairs(felling.keys) do keys[i] = spec end
for _, spec in ipairs({
    { "crop", kind = "crop",
        says = "trees to be freed, and only what touches their crowns is cut: { species = \"oak\", at_least = 10 in, count = 6 trees/ac, sides = 4, gap = 5 to 10 ft }; or { trees = keep \"crop\" { ... } }; spacing = \"random\" or \"regular\" says how trees stand" },
    { "how", kind = "choice", of = { "flush", "high stump", "hinge", "girdle", "brush" }, default = "flush",
        says = "how they are cut; \"brush\" goes by the area" },
    { "direction", kind = "text", says = "where trees are felled to, such as \"away from the line\"" },
    { "slash", kind = "choice", of = { "lop and leave", "pile", "burn piles", "carry off", "leave whole" },
        says = "what becomes of tops and limbs; felled trees are piled when nothing is said" },
    { "cleanup", kind = "ratio", says = "hours of cleanup for each hour of felling, in place of the rate: 2 to 3" },
    { "drag", kind = "length", says = "how far tops and pieces are dragged by hand, such as 150 ft to a pile; cleanup counts rate \"cleanup distance\", 50 ft" },
    pace.snow,
    { "reason", kind = "text", says = "why, for the owner" },
}) do keys[#keys + 1] = spec end

return acts.declare({
    also = { with = "how = \"brush\": with the brush saw", method = "how" },
    kind = "cut", named = "may", mapped = true, needs_stand = true, skill = "saw",
    says = "fells, girdles or hinge-cuts trees, or cuts brush: which, how, what is left, what becomes of the slash",
    keys = keys,
    figures = { { "acres", "ground cut over, after buffers and kept clumps" }, { "trees_cut", "trees felled" },
        { "trees_left", "trees left standing, for each acre" }, { "basal_area_taken", "basal area taken, for each acre" },
        { "basal_area_left", "basal area left, for each acre" },
        { "stocking_left", "how full it stands after it, in percent of the guide that fits; where no more is taken than left" },
        { "felled_each", "trees felled for each crop tree, where `crop` is told" }, { "felling_hours", "hours of felling" },
        { "cleanup_hours", "hours of limbing, bucking, moving and piling" }, { "drag_hours", "hours of dragging, where `drag` is told" },
        { "hours", "all of them" },
        { "cords", "wood in what is felled (trees of 5 in and more)" }, { "tons", "its green weight" },
        { "fuel", "fuel mix for the saws" }, { "bar_oil", "oil for their chains; a brush saw has none" } },
    answers = need("act_answers").rows,
    hazards = {
        "Everybody else stays two tree lengths from a tree being felled, until the feller says it is safe (OSHA 1910.266(h)(1)).",
        "Look up first: dead tops, hung limbs, lodged and dead trees are taken down or marked before other work near them (OSHA 1910.266(h)(1)).",
        "A way of retreat is cleared before each tree; never under a hung tree, and no second tree felled into it; bent saplings are under tension.",
        "Leg protection from thigh to boot top, cut-resistant boots, helmet, eyes and ears covered, however short the job (OSHA 1910.266(d)(1)). Never alone.",
        "No felling in a steady wind over 15 mph or gusts over 20 (common practice, no source).",
    },
    example = [[cut "fell" { stand = "Bench aspen", species = "aspen", how = "flush",
  during = season "dormant", leave = 15 trees/ac, slash = "lop and leave" }]],
    more = [[
a thinning, a diameter limit, the worst first, crop trees freed, patches:
  cut { stand = "Oak ridge", to = 60 ft2/ac, from = "below" }
  cut { stand = "Oak ridge", limits = { oak = 18 in, ["red maple"] = 14 in } }
  cut { stand = "Oak ridge", to = 60 ft2/ac, order = { "red maple", "aspen" } }
  cut { stand = "Oak ridge", crop = { species = "oak", count = 6 trees/ac } }
  cut { stand = "Oak ridge", patches = { count = 3, size = 0.5 ac } }]],
    title = function(record)
        local values = record.values
        local way = WAYS[values.how] or WAYS.flush
        return way.title:format(species_words(values.species, values.how == "brush" and "brush" or "trees"))
    end,
    takeoff = function(record)
        local values = record.values
        local way = WAYS[values.how]
        local acres = acts.set(record, "acres", felling.ground(record), "ground cut over")
        if not acres then return end -- the fault is told
        record.slash = values.slash or way.slash
        record.hazards = { HAZARDS[values.how] }
        if values.how == "brush" and not values.species and not values.below then
            record.below = quantity.leaf(BRUSH_BELOW, "in", "what a brush saw takes: common practice, no source")
        end
        if felling.split(record, acres) then
            if way.rate or record.taken:has() then
                felling.set_trees(record, acres, way.done)
            else
                table.insert(record.notes, "The stand's notes count none of these, so the figures go by the ground.")
            end
            if way.wood then felling.set_wood(record, acres, "wood in what is felled") end
        elseif record.stand.cruise then
            return -- the fault is told
        elseif way.rate and not values.hours then
            host.fault(record.place, "stand", "stand-unknown-trees", ("nothing is said of the trees of \"%s\", "
                .. "so what is cut there cannot be counted"):format(record.stand.name),
                "give it a tally, or species, diameter and basal_area by eye; or say the hours")
            return
        end
        set_notes(record, way)
        if not values.hours then set_hours(record, acres, way) end
    end,
})
