#include "../unit.h"
#include "woods.h"

#include "forest/site_index.h"
#include "quantity/spread.h"

/* Carmean, Hahn and Jacobs 1989, NC-128, by figure (status: found in a table that
 * transcribes each figure), with the heights for site index 70 at 20, 30 and 50 yr worked
 * out there (status: computed) and what the figure's own equation should give back at
 * 50 yr. */
struct row {
    const char *figure;
    struct site_curve curve;
    double at_20, at_30, at_50;
};
static const struct row rows[] = {
    { "1", { false, 0, { 2.9435, 0.9132, -0.0141, 1.6580, -0.1095 },
             { .3263, 1.0634, -.0106, -1.2573, -.0646 } }, 33.0, 47.0, 70.1 },
    { "3", { false, 0, { 6.1308, 0.6904, -0.0195, 10.1563, -0.5330 },
             { .1984, 1.2089, -.0110, -2.4917, -.2542 } }, 34.9, 48.8, 69.9 },
    { "6", { false, 0, { 6.0522, 0.6768, -0.0217, 15.4232, -0.6354 },
             { .1817, 1.2430, -.0110, -3.0184, -.3180 } }, 36.4, 50.0, 70.0 },
    { "7", { false, 0, { 1.5980, 1, -0.0198, 0.9824, 0 }, { 0 } }, 37.3, 50.8, 70.9 },
    { "9", { false, 0, { 2.4321, 0.9207, -0.0168, 1.5247, -0.1042 },
             { .5119, 1.0229, -.0167, -1.0284, -.0049 } }, 35.6, 49.1, 69.9 },
    { "11", { false, 0, { 29.7300, 0.3631, -0.0127, 16.7616, -0.6804 }, { 0 } },
      34.6, 47.7, 68.9 },
    { "13", { false, 0, { 4.1492, 0.7531, -0.0269, 14.5384, -0.5811 }, { 0 } },
      34.6, 49.2, 70.2 },
    { "14", { false, 0, { 4.2286, 0.7857, -0.0178, 4.6219, -0.3591 },
              { .2388, 1.1583, -.0102, -1.8455, -.1883 } }, 35.4, 49.0, 70.0 },
    { "31", { false, 0, { 1.4475, 1.0098, -0.0200, 0.8489, 0.0146 },
              { .6755, 1, -.0213, -.9367, -.0002 } }, 38.8, 51.5, 69.8 },
    { "32", { false, 0, { 5.2188, 0.6855, -0.0301, 50.0071, -0.8695 },
              { .0612, 1.4390, -.0050, -3.9080, -.4350 } }, 35.8, 50.3, 70.3 },
    { "34", { false, 0, { 5.1493, 0.6948, -0.0248, 20.9210, -0.7143 },
              { .1073, 1.3455, -.0070, -3.3034, -.3899 } }, 38.3, 51.5, 69.9 },
    { "36", { false, 0, { 2.1037, 0.9140, -0.0275, 3.7962, -0.2530 },
              { .1890, 1.2031, -.0081, -2.1975, -.2582 } }, 33.5, 48.4, 70.0 },
    { "41", { false, 0, { 4.5598, 0.8136, -0.0132, 2.2410, -0.1880 },
              { .3387, 1.0135, -.0076, -.9644, -.0176 } }, 33.1, 46.8, 69.4 },
    { "47", { false, 0, { 1.5403, 1.0006, -0.0216, 1.0616, -0.0044 }, { 0 } },
      36.3, 50.0, 70.2 },
    { "48", { false, 0, { 6.1785, 0.6619, -0.0241, 25.0185, -0.7400 },
              { .1692, 1.2648, -.0110, -3.4334, -.3557 } }, 36.5, 50.2, 70.0 },
    { "49", { false, 0, { 2.9989, 0.8435, -0.0200, 3.4635, -0.3020 },
              { .2598, 1.1721, -.0107, -2.3272, -.2825 } }, 37.2, 50.3, 69.5 },
    { "51", { false, 0, { 4.7633, 0.7576, -0.0194, 6.5110, -0.4156 },
              { .1921, 1.2010, -.0100, -2.3009, -.2331 } }, 33.6, 47.9, 70.0 },
    { "53", { false, 0, { 6.4362, 0.6827, -0.0194, 10.9767, -0.5477 }, { 0 } },
      34.7, 48.7, 70.2 },
    { "55", { false, 0, { 2.0770, 0.9303, -0.0285, 2.8937, -0.1414 },
              { .4100, 1.0799, -.0205, -2.1577, -.1295 } }, 28.8, 44.9, 69.9 },
    { "60", { false, 0, { 1.5470, 1, -0.0225, 1.1129, 0 }, { 0 } }, 35.0, 49.0, 70.0 },
    { "70", { false, 0, { 1.7620, 1, -0.0201, 1.2307, 0 }, { 0 } }, 31.6, 46.5, 70.4 },
    { "74", { false, 0, { 1.6330, 1, -0.0223, 1.2419, 0 },
              { .6124, 1, -.0223, -1.2419, 0 } }, 32.1, 46.9, 69.8 },
    { "95", { false, 0, { 1.8900, 1, -0.0198, 1.3892, 0 },
              { .5291, 1, -.0198, -1.3892, 0 } }, 28.0, 43.3, 69.4 },
    { "103", { false, 0, { 1.9660, 1, -0.0240, 1.8942, 0 },
               { .5086, 1, -.0240, -1.8942, 0 } }, 22.1, 38.9, 69.8 },
    { "126", { false, 0, { 1.9730, 1, -0.0154, 1.0895, 0 }, { 0 } }, 32.5, 46.7, 70.1 },
    { "127", { false, 0, { 2.1493, 0.9979, -0.0175, 1.4086, -0.0008 }, { 0 } },
      26.9, 42.4, 69.9 },
    { "15", { false, 0, { 1.6505, 0.9096, -0.0644, 125.7045, -0.8908 }, { 0 } },
      31.3, 50.3, 70.0 },
};
enum { ROWS = sizeof rows / sizeof rows[0] };

