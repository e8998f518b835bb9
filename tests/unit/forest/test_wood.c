#include "../unit.h"
#include "woods_stand.h"

#include "forest/stem.h"
#include "forest/tree_volume.h"
#include "forest/volume.h"
#include "forest/wood.h"
#include "quantity/spread.h"

/* An acre's, in the unit it is said in. */
static double asked(struct wood *w, const struct wood_ask *ask,
                    const struct stock_pick *pick) {
    struct qty q =
        wood_figure(w->g, w->all, pick, w->species, ask, QTY_NONE, NULL, &w->f);
    assert_true(qty_is(q));
    double value = graph_value_in(w->g, q, graph_unit(w->g, q));
    graph_release(w->g, q);
    return value;
}

static const char stand[] = "size 1/10 ac\n"
                            "plot 1: BTA 6x4 8x10 10x6 12x3; RO 14x2 16x1; BHZ 6x50\n"
                            "plot 2: BTA 8x6 13x2; RO 18x1 20x1; RM 10x2\n";

static void products_add_up_to_all_wood(void **state) {
    (void)state;
    struct wood w = wood_of(stand);
    struct stock_pick all = stock_pick_all();
    for (int told = 0; told < 2; told++)
        for (int as = WOOD_CORDS; as <= WOOD_TONS; as++) {
            if (as == WOOD_BOARD_FEET)
                continue;
            double parts[WOOD_PRODUCTS];
            for (int p = 0; p < WOOD_PRODUCTS; p++) {
                struct wood_ask ask = wood_usual();
                ask.product = (enum wood_product)p;
                ask.as = (enum wood_as)as;
                ask.heights_told = told != 0;
                ask.tree_length_ft = 66;
                parts[p] = asked(&w, &ask, &all);
                assert_true(parts[p] > 0);
            }
            close_to(parts[WOOD_SAWLOGS] + parts[WOOD_PULPWOOD], parts[WOOD_ALL],
                     1e-9 * parts[WOOD_ALL]);
        }
    wood_clear(&w);
}

/* Where no height was told: the table, tree by tree. */
static void cords_and_tons_of_what_is_felled(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\n"
                            "plot 1: BTA 8x10 4x30; RO 14x2; BHZ 6x50\n"
                            "plot 2: BTA 8x6; RO 14x2; RM 10x2\n");
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    /* per acre: 80 aspens of 8 in, 20 oaks of 14 in, 10 maples of 10 in */
    double aspen = 80 * 0.08, oak = 20 * 0.33, maple = 10 * 0.15;
    close_to(asked(&w, &ask, &all), aspen + oak + maple, 1e-9);
    ask.as = WOOD_CUBIC_FEET;
    close_to(asked(&w, &ask, &all), 79 * (aspen + oak + maple), 1e-6);
    ask.as = WOOD_TONS;
    close_to(asked(&w, &ask, &all), aspen * 2.4 + oak * 2.85 + maple * 2.5, 1e-9);
    struct qty tons = wood_figure(w.g, w.all, &all, w.species, &ask, QTY_NONE, NULL, &w.f);
    struct spread s;
    assert_true(spread_of(w.g, &tons, 1, &s, &w.f));
    assert_true(s.uncertain);
    wood_clear(&w);
}

/* 110 aspens of 10 in an acre, 64 ft tall, inside bark 0.93. Up to 5 in, half the diameter:
 * 64 - (5 / 9.3)^(1 / 0.7) * 59.5 - 1 = 38.47 ft; Beers: 0.2 * 0.7872 cord of 76 ft3. */
static void told_heights_take_the_composite_equations(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: BTA 10x10\nplot 2: BTA 10x12\n");
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    ask.heights_told = true;
    ask.tree_length_ft = 64;
    close_to(asked(&w, &ask, &all), 110 * 0.2 * 0.7872 * 76 / 79, 0.005);
    ask.solid_ft3 = 80; /* another cord holds the same wood */
    close_to(asked(&w, &ask, &all), 110 * 0.2 * 0.7872 * 76 / 80, 0.005);
    ask.as = WOOD_CUBIC_FEET;
    close_to(asked(&w, &ask, &all), 110 * 0.2 * 0.7872 * 76, 0.4);
    ask.bark = true;
    close_to(asked(&w, &ask, &all), 110 * 0.2 * 0.7872 * 92, 0.5);
    wood_clear(&w);
}

/* The interval is of the same number as the figure. */
static void an_estimate_is_of_the_same_cords(void **state) {
    (void)state;
    struct wood w = wood_of(stand);
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    ask.heights_told = true;
    ask.tree_length_ft = 66;
    struct estimate e;
    assert_true(wood_estimate(w.all, &all, w.species, &ask, &e, &w.f));
    close_to(e.value, asked(&w, &ask, &all), 1e-9);
    assert_true(e.told && e.low < e.value && e.value < e.high);
    estimate_clear(&e);
    wood_clear(&w);
}

/* Ten oaks of 14 in an acre, 66 ft tall, taken up to 7 in: by the taper 0.9097 of the stem
 * below 4 in, (1.1421 - 0.1191) / (1.1421 - 0.0175) in powers of 2.4 of the way to the tip; and
 * 100 stems of 2 in that lie there whole. */
