#include "forest/log_rule.h"

#include <math.h>

enum { FROM_IN = 5, TABLE_FROM_IN = 12, TABLE_TO_IN = 36, SMALL_LENGTHS = 8 };

/* Tens of board feet: 5 to 11 in, lengths of 6, 8, ... 20 ft; half is 5 board feet. */
static const double small_logs[TABLE_FROM_IN - FROM_IN][SMALL_LENGTHS] = {
    { 0.5, 0.5, 1, 1, 1, 2, 2, 2 }, /* 5 in */
    { 0.5, 0.5, 1, 1, 1, 2, 2, 2 },
    { 0.5, 1, 1, 2, 2, 3, 3, 3 },   { 1, 1, 2, 2, 2, 3, 3, 3 },
    { 1, 2, 3, 3, 3, 4, 4, 4 },     { 2, 3, 3, 3, 4, 6, 6, 7 },
    { 2, 3, 4, 4, 5, 7, 8, 8 }, /* 11 in */
};

/* Board feet for each foot of log, 12 to 36 in. */
static const double each_foot[TABLE_TO_IN - TABLE_FROM_IN + 1] = {
    4.9,    6.043,  7.14,   8.88,   10.0,   11.528, 13.29,  14.99,  17.499,
    18.99,  20.88,  23.51,  25.218, 28.677, 31.249, 34.22,  36.376, 38.04,
    41.06,  44.376, 45.975, 48.99,  50.0,   54.688, 57.66,
};

/* Down to a whole foot; a hair under it counts as it. */
static double down(double x)
{
    return floor(x + 1e-9);
}
static double nearest(double x)
{
    return floor(x + 0.5 + 1e-9);
}

static double decimal_c(double diameter_in, double length_ft)
{
    int inch = (int)nearest(diameter_in);
    if (inch < FROM_IN || inch > TABLE_TO_IN)
        return NAN;
    if (inch < TABLE_FROM_IN)
        return 10 * small_logs[inch - FROM_IN][(int)down(length_ft / 2) - 3];
    return 10 * nearest(each_foot[inch - TABLE_FROM_IN] * down(length_ft) / 10);
}

static double section(double d)
{
    return 0.22 * d * d - 0.71 * d;
}

static double by_sections(double diameter_in, double length_ft)
{
    double sum = 0, d = diameter_in;
    for (; length_ft >= 4 - 1e-9; length_ft -= 4, d += 4 * LOG_RISE_IN_PER_FT)
        sum += section(d);
    return length_ft > 1e-9 ? sum + section(d) * length_ft / 4 : sum;
}

struct log_rule_range log_rule_range(enum log_rule rule)
{
    switch (rule) {
    case LOG_SCRIBNER_C: return (struct log_rule_range){ FROM_IN, TABLE_TO_IN, 6, 20 };
    case LOG_DOYLE: return (struct log_rule_range){ 4, 60, 4, 24 };
    /* Below this the international rules go under zero. */
    case LOG_INTERNATIONAL:
    case LOG_INTERNATIONAL_EIGHTH: return (struct log_rule_range){ 4, 60, 4, 20 };
    default: return (struct log_rule_range){ 4, 60, 4, 24 };
    }
}

double log_rule_board_feet(enum log_rule rule, double d, double length_ft)
{
    struct log_rule_range r = log_rule_range(rule);
    if (!(d >= r.from_in - 1e-9 && d <= r.to_in + 1e-9 && length_ft >= r.from_ft - 1e-9 &&
          length_ft <= r.to_ft + 1e-9))
        return NAN;
    switch (rule) {
    case LOG_INTERNATIONAL: return 0.904762 * by_sections(d, length_ft);
    case LOG_INTERNATIONAL_EIGHTH: return by_sections(d, length_ft);
    case LOG_SCRIBNER: return fmax(0, (0.79 * d * d - 2 * d - 4) * length_ft / 16);
    case LOG_SCRIBNER_C: return decimal_c(d, length_ft);
    case LOG_DOYLE: return (d - 4) * (d - 4) * length_ft / 16;
    default: return NAN;
    }
}

double log_rule_scaled(enum log_rule rule, double diameter_in, double length_ft)
{
    double feet = log_rule_board_feet(rule, nearest(diameter_in), length_ft);
    switch (rule) {
    case LOG_INTERNATIONAL: return 5 * nearest(feet / 5);
    case LOG_SCRIBNER_C: return feet;
    default: return nearest(feet);
    }
}

const char *log_rule_word(size_t rule)
{
    static const char *const words[LOG_RULES] = {
        [LOG_INTERNATIONAL] = "international",
        [LOG_SCRIBNER] = "scribner",
        [LOG_SCRIBNER_C] = "scribner c",
        [LOG_DOYLE] = "doyle",
        [LOG_INTERNATIONAL_EIGHTH] = "international 1/8",
    };
    return rule < LOG_RULES ? words[rule] : NULL;
}

const char *log_rule_source(enum log_rule rule)
{
    switch (rule) {
    case LOG_INTERNATIONAL:
        return "International 1/4-inch rule: Mich. Comp. Laws 290.401 (Act 208 of 1941); "
               "Clark 1906, Forestry Quarterly 4:79-93";
    case LOG_SCRIBNER:
        return "Scribner rule by formula: Bruce and Schumacher 1950, Forest Mensuration "
               "(attribution from memory)";
    case LOG_SCRIBNER_C:
        return "Scribner Decimal C table: USDA Forest Service, FSH 2409.11 (attribution, "
               "and logs under 12 in but of 16 ft, from memory)";
    case LOG_DOYLE: return "Doyle rule, about 1825";
    default:
        return "International 1/8-inch rule: Clark 1906, Forestry Quarterly 4:79-93";
    }
}
