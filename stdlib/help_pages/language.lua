--- Help on the language: measures, ranges, dates, parts of a stand: word, page.
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

  season "dormant" answers as its window does; season "dormant".window is that
  window. Days of one year alone are said by two dates,
  { from = Nov 20 2026, to = Nov 28 2026 }. The `during` of an act takes a
  window, a season, such dates, or a list of these: any of them; so do the
  `off` and the hours of a crew, and the `hunting` of a property. A plan begins
  on the day after the walk, or property { starts = Dec 1 2026 }.
  Both ends of a window are open days. In papers dates stand as in scripts; in
  data as 2026-10-14.

for example:
  local quiet = season "dormant".window - (Nov 15 to Nov 30)
  local weeks = season "dormant":weeks(Jan 10 2027, Jun 30 2027)
  cut "fell" { stand = "Bench aspen", species = "aspen", during = quiet,
    not_before = quiet:next(Nov 20 2026), by = Feb 28 2028 }]], { "date", "window", "windows", "day" } },
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
}
