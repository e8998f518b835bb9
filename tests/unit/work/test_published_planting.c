/* Published plants to the acre, the screen in three rows, seed from the tag: each with
 * its source and how well it is known (found, calc, memory, trade: common practice, no
 * source), at the rounding it is printed with. */
#include "graph_fixture.h"

#include <math.h>

#include "work/planting.h"
#include "work/seeding.h"

static void plants_to_the_acre_by_spacing(void **state)
{
    (void)state;
    /* 43,560 over row x in-row spacing, exact and rounded down. Calc. */
    static const struct {
        double row, in_row, exact, down;
        int decimals;
    } rows[] = {
        { 4, 6, 1815, 1815, 1 },   { 5, 5, 1742.4, 1742, 1 }, { 6, 6, 1210, 1210, 1 },
        { 6, 8, 907.5, 907, 1 },   { 7, 8, 777.9, 777, 1 },   { 6, 10, 726, 726, 1 },
        { 8, 8, 680.6, 680, 1 },   { 8, 10, 544.5, 544, 1 },  { 10, 10, 435.6, 435, 1 },
        { 12, 12, 302.5, 302, 1 }, { 20, 20, 108.9, 108, 1 }, { 30, 30, 48.4, 48, 1 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double n = planting_per_ac(rows[i].row, rows[i].in_row);
        prints(n, rows[i].exact, rows[i].decimals);
        assert_float_equal(floor(n), rows[i].down, 0);
    }
}

static void what_a_printed_sheet_rounds_another_way(void **state)
{
    (void)state;
    /* Michigan-area conservation district spacing sheet, found: it prints 908 for 6 x 8,
     * where the arithmetic is 907.5; 778 for 7 x 8 (777.86); and 300 for 12 x 12, which
     * is 302.5. */
    prints(planting_per_ac(6, 8), 907.5, 9);
    prints(planting_per_ac(6, 8), 908, 0);
    prints(planting_per_ac(7, 8), 778, 0);
    prints(planting_per_ac(12, 12), 302.5, 9);
    assert_false(fabs(planting_per_ac(12, 12) - 300) <= 0.5);
}

static void a_triangle_holds_fifteen_percent_more(void **state)
{
    (void)state;
    /* "Square value + 15 percent"; exactly 2 / sqrt 3. Calc. */
    prints(planting_per_ac_triangular(8) / planting_per_ac(8, 8), 1.15, 2);
    prints(planting_per_ac_triangular(8), 680.625 * 1.154700538, 3);
}

static void a_screen_in_three_rows(void **state)
{
    (void)state;
    /* 400 ft at 8 ft: 400/8 + 1 = 51 a row, 153 in three staggered rows. Trade, calc. */
    prints(planting_along(400, 8), 51, 9);
    prints(3 * planting_along(400, 8), 153, 9);
    prints(planting_along(3, 8), 1, 9);
    /* Windbreak conifers 15 in 100 ft, shrubs 17 in 100 ft (conservation district sheet,
     * found): spacings of 7 and 6 ft with one at each end. */
    prints(planting_along(100, 7), 15, 9);
    prints(planting_along(100, 6), 17, 9);
}

static void orders_allow_for_losses(void **state)
{
    (void)state;
    /* Order 10 to 15 percent extra. Trade. */
    prints(planting_order_extra(153, 10), 169, 9); /* 168.3 */
    prints(planting_order_extra(100, 15), 115, 9);
    prints(planting_order_survival(70, 70), 100, 9);
    prints(planting_order_survival(272, 85), 320, 9);
}

static void planting_through_the_graph(void **state)
{
    (void)state;
    struct fault f = { 0 };
    /* 544 plants/ac x 0.5 ac is 272 plants. Calc; 544.5 x 0.5 counted down is the same.
     */
    struct qty n =
        planting_on_area(g, leaf(0.5, "ac"), leaf(8, "ft"), leaf(10, "ft"), false, &f);
    is(n, 272, "plants");
    is(planting_on_area(g, leaf(1, "ac"), leaf(2, "yd"), leaf(96, "in"), false, &f), 907,
       "plants");
    is(planting_on_area(g, leaf(1, "ac"), leaf(8, "ft"), leaf(8, "ft"), true, &f), 785,
       "plants");
    struct qty screen =
        planting_in_rows(g, leaf(400, "ft"), leaf(8, "ft"), leaf(3, ""), &f);
    is(screen, 153, "plants");
    assert_string_equal(graph_name_of(g, screen), "plants");
    is(planting_order(g, screen, leaf(10, "percent"), QTY_NONE, &f), 169, "plants");
    is(planting_order(g, n, QTY_NONE, leaf(85, "percent"), &f), 320, "plants");
    is(planting_order(g, n, QTY_NONE, QTY_NONE, &f), 272, "plants");
    assert_false(fault_is_set(&f));

    assert_false(qty_is(planting_on_area(g, n, leaf(0, "ft"), leaf(8, "ft"), false, &f)));
    assert_string_equal(f.id, "plant-spacing");
    fault_clear(&f);
    assert_false(qty_is(planting_order(g, n, QTY_NONE, leaf(0, "percent"), &f)));
    assert_string_equal(f.id, "plant-survival");
}

static void seed_by_the_tag(void **state)
{
    (void)state;
    /* TxDOT, found: 85% x 75% = 0.6375 (it prints 0.64), 1 lb of pure live seed is 1.57
     * lb in bulk; with its rounded 0.64 it prints 1.56. */
    prints(seeding_live_share(85, 75), 0.6375, 9);
    prints(seeding_live_share(85, 75), 0.64, 2);
    prints(seeding_bulk(1, seeding_live_share(85, 75)), 1.57, 2);
    prints(seeding_bulk(1, 0.64), 1.56, 2);
    /* LSU AgCenter, found: 48% x 80% = 0.384, 20 lb are 52.08 lb in bulk; with its
     * rounded 0.38 it prints 52.6. */
    prints(seeding_live_share(48, 80), 0.384, 9);
    prints(seeding_bulk(20, seeding_live_share(48, 80)), 52.08, 2);
    prints(seeding_bulk(20, seeding_live_share(48, 80)), 52.1, 1);
    prints(seeding_bulk(20, 0.38), 52.6, 1);
    /* Penn State, found: 92% x 80% = 0.736 (prints 74%), 1.36 lb of bulk to the pound
     * (prints 1.4). */
    prints(seeding_live_share(92, 80), 0.736, 9);
    prints(seeding_bulk(1, seeding_live_share(92, 80)), 1.36, 2);
    prints(seeding_bulk(1, seeding_live_share(92, 80)), 1.4, 1);
}

static void seeds_on_a_square_foot(void **state)
{
    (void)state;
    /* MN BWSR pilot seed mix report 2018, found: oats 37.88 lb/ac are 11.13 seeds/ft2, at
     * 12,800 seeds to the pound. */
    prints(seeding_seeds_per_ft2(37.88, 12800), 11.13, 2);
    /* A trail of 600 x 12 ft is 0.165 ac; 4 lb/ac of white clover is 0.66 lb, 10.6 oz.
     * Calc. */
    double ac = 600.0 * 12 / 43560;
    prints(ac, 0.165, 3);
    prints(4 * ac, 0.66, 2);
    prints(4 * ac * 16, 10.6, 1);
}

static void seed_through_the_graph(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct seeding_wish wish = { .area = leaf(2, "ac"),
                                 .rate = leaf(10, "lb/ac"),
                                 .purity = leaf(48, "percent"),
                                 .germination = leaf(80, "percent") };
    struct seeding_parts seed;
    assert_true(seeding_plan(g, &wish, &seed, &f));
    is(seed.pure_live, 20, "lb");
    is(seed.live_share, 0.384, "");
    is(seed.bulk, 20 / 0.384, "lb");
    wish.purity = leaf(0, "percent");
    assert_false(seeding_plan(g, &wish, &seed, &f));
    assert_string_equal(f.id, "seed-share");
    assert_string_equal(f.message,
                        "the purity of seed must be a share of more than nothing and "
                        "at most 100 percent");
    fault_clear(&f);
    wish.purity = leaf(48, "lb");
    assert_false(seeding_plan(g, &wish, &seed, &f));
    assert_string_equal(f.id, "seed-share");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plants_to_the_acre_by_spacing),
        cmocka_unit_test(what_a_printed_sheet_rounds_another_way),
        cmocka_unit_test(a_triangle_holds_fifteen_percent_more),
        cmocka_unit_test(a_screen_in_three_rows),
        cmocka_unit_test(orders_allow_for_losses),
        IN_GRAPH(planting_through_the_graph),
        cmocka_unit_test(seed_by_the_tag),
        cmocka_unit_test(seeds_on_a_square_foot),
        IN_GRAPH(seed_through_the_graph),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
