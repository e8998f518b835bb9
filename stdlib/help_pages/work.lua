--- Help on the work: entries, the schedule, labor, costs: word, page, other words that lead to it.
return {
    { "entries", [[
entries
  Work that is spread over years.

    entries = 4, every = 5 yr
        four equal parts, five years apart; each is an act of its own
    after = strips, entries = 4
        as many entries as `strips` has: each follows its own; an act without
        `entries` follows the first
    in_year = { 1, 2, 3 }
        the whole of it once in each of these years after the act it follows;
        with `entries`, each part in these years after its own entry
    only_when = "frozen"
        on such ground or in such weather only; the papers say how many of a
        hundred open days are likely to be fit
    otherwise = job "oak release" { ... }
        what is done instead when it cannot be placed; one that is too large for
        a season is placed, it goes on in the next, and the plan says so
    if_below = { 5000 stems/ac, fence }
        of a visit: the act is planned only once it is asked for, by what the
        visit found: found = 3000 stems/ac; words may stand in the act's place

  Conditions, and to say your own: spinney help condition.

for example:
  local strips = cut "strips" { stand = "Alder run", how = "brush", entries = 4,
    every = 5 yr, during = season "shrub dormant", only_when = "frozen",
    otherwise = job "free the oaks" { stand = "Bench aspen", hours = 20 to 30 h,
      skill = "saw", during = season "dormant" } }
  local fence = protect "fence" { stand = "Alder run", how = "fence",
    length = 800 ft }
  visit "sprouts" { stand = "Alder run", after = strips, wait = 6 mo,
    look_for = "sprouts per acre", if_below = { 5000 stems/ac, fence } }]],
        { "trigger", "triggers", "fallback" } },
    { "schedule", [[
schedule
  Each act is put into the earliest week that fits, sixteen years ahead. What
  must fit:

    during, not_before, by, date     its own season, window and dates
    after, wait, within              what comes before it, and how long before:
                                     wait = 3 to 6 wk is the least and the most;
                                     within = 2 h: the same days, the same crew
    in_one_week                      not spread over weeks, as work may be
    crew                             hours its crew has that week and day, its
                                     travel off them; without it any crew with
                                     the skill it asks for; what goes by days
                                     (a sale, a visit) takes its days whole
    property "..." { hunting = ... } the owner's quiet weeks
    rules and notices                closed days; whom to tell, how long before
    only_when                        ground and weather, by the month's chance

  Closed days of a stop always hold. Those of a caution or a note give way
  when nothing else fits, and the plan then says so. first = true puts an act
  before others. What fits nowhere is listed with the reason, and with the
  fewest things that clash.
  The order of the plan is tried first; where it is not as good as can be, other
  orders and crews are: fewest acts left out, then fewest that stop half-way
  until another season, then the earliest finish of those marked first, then the
  least cost, then no act a season later than need be, then weeks as evenly full
  as can be. What comes first is never given up for what comes later.
  Beside each finish stands a day before which it cannot be, whatever the order;
  spinney why PLAN.rx finish tells what holds it back.
  Then the same schedule is made again with each range of hours at its high end
  and with few weeks of fit ground. Where an act leaves its season, hours and
  weeks are drawn: that gives the chance that the act is done in its season. A
  week is fit for all acts that wait for the same, or for none of them, and no
  week tells of the next; a mild winter is therefore worse than the chance says.
  An act with a stand-in is not carried into a later season for want of ground:
  the other is done. Below 80 in 100 an act gets a caution. Tried and told, the
  best first: to take it before other work, one more person in its crew or in
  that of what it waits for, its next season. The chance of an act that stands
  in for another is that of the cases in which it is needed.
  Float is by how many weeks an act may start later, in hours that its crew has
  left, when all stays where it is but what waits for it, which goes later too
  where it must, and none of these leaves its season.
  A fixed date on which a rule forbids the work is a stop.
  What was done (spinney help done) stays, and the rest is planned from the day
  after it. What a visit is to decide is told apart until it has found that.

what if:
  With hours_each = input "hours" { default = 10 h/wk } in a crew, the plan is
  made with other hours by spinney run PLAN.rx --set "hours=14 h/wk". People,
  dates and widths likewise (spinney help input), several by a --set each.

for example:
  local fell = cut "fell" { stand = "Bench aspen", species = "aspen",
    during = season "dormant", first = true }
  job "piles" { stand = "Bench aspen", amount = 4,
    rate = "brush pile", skill = "saw", after = fell, wait = 2 wk,
    by = Apr 15 2027 }
  local screen = plant { stand = "Old pasture", species = "white spruce",
    count = 100 plants, during = season "spring planting" }
  protect { on = screen, how = "cage", after = screen, within = 2 wk }
  job "survey the line" { stand = "Bench aspen", days = 2 d, date = Nov 9 2026 }]],
        { "float", "chance", "bound", "lag", "lags", "clash", "deadline", "what if", "priority" } },
    { "labor", [[
labor
  Hours are person-hours: two people for three hours are 6 h. An act's hours are
  what there is to do by the rate of the work (spinney help rate lists them all,
  with their sources), then

    the ground     a slope over 20 percent, over 35, or heavy brush: the worse
                   one of them; snow deeper than 12 in besides (snow = 14 in).
                   Rates too: "steep ground", "pace on a slope", "deep snow"
    the crew       pace = 70 percent, or "owner", "learning" by the rates
                   "pace, owner", "pace, learning"; partner = true where one of
                   them only stands by while a saw runs
    hours = 6 h    told in the act: taken as it is

  Felling goes by diameter, species and way: "felling", "felling, oak",
  "felling, conifer", "felling high stumps", "girdling", "hinge cutting", or by
  the one crew that does it, "felling, owners". Cleanup goes by how dense the
  felled trees stood, trails by brush or by stems on an acre. For other work:

    job "piles" { stand = "A", amount = 6, rate = "brush pile" }

  A crew has hours_each a week and day_each at most on a day, both of them the
  same all year or others in seasons and on dates; days off; and travel, off
  its hours, for each day it comes. Its hours are of work: of 8 h on the ground
  about 6 are (common practice, no source). Work that nobody has the skill for
  is told as not placed. Rates are the trade's habits, most without a source:
  your own counts are better. An act's hours line by line: spinney why PLAN.rx
  ACT.hours.

for example:
  crew "owner" { people = 2, hours_each = 10 h/wk, skills = { "saw" },
    pace = 80 percent, partner = true, off = { Nov 15 to Nov 30 } }
  rate "felling, owner" { value = 8 to 12 trees/h,
    source = "our own count of two days" }
  cut "fell" { stand = "Bench aspen", species = "aspen", crew = "owner",
    during = season "dormant" }]], { "hours", "work", "person-hours" } },
    { "costs", [[
costs
  What the papers add up, each a range, and total.NAME for spinney why:

    labor_cost       hours times the rate of the crew that does them; a crew
                     without a rate, the owners, costs nothing
    machine_cost     hired machines by the hour with operator; moving in, once
                     for jobs of one machine less than a week apart
    materials_cost   plants, guards, seed, product and oil, as far as prices are
                     told; what has none is named
    contract_cost    jobs bought by the amount, such as a survey by the foot
    stated_cost      acts whose cost the plan states, such as a bid
    travel_cost      travel, travel_cost or distance of a crew, for each day
                     that it comes by the schedule, or came for what is done
    contingency      rates "contingency, work" and "contingency, materials" on
                     what is still to come, not on what is stated or done; or
                     property { contingency = 10 to 20 percent }
    cost             all of these; spent and cost_left once something is done
    crew_cost, NAME  the bill of one crew that is paid, a part of these: its
                     labor, its travel, and what is stated for its acts
    cost_share       what programs are expected to pay: any act takes
                     cost_share = 800 USD, 150 USD/ac or 60 percent, and program
    stumpage         wood sold, where its price is told (spinney help sale)
    net_cost         cost less what comes back

  Acts that are not placed, or stand in for another, cost nothing.
  property { budget = 15000 USD } is held against cost, not net_cost.
  Prices of wood, and which of them holds: spinney help sale.

for example:
  crew "saw crew" { people = 3, hours_each = 35 h/wk, skills = { "saw" },
    rate = 45 to 60 USD/h, distance = 25 mi }
  cut "fell" { stand = "Bench aspen", species = "aspen", crew = "saw crew",
    during = season "dormant",
    cost_share = 300 USD/ac, program = "young forest practice" }
  price "stumpage, pulpwood" { value = 8 to 14 USD/cord, source = "two bids" }
  sale "poles" { stand = "Oak ridge", at_least = 5 in,
    during = season "frozen ground" }]], { "money", "logger" } },
}
