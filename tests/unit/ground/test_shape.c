#include "../page/failing.h"

#include "../unit.h"

#include <math.h>

#include "base/fault.h"
#include "ground/shape.h"

#define near(value, wanted, within) assert_true(fabs((value) - (wanted)) <= (within))

enum { MANY = 720 };
static const double pi = 3.14159265358979323846;

static void add(struct shape *s, const struct point *points, size_t count, bool hole)
{
    struct fault f = { .id = NULL };
    assert_true(shape_add_part(s, points, count, hole, &f));
}

#define ADD(s, hole, ...)                         \
    add(s, (const struct point[]){ __VA_ARGS__ }, \
        sizeof((const struct point[]){ __VA_ARGS__ }) / sizeof(struct point), hole)

static void circle(struct shape *s, struct point at, double radius, bool hole, int turn)
{
    struct point rim[MANY];
    for (int i = 0; i < MANY; i++) {
        double angle = turn * 2 * pi * i / MANY;
        rim[i] = (struct point){ at.x + radius * cos(angle), at.y + radius * sin(angle) };
    }
    add(s, rim, MANY, hole);
}

static double circle_area(double radius)
{
    return MANY / 2.0 * radius * radius * sin(2 * pi / MANY);
}

static void areas_and_lengths_of_known_shapes(void **state)
{
    (void)state;
    struct shape s = { .kind = SHAPE_AREAS };
    assert_true(shape_is_empty(&s));
    ADD(&s, false, { 0, 0 }, { 660, 0 }, { 660, 660 }, { 0, 660 }, { 0, 0 });
    assert_int_equal(s.point_count, 4); /* the closing point is left out */
    near(shape_area(&s) / 43560, 10, 1e-12);
    near(shape_length(&s), 2640, 1e-9);
    /* A hole counts off whichever way it runs. */
    ADD(&s, true, { 100, 100 }, { 200, 100 }, { 200, 300 }, { 100, 300 });
    near(shape_area(&s), 435600 - 20000, 1e-9);
    ADD(&s, true, { 300, 100 }, { 300, 300 }, { 400, 300 }, { 400, 100 });
    near(shape_area(&s), 435600 - 40000, 1e-9);
    near(shape_length(&s), 2640 + 1200, 1e-9);
    shape_free(&s);
    assert_true(shape_is_empty(&s));
    circle(&s, (struct point){ 1e6, -1e6 }, 50, false, -1);
    near(shape_area(&s), circle_area(50), 1e-5);
    near(shape_length(&s), MANY * 2 * 50 * sin(pi / MANY), 1e-6);
    shape_free(&s);
    struct shape line = { .kind = SHAPE_LINES };
    ADD(&line, true, { 0, 0 }, { 3, 4 }, { 3, 0 });
    assert_false(line.parts[0].hole);
    near(shape_length(&line), 9, 1e-12);
    near(shape_area(&line), 0, 0);
    shape_free(&line);
}

static void centers_and_boxes(void **state)
{
    (void)state;
    struct shape s = { .kind = SHAPE_AREAS };
    near(shape_center(&s).x, 0, 0);
    near(shape_box(&s).north, 0, 0);
    /* An L of three squares of 10, clockwise: center by moments at 25/3 off its corner. */
    ADD(&s, false, { 100, 200 }, { 100, 220 }, { 110, 220 }, { 110, 210 }, { 120, 210 },
        { 120, 200 });
    near(shape_center(&s).x, 100 + 25.0 / 3, 1e-9);
    near(shape_center(&s).y, 200 + 25.0 / 3, 1e-9);
    near(shape_box(&s).east, 120, 0);
    near(shape_box(&s).south, 200, 0);
    shape_free(&s);
    /* A square of 100 with a hole of 20 by 20 about (20, 50), and a lone square. */
    ADD(&s, false, { 0, 0 }, { 100, 0 }, { 100, 100 }, { 0, 100 });
    ADD(&s, true, { 10, 40 }, { 30, 40 }, { 30, 60 }, { 10, 60 });
    near(shape_center(&s).x, (50 * 10000 - 20 * 400) / 9600.0, 1e-9);
    near(shape_center(&s).y, 50, 1e-9);
    shape_free(&s);
    struct shape line = { .kind = SHAPE_LINES };
    ADD(&line, false, { 0, 0 }, { 10, 0 });
    ADD(&line, false, { 0, 10 }, { 0, 40 });
    near(shape_center(&line).x, 50 / 40.0, 1e-12);
    near(shape_center(&line).y, 25 * 30 / 40.0, 1e-12);
    shape_free(&line);
    struct shape dots = { .kind = SHAPE_POINTS };
    ADD(&dots, false, { 0, 0 }, { 10, 4 });
    near(shape_center(&dots).x, 5, 0);
    near(shape_length(&dots), 0, 0);
    shape_free(&dots);
}

