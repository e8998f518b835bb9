--- Pure live seed, seeds on a foot, plants by spacing.
local list = {}
local function add(source, seen, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, differs = differs }
end

local TXDOT = "Texas DOT, pure live seed"
local LSU = "LSU AgCenter, pure live seed"
local PENN = "Penn State Extension, pure live seed"
local BWSR = "Minnesota BWSR, pilot seed mix report 2018"
local SHEET = "conservation district spacing sheet, Michigan"

local function live(purity, germination)
    return ("handbook.pure_live_seed { purity = %g percent, germination = %g percent }"):format(
        purity, germination)
end
local function bulk(pounds, purity, germination)
    return ("handbook.bulk_seed { pure_live = %g lb, purity = %g percent, "
        .. "germination = %g percent }"):format(pounds, purity, germination)
end

add(TXDOT, "seen", live(85, 75), "percent", 64, 1)
add(TXDOT, "computed", live(85, 75), "percent", 63.75, 0.01)
add(TXDOT, "seen", bulk(1, 85, 75), "lb", 1.56, 0.01, nil, "it divides by the share cut to 0.64")
add(TXDOT, "computed", bulk(1, 85, 75), "lb", 1.57, 0.01)
add(LSU, "seen", live(48, 80), "percent", 38, 1)
add(LSU, "seen", bulk(20, 48, 80), "lb", 52.6, 0.1, nil, "it divides by the share rounded to 0.38")
add(LSU, "computed", bulk(20, 48, 80), "lb", 52.08, 0.01)
add(PENN, "seen", live(92, 80), "percent", 74, 1)
add(PENN, "seen", bulk(1, 92, 80), "lb", 1.4, 0.1)
add(BWSR, "seen", "handbook.seeds_per_foot { rate = 37.88 lb/ac, seeds_per_lb = 12800 }",
    "seeds/ft2", 11.13, 0.01, "oats")
add(BWSR, "computed", "handbook.seed_rate { seeds = 11.13 seeds/ft2, seeds_per_lb = 12800 }",
    "lb/ac", 37.88, 0.01, "turned round")

local CUT = "the sheet cuts off where it does not round"
for _, row in ipairs {
    { 4, 6, 1815 }, { 5, 5, 1742 }, { 6, 6, 1210 }, { 6, 8, 908 }, { 7, 8, 778 }, { 6, 10, 726 },
    { 8, 8, 680, CUT }, { 8, 10, 544 }, { 10, 10, 435, CUT },
    { 12, 12, 300, "a round number for 302.5" }, { 20, 20, 108, CUT }, { 30, 30, 48 },
} do
    add(SHEET, "seen", ("handbook.plants_per_acre { between = %d ft, in_row = %d ft }"):format(
        row[2], row[1]), "plants/ac", row[3], 1, nil, row[4])
end
add("common practice: a triangle holds 15 percent more", "memory",
    "handbook.plants_per_acre { between = 6 ft, triangular = true }:number \"plants/ac\" / 1210",
    nil, 1.15, 0.01)
-- A screen of three staggered rows: 51 a row.
add("length / spacing + 1", "computed",
    "handbook.plants_in_rows { length = 400 ft, in_row = 8 ft, rows = 3 }", "plants", 153, 1)
add("43,560 / (8 x 10), half an acre", "computed",
    "handbook.plants_on_area { area = 0.5 ac, between = 10 ft, in_row = 8 ft }", "plants", 272, 1)
add("15 percent on top", "computed",
    "handbook.plants_to_order { plants = 153, losses = 15 percent }", "plants", 176, 1)
add("so that enough live", "computed",
    "handbook.plants_to_order { plants = 272, survival = 85 percent }", "plants", 320, 1)

return list
