--- Words and doubts of estimates by eye: what "crowded" means in basal area, and how far a
--- walk through the woods without plots may be off. All of it is common practice, no
--- source; a layer may set its own.
---
--- crowding: word, basal area in ft2/ac as low, likely, high (10th, 50th, 90th percentile),
--- and what it looks like. Sawtimber and poles; a thicket of saplings is judged by stems.

local source = "common practice, no source"

return {
  crowding = {
    { word = "open", low = 15, likely = 30, high = 45, source = source,
      says = "crowns stand apart, sun on most of the ground" },
    { word = "moderate", low = 45, likely = 65, high = 85, source = source,
      says = "crowns touch here and there, sun flecks" },
    { word = "crowded", low = 80, likely = 105, high = 135, source = source,
      says = "crowns touch on all sides, lower limbs dying" },
    { word = "dense", low = 115, likely = 145, high = 185, source = source,
      says = "crowns press, many dead stems, dark below" },
  },
  --- density_percent: of basal area or stems, where one number was said.
  --- share_points: of a species that is half the stand; less towards none and all.
  --- not_walked_times: all doubts times this, where nobody walked.
  doubt = {
    density_percent = 30,
    share_points = 12,
    diameter_percent = 10,
    not_walked_times = 2,
    source = source,
  },
}
