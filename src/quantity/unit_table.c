/* The units of the trade. Base units are in dim.h: 0.1 mm, 10 micrograms, person-minute,
 * day. Lengths are of the international foot, 0.3048 m exactly (1959). The US survey foot
 * is 1200/3937 m, two parts in a million longer, and was retired at the end of 2022
 * (notice of NIST and NOAA, 85 FR 62698, from memory); an acre is 43,560 ft2 of either,
 * so an acre by survey feet is four parts in a million larger: 0.17 ft2, less than any
 * line on the ground is known to.
 *
 * H44 is NIST Handbook 44, appendix C, "General tables of units of measurement"; SP 811
 * is NIST Special Publication 811 (2008); SI is the SI brochure as SP 811 gives it. The
 * numbers of sections and tables are from memory; every factor is checked against an
 * independent converter in tests/unit/quantity/test_unit_against_units.c. */
#include "quantity/unit_inner.h"

#define INCH 254.0  /* 25.4 mm */
#define FOOT 3048.0 /* 12 in */
#define MILLIMETRE 10.0
#define METRE 10000.0
#define FOOT2 (FOOT * FOOT)
#define FOOT3 (FOOT * FOOT * FOOT)
#define GALLON (231.0 * INCH * INCH * INCH)
#define LITRE 1e9       /* 1 dm3 */
#define POUND 45359237.0 /* 0.45359237 kg */
#define GRAM 1e5
#define YEAR 365.2425   /* 146,097 days in 400 years */

