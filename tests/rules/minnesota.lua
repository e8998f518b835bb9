--- Rules and notices of Minnesota (stdlib/regions/lake-states/minnesota.rx).
local R = "lake-states/minnesota"
local oak = 'cut { stand = "Oak", species = "oak", share = 20 percent, date = %s }\n'
local aspen = 'cut { stand = "Aspen", species = "aspen"%s }\n'
local day = 'job "rake the trail" { stand = "Field", hours = 4 h, date = %s }\n'
local creek = 'feature "creek" { kind = "stream", beside = "Aspen", length = 300 ft, width = %s, '
    .. 'slope = %s }\n'
local strip = 'buffer { of = "creek", inside = "Aspen", width = %s }\n'

return {
    { layer = R, name = "oak wilt",
      fires = oak:format("Jul 30 2027"),
      quiet = oak:format("Aug 2 2027") .. oak:format("Mar 22 2027") },
    { layer = R, name = "oak wilt, low risk",
      fires = oak:format("Aug 2 2027"),
      quiet = oak:format("Mar 22 2027") .. oak:format("May 3 2027") },
    { layer = R, name = "deer firearm season",
      fires = day:format("Nov 7 2026"),
      quiet = day:format("Nov 6 2026") .. day:format("Nov 16 2026") },
    { layer = R, name = "deer firearm season, second week",
      fires = day:format("Nov 16 2026"),
      quiet = day:format("Nov 15 2026") .. day:format("Nov 23 2026") },
    { layer = R, name = "filter strip", says = "84 ft asked at a slope of 27 percent",
      fires = creek:format("2 ft", "27 percent") .. strip:format("80 ft") .. aspen:format(""),
      quiet = creek:format("2 ft", "27 percent") .. strip:format("84 ft") .. aspen:format("")
          .. 'mow { stand = "Aspen", area = 1 ac }' },
    { layer = R, name = "riparian zone", says = "100 ft wide",
      fires = creek:format("12 ft", "5 percent") .. strip:format("60 ft") .. aspen:format(""),
      quiet = creek:format("12 ft", "5 percent") .. strip:format("100 ft") .. aspen:format("")
          .. 'feature "rill" { kind = "stream", beside = "Mixed", width = 2 ft, length = 100 ft }\n'
          .. 'cut { stand = "Mixed", species = "aspen" }' },
    { layer = R, name = "leave trees, state guide", says = "36 trees to 72 trees",
      fires = aspen:format(", leave = 4 trees/ac"),
      quiet = aspen:format(", leave = 8 trees/ac") .. 'keep { stand = "Pine", area = 0.3 ac }\n'
          .. 'cut { stand = "Pine", species = "red pine" }\n'
          .. 'cut { stand = "Oak", species = "oak", share = 40 percent }' },
    { layer = R, name = "firewood",
      fires = aspen:format(""),
      quiet = 'cut { stand = "Small maple", species = "red maple" }' },
    { layer = R, name = "snow drift",
      fires = 'feature "county road" { kind = "road", beside = "Field", distance = 60 ft }\n'
          .. 'plant { stand = "Field", species = "white spruce", count = 50 plants }',
      quiet = 'feature "county road" { kind = "road", beside = "Field", distance = 150 ft }\n'
          .. 'plant { stand = "Field", species = "white spruce", count = 50 plants }' },
    { layer = R, name = "shoreland",
      fires = 'feature "lake" { kind = "lake", beside = "Aspen" }\n' .. aspen:format(""),
      quiet = 'feature "marsh" { kind = "wetland", beside = "Aspen" }\n' .. aspen:format("") },
    { layer = R, name = "burning permit",
      fires = aspen:format(', slash = "burn piles"'),
      quiet = aspen:format("") },
    { layer = R, name = "dig notice", by = "2027-04-22",
      fires = 'plant { stand = "Field", species = "white spruce", count = 50 plants, '
          .. 'date = Apr 27 2027 }',
      quiet = aspen:format("") },
}
