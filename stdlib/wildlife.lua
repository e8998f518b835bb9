--- Cover, browse and mast: what deer eat and hide behind, what trees drop, and which game uses
--- young forest when. Low, likely, high where a number is doubted; each with its source. A
--- layer may set its own.

local practice = "common practice, no source"
local memory = "from memory, no page seen"

local M = {}

--- Bands of height in feet that a deer hides behind. Common practice, no source.
M.bands = { { 0, 3 }, { 3, 6 } }
--- How wide a stem shows, with its twigs, in feet: bare in winter, and in leaf.
M.width = {
  bare = { low = 0.1, likely = 0.15, high = 0.22, unit = "ft", source = practice },
  leafy = { low = 0.35, likely = 0.6, high = 0.9, unit = "ft", source = practice },
}
--- A deer is hidden where so much of it is at this distance.
M.hides = { percent = 90, distance = 200, source = "Thomas 1979, Agric. Handb. 553, from memory: 90 percent hidden "
    .. "at 200 ft" }
--- The distance for which a percentage is told.
M.look_from = { feet = 50, source = practice }

--- Light lost for each square foot of basal area. Common practice, no source.
M.light = { loss = 0.025, source = "a fifteenth of the light under 110 ft2/ac: " .. practice,
    through_crowns = "a twentieth comes through a crown: " .. practice }

--- How high deer reach, from the ground or from the snow; where they are yarded on packed snow
--- below cedar the line stands at 7 ft.
M.reach = { feet = 5, source = "browse counted below 5 ft: Halls 1973, SEAFWA 27; on snow from its surface: "
    .. practice }
M.reach_on_snow = { feet = 7, source = "7 ft, cedar line on snow: Aldous 1952, J. Wildl. Manage. 16:401" }
--- Fresh twigs (in summer twigs and leaves) on a foot of stem.
M.twigs = {
  winter = { low = 0.004, likely = 0.008, high = 0.014, unit = "lb/stem", source = practice },
  summer = { low = 0.012, likely = 0.024, high = 0.042, unit = "lb/stem", source = practice },
}
--- What plants stand to lose, a deer's weight, its daily food.
M.use = { low = 40, likely = 50, high = 60, unit = "percent", source = "half of a year's twigs: " .. practice }
M.deer = { low = 120, likely = 150, high = 180, unit = "lb", source = "150 lb: a Penn State woodland column, 2019; "
    .. "the ends are " .. practice }
M.food = { low = 6, likely = 7, high = 8, unit = "percent", source = "6 to 8 percent of the body weight: a Penn "
    .. "State woodland column, 2019" }
--- Of stems of a rank, so much is eaten: 0 left alone, 1 when hungry, 2 eaten, 3 sought.
M.wanted = { [0] = 5, [1] = 30, [2] = 70, [3] = 100, source = practice }

--- Browse ranks and shade tolerance, as traits of species.
local aldous = "stands moderate to heavy browsing: Aldous 1952, J. Wildl. Manage. 16:401; the rank is from memory"
M.browse_ranks = {
  { 3, memory, "northern white-cedar", "red maple", "eastern hemlock" },
  { 3, "sought, stands only moderate browsing: Aldous 1952; the rank is from memory", "red-osier dogwood" },
  { 2, aldous, "paper birch", "beaked hazel", "pin cherry", "willow", "black ash" },
  { 2, memory, "bigtooth aspen", "quaking aspen", "balsam poplar", "northern red oak", "northern pin oak", "black oak",
    "white oak", "bur oak", "swamp white oak", "yellow birch", "sugar maple", "American basswood", "white ash",
    "green ash", "American hazel", "gray dogwood", "serviceberry", "highbush cranberry", "nannyberry", "staghorn sumac",
    "eastern white pine", "jack pine" },
  { 1, memory, "black cherry", "ironwood", "American elm", "balsam fir", "red pine", "Scotch pine", "American hornbeam",
    "American beech", "hawthorn", "American plum", "ninebark", "tamarack", "bitternut hickory", "shagbark hickory" },
  { 0, memory, "white spruce", "black spruce", "Norway spruce", "speckled alder", "prickly-ash", "common buckthorn",
    "glossy buckthorn", "autumn olive", "shrub honeysuckle", "multiflora rose" },
}
M.shade_tolerance = {
  { 1, memory, "bigtooth aspen", "quaking aspen", "balsam poplar", "eastern cottonwood", "paper birch", "jack pine",
    "tamarack", "pin cherry", "willow", "staghorn sumac" },
  { 2, memory, "red pine", "black cherry", "black walnut", "shagbark hickory", "bur oak", "northern pin oak",
      "black oak",
    "black ash", "speckled alder", "Scotch pine" },
  { 3, memory, "northern red oak", "white oak", "swamp white oak", "yellow birch", "eastern white pine", "white ash",
    "green ash", "American elm", "silver maple", "boxelder", "bitternut hickory", "gray dogwood", "red-osier dogwood" },
  { 4, memory, "red maple", "American basswood", "white spruce", "black spruce", "northern white-cedar",
      "Norway spruce",
    "beaked hazel", "American hazel" },
  { 5, memory, "sugar maple", "American beech", "eastern hemlock", "balsam fir", "ironwood", "American hornbeam" },
}

