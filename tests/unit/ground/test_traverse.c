#include "../page/failing.h"

#include "../unit.h"

#include <math.h>

#include "base/fault.h"
#include "ground/bearing.h"
#include "ground/traverse.h"

#define near(value, wanted, within) assert_true(fabs((value) - (wanted)) <= (within))
#define COUNT(list)                 (sizeof(list) / sizeof(list)[0])

static struct traverse run(const struct traverse_ask *ask)
{
    struct traverse t;
    struct fault f = { .id = NULL };
    assert_true(traverse_run(ask, &t, &f));
    assert_null(f.id);
    return t;
}

/* Ghilani and Wolf, Elementary Surveying (13th ed.), chapter 10: the traverse of five
 * courses A to E, its departures and latitudes (table 10.1 and on), balanced by the
 * compass rule, coordinates from A = (10,000.00, 5,000.00); its area in chapter 12. All
 * from memory; courses as azimuths. They are printed to a second: half of one over 2,466
 * ft is 0.006 ft, and that is how near the numbers must come. Not all come nearer: the
 * miss is 0.077 ft north as remembered, and 0.0754 ft by these courses. */
#define HALF_A_SECOND 0.006
static const struct traverse_call textbook[] = {
    { 126 + 55 / 60.0 + 17 / 3600.0, 647.25, false },
    { 178 + 18 / 60.0 + 58 / 3600.0, 203.03, false },
    { 15 + 31 / 60.0 + 54 / 3600.0, 720.35, false },
    { 284 + 35 / 60.0 + 20 / 3600.0, 610.24, false },
    { 206 + 9 / 60.0 + 41 / 3600.0, 285.13, false },
};

static void the_textbook_traverse(void **state)
{
    (void)state;
    static const struct point published[] = {
        { 10000.00, 5000.00 },   { 10517.444, 4611.165 }, { 10523.408, 4408.217 },
        { 10716.289, 5102.239 }, { 10125.718, 5255.928 }, { 10000.00, 5000.00 }
    };
    struct traverse t = run(&(struct traverse_ask){ .from = { 10000, 5000 },
                                                    .calls = textbook,
                                                    .count = COUNT(textbook),
                                                    .end = TRAVERSE_CLOSED });
    near(t.length_ft, 2466.00, 0.005);
    near(t.miss_east, 0.026, HALF_A_SECOND);
    near(t.miss_north, 0.077, HALF_A_SECOND);
    near(t.miss_ft, 0.08, 0.005);
    near(t.one_in, 30000, 1000); /* printed as 1/30,000 */
    assert_int_equal(t.count, COUNT(published));
    for (size_t i = 0; i < t.count; i++) {
        near(t.points[i].x, published[i].x, HALF_A_SECOND);
        near(t.points[i].y, published[i].y, HALF_A_SECOND);
    }
    near(t.area_ft2, 272600, 50); /* printed to the nearest hundred */
    near(t.area_ft2 / 43560, 6.258, 0.001);
    assert_int_equal(t.slip, SLIP_NONE);
    traverse_free(&t);
}

/* A square of 10 chains whose last side is a foot short and a call off by the needle. */
static void magnetic_calls_get_the_declination(void **state)
{
    (void)state;
    const struct traverse_call calls[] = {
        { 3.5, 660, true }, { 90, 660, false }, { 183.5, 660, true }, { 270, 659, false }
    };
    struct traverse t = run(&(struct traverse_ask){
        .calls = calls, .count = 4, .end = TRAVERSE_CLOSED, .declination = -3.5 });
    near(t.measured[1].x, 0, 1e-9);
    near(t.measured[1].y, 660, 1e-9);
    near(t.miss_east, 1, 1e-9);
    near(t.miss_north, 0, 1e-9);
    near(t.miss_azimuth, 90, 1e-6);
    near(t.one_in, 2639, 1e-6);
    near(t.points[2].x, 660 - 1320 / 2639.0, 1e-9); /* by hand: half the length gone */
    near(t.points[4].x, 0, 0);
    traverse_free(&t);
}

