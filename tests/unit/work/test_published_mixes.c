/* Published examples of spray arithmetic, each with its source and how well it is known:
 * found (read in the text), calc (arithmetic on its own inputs), memory. Values are held
 * to the rounding they are printed with. */
#include "graph_fixture.h"
#include "work/mixes.h"

static void calibration_of_a_128th_of_an_acre(void **state)
{
    (void)state;
    /* UF/IFAS 2022, USU, county weed guides: spray 340.3 ft2, catch the same seconds, fl
     * oz are gal/ac: 25 oz is 25 GPA, 40 oz is 40 GPA. Found. */
    prints(MIXES_PLOT_FT2, 340.3, 1);
    prints(mixes_gal_per_ac(25), 25, 9);
    prints(mixes_gal_per_ac(40), 40, 9);
    /* 18.5 ft x 18.5 ft = 342 and 10 ft x 34 ft = 340 are both called a 128th. Found. */
    prints(18.5 * 18.5, 342, 0);
    assert_true(340.0 / MIXES_PLOT_FT2 > 0.99 && 18.5 * 18.5 / MIXES_PLOT_FT2 < 1.01);
    /* NC State: a course of 340 / 6 ft = 56.7, use 57. Found. */
    prints(mixes_course_ft(6), 56.7, 1);
    prints(mixes_course_ft(6), 57, 0);
}

static void product_in_a_gallon_and_in_a_tank(void **state)
{
    (void)state;
    /* NC State, county slides: 8 oz/ac at 7.5 GPA is 1.07 oz/gal, 3.2 oz in 3 gal; 32 at
     * 40 is 0.8. Found. */
    prints(mixes_fl_oz_per_gal(8, 7.5), 1.07, 2);
    prints(3 * mixes_fl_oz_per_gal(8, 7.5), 3.2, 1);
    prints(mixes_fl_oz_per_gal(32, 40), 0.8, 1);
    /* 4 gal at 25 GPA is 0.16 ac; at 2 qt/ac (64 fl oz) 10.24 fl oz. Calc. */
    prints(mixes_ac_per_tank(4, 25), 0.16, 9);
    prints(mixes_product_per_tank(4, 25, 64), 10.24, 9);
}

static void boom_formula_both_ways(void **state)
{
    (void)state;
    /* The standard formula, GPM = GPA x MPH x W / 5940: 30 GPA, 3 mph, 20 in. Found,
     * calc. */
    prints(mixes_boom_gal_per_min(30, 3, 20), 0.303, 3);
    /* County weed guide: 3.75 GPM, 5 mph, 222 in; the guide prints 20. Found. */
    prints(mixes_boom_gal_per_ac(3.75, 5, 222), 20.07, 2);
    prints(mixes_boom_gal_per_ac(3.75, 5, 222), 20, 0);
    /* 5940 is exact: 43,560 ft2/ac x 12 in/ft over 88 ft/min to a mile an hour. Calc. */
    prints(43560.0 * 12 / 88, 5940, 9);
}

