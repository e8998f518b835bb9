#include "../unit.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/source.h"
#include "base/utf8.h"
#include "quantity/explain.h"
#include "quantity/fold.h"
#include "quantity/spread.h"
#include "quantity/unit_inner.h"
#include "failing.h"

static const struct origin nowhere;

struct kit {
    struct units *u;
    struct graph *g;
    struct sources *all;
    uint32_t plan;
    struct fault f;
    struct buf out;
};

static const char plan_text[] = "area = 3.4 ac\n"
                                "per = 300 to 600 trees/ac around 420\n"
                                "minutes = 2 to 5 min/tree around 3\n"
                                "wage = 45 USD/h\n"
                                "cost = hours * wage\n"
                                "width = 15 ft\n";

static int set_up(void **state)
{
    static struct kit k;
    fault_clear(&k.f);
    k.u = units_new();
    k.g = graph_new(k.u);
    k.all = sources_new();
    buf_init(&k.out);
    if (!k.u || !k.g || !k.all)
        return 1;
    k.plan = sources_add(k.all, "plan.rx", plan_text, strlen(plan_text));
    *state = &k;
    return k.plan ? 0 : 1;
}

static int take_down(void **state)
{
    struct kit *k = *state;
    buf_clear(&k->out);
    graph_free(k->g);
    units_free(k->u);
    sources_free(k->all);
    return 0;
}

static struct unit_id unit(struct kit *k, const char *name)
{
    struct unit_id id = UNIT_NUMBER;
    if (*name)
        assert_true(units_find(k->u, name, strlen(name), &id, &k->f));
    return id;
}

/* Where `text` stands in the plan. */
static struct origin at(const struct kit *k, const char *text, const char *words)
{
    const char *found = strstr(plan_text, text);
    assert_non_null(found);
    return (struct origin){ { k->plan, (uint32_t)(found - plan_text),
                              (uint32_t)strlen(text) }, words };
}

static struct qty leaf(struct kit *k, double value, const char *name, struct origin from)
{
    return graph_leaf(k->g, value, unit(k, name), from, &k->f);
}

static struct qty range(struct kit *k, double low, double likely, double high,
                        const char *name, struct origin from)
{
    return graph_range(k->g, low, likely, high, unit(k, name),
                       graph_key("plan.rx", from.at.at, 0), from, &k->f);
}

static struct qty named(struct kit *k, struct qty q, const char *name, struct origin how)
{
    assert_false(fault_is_set(&k->f));
    assert_true(graph_name(k->g, &q, name, how, &k->f));
    return q;
}

static const char *why(struct kit *k, struct qty q, int width, int depth)
{
    assert_false(fault_is_set(&k->f));
    buf_clear(&k->out);
    struct explain_look look = { .width = width, .depth = depth };
    assert_true(explain_text(k->g, k->all, q, look, &k->out, &k->f));
    return k->out.data;
}

static void reads(struct kit *k, struct qty q, const char *text)
{
    assert_string_equal(why(k, q, 80, 12), text);
}

static struct qty felling_cost(struct kit *k)
{
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty area = leaf(k, 3.4, "ac", at(k, "3.4 ac", NULL));
    area = named(k, area, "area", nowhere);
    struct qty per = range(k, 300, 420, 600, "trees/ac",
                           at(k, "300 to", "tally of Bench aspen, 5 plots"));
    struct qty trees = named(k, graph_multiply(g, area, per, f), "trees", nowhere);
    struct qty rate = named(k, range(k, 2, 3, 5, "min/tree", at(k, "2 to 5", NULL)),
                            "felling rate", nowhere);
    struct qty hours = graph_multiply(g, trees, rate, f);
    hours = named(k, graph_say_in(g, hours, unit(k, "h"), f), "hours", nowhere);
    struct qty wage = leaf(k, 45, "USD/h", at(k, "45 USD", "prices of the region"));
    wage = named(k, wage, "wage", nowhere);
    struct qty cost = graph_multiply(g, hours, wage, f);
    return named(k, cost, "felling cost", at(k, "hours *", NULL));
}