static const struct row *row_of(const char *figure) {
    for (size_t i = 0; i < ROWS; i++)
        if (strcmp(rows[i].figure, figure) == 0) return &rows[i];
    fail_msg("no figure %s", figure);
    return NULL;
}

static const struct site_curve white_spruce = { /* fig. 66, from breast height */
    false, 4.5, { 4.4803, 0.7382, -0.0289, 26.6132, -0.6461 }, { 0 }
};

/* Prints each row that differs, then fails once. */
static void heights_are_those_of_the_check_columns(void **state) {
    (void)state;
    int off = 0;
    for (size_t i = 0; i < ROWS; i++) {
        const double age[] = { 20, 30, 50 };
        const double wanted[] = { rows[i].at_20, rows[i].at_30, rows[i].at_50 };
        for (size_t k = 0; k < 3; k++) {
            double h = site_height(&rows[i].curve, 70, age[k]);
            if (fabs(h - wanted[k]) <= 0.05 + 1e-9) continue;
            print_error("fig. %s at %g: %.3f, not %.1f\n", rows[i].figure, age[k], h,
                        wanted[k]);
            off++;
        }
        close_to(site_height(&rows[i].curve, 70, 50), 70, 1.15); /* base age */
    }
    assert_int_equal(off, 0);
    close_to(site_height(&white_spruce, 70, 50), 69.6, 0.05);
}

/* Aspen, fig. 32, site index 60, 70 and 80 (status: computed). */
static void aspen_grows_as_the_full_lines_say(void **state) {
    (void)state;
    static const double ages[] = { 10, 20, 30, 40, 50, 60, 80 };
    static const double lines[][8] = { { 60, 12.7, 28.0, 41.3, 52.0, 60.5, 66.9, 75.6 },
                                       { 70, 18.0, 35.8, 50.3, 61.6, 70.3, 76.8, 85.4 },
                                       { 80, 23.7, 43.7, 59.2, 70.9, 79.7, 86.3, 94.8 } };
    for (size_t i = 0; i < 3; i++)
        for (size_t k = 0; k < 7; k++)
            close_to(site_height(&row_of("32")->curve, lines[i][0], ages[k]),
                     lines[i][k + 1], 0.05);
}

