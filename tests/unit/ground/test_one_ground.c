/* Trails through one neck are one way, in what counts them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../unit.h"
#include "base/fault.h"
#include "ground/one_ground.h"
#include "ground/segment.h"
#include "ground/trail_net.h"
#include "ground/ways.h"

static struct fault fault;

/* Two trails 200 ft long that run `gap` ft apart for `beside` ft in their middles, and
 * else 60 ft. */
static bool share(double gap, double beside, double width)
{
    double from = 100 - beside / 2, to = 100 + beside / 2;
    struct point a[] = { { 0, 0 }, { 200, 0 } };
    struct point b[] = { { 0, 60 },   { from, 60 }, { from, gap },
                         { to, gap }, { to, 60 },   { 200, 60 } };
    struct one_line lines[] = { { a, 2, width }, { b, 6, width } };
    struct one_ground g;
    assert_true(one_ground_find(lines, 2, &g, &fault));
    assert_int_equal(g.group[0], 0);
    bool one = g.group[1] == 0;
    assert_int_equal(g.first_count, one);
    one_ground_free(&g);
    return one;
}

static void strips_that_overlap_in_a_long_run_share_ground(void **state)
{
    (void)state;
    assert_true(share(5, 40, 6));
    assert_false(share(7, 40, 6));
    assert_true(share(7, 40, 8));
    assert_false(share(5, 12, 6)); /* and 2 ft of each leg: less than four widths */
    assert_true(share(5, 26, 6));
    assert_false(share(0, 40, 0)); /* of no width: no strip */
    /* Narrower than half a foot is half a foot, or looking would never end. */
    assert_true(share(0.4, 40, 1e-12));
    assert_false(share(0.6, 40, 1e-12));
}

static void where_they_meet_is_no_neck(void **state)
{
    (void)state;
    struct point a[] = { { 0, 0 }, { 14, 0 }, { 100, 60 } };
    struct point b[] = { { 0, 0 }, { 14, 1 }, { 100, -60 } };
    struct one_line lines[] = { { a, 3, 6 }, { b, 3, 6 } };
    struct one_ground g;
    assert_true(one_ground_find(lines, 2, &g, &fault));
    assert_int_equal(g.group[1], 1);
    one_ground_free(&g);
}

/* The same by its definition, without cells. */
static bool by_definition(const struct one_line *a, const struct one_line *b)
{
    double run = 0, step = a->width / 3, width = (a->width + b->width) / 2;
    for (size_t i = 1; i < a->count; i++) {
        struct segment s = { a->points[i - 1], a->points[i] };
        double length = segment_length(s);
        for (double d = 0; d < length; d += step) {
            struct point m = segment_at(s, d / length);
            double least = HUGE_VAL;
            for (size_t k = 1; k < b->count; k++)
                least = fmin(least, segment_distance((struct segment){ b->points[k - 1],
                                                                       b->points[k] },
                                                     m, NULL));
            bool end = point_gap(m, a->points[0]) < 15 ||
                       point_gap(m, a->points[a->count - 1]) < 15;
            run = !end && least < width ? run + fmin(step, length - d) : 0;
            if (run > 4 * width)
                return true;
        }
    }
    return false;
}

static void random_trails_are_grouped_by_the_definition(void **state)
{
    (void)state;
    enum { LINES = 8, POINTS = 12 };
    unsigned seed = 3, together = 0;
    for (int n = 0; n < 300; n++) {
        struct point points[LINES][POINTS];
        struct one_line lines[LINES];
        for (size_t i = 0; i < LINES; i++) {
            struct point p = { rand_r(&seed) % 100, rand_r(&seed) % 100 };
            for (size_t k = 0; k < POINTS; k++) {
                points[i][k] = p;
                p.x += rand_r(&seed) % 41 - 20;
                p.y += rand_r(&seed) % 41 - 20;
            }
            lines[i] = (struct one_line){ points[i], POINTS, 4 + rand_r(&seed) % 5 };
        }
        struct one_ground g;
        assert_true(one_ground_find(lines, LINES, &g, &fault));
        size_t group[LINES];
        for (size_t i = 0; i < LINES; i++) {
            group[i] = i;
            for (size_t j = 0; j < i && group[i] == i; j++)
                if (by_definition(&lines[i], &lines[j]))
                    group[i] = group[j];
            assert_int_equal(g.group[i], group[i]);
            together += group[i] != i;
        }
        one_ground_free(&g);
    }
    assert_true(together > 100);
}