/* ---- the tree ---- */

static void a_cost_is_told_down_to_where_each_part_was_written(void **state)
{
    struct kit *k = *state;
    reads(k, felling_cost(k),
          "felling cost = 3,213 USD (1,874 to 5,988, typically 3,352)\n"
          "  = hours x wage [plan.rx:5:8]\n"
          "  hours = 71.4 h (41.6 to 133, typically 74.5)\n"
          "    = trees x felling rate / 60 (change of units)\n"
          "    trees = 1,428 trees (1,020 to 2,040)\n"
          "      = area x 420 trees/ac\n"
          "      area = 3.4 ac, from plan.rx:1:8\n"
          "      420 trees/ac (300 to 600), from plan.rx:2:7, tally of Bench aspen, 5 "
          "plots\n"
          "    felling rate = 3 min/tree (2 to 5), from plan.rx:3:11\n"
          "  wage = 45 USD/h, from plan.rx:4:8, prices of the region\n"
          "hangs mostly on: felling rate 63 percent, tally of Bench aspen 37 percent\n");
}

static void a_leaf_is_one_line(void **state)
{
    struct kit *k = *state;
    struct qty wage = leaf(k, 45, "USD/h", at(k, "45 USD", NULL));
    reads(k, wage, "45 USD/h, from plan.rx:4:8\n");
    reads(k, named(k, wage, "wage", nowhere), "wage = 45 USD/h, from plan.rx:4:8\n");
    wage = leaf(k, 45, "USD/h", at(k, "45 USD", NULL));
    reads(k, named(k, wage, "wage", at(k, "wage\n", NULL)),
          "wage = 45 USD/h, from plan.rx:4:8; plan.rx:5:16\n");
    reads(k, leaf(k, 7, "", nowhere), "7\n");
    reads(k, range(k, 2, 3, 5, "h", nowhere), "3 h (2 to 5)\n");
    reads(k, leaf(k, 7, "h", (struct origin){ SPAN_NONE, "common practice, no source" }),
          "7 h, from common practice, no source\n");
    reads(k, QTY_NONE, "");
}

static void without_sources_only_words_say_where_from(void **state)
{
    struct kit *k = *state;
    struct qty wage = leaf(k, 45, "USD/h", at(k, "45 USD", "prices of the region"));
    struct explain_look look = { .width = 80, .depth = 12 };
    assert_true(explain_text(k->g, NULL, wage, look, &k->out, &k->f));
    assert_string_equal(k->out.data, "45 USD/h, from prices of the region\n");
}

static void named_parts_are_shown_once(void **state)
{
    struct kit *k = *state;
    struct qty width = leaf(k, 15, "ft", at(k, "15 ft", NULL));
    width = named(k, width, "width", nowhere);
    struct qty twice = graph_scale(k->g, width, 2, &k->f);
    struct qty around = named(k, twice, "both sides", nowhere);
    reads(k, graph_multiply(k->g, around, graph_add(k->g, around, width, &k->f), &k->f),
          "1,350 ft2\n"
          "  = both sides x (both sides + width)\n"
          "  both sides = 30 ft\n"
          "    = 2 x width\n"
          "    width = 15 ft, from plan.rx:6:9\n"
          "  width = 15 ft (above)\n");
    /* Twice in one formula is once below it. */
    reads(k, graph_multiply(k->g, width, width, &k->f),
          "225 ft2\n"
          "  = width x width\n"
          "  width = 15 ft, from plan.rx:6:9\n");
}

static void a_new_name_leads_to_the_old_one(void **state)
{
    struct kit *k = *state;
    struct qty width = leaf(k, 15, "ft", at(k, "15 ft", NULL));
    width = named(k, width, "width", nowhere);
    reads(k, named(k, width, "ride", nowhere),
          "ride = 15 ft\n"
          "  = width\n"
          "  width = 15 ft, from plan.rx:6:9\n");
}

