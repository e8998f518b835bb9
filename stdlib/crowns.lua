--- Crown widths by diameter: start + slope x diameter, in ft and inches. Read when a crown is
--- first asked for; a layer that says crown_start or crown_slope itself is not overridden.
---
--- What is published is the widest crown, of trees grown in the open. Trees of a closed stand
--- have three quarters of that width (common practice, no source), and these rows hold for them.
local forest = need "forest"

local STAND_GROWN = 0.75
local OPEN = {
    { { "northern red oak", "northern pin oak", "black oak", "white oak", "bur oak", "swamp white oak",
        "bitternut hickory", "shagbark hickory" }, 3.12, 1.829,
      "Krajicek, Brinkman and Gingrich 1961, For. Sci. 7:35-42, open-grown oak and hickory (from memory)" },
    { { "bigtooth aspen", "quaking aspen", "balsam poplar", "paper birch", "northern white-cedar", "tamarack" },
      4, 1.4, "common practice, no source" },
    { { "sugar maple", "red maple", "silver maple", "yellow birch", "American basswood", "American beech",
        "black cherry", "American elm" }, 5, 1.8, "common practice, no source" },
    { { "red pine", "jack pine", "eastern white pine", "Scotch pine", "white spruce", "black spruce",
        "Norway spruce", "balsam fir", "eastern hemlock" }, 3, 1.3, "common practice, no source" },
}

local M = {
    --- Of species without a row: start, slope, source.
    usual = { 4 * STAND_GROWN, 1.6 * STAND_GROWN, "common practice, no source" },
}

for _, row in ipairs(OPEN) do
    for _, name in ipairs(row[1]) do
        -- A plan's own table of species may lack one.
        if forest.species_known(name) then
            forest.species_fill(name, { crown_start = row[2] * STAND_GROWN, crown_slope = row[3] * STAND_GROWN,
                source = row[4] .. "; three quarters of it in a closed stand: common practice, no source" })
        end
    end
end

return M