static void percent_by_volume_table(void **state)
{
    (void)state;
    /* fl oz of product in 1, 3, 4 and 25 gal of finished mix: 128 x gal x percent. Calc.
     */
    static const double gal[] = { 1, 3, 4, 25 };
    static const struct {
        double percent, fl_oz[4];
    } rows[] = {
        { 1, { 1.28, 3.84, 5.12, 32 } },   { 1.5, { 1.92, 5.76, 7.68, 48 } },
        { 2, { 2.56, 7.68, 10.24, 64 } },  { 5, { 6.4, 19.2, 25.6, 160 } },
        { 15, { 19.2, 57.6, 76.8, 480 } }, { 20, { 25.6, 76.8, 102.4, 640 } },
        { 25, { 32, 96, 128, 800 } },      { 50, { 64, 192, 256, 1600 } },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        for (size_t k = 0; k < 4; k++)
            prints(mixes_product_fl_oz(gal[k], rows[i].percent), rows[i].fl_oz[k], 9);
}

static void active_ingredient(void **state)
{
    (void)state;
    /* 1 gal of 20 percent ester mix (4 lb ae/gal, EPA label text, found) holds 25.6 fl oz
     * of product, 0.8 lb ae; 8 lb ae/ac is 10 gal of that mix on an acre. Calc. */
    prints(mixes_product_fl_oz(1, 20) / 128 * 4, 0.8, 9);
    prints(mixes_lb_per_ac(10, 20, 4), 8, 9);
    /* 40 GPA of 2 percent at 3 lb ae/gal: 0.8 gal of product, 2.4 lb ae/ac. Calc. */
    prints(mixes_product_fl_oz(40, 2) / 128, 0.8, 9);
    prints(mixes_lb_per_ac(40, 2, 3), 2.4, 9);
    /* A maximum of 8 lb ae/ac/yr of glyphosate (labels, memory) is 10.67 qt of 3-lb or 8
     * qt of 4-lb product. Calc. */
    prints(8.0 / 3 * 4, 10.67, 2);
    prints(8.0 / 4 * 4, 8, 9);
}

static void tank_loads_and_what_is_left(void **state)
{
    (void)state;
    struct mixes_loads l = mixes_tank_loads(10, 4);
    prints(l.whole, 2, 9);
    prints(l.last_gal, 2, 9);
    prints(l.spare_gal, 2, 9);
    l = mixes_tank_loads(0.3 * 40, 4); /* 12 gal but for the last bit */
    prints(l.whole, 3, 9);
    prints(l.last_gal, 0, 9);
    prints(l.spare_gal, 0, 9);
    l = mixes_tank_loads(0.5, 4);
    prints(l.whole, 0, 9);
    prints(l.last_gal, 0.5, 9);
}

static void a_mix_over_an_area_through_the_graph(void **state)
{
    (void)state;
    struct mixes_wish wish = { .area = leaf(0.5, "ac"),
                               .rate = leaf(40, "gal/ac"),
                               .share = leaf(2, "percent"),
                               .strength = leaf(3, "lb/gal"),
                               .tank = leaf(3, "gal"),
                               .carrier = "water" };
    struct mixes_parts mix;
    struct fault f = { 0 };
    assert_true(mixes_plan(g, &wish, &mix, &f));
    is(mix.finished, 20, "gal");
    is(mix.product, 0.4, "gal");
    is(mix.product, 51.2, "fl oz");
    is(mix.carrier, 19.6, "gal");
    is(mix.loads, 7, "");
    is(mix.spare, 1, "gal");
    is(mix.ingredient, 1.2, "lb");
    is(mix.ingredient_per_area, 2.4, "lb/ac");
    assert_string_equal(graph_name_of(g, mix.carrier), "water");
    assert_string_equal(graph_name_of(g, mix.product), "product");

    wish.share = QTY_NONE; /* the label may tell product on an acre instead */
    wish.product_rate = leaf(2, "qt/ac");
    assert_true(mixes_plan(g, &wish, &mix, &f));
    is(mix.product, 1, "qt");
}

static void a_mix_for_stumps_through_the_graph(void **state)
{
    (void)state;
    /* About 100 stems of 2 to 3 in to a quart (common practice, no source). */
    struct mixes_wish wish = { .amount = leaf(400, "stems"),
                               .rate = leaf(0.32, "fl oz/stem"),
                               .share = leaf(20, "percent"),
                               .carrier = "basal oil" };
    struct mixes_parts mix;
    struct fault f = { 0 };
    assert_true(mixes_plan(g, &wish, &mix, &f));
    is(mix.finished, 1, "gal");
    is(mix.product, 25.6, "fl oz");
    assert_false(qty_is(mix.loads));
    assert_false(qty_is(mix.ingredient));
}

static void a_mix_that_cannot_be_is_refused(void **state)
{
    (void)state;
    struct mixes_wish wish = { .area = leaf(0.5, "ac"),
                               .rate = leaf(40, "gal/ac"),
                               .share = leaf(120, "percent"),
                               .carrier = "water" };
    struct mixes_parts mix;
    struct fault f = { 0 };
    assert_false(mixes_plan(g, &wish, &mix, &f));
    assert_string_equal(f.id, "mix-share");
    assert_string_equal(f.message, "there is more product than finished mix");
    assert_false(qty_is(mix.finished));
    fault_clear(&f);
    wish.share = leaf(2, "percent");
    wish.tank = leaf(0, "gal");
    assert_false(mixes_plan(g, &wish, &mix, &f));
    assert_string_equal(f.id, "mix-tank");
    fault_clear(&f);
    wish.tank = QTY_NONE;
    wish.rate = leaf(0, "gal/ac");
    assert_false(mixes_plan(g, &wish, &mix, &f));
    assert_string_equal(f.id, "mix-rate");
    fault_clear(&f);
    wish.rate = leaf(40, "gal/ac"); /* mix in gallons, product in pounds: no volume */
    wish.share = QTY_NONE;
    wish.product_rate = leaf(2, "lb/ac");
    assert_false(mixes_plan(g, &wish, &mix, &f));
    assert_string_equal(f.id, "dimension-compare");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(calibration_of_a_128th_of_an_acre),
        cmocka_unit_test(product_in_a_gallon_and_in_a_tank),
        cmocka_unit_test(boom_formula_both_ways),
        cmocka_unit_test(percent_by_volume_table),
        cmocka_unit_test(active_ingredient),
        cmocka_unit_test(tank_loads_and_what_is_left),
        IN_GRAPH(a_mix_over_an_area_through_the_graph),
        IN_GRAPH(a_mix_for_stumps_through_the_graph),
        IN_GRAPH(a_mix_that_cannot_be_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