static void open_tied_and_led_back(void **state)
{
    (void)state;
    const struct traverse_call calls[] = { { 90, 300, false }, { 0, 400, false } };
    struct traverse_ask ask = { .from = { 10, 20 }, .calls = calls, .count = 2 };
    struct traverse t = run(&ask);
    assert_true(isnan(t.one_in));
    near(t.points[2].x, 310, 1e-9);
    near(t.points[2].y, 420, 1e-9);
    near(t.area_ft2, 0, 0);
    traverse_free(&t);
    ask.end = TRAVERSE_BACK;
    t = run(&ask);
    assert_true(isnan(t.one_in));
    near(t.area_ft2, 60000, 1e-6);
    traverse_free(&t);
    ask.end = TRAVERSE_TIED;
    ask.to = (struct point){ 317, 420 };
    t = run(&ask);
    near(t.miss_ft, 7, 1e-9);
    near(t.one_in, 100, 1e-9);
    near(t.points[1].x, 313, 1e-9);
    near(t.points[2].x, 317, 0);
    struct shape line;
    struct fault f = { .id = NULL };
    assert_true(traverse_shape(&t, ask.end, &line, &f));
    assert_int_equal(line.kind, SHAPE_LINES);
    near(shape_length(&line), hypot(303, 0) + hypot(4, 400), 1e-9);
    shape_free(&line);
    traverse_free(&t);
}

/* Which calls touch where an area's sides should not, counted from 1; 0: none do. */
static void crosses(const double (*calls)[2], size_t count, enum traverse_end end,
                    size_t wanted_first, size_t wanted_second)
{
    struct traverse_call list[8];
    for (size_t i = 0; i < count; i++)
        list[i] = (struct traverse_call){ calls[i][0], calls[i][1], false };
    struct traverse t =
        run(&(struct traverse_ask){ .calls = list, .count = count, .end = end });
    size_t first = 0, second = 0;
    bool found = traverse_crossing(&t, end, &first, &second);
    assert_int_equal(found ? first + 1 : 0, wanted_first);
    assert_int_equal(found ? second + 1 : 0, wanted_second);
    traverse_free(&t);
}

static void sides_that_cross_are_found(void **state)
{
    (void)state;
    const double square[][2] = { { 0, 100 }, { 90, 100 }, { 180, 100 }, { 270, 100 } };
    crosses(square, 4, TRAVERSE_CLOSED, 0, 0);
    crosses(square, 3, TRAVERSE_BACK, 0, 0);
    crosses(square, 4, TRAVERSE_OPEN, 0, 0);
    const double eight[][2] = { { 0, 100 }, { 90, 100 }, { 180, 50 }, { 270, 50 },
                                { 0, 100 } };
    crosses(eight, 5, TRAVERSE_BACK, 2, 5);
    crosses(eight, 5, TRAVERSE_OPEN, 0, 0);
    /* There and back again, at a corner and over the start. */
    const double spike[][2] = { { 0, 100 }, { 90, 100 }, { 270, 100 }, { 180, 100 } };
    crosses(spike, 4, TRAVERSE_CLOSED, 1, 3);
    crosses(&spike[1], 2, TRAVERSE_BACK, 1, 2);
    const double over[][2] = { { 90, 100 }, { 0, 100 }, { 270, 100 }, { 180, 150 } };
    crosses(over, 4, TRAVERSE_BACK, 1, 4);
    const double back[][2] = { { 0, 100 }, { 90, 100 }, { 180, 50 }, { 270, 100 } };
    crosses(back, 4, TRAVERSE_BACK, 1, 4);
    /* The side back to the start goes through a call. */
    const double bow[][2] = { { 0, 100 }, { 135, 200 }, { 0, 100 }, { 270, 10 } };
    crosses(bow, 4, TRAVERSE_BACK, 2, 5);
}

static void exact_closure_has_no_ratio_to_tell(void **state)
{
    (void)state;
    const struct traverse_call calls[] = {
        { 0, 30, false }, { 90, 40, false }, { 180, 30, false }, { 270, 40, false }
    };
    struct traverse t =
        run(&(struct traverse_ask){ .calls = calls, .count = 4, .end = TRAVERSE_CLOSED });
    assert_true(isinf(t.one_in));
    near(t.area_ft2, 1200, 1e-9);
    traverse_free(&t);
}

/* A pentagon walked with one slip: it is named, whichever call it was. */
static void one_slip_is_found_out(void **state)
{
    (void)state;
    for (size_t at = 0; at < COUNT(textbook); at++) {
        for (int slip = SLIP_BACKWARD; slip <= SLIP_TWICE; slip++) {
            struct traverse_call calls[COUNT(textbook) + 1];
            size_t count = 0, want = at;
            for (size_t i = 0; i < COUNT(textbook); i++) {
                calls[count++] = textbook[i];
                if (i == at && slip == SLIP_TWICE)
                    want = count, calls[count++] = textbook[i];
            }
            double was = textbook[at].azimuth;
            if (slip == SLIP_BACKWARD)
                calls[at].azimuth = was + 180;
            if (slip == SLIP_EAST_WEST)
                calls[at].azimuth = bearing_normal(-was);
            if (slip == SLIP_NORTH_SOUTH)
                calls[at].azimuth = bearing_normal(180 - was);
            struct traverse t = run(&(struct traverse_ask){
                .calls = calls, .count = count, .end = TRAVERSE_CLOSED });
            /* A call due south has no east to mistake. */
            if (t.one_in < TRAVERSE_GOOD_ONE_IN) {
                assert_int_equal(t.slip_call, want);
                assert_true((int)t.slip == slip || t.slip == SLIP_BACKWARD ||
                            slip == SLIP_BACKWARD);
            } else {
                assert_int_equal(at, 1);
                assert_int_equal(slip, SLIP_EAST_WEST);
            }
            traverse_free(&t);
        }
    }
}