static void the_rim_counts_as_in_and_a_hole_as_out(void **state)
{
    (void)state;
    struct shape s = { .kind = SHAPE_AREAS };
    ADD(&s, false, { 0, 0 }, { 100, 0 }, { 100, 100 }, { 50, 20 }, { 0, 100 });
    ADD(&s, true, { 10, 5 }, { 20, 5 }, { 20, 15 }, { 10, 15 });
    assert_true(shape_has(&s, (struct point){ 50, 10 }));
    assert_true(shape_has(&s, (struct point){ 0, 50 }));
    assert_true(shape_has(&s, (struct point){ 100, 100 }));
    assert_true(shape_has(&s, (struct point){ 20, 10 }));
    assert_false(shape_has(&s, (struct point){ 15, 10 }));
    assert_false(shape_has(&s, (struct point){ 50, 50 }));
    assert_false(shape_has(&s, (struct point){ -1, 100 }));
    assert_false(shape_has(&s, (struct point){ 150, 20 })); /* level with a corner */
    struct point to;
    near(shape_distance(&s, (struct point){ 50, 10 }, &to), 0, 0);
    near(to.y, 10, 0);
    near(shape_distance(&s, (struct point){ 15, 11 }, &to), 4, 1e-12);
    near(shape_rim_distance(&s, (struct point){ 50, 8 }, &to), 8, 1e-12);
    near(to.x, 50, 1e-12);
    near(shape_distance(&s, (struct point){ 130, -40 }, &to), 50, 1e-12);
    shape_free(&s);
    assert_true(isinf(shape_distance(&s, (struct point){ 0, 0 }, NULL)));
    struct shape line = { .kind = SHAPE_LINES };
    ADD(&line, false, { 0, 0 }, { 100, 0 }, { 100, 100 });
    assert_false(shape_has(&line, (struct point){ 50, 0 }));
    near(shape_distance(&line, (struct point){ 0, 100 }, &to), 100, 1e-12);
    near(shape_distance(&line, (struct point){ 120, 50 }, &to), 20, 1e-12);
    near(to.y, 50, 1e-12);
    shape_free(&line);
}

static void points_along_lines_and_rings(void **state)
{
    (void)state;
    struct shape line = { .kind = SHAPE_LINES };
    ADD(&line, false, { 9, 9 }, { 8, 9 });
    ADD(&line, false, { 0, 0 }, { 30, 40 }, { 30, 40 }, { 30, 140 });
    near(shape_at(&line, 1, 25).x, 15, 1e-12);
    near(shape_at(&line, 1, 90).y, 80, 1e-12);
    near(shape_at(&line, 1, -5).y, 0, 0);
    near(shape_at(&line, 1, 5000).y, 140, 0);
    near(shape_at(&line, 0, 0.5).x, 8.5, 1e-12);
    near(shape_at(&line, 7, 1).x, 0, 0);
    shape_free(&line);
    struct shape ring = { .kind = SHAPE_AREAS };
    ADD(&ring, false, { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 });
    near(shape_at(&ring, 0, 35).y, 5, 1e-12);
    near(shape_at(&ring, 0, 50).x, 0, 0);
    near(shape_at(&ring, 0, 50).y, 0, 0);
    shape_free(&ring);
}

