/* The property's frame against the geodesics of the ellipsoid. */
#include "ground.h"
#include "ground/frame.h"

static struct frame *frame_at(double lon, double lat)
{
    struct fault f = { 0 };
    struct frame *frame = frame_new((struct position){ lon, lat }, &f);
    if (!frame)
        abort();
    return frame;
}

static void its_middle_is_nought_and_east_and_north_are_right(void **state)
{
    (void)state;
    struct frame *frame = frame_at(-87.5, 47.6);
    struct point p = frame_point(frame, (struct position){ -87.5, 47.6 });
    assert_true(hypot(p.x, p.y) < 1e-6);
    p = frame_point(frame, (struct position){ -87.49, 47.6 });
    assert_true(p.x > 2400 && p.x < 2500 && fabs(p.y) < 1);
    p = frame_point(frame, (struct position){ -87.5, 47.61 });
    assert_true(p.y > 3600 && p.y < 3700 && fabs(p.x) < 1e-6);
    frame_free(frame);
}

static void to_feet_and_back_is_the_same_place_within_a_hundredth_of_a_foot(void **state)
{
    (void)state;
    unsigned seed = 3;
    for (int i = 0; i < 2000; i++) {
        double lon = rand_r(&seed) % 360 - 180, lat = rand_r(&seed) % 120 - 50;
        struct frame *frame = frame_at(lon, lat);
        struct point p = { rand_r(&seed) % 40000 - 20000.0,
                           rand_r(&seed) % 40000 - 20000.0 };
        struct point back = frame_point(frame, frame_place(frame, p));
        assert_true(hypot(back.x - p.x, back.y - p.y) < 0.01);
        frame_free(frame);
    }
}

/* Odd outlines up to 5 miles across, anywhere from 42 N to 49 N: the bar is 1 in 10,000. */
static void areas_and_lengths_are_those_of_the_ellipsoid(void **state)
{
    (void)state;
    unsigned seed = 11;
    double worst_area = 0, worst_length = 0;
    for (int i = 0; i < 500; i++) {
        struct frame *frame =
            frame_at(-96 + rand_r(&seed) % 2900 / 100.0, 42 + rand_r(&seed) % 701 / 100.0);
        struct shape s = area();
        double ring[40];
        for (int k = 0; k < 20; k++) {
            double far = (0.3 + 0.7 * (rand_r(&seed) % 1000) / 1000) * 2.5 * 5280;
            ring[2 * k] = far * cos(k * 0.314159265358979);
            ring[2 * k + 1] = far * sin(k * 0.314159265358979);
        }
        part(&s, false, ring, 20);
        PART(&s, true, 100, 100, 900, 100, 900, 700);
        double a = fabs(shape_area(&s) / frame_area(frame, &s) - 1);
        double b = fabs(shape_length(&s) / frame_length(frame, &s) - 1);
        worst_area = fmax(worst_area, a);
        worst_length = fmax(worst_length, b);
        shape_free(&s);
        frame_free(frame);
    }
    print_message("worst: area %.1e, length %.1e\n", worst_area, worst_length);
    assert_true(worst_area < 1e-6 && worst_length < 1e-6);
}

static void a_place_that_is_none_is_refused(void **state)
{
    (void)state;
    static const struct position wrong[] = { { 0, 90 },   { -87, -85 }, { 181, 0 },
                                             { NAN, 45 }, { -87, NAN }, { 512340, 5112345 } };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        struct fault f = { 0 };
        assert_null(frame_new(wrong[i], &f));
        assert_true(told(&f, "frame-place", "degrees of longitude", ""));
    }
}

static void the_other_side_of_the_earth_is_far_or_nowhere(void **state)
{
    (void)state;
    struct frame *frame = frame_at(-87.5, 47.6);
    struct point p = frame_point(frame, (struct position){ 92.5, -47.6 });
    assert_false(hypot(p.x, p.y) <= FRAME_REACH_FT);
    p = frame_point(frame, (struct position){ -87.5, 47.7 });
    assert_true(isfinite(p.x) && hypot(p.x, p.y) < FRAME_REACH_FT);
    frame_free(frame);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(its_middle_is_nought_and_east_and_north_are_right),
        cmocka_unit_test(to_feet_and_back_is_the_same_place_within_a_hundredth_of_a_foot),
        cmocka_unit_test(areas_and_lengths_are_those_of_the_ellipsoid),
        cmocka_unit_test(a_place_that_is_none_is_refused),
        cmocka_unit_test(the_other_side_of_the_earth_is_far_or_nowhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
