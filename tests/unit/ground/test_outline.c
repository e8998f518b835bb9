#include "../unit.h"

#include <math.h>

#include "base/chance.h"
#include "ground/lattice.h"
#include "ground/outline.h"

#define TURN 6.283185307179586

static void its_width_across_the_center_is_the_asked_one(void **state)
{
    (void)state;
    uint64_t chance = 3;
    struct point center = { 1000, -2000 }, rim[OUTLINE_POINTS];
    for (int n = 0; n < 300; n++) {
        double width = 20 + 100 * chance_unit(&chance), sum = 0;
        outline_make(center, width, 0, &chance, rim);
        for (int i = 0; i < 720; i++) {
            double a = TURN * i / 720;
            struct point far = { center.x + 1e3 * cos(a), center.y + 1e3 * sin(a) };
            sum += point_apart(center,
                               outline_crossing(rim, OUTLINE_POINTS, center, far));
        }
        assert_true(fabs(2 * sum / 720 - width) < 0.01 * width);
        double circle = TURN / 8 * width * width;
        double area = outline_area(rim, OUTLINE_POINTS);
        assert_true(area > 0.985 * circle && area < 1.04 * circle);
        assert_true(outline_reach(center, rim) <= width / 2 * OUTLINE_MOST);
    }
}

static void it_is_no_circle_and_no_two_are_alike(void **state)
{
    (void)state;
    uint64_t chance = 5;
    struct point center = { 0, 0 }, rim[2][OUTLINE_POINTS];
    for (int n = 0; n < 100; n++) {
        double least = HUGE_VAL, most = 0, differ = 0;
        for (int k = 0; k < 2; k++)
            outline_make(center, 40, 0, &chance, rim[k]);
        for (int i = 0; i < OUTLINE_POINTS; i++) {
            double d = point_apart(center, rim[0][i]);
            least = fmin(least, d);
            most = fmax(most, d);
            differ = fmax(differ, point_apart(rim[0][i], rim[1][i]));
        }
        assert_true(most > 1.1 * least);
        assert_true(differ > 0.5);
    }
}

static void with_an_area_it_is_as_long_as_that_needs(void **state)
{
    (void)state;
    uint64_t chance = 7;
    struct point rim[OUTLINE_POINTS];
    for (int n = 0; n < 100; n++) {
        double area = 1300 + 4000 * chance_unit(&chance);
        outline_make((struct point){ 5, 5 }, 40, area, &chance, rim);
        assert_true(fabs(outline_area(rim, OUTLINE_POINTS) - area) < 1e-6 * area);
    }
}

static void the_same_chance_gives_the_same_outline(void **state)
{
    (void)state;
    uint64_t one = 11, two = 11;
    struct point a[OUTLINE_POINTS], b[OUTLINE_POINTS];
    outline_make((struct point){ 1, 2 }, 50, 0, &one, a);
    outline_make((struct point){ 1, 2 }, 50, 0, &two, b);
    assert_memory_equal(a, b, sizeof a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(its_width_across_the_center_is_the_asked_one),
        cmocka_unit_test(it_is_no_circle_and_no_two_are_alike),
        cmocka_unit_test(with_an_area_it_is_as_long_as_that_needs),
        cmocka_unit_test(the_same_chance_gives_the_same_outline),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
