--- Help on running Spinney: runs, questions, exit status, files, layers, data: word, page, other
--- words that lead to it.
return {
    { "run", [[
run
  spinney run PLAN.rx makes a plan and prints it: stops first, then what is
  there, what to do, when, what it takes and costs, cautions and notes.

    spinney run PLAN.rx -o DIR           writes it to files (spinney help files)
    spinney run PLAN.rx --json           prints it as data (spinney help data)
    spinney run PLAN.rx --set people=3   with another value of an input of the
                                         plan (spinney help input); with several
                                         by a --set each
    spinney run PLAN.rx --pack DIR       with your own rates, rules and
                                         prescriptions (spinney help packs)
    spinney check PLAN.rx                its warnings alone, a line each
    spinney why PLAN.rx NAME             where a number comes from, or what
                                         holds an act back (spinney help why)

  --set and --pack may be said to check and why as well. Nothing hangs on the
  clock: the same inputs give the same bytes, on any day.]], { "check", "set", "options" } },
    { "why", [[
why
  spinney why PLAN.rx NAME shows where a number comes from: the quantity, how
  it is computed, and each thing it is computed of, down to what was typed,
  tallied or published. "(above)" marks what is told further up already.

    total.hours, total.cost, total.NAME   of the whole plan
    bench-aspen/fell.hours                of an act: its id, a dot, the figure;
                                          the id is the stand and the act's
                                          name or kind, in lower case with
                                          hyphens
    "Bench aspen.trees"                   of a stand: area, trees, basal_area,
                                          diameter; of one of its species:
    "Bench aspen.trees.white oak"
    "Bench aspen.stocking"                and whatever else a stand answers:
    "Oak ridge.site_index.red oak"        spinney help stand
    "Bench aspen.expected.5.height"       of a year, one of its figures
    total.budget                          the chance that it is not enough
    ways_out                              an input, or a name of the plan that
                                          is not local
    finish                                what holds the finish of the plan
                                          back: acts, windows and crews, from
                                          the last act backwards
    bench-aspen/fell.start                what holds this act back
    bench-aspen/fell.chance               how sure it is that it keeps its
                                          season; .float, how much later it may
                                          be

  A question stands in a name's place: what a line of a script would give, with
  a plan or, for the handbook, without one.

    spinney why 'handbook.plot_radius { size = 0.1 ac }'
    spinney why PLAN.rx 'stand "Oak ridge":basal_area "oak"'

  A name as an answer shows it, "felling hours, bench-aspen/fell", will do too.
  A name that is nearly right is answered with the right one, a stand or an act
  alone with the names of its figures.
  spinney why rule "NAME" PLAN.rx shows which layer's rule holds in that plan,
  what it says and what it replaced; without a plan, among what is built in
  and the packs. So of a season, condition, notice, rate or price:
  spinney why season "dormant" PLAN.rx.]] },
    { "limit", [[
limit
  Is the tree at the edge in? For the field: how far from the point a tree of
  that diameter may stand and be counted by a prism of that factor.

    spinney limit 10 12.4         basal area factor, diameter in inches
    spinney limit 20 14.1 30%     and the slope between the point and the tree
    spinney limit 10              a table for trees of 4 to 30 in
    spinney limit 10 30%          the same along a slope

  It prints the distance to the tree's center and to its face at breast height,
  which is half a diameter nearer: the tape goes to one or the other, and the
  two are not mixed up. A tree nearer than that is in, a tree farther is out,
  one exactly there is borderline: every other such tree is counted, or each
  as half, `12 half` in cruise notes (spinney help tally). Common practice, no
  source. In a script: handbook.limiting_distance.]] },
    { "exit", [[
exit
  What spinney's exit status says, for those who call it from a program:

    0    fine
    1    the plan has a stop
    2    a script or its input is wrong; nothing is printed but what is wrong
    64   the command line is wrong

  What is wrong goes to the error output as file:line:column: error: words,
  the line itself, and mostly a mend behind "try:". Warnings look alike and
  change nothing.]] },
    { "files", [[
files
  spinney run PLAN.rx -o DIR writes files in place of printing the plan, and
  prints a line for each. DIR is made when there is none.

    plan.txt       the plan, as it is printed without -o
    plan.json      the plan as data (spinney help data)
    weeks.txt      the crews' sheet: each week with work, what is done in it by
                   whom, and in how many of the hours that the crew has
    weeks.csv      the same for a spreadsheet: week (its Monday), crew, act,
                   hours, and the hours that the crew has for all of that week
    schedule.csv   the acts for a spreadsheet: dates, hours and cost, notices,
                   float and chance as in plan.json; a row for each stretch of
                   days, with its part of hours and cost (a pause of more than
                   14 days parts them, as in the plan), then the acts that
                   have no days, with the reason
    schedule.ics   the dates for calendar programs (RFC 5545)

  Ground that is only kept, by buffer or keep, has no days and stands in none
  of these four. Nor is any of them written when nothing has a date, nor the
  two of weeks when all that has one is done. What could not be placed
  stands in schedule.csv even then.

  In the calendar each stretch of an act and each visit is an event of whole
  days, with hours, crew, how it is done and what to take care of; and so is
  the last day to file each notice. An alarm rings at 7 in the morning, 7 days
  before (common practice, no source), or on the day the plan begins or from
  which a notice may be filed, if that is later. What an event is called inside
  (its UID) comes from property, act, year and stretch, not from dates: read
  into a calendar again after dates have moved, events move too, in programs
  that go by it. Give acts names: those without are numbered as they come.
  Stretches and acts that are no longer planned stay in the calendar; take them
  out there. The time stamp is the day of the walk, or that on which the plan
  begins, never that of the run.

  When openings, trails, buffers or kept clumps of the plan have a place
  on the property's map (spinney help property), the flags to walk to:

    flags.txt      the way from flag to flag by compass and pace, to take along
    flags.csv      the same for a spreadsheet; degrees, feet, paces
    flags.gpx      GPX 1.1 for receivers and phones: flags as waypoints, the
                   way as a route, rims and trails as tracks
    flags.kml      flags and shapes for map programs
    flags.geojson  the same as GeoJSON (RFC 7946)

  Flagged are the centers of openings, ends and bends of trails and of the
  inner edges of buffers, and corners of kept clumps. Each of these is walked
  along from one end to the other. The way starts at the nearest feature of
  kind "gate" that is on the map. property { declination = -3.5 deg,
  pace = 2.6 ft } gives compass bearings and paces.

  All texts are made first, and the files are written all or none: when a
  script is wrong or the disk is full, the old ones stay as they were. A file
  that the plan was read from is never written over; a link in DIR is replaced,
  and the file it leads to left alone. The exit status is that of a run
  without -o.

  What does a change change? Write two folders and compare the files, by eye or
  by any program that compares texts; the same inputs give the same bytes:

    spinney run PLAN.rx -o now
    spinney run PLAN.rx -o then --set "hours=14 h/wk"]],
        { "calendar", "ics", "csv", "spreadsheet", "compare" } },
    { "layers", [[
layers
  built-in, region, state under the region, pack, property, plan: a rate,
  price, season, rule, notice or species said again in a later layer takes the
  place of the one before. A file that the plan reads by use is of the
  property's layer.
  The same name twice in one file is refused.

    rate "felling" { value = 8 to 12 trees/h, source = "our own records" }
        comes before the built-in "felling, oak" too: what a later layer says
        of all trees holds over what an earlier one says of some
    rule "ash" { level = "note", applies_to = { "keep" }, off = true,
                 says = "no ash here", source = "walked Oct 14 2026" }

  spinney why rule "ash" PLAN.rx tells which holds and what it replaced; why
  of any number names the layer of each rate and price in it.]] },
    { "packs", [[
packs
  A pack is a folder of your own, laid over what is built in:
  spinney run PLAN.rx --pack DIR, or SPINNEY_PATH=DIR:DIR for every run. Later
  ones lie over earlier ones, those of --pack over those of SPINNEY_PATH.

    DIR/pack.rx
        its manifest, read first: pack { reads = { "rates.rx", "rules.rx" } };
        rates, prices, rules, seasons and species may stand in it as well
    DIR/prescriptions/NAME.rx
        a prescription, for apply "NAME"; it takes the place of one of that name
        in the book
    DIR/regions/REGION.rx, DIR/regions/REGION/STATE.rx
        a region or a state, or more of a built-in one

  pack { units = { { "bundle", plural = "bundles" } } } adds a count of its
  own, { "rope", like = "ft", factor = 20 } a unit of 20 ft.
  A script reads files of the plan's folder, of the packs and of the book, no
  others.]] },
    { "scripts", [[
scripts
  A script is Lua 5.4 with measures, ranges, dates and the words of
  spinney help. It may come from a stranger: it cannot read other files, write
  any, start programs, or ask the clock. Lua's string, table, math, utf8 and
  coroutine are there; pairs goes in sorted order.
  It is stopped when it takes too many steps or too much memory; --steps N
  (millions) and --memory N (megabytes) change how much is too much. --trace
  adds Lua's own traceback to a message.
  What an act amounts to is settled when the script has ended: a function
  given to suits or to a rule may read it, the script itself may not.]] },
    { "data", [[
data
  spinney run PLAN.rx --json prints the whole plan as JSON. Keys come in this
  order. Dates are "2026-10-14"; what is not known is null. A quantity is
  { "value", "low", "high", "unit" }, with "median" where the middle of the
  draws lies off the value.

  property, region, county      names
  walked, starts                dates: of the walk, and the plan's first day, or
                                the day after the last of what is done
  stands[]
    name, known_from            "tally, 6 plots", "by eye", "not walked"
    area, basal_area, trees, diameter
                                quantities, as far as known
    ground                      its acres by what is done there, every acre
                                once: kept, open, trail, buffer, cut, worked,
                                untouched
    species[]                   species, basal_area, trees, diameter
    expected[]                  what stands there now, after its first cut, and
                                in growing seasons since (spinney help
                                stand:outlook)
      when                      now, after, year 1, year 2, year 5, year 10
      year, season              seasons since the first cut, 0: just after it;
                                that season's year
      use                       which game uses it, and for what
      basal_area, trees, stems, height, mean_height, light, hides_lying,
      hides_standing, browse, deer_days, mast
                                quantities
    stages[]                    of each cut patch that becomes young forest,
                                in years: act (its id), first_season,
                                hides_lying, hides_standing (a deer),
                                best_browse, useful_until, next_cut
    ways_out                    openings and trails on the map (spinney help
                                layout), null where there are none
      trail_length, farthest_cover, longest_sight, opened, out_of_reach
                                quantities, where there are trails; the last two
                                are shares of the cover
      openings[]                act (its id), number, ways_out (found),
                                ways_asked, lon, lat, area, shunned_distance
                                (to the nearest edge that is shunned), shunned
                                (its name)
      dead_ends[]               act, lon, lat, length, where (in words)
      candidates[]              of a layout: act, seed, candidate (its number),
                                kept (1 or 0), openings, trails, evenness, cost,
                                failed (asks), length
  acts[]
    id, kind, title             "bench-aspen/fell", "cut", "Cut trees flush"
    stand, prescription, crew   names
    state                       placed, unplaced, done, not needed
    start, finish               dates
    quantities                  quantities by name: hours, cost, acres ...; the
                                help of each kind of act lists its own
    notices[]                   name, to, file_by (the last day to file it, the
                                first time), filed (the day it was, already),
                                filings[] (from, by: the days between which it
                                is filed, each time that it has to be: it
                                expires)
    during                      the season, window or dates it was asked for
    reason                      why it could not be placed
    usable                      share of open days fit for it, 1 for all
    weeks_left                  open weeks left in its season when it is done,
                                -1 where there is no end to it
    float_weeks                 by so many weeks it may start later, in hours
                                that its crew has left, and neither it nor what
                                waits for it leaves its season, all else staying
                                where it is; null: no end
    chance                      that it is done in its season, 0 to 1, by the
                                ranges of the hours and, where acts wait for
                                ground or weather, the chance of fit weeks; null
                                where its date is stated and closed
    chance_or_more              true where that is the least it can be
    not_before                  the day before which it cannot be finished
    source                      file and line of the script it stands in
  finish                        of first_year (work of crews that could begin in
                                the first year), marked_first, all:
    acts                        how many
    planned                     the day by which all of these are done
    not_before                  the day before which they cannot be, whatever
                                the order
  totals                        quantities by name: hours, hours_done and
                                hours_left, travel_hours, cost, spent and
                                cost_left; the lines of cost: labor_cost,
                                machine_cost, materials_cost, contract_cost,
                                stated_cost, travel_cost, contingency;
                                "crew_cost, saw crew", a crew's part of it;
                                cost_share, stumpage, net_cost;
                                materials, each where there is any: trees_cut,
                                cords, plants, guards, fence, posts, seed, mix,
                                product, fuel (of saws), bar_oil, diesel,
                                sawlogs, pulpwood, loads; "plants, white
                                spruce" is a part of them
  warnings[]
    level                       stop, caution, note
    rule, act, stand            names; act is an id
    date                        the day it is about
    message, ask, source        words: what, whom to ask, where published
  unplaced[]                    act (its id), reason
  waiting[]                     what a visit may ask for: act (the id it will
                                have), title, visit (its id), when (what it has
                                to find; null: comes with another),
                                quantities]] },
}
