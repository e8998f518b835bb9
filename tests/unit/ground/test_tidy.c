/* Points said twice and spikes are left out of a row; all else stays. */
#include <math.h>

#include "../unit.h"
#include "ground/tidy.h"

/* A straight walk east, a point every 10 ft. */
static size_t walk(struct point *out, size_t count)
{
    for (size_t i = 0; i < count; i++)
        out[i] = (struct point){ 10.0 * (double)i, 0 };
    return count;
}

static void a_clean_row_stays(void **state)
{
    (void)state;
    struct point p[20];
    struct tidied done = { 0 };
    assert_int_equal(tidy_points(p, walk(p, 20), false, &done), 20);
    assert_int_equal(done.doubles + done.spikes, 0);
    assert_int_equal(tidy_points(p, 0, false, &done), 0);
    assert_int_equal(tidy_points(p, 1, true, &done), 1);
}

static void doubles_go_and_what_closes_a_ring_is_none(void **state)
{
    (void)state;
    struct point p[] = { { 0, 0 }, { 0, 0 }, { 5, 0 }, { 5, 0.005 }, { 5, 5 }, { 0, 0 } };
    struct tidied done = { 0 };
    assert_int_equal(tidy_points(p, 6, true, &done), 3);
    assert_int_equal(done.doubles, 2);
}

static void a_spike_goes_with_its_length_and_area(void **state)
{
    (void)state;
    struct point p[20];
    struct tidied done = { 0 };
    size_t count = walk(p, 20);
    p[9] = (struct point){ 90, 300 };
    assert_int_equal(tidy_points(p, count, false, &done), 19);
    assert_int_equal(done.spikes, 1);
    assert_true(fabs(done.longest - hypot(10, 300)) < 1e-9);
    assert_true(fabs(done.spike_area - 20 * 300 / 2) < 1e-9);
    assert_true(p[9].x == 100 && p[9].y == 0);
}

static void a_spike_at_the_start_of_a_ring_goes_of_a_line_stays(void **state)
{
    (void)state;
    struct point ring[16], line[16];
    for (size_t i = 0; i < 16; i++)
        line[i] = ring[i] = (struct point){ 20 * cos((double)i * 0.392699),
                                            20 * sin((double)i * 0.392699) };
    line[0] = ring[0] = (struct point){ 500, 0 };
    struct tidied done = { 0 };
    assert_int_equal(tidy_points(ring, 16, true, &done), 15);
    assert_int_equal(done.spikes, 1);
    done = (struct tidied){ 0 };
    assert_int_equal(tidy_points(line, 16, false, &done), 16);
    assert_int_equal(done.spikes, 0);
}

static void a_corner_that_is_meant_stays(void **state)
{
    (void)state;
    struct tidied done = { 0 };
    struct point out[20], turn[20], few[] = { { 0, 0 }, { 1, 0 }, { 0.5, 500 }, { 0, 1 } };
    /* Out along a spur and back on another line 200 ft away. */
    size_t count = walk(out, 20);
    out[9] = (struct point){ 90, 300 };
    out[10] = (struct point){ 300, 0 };
    for (size_t i = 11; i < 20; i++)
        out[i].x += 210;
    assert_int_equal(tidy_points(out, count, false, &done), 20);
    /* 50 ft out is no farther than a careful walker goes round a tree. */
    count = walk(turn, 20);
    turn[9] = (struct point){ 90, 50 };
    assert_int_equal(tidy_points(turn, count, false, &done), 20);
    /* Drawn by hand. */
    assert_int_equal(tidy_points(few, 4, true, &done), 4);
    assert_int_equal(done.spikes + done.doubles, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_clean_row_stays),
        cmocka_unit_test(doubles_go_and_what_closes_a_ring_is_none),
        cmocka_unit_test(a_spike_goes_with_its_length_and_area),
        cmocka_unit_test(a_spike_at_the_start_of_a_ring_goes_of_a_line_stays),
        cmocka_unit_test(a_corner_that_is_meant_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
