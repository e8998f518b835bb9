--- Rules and notices of the region where no state is named (stdlib/regions/lake-states.rx).
local R = "lake-states"
local oak = 'cut { stand = "Oak", species = "oak", share = 20 percent, date = %s }\n'
local aspen = 'cut { stand = "%s", species = "aspen", share = 20 percent, date = %s }\n'
local in_fall = aspen:format("Aspen", "Nov 9 2026")

return {
    { layer = R, name = "oak wilt",
      fires = oak:format("Apr 1 2027"),
      quiet = oak:format("Aug 2 2027") .. aspen:format("Mixed", "May 3 2027") },
    { layer = R, name = "oak wilt, low risk",
      fires = oak:format("Mar 17 2027"),
      quiet = oak:format("Nov 2 2026") .. aspen:format("Mixed", "Sep 7 2027") },
    { layer = R, name = "oak wilt, oaks beside",
      fires = aspen:format("Mixed", "May 3 2027"),
      quiet = aspen:format("Aspen", "May 3 2027") .. aspen:format("Mixed", "Aug 2 2027")
          .. oak:format("May 3 2027")
          .. 'cut { stand = "Mixed", how = "brush", date = Jun 7 2027, hours = 2 h }' },
    { layer = R, name = "oak wilt, wood",
      fires = 'stand "Sick oak" { area = 2 ac, ground = "dry", '
          .. 'health = "four oaks dead of oak wilt",\n'
          .. '  species = { ["red oak"] = 100 percent }, diameter = 8 to 14 in, '
          .. 'basal_area = 60 to 80 ft2/ac }\n'
          .. 'cut { stand = "Sick oak", species = "oak", share = 20 percent }',
      quiet = oak:format("Nov 2 2026") },
    { layer = R, name = "bats, young",
      fires = aspen:format("Aspen", "Jul 6 2027"),
      quiet = aspen:format("Aspen", "Aug 2 2027")
          .. 'cut { stand = "Small maple", species = "red maple", share = 20 percent, '
          .. 'date = Jul 6 2027 }' },
    { layer = R, name = "bats, active season",
      fires = aspen:format("Aspen", "Oct 19 2026"),
      quiet = in_fall },
    { layer = R, name = "bat roost",
      fires = 'feature "bat tree" { kind = "roost", species = "northern long-eared bat", '
          .. 'beside = "Aspen", distance = 120 ft }\n'
          .. aspen:format("Aspen", "Jun 8 2027"),
      quiet = 'feature "bat tree" { kind = "roost", species = "northern long-eared bat", '
          .. 'beside = "Aspen", distance = 200 ft }\n'
          .. 'feature "turkey roost" { kind = "roost", species = "wild turkey", '
          .. 'beside = "Mixed" }\n'
          .. aspen:format("Aspen", "Jun 8 2027") .. aspen:format("Mixed", "Jun 8 2027")
          .. 'feature "old maple" { kind = "roost", species = "little brown bat", '
          .. 'beside = "Oak" }\n'
          .. oak:format("Aug 9 2027") },
    { layer = R, name = "nesting, contract grass",
      fires = 'stand "Prairie" { area = 3 ac, ground = "dry", contract = "CRP until 2031" }\n'
          .. 'mow { stand = "Prairie", date = May 18 2027 }',
      quiet = 'stand "Prairie" { area = 3 ac, ground = "dry", contract = "CRP until 2031" }\n'
          .. 'mow { stand = "Prairie", date = Aug 3 2027 }\n'
          .. 'mow { stand = "Field", date = May 18 2027 }' },
    { layer = R, name = "nesting, grass",
      fires = 'mow { stand = "Field", date = Jun 8 2027 }',
      quiet = 'mow { stand = "Field", date = Aug 3 2027 }\n'
          .. 'local mix = seed { stand = "Field", mix = { { "white clover", rate = 4 lb/ac, '
          .. 'purity = 98 percent, germination = 85 percent } }, date = Nov 16 2026 }\n'
          .. 'mow { on = mix, date = Jun 8 2027 }' },
    { layer = R, name = "nesting, forest birds", says = "in trees and brush",
      fires = aspen:format("Aspen", "May 18 2027"),
      quiet = 'cut { stand = "Aspen", how = "brush", date = Aug 3 2027 }\n'
          .. aspen:format("Aspen", "Aug 4 2027") .. aspen:format("Mixed", "Apr 12 2027") },
    { layer = R, name = "firewood",
      fires = in_fall,
      quiet = 'cut { stand = "Small maple", species = "red maple" }' },
    { layer = R, name = "spongy moth",
      fires = 'sale { stand = "Aspen", species = "aspen" }',
      quiet = in_fall },
    { layer = R, name = "wetland permit", says = "a wetland lies beside it",
      fires = 'feature "marsh" { kind = "wetland", beside = "Aspen" }\n'
          .. 'trail { stand = "Aspen", length = 300 ft }',
      quiet = 'feature "marsh" { kind = "wetland", beside = "Aspen" }\n'
          .. 'trail { stand = "Oak", length = 300 ft }\n' .. in_fall },
    { layer = R, name = "hunters about",
      fires = in_fall,
      quiet = aspen:format("Aspen", "Jan 5 2027") .. 'keep { stand = "Oak", species = "oak" }' },
    { layer = R, name = "burning permit", by = "2027-04-20",
      fires = 'burn { stand = "Field", date = Apr 27 2027 }',
      quiet = in_fall },
    { layer = R, name = "dig notice",
      fires = 'job "set gate posts" { stand = "Field", hours = 4 h }',
      quiet = 'job "rake the trail" { stand = "Field", hours = 4 h }' },
    { layer = R, name = "tax program", by = "2026-11-06",
      property = 'tax_program = "sustainable forest incentive"',
      fires = aspen:format("Aspen", "Dec 6 2026"),
      quiet = in_fall, property_quiet = "" },
}
