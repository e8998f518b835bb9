--- The ground an act is done on: a stand less its buffers and kept clumps, the part of it
--- that is meant, the opening or trail that stands in `on`, one entry of several.
local M = {}
local acts = need "acts"
local host = need "host"
local quantity = need "quantity"
local rules = need "rules"
local run = need "run"

--- A length in feet; tree lengths are those of the stand.
-- @param stand a record, or nil where only feet will do
function M.feet(length, stand, place, key)
    if not quantity.fits(length, "tree_length") then return quantity.say(length, "ft") end
    if not stand then
        host.fault(place, key, "tree-length", ("`%s` is told in tree lengths, and there is no stand "
            .. "whose trees are meant"):format(key), "give it in feet, or name the stand")
        return nil
    end
    local one = quantity.leaf(1, "tree_length", "one tree length")
    return quantity.say(length / one * need("vocabulary/stand").tree_length(stand), "ft")
end

--- A stand's area less its buffers and kept clumps, and what these take (nil: nothing).
local function rest_of(stand)
    if stand.shape then return need("drawn_kept").rest(stand) end
    local terms = {}
    for _, act in ipairs(run.acts) do
        if act.stand == stand and act.ground_taken then terms[#terms + 1] = act.ground_taken end
    end
    if #terms == 0 then return stand.area, nil end
    local taken = quantity.sum(terms)
    return stand.area - taken, taken
end

--- What is left of a stand when buffers and kept clumps are taken out, in acres. On the map
--- ground that two of them take counts once; strips that are no shapes and cross each other
--- are counted twice, for nobody knows where they do.
function M.workable(stand)
    if stand.workable then return stand.workable end
    local rest, taken = rest_of(stand)
    if not taken then
        stand.workable = stand.area
        return stand.area
    end
    local _, most = quantity.ends(taken, "ac")
    if most >= quantity.number(stand.area, "ac") then
        rest = math.max(rest, quantity.leaf(0, "ac", "never less than no ground"))
    end
    if quantity.number(rest, "ac") < 1e-9 then
        rules.find({ level = "stop", rule = "ground", stand = stand,
            message = ("buffers and kept clumps take %s of the %s of %s: no ground is left to work on")
                :format(quantity.short(taken), quantity.short(stand.area), stand.name),
            ask = "the consultant who planned it", source = "the plan itself" })
    end
    stand.workable = quantity.name(rest, "workable ground of " .. stand.name,
        "its area less buffers and kept clumps")
    return stand.workable
end

--- The ground of another act, for what is done `on` it: what can be treated of an opening,
--- the area of a trail or clump, the acres of a cut. Nil when it has none.
function M.of_act(act)
    return acts.get(act, "treatable_area") or acts.get(act, "area") or acts.get(act, "acres")
end

--- The acres of this act: one entry's, of the part that is meant.
function M.of(record)
    if record.by_shape then return acts.portion(record, need("drawn").acres(record)) end
    local ground = record.on and M.of_act(record.on)
    if not ground then
        if not record.stand then return nil end
        ground = M.workable(record.stand)
    end
    local part = record.values.part
    if part then ground = ground * part.share end
    local fraction = acts.fraction(record)
    if fraction < 1 then ground = ground * fraction end
    return quantity.say(ground, "ac")
end

--- Ground that is told by lengths must lie in its stand; a fault where it does not. A
--- prescription tests its ground itself, and says so as a finding.
-- @param what "the rows take"
function M.check_room(record, area, what)
    local whole = not record.on and not record.applied and record.stand and record.stand.area
    if not whole or quantity.number(area, "ac") <= quantity.number(whole, "ac") * (1 + 1e-9) then return true end
    acts.fault(record, "length", "ground-room", ("%s %s, and \"%s\" has %s"):format(what, quantity.short(area),
        record.stand.name, quantity.short(whole)), "shorter or fewer; or name the ground that they stand on")
    return false
end

--- Does the act reach over all of its stand's workable ground at once?
function M.is_whole(record)
    local values = record.values
    return not (record.on or values.part or values.map or values.patches or values.strips) and acts.fraction(record) == 1
end

--- "Only north of the two-track (40 percent of the stand)", or nil.
function M.part_words(record)
    local part = record.values.part
    if record.by_shape then
        return ("Only %s (%s)."):format(record.map_words, quantity.short(need("drawn").acres(record)))
    end
    if not part then return nil end
    if quantity.number(part.share, "percent") == 100 then return part.words and ("Only %s."):format(part.words) end
    if not part.words then return ("Only on %s of it."):format(quantity.short(part.share)) end
    return ("Only %s (%s of it)."):format(part.words, quantity.short(part.share))
end

return M
