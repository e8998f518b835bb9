--- Rules of cover, planting and asking a logger first (stdlib/base/rules-cover.rx).
local fell = 'cut { stand = "Aspen", species = "aspen" }\n'

return {
    { layer = "base", name = "leave trees over aspen sprouts", says = "30 trees/ac",
      fires = 'cut { stand = "Aspen", species = "aspen", leave = 30 trees/ac }',
      quiet = 'cut { stand = "Aspen", species = "aspen", leave = 15 trees/ac }\n'
          .. 'cut { stand = "Oak", species = "oak", share = 30 percent }' },
    { layer = "base", name = "sprout cut, size", says = "two tree heights",
      fires = 'stand "Strip" { area = 3 ac, ground = "dry", width = 90 ft, tree_length = 60 ft,\n'
          .. '  species = { ["bigtooth aspen"] = 100 percent }, diameter = 6 to 9 in, '
          .. 'basal_area = 80 to 110 ft2/ac }\n'
          .. 'cut { stand = "Strip", species = "aspen" }',
      quiet = fell .. 'cut { stand = "Small maple", species = "red maple" }' },
    { layer = "base", name = "no living aspen",
      fires = 'cut { stand = "Oak", species = "aspen" }',
      quiet = fell },
    { layer = "base", name = "nothing to cut",
      fires = 'cut { stand = "Oak", species = "spruce" }',
      quiet = 'cut { stand = "Oak", species = "oak", share = 20 percent }' },
    { layer = "base", name = "trees cut twice", says = "(bigtooth aspen)",
      fires = 'cut { stand = "Mixed", species = "aspen" }\n'
          .. 'cut { stand = "Mixed", species = "aspen" }',
      quiet = 'cut { stand = "Mixed", species = "aspen" }\n'
          .. 'cut { stand = "Mixed", species = "red oak" }\n'
          .. 'local first = cut { stand = "Oak", share = 80 percent }\n'
          .. 'cut { stand = "Oak", after = first }\n'
          .. 'cut { stand = "Small maple", part = 50 percent }\n'
          .. 'cut { stand = "Small maple", part = 50 percent }' },
    { layer = "base", name = "small cut and deer",
      fires = 'stand "Patch" { area = 2 ac, ground = "dry", browse = "heavy",\n'
          .. '  species = { ["bigtooth aspen"] = 100 percent }, diameter = 6 to 9 in, '
          .. 'basal_area = 80 to 110 ft2/ac }\n'
          .. 'cut { stand = "Patch", species = "aspen" }',
      quiet = fell },
    { layer = "base", name = "cover without an opening",
      fires = fell .. 'opening { stand = "Mixed", use = "rest", width = 40 ft }',
      quiet = fell .. 'opening { stand = "Aspen", use = "rest", width = 40 ft }' },
    { layer = "base", name = "ways out", says = "only one",
      fires = 'local rest = opening { stand = "Aspen", use = "rest", width = 40 ft }\n'
          .. 'trail { joins = rest, ways_out = 1, length = 300 ft }',
      quiet = 'local rest = opening { stand = "Aspen", use = "rest", width = 40 ft }\n'
          .. 'trail { joins = rest, ways_out = 1, length = 300 ft }\n'
          .. 'trail { joins = rest, ways_out = 1, length = 200 ft }' },
    { layer = "base", name = "log first", says = "cords",
      fires = fell,
      quiet = 'cut { stand = "Small maple", species = "red maple" }' },
    { layer = "base", name = "too young to sell", says = "about 15 to 20 years",
      fires = 'stand "Young" { area = 6 ac, ground = "dry",\n'
          .. '  tally = "size 1/100 ac\\nplot 1: bigtooth aspen 2x20" }\n'
          .. 'cut { stand = "Young" }',
      quiet = 'stand "Young" { area = 2 ac, ground = "dry",\n'
          .. '  tally = "size 1/100 ac\\nplot 1: bigtooth aspen 2x20" }\n'
          .. 'cut { stand = "Young" }\n' .. fell },
    { layer = "base", name = "red pine, fresh slash",
      fires = 'cut { stand = "Pine", species = "red pine", share = 20 percent, date = Jun 2 2027 }',
      quiet = 'cut { stand = "Pine", species = "red pine", share = 20 percent, '
          .. 'date = Nov 9 2026 }\n'
          .. 'cut { stand = "Oak", species = "oak", share = 20 percent, date = Jun 2 2027 }' },
    { layer = "base", name = "plants without protection", says = "heavy",
      fires = 'stand "Old pasture" { area = 2 ac, ground = "dry", browse = "heavy" }\n'
          .. 'plant { stand = "Old pasture", species = "white spruce", count = 50 plants }',
      quiet = 'stand "Old pasture" { area = 2 ac, ground = "dry", browse = "heavy" }\n'
          .. 'local screen = plant { stand = "Old pasture", species = "white spruce", '
          .. 'count = 50 plants }\n'
          .. 'protect { on = screen, how = "cage" }\n'
          .. 'plant { stand = "Field", species = "white spruce", count = 50 plants }\n'
          .. 'plant { stand = "Old pasture", species = "white pine", count = 50 plants, '
          .. 'guards = "tube" }' },
}
