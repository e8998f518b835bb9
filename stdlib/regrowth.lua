--- What grows back after a cut: what is doubted of it, as low, likely, high (10th, 50th and
--- 90th percentile), each with its source. A layer may set its own. The equations stand in C
--- (src/forest/suckers.h, sprouts.h, growth.h).

local practice = "common practice, no source"
local planning = "planning line of Perala 1977 (GTR NC-36) and 1990 (AgHB 654), from memory"
local palik = "Palik and others 2003, North. J. Appl. For. 20:79-84"

local M = {}

--- Doubts of aspen suckers, in the units of the equations.
M.suckers = {
  { "full", words = "suckers of a full stand", low = 12000, likely = 20000, high = 35000, unit = "stems/ac",
    source = planning .. "; 37,000 after a dense stand of 18 years: Benson and Einspahr 1972" },
  { "room", words = "room for stems", low = 40000, likely = 75000, high = 190000, unit = "stems/ac",
    source = "likely: " .. planning .. ", fitted here; high: 14,000 to 10,700 in four seasons, Jones 1975 (RM-285);"
      .. " low: over half dead by year 3, Krasny and Johnson 1992" },
  { "pace", words = "pace of growth", low = 65, likely = 100, high = 120, unit = "percent",
    source = "ends of the heights in the " .. planning },
  { "shade_slows", words = "most that shade slows", low = 2, likely = 15, high = 85, unit = "percent",
    source = palik .. ", found next to nothing under 54 ft2/ac; Perala 1977 (from memory) 35 to 40 percent under 10 "
        .. "to 15 ft2/ac" },
  { "mean_part", words = "mean height as a part of dominant", low = 40, likely = 48, high = 58, unit = "percent",
    source = "2.6 ft in the first season: Benson and Einspahr 1972; 71 in in the third: " .. palik },
}

--- A cut while leaves are out: with less of their reserves the roots sucker less, or not.
M.leafed_out = { words = "suckers after a cut in leaf", low = 70, likely = 90, high = 100, unit = "percent",
  source = "no effect where nothing drove: Mundell and others 2008; winter cuts denser: Bates and others 1993; the "
      .. "numbers are "
    .. practice }

--- Suckers start when the soil has warmed, and have done with growing in August.
M.season = { from = { 5, 1 }, to = { 8, 31 }, source = practice }

--- Machines: in summer they cost height; on soft ground they rut.
M.summer_wheels = { words = "slowed by wheels in summer", low = 10, likely = 19, high = 28, unit = "percent",
  source = "19 percent: Mundell and others 2008, For. Ecol. Manage. 255:68-74; the ends are " .. practice }
M.machine = { passes = 10, source = "Zenner and others 2007, North. J. Appl. For. 24(3)" }
--- Share of the ground that is rutted by machines when it is not frozen or dry.
M.rutted = { wet = 0.38, moist = 0.05, dry = 0, ["standing water"] = 0.38,
  source = "wet: Stone 2002, North. J. Appl. For. 19:115-121 (unfrozen wet clay); moist: " .. practice }

--- Deer: stems lost in each of the first four seasons, and height lost, in percent.
M.browsing = {
  none = { bitten = { 0, 0, 0 }, slows = { 0, 0, 0 }, sprouts = { 0, 0, 0 } },
  light = { bitten = { 0.5, 2, 4 }, slows = { 1, 3, 6 }, sprouts = { 2, 8, 15 } },
  moderate = { bitten = { 3, 7, 12 }, slows = { 5, 12, 20 }, sprouts = { 12, 25, 40 } },
  heavy = { bitten = { 10, 20, 35 }, slows = { 20, 35, 55 }, sprouts = { 35, 50, 65 } },
  source = practice .. "; oak sprouts lost 1.5 m in 4 years to deer: Ward and Williams 2018, For. Sci. 64:452-460",
}

--- Site index of aspen where none is told: common practice, no source.
M.site_index = { low = 60, likely = 70, high = 80, unit = "ft", source = "no site index of aspen is told: "
    .. practice }
--- Age where none is told.
M.age = { low = 35, likely = 45, high = 60, unit = "yr", source = "no age is told: " .. practice }