--- Acorns in pounds a tree in a mean year, by diameter in inches.
local downs = "Downs 1944, J. Wildl. Manage. 8:339-340, fits to its table (D. R. Larsen, Univ. Missouri teaching notes)"
local function polynomial(c0, c1, c2, c3, c4, source)
    return { mast_0 = c0, mast_1 = c1, mast_2 = c2, mast_3 = c3, mast_4 = c4, mast_from = 10, mast_to = 36,
        source = source }
end
local function black(source) return polynomial(-1.9065, 0.2973, 0, 0, 0, source) end
local function white(source) return polynomial(37.36, -8.768, 0.694, -0.02027, 0.0001987, source) end
M.mast = {
  { "northern red oak", polynomial(27.32720516, -9.5233885, 0.9864357, -0.0349937, 0.0004016, downs) },
  { "black oak", black(downs) },
  { "northern pin oak", black("no yields by diameter seen; as black oak of " .. downs .. ": " .. practice) },
  { "white oak", white(downs) },
  { "swamp white oak", white("no yields by diameter seen; as white oak of " .. downs .. ": " .. practice) },
  { "bur oak", white("no yields by diameter seen; as white oak of " .. downs .. ": " .. practice) },
}
--- How far a stand may bear from the table; a good year and a poor one, in percent of a mean
--- year; what a released crown comes to bear after some years.
M.bearing = { low = 50, likely = 100, high = 160, unit = "percent", source = "trees bear very unlike: Rose and "
    .. "others 2012, "
  .. "J. Wildl. Manage. 76:750-758 (diameter explains a third to a half); the numbers are " .. practice }
M.years = {
  mean = { low = 100, likely = 100, high = 100 }, good = { low = 200, likely = 270, high = 350 },
  poor = { low = 5, likely = 20, high = 45 },
  source = "a good crop one year in three or four: Johnson 1994, TB-NC-1; the percents are " .. practice }
M.released = { low = 110, likely = 140, high = 180, unit = "percent", after = 5,
    source = "bigger crowns bear more, not better "
  .. "(Rose and others 2012); the percents, after 5 years, are " .. practice }

--- When game uses a patch, in growing seasons since the cut. `stems`: an acre, where published.
M.calendar = {
  { game = "deer", use = "forage", from = 1, to = 3, words = "best food; then shade closes",
    source = "WI landowner education (turkey federation author)" },
  { game = "deer", use = "cover", from = 2, to = 20, stems = { 10000, 20000 },
      words = "young even-aged stands hide for about 20 years",
    source = "a biologist's comment, New York, secondary copy" },
  { game = "ruffed grouse", use = "brood and fall cover", from = 6, to = 25, stems = { 2000, 8000 },
      words = "sapling stems overhead",
    source = "Gullion-based guides, from memory" },
  { game = "ruffed grouse", use = "key stage", from = 5, to = 20, words = "the stage that carries them",
    source = "a biologist's comment, New York, secondary copy" },
  { game = "woodcock", use = "singing ground", from = 0, to = 4, acres = 0.5,
      words = "while at least half an acre of it stays open",
    source = "half an acre at least: Woodcock young-forest program, WMI; the years are " .. practice },
  { game = "woodcock", use = "feeding cover", from = 5, to = 20, words = "a quarter of the alder or aspen cut every "
      .. "5 years",
    source = "WMI best management practices 2009/2010, from memory" },
}
--- A patch is useful while so many stems stand, and no longer than 25 seasons.
M.useful = { stems = 2000, source = "the fewest stems and the last season of grouse cover: Gullion-based guides, "
    .. "from memory" }
--- A patch of a smaller part of the stand is not told of in words. Common practice, no source.
M.told_from = 0.1
--- When to cut the next patch: entries ten years apart on a rotation of forty.
M.next_cut = { every = 10, rotation = 40, source = "small clearcuts every 10 years on a 40-year rotation: Gullion "
    .. "1977, 1984 as "
  .. "summarised by Harper and others; Berner and Gysel 1969" }

return M
