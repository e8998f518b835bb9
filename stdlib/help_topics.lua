--- Help on matters that are no primitive: word, page.
return {
    { "measures", [[
measures
  A measure is a number followed on the same line by a unit:
  15 ft, 3.4 ac, 80 ft2/ac, 45 USD/h, 60 percent. spinney help units lists the
  units; ft2, ft3 and the like are made of them, and so are ft2/ac, h/ac,
  USD/plant, gal/ac, which are written without blanks.

  Like is added to like and compared with it, whatever the unit: 12 in == 1 ft.
  Anything is multiplied and divided: 15 trees/ac * 3.4 ac is 51 trees.
  Stems, trees, plants and guards are counts of their own: they are not added
  to each other.
  h and min are work, what a person spends; d, wk, mo and yr are time that
  passes. 10 h/wk is work in a week; only a crew's calendar turns one into the
  other. Hours are person-hours: two people for three hours are 6 h.
  1 tree_length is the height of the tallest trees of the stand it is said of.

    m:number "ft"            the bare number of feet
    m:say "yd"               the same measure in yards
    m:named "words"          the same measure under a name, for why
    measure(n, "ft")         a measure of a number that is computed
    ceil(m, "plants")        up to whole plants; floor(m, "plants") down
    min, max, sum, sqrt, abs of measures
    same(a, b, within)       are they equal, or nearly so?
    m:key()                  a text for the key of a table

  w == 3 is never true where w is 3 ft: Lua compares a measure with a bare
  number without asking. Write w == 3 ft. Where the text shows such a line,
  Spinney warns of it.
  Write 1000 ft; 1,000 and 1_000 are refused.
  The foot is the international foot, 0.3048 m exactly. The US survey foot,
  longer by two parts in a million and retired at the end of 2022, is not
  offered: on a mile the two differ by an eighth of an inch.]] },
    { "ranges", [[
ranges
  2 to 3 h, 40 to 60 ft, 2 to 3: a quantity that is not known better.

  Nine chances in ten that it is above the low end, nine in ten that it is
  below the high one. The middle is the likely value unless you say which is:
  2 to 3 h around 2.2.
  A total is computed from the likely values, so that it adds up on paper. Its
  own low and high are the 10th and 90th percentile of 4,096 draws through the
  whole computation. Where the middle of the draws lies some percent off the
  likely value, the papers add "typically".

  Each time a range is read it is a quantity of its own: ten jobs of 2 to 3 h
  may come out differently, and partly even out. A range under a name (local
  each = 2 to 3 h), a rate and a price are one quantity, shared by all that use
  it: if it comes out high, it is high for all ten.

    range(a, b), range(a, b, around)   with names in place of numbers
    m:low "h", m:high "h"              its ends, as bare numbers
    chance(a, b)                       the chance that a exceeds b

  Comparing (<, >, ==) goes by the likely values.]] },
    { "dates", [[
dates
  Oct 14 2026 is a date, Nov 15 a day of any year, Nov 15 to Mar 31 a window
  that comes round every year, over New Year too.

    date + 2 wk, date - 3 d, date + 1 yr      another date
    date - date                               the days between
    date.year, date.month, date.day           bare numbers
    date(2026, 10, 14)                        a date of computed numbers
    window:has(date)                          is it open then?
    window:next(date)                         the first open day from then on
    window:days(date, date), window:weeks(date, date)   how many are open
    window + window                           either
    window * window, window - window          both, one but not the other
    window(day, day), day:in_year(2027)       of computed days

  In papers dates stand as in scripts; in data as 2026-10-14.]] },
    { "parts", [[
parts
  What is meant of a stand, when it is not the whole of it.

    part = 25 percent
    part = { "north of the two-track", 40 percent }
        words for the crew, and the share, where there is no map to measure it
    buffer { of = "Quill Creek", inside = "Alder run", width = 30 ft }
        its ground comes off before anything else is figured
    keep { stand = "Bench aspen", area = 0.2 ac }
        a clump; its ground likewise

  and of its trees:

    species = "aspen", except = "oak"
    at_least = 5 in, below = 12 in                    by diameter
    share = 35 percent                                so many of those
    leave = 15 trees/ac, leave_which = "largest"
    leave_marked = "yellow ribbon", marked = 12 trees
    keep { stand = "Bench aspen", species = "oak", at_least = 10 in }

  Acres, trees and hours are figured of what remains. Strips that cross are
  counted twice: without a map nobody knows where they do.

  Of a stand with a shape (`map`) the map measures the part:

    part = { north_of = "two-track" }         south_of, east_of, west_of
    part = { within = 2 tree_length, of = "Quill Creek" }
    part = { beyond = 100 ft, of = "road" }
    part = { map = "wet end" }                a shape of the map, a traverse
    part = { south_of = "two-track", beyond = 50 ft, of = "wetland" }
                                              all that stands in it must hold
    part = { "the wet end", within = 90 ft, of = "pond" }
                                              with words of your own for it

  What is named is a feature, a stand, a name in the map, a kind of feature
  (all of that kind), a traverse, or a list of these: on the side of each of
  them, and as near to any. It may be described further down.

  A line parts the stand in two. Pieces that meet within 60 ft are one line,
  and where it crosses its own way the loop is cut out. One that does not reach
  right across is carried straight on, each end the way of its last 100 ft;
  both are said. A line that runs north and south has no northern side; east_of
  and west_of it are what can be asked. North of an area (a pond, a stand) is
  what lies beyond its northern rim, carried on due west and east from the ends
  of it; north of a point, what lies beyond an east-west line through it.
  Which lengths: common practice, no source.

  Buffers and kept clumps are taken out of such a part by their shapes. A
  length that is a range is drawn at its likely value, and its doubt is in the
  acres: spinney why tells. A part that is nothing, or the whole stand, is
  warned of.]] },
    { "maps", [[
maps
  A map gives stands, features and acts their place and their size.

    property "Quill Creek" { map = "farm.geojson", ... }
    property "Quill Creek" { map = { "farm.geojson", "walk.gpx",
      { file = "lots.shp", field = "LABEL" } }, outline = "the farm", ... }
    stand "Bench aspen" { map = "Bench aspen" }
    feature "Quill Creek" { kind = "stream", map = "creek" }

  GeoJSON, GPX (waypoints, routes, tracks), KML, Shapefile (all its parts, .prj
  too) and GeoPackage, up to 32 MB a file. They are found as `use` finds files.
  A name is the attribute `name`, or the one that field = "..." says; what it
  is, `kind` or `type`, or the one of kind_field = "...". swapped = true:
  latitude stands first. Features of one name and form are taken together.
  Coordinates are degrees of WGS84, or a projection in WGS84 or NAD83 that the
  file states; lengths and areas are figured in feet round the middle of the
  property.

  What is mended, with a warning that says what was done and how much ground it
  moved, up to 2 percent of the area: outlines that cross themselves, slivers,
  double points, spikes of a receiver. A track round a stand is closed when its
  ends lie 50 ft apart or less, or a twentieth of its length. Of a stand up to 2
  percent may lie outside the property's outline or in a stand before it: it is
  left out with a warning. More is refused. (Common practice, no source.)]] },
    { "layout", [[
layout
  Openings and trails on a stand that has a map. Without `map` of their own they
  are laid out; with it they are looked at as they were walked.

    local rest = opening "rest" { stand = "Bench aspen", use = "rest",
      count = 8, width = 40 ft, setback = 80 ft, shun = "road" }
    trail { joins = rest, ways_out = 2, toward = { "Quill Creek", "Cedars" },
      reach = 150 ft, sight = 75 ft, width = 6 ft }

  ways_out      routes out of every opening to different places, no stretch of
                which two share; 2 when none is told. Places along one edge
                count as different ones when they are 150 ft apart
  toward        where animals may leave to: a feature, a kind of feature
                ("stream") or a stand. Not told: anywhere over the rim.
                Openings that no trail joins begin within 200 ft of it
  shun          what openings and trails stay off, and no way leads to. Not
                told: road, house and property line
  setback       how far; 66 ft when none is told
  reach, sight  no cover lies farther than that from a trail or opening; nobody
                sees farther than that along a trail
  count, per_acre, share, spacing, gap
                how many openings, or how far apart
  part          of an opening: it lies in that part of the stand; `reach`
                looks at all of the stand's cover
  seed          the same number gives the same layout, another one another;
                `candidates` says how many are tried

  Buffers and kept clumps are kept out of, kept trees 10 ft off. Ranges count
  with their likely value. An opening and the one trail that joins it are laid
  out together; of several openings each is placed off those before it.
  spinney why PLAN.rx bench-aspen/rest.area tells the scores of all
  candidates.

  What a layout cannot meet is a caution, with what would meet it. So are, of
  tracks that were walked: an opening with too few ways out, a dead end (10 ft
  and more), cover out of reach, a line of sight, a shunned edge too near, a
  trail through a buffer, a clump or water. The plan's section "Openings and
  ways out" has the figures. Access trails, and machine trails that join no
  opening, are no ways out.

  All distances that are not told: common practice, no source.]] },
    { "access", [[
access
  Where the map shows how hunters come to their seats, the plan looks whether
  they give themselves away.

    property "Quill Creek" { map = "farm.geojson", ...,
      wind = { from = 250 deg, spread = 40 deg } }
    feature "pine seat" { kind = "seat", map = "pine seat" }
    feature "spruce thicket" { kind = "cover", map = "spruce thicket" }
    trail "way in" { purpose = "access", map = "way in",
      off_cover = 150 ft, upwind = 600 ft }

  The wind comes from 250 degrees and turns over 40 in all, 20 to each side.
  Bedding cover is every feature of kind cover that is an area, and every mapped
  stand with rest openings. A caution names each stretch of a way in that

    runs through bedding cover or through an opening, or nearer than off_cover
    lies less than `upwind` upwind of bedding cover

  and each seat that stands in bedding cover or upwind of it. 0 ft looks for
  none. Without a wind that part is left out, and a note says so. All of this is
  common practice, no source.]] },
    { "entries", [[
entries
  Work that is spread over years.

    entries = 4, every = 5 yr
        four equal parts, five years apart; each is an act of its own
    in_year = { 1, 2, 3 }
        the whole of it once in each of these years after the act it follows
    only_when = "frozen"
        on such ground or in such weather only; the papers say how many of a
        hundred open days are likely to be fit
    otherwise = job "oak release" { ... }
        what is done instead when it cannot be placed

  Conditions: frozen, dry, dry or frozen, snow, no snow, calm.]] },
    { "schedule", [[
schedule
  Each act is put into the earliest week that fits, sixteen years ahead. What
  must fit:

    during, not_before, by, date     its own season and dates
    after, wait, within              what comes before it, and how long before
    crew                             hours its crew has that week and day, its
                                     travel off them; without it any crew with
                                     the skill it asks for
    property "..." { hunting = ... } the owner's quiet weeks
    rules and notices                closed days; whom to tell, how long before
    only_when                        ground and weather, by the month's chance

  Closed days of a stop always hold. Those of a caution or a note give way
  when nothing else fits, and the plan then says so. first = true puts an act
  before others. What fits nowhere is listed with the reason, and with the
  fewest things that clash.
  The order of the plan is tried first; where it is not as good as can be, other
  orders and crews are: fewest acts left out, then the earliest finish of those
  marked first, then the least cost, then no act a season later than need be.
  Beside each finish stands a day before which it cannot be, whatever the order;
  spinney why PLAN.rx finish tells what holds it back.
  Then the same schedule is made again with other hours, each range at its high
  end, and where an act leaves its season, drawn: that gives the chance that the
  act is done in its season. Below 80 in 100 it gets a caution, with what helps:
  each was tried. Float is by how many weeks an act may be later, the hours of
  its crew aside, before it or what waits for it has to wait for a later season.
  A fixed date on which a rule forbids the work is a stop.
  What was done (spinney help done) stays, and the rest is planned after it.]] },
    { "labor", [[
labor
  Hours are person-hours: two people for three hours are 6 h. An act's hours are
  what there is to do by the rate of the work (spinney help rate lists them all,
  with their sources), then

    the ground     a slope over 20 percent, over 35, or heavy brush: the worse
                   one of them; snow deeper than 12 in besides (snow = 14 in)
    the crew       pace = 70 percent for people who learn; partner = true where
                   one of them only stands by while a saw runs
    hours = 6 h    told in the act: taken as it is

  Felling goes by diameter, species and way: "felling", "felling, oak",
  "felling, conifer", "felling high stumps", "girdling", "hinge cutting", or by
  the one crew that does it, "felling, owners". Cleanup goes by how dense the
  felled trees stood, trails by brush or by stems on an acre. For other work:

    job "piles" { stand = "A", amount = 6, rate = "brush pile" }

  A crew has hours_each a week and day_each at most on a day, both of them the
  same all year or others in seasons and on dates; days off; and travel, off
  its hours, for each day it comes. Work that nobody has the skill for is told
  as not placed. Rates are the trade's habits, most without a source: your own
  counts are better, rate "felling" { value = 8 to 12 trees/h, source = "..." }.]] },
    { "costs", [[
costs
  What the papers add up, each a range, and total.NAME for spinney why:

    labor_cost       hours times the rate of the crew that does them; a crew
                     without a rate, the owners, costs nothing
    machine_cost     hired machines by the hour with operator, moving in
    materials_cost   plants, guards, seed, product and oil, as far as prices are
                     told; what has none is named
    stated_cost      acts whose cost the plan states, such as a bid
    travel_cost      travel, travel_cost or distance of a crew, for each day
                     that it comes by the schedule
    contingency      rates "contingency, work" and "contingency, materials" on
                     what is still to come, not on what is stated or done; or
                     property { contingency = 10 to 20 percent }
    cost             all of these
    cost_share       what programs are expected to pay: any act takes
                     cost_share = 800 USD, 150 USD/ac or 60 percent, and program
    stumpage         wood sold, where its price is told (spinney help sale)
    net_cost         cost less what comes back

  Acts that are not placed, or stand in for another, cost nothing.
  property { budget = 15000 USD } is held against cost, not net_cost.]] },
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
    ways_out                              an input, or a name of the plan that
                                          is not local
    finish                                what holds the finish of the plan
                                          back: acts, windows and crews, from
                                          the last act backwards
    bench-aspen/fell.start                what holds this act back

  A question stands in a name's place: what a line of a script would give, with
  a plan or, for the handbook, without one.

    spinney why 'handbook.plot_radius { size = 0.1 ac }'
    spinney why PLAN.rx 'stand "Oak ridge":basal_area "oak"'

  A name as an answer shows it, "felling hours, bench-aspen/fell", will do too.
  A name that is nearly right is answered with the right one, a stand or an act
  alone with the names of its figures.
  spinney why rule "NAME" PLAN.rx shows which layer's rule holds in that plan,
  what it says and what it replaced; without a plan, among what is built in
  and the packs.]] },
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
  of these four. Nor is any of them written when nothing has a date, except
  that schedule.csv tells what could not be placed.

  In the calendar each stretch of an act and each visit is an event of whole
  days, with hours, crew, how it is done and what to take care of; and so is
  the last day to file each notice. An alarm rings at 7 in the morning, 7 days
  before (common practice, no source), or on the day the plan begins, if that
  is later. What an event is called inside (its UID) comes from property, act,
  year and stretch, not from dates: read into a calendar again after dates
  have moved, events move too, in programs that go by it. Give acts names:
  those without are numbered as they come. Stretches and acts that are no
  longer planned stay in the calendar; take them out there. The time stamp is
  the day of the walk, or that on which the plan begins, never that of the run.

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
  that the plan was read from is never written over. The exit status is that
  of a run without -o.]] },
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
  walked, starts                dates: of the walk, and the plan's first day
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
    notices[]                   name, to, file_by (a date)
    during                      the season or window it was asked for
    reason                      why it could not be placed
    usable                      share of open days fit for it, 1 for all
    weeks_left                  open weeks left in its season when it is done,
                                -1 where there is no end to it
    float_weeks                 by so many weeks it may be later, the hours of
                                its crew aside, and neither it nor what waits
                                for it has to wait for a later season; null:
                                no end
    chance                      that it is done in its season, by the ranges of
                                the hours, 0 to 1; ground and weather aside
    chance_or_more              true where that is the least it can be
    not_before                  the day before which it cannot be finished
    source                      file and line of the script it stands in
  finish                        of first_year (work of crews that could begin in
                                the first year), marked_first, all:
    acts                        how many
    planned                     the day by which all of these are done
    not_before                  the day before which they cannot be, whatever
                                the order
  totals                        quantities by name: hours, travel_hours, cost
                                and its lines labor_cost, machine_cost,
                                materials_cost, stated_cost, travel_cost,
                                contingency; cost_share, stumpage, net_cost;
                                materials
  warnings[]
    level                       stop, caution, note
    rule, act, stand            names; act is an id
    date                        the day it is about
    message, ask, source        words: what, whom to ask, where published
  unplaced[]                    act (its id), reason]] },
}
