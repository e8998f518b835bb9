--- The handbook: the trade's tables and equations, asked one at a time:
--- `handbook.height { species = "red oak", site_index = 61 ft, age = 90 yr }`.
---
--- Each chapter is a module under stdlib/handbook/ that returns a list of rows:
--- { name, says, keys (as those of a primitive), main (the key that a lone value stands for),
---   gives (what comes back, in words), source, example, call = function(values, place) }.
--- A chapter is read when one of its names is first asked for.
local M = {}
local host = need "host"
local words = need "words"

--- Chapters in the order of help: module, title, names.
M.chapters = {
    { "cruise", "cruising", { "limiting_distance", "radius_factor", "plot_radius", "trees_per_acre", "basal_area",
        "slope_distance" } },
    { "sample", "sampling", { "sample", "student_t", "plots_needed", "strata" } },
    { "density", "density", { "quadratic_mean", "density_index", "relative_density", "crown_cover" } },
    { "volume", "wood", { "log_volume", "tree_volume", "composite_volume", "cords", "weight", "biomass", "convert" } },
    { "site", "site", { "height", "age_at_height", "site_index" } },
    { "stocking", "stocking", { "stocking", "stocking_line" } },
    { "regrowth", "regrowth", { "suckers", "sucker_height", "sprouting", "shrub_growth", "planted_height",
        "release_growth" } },
    { "wildlife", "wildlife", { "acorns", "browse", "browse_reach", "deer_days", "cover", "light",
        "game_stages" } },
    { "spraying", "spraying", { "calibration", "calibration_course", "boom", "boom_flow", "boom_capacity", "percent_mix",
        "product_per_gallon", "tank_area", "tank_product", "tank_loads", "spray_mix", "active_ingredient", "most_of_year" } },
    { "seeding", "seed and plants", { "pure_live_seed", "bulk_seed", "seeds_per_foot", "seed_rate", "plants_per_acre",
        "plants_on_area", "plants_in_rows", "plants_to_order" } },
    { "labor", "labor", { "hours", "hand_cutting", "weeks", "loads" } },
}

local chapter_of = {}
for _, chapter in ipairs(M.chapters) do
    for _, name in ipairs(chapter[3]) do chapter_of[name] = chapter[1] end
end

--- All names, in the order of the chapters.
function M.names()
    local names = {}
    for _, chapter in ipairs(M.chapters) do
        for _, name in ipairs(chapter[3]) do names[#names + 1] = name end
    end
    return names
end

--- The row of a name, or nil.
function M.row(name)
    local chapter = chapter_of[name]
    for _, row in ipairs(chapter and need("handbook/" .. chapter) or {}) do
        if row.name == name then return row end
    end
    return nil
end

local functions = {}

--- What `handbook.NAME` is in a script.
function M.find(name)
    if functions[name] then return functions[name] end
    local row = type(name) == "string" and M.row(name)
    if not row then
        local near = host.suggest(tostring(name), M.names())
        host.raise(nil, nil, "handbook-unknown", ("the handbook has no `%s`"):format(tostring(name)),
            near and ("did you mean `handbook.%s`?"):format(near) or "`spinney help handbook` lists what it has")
    end
    functions[name] = host.face(name, function(place, ...)
        return row.call(words.check(row, "handbook." .. name, place, ...), place)
    end)
    return functions[name]
end

return M
