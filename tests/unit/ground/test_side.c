/* The ground on one side of things: what is known of straight lines and squares, and
 * points by chance that must lie on one of two sides. */
#include "../page/failing.h"

#include "../unit.h"

#include <math.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"
#include "ground/side.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

static struct shape made(enum shape_kind kind, const struct point *points, size_t count)
{
    struct fault f = { 0 };
    struct shape s = { .kind = kind };
    assert_true(shape_add_part(&s, points, count, false, &f));
    return s;
}

/* A stand of 1,000 ft a side, its southwestern corner at 0, 0. */
static struct shape block(void)
{
    static const struct point corners[] = { { 0, 0 }, { 1000, 0 }, { 1000, 1000 },
                                            { 0, 1000 } };
    return made(SHAPE_AREAS, corners, 4);
}

static struct sided sided(struct shape *of, enum side side)
{
    struct fault f = { 0 };
    struct shape ground = block();
    struct sided out;
    struct side_ask ask = { .of = of, .side = side, .ground = &ground, .name = "it" };
    bool ok = side_of(&ask, &out, &f);
    if (!ok)
        fail_msg("%s", f.message);
    shape_free(&ground);
    return out;
}

static void refused(struct shape of, enum side side, const char *id, const char *words)
{
    struct fault f = { 0 };
    struct shape ground = block();
    struct sided out;
    struct side_ask ask = { &of, side, &ground, "the track" };
    assert_false(side_of(&ask, &out, &f));
    assert_string_equal(f.id, id);
    assert_non_null(strstr(f.message, words));
    assert_true(shape_is_empty(&out.area) && shape_is_empty(&out.carried));
    shape_free(&ground);
    shape_free(&of);
}

/* Which of the four points of the block's quarters lie on that side: SW, SE, NE, NW. */
static void holds(struct shape of, enum side side, const char *wanted)
{
    static const struct point quarters[] = { { 250, 250 }, { 750, 250 }, { 750, 750 },
                                             { 250, 750 } };
    struct sided s = sided(&of, side);
    char found[5] = "....";
    for (int i = 0; i < 4; i++)
        if (shape_has(&s.area, quarters[i]))
            found[i] = "1234"[i];
    assert_string_equal(found, wanted);
    sided_free(&s);
    shape_free(&of);
}

static void a_line_right_across_has_two_sides(void **state)
{
    (void)state;
    static const struct point east[] = { { -100, 500 }, { 1100, 510 } };
    static const struct point west[] = { { 1100, 510 }, { -100, 500 } };
    static const struct point north[] = { { 500, -100 }, { 490, 1100 } };
    holds(made(SHAPE_LINES, east, 2), SIDE_NORTH, "..34");
    holds(made(SHAPE_LINES, east, 2), SIDE_SOUTH, "12..");
    holds(made(SHAPE_LINES, west, 2), SIDE_NORTH, "..34");
    holds(made(SHAPE_LINES, west, 2), SIDE_SOUTH, "12..");
    holds(made(SHAPE_LINES, north, 2), SIDE_EAST, ".23.");
    holds(made(SHAPE_LINES, north, 2), SIDE_WEST, "1..4");
}

static void a_slant_has_all_four(void **state)
{
    (void)state;
    static const struct point slant[] = { { 0, 10 }, { 1000, 1010 } };
    holds(made(SHAPE_LINES, slant, 2), SIDE_NORTH, "...4");
    holds(made(SHAPE_LINES, slant, 2), SIDE_WEST, "...4");
    holds(made(SHAPE_LINES, slant, 2), SIDE_SOUTH, "123.");
    holds(made(SHAPE_LINES, slant, 2), SIDE_EAST, "123.");
}

static void ends_are_carried_straight_on(void **state)
{
    (void)state;
    /* The last 100 ft count, and they run east by 45 degrees north. */
    static const struct point bent[] = { { 400, 400 }, { 500, 400 }, { 600, 500 } };
    struct shape line = made(SHAPE_LINES, bent, 3);
    struct sided s = sided(&line, SIDE_NORTH);
    assert_int_equal(s.carried.part_count, 2);
    assert_true(shape_has(&s.area, (struct point){ 800, 701 }));
    assert_false(shape_has(&s.area, (struct point){ 800, 699 }));
    assert_true(shape_has(&s.area, (struct point){ 1, 401 }));
    assert_false(shape_has(&s.area, (struct point){ 1, 399 }));
    assert_float_equal(s.carried.points[0].x, 400, 1e-9);
    assert_float_equal(s.carried.points[2].y, 500, 1e-9);
    sided_free(&s);
    shape_free(&line);
    /* Off the stand an end turns back; it must not come over it again. */
    static const struct point hook[] = { { -50, 500 }, { 1300, 500 }, { 1300, 700 },
                                         { 1200, 700 } };
    holds(made(SHAPE_LINES, hook, 4), SIDE_NORTH, "..34");
}

