/* How far shapes lie apart, against what is known of squares and against brute force. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "base/fault.h"
#include "ground/apart.h"
#include "base/chance.h"
#include "ground/pieces.h"

static struct shape square(double x, double y, double side, enum shape_kind kind)
{
    struct fault f = { 0 };
    struct shape s = { .kind = kind };
    struct point corners[] = {
        { x, y }, { x + side, y }, { x + side, y + side }, { x, y + side }
    };
    assert_true(shape_add_part(&s, corners, 4, false, &f));
    return s;
}

static void assert_apart(struct shape a, struct shape b, double wanted)
{
    struct fault f = { 0 };
    double ft = -1;
    assert_true(shape_apart(&a, &b, &ft, &f));
    assert_float_equal(ft, wanted, 1e-9);
    assert_true(shape_apart(&b, &a, &ft, &f));
    assert_float_equal(ft, wanted, 1e-9);
    shape_free(&a);
    shape_free(&b);
}

static void squares_lie_as_far_apart_as_their_corners(void **state)
{
    (void)state;
    assert_apart(square(0, 0, 100, SHAPE_AREAS), square(103, 104, 10, SHAPE_AREAS), 5);
    assert_apart(square(0, 0, 100, SHAPE_AREAS), square(120, 50, 10, SHAPE_AREAS), 20);
    assert_apart(square(0, 0, 100, SHAPE_AREAS), square(100, 0, 10, SHAPE_AREAS), 0);
}

static void what_lies_in_an_area_touches_it(void **state)
{
    (void)state;
    assert_apart(square(0, 0, 100, SHAPE_AREAS), square(40, 40, 10, SHAPE_POINTS), 0);
    assert_apart(square(0, 0, 100, SHAPE_AREAS), square(40, 40, 10, SHAPE_AREAS), 0);
    /* A line round it is not in it. */
    assert_apart(square(0, 0, 100, SHAPE_LINES), square(40, 40, 10, SHAPE_AREAS), 40);
}

static void nothing_is_endlessly_far(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape none = { .kind = SHAPE_LINES }, one = square(0, 0, 1, SHAPE_AREAS);
    double ft;
    assert_true(shape_apart(&none, &one, &ft, &f));
    assert_true(isinf(ft));
    shape_free(&one);
}

static struct shape wander(uint64_t *seed, double x, double y)
{
    struct fault f = { 0 };
    struct shape s = { .kind = SHAPE_LINES };
    struct point way[12];
    for (int i = 0; i < 12; i++) {
        x += 60 * (chance_unit(seed) - 0.5);
        y += 60 * (chance_unit(seed) - 0.5);
        way[i] = (struct point){ x, y };
    }
    assert_true(shape_add_part(&s, way, 12, false, &f));
    return s;
}

static double by_force(const struct shape *a, const struct shape *b)
{
    struct fault f = { 0 };
    struct pieces of_a = { .list = NULL }, of_b = { .list = NULL };
    assert_true(pieces_add(&of_a, a, &f) && pieces_add(&of_b, b, &f));
    double least = HUGE_VAL;
    for (size_t i = 0; i < of_a.count; i++)
        for (size_t k = 0; k < of_b.count; k++)
            least = fmin(least, segment_gap(of_a.list[i], of_b.list[k], NULL));
    pieces_free(&of_a);
    pieces_free(&of_b);
    return least;
}

static void skipping_far_pieces_changes_nothing(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 2000; i++) {
        struct shape a = wander(&seed, 0, 0);
        struct shape b = wander(&seed, 300 * (chance_unit(&seed) - 0.5),
                                300 * (chance_unit(&seed) - 0.5));
        assert_apart(a, b, by_force(&a, &b));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(squares_lie_as_far_apart_as_their_corners),
        cmocka_unit_test(what_lies_in_an_area_touches_it),
        cmocka_unit_test(nothing_is_endlessly_far),
        cmocka_unit_test(skipping_far_pieces_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