static void refused(struct traverse_ask ask, const char *id, const char *message)
{
    struct traverse t;
    struct fault f = { .id = NULL };
    assert_false(traverse_run(&ask, &t, &f));
    assert_string_equal(f.id, id);
    assert_string_equal(f.message, message);
    assert_null(t.points);
}

static void what_is_no_traverse(void **state)
{
    (void)state;
    const struct traverse_call bad[] = { { 0, 10, false }, { 9, -3, false } };
    const struct traverse_call odd[] = { { NAN, 10, false } };
    refused((struct traverse_ask){ .calls = bad }, "traverse-empty",
            "a traverse needs a call");
    refused((struct traverse_ask){ .calls = bad, .count = 2 }, "traverse-length",
            "call 2 has no length between 0 and 100000 ft");
    refused((struct traverse_ask){ .calls = odd, .count = 1 }, "traverse-length",
            "call 1 has no length between 0 and 100000 ft");
    refused((struct traverse_ask){ .calls = bad, .count = 2, .end = TRAVERSE_CLOSED },
            "traverse-flat", "2 calls cannot go round an area");
    refused((struct traverse_ask){ .calls = bad, .count = 1, .end = TRAVERSE_BACK },
            "traverse-flat", "1 call cannot go round an area");
    refused((struct traverse_ask){ .calls = bad, .count = 1001 }, "traverse-many",
            "a traverse has at most 1000 calls; this one has 1001");
}

static uint64_t dice = 88172645463325252u;
static double roll(double from, double to)
{
    dice ^= dice << 13, dice ^= dice >> 7, dice ^= dice << 17;
    return from + (to - from) * (double)(dice >> 11) / 9007199254740992.0;
}

/* Of any traverse the adjusted calls add up to nothing, and each was moved by its share. */
static void random_traverses_close(void **state)
{
    (void)state;
    for (int round = 0; round < 500; round++) {
        struct traverse_call calls[12];
        size_t count = 3 + (size_t)roll(0, 9.99);
        for (size_t i = 0; i < count; i++)
            calls[i] =
                (struct traverse_call){ roll(0, 360), roll(1, 900), roll(0, 2) < 1 };
        struct traverse t = run(&(struct traverse_ask){ .from = { 500, -70 },
                                                        .calls = calls,
                                                        .count = count,
                                                        .end = TRAVERSE_CLOSED,
                                                        .declination = roll(-20, 20) });
        near(t.one_in * t.miss_ft, t.length_ft, 1e-6);
        near(hypot(t.points[count].x - 500, t.points[count].y + 70), 0, 0);
        for (size_t i = 0; i < count; i++) {
            double moved = hypot((t.points[i + 1].x - t.points[i].x) -
                                     (t.measured[i + 1].x - t.measured[i].x),
                                 (t.points[i + 1].y - t.points[i].y) -
                                     (t.measured[i + 1].y - t.measured[i].y));
            near(moved, t.miss_ft * calls[i].length_ft / t.length_ft, 1e-6);
        }
        traverse_free(&t);
    }
}

static void out_of_memory_is_told(void **state)
{
    (void)state;
    for (size_t after = 0;; after++) {
        assert_true(after < 20);
        struct traverse t;
        struct fault f = { .id = NULL };
        struct traverse_ask ask = { .calls = textbook,
                                    .count = COUNT(textbook),
                                    .end = TRAVERSE_CLOSED };
        failing_seen = false;
        failing_after = after;
        bool made = traverse_run(&ask, &t, &f);
        failing_after = SIZE_MAX;
        assert_int_equal(made, !failing_seen);
        assert_int_equal(made, f.id == NULL);
        traverse_free(&t);
        if (made)
            return;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_textbook_traverse),
        cmocka_unit_test(magnetic_calls_get_the_declination),
        cmocka_unit_test(open_tied_and_led_back),
        cmocka_unit_test(sides_that_cross_are_found),
        cmocka_unit_test(exact_closure_has_no_ratio_to_tell),
        cmocka_unit_test(one_slip_is_found_out),
        cmocka_unit_test(what_is_no_traverse),
        cmocka_unit_test(random_traverses_close),
        cmocka_unit_test(out_of_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