static void each_choice_walks_one_of_a_group_and_none_comes_twice(void **state)
{
    (void)state;
    struct point points[7][2];
    struct one_line lines[7];
    for (size_t i = 0; i < 7; i++) { /* 0, 1, 2 in one neck, 3 alone, 4, 5 in one, 6 */
        double y = i < 3 ? 0 : i < 4 ? 100 : i < 6 ? 200 : 300;
        points[i][0] = (struct point){ 0, y };
        points[i][1] = (struct point){ 200, y };
        lines[i] = (struct one_line){ points[i], 2, 6 };
    }
    struct one_ground g;
    bool seen[128] = { false };
    size_t choices = 0;
    assert_true(one_ground_find(lines, 7, &g, &fault));
    do {
        unsigned mask = 0;
        for (size_t i = 0; i < 7; i++)
            mask |= g.used[i] ? 1u << i : 0;
        assert_false(seen[mask]);
        seen[mask] = true;
        assert_int_equal(g.used[0] + g.used[1] + g.used[2], 1);
        assert_int_equal(g.used[4] + g.used[5], 1);
        assert_true(g.used[3] && g.used[6]);
        choices++;
    } while (one_ground_next(&g));
    assert_int_equal(choices, 6);
    one_ground_free(&g);
}

/* An opening with a trail to each of two exits; both go by one neck or each its own way. */
static size_t ways_out(double gap)
{
    struct point opening[] = { { -20, -20 }, { 0, -20 }, { 0, 20 }, { -20, 20 } };
    struct point first[] = { { 0, 10 }, { 100, gap / 2 }, { 200, gap / 2 }, { 300, 90 } };
    struct point second[] = {
        { 0, -10 }, { 100, -gap / 2 }, { 200, -gap / 2 }, { 300, -90 }
    };
    struct point there = { 300, 90 }, here = { 300, -90 };
    struct shape open = { .kind = SHAPE_AREAS },
                 lines[2] = { { .kind = SHAPE_LINES }, { .kind = SHAPE_LINES } },
                 exits[2] = { { .kind = SHAPE_POINTS }, { .kind = SHAPE_POINTS } };
    assert_true(shape_add_part(&open, opening, 4, false, &fault));
    assert_true(shape_add_part(&lines[0], first, 4, false, &fault));
    assert_true(shape_add_part(&lines[1], second, 4, false, &fault));
    assert_true(shape_add_part(&exits[0], &there, 1, false, &fault));
    assert_true(shape_add_part(&exits[1], &here, 1, false, &fault));
    const struct shape *openings[] = { &open };
    struct net_trail trails[] = { { &lines[0], 6 }, { &lines[1], 6 } };
    struct net_exit out[] = { { &exits[0], 0 }, { &exits[1], 0 } };
    struct net_ask ask = { trails, openings, out, 2, 1, 2, 2 };
    struct trail_net net;
    struct ways w;
    assert_true(trail_net_build(&ask, &net, &fault));
    struct one_ground ground;
    assert_true(ways_ground(&net, &ground, &fault));
    assert_true(ways_find(&net, &ground, 1, false, &w, &fault));
    one_ground_free(&ground);
    size_t routes = w.openings[0].routes;
    assert_int_equal(w.openings[0].count, routes);
    ways_free(&w);
    trail_net_free(&net);
    shape_free(&open);
    for (size_t i = 0; i < 2; i++) {
        shape_free(&lines[i]);
        shape_free(&exits[i]);
    }
    return routes;
}

static void two_trails_through_a_neck_are_one_way_out(void **state)
{
    (void)state;
    assert_int_equal(ways_out(5), 1);
    assert_int_equal(ways_out(12), 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(strips_that_overlap_in_a_long_run_share_ground),
        cmocka_unit_test(where_they_meet_is_no_neck),
        cmocka_unit_test(random_trails_are_grouped_by_the_definition),
        cmocka_unit_test(each_choice_walks_one_of_a_group_and_none_comes_twice),
        cmocka_unit_test(two_trails_through_a_neck_are_one_way_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