--- Sprouts of a stump, and how many stay; height after one season.
M.clump = {
  first = { words = "sprouts a clump at first", low = 8, likely = 15, high = 25, unit = "stems/tree",
      source = practice },
  last = { words = "sprouts a clump that stay", low = 3, likely = 4, high = 5, unit = "stems/tree",
    source = "about 4 by age 23, northern red oak: Johnson 1975, For. Sci. 21:413-418" },
  height = { words = "height of sprouts after one season", low = 2.5, likely = 3.5, high = 5, unit = "ft",
      source = practice },
}
--- Sprouts under trees: most of their height that shade costs.
M.clump.shade = { words = "most that shade slows sprouts", low = 20, likely = 45, high = 75, unit = "percent",
    source = practice }
--- The odds that a stump sprouts are known to so many parts of themselves.
M.odds_doubt = { low = 0.75, high = 1.2, source = practice }

--- Sprouting by stump diameter, as traits of species: only what no layer has said.
local johnson = "Johnson 1975, For. Sci. 21:413-418: 56 percent at 8 in falling to none at 26 in; straight between"
local function odds(from, share_from, to, share_to, source)
    return { sprout_from = from, sprout_share_from = share_from, sprout_to = to, sprout_share_to = share_to,
        source = source }
end
M.sprouting = {
  { "northern red oak", odds(8, 56, 26, 0, johnson) },
  { "black oak", odds(8, 56, 26, 0, "as northern red oak (" .. johnson .. "): " .. practice) },
  { "northern pin oak", odds(4, 90, 16, 71, "Mujuri and Demchik 2009, North. J. Appl. For. 26:83-85: 85 percent "
      .. "overall, "
      .. "at least 71 in the largest class; the diameters are from memory") },
  { "white oak", odds(4, 70, 20, 10, "from memory, no page seen") },
  { "bur oak", odds(4, 70, 20, 10, "from memory, no page seen") },
  { "swamp white oak", odds(4, 70, 20, 10, "from memory, no page seen") },
  { "red maple", odds(3, 95, 20, 80, "Ward and Williams 2018, For. Sci. 64:452-460: twice as likely as upland oaks; "
      .. "Hughes and Fahey 1991: 99 percent of stumps; the line is from memory") },
  { "sugar maple", odds(6, 80, 16, 20, "falls beyond 6 in: Can. J. For. Res. 13:390-394 (1983); the line is from "
      .. "memory") },
  { "American basswood", odds(4, 95, 24, 80, "sprouts freely to large sizes, AgHB 654, from memory") },
  { "paper birch", odds(3, 80, 14, 15, "well when young, poorly past 40 to 60 years, AgHB 654, from memory") },
  { "yellow birch", odds(2, 40, 10, 5, "from memory, no page seen") },
  { "black cherry", odds(3, 90, 20, 50, "from memory, no page seen") },
  { "white ash", odds(3, 90, 18, 40, "from memory, no page seen") },
  { "green ash", odds(3, 90, 18, 40, "from memory, no page seen") },
  { "black ash", odds(3, 90, 18, 40, "from memory, no page seen") },
  { "ironwood", odds(2, 80, 10, 40, "from memory, no page seen") },
  { "American elm", odds(3, 80, 16, 40, "from memory, no page seen") },
  { "silver maple", odds(3, 95, 20, 70, "from memory, no page seen") },
  { "bitternut hickory", odds(3, 80, 16, 40, "from memory, no page seen") },
  { "shagbark hickory", odds(3, 80, 16, 40, "from memory, no page seen") },
}
--- Where nothing is told of a species that sprouts.
M.sprouting_usual = { 3, 70, 18, 30, source = practice }

--- Shrubs: full height, of what is missing each year, how long stems hold, then fade a year;
--- stems that come from one that was cut.
--- Stumps that sprout though they were treated after the cut, in percent of those that would have.
M.treated_stumps = { 10, 20, 30, source = practice }

