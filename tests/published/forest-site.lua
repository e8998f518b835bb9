--- Heights, ages and site indices.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local NC128 = "Carmean, Hahn and Jacobs 1989, Gen. Tech. Rep. NC-128"
local LUNDGREN = "Lundgren and Dolid 1970, Res. Pap. NC-36"

add(NC128, "seen", "handbook.site_index { species = \"white oak\", height = 70 ft, age = 45 yr }",
    "ft",
    76.10251, 0.00001, "fig. 41, worked on a course page")

--- Heights at 20, 30 and 50 years on site 70; ages are total ages.
local function heights(source, species, curve, row, to)
    for i, age in ipairs { 20, 30, 50 } do
        if row[i] then
            add(source, "computed",
                ("handbook.height { species = %q, site_index = 70 ft, age = %d yr, "
                .. "curve = %q }"):format(species, age, curve), "ft", row[i], to, curve)
        end
    end
end
for _, row in ipairs { { 1, "red maple", 33.0, 47.0, 70.1 }, { 3, "sugar maple", 34.9, 48.8, 69.9 },
    { 6, "yellow birch", 36.4, 50.0, 70.0 }, { 7, "paper birch", 37.3, 50.8, 70.9 },
    { 9, "paper birch", 35.6, 49.1, 69.9 }, { 11, "American beech", 34.6, 47.7, 68.9 },
    { 13, "white ash", 34.6, 49.2, 70.2 }, { 14, "black ash", 35.4, 49.0, 70.0 },
    { 31, "quaking aspen", 38.8, 51.5, 69.8 }, { 32, "bigtooth aspen", 35.8, 50.3, 70.3 },
    { 34, "black cherry", 38.3, 51.5, 69.9 }, { 36, "black oak", 33.5, 48.4, 70.0 },
    { 41, "white oak", 33.1, 46.8, 69.4 }, { 47, "northern red oak", 36.3, 50.0, 70.2 },
    { 48, "northern red oak", 36.5, 50.2, 70.0 }, { 49, "black oak", 37.2, 50.3, 69.5 },
    { 51, "basswood", 33.6, 47.9, 70.0 }, { 53, "American elm", 34.7, 48.7, 70.2 },
    { 55, "balsam fir", 28.8, 44.9, 69.9 }, { 60, "tamarack", 35.0, 49.0, 70.0 },
    { 70, "black spruce", 31.6, 46.5, 70.4 }, { 74, "jack pine", 32.1, 46.9, 69.8 },
    { 95, "red pine", 28.0, 43.3, 69.4 }, { 103, "white pine", 22.1, 38.9, 69.8 },
    { 126, "northern white-cedar", 32.5, 46.7, 70.1 }, { 127, "eastern hemlock", 26.9, 42.4, 69.9 },
} do
    heights(NC128, row[2], ("NC-128 fig. %d"):format(row[1]), { row[3], row[4], row[5] }, 0.1)
end
-- Site 70 is 70 ft at 50 years: what a site index is. The curves come within 1.2 ft of it.
for _, row in ipairs { { 1, "red maple" }, { 32, "bigtooth aspen" }, { 48, "northern red oak" },
    { 51, "basswood" }, { 60, "tamarack" } } do
    add(NC128, "computed", ("handbook.height { species = %q, site_index = 70 ft, age = 50 yr, "
        .. "curve = \"NC-128 fig. %d\" }"):format(row[2], row[1]), "ft", 70, 1,
        "by definition, at base age 50")
end
for _, site in ipairs { { 60, 12.7, 28.0, 41.3, 52.0, 60.5, 66.9, 75.6 },
    { 70, 18.0, 35.8, 50.3, 61.6, 70.3, 76.8, 85.4 }, { 80, 23.7, 43.7, 59.2, 70.9, 79.7, 86.3,
        94.8 } }
do
    for i, age in ipairs { 10, 20, 30, 40, 50, 60, 80 } do
        add(NC128, "computed",
            ("handbook.height { species = \"quaking aspen\", site_index = %d ft, "
            .. "age = %d yr, curve = \"NC-128 fig. 32\" }"):format(site[1], age), "ft", site[1 + i],
                0.1,
            "fig. 32")
    end
end
-- Site index fed back from heights of a curve that does not invert exactly.
for _, row in ipairs { { 32, "bigtooth aspen", 20, 73.2 }, { 32, "bigtooth aspen", 30, 69.8 },
    { 32, "bigtooth aspen", 40, 70.0 }, { 32, "bigtooth aspen", 60, 70.2 },
    { 48, "northern red oak", 20, 75.3 }, { 48, "northern red oak", 30, 70.8,
        "the equations as printed give 70.746" },
    { 48, "northern red oak", 40, 70.0 }, { 48, "northern red oak", 60, 70.1 } } do
    local curve = ("NC-128 fig. %d"):format(row[1])
    local height = ("handbook.height { species = %q, site_index = 70 ft, age = %d yr, curve = %q }")
        :format(row[2], row[3], curve)
    add(NC128, "computed", ("handbook.site_index { species = %q, age = %d yr, curve = %q, "
        .. "height = %s }"):format(row[2], row[3], curve, height), "ft", row[4], 0.1,
        "two fits, not inverses", row[5])
end
for _, row in ipairs { { "quaking aspen", 38.52, 51.42, 69.87 }, { "northern red oak", 35.92, 49.81,
    70.40 }, { "paper birch", 36.67, 50.03, 70.00 }, { "red pine", 27.98, 43.32, 69.36 },
    { "jack pine", 32.16, 46.92, 69.85 }, { "white pine", 22.13, 38.88, 69.77 },
    { "black spruce", 31.65, 46.54, 70.41 }, { "tamarack", 34.94, 48.98, 69.89 },
    { "northern white-cedar", 32.41, 46.62, 69.98 } } do
    heights(LUNDGREN, row[1], "Lundgren and Dolid 1970", { row[2], row[3], row[4] }, 0.01)
end

return list