static void deep_parts_end_in_their_value(void **state)
{
    struct kit *k = *state;
    struct qty cost = felling_cost(k);
    assert_string_equal(why(k, cost, 80, 1),
          "felling cost = 3,213 USD (1,874 to 5,988, typically 3,352)\n"
          "  = hours x wage [plan.rx:5:8]\n"
          "  hours = 71.4 h (41.6 to 133, typically 74.5), worked out from parts "
          "not shown\n"
          "  wage = 45 USD/h, from plan.rx:4:8, prices of the region\n"
          "hangs mostly on: felling rate 63 percent, tally of Bench aspen 37 percent\n");
    struct qty brief = named(k, leaf(k, 2, "h", nowhere), "short", nowhere);
    assert_string_equal(why(k, brief, 80, 0), "short = 2 h\n");
}

/* ---- formulas ---- */

static struct qty bare(struct kit *k, double value)
{
    return leaf(k, value, "", nowhere);
}

static void formulas_keep_their_meaning_by_brackets(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty a = named(k, bare(k, 2), "a", nowhere);
    struct qty b = named(k, bare(k, 3), "b", nowhere);
    struct qty c = named(k, bare(k, 4), "c", nowhere), sum = graph_add(g, a, b, f);
    struct qty quotient = graph_divide(g, b, c, f), product = graph_multiply(g, b, c, f);
    const struct {
        struct qty q;
        const char *formula;
    } rows[] = {
        { graph_multiply(g, sum, c, f), "= (a + b) x c" },
        { graph_multiply(g, c, sum, f), "= c x (a + b)" },
        { graph_multiply(g, a, product, f), "= a x b x c" },
        { graph_multiply(g, a, quotient, f), "= a x (b / c)" },
        { graph_divide(g, a, product, f), "= a / (b x c)" },
        { graph_divide(g, a, quotient, f), "= a / (b / c)" },
        { graph_divide(g, graph_multiply(g, a, b, f), c, f), "= a x b / c" },
        { graph_subtract(g, a, graph_multiply(g, b, c, f), f), "= a - b x c" },
        { graph_subtract(g, c, sum, f), "= c - a - b" },
        { graph_add(g, sum, graph_negate(g, c, f), f), "= a + b - c" },
        { graph_negate(g, sum, f), "= minus (a + b)" },
        { graph_add(g, graph_add(g, a, b, f), a, f), "= a + b + a" },
        { graph_power(g, sum, 2, 1, f), "= (a + b) squared" },
        { graph_power(g, a, 3, 1, f), "= a cubed" },
        { graph_power(g, a, -2, 1, f), "= a to the power -2" },
        { graph_power(g, product, 1, 2, f), "= square root of (b x c)" },
        { graph_power(g, a, 1, 3, f), "= cube root of a" },
        { graph_multiply(g, graph_power(g, a, 2, 1, f), b, f), "= (a squared) x b" },
        { graph_min(g, sum, c, f), "= the smaller of a + b and c" },
        { graph_max(g, a, graph_min(g, b, c, f), f),
          "= the larger of a and (the smaller of b and c)" },
        { graph_ceil(g, quotient, UNIT_NUMBER, f),
          "= b / c, rounded up to a whole number" },
        { graph_floor(g, a, UNIT_NUMBER, f), "= a, rounded down to a whole number" },
        { graph_multiply(g, bare(k, -3), a, f), "= (-3) x a" },
        { graph_multiply(g, bare(k, 0.5), a, f), "= 0.5 x a" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *text = strchr(why(k, rows[i].q, 80, 1), '=');
        size_t length = strcspn(text, "\n");
        k->out.data[text + length - k->out.data] = '\0';
        assert_string_equal(text, rows[i].formula);
    }
}

static void long_unnamed_parts_stand_on_lines_of_their_own(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty q[6];
    for (int i = 0; i < 6; i++)
        q[i] = named(k, bare(k, i + 1), (char[2]){ (char)('a' + i), 0 }, nowhere);
    struct qty five = graph_sum(g, q, 5, f);
    reads(k, graph_multiply(g, five, q[5], f),
          "90\n"
          "  = 15 x f\n"
          "  15\n"
          "    = a + b + c + d + e\n"
          "    a = 1\n"
          "    b = 2\n"
          "    c = 3\n"
          "    d = 4\n"
          "    e = 5\n"
          "  f = 6\n");
}

static void parts_in_other_units_can_be_added_up_on_paper(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct fault *f = &k->f;
    struct qty width = named(k, leaf(k, 15, "ft", nowhere), "width", nowhere);
    struct qty more = leaf(k, 6, "in", nowhere), sum = graph_add(g, width, more, f);
    reads(k, sum,
          "15.5 ft\n"
          "  = width + 6 in\n"
          "  width = 15 ft\n"
          "  6 in, that is 0.5 ft\n");
    reads(k, graph_max(g, width, leaf(k, 6, "m", nowhere), f),
          "19.7 ft\n"
          "  = the larger of width and 6 m\n"
          "  width = 15 ft\n"
          "  6 m, that is 19.7 ft\n");
    reads(k, graph_say_in(g, graph_add(g, width, width, f), unit(k, "yd"), f),
          "10 yd\n"
          "  = 30 ft / 3 (change of units)\n"
          "  30 ft\n"
          "    = 2 x width\n"
          "    width = 15 ft\n");
    struct qty side = named(k, leaf(k, 990, "ft", nowhere), "side", nowhere);
    reads(k, graph_say_in(g, graph_multiply(g, side, side, f), unit(k, "ac"), f),
          "22.5 ac\n"
          "  = side x side / 43,560 (change of units)\n"
          "  side = 990 ft\n");
    struct qty share = graph_multiply(g, leaf(k, 60, "percent", nowhere), width, f);
    reads(k, share,
          "9 ft\n"
          "  = 60 percent x width\n"
          "  width = 15 ft\n");
}

static void what_is_rounded_up_does_not_look_whole_before(void **state)
{
    struct kit *k = *state;
    struct qty wanted = named(k, leaf(k, 2314.125, "plants", nowhere), "wanted", nowhere);
    reads(k, graph_ceil(k->g, wanted, unit(k, "plants"), &k->f),
          "2,315 plants\n"
          "  = wanted, rounded up to whole plants\n"
          "  wanted = 2,314 plants, more exactly 2,314.13\n");
    wanted = named(k, leaf(k, 2314.00001, "plants", nowhere), "wanted", nowhere);
    reads(k, graph_ceil(k->g, wanted, unit(k, "plants"), &k->f),
          "2,315 plants\n"
          "  = wanted, rounded up to whole plants\n"
          "  wanted = 2,314 plants, more exactly 2,314.000010000\n");
}

static void long_sums_show_the_largest_and_the_rest(void **state)
{
    struct kit *k = *state;
    struct qty terms[40];
    for (int i = 0; i < 40; i++) {
        char name[16];
        double hours = (i * 17) % 40 + 1; /* 1 to 40, each once */
        snprintf(name, sizeof name, "act %02d", i);
        terms[i] = named(k, leaf(k, hours, "h", nowhere), name, nowhere);
    }
    struct qty sum = graph_sum(k->g, terms, 40, &k->f);
    sum = graph_subtract(k->g, sum, named(k, leaf(k, 100, "h", nowhere), "done", nowhere),
                         &k->f);
    const char *text = why(k, sum, 80, 5);
    assert_non_null(strstr(text, "720 h\n"
                                 "  = sum of 41 parts, the largest first\n"
                                 "  less done = 100 h\n"
                                 "  act 07 = 40 h\n"
                                 "  act 14 = 39 h\n"));
    /* 12 lines: the 100 and 40 to 30; the rest is 1 to 29. */
    assert_non_null(strstr(text, "= 30 h\n  and 29 more, in all 435 h\n"));
    size_t lines = 0;
    for (const char *c = text; *c; c++)
        lines += *c == '\n';
    assert_int_equal(lines, 1 + 1 + 12 + 1);
}

static void a_part_added_many_times_says_how_often(void **state)
{
    struct kit *k = *state;
    struct qty visit = named(k, leaf(k, 3, "h", nowhere), "visit", nowhere), sum = visit;
    for (int i = 0; i < 4; i++)
        sum = graph_add(k->g, sum, visit, &k->f);
    reads(k, sum,
          "15 h\n"
          "  = 5 x visit\n"
          "  visit = 3 h\n");
}

/* ---- what it hangs on ---- */

static void leaves_of_one_name_are_told_apart_by_place(void **state)
{
    struct kit *k = *state;
    struct graph *g = k->g;
    struct qty a = range(k, 2, 3, 4, "", at(k, "300 to", NULL));
    struct qty b = range(k, 2, 3, 4, "", at(k, "2 to 5", NULL));
    struct qty both = named(k, graph_multiply(g, a, b, &k->f), "work", nowhere);
    const char *text = why(k, graph_scale(g, both, 2, &k->f), 80, 5);
    assert_non_null(strstr(text, "hangs mostly on: work (plan.rx:"));
    text = why(k, both, 80, 5);
    assert_non_null(strstr(text, "hangs mostly on: the range at plan.rx:"));
}

static void one_leaf_is_hung_on_wholly(void **state)
{
    struct kit *k = *state;
    struct qty rate = named(k, range(k, 2, 3, 5, "h", nowhere), "rate", nowhere);
    const char *text = why(k, graph_scale(k->g, rate, 2, &k->f), 80, 5);
    assert_non_null(strstr(text, "\nhangs wholly on: rate\n"));
}

static void many_like_parts_are_said_to_be_alike(void **state)
{
    struct kit *k = *state;
    struct qty terms[50];
    for (uint32_t i = 0; i < 50; i++)
        terms[i] = graph_range(k->g, 1, 2, 3, UNIT_NUMBER, graph_key("x", i, 0), nowhere,
                               &k->f);
    const char *text = why(k, graph_sum(k->g, terms, 50, &k->f), 80, 5);
    assert_non_null(strstr(text, "\nhangs on many parts alike, the most on: a range "
                                 "without a name "));
}

static void draws_that_cannot_be_worked_out_are_owned_up_to(void **state)
{
    struct kit *k = *state;
    struct qty odd = named(k, range(k, -1, 3, 7, "", nowhere), "odd", nowhere);
    const char *text = why(k, graph_power(k->g, odd, 1, 2, &k->f), 80, 5);
    assert_non_null(strstr(text, "\ncannot be worked out in 16.8 percent of the draws "
                                 "(the root of less than\n    nothing, "));
}

/* ---- figures ---- */

static const char *figure(struct kit *k, struct qty q, const struct spread *s)
{
    buf_clear(&k->out);
    explain_figure(k->g, q, s, &k->out);
    return k->out.data;
}

static void figures_name_their_unit_once(void **state)
{
    struct kit *k = *state;
    struct qty q = leaf(k, 70, "h", nowhere);
    double size = unit_factor(k->u, unit(k, "h"));
    struct spread s = { 70 * size, 60 * size, 71 * size, 80 * size, 0, true, false };
    assert_string_equal(figure(k, q, NULL), "70 h");
    assert_string_equal(figure(k, q, &s), "70 h (60 to 80)");
    s.skewed = true;
    s.median = 73 * size;
    assert_string_equal(figure(k, q, &s), "70 h (60 to 80, typically 73)");
    s.uncertain = false;
    assert_string_equal(figure(k, q, &s), "70 h");
    assert_string_equal(figure(k, QTY_NONE, &s), "");
}

static void figures_keep_the_unit_of_the_value(void **state)
{
    struct kit *k = *state;
    struct qty one = leaf(k, 1, "tree", nowhere);
    struct spread s = { 1, 0.4, 1, 2, 0, true, false };
    assert_string_equal(figure(k, one, &s), "1 tree (0.4 to 2)");
    /* 30,000 ft2 is said in acres, and so are its ends, small as they are. */
    struct qty area = leaf(k, 30000, "ft2", nowhere);
    double ft2 = unit_factor(k->u, unit(k, "ft2"));
    s.value = s.median = 30000 * ft2;
    s.low = 4356 * ft2;
    s.high = 43560 * ft2;
    assert_string_equal(figure(k, area, &s), "0.689 ac (0.1 to 1)");
}

static void figures_without_an_end_say_so(void **state)
{
    struct kit *k = *state;
    struct qty q = leaf(k, 70, "", nowhere);
    struct spread s = { 70, 60, 71, INFINITY, 0, true, false };
    assert_string_equal(figure(k, q, &s), "70 (60 or more)");
    s.low = -INFINITY;
    assert_string_equal(figure(k, q, &s), "70 (no limit either way)");
    s.high = 80;
    assert_string_equal(figure(k, q, &s), "70 (80 or less)");
    s.lost = 1;
    assert_string_equal(figure(k, q, &s), "70 (how sure cannot be worked out)");
}

static void a_spread_too_narrow_to_print_is_not_printed(void **state)
{
    struct kit *k = *state;
    struct qty q = leaf(k, 70, "", nowhere);
    struct spread s = { 70, 69.999, 70, 70.001, 0, true, false };
    assert_string_equal(figure(k, q, &s), "70");
}

/* ---- folding ---- */

static void no_line_is_ever_wider_than_asked(void **state)
{
    struct kit *k = *state;
    struct origin far = { SPAN_NONE,
                          "a-name-that-goes-on-without-a-single-blank-for-longer-than-"
                          "any-line-could-hold-and-then-some-more-of-it then B\xc3\xa4um "
                          "\xe6\x9d\xbe\xe6\x9c\xa8\xe6\x9d\xbe\xe6\x9c\xa8\xe6\x9d\xbe"
                          "\xe6\x9c\xa8\xe6\x9d\xbe\xe6\x9c\xa8\xe6\x9d\xbe" };
    struct qty odd = named(k, leaf(k, 2, "h", far), "odd", far), cost = felling_cost(k);
    struct qty deep = named(k, graph_divide(k->g, cost, odd, &k->f), "deep", far);
    for (int width = FOLD_NARROWEST; width < 120; width += 3) {
        const char *line = why(k, deep, width, 12);
        while (*line) {
            size_t length = strcspn(line, "\n");
            assert_in_range(utf8_columns(line, length), 1, (size_t)width);
            line += length + 1;
        }
    }
    assert_string_equal(why(k, odd, -5, 3) ? "" : NULL, "");
}

static void folding_loses_no_word_and_keeps_figures_whole(void **state)
{
    struct kit *k = *state;
    struct qty cost = felling_cost(k);
    char wide[4096], folded[4096];
    snprintf(wide, sizeof wide, "%s", why(k, cost, 4000, 12));
    snprintf(folded, sizeof folded, "%s", why(k, cost, 40, 12));
    assert_non_null(strstr(folded, "420 trees/ac"));
    const char *a = wide, *b = folded;
    while (*a || *b) {
        a += strspn(a, " \n");
        b += strspn(b, " \n");
        size_t length = strcspn(a, " \n");
        assert_int_equal(length, strcspn(b, " \n"));
        assert_memory_equal(a, b, length);
        a += length;
        b += length;
    }
}

static void names_cannot_steer_the_terminal(void **state)
{
    struct kit *k = *state;
    struct origin sly = { SPAN_NONE, "red\x1b[31m\x1fhere\n" };
    struct qty q = named(k, leaf(k, 2, "h", sly), "a\tb\x07", nowhere);
    reads(k, q, "a?b? = 2 h, from red?[31m?here?\n");
}

/* ---- size and memory ---- */

static void shared_unnamed_parts_do_not_run_away(void **state)
{
    struct kit *k = *state;
    struct qty x = range(k, 0.5, 0.9, 1, "", nowhere);
    for (int i = 0; i < 60; i++)
        x = graph_multiply(k->g, x, x, &k->f);
    const char *text = why(k, x, 80, 1000);
    size_t lines = 0;
    for (const char *c = text; *c; c++)
        lines += *c == '\n';
    assert_in_range(lines, 10, 2100);
}

static void a_chain_tens_of_thousands_deep_is_no_deeper_than_asked(void **state)
{
    struct kit *k = *state;
    struct qty x = range(k, 1, 2, 3, "", nowhere), less = bare(k, 1.5), more = bare(k, 3);
    for (int i = 0; i < 20000; i++) {
        struct qty y = graph_min(k->g, x, more, &k->f);
        x = graph_max(k->g, less, y, &k->f);
    }
    assert_true(strlen(why(k, x, 80, 1000000)) < 20000);
}

static void running_out_of_memory_is_told_and_nothing_is_kept(void **state)
{
    (void)state;
    struct failing a = { .left = -1 };
    struct kit k = { .u = units_new_on(failing_memory(&a)) };
    fault_clear(&k.f);
    k.g = graph_new(k.u);
    k.all = sources_new();
    k.plan = sources_add(k.all, "plan.rx", plan_text, strlen(plan_text));
    struct qty cost = felling_cost(&k);
    struct explain_look look = { .width = 80, .depth = 12 };
    long long before = a.held;
    int refused = 0;
    for (bool done = false; !done; refused += !done) {
        fault_clear(&k.f);
        buf_init(&k.out);
        a.left = refused;
        done = explain_text(k.g, k.all, cost, look, &k.out, &k.f);
        a.left = -1;
        assert_true(a.held == before);
        assert_true(done != fault_is_set(&k.f));
        buf_clear(&k.out);
    }
    assert_in_range(refused, 20, 100);
    graph_free(k.g);
    units_free(k.u);
    sources_free(k.all);
}

#define with_kit(test) cmocka_unit_test_setup_teardown(test, set_up, take_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        with_kit(a_cost_is_told_down_to_where_each_part_was_written),
        with_kit(a_leaf_is_one_line),
        with_kit(without_sources_only_words_say_where_from),
        with_kit(named_parts_are_shown_once),
        with_kit(a_new_name_leads_to_the_old_one),
        with_kit(deep_parts_end_in_their_value),
        with_kit(formulas_keep_their_meaning_by_brackets),
        with_kit(long_unnamed_parts_stand_on_lines_of_their_own),
        with_kit(parts_in_other_units_can_be_added_up_on_paper),
        with_kit(what_is_rounded_up_does_not_look_whole_before),
        with_kit(long_sums_show_the_largest_and_the_rest),
        with_kit(a_part_added_many_times_says_how_often),
        with_kit(leaves_of_one_name_are_told_apart_by_place),
        with_kit(one_leaf_is_hung_on_wholly),
        with_kit(many_like_parts_are_said_to_be_alike),
        with_kit(draws_that_cannot_be_worked_out_are_owned_up_to),
        with_kit(figures_name_their_unit_once),
        with_kit(figures_keep_the_unit_of_the_value),
        with_kit(figures_without_an_end_say_so),
        with_kit(a_spread_too_narrow_to_print_is_not_printed),
        with_kit(no_line_is_ever_wider_than_asked),
        with_kit(folding_loses_no_word_and_keeps_figures_whole),
        with_kit(names_cannot_steer_the_terminal),
        with_kit(shared_unnamed_parts_do_not_run_away),
        with_kit(a_chain_tens_of_thousands_deep_is_no_deeper_than_asked),
        cmocka_unit_test(running_out_of_memory_is_told_and_nothing_is_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