M.shrubs = {
  { "hazel", full = { 7, 9, 11 }, yearly = { 22, 30, 38 }, hold = 15, fade = 3, from_one = { 3, 5, 8 },
      source = practice },
  { "dogwood", full = { 6, 8, 10 }, yearly = { 28, 36, 45 }, hold = 10, fade = 4, from_one = { 4, 6, 10 },
      source = practice },
  { "speckled alder", full = { 13, 16, 20 }, yearly = { 15, 20, 26 }, hold = 8, fade = 5, from_one = { 4, 6, 10 },
      source = practice },
  { "willow", full = { 10, 14, 18 }, yearly = { 20, 27, 35 }, hold = 8, fade = 5, from_one = { 5, 8, 12 },
      source = practice },
  { "raspberry", full = { 3, 4, 5 }, yearly = { 60, 75, 85 }, hold = 5, fade = 30, from_one = { 4, 8, 15 },
    source = "thickest 2 to 5 years after a cut, shaded out after: from memory" },
  { "other", full = { 6, 8, 11 }, yearly = { 20, 28, 36 }, hold = 12, fade = 4, from_one = { 3, 5, 8 },
      source = practice },
}
--- Stems an acre of brush that was judged in words.
M.brush = { light = { 300, 800, 1600 }, medium = { 1200, 2500, 4500 }, heavy = { 3500, 6000, 10000 },
    source = practice }

--- Planted stock: height when planted, growth a year while it roots and after, years it roots,
--- the most. A conifer screen is 8 to 16 in after one year, 3 to 6 ft after 4 to 6, 6 to 10 ft
--- after 7 to 10; shrubs 2 to 3 ft in years 2 and 3, 4 to 6 ft in years 4 to 6.
M.planted = {
  conifer = { start = { 0.6, 0.8, 1.1 }, slow = { 0.15, 0.25, 0.4 }, fast = { 0.8, 1.15, 1.5 }, years = 3, most = 60,
      source = practice },
  shrub = { start = { 0.7, 1, 1.5 }, slow = { 0.4, 0.6, 0.9 }, fast = { 0.6, 0.9, 1.2 }, years = 2, most = 9,
      source = practice },
  hardwood = { start = { 1, 1.5, 2 }, slow = { 0.3, 0.5, 0.8 }, fast = { 0.9, 1.4, 2 }, years = 3, most = 60,
      source = practice },
}

--- Diameter growth as they stand, in an inch a year, and with room, of that, in percent.
M.growth = {
  { "aspen", rate = { 0.13, 0.18, 0.24 }, gain = { 110, 130, 160 } },
  { "red oak group", rate = { 0.10, 0.14, 0.19 }, gain = { 130, 165, 210 } },
  { "white oak group", rate = { 0.07, 0.10, 0.14 }, gain = { 125, 155, 200 } },
  { "sugar maple", rate = { 0.07, 0.10, 0.14 }, gain = { 130, 165, 210 } },
  { "maple", rate = { 0.09, 0.13, 0.18 }, gain = { 125, 150, 185 } },
  { "birch", rate = { 0.07, 0.10, 0.14 }, gain = { 110, 130, 160 } },
  { "pine", rate = { 0.10, 0.15, 0.21 }, gain = { 120, 150, 190 } },
  { "conifer", rate = { 0.08, 0.12, 0.17 }, gain = { 120, 145, 180 } },
  { "all", rate = { 0.08, 0.12, 0.17 }, gain = { 120, 150, 190 } },
  source = practice .. ": 1 to 2 in in ten years as they stand, half as much again or more with room",
}

--- The mean tree of a stand grows slower than its leaders, and some die: of that growth a stand
--- keeps so much. A cut that takes `full_at` of the basal area or more gives all of what is left room.
M.stand_growth = { words = "of the growth of leaders, kept by the stand", low = 40, likely = 60, high = 80,
    unit = "percent",
  full_at = 0.3, source = practice }

--- An aspen cut is looked at by these: least suckers after the first season, most leave trees.
M.marks = {
  { "suckers after the first season", least = 6000, source = "6,000 an acre: cited in Stone 2002, North. J. Appl. "
      .. "For. 19:115-121" },
  { "years to the next cut", least = 10, source = "vigor is not kept on rotations under about 10 years: Stiell and "
      .. "Berry 1986, "
      .. "For. Chron. 62:10-15; Berry and Stiell 1978" },
}

return M