/* Lundgren and Dolid 1970, NC-36: coefficients found, heights computed. */
static void the_other_paper_grows_as_said(void **state) {
    (void)state;
    static const double table[][6] = {
        { 1.480, -0.02140, 0.9377, 38.52, 51.42, 69.87 }, /* aspen */
        { 1.558, -0.02179, 1.0673, 35.92, 49.81, 70.40 }, /* red oak */
        { 1.598, -0.01938, 0.9824, 36.67, 50.03, 70.00 }, /* paper birch */
        { 1.890, -0.01979, 1.3892, 27.98, 43.32, 69.36 }, /* red pine */
        { 1.633, -0.02233, 1.2419, 32.16, 46.92, 69.85 }, /* jack pine */
        { 1.966, -0.02399, 1.8942, 22.13, 38.88, 69.77 }, /* white pine */
        { 1.437, -0.02266, 0.9381, 39.02, 51.84, 69.85 }, /* balsam fir */
        { 1.762, -0.02011, 1.2307, 31.65, 46.54, 70.41 }, /* black spruce */
        { 1.547, -0.02246, 1.1129, 34.94, 48.98, 69.89 }, /* tamarack */
        { 1.973, -0.01535, 1.0895, 32.41, 46.62, 69.98 }, /* white-cedar */
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const double *t = table[i];
        struct site_curve c = { .height = { t[0], 1, t[1], t[2], 0 } };
        close_to(site_height(&c, 70, 20), t[3], 0.005 + 1e-9);
        close_to(site_height(&c, 70, 30), t[4], 0.005 + 1e-9);
        close_to(site_height(&c, 70, 50), t[5], 0.005 + 1e-9);
    }
}

/* The printed answer: white oak, 45 yr, 70 ft (course page; status: found). */
static void site_index_is_the_printed_one(void **state) {
    (void)state;
    close_to(site_index_published(&row_of("41")->curve, 70, 45), 76.10251, 0.000005);
}

/* Heights fed back into the equations for site index, which are fitted apart (status:
 * computed). Red oak at 30 yr disagrees: the list of check values has 70.8, these
 * coefficients give 70.746 here and in a second reckoning apart from this code. */
static void fed_back_heights_stray_as_told(void **state) {
    (void)state;
    static const double ages[] = { 20, 30, 40, 60 };
    static const double aspen[] = { 73.2, 69.8, 70.0, 70.2 };
    static const double oak[] = { 75.3, 70.746, 70.0, 70.1 };
    for (size_t k = 0; k < 4; k++) {
        const struct site_curve *c = &row_of("32")->curve;
        close_to(site_index_published(c, site_height(c, 70, ages[k]), ages[k]), aspen[k],
                 0.05);
        c = &row_of("48")->curve;
        close_to(site_index_published(c, site_height(c, 70, ages[k]), ages[k]), oak[k],
                 0.05);
    }
    assert_true(site_is_fitted_apart(&row_of("32")->curve));
    assert_false(site_is_fitted_apart(&row_of("95")->curve));
    assert_false(site_is_fitted_apart(&row_of("7")->curve)); /* none to be apart */
}

/* From 30 to 60 yr the two equations agree within 1 ft on site 70, in every figure that
 * has both; beyond, they part again: aspen by 1.1 ft at 80 yr and 3.4 at 100. */
static void both_equations_agree_from_thirty_years(void **state) {
    (void)state;
    size_t compared = 0;
    for (size_t i = 0; i < ROWS; i++) {
        const struct site_curve *c = &rows[i].curve;
        for (double age = 30; c->site[0] != 0 && age <= 60; age += 5) {
            close_to(site_index_published(c, site_height(c, 70, age), age), 70, 1);
            compared++;
        }
    }
    assert_int_equal(compared, 17 * 7);
    const struct site_curve *aspen = &row_of("32")->curve;
    close_to(site_index_published(aspen, site_height(aspen, 70, 80), 80), 68.9, 0.05);
    close_to(site_index_published(aspen, site_height(aspen, 70, 100), 100), 66.6, 0.05);
}

static void heights_rise_with_age_and_site(void **state) {
    (void)state;
    uint32_t random = 1;
    for (int i = 0; i < 20000; i++) {
        const struct row *row = &rows[(size_t)(woods_random(&random) * ROWS)];
        double site = 25 + 75 * woods_random(&random), age = 1 + 120 * woods_random(&random);
        double more = 0.01 + 10 * woods_random(&random);
        double h = site_height(&row->curve, site, age);
        assert_true(h >= 0 && h < 200);
        assert_true(site_height(&row->curve, site, age + more) > h);
        assert_true(site_height(&row->curve, site + more, age) > h);
        assert_true(h < site_height_most(&row->curve, site));
    }
}

