--- Rules of people, lines, ground, nests, fire and the plan as a whole (stdlib/base/rules.rx).
local fell = 'cut { stand = "Aspen", species = "aspen" }\n'
local line = 'feature "east line" { kind = "property line", beside = "Aspen", length = 400 ft, '
    .. '%s }\n'

return {
    { layer = "base", name = "felling alone", people = 1, says = "one person",
      fires = fell,
      quiet = fell },
    { layer = "base", name = "saw protection",
      fires = 'job "clear a windfall" { stand = "Aspen", hours = 3 h, skill = "saw" }',
      quiet = 'job "count sprouts" { stand = "Aspen", hours = 3 h }\nmow { stand = "Field" }' },
    { layer = "base", name = "two tree lengths", says = "120 ft",
      fires = fell,
      quiet = 'cut { stand = "Aspen", how = "brush" }\n'
          .. 'cut { stand = "Oak", species = "oak", how = "girdle" }' },
    { layer = "base", name = "hinge cutting", says = "6 in and more",
      fires = 'cut { stand = "Aspen", species = "aspen", how = "hinge" }',
      quiet = fell },
    { layer = "base", name = "ash, felling",
      fires = 'cut { stand = "Ash", species = "ash" }',
      quiet = fell },
    { layer = "base", name = "ash",
      fires = 'keep { stand = "Ash", species = "white ash", count = 4 trees/ac }',
      quiet = 'keep { stand = "Oak", species = "oak", count = 4 trees/ac }' },
    { layer = "base", name = "utility line",
      fires = 'feature "wires" { kind = "utility line", beside = "Aspen", distance = 40 ft }\n'
          .. fell,
      quiet = 'feature "wires" { kind = "utility line", beside = "Aspen", distance = 70 ft }\n'
          .. 'feature "cable" { kind = "utility line", beside = "Mixed", length = 300 ft }\n'
          .. 'buffer { of = "cable", inside = "Mixed", width = 1 tree_length }\n'
          .. fell .. 'cut { stand = "Mixed", species = "aspen" }' },
    { layer = "base", name = "property line, distance", says = "east line",
      fires = line:format('certainty = "surveyed"')
          .. 'buffer { of = "east line", inside = "Aspen", width = 20 ft }\n' .. fell,
      quiet = line:format('certainty = "surveyed"')
          .. 'buffer { of = "east line", inside = "Aspen", width = 60 ft }\n' .. fell
          .. 'feature "west line" { kind = "property line", beside = "Mixed", length = 400 ft }\n'
          .. 'cut { stand = "Mixed", species = "aspen", direction = "away from the line" }' },
    { layer = "base", name = "property line, unclear", says = "old fence",
      fires = line:format('certainty = "old fence"')
          .. 'buffer { of = "east line", inside = "Aspen", width = 60 ft, '
          .. 'allow = "directional felling" }\n' .. fell,
      property = 'lines = { west = "surveyed" }',
      quiet = line:format('certainty = "disputed"')
          .. 'buffer { of = "east line", inside = "Aspen", width = 60 ft }\n' .. fell
          .. 'feature "west line" { kind = "property line", beside = "Mixed", length = 400 ft }\n'
          .. 'cut { stand = "Mixed", species = "aspen", direction = "away from the line" }' },
    { layer = "base", name = "property line, which stands", says = "east: old fence",
      property = 'lines = { north = "surveyed", east = "old fence" }',
      fires = fell,
      quiet = 'feature "east line" { kind = "property line", beside = "Mixed" }\n' .. fell },
    { layer = "base", name = "wet ground",
      fires = 'stand "Run" { area = 2 ac, ground = "wet" }\nmulch { stand = "Run" }',
      quiet = 'mulch { stand = "Field" }\n' .. fell },
    { layer = "base", name = "soft ground",
      fires = 'stand "Bench" { area = 2 ac, ground = "moist" }\nmulch { stand = "Bench" }',
      quiet = 'mulch { stand = "Field" }' },
    { layer = "base", name = "spring mud over aspen roots",
      fires = 'sale { stand = "Aspen", species = "aspen", date = Apr 6 2027, days = 5 d }',
      quiet = 'sale { stand = "Pine", species = "red pine", date = Apr 6 2027, days = 5 d }\n'
          .. 'sale { stand = "Aspen", species = "aspen", date = Jan 5 2027, days = 5 d }' },
    { layer = "base", name = "steep ground, machines", says = "38 percent",
      fires = 'stand "Scarp" { area = 2 ac, ground = "dry", slope = 38 percent }\n'
          .. 'mulch { stand = "Scarp" }',
      quiet = 'stand "Knoll" { area = 2 ac, ground = "dry", slope = 30 percent }\n'
          .. 'mulch { stand = "Knoll" }' },
    { layer = "base", name = "nest tree",
      fires = 'feature "hawk nest" { kind = "nest", beside = "Aspen", distance = 300 ft, '
          .. 'species = "red-shouldered hawk" }\n'
          .. 'cut { stand = "Aspen", species = "aspen", date = Mar 2 2027 }',
      quiet = 'feature "hawk nest" { kind = "nest", beside = { "Aspen", "Mixed" }, '
          .. 'distance = 900 ft }\n'
          .. 'cut { stand = "Aspen", species = "aspen", date = Mar 2 2027 }\n'
          .. 'feature "owl nest" { kind = "nest", beside = "Oak" }\n'
          .. 'cut { stand = "Oak", species = "oak", at_least = 13 in, date = Nov 30 2026 }' },
    { layer = "base", name = "nest tree kept",
      fires = 'feature "hawk nest" { kind = "nest", beside = "Aspen" }\n' .. fell,
      quiet = 'feature "hawk nest" { kind = "nest", beside = "Oak" }\n' .. fell },
    { layer = "base", name = "den trees",
      fires = 'feature "hollow basswood" { kind = "den tree", beside = "Aspen" }\n' .. fell,
      quiet = 'feature "hollow basswood" { kind = "den tree", beside = "Oak" }\n' .. fell },
    { layer = "base", name = "burning",
      fires = 'burn { stand = "Field" }',
      quiet = 'mow { stand = "Field" }' },
    { layer = "base", name = "planting in frozen ground", says = "planned for Jan 4 2027",
      fires = 'plant { stand = "Field", species = "white spruce", count = 20, date = Jan 4 2027 }',
      quiet = 'plant { stand = "Field", species = "white spruce", count = 20 }' },
    { layer = "base", name = "fire crew too small", people = 4,
      says = "4 people, and 6 are asked for",
      fires = 'burn { stand = "Field", people = 6 }',
      quiet = 'burn { stand = "Field", people = 4 }' },
    { layer = "base", name = "fire over several days", people = 4, says = " to ",
      fires = 'burn { stand = "Field", hours = 90 h, people = 4 }',
      quiet = 'burn { stand = "Field", hours = 20 h, people = 4 }' },
    { layer = "base", name = "burn piles",
      fires = 'cut { stand = "Aspen", species = "aspen", slash = "burn piles" }',
      quiet = fell },
    { layer = "base", name = "rare species",
      fires = "",
      quiet = fell,
      property_quiet = 'rare_species = "none on file, Oct 2 2026"' },
    { layer = "base", name = "hunting weeks",
      fires = fell,
      quiet = fell, property_quiet = "hunting = Nov 1 to Dec 31" },
    { layer = "base", name = "hours for an acre", says = "200 at most published",
      fires = 'cut { stand = "Aspen", species = "aspen", cleanup = 60 }',
      quiet = fell },
    { layer = "base", name = "cost-share before work", says = "practice 314",
      fires = 'cut { stand = "Aspen", how = "brush", cost_share = 150 USD/ac, '
          .. 'program = "practice 314" }',
      quiet = 'cut { stand = "Aspen", how = "brush" }' },
    { layer = "base", name = "job larger than its season", people = 1,
      fires = 'job "rake the whole ridge" { stand = "Oak", hours = 900 h, '
          .. 'during = Nov 1 to Dec 10 }',
      quiet = 'job "rake the trail" { stand = "Oak", hours = 20 h, during = Nov 1 to Dec 10 }' },
}