static void parts_that_meet_are_one_line(void **state)
{
    (void)state;
    static const struct point a[] = { { 1100, 500 }, { 600, 500 } };
    static const struct point b[] = { { 580, 500 }, { 300, 500 } };
    static const struct point c[] = { { -100, 500 }, { 290, 500 } };
    static const struct point far_off[] = { { 500, 3000 }, { 500, 4000 } };
    static const struct point near[] = { { 500, 800 }, { 500, 900 } };
    struct fault f = { 0 };
    for (int i = 0; i < 2; i++) {
        struct shape line = made(SHAPE_LINES, b, 2);
        assert_true(shape_add_part(&line, a, 2, false, &f));
        assert_true(shape_add_part(&line, i ? near : far_off, 2, false, &f));
        assert_true(shape_add_part(&line, c, 2, false, &f));
        if (i == 0)
            holds(line, SIDE_NORTH, "..34");
        else
            refused(line, SIDE_NORTH, "side-pieces", "the track is drawn in pieces");
    }
}

static void loops_are_cut_out(void **state)
{
    (void)state;
    /* Round a square of 100 ft a side, and on. */
    static const struct point loop[] = { { -10, 500 }, { 550, 500 }, { 550, 600 },
                                         { 450, 600 }, { 450, 500 }, { 450, 400 },
                                         { 1010, 400 } };
    struct shape line = made(SHAPE_LINES, loop, COUNT(loop));
    struct sided s = sided(&line, SIDE_NORTH);
    assert_float_equal(s.loops, 400, 1e-6);
    assert_true(shape_has(&s.area, (struct point){ 500, 550 }));
    assert_true(shape_has(&s.area, (struct point){ 500, 450 }));
    assert_false(shape_has(&s.area, (struct point){ 440, 450 }));
    sided_free(&s);
    shape_free(&line);
}

static void a_line_that_runs_along_has_no_such_side(void **state)
{
    (void)state;
    static const struct point north[] = { { 500, -100 }, { 490, 1100 } };
    static const struct point back[] = { { 100, 500 }, { 800, 500 }, { 800, 540 },
                                         { 100, 540 } };
    /* Off the stand it counts as a whole. */
    static const struct point off[] = { { 1500, -100 }, { 1490, 1100 } };
    refused(made(SHAPE_LINES, north, 2), SIDE_NORTH, "side-along",
            "the track runs north and south here, and has no north side");
    refused(made(SHAPE_LINES, off, 2), SIDE_SOUTH, "side-along", "no south side");
    refused(made(SHAPE_LINES, back, 4), SIDE_NORTH, "side-along", "comes back");
    holds(made(SHAPE_LINES, off, 2), SIDE_WEST, "1234");
    holds(made(SHAPE_LINES, off, 2), SIDE_EAST, "....");
}

static void a_point_has_a_line_through_it(void **state)
{
    (void)state;
    static const struct point tree[] = { { 100, 600 } };
    holds(made(SHAPE_POINTS, tree, 1), SIDE_NORTH, "..34");
    holds(made(SHAPE_POINTS, tree, 1), SIDE_SOUTH, "12..");
    holds(made(SHAPE_POINTS, tree, 1), SIDE_EAST, "1234");
    holds(made(SHAPE_POINTS, tree, 1), SIDE_WEST, "....");
}

/* A diamond about 500, 500, with 200 ft to each corner: by either way round. */
static void an_area_ends_with_its_rim(void **state)
{
    (void)state;
    static const struct point ring[] = { { 300, 500 }, { 500, 300 }, { 700, 500 },
                                         { 500, 700 } };
    for (int i = 0; i < 3; i++) {
        struct point p[5];
        for (size_t k = 0; k < 4; k++)
            p[k] = ring[i == 1 ? 3 - k : k];
        p[4] = p[0];
        struct shape pond = made(i == 2 ? SHAPE_LINES : SHAPE_AREAS, p, i == 2 ? 5 : 4);
        struct sided north = sided(&pond, SIDE_NORTH), south = sided(&pond, SIDE_SOUTH);
        assert_true(shape_has(&north.area, (struct point){ 500, 701 }));
        assert_false(shape_has(&north.area, (struct point){ 500, 699 }));
        assert_true(shape_has(&north.area, (struct point){ 100, 501 }));
        assert_false(shape_has(&north.area, (struct point){ 600, 599 }));
        assert_true(shape_has(&south.area, (struct point){ 600, 399 }));
        assert_false(shape_has(&south.area, (struct point){ 500, 500 }));
        assert_int_equal(north.carried.part_count, 0);
        sided_free(&north);
        sided_free(&south);
        shape_free(&pond);
    }
    struct fault f = { 0 };
    struct shape two = made(SHAPE_AREAS, ring, 4);
    static const struct point more[] = { { 0, 0 }, { 10, 0 }, { 10, 10 } };
    assert_true(shape_add_part(&two, more, 3, false, &f));
    refused(two, SIDE_NORTH, "side-many", "the track is several");
    refused((struct shape){ .kind = SHAPE_LINES }, SIDE_EAST, "side-empty", "no place");
}

