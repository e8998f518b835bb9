/* How often does the interval that a cruise tells hold the truth? Mapped stands, where
 * the truth is known, are cruised 2,000 times at random places; a 90 percent interval
 * should hold the truth 90 times in 100. Between 87 and 93 is asked; 2,000 samples alone
 * move it by 1.3 either way (two standard errors).
 *
 * Thirty plots a cruise, 1/10 acre or factor 10, were settled before the first run: what
 * a cruiser would take on ten or twenty acres. Most rows are met so. Where trees stand in
 * clumps or are few, or where a prism takes in thin trees that stand for many, a few
 * plots bear the whole; the mean of thirty is not near enough to normal, the interval
 * lies too low too often, and the truth is held 84 to 89 times in 100. Such rows are
 * SKEWED: they are shown as they are, bounded from both sides by what 20,000 samples told
 * (86.3 to 87.7) and the sampling of 2,000, and asked once more of sixty plots. Trees per
 * acre by prism with the saplings in are no answer at all: 64 times in 100.
 *
 * `make cover` shows the table. */
#include "../unit.h"
#include "open_stand.h"

enum { SAMPLES = 2000 };

struct ask {
    const char *says, *species; /* a word of the table, or "all" */
    double from_in;
    enum stock_measure measure;
    double least, most; /* percent of samples in which the interval holds the truth */
    /* what is counted */
    size_t held, under, over; /* under: the whole interval lies below the truth */
    double sum, squares;
};

static struct stock_pick pick_of(const struct species_table *t, const struct ask *a)
{
    struct fault f = { .id = NULL };
    struct stock_pick p = stock_pick_all();
    p.from_in = a->from_in;
    assert_true(species_select(t, a->species, strlen(a->species), &p.species, &f));
    return p;
}

/* Of all mapped trees, an acre. */
static double truth_of(const struct open_stand *s, const struct species_table *t,
                       const struct ask *a)
{
    struct fault f = { .id = NULL };
    struct stock_pick p = pick_of(t, a);
    double sum = 0;
    for (size_t i = 0; i < s->count; i++) {
        const struct open_tree *tree = &s->trees[i];
        size_t species;
        assert_true(species_find(t, tree->species, strlen(tree->species), &species, &f));
        if (stock_pick_has(&p, species, tree->diameter_in))
            sum += a->measure == STOCK_TREES
                       ? 1
                       : 0.005454154 * tree->diameter_in * tree->diameter_in;
    }
    return sum / s->acres;
}

static void count_one(struct ask *a, const struct estimate *e, double truth)
{
    double low, high;
    a->sum += e->value;
    a->squares += e->value * e->value;
    /* No error is told of plots that agree, such as empty ones: the truth is missed. */
    bool told = estimate_interval(e, 0.90, &low, &high);
    a->under += !told || high < truth;
    a->over += told && low > truth;
    a->held += told && low <= truth && truth <= high;
}

static void show_and_judge(const struct ask *a, double truth)
{
    double percent = 100.0 * (double)a->held / SAMPLES;
    double mean = a->sum / SAMPLES;
    double error = sqrt((a->squares - SAMPLES * mean * mean) / (SAMPLES - 1.0) / SAMPLES);
    print_message("  %-38s %9.3f %9.3f %7.2f %6.2f %6.2f%s\n", a->says, truth, mean,
                  percent, 100.0 * (double)a->under / SAMPLES,
                  100.0 * (double)a->over / SAMPLES, a->most < 90 ? "  skewed" : "");
    assert_int_equal(a->held + a->under + a->over, SAMPLES);
    assert_true(percent >= a->least && percent <= a->most);
    /* The sampling itself leans to no side. */
    close_to(mean, truth, 4 * error);
}

static void show_head(const char *says)
{
    print_message("%s\n  %-38s %9s %9s %7s %6s %6s\n", says, "an acre", "truth", "mean",
                  "held %", "under", "over");
}

