--- Stocking guides: how much room a tree of its diameter takes (percent of an acre at the A
--- level), by groups of species, and the lines of each guide.
---
--- Fields: name; natural (species whose stands it is made for); groups of { name, species,
--- a, b, c } for a + b D + c D^2 (D in inches), the first one for all other species; wood =
--- true for room by the specific gravity of the wood; mean (plain mean diameter from the
--- quadratic one, where the chart has it); lines: { percent } of the A level, or a room of
--- its own { a, b, c, percent }; none (lines and guides that there are not, in words).

local MEMORY = "from memory"

return {
    --- A stand of which the species of one guide are so much of the basal area goes by that
    --- guide alone, in percent: common practice, no source.
    alone = 80,

    guides = {
        {
            name = "upland oak", natural = { "oak", "bitternut hickory", "shagbark hickory" },
            source = "Gingrich 1967, For. Sci. 13:38-53",
            groups = { { name = "upland hardwoods", a = -0.00507, b = 0.01698, c = 0.00317 } },
            -- D. R. Larsen, Univ. Missouri teaching notes, 2012.
            mean = { from = -0.259, slope = 0.973 },
            lines = {
                A = { percent = 100, says = "average most" },
                B = { a = 0.0175, b = 0.0205, c = 0.0060, percent = 100, says = "crowns of open-grown trees just close",
                    source = "Krajicek, Brinkman and Gingrich 1961, For. Sci. 7:35-42" },
            },
            none = { C = "its equation was not seen; it is the least stocking that reaches B within 10 years (Gingrich 1967)" },
        },
        {
            name = "northern hardwood",
            natural = { "maple", "American beech", "yellow birch", "American basswood", "ironwood", "American hornbeam",
                "white ash", "black cherry" },
            source = "Ernst and Knapp 1985, Gen. Tech. Rep. NE-96 (Allegheny guides, attribution from memory)",
            groups = {
                -- Black cherry and ash have an equation of their own there, of which two
                -- transcriptions conflict: they go with sugar maple.
                { name = "sugar maple and others", a = -0.003082, b = 0.006272, c = 0.00469 },
                { name = "red maple", species = { "red maple", "silver maple", "oak" },
                    species_source = "which species go with red maple: " .. MEMORY,
                    a = -0.01798, b = 0.02143, c = 0.001711 },
            },
            lines = {
                A = { percent = 100, says = "average most" },
                B = { percent = 60, says = "usual residual of a thinning", source = "60 percent of A: " .. MEMORY },
            },
            none = { C = "the guide has none" },
        },
        {
            name = "wood density", natural = {}, wood = true,
            source = "relative density by specific gravity, Ducey and Knapp 2010, For. Ecol. Manage. 260:1613-1622 (pages from memory)",
            lines = {
                A = { percent = 100, says = "the most that such wood carries" },
                B = { percent = 35, says = "the ground is fully used from here",
                    source = "35 percent of the most: Long 1985, " .. MEMORY },
            },
            none = { C = "relative density has none" },
        },
    },

    --- Names for which there is no guide of their own.
    other = {
        aspen = { none = "no published stocking line for aspen was seen",
            mend = "ask s:density_index(), set a target in trees/ac, or take guide = \"wood density\"" },
        ["red pine"] = { guide = "wood density", species = "red pine",
            note = "no equation of a red pine guide was seen" },
    },

    --- Specific gravity of wood, for species whose crowding goes by it.
    gravity = {
        source = "Wood Handbook, FPL-GTR-190, ch. 5, green volume and dry weight: " .. MEMORY,
        { "bigtooth aspen", 0.36 }, { "quaking aspen", 0.35 }, { "balsam poplar", 0.31 }, { "eastern cottonwood", 0.37 },
        { "paper birch", 0.48 }, { "black ash", 0.45 }, { "green ash", 0.53 }, { "American elm", 0.46 },
        { "red pine", 0.41 }, { "eastern white pine", 0.34 }, { "jack pine", 0.40 }, { "white spruce", 0.33 },
        { "black spruce", 0.38 }, { "balsam fir", 0.33 }, { "northern white-cedar", 0.29 }, { "eastern hemlock", 0.38 },
        { "tamarack", 0.49 },
        --- For all others: the middle of the region's.
        hardwood = 0.50, conifer = 0.37,
    },
}
