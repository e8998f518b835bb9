#include "../unit.h"

#include <math.h>
#include <stdlib.h>

#include "base/chance.h"
#include "base/fault.h"
#include "ground/field.h"

static double plainly(const struct field *a, struct point p)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < a->wall_count; i++)
        least = fmin(least, wall_distance(&a->walls[i], p));
    return least;
}

/* The cells pass on whose they are; where walls cross, a wall can be lost that is nearest
 * only to a sliver between cells, and is then missing beyond. It is rare when
 * each cell keeps two, and far from the walls: never within 15 ft of them here. */
static void room_is_that_to_the_nearest_wall(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    uint64_t chance = 1;
    int lost = 0;
    for (int n = 0; n < 40; n++) {
        struct field a = { .twice = true };
        for (int i = 0; i < 12; i++) {
            struct point p = { 300 * chance_unit(&chance), 200 * chance_unit(&chance) };
            struct point q = { p.x + 80 * chance_unit(&chance), p.y + 50 };
            double off = i % 3 == 0 ? 30 * chance_unit(&chance) : 0;
            assert_true(field_wall(&a, p, i % 4 == 0 ? p : q, off, &f));
        }
        struct shape_box box = { 0, 0, 300, 200 };
        assert_true(field_make(&a, lattice_over(box, 5, 1), &f));
        for (int i = 0; i < 500; i++) {
            struct point p = { 300 * chance_unit(&chance), 200 * chance_unit(&chance) };
            double found = field_room(&a, p), true_one = plainly(&a, p);
            assert_true(found >= true_one - 1e-9);
            assert_true(field_sure(&a, p) == true_one);
            lost += found > true_one + 0.1;
            if (true_one < 15)
                assert_true(found <= true_one + 0.1);
        }
        field_clear(&a);
    }
    assert_true(lost < 20);
}

static void a_wall_outside_counts_too(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    struct field a = { 0 };
    struct shape_box box = { 0, 0, 100, 100 };
    assert_true(
        field_wall(&a, (struct point){ -60, -500 }, (struct point){ -60, 900 }, 100, &f));
    assert_true(field_make(&a, lattice_over(box, 5, 0), &f));
    assert_true(fabs(field_room(&a, (struct point){ 70, 33 }) - 30) < 1e-9);
    assert_true(fabs(field_room(&a, (struct point){ 10, 97 }) + 30) < 1e-9);
    field_clear(&a);
}

static void cells_of_an_area_are_those_with_their_center_in_it(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    uint64_t chance = 2;
    for (int n = 0; n < 30; n++) {
        struct shape s = { .kind = SHAPE_AREAS };
        struct point rim[9], hole[5];
        for (int i = 0; i < 9; i++) {
            double r = 40 + 50 * chance_unit(&chance), t = 6.2831853 * i / 9;
            rim[i] = (struct point){ 100 + r * cos(t), 100 + r * sin(t) };
        }
        for (int i = 0; i < 5; i++) {
            double t = -6.2831853 * i / 5;
            hole[i] = (struct point){ 100 + 20 * cos(t), 100 + 20 * sin(t) };
        }
        assert_true(shape_add_part(&s, rim, 9, false, &f));
        assert_true(shape_add_part(&s, hole, 5, true, &f));
        struct lattice at = lattice_over((struct shape_box){ 0, 0, 200, 200 }, 4.3, 1);
        uint8_t *mask = calloc(lattice_count(&at), 1);
        assert_non_null(mask);
        assert_true(lattice_fill(&at, &s, mask, 1, &f));
        for (long i = 0; i < (long)lattice_count(&at); i++)
            assert_int_equal(mask[i], shape_has(&s, lattice_center(&at, i)));
        free(mask);
        shape_free(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(room_is_that_to_the_nearest_wall),
        cmocka_unit_test(a_wall_outside_counts_too),
        cmocka_unit_test(cells_of_an_area_are_those_with_their_center_in_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