static void slash_is_what_the_wood_leaves(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 14x1; BTA 2x10\n"
                            "plot 2: RO 14x1; BTA 2x10\n");
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    ask.tree_length_ft = 66;
    struct qty q = wood_slash(w.g, w.all, &all, w.species, &ask, NULL, &w.f);
    assert_true(qty_is(q));
    double oak = biomass_dry_kg(-2.4800, 2.4835, 14),
           stem = biomass_part(BIOMASS_WOOD, false, 14) +
                  biomass_part(BIOMASS_BARK, false, 14),
           kg = 10 * oak * (1 - 0.9097 * stem) + 100 * biomass_dry_kg(-2.4800, 2.4835, 2);
    close_to(graph_value_in(w.g, q, graph_unit(w.g, q)), kg * BIOMASS_POUNDS_PER_KG / 2000,
             0.005);
    wood_clear(&w);
}

/* One oak of 16 in, the tallest tree, by hand. */
static void board_feet_are_those_of_its_logs(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: RO 16x1\nplot 2: RO 16x1\n");
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    ask.as = WOOD_BOARD_FEET;
    ask.product = WOOD_SAWLOGS;
    ask.tree_length_ft = 70;
    struct stem s = { 16, 70, 0.93 };
    double logs = stem_logs(&s, 9);
    assert_true(logs >= 1);
    ask.rule = LOG_DOYLE;
    close_to(asked(&w, &ask, &all), 10 * tree_girard(LOG_DOYLE, 16, logs, 78), 1e-9);
    ask.form_class = 82;
    close_to(asked(&w, &ask, &all), 10 * tree_girard(LOG_DOYLE, 16, logs, 82), 1e-9);
    ask.rule = LOG_SCRIBNER_C;
    close_to(asked(&w, &ask, &all), 10 * tree_bucked(LOG_SCRIBNER_C, &s, 9), 1e-9);
    /* A larger least diameter: no sawlogs in it, all of it pulpwood. */
    ask.hardwood.from_in = 17;
    close_to(asked(&w, &ask, &all), 0, 0);
    ask.as = WOOD_CORDS;
    ask.product = WOOD_PULPWOOD;
    close_to(asked(&w, &ask, &all), 10 * 0.45, 1e-9);
    wood_clear(&w);
}

static void brush_and_saplings_have_no_wood(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/100 ac\nplot 1: BTA 4x30\nplot 2: BHZ 6x40\n");
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    ask.tree_length_ft = 40;
    close_to(asked(&w, &ask, &all), 0, 0);
    wood_clear(&w);
}

/* A taller doubt is a wider range; the likely value stays. */
static void a_doubtful_height_widens_board_feet(void **state) {
    (void)state;
    struct wood w = wood_of(stand);
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    ask.as = WOOD_BOARD_FEET;
    ask.product = WOOD_SAWLOGS;
    ask.tree_length_ft = 70;
    struct unit_id ft;
    assert_true(units_find(w.units, "ft", 2, &ft, &w.f));
    struct origin from = { SPAN_NONE, "told" };
    struct qty length =
        graph_range(w.g, 50, 70, 90, ft, graph_key("length", 0, 0), from, &w.f);
    struct qty sure = wood_figure(w.g, w.all, &all, w.species, &ask, QTY_NONE, NULL, &w.f),
               doubted = wood_figure(w.g, w.all, &all, w.species, &ask, length, NULL,
                                     &w.f);
    struct spread s[2];
    assert_true(spread_of(w.g, (struct qty[]){ sure, doubted }, 2, s, &w.f));
    close_to(s[0].value, s[1].value, 1e-9 * s[0].value);
    assert_true(s[1].high > s[0].high);
    wood_clear(&w);
}

static void biomass_of_an_acre(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: BTA 10x2; BHZ 1x10\nplot 2: RO 10x4\n");
    struct stock_pick all = stock_pick_all();
    double tons[BIOMASS_PARTS];
    for (int p = 0; p < BIOMASS_PARTS; p++) {
        struct qty q = wood_biomass(w.g, w.all, &all, w.species, (enum biomass_part)p, NULL,
                                    &w.f);
        assert_true(qty_is(q));
        tons[p] = graph_value_in(w.g, q, graph_unit(w.g, q));
    }
    /* The test table has no traits: all are mixed hardwood. 30 trees and 50 stems. */
    double kg = 30 * biomass_dry_kg(-2.4800, 2.4835, 10) +
                50 * biomass_dry_kg(-2.4800, 2.4835, 1);
    close_to(tons[BIOMASS_ALL], kg * BIOMASS_POUNDS_PER_KG / 2000, 1e-9);
    close_to(tons[BIOMASS_WOOD] + tons[BIOMASS_BARK] + tons[BIOMASS_CROWN],
             tons[BIOMASS_ALL], 1e-9);
    wood_clear(&w);
}

static void the_stout_tenth(void **state) {
    (void)state;
    struct wood w = wood_of("size 1/10 ac\nplot 1: BTA 10x10; RO 30x1\nplot 2: BTA 8x1\n");
    double stout = 0;
    assert_true(wood_stout(w.all, &stout, &w.f));
    close_to(stout, 30, 0); /* 900 of 1964: more than a tenth */
    wood_clear(&w);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(products_add_up_to_all_wood),
        cmocka_unit_test(cords_and_tons_of_what_is_felled),
        cmocka_unit_test(told_heights_take_the_composite_equations),
        cmocka_unit_test(an_estimate_is_of_the_same_cords),
        cmocka_unit_test(slash_is_what_the_wood_leaves),
        cmocka_unit_test(board_feet_are_those_of_its_logs),
        cmocka_unit_test(brush_and_saplings_have_no_wood),
        cmocka_unit_test(a_doubtful_height_widens_board_feet),
        cmocka_unit_test(biomass_of_an_acre),
        cmocka_unit_test(the_stout_tenth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
