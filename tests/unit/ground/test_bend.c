#include "../unit.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/bend.h"
#include "ground/layout_inner.h"

static struct fault fault;

/* Room to swing in: a field of 1,000 by 400 ft with an opening in its north. */
struct meadow {
    struct shape cover, opening, rim;
    struct layout_exit exit;
    struct layout_ask ask;
    struct layout_ground ground;
    struct layout_plot plot;
};

static void meadow_make(struct meadow *m)
{
    static const struct point field[] = {
        { 0, 0 }, { 1000, 0 }, { 1000, 400 }, { 0, 400 }
    };
    static const struct point open[] = {
        { 480, 340 }, { 520, 340 }, { 520, 380 }, { 480, 380 }
    };
    *m = (struct meadow){ .cover = { .kind = SHAPE_AREAS },
                          .opening = { .kind = SHAPE_AREAS },
                          .rim = { .kind = SHAPE_LINES } };
    assert_true(shape_add_part(&m->cover, field, 4, false, &fault));
    assert_true(shape_add_part(&m->opening, open, 4, false, &fault));
    assert_true(shape_add_part(&m->rim, field + 2, 2, false, &fault));
    m->exit = (struct layout_exit){ &m->rim, 0, 0 };
    m->ask = (struct layout_ask){ .cover = &m->cover,
                                  .openings = &m->opening,
                                  .exits = &m->exit,
                                  .exit_count = 1,
                                  .ways_out = 1,
                                  .trail_width = 6,
                                  .candidates = 1 };
    assert_true(layout_survey(&m->ground, &m->ask, &fault));
    m->plot = (struct layout_plot){ .ground = &m->ground, .seed = 1 };
    assert_true(layout_plot_make(&m->plot, &fault));
}

static void meadow_free(struct meadow *m)
{
    layout_plot_free(&m->plot);
    layout_survey_free(&m->ground);
    shape_free(&m->cover);
    shape_free(&m->opening);
    shape_free(&m->rim);
}

/* How near two points of a trail come that are more than `far` apart along it. */
static double legs_apart(const struct trace *t, double far)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < t->count; i++) {
        double along = 0;
        for (size_t k = i + 1; k < t->count; k++) {
            along += point_apart(t->points[k - 1], t->points[k]);
            if (along > far)
                least = fmin(least, point_apart(t->points[i], t->points[k]));
        }
    }
    return least;
}

/* There and back, 16 ft apart: its swings, of up to 14 ft, do not meet, for where they do
 * animals and eyes go straight on. It is tight, and nearly always room enough. */
static void a_trail_that_comes_back_does_not_meet_itself(void **state)
{
    (void)state;
    struct meadow m;
    struct point there[] = { { 100, 100 }, { 800, 100 }, { 800, 116 }, { 100, 116 } };
    struct trace way = { .points = there, .count = 4 }, out = { 0 };
    double least = HUGE_VAL;
    int met = 0;
    meadow_make(&m);
    for (uint64_t seed = 1; seed <= 40; seed++) {
        struct bend_ask ask = { .router = &m.plot.router,
                                .a = -1,
                                .b = -1,
                                .width = 6,
                                .sight = 75,
                                .chance = seed };
        assert_true(bend_trail(&ask, &way, &out, &fault));
        least = fmin(least, legs_apart(&out, 60));
        met += bend_sight(out.points, out.count, 6, HUGE_VAL, NULL) <= 75;
    }
    print_message("legs %.1f ft apart at the least, out of sight %d of 40\n", least, met);
    assert_true(least > 6);
    assert_true(met >= 36);
    free(out.points);
    meadow_free(&m);
}

/* One that has the ground to itself swings as before: it keeps both ends. */
static void a_straight_one_swings(void **state)
{
    (void)state;
    struct meadow m;
    struct point there[] = { { 100, 200 }, { 900, 200 } };
    struct trace way = { .points = there, .count = 2 }, out = { 0 };
    struct bend_ask ask = { .width = 6, .sight = 75, .a = -1, .b = -1, .chance = 3 };
    meadow_make(&m);
    ask.router = &m.plot.router;
    assert_true(bend_trail(&ask, &way, &out, &fault));
    assert_true(bend_sight(out.points, out.count, 6, HUGE_VAL, NULL) <= 75);
    assert_true(point_apart(out.points[0], there[0]) < 1e-9);
    assert_true(point_apart(out.points[out.count - 1], there[1]) < 1e-9);
    assert_true(trace_length(&out) > 800 && trace_length(&out) < 1.2 * 800);
    free(out.points);
    meadow_free(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_trail_that_comes_back_does_not_meet_itself),
        cmocka_unit_test(a_straight_one_swings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
