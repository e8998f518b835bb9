--- Rules and notices of Wisconsin (stdlib/regions/lake-states/wisconsin.rx).
local R = "lake-states/wisconsin"
local oak = 'cut { stand = "Oak", species = "oak", share = 20 percent, date = %s }\n'
local aspen = 'cut { stand = "Aspen", species = "aspen"%s }\n'
local day = 'job "rake the trail" { stand = "Field", hours = 4 h, date = %s }\n'
local creek = 'feature "creek" { kind = "stream", beside = "Aspen", length = 300 ft, width = %s }\n'
local strip = 'buffer { of = "creek", inside = "Aspen", width = %s }\n'

return {
    { layer = R, name = "oak wilt",
      fires = oak:format("Apr 1 2027"),
      quiet = oak:format("Mar 29 2027") .. oak:format("Aug 2 2027") },
    { layer = R, name = "oak wilt, low risk",
      fires = oak:format("Oct 18 2027"),
      quiet = oak:format("Dec 7 2026") .. oak:format("Jul 5 2027") },
    { layer = R, name = "deer gun season",
      fires = day:format("Nov 29 2026"),
      quiet = day:format("Nov 20 2026") .. day:format("Nov 30 2026") },
    { layer = R, name = "riparian zone", says = "35 ft asked, 30 ft planned",
      fires = creek:format("2 ft") .. strip:format("30 ft") .. aspen:format(""),
      quiet = creek:format("2 ft") .. strip:format("35 ft") .. aspen:format("")
          .. 'feature "lake" { kind = "lake", beside = "Mixed", length = 200 ft }\n'
          .. 'buffer { of = "lake", inside = "Mixed", width = 100 ft }\n'
          .. 'cut { stand = "Mixed", species = "aspen" }' },
    { layer = R, name = "shoreland", says = "the corridor is 70 ft",
      fires = 'feature "lake" { kind = "lake", beside = "Field", length = 200 ft }\n'
          .. 'mow { stand = "Field" }',
      quiet = creek:format("2 ft") .. strip:format("35 ft") .. aspen:format("") },
    { layer = R, name = "nesting, contract grass", property = 'tax_program = "CRP contract 1142"',
      fires = 'mow { stand = "Field", date = Jul 30 2027 }',
      quiet = 'mow { stand = "Field", date = Aug 2 2027 }' },
    { layer = R, name = "firewood",
      fires = aspen:format(""),
      quiet = 'cut { stand = "Small maple", species = "red maple" }' },
    { layer = R, name = "cutting notice", by = "2027-01-01",
      fires = aspen:format(", date = Jan 15 2027, share = 20 percent"),
      quiet = 'cut { stand = "Small maple", species = "red maple" }\nmow { stand = "Field" }' },
    { layer = R, name = "tax program", by = "2026-12-16",
        property = 'tax_program = "Managed Forest Law"',
      fires = aspen:format(", date = Jan 15 2027, share = 20 percent"),
      quiet = 'mow { stand = "Field" }' },
    { layer = R, name = "burning permit",
      fires = 'burn { stand = "Field" }',
      quiet = aspen:format("") },
    { layer = R, name = "dig notice", by = "2027-04-21",
      fires = 'job "fence the seedlings" { stand = "Field", hours = 6 h, date = Apr 27 2027 }',
      quiet = aspen:format("") },
}
