#include "../unit.h"

#include <math.h>

#include "base/buf.h"
#include "ground/bearing.h"

#define near(value, wanted, within) assert_true(fabs((value) - (wanted)) <= (within))

static void azimuths_between_points(void **state)
{
    (void)state;
    struct point at = { 1000, 2000 };
    near(bearing_between(at, (struct point){ 1000, 2500 }), 0, 0);
    near(bearing_between(at, (struct point){ 1100, 2100 }), 45, 1e-12);
    near(bearing_between(at, (struct point){ 1100, 2000 }), 90, 1e-12);
    near(bearing_between(at, (struct point){ 1000, 1000 }), 180, 1e-12);
    near(bearing_between(at, (struct point){ 0, 3000 }), 315, 1e-12);
    near(bearing_between(at, at), 0, 0);
    for (int a = 0; a < 360; a++) {
        struct point there = bearing_walk(at, a, 777);
        near(hypot(there.x - at.x, there.y - at.y), 777, 1e-9);
        near(bearing_between(at, there), a, 1e-9);
    }
    struct point east = bearing_walk(at, 90, 500); /* to the last bit */
    near(east.x, 1500, 0);
    near(east.y, 2000, 0);
    near(bearing_walk(at, 30, 100).x, 1050, 1e-12);
}

static void declination_east_is_added_to_the_needle(void **state)
{
    (void)state;
    near(bearing_true(100, 5), 105, 0);
    near(bearing_true(1, -3.5), 357.5, 0);
    near(bearing_magnetic(2, 5), 357, 0);
    near(bearing_magnetic(bearing_true(213, -4.25), -4.25), 213, 1e-12);
    near(bearing_normal(-720), 0, 0);
    near(bearing_normal(1085), 5, 0);
    assert_false(signbit(bearing_normal(-360)));
    near(bearing_normal(-1e-20), 0, 0);
    assert_true(isnan(bearing_normal(INFINITY)));
}

static void quadrants_and_sixtieths(void **state)
{
    (void)state;
    near(bearing_of_quadrant('N', 42, 'E'), 42, 0);
    near(bearing_of_quadrant('S', 45.5, 'E'), 134.5, 0);
    near(bearing_of_quadrant('S', 10, 'W'), 190, 0);
    near(bearing_of_quadrant('N', 10, 'W'), 350, 0);
    near(bearing_of_quadrant('N', 0, 'W'), 0, 0);
    near(bearing_degrees(10, 15, 30), 10.258333333333333, 1e-12);
}

static void quadrant_says(double azimuth, enum bearing_step step, const char *wanted)
{
    struct buf out;
    buf_init(&out);
    bearing_quadrant(&out, azimuth, step);
    assert_string_equal(out.data, wanted);
    buf_clear(&out);
}

static void azimuth_says(double azimuth, enum bearing_step step, const char *wanted)
{
    struct buf out;
    buf_init(&out);
    bearing_azimuth(&out, azimuth, step);
    assert_string_equal(out.data, wanted);
    buf_clear(&out);
}

static void words(void **state)
{
    (void)state;
    quadrant_says(42.5, BEARING_TO_MINUTES, "N 42°30' E");
    quadrant_says(134.5, BEARING_TO_MINUTES, "S 45°30' E");
    quadrant_says(190.258333, BEARING_TO_SECONDS, "S 10°15'30\" W");
    quadrant_says(349.6, BEARING_TO_DEGREES, "N 10° W");
    quadrant_says(359.99, BEARING_TO_DEGREES, "due north");
    quadrant_says(90.004, BEARING_TO_MINUTES, "due east");
    quadrant_says(179.9999, BEARING_TO_SECONDS, "due south");
    quadrant_says(270.5, BEARING_TO_DEGREES, "N 89° W"); /* a half goes up: 271 */
    quadrant_says(41.9999, BEARING_TO_MINUTES, "N 42°00' E");
    quadrant_says(NAN, BEARING_TO_DEGREES, "?");
    azimuth_says(7, BEARING_TO_DEGREES, "007°");
    azimuth_says(359.9999, BEARING_TO_MINUTES, "000°00'");
    azimuth_says(42.505, BEARING_TO_SECONDS, "042°30'18\"");
    azimuth_says(INFINITY, BEARING_TO_SECONDS, "?");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(azimuths_between_points),
        cmocka_unit_test(declination_east_is_added_to_the_needle),
        cmocka_unit_test(quadrants_and_sixtieths),
        cmocka_unit_test(words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