static void cruise_often(const char *stand, const char *says, struct open_cruise how,
                         uint64_t seed, struct ask *asks, size_t count)
{
    struct open_stand s = open_stand_read(stand);
    struct species_table *t = open_species();
    struct fault f = { .id = NULL };
    struct stock_pick picks[16];
    double truths[16];
    assert_true(count <= 16);
    for (size_t i = 0; i < count; i++) {
        picks[i] = pick_of(t, &asks[i]);
        truths[i] = truth_of(&s, t, &asks[i]);
    }
    for (int n = 0; n < SAMPLES; n++) {
        struct buf notes = open_stand_cruise(&s, &how, &seed);
        struct inventory *inv = open_inventory(t, &notes);
        struct stock *all = stock_of(inv, &f);
        assert_non_null(all);
        for (size_t i = 0; i < count; i++) {
            struct estimate e = { 0 };
            assert_true(estimate_total(all, &picks[i], asks[i].measure, &e, &f));
            count_one(&asks[i], &e, truths[i]);
            estimate_clear(&e);
        }
        stock_free(all);
        inventory_free(inv);
        buf_clear(&notes);
    }
    show_head(says);
    for (size_t i = 0; i < count; i++)
        show_and_judge(&asks[i], truths[i]);
    species_table_free(t);
    free(s.trees);
}

#define COUNT(list) (sizeof(list) / sizeof(list)[0])
#define WANTED      87, 93
#define SKEWED      84, 89
#define NO_ANSWER   60, 67
#define FROM_DATA   0, 0, 0, 0, 0

static void longleaf_by_fixed_plots(void **state)
{
    (void)state;
    struct ask asks[] = {
        { "trees", "all", 0, STOCK_TREES, SKEWED, FROM_DATA },
        { "trees from 4 in", "all", 4, STOCK_TREES, WANTED, FROM_DATA },
        { "trees from 12 in", "all", 12, STOCK_TREES, WANTED, FROM_DATA },
        { "basal area, ft2", "all", 0, STOCK_BASAL_AREA, WANTED, FROM_DATA },
    };
    struct ask again[] = {
        { "trees", "all", 0, STOCK_TREES, WANTED, FROM_DATA },
    };
    struct open_cruise how = { .acres = 0.1, .plots = 30 };
    cruise_often("longleaf", "longleaf, 30 plots of 1/10 ac", how, 1, asks, COUNT(asks));
    how.plots = 60;
    cruise_often("longleaf", "longleaf, 60 plots of 1/10 ac", how, 11, again,
                 COUNT(again));
}

static void longleaf_by_prism(void **state)
{
    (void)state;
    struct ask asks[] = {
        { "basal area, ft2", "all", 0, STOCK_BASAL_AREA, WANTED, FROM_DATA },
        { "trees from 4 in", "all", 4, STOCK_TREES, SKEWED, FROM_DATA },
        { "trees from 12 in", "all", 12, STOCK_TREES, WANTED, FROM_DATA },
        { "trees, saplings too", "all", 0, STOCK_TREES, NO_ANSWER, FROM_DATA },
    };
    struct ask again[] = {
        { "trees from 4 in", "all", 4, STOCK_TREES, SKEWED, FROM_DATA },
    };
    struct open_cruise how = { .baf = 10, .plots = 30 };
    cruise_often("longleaf", "longleaf, 30 points, factor 10", how, 2, asks, COUNT(asks));
    how.plots = 60;
    cruise_often("longleaf", "longleaf, 60 points, factor 10", how, 12, again,
                 COUNT(again));
}

static void lansing_by_fixed_plots(void **state)
{
    (void)state;
    struct ask asks[] = {
        { "trees", "all", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "oaks", "oak", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "hickory", "hickory", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "maple", "maple", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "white oak", "white oak", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "red oak", "red oak", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "black oak", "black oak", 0, STOCK_TREES, SKEWED, FROM_DATA },
        { "others", "other hardwood", 0, STOCK_TREES, SKEWED, FROM_DATA },
    };
    struct ask again[] = {
        { "black oak", "black oak", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "others", "other hardwood", 0, STOCK_TREES, WANTED, FROM_DATA },
    };
    struct open_cruise how = { .acres = 0.1, .plots = 30 };
    cruise_often("lansing", "Lansing woods, 30 plots of 1/10 ac", how, 3, asks,
                 COUNT(asks));
    how.plots = 60;
    cruise_often("lansing", "Lansing woods, 60 plots of 1/10 ac", how, 13, again,
                 COUNT(again));
}

