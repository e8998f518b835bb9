--- Site index curves for the species of the region, base age 50. `site_curve "name" { ... }`
--- in a layer adds one or says one again.
---
--- Fields: name; species (the first choice for those in `first_for`); of (what it was made
--- from); form, base, height (b1 to b5), site (c1 to c5 of the published equation for site
--- index, where one was seen), as src/forest/site_index.h has them; counts = "breast height"
--- where ages do; to_breast_height (years, added to age at breast height; none: the figure
--- gives it by site index, which was not seen); note (for `why`); caution (told each time).
---
--- NC-128 has several curves for a species: the figure's number is always carried. "NC-36" is
--- the number of two reports, so that paper goes by its authors.

local CARMEAN = "Carmean, Hahn and Jacobs 1989, Gen. Tech. Rep. NC-128"
local LUNDGREN = "Lundgren and Dolid 1970, Res. Pap. NC-36"
local REGION = "Carmean 1978, N Wisconsin and Upper Michigan"
local RESTORED = "columns put back in order after a bad transcription, the paper not seen"

local M = {
    --- Ages that the curves are good for, in years: span of most figures, from memory; the
    --- figures themselves were not seen.
    from = 20, to = 100, span_source = "from memory",
}

local function figure(number, row)
    row.name = "NC-128 fig. " .. number
    row.short = "fig. " .. number
    row.source = CARMEAN
    M[#M + 1] = row
end

-- Coefficients: from an open table that transcribes each figure.
figure("48", { species = { "northern red oak" }, first_for = { "northern red oak" },
    of = "northern red oak, " .. REGION .. ", 37 plots", to_breast_height = 4,
    height = { 6.1785, 0.6619, -0.0241, 25.0185, -0.7400 }, site = { 0.1692, 1.2648, -0.0110, -3.4334, -0.3557 } })
figure("47", { species = { "northern red oak" },
    of = "northern red oak, Gevorkiantz 1957, SW Wisconsin", to_breast_height = 4,
    height = { 1.5403, 1.0006, -0.0216, 1.0616, -0.0044 } })
figure("49", { species = { "black oak" }, first_for = { "black oak" },
    of = "black oak, Carmean 1971, 1972", to_breast_height = 3,
    height = { 2.9989, 0.8435, -0.0200, 3.4635, -0.3020 }, site = { 0.2598, 1.1721, -0.0107, -2.3272, -0.2825 } })
figure("41", { species = { "white oak" }, first_for = { "white oak" },
    of = "white oak, Carmean 1971, 1972", to_breast_height = 3, note = "height curve: " .. RESTORED,
    height = { 4.5598, 0.8136, -0.0132, 2.2410, -0.1880 }, site = { 0.3387, 1.0135, -0.0076, -0.9644, -0.0176 } })
figure("36", { species = { "northern red oak", "black oak", "white oak" },
    of = "upland oaks, Schnur 1937", to_breast_height = 3,
    height = { 2.1037, 0.9140, -0.0275, 3.7962, -0.2530 }, site = { 0.1890, 1.2031, -0.0081, -2.1975, -0.2582 } })
figure("32", { species = { "bigtooth aspen", "quaking aspen" }, first_for = { "bigtooth aspen", "quaking aspen" },
    of = "bigtooth and quaking aspen, " .. REGION .. ", 13 plots", to_breast_height = 4,
    height = { 5.2188, 0.6855, -0.0301, 50.0071, -0.8695 }, site = { 0.0612, 1.4390, -0.0050, -3.9080, -0.4350 } })
figure("31", { species = { "quaking aspen" },
    of = "quaking aspen, Gevorkiantz 1956 from Kittredge and Gevorkiantz 1929", to_breast_height = 4,
    height = { 1.4475, 1.0098, -0.0200, 0.8489, 0.0146 }, site = { 0.6755, 1, -0.0213, -0.9367, -0.0002 } })
figure("1", { species = { "red maple" }, first_for = { "red maple" },
    of = "red maple, " .. REGION .. ", 174 plots", to_breast_height = 4,
    height = { 2.9435, 0.9132, -0.0141, 1.6580, -0.1095 }, site = { 0.3263, 1.0634, -0.0106, -1.2573, -0.0646 } })
figure("3", { species = { "sugar maple" }, first_for = { "sugar maple" },
    of = "sugar maple, " .. REGION .. ", 177 plots", to_breast_height = 4,
    height = { 6.1308, 0.6904, -0.0195, 10.1563, -0.5330 }, site = { 0.1984, 1.2089, -0.0110, -2.4917, -0.2542 } })
figure("6", { species = { "yellow birch" }, first_for = { "yellow birch" },
    of = "yellow birch, " .. REGION, to_breast_height = 4,
    height = { 6.0522, 0.6768, -0.0217, 15.4232, -0.6354 }, site = { 0.1817, 1.2430, -0.0110, -3.0184, -0.3180 } })
figure("9", { species = { "paper birch" }, first_for = { "paper birch" },
    of = "paper birch, " .. REGION, to_breast_height = 4,
    height = { 2.4321, 0.9207, -0.0168, 1.5247, -0.1042 }, site = { 0.5119, 1.0229, -0.0167, -1.0284, -0.0049 } })
figure("7", { species = { "paper birch" },
    of = "paper birch, Cooley 1958, 1962, N Wisconsin", to_breast_height = 4,
    height = { 1.5980, 1, -0.0198, 0.9824, 0 } })
figure("11", { species = { "American beech" }, first_for = { "American beech" },
    of = "American beech, " .. REGION, to_breast_height = 4,
    height = { 29.7300, 0.3631, -0.0127, 16.7616, -0.6804 } })
figure("13", { species = { "white ash" }, first_for = { "white ash" },
    of = "white ash, " .. REGION, to_breast_height = 4,
    height = { 4.1492, 0.7531, -0.0269, 14.5384, -0.5811 } })
figure("14", { species = { "black ash" }, first_for = { "black ash" },
    of = "black ash, " .. REGION, to_breast_height = 4,
    height = { 4.2286, 0.7857, -0.0178, 4.6219, -0.3591 }, site = { 0.2388, 1.1583, -0.0102, -1.8455, -0.1883 } })
figure("15", { species = { "green ash" }, first_for = { "green ash" },
    of = "green ash, Broadfoot 1969, Mississippi valley", to_breast_height = 2, note = RESTORED,
    caution = "made in the Mississippi valley, far out of the region",
    height = { 1.6505, 0.9096, -0.0644, 125.7045, -0.8908 } })
figure("34", { species = { "black cherry" }, first_for = { "black cherry" },
    of = "black cherry, " .. REGION, to_breast_height = 4,
    height = { 5.1493, 0.6948, -0.0248, 20.9210, -0.7143 }, site = { 0.1073, 1.3455, -0.0070, -3.3034, -0.3899 } })
figure("51", { species = { "American basswood" }, first_for = { "American basswood" },
    of = "basswood, " .. REGION, to_breast_height = 4,
    height = { 4.7633, 0.7576, -0.0194, 6.5110, -0.4156 }, site = { 0.1921, 1.2010, -0.0100, -2.3009, -0.2331 } })
figure("53", { species = { "American elm" }, first_for = { "American elm" },
    of = "American elm, " .. REGION, to_breast_height = 4,
    height = { 6.4362, 0.6827, -0.0194, 10.9767, -0.5477 } })
figure("55", { species = { "balsam fir" }, first_for = { "balsam fir" },
    of = "balsam fir, Carmean and Hahn 1981, Lake States",
    height = { 2.0770, 0.9303, -0.0285, 2.8937, -0.1414 }, site = { 0.4100, 1.0799, -0.0205, -2.1577, -0.1295 } })
figure("54", { species = { "balsam fir" }, counts = "breast height", base = 4.5,
    of = "balsam fir, Carmean and Hahn 1981, Lake States, age at breast height",
    height = { 1.0438, 1.0708, -0.0222, 1.5915, -0.1068 } })
figure("66", { species = { "white spruce" }, first_for = { "white spruce" }, counts = "breast height", base = 4.5,
    of = "white spruce, age at breast height",
    height = { 4.4803, 0.7382, -0.0289, 26.6132, -0.6461 } })
figure("60", { species = { "tamarack" }, first_for = { "tamarack" },
    of = "tamarack, Gevorkiantz 1957, Minnesota", height = { 1.5470, 1, -0.0225, 1.1129, 0 } })
figure("70", { species = { "black spruce" }, first_for = { "black spruce" },
    of = "black spruce, Gevorkiantz 1957, NE Minnesota", height = { 1.7620, 1, -0.0201, 1.2307, 0 } })
figure("74", { species = { "jack pine" }, first_for = { "jack pine" },
    of = "jack pine, Gevorkiantz 1956",
    height = { 1.6330, 1, -0.0223, 1.2419, 0 }, site = { 0.6124, 1, -0.0223, -1.2419, 0 } })
figure("95", { species = { "red pine" }, first_for = { "red pine" },
    of = "red pine, Gevorkiantz 1957, Minnesota",
    height = { 1.8900, 1, -0.0198, 1.3892, 0 }, site = { 0.5291, 1, -0.0198, -1.3892, 0 } })
figure("103", { species = { "eastern white pine" }, first_for = { "eastern white pine" },
    of = "eastern white pine, Gevorkiantz 1957, N Wisconsin",
    height = { 1.9660, 1, -0.0240, 1.8942, 0 }, site = { 0.5086, 1, -0.0240, -1.8942, 0 } })
figure("126", { species = { "northern white-cedar" }, first_for = { "northern white-cedar" },
    of = "northern white-cedar, Gevorkiantz 1957", height = { 1.9730, 1, -0.0154, 1.0895, 0 } })
figure("127", { species = { "eastern hemlock" }, first_for = { "eastern hemlock" },
    of = "eastern hemlock, Frothingham 1915", to_breast_height = 6,
    height = { 2.1493, 0.9979, -0.0175, 1.4086, -0.0008 } })

local function lundgren(word, species, height, error_ft, counts)
    M[#M + 1] = { name = "Lundgren and Dolid 1970, " .. word, short = "Lundgren and Dolid 1970", species = species,
        of = ("%s, standard error %s ft"):format(word, error_ft), source = LUNDGREN, counts = counts,
        height = { height[1], 1, height[2], height[3], 0 } }
end

-- H = b1 S (1 - e^(b2 A))^b3: b1, b2, b3. White spruce is left out: its authors do not
-- recommend it.
lundgren("aspen", { "bigtooth aspen", "quaking aspen" }, { 1.480, -0.02140, 0.9377 }, "0.41")
lundgren("red oak", { "northern red oak" }, { 1.558, -0.02179, 1.0673 }, "1.42")
lundgren("paper birch", { "paper birch" }, { 1.598, -0.01938, 0.9824 }, "0.32")
lundgren("red pine", { "red pine" }, { 1.890, -0.01979, 1.3892 }, "0.64")
lundgren("jack pine", { "jack pine" }, { 1.633, -0.02233, 1.2419 }, "0.50")
lundgren("white pine", { "eastern white pine" }, { 1.966, -0.02399, 1.8942 }, "0.66")
lundgren("balsam fir", { "balsam fir" }, { 1.437, -0.02266, 0.9381 }, "0.69", "breast height")
lundgren("black spruce", { "black spruce" }, { 1.762, -0.02011, 1.2307 }, "0.72")
lundgren("tamarack", { "tamarack" }, { 1.547, -0.02246, 1.1129 }, "0.52")
lundgren("white-cedar", { "northern white-cedar" }, { 1.973, -0.01535, 1.0895 }, "0.66")

local function simpler(word, species, a, b1, b2)
    M[#M + 1] = { name = ("Lundgren and Dolid 1970, %s, simpler form"):format(word), species = species,
        of = word .. ", simpler form", source = LUNDGREN, form = "exponential", height = { a, b1, b2 } }
end

-- H = S (a + b1 e^(b2 A)).
simpler("aspen", { "bigtooth aspen", "quaking aspen" }, 1.460, -1.4337, -0.02274)
simpler("red oak", { "northern red oak" }, 1.582, -1.6005, -0.02023)
simpler("paper birch", { "paper birch" }, 1.594, -1.5841, -0.01961)
simpler("red pine", { "red pine" }, 1.956, -2.1757, -0.01644)

return M