static void a_point_well_inside(void **state)
{
    (void)state;
    struct shape s = { .kind = SHAPE_AREAS };
    circle(&s, (struct point){ 500, 700 }, 100, false, 1);
    circle(&s, (struct point){ 500, 700 }, 60, true, 1);
    struct point p = shape_inside(&s); /* a ring of 40: at best 20 from both rims */
    assert_true(shape_has(&s, p));
    assert_true(shape_rim_distance(&s, p, NULL) > 19);
    shape_free(&s);
    /* A crescent, whose center of gravity lies outside, beside a small far square. */
    ADD(&s, false, { 0, 0 }, { 200, 0 }, { 200, 200 }, { 0, 200 }, { 0, 170 },
        { 170, 170 }, { 170, 30 }, { 0, 30 });
    ADD(&s, false, { 0, 9000 }, { 20, 9000 }, { 20, 9020 }, { 0, 9020 });
    p = shape_inside(&s);
    assert_true(shape_has(&s, p));
    assert_true(shape_rim_distance(&s, p, NULL) > 14.5);
    shape_free(&s);
    /* A sliver a hundredth of a foot wide. */
    ADD(&s, false, { 0, 0 }, { 1000, 999.99 }, { 1000, 1000 });
    assert_true(shape_has(&s, shape_inside(&s)));
    shape_free(&s);
}

static uint64_t dice = 88172645463325252u;
static double roll(double from, double to)
{
    dice ^= dice << 13, dice ^= dice >> 7, dice ^= dice << 17;
    return from + (to - from) * (double)(dice >> 11) / 9007199254740992.0;
}

/* Stars about a point: inside is known by the angle; sizes by their triangles. */
static void random_stars_agree_with_what_they_are_made_of(void **state)
{
    (void)state;
    for (int round = 0; round < 300; round++) {
        enum { RAYS = 24 };
        double far[RAYS], area = 0;
        struct point rim[RAYS], at = { roll(-20000, 20000), roll(-20000, 20000) };
        for (int i = 0; i < RAYS; i++) {
            far[i] = roll(20, 400);
            rim[i] = (struct point){ at.x + far[i] * cos(2 * pi * i / RAYS),
                                     at.y + far[i] * sin(2 * pi * i / RAYS) };
        }
        for (int i = 0; i < RAYS; i++)
            area += far[i] * far[(i + 1) % RAYS] * sin(2 * pi / RAYS) / 2;
        struct shape s = { .kind = SHAPE_AREAS };
        add(&s, rim, RAYS, false);
        near(shape_area(&s), area, 1e-6);
        for (int i = 0; i < RAYS; i++) {
            double share = roll(0.01, 2);
            struct point p = { at.x + share * (rim[i].x - at.x),
                               at.y + share * (rim[i].y - at.y) };
            if (fabs(share - 1) > 1e-6)
                assert_int_equal(shape_has(&s, p), share < 1);
        }
        struct point in = shape_inside(&s);
        assert_true(shape_has(&s, in));
        /* The rim is nowhere nearer than the search says. */
        double room = shape_rim_distance(&s, in, NULL);
        for (double along = 0; along < shape_length(&s); along += 11) {
            struct point q = shape_at(&s, 0, along);
            assert_true(hypot(q.x - in.x, q.y - in.y) >= room - 1e-6);
            near(shape_distance(&s, q, NULL), 0, 1e-6);
        }
        shape_free(&s);
    }
}

static void out_of_memory_adds_nothing(void **state)
{
    (void)state;
    struct point corners[3] = { { 0, 0 }, { 1, 0 }, { 0, 1 } };
    for (size_t after = 0;; after++) {
        assert_true(after < 20);
        struct shape s = { .kind = SHAPE_AREAS }, copy;
        struct fault f = { .id = NULL };
        failing_seen = false;
        failing_after = after;
        bool made =
            shape_add_part(&s, corners, 3, false, &f) && shape_copy(&s, &copy, &f);
        failing_after = SIZE_MAX;
        assert_int_equal(made, !failing_seen);
        assert_int_equal(made, f.id == NULL);
        if (made) {
            near(shape_area(&copy), 0.5, 0);
            shape_free(&copy);
        } else {
            assert_true(s.part_count * 3 == s.point_count);
        }
        shape_free(&s);
        if (made)
            return;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(areas_and_lengths_of_known_shapes),
        cmocka_unit_test(centers_and_boxes),
        cmocka_unit_test(the_rim_counts_as_in_and_a_hole_as_out),
        cmocka_unit_test(points_along_lines_and_rings),
        cmocka_unit_test(a_point_well_inside),
        cmocka_unit_test(random_stars_agree_with_what_they_are_made_of),
        cmocka_unit_test(out_of_memory_adds_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