static void waka_by_fixed_plots_and_prism(void **state)
{
    (void)state;
    struct ask fixed[] = {
        { "trees", "all", 0, STOCK_TREES, WANTED, FROM_DATA },
    };
    struct ask points[] = {
        { "basal area, ft2", "all", 0, STOCK_BASAL_AREA, WANTED, FROM_DATA },
        { "trees from 12 in", "all", 12, STOCK_TREES, WANTED, FROM_DATA },
    };
    struct open_cruise plots = { .acres = 0.05, .plots = 30 };
    struct open_cruise prism = { .baf = 20, .plots = 30 };
    cruise_often("waka", "Waka, 30 plots of 1/20 ac", plots, 4, fixed, COUNT(fixed));
    cruise_often("waka", "Waka, 30 points, factor 20", prism, 5, points, COUNT(points));
}

/* Each volume is drawn once at most: the sample leaves less to be unsure of. */
static void draw_without_return(const struct open_tree *rows, size_t count, size_t wanted,
                                uint64_t *seed, double *out)
{
    size_t order[OPEN_PLOTS_MOST];
    for (size_t i = 0; i < count; i++)
        order[i] = i;
    for (size_t i = 0; i < wanted; i++) {
        size_t j = i + open_below(seed, count - i), held = order[i];
        order[i] = order[j];
        order[j] = held;
        out[i] = rows[order[i]].x; /* the volume */
    }
}

static void cherry_volumes_by_a_sample_of_trees(void **state)
{
    (void)state;
    static struct open_tree rows[OPEN_TREES_MOST];
    size_t count = open_rows("trees", rows);
    double truth = 0, drawn[OPEN_PLOTS_MOST];
    assert_int_equal(count, 31);
    for (size_t i = 0; i < count; i++)
        truth += rows[i].x / 31;
    struct ask asks[] = {
        { "ft3, 10 trees of the 31", "", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "ft3, 20 trees of the 31", "", 0, STOCK_TREES, WANTED, FROM_DATA },
        { "ft3, 30 trees, each put back", "", 0, STOCK_TREES, WANTED, FROM_DATA },
    };
    static const size_t sizes[] = { 10, 20, 30 };
    uint64_t seed = 6;
    show_head("black cherry, mean volume of a tree");
    for (size_t k = 0; k < COUNT(asks); k++) {
        for (int n = 0; n < SAMPLES; n++) {
            if (k < 2)
                draw_without_return(rows, count, sizes[k], &seed, drawn);
            for (size_t i = 0; k == 2 && i < sizes[k]; i++)
                drawn[i] = rows[open_below(&seed, count)].x;
            struct estimate e = { .told = true };
            e.sample = sample_of(drawn, sizes[k], k < 2 ? 31 : 0);
            e.value = e.sample.mean;
            count_one(&asks[k], &e, truth);
        }
        show_and_judge(&asks[k], truth);
    }
}

/* The stands as they are printed of the packages (R 4.2.2, spatstat.data 3.0-0; status:
 * read). */
static void the_stands_are_those_meant(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        size_t count;
        double acres, metric_basal_area; /* m2/ha */
    } rows[] = { { "longleaf", 584, 9.8842, 12.10938 },
                 { "lansing", 2251, 19.6, 0 },
                 { "spruces", 134, 0.52584, 32.0858 },
                 { "waka", 504, 2.47105, 39.71046 } };
    for (size_t k = 0; k < COUNT(rows); k++) {
        struct open_stand s = open_stand_read(rows[k].name);
        double squares = 0;
        assert_int_equal(s.count, rows[k].count);
        close_to(s.acres, rows[k].acres, 0.00005);
        for (size_t i = 0; i < s.count; i++)
            squares += s.trees[i].diameter_in * s.trees[i].diameter_in;
        double metric =
            acos(-1.0) / 4 * squares * 0.0254 * 0.0254 / (s.acres * 0.40468564224);
        if (rows[k].metric_basal_area > 0)
            close_to(metric, rows[k].metric_basal_area, 0.000005 * metric);
        free(s.trees);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_stands_are_those_meant),
        cmocka_unit_test(longleaf_by_fixed_plots),
        cmocka_unit_test(longleaf_by_prism),
        cmocka_unit_test(lansing_by_fixed_plots),
        cmocka_unit_test(waka_by_fixed_plots_and_prism),
        cmocka_unit_test(cherry_volumes_by_a_sample_of_trees),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
