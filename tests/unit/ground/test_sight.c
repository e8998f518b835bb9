/* Sight lines along trails, against lines tried one by one. */
#include "drawn.h"

#include "ground/segment.h"
#include "ground/sight.h"

static struct sight_list look(struct shape *lines, size_t count, double width,
                              double most, const struct shape *const *openings,
                              size_t opening_count)
{
    struct fault f = { .id = NULL };
    struct net_trail trails[4];
    struct trail_net net;
    struct sight_list found;
    for (size_t i = 0; i < count; i++)
        trails[i] = (struct net_trail){ &lines[i], width };
    struct net_ask ask = { .trails = trails,
                           .trail_count = count,
                           .snap = 5,
                           .openings = openings,
                           .opening_count = opening_count };
    assert_true(trail_net_build(&ask, &net, &f));
    assert_true(sight_find(&net, trails, most, &found, &f));
    trail_net_free(&net);
    return found;
}

static void straight(void **state)
{
    (void)state;
    struct shape line = { .kind = SHAPE_LINES };
    DRAW(&line, 0, 0, 100, 0, 130, 0, 300, 0);
    struct sight_list found = look(&line, 1, 6, 75, NULL, 0);
    assert_int_equal(found.count, 1);
    /* From corner to corner of 300 by 6 ft. */
    assert_near(found.list[0].length, hypot(300, 6), 0.001);
    assert_near(found.longest, found.list[0].length, 0);
    sight_free(&found);
    shape_free(&line);
}

/* A square bend: 200 ft legs; the line may lean by a width at most. */
static void bend(void **state)
{
    (void)state;
    struct shape line = { .kind = SHAPE_LINES };
    DRAW(&line, 0, 0, 200, 0, 200, 200);
    struct sight_list found = look(&line, 1, 6, 75, NULL, 0);
    assert_int_equal(found.count, 2);
    for (int i = 0; i < 2; i++) {
        assert_true(found.list[i].length >= hypot(200, 6) - 0.001);
        assert_true(found.list[i].length <= hypot(203, 6) + 0.001);
    }
    sight_free(&found);
    shape_free(&line);
}

/* Two trails that meet end to end in line are one sight line; an opening ends it. */
static void joined(void **state)
{
    (void)state;
    struct shape lines[2] = { { .kind = SHAPE_LINES }, { .kind = SHAPE_LINES } };
    struct shape square = { .kind = SHAPE_AREAS };
    const struct shape *const openings[] = { &square };
    DRAW(&lines[0], 0, 0, 100, 0);
    DRAW(&lines[1], 250, 0, 100, 0);
    struct sight_list found = look(lines, 2, 6, 75, NULL, 0);
    assert_int_equal(found.count, 1);
    assert_near(found.list[0].length, hypot(250, 6), 0.001);
    sight_free(&found);
    drawn_square(&square, 100, 0, 20);
    found = look(lines, 2, 6, 75, openings, 1);
    assert_int_equal(found.count, 2);
    assert_near(found.list[0].length, hypot(130, 6), 0.001);
    assert_near(found.list[1].length, hypot(80, 6), 0.001);
    sight_free(&found);
    shape_free(&square);
    shape_free(&lines[0]);
    shape_free(&lines[1]);
}

/* On a ring the longest line touches the inner side: 2 sqrt(R^2 - r^2). */
static void ring(void **state)
{
    (void)state;
    struct shape line = { .kind = SHAPE_LINES };
    double xy[242], radius = 200, width = 8;
    for (int i = 0; i <= 120; i++) {
        xy[2 * i] = radius * cos(6.283185307179586 * i / 120);
        xy[2 * i + 1] = radius * sin(6.283185307179586 * i / 120);
    }
    drawn_part(&line, xy, 121);
    double outer = radius + width / 2, inner = radius - width / 2;
    struct sight_list found = look(&line, 1, width, 1000, NULL, 0);
    assert_int_equal(found.count, 0);
    assert_near(found.longest, 2 * sqrt(outer * outer - inner * inner), SIGHT_STEP);
    sight_free(&found);
    shape_free(&line);
}

static double gap_to_line(const struct point *line, size_t count, struct point p)
{
    double best = HUGE_VAL;
    for (size_t i = 1; i < count; i++)
        best = fmin(best,
                    segment_distance((struct segment){ line[i - 1], line[i] }, p, NULL));
    return best;
}

static bool stays(const struct point *line, size_t count, struct segment s, double half)
{
    int steps = (int)(segment_length(s) / 0.5) + 1;
    for (int i = 0; i <= steps; i++)
        if (gap_to_line(line, count, segment_at(s, (double)i / steps)) > half + 1e-6)
            return false;
    return true;
}

/* A winding trail: what is told stays in it, and no line from places across it to places
 * across it is longer. */
static void against_lines_tried(void **state)
{
    (void)state;
    unsigned seed = 17;
    for (int n = 0; n < 12; n++) {
        struct shape line = { .kind = SHAPE_LINES };
        struct point at[24];
        double xy[48], bearing = 0, half = 4, x = 0, y = 0, best = 0;
        for (int i = 0; i < 24; i++) {
            xy[2 * i] = x;
            xy[2 * i + 1] = y;
            at[i] = (struct point){ x, y };
            bearing += drawn_between(&seed, -0.45, 0.5);
            x += 14 * cos(bearing);
            y += 14 * sin(bearing);
        }
        drawn_part(&line, xy, 24);
        struct sight_list found = look(&line, 1, 2 * half, 30, NULL, 0);
        for (size_t i = 0; i < found.count; i++) {
            struct segment s = { found.list[i].from, found.list[i].to };
            assert_near(segment_length(s), found.list[i].length, 1e-6);
            assert_true(stays(at, 24, s, half));
        }
        for (size_t i = 1; i < 24; i++)
            for (size_t k = i; k < 24; k++)
                for (int a = -2; a <= 2; a++)
                    for (int b = -2; b <= 2; b++) {
                        struct segment p = { at[i - 1], at[i] }, q = { at[k - 1], at[k] };
                        struct segment s = { segment_at(p, 0.5), segment_at(q, 0.5) };
                        s.a.x += (p.b.y - p.a.y) / 14 * half * a / 2;
                        s.a.y -= (p.b.x - p.a.x) / 14 * half * a / 2;
                        s.b.x += (q.b.y - q.a.y) / 14 * half * b / 2;
                        s.b.y -= (q.b.x - q.a.x) / 14 * half * b / 2;
                        if (segment_length(s) > best && stays(at, 24, s, half - 1e-5))
                            best = segment_length(s);
                    }
        assert_true(best > 20);
        assert_true(found.longest >= best - SIGHT_STEP);
        assert_true(found.count > 0);
        assert_near(found.longest, found.list[0].length, 0);
        sight_free(&found);
        shape_free(&line);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(straight),
        cmocka_unit_test(bend),
        cmocka_unit_test(joined),
        cmocka_unit_test(ring),
        cmocka_unit_test(against_lines_tried),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
