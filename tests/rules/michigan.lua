--- Rules and notices of Michigan (stdlib/regions/lake-states/michigan.rx).
local R = "lake-states/michigan"
local oak = 'cut { stand = "Oak", species = "oak", share = 20 percent, date = %s }\n'
local aspen = 'cut { stand = "%s", species = "aspen", share = 20 percent, date = %s }\n'
local day = 'job "rake the trail" { stand = "Field", hours = 4 h, date = %s }\n'
local creek = 'feature "creek" { kind = "stream", beside = "Aspen", length = 300 ft, '
    .. 'width = 6 ft, slope = %s }\n'
local strip = 'buffer { of = "creek", inside = "Aspen", width = %s }\n'
local fell = 'cut { stand = "Aspen", species = "aspen" }\n'

return {
    { layer = R, name = "oak wilt",
      fires = oak:format("Apr 15 2027"),
      quiet = oak:format("Jul 19 2027") .. oak:format("Apr 9 2027") },
    { layer = R, name = "oak wilt, low risk",
      fires = oak:format("Jul 19 2027"),
      quiet = oak:format("Mar 8 2027") .. oak:format("May 3 2027") },
    { layer = R, name = "oak wilt, oaks beside",
      fires = aspen:format("Mixed", "May 3 2027"),
      quiet = aspen:format("Aspen", "May 3 2027") .. aspen:format("Mixed", "Jul 19 2027") },
    { layer = R, name = "deer firearm season",
      fires = day:format("Nov 30 2026"),
      quiet = day:format("Nov 14 2026") .. day:format("Dec 1 2026") },
    { layer = R, name = "riparian zone", says = "135 ft asked at a slope of 22 percent",
      fires = creek:format("22 percent") .. strip:format("120 ft") .. fell,
      quiet = creek:format("10 percent") .. strip:format("100 ft") .. fell },
    { layer = R, name = "nesting, contract grass", property = 'tax_program = "CRP contract 1142"',
      fires = 'mow { stand = "Field", date = May 4 2027 }',
      quiet = 'mow { stand = "Field", date = Apr 28 2027 }' },
    { layer = R, name = "burning permit",
      fires = 'burn { stand = "Field" }',
      quiet = fell },
    { layer = R, name = "dig notice", by = "2027-04-21",
      fires = 'job "set gate posts" { stand = "Field", hours = 6 h, date = Apr 27 2027 }',
      quiet = fell },
}