static const struct unit_spec table[] = {
    { "ft", "ft", DIM_LENGTH, 1, FOOT, "foot, international",
      "SP 811 B.8: 1 ft = 0.3048 m exactly", .aliases = { "foot", "feet" } },
    { "in", "in", DIM_LENGTH, 1, INCH, "inch", "SP 811 B.8: 1 in = 2.54 cm exactly",
      .aliases = { "inch", "inches" } },
    { "yd", "yd", DIM_LENGTH, 1, 3 * FOOT, "yard", "H44: 1 yd = 3 ft",
      .aliases = { "yard", "yards" } },
    { "rod", "rods", DIM_LENGTH, 1, 16.5 * FOOT, "rod", "H44: 1 rod = 16 1/2 ft",
      .aliases = { NULL } },
    { "chain", "chains", DIM_LENGTH, 1, 66 * FOOT, "chain (surveyor's)",
      "H44: 1 chain = 66 ft", .aliases = { NULL } },
    { "link", "links", DIM_LENGTH, 1, 201168.0 / 100, "link, a hundredth of a chain",
      "H44: 1 link = 0.66 ft", .aliases = { NULL } },
    { "mi", "mi", DIM_LENGTH, 1, 5280 * FOOT, "mile", "H44: 1 mi = 5,280 ft",
      .aliases = { "mile", "miles" } },
    { "mm", "mm", DIM_LENGTH, 1, MILLIMETRE, "millimeter", "SI",
      .aliases = { "millimeter", "millimeters", "millimetre", "millimetres" } },
    { "cm", "cm", DIM_LENGTH, 1, 10 * MILLIMETRE, "centimeter", "SI",
      .aliases = { "centimeter", "centimeters", "centimetre", "centimetres" } },
    { "m", "m", DIM_LENGTH, 1, METRE, "meter", "SI",
      .aliases = { "meter", "meters", "metre", "metres" } },
    { "km", "km", DIM_LENGTH, 1, 1000 * METRE, "kilometer", "SI",
      .aliases = { "kilometer", "kilometers", "kilometre", "kilometres" } },

    { "ac", "ac", DIM_LENGTH, 2, 43560 * FOOT2, "acre", "H44: 1 acre = 43,560 ft2",
      .aliases = { "acre", "acres" }, .land = true },
    { "ha", "ha", DIM_LENGTH, 2, 10000 * METRE * METRE, "hectare",
      "SP 811 table 6: 1 ha = 10,000 m2", .aliases = { "hectare", "hectares" },
      .land = true, .metric = true },

    { "gal", "gal", DIM_LENGTH, 3, GALLON, "gallon, US liquid", "H44: 1 gal = 231 in3",
      .aliases = { "gallon", "gallons" } },
    { "qt", "qt", DIM_LENGTH, 3, GALLON / 4, "quart, US liquid", "H44: 4 qt = 1 gal",
      .aliases = { "quart", "quarts" } },
    { "pt", "pt", DIM_LENGTH, 3, GALLON / 8, "pint, US liquid", "H44: 2 pt = 1 qt",
      .aliases = { "pint", "pints" } },
    { "cup", "cups", DIM_LENGTH, 3, GALLON / 16, "cup", "H44: 1 cup = 8 fl oz",
      .aliases = { NULL } },
    { "fl oz", "fl oz", DIM_LENGTH, 3, GALLON / 128, "fluid ounce, US",
      "H44: 128 fl oz = 1 gal", .aliases = { "fluid ounce", "fluid ounces" } },
    { "L", "L", DIM_LENGTH, 3, LITRE, "liter", "SP 811 table 6: 1 L = 1 dm3",
      .aliases = { "liter", "liters", "litre", "litres" }, .metric = true },
    { "mL", "mL", DIM_LENGTH, 3, LITRE / 1000, "milliliter",
      "SP 811 table 6: 1 L = 1 dm3",
      .aliases = { "ml", "milliliter", "milliliters", "millilitre", "millilitres" },
      .metric = true },
    /* Volumes of wood are nominal. A cord is a stack of wood, bark and air; what a log
     * scales in board feet under some rule is another matter again. */
    { "cord", "cords", DIM_LENGTH, 3, 128 * FOOT3,
      "cord: a stack of 128 ft3, air included",
      "H44: 1 cord (firewood) = 128 ft3", .aliases = { NULL } },
    { "board ft", "board ft", DIM_LENGTH, 3, FOOT3 / 12,
      "board foot: 1 ft x 1 ft x 1 in, nominal; not what a log rule scales",
      "common practice, from memory: 144 in3",
      .aliases = { "board foot", "board feet", "bd ft" } },
    { "mbf", "mbf", DIM_LENGTH, 3, 1000 * FOOT3 / 12, "thousand board feet, nominal",
      "common practice, from memory: 1,000 board feet", .aliases = { "MBF" } },

    { "lb", "lb", DIM_MASS, 1, POUND, "pound",
      "SP 811 B.8: 1 lb = 0.45359237 kg exactly",
      .aliases = { "lbs", "pound", "pounds" } },
    { "oz", "oz", DIM_MASS, 1, POUND / 16, "ounce (weight, not fluid)",
      "H44: 16 oz = 1 lb", .aliases = { "ounce", "ounces" } },
    { "ton", "tons", DIM_MASS, 1, 2000 * POUND, "ton, short",
      "H44: 1 short ton = 2,000 lb",
      .aliases = { "short ton", "short tons" } },
    { "kg", "kg", DIM_MASS, 1, 1000 * GRAM, "kilogram", "SI",
      .aliases = { "kilogram", "kilograms" } },
    { "g", "g", DIM_MASS, 1, GRAM, "gram", "SI", .aliases = { "gram", "grams" } },

    { "min", "min", DIM_WORK, 1, 1, "minute of one person's work",
      "SP 811 table 6: 1 h = 60 min", .aliases = { "minute", "minutes" } },
    { "h", "h", DIM_WORK, 1, 60, "hour of one person's work",
      "SP 811 table 6: 1 h = 60 min", .aliases = { "hr", "hrs", "hour", "hours" } },
    { "d", "d", DIM_CALENDAR, 1, 1, "day on the calendar", "SP 811 table 6",
      .aliases = { "day", "days" } },
    { "wk", "wk", DIM_CALENDAR, 1, 7, "week", "7 days", .aliases = { "week", "weeks" } },
    { "mo", "mo", DIM_CALENDAR, 1, YEAR / 12, "month, a twelfth of a year",
      "1/12 of a Gregorian year", .aliases = { "month", "months" } },
    { "yr", "yr", DIM_CALENDAR, 1, YEAR, "year, mean Gregorian",
      "Gregorian calendar: 146,097 days in 400 years", .aliases = { "year", "years" } },

    { "stem", "stems", DIM_STEMS, 1, 1, "stem", "a count", .aliases = { NULL } },
    { "tree", "trees", DIM_TREES, 1, 1, "tree", "a count", .aliases = { NULL } },
    { "plant", "plants", DIM_PLANTS, 1, 1, "plant", "a count", .aliases = { NULL } },
    { "USD", "USD", DIM_MONEY, 1, 1, "US dollar", "ISO 4217",
      .aliases = { "dollar", "dollars" } },
    { "percent", "percent", GROUP_SHARE, 0, 0.01, "one in a hundred",
      "SP 811 7.10.2: 1 percent = 0.01", .aliases = { NULL } },
    { "deg", "deg", DIM_ANGLE, 1, 1, "degree of a circle", "SP 811 table 6",
      .aliases = { "degree", "degrees" } },
    { "tree_length", "tree_lengths", DIM_TREE_LENGTH, 1, 1,
      "height of the tallest trees of the stand it is said about", "common practice",
      .aliases = { NULL } },
};

const struct unit_spec *unit_spec(size_t index)
{
    return index < sizeof table / sizeof *table ? &table[index] : NULL;
}

static const struct unit_spelling spellings[] = {
    { "sq ft", "ft2" },   { "square foot", "ft2" }, { "square feet", "ft2" },
    { "sq in", "in2" },   { "sq yd", "yd2" },       { "sq mi", "mi2" },
    { "sq m", "m2" },     { "cu ft", "ft3" },       { "cubic foot", "ft3" },
    { "cubic feet", "ft3" }, { "cu yd", "yd3" },    { "cubic yard", "yd3" },
    { "cubic yards", "yd3" },
};

const struct unit_spelling *unit_spelling(size_t index)
{
    return index < sizeof spellings / sizeof *spellings ? &spellings[index] : NULL;
}