static void ages_and_sites_come_back(void **state) {
    (void)state;
    uint32_t random = 7;
    for (int i = 0; i < 20000; i++) {
        const struct site_curve *c = &rows[(size_t)(woods_random(&random) * ROWS)].curve;
        if (i % 10 == 0) c = &white_spruce;
        double site = 25 + 75 * woods_random(&random), age = 3 + 117 * woods_random(&random);
        double h = site_height(c, site, age);
        if (h < 0.5) continue; /* a seedling tells neither */
        close_to(site_height(c, site, site_age(c, site, h)), h, 1e-9);
        double back = site_index_inverted(c, h, age);
        close_to(site_height(c, back, age), h, 1e-9);
        close_to(back, site, 1e-6);
    }
}

static void what_the_curves_cannot_say_is_no_number(void **state) {
    (void)state;
    const struct site_curve *c = &row_of("48")->curve;
    assert_true(isnan(site_age(c, 60, 150)));
    assert_true(isnan(site_age(c, 60, site_height_most(c, 60))));
    close_to(site_age(c, 60, 0), 0, 0);
    close_to(site_height(c, 60, 0), 0, 0);
    close_to(site_height(&white_spruce, 60, 0), 4.5, 0);
    assert_true(isnan(site_index_inverted(c, 0, 50)));
    assert_true(isnan(site_index_inverted(c, 50, 0)));
    assert_true(isnan(site_index_published(&row_of("53")->curve, 50, 50)));
}

/* Lundgren and Dolid's simpler form, aspen: H = SI (1.460 - 1.4337 e^(-0.02274 A)). */
static void the_simpler_form_goes_both_ways(void **state) {
    (void)state;
    struct site_curve c = { .exponential = true, .height = { 1.460, -1.4337, -0.02274 } };
    close_to(site_height(&c, 70, 50), 70 * (1.460 - 1.4337 * exp(-0.02274 * 50)), 1e-12);
    close_to(site_height(&c, 70, 50), 70, 0.5);
    double h = site_height(&c, 63, 37);
    close_to(site_age(&c, 63, h), 37, 1e-9);
    close_to(site_index_inverted(&c, h, 37), 63, 1e-9);
}

static void quantities_carry_their_ranges(void **state) {
    (void)state;
    struct fault f = { .id = NULL };
    struct units *units = units_new();
    struct graph *g = graph_new(units);
    struct unit_id ft, yr;
    assert_true(units_find(units, "ft", 2, &ft, &f) && units_find(units, "yr", 2, &yr, &f));
    const struct site_curve *c = &row_of("48")->curve;
    struct qty site = graph_range(g, 56, 61, 66, ft, 1, (struct origin){ SPAN_NONE, "" }, &f);
    struct qty age = graph_leaf(g, 90, yr, (struct origin){ SPAN_NONE, "" }, &f);
    struct qty h = site_height_of(g, c, site, age, "NC-128 fig. 48", &f);
    struct spread s;
    assert_true(qty_is(h) && spread_of(g, &h, 1, &s, &f));
    double foot = unit_factor(units, ft);
    close_to(graph_value_in(g, h, ft), site_height(c, 61, 90), 1e-9);
    close_to(s.low / foot, site_height(c, 56, 90), 0.05);
    close_to(s.high / foot, site_height(c, 66, 90), 0.05);
    struct qty back = site_age_of(g, c, site, h, "NC-128 fig. 48", &f);
    close_to(graph_value_in(g, back, yr), 90, 1e-6);
    struct qty index = site_index_of(g, c, h, age, "NC-128 fig. 48", &f);
    close_to(graph_value_in(g, index, ft),
             site_index_published(c, site_height(c, 61, 90), 90), 1e-9);
    assert_false(fault_is_set(&f));
    assert_false(qty_is(site_height_of(g, c, age, age, "", &f)));
    assert_string_equal(f.id, "dimension-say");
    graph_free(g);
    units_free(units);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heights_are_those_of_the_check_columns),
        cmocka_unit_test(aspen_grows_as_the_full_lines_say),
        cmocka_unit_test(the_other_paper_grows_as_said),
        cmocka_unit_test(site_index_is_the_printed_one),
        cmocka_unit_test(fed_back_heights_stray_as_told),
        cmocka_unit_test(both_equations_agree_from_thirty_years),
        cmocka_unit_test(heights_rise_with_age_and_site),
        cmocka_unit_test(ages_and_sites_come_back),
        cmocka_unit_test(what_the_curves_cannot_say_is_no_number),
        cmocka_unit_test(the_simpler_form_goes_both_ways),
        cmocka_unit_test(quantities_carry_their_ranges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