/* Tracks that wander and cross themselves: every place lies on one of the two sides, and
 * far to the north of all on the north one. */
static void every_place_is_on_one_side(void **state)
{
    (void)state;
    uint64_t chance = 7;
    size_t tried = 0, crossed = 0;
    for (int n = 0; n < 400; n++) {
        struct point p[40];
        size_t count = 3 + chance_below(&chance, 37);
        for (size_t i = 0; i < count; i++)
            p[i] = (struct point){ 1000.0 * (double)i / (double)count +
                                       300 * (chance_unit(&chance) - 0.5),
                                   200 + 600 * chance_unit(&chance) };
        struct shape line = made(SHAPE_LINES, p, count), ground = block();
        struct fault f = { 0 };
        struct sided one, other;
        struct side_ask ask = { .of = &line, .side = SIDE_NORTH, .ground = &ground };
        if (side_of(&ask, &one, &f)) {
            ask.side = SIDE_SOUTH;
            assert_true(side_of(&ask, &other, &f));
            crossed += one.loops > 0;
            for (int k = 0; k < 100; k++) {
                struct point at = { 1400 * chance_unit(&chance) - 200,
                                    1400 * chance_unit(&chance) - 200 };
                assert_true(shape_has(&one.area, at) != shape_has(&other.area, at));
                tried++;
            }
            sided_free(&one);
            sided_free(&other);
        } else {
            assert_string_equal(f.id, "side-along");
        }
        shape_free(&line);
        shape_free(&ground);
    }
    assert_true(tried > 30000);
    assert_true(crossed > 100);
}

/* Lines that always go east: north is above, by their own y. */
static void above_a_line_is_north_of_it(void **state)
{
    (void)state;
    uint64_t chance = 11;
    for (int n = 0; n < 200; n++) {
        struct point p[21];
        for (size_t i = 0; i < COUNT(p); i++)
            p[i] = (struct point){ 50.0 * (double)i, 1000 * chance_unit(&chance) };
        struct shape line = made(SHAPE_LINES, p, COUNT(p));
        struct sided s = sided(&line, SIDE_NORTH);
        for (int k = 0; k < 100; k++) {
            double x = 1000 * chance_unit(&chance), y = 1000 * chance_unit(&chance);
            size_t i = (size_t)(x / 50);
            double on = p[i].y + (p[i + 1].y - p[i].y) * (x - p[i].x) / 50;
            if (s.loops == 0 && fabs(y - on) > 1e-6)
                assert_int_equal(shape_has(&s.area, (struct point){ x, y }), y > on);
        }
        sided_free(&s);
        shape_free(&line);
    }
}

static void memory_that_runs_out_is_told(void **state)
{
    (void)state;
    static const struct point bent[] = { { 400, 400 }, { 500, 400 }, { 600, 500 } };
    struct shape line = made(SHAPE_LINES, bent, 3), ground = block();
    for (size_t after = 0; after < 100; after++) {
        struct fault f = { 0 };
        struct sided out;
        struct side_ask ask = { .of = &line, .side = SIDE_SOUTH, .ground = &ground };
        failing_seen = false;
        failing_after = after;
        bool ok = side_of(&ask, &out, &f);
        failing_after = SIZE_MAX;
        assert_int_equal(ok, !failing_seen);
        assert_int_equal(ok, f.id == NULL);
        sided_free(&out);
        if (ok)
            break;
    }
    assert_false(failing_seen);
    shape_free(&line);
    shape_free(&ground);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_right_across_has_two_sides),
        cmocka_unit_test(a_slant_has_all_four),
        cmocka_unit_test(ends_are_carried_straight_on),
        cmocka_unit_test(parts_that_meet_are_one_line),
        cmocka_unit_test(loops_are_cut_out),
        cmocka_unit_test(a_line_that_runs_along_has_no_such_side),
        cmocka_unit_test(a_point_has_a_line_through_it),
        cmocka_unit_test(an_area_ends_with_its_rim),
        cmocka_unit_test(every_place_is_on_one_side),
        cmocka_unit_test(above_a_line_is_north_of_it),
        cmocka_unit_test(memory_that_runs_out_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
