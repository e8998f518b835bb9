--- Help on the ground: maps, layouts, ways in: word, page.
return {
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
  `spinney map farm.geojson` lists what is in a file, each name with its size,
  and the lines to write into a script.
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
                sees farther than that along a trail. Of trails or openings
                after a cut of a mapped part (cut { part = ... }), `reach` is
                asked of the cover that comes up in that part
  count, per_acre, share, spacing, gap
                how many openings, or how far apart
  part          of an opening: it lies in that part of the stand
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
}
