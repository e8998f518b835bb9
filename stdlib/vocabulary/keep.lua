--- keep: trees or a clump that stay whatever is cut.
local acts = need "acts"
local ground = need "ground"
local host = need "host"
local quantity = need "quantity"

local KNOWN_BY = { "species", "at_least", "below", "count", "marked", "area", "map" }

local function title(record)
    local values = record.values
    if values.area then return "Keep a clump" end
    if values.map and not values.species then return "Keep the trees on the map" end
    local words = values.species and table.concat(values.species, ", ") or "trees"
    if values.at_least then words = words .. (" of %s and more"):format(quantity.short(values.at_least)) end
    if values.below then words = words .. (" under %s"):format(quantity.short(values.below)) end
    return "Keep " .. words
end

--- Kept trees for each acre: as many as are asked for, or as are there when that is less.
local function kept_per_acre(record, acres)
    local values = record.values
    local asked = values.count
    if asked and quantity.fits(asked, "trees") then asked = asked / acres end
    local cruise = record.stand.cruise
    if not cruise then return asked end
    local pick = { species = values.species, what = "trees to keep",
        from = values.at_least and quantity.number(values.at_least, "in"),
        below = values.below and quantity.number(values.below, "in") }
    local there = cruise:trees(pick)
    if asked and quantity.less(asked, there) then return asked end
    if asked and quantity.less(there, asked) then
        table.insert(record.notes, ("Only about %s of them are there."):format(quantity.short(there)))
    end
    return there
end

local function set_clump(record, area)
    record.cover_words = record.name and ("clump \"%s\""):format(record.name) or "a kept clump"
    local _, most = quantity.ends(area, "ac")
    if most > quantity.number(record.stand.area, "ac") then area = math.min(area, record.stand.area) end
    area = acts.set(record, "area", quantity.say(area, "ac"), "ground kept as it is")
    if not record.copy_of then record.ground_taken = area end
end

return acts.declare({
    kind = "keep", named = "may", needs_stand = true, quiet = true, before_others = true,
    says = "trees named by species, size or number, or a clump by its area, that stay whatever is cut in the stand",
    keys = {
        { "species", kind = "list", of = "species", says = "which species or groups" },
        { "at_least", kind = "diameter", says = "only trees of this diameter and more: 12 in" },
        { "below", kind = "diameter", says = "only trees under this diameter" },
        { "count", kind = "tree_number", says = "how many: 6 trees/ac, or 40 trees; without it, all of them" },
        { "which", kind = "choice", of = { "largest", "smallest", "as found" }, default = "largest",
            says = "which of them, when not all" },
        { "marked", kind = "text", says = "how they are marked, such as \"yellow ribbon\"" },
        { "area", kind = "area", says = "a clump kept as a whole: its ground is taken out of the stand" },
        { "map", kind = "map", says = "a clump as an area of the property's map, or single trees as its points" },
    },
    figures = { { "trees", "trees kept" }, { "area", "ground of a clump" } },
    nobody = function() return 1 end,
    example = [[keep { stand = "Bench aspen", species = "oak", at_least = 10 in }]],
    title = title,
    takeoff = function(record)
        local values = record.values
        local any = false
        for _, key in ipairs(KNOWN_BY) do any = any or values[key] ~= nil end
        if not any then
            host.fault(record.place, nil, "keep-what", "keep does not say which trees to keep",
                "species = \"oak\", at_least = 12 in, count = 6 trees/ac, marked = \"yellow ribbon\" or area = 0.2 ac")
            return
        end
        local note = ground.part_words(record)
        if note then table.insert(record.notes, note) end
        if values.marked then table.insert(record.notes, ("Marked: %s."):format(values.marked)) end
        local drawn, figure
        if values.map then
            drawn, figure = need("drawn_kept").keep(record)
            if not drawn then return end
        end
        if drawn then record.title = drawn == "clump" and "Keep a clump" or title(record) end
        if drawn == "clump" or values.area then
            set_clump(record, drawn and figure or values.area)
            return
        end
        if drawn then
            record.kept_trees = figure
            acts.set(record, "trees", acts.portion(record, figure), "trees kept")
            return
        end
        local acres = record.stand.area
        if values.part then acres = acres * values.part.share end
        local trees = kept_per_acre(record, acres)
        if trees then acts.set(record, "trees", quantity.say(trees * acres, "trees"), "trees kept") end
    end,
})
