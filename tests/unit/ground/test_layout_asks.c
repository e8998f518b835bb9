#include "../unit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "best_net.h"
#include "ground/layout_inner.h"
#include "stand_fixture.h"

static struct fault fault;

static const struct layout_trouble *trouble(const struct layout *out,
                                            enum layout_what ask)
{
    for (size_t i = 0; i < out->trouble_count; i++)
        if (out->troubles[i].ask == ask)
            return &out->troubles[i];
    return NULL;
}

/* The links of real stands, all choices of them tried. Without asks of reach and sight
 * the trails are those of the choice, rounded off. */
static void trails_are_close_to_the_shortest_there_are(void **state)
{
    (void)state;
    double chosen = 0, cut = 0;
    int count = 0;
    for (int n = 0; n < 60; n++) {
        static struct best_net best;
        struct stand s;
        struct layout_ground g = { 0 };
        assert_true(stand_make(&s, 2 + n % 5, 3, (uint64_t)n + 7, &fault));
        s.ask.count = 2 + (size_t)n % 3;
        s.ask.ways_out = 2 + (size_t)n / 3 % 2;
        assert_true(layout_survey(&g, &s.ask, &fault));
        struct layout_plot p = { .ground = &g, .seed = (uint64_t)n };
        assert_true(layout_plot_make(&p, &fault));
        struct joins net = { .openings = (int)p.openings, .exits = (int)g.gate_count,
                             .links = p.links, .link_count = p.link_count };
        assert_true(net.link_count <= BEST_LINKS);
        double least = best_length(&best, &net, (int)s.ask.ways_out);
        uint8_t used[BEST_LINKS];
        if (least < HUGE_VAL) {
            assert_true(joins_begin(&net, &fault));
            chosen += joins_choose(&net, (int)s.ask.ways_out, 1, used, &fault) / least;
            joins_end(&net);
            cut += p.score.length / least;
            count++;
        }
        layout_plot_free(&p);
        layout_survey_free(&g);
        stand_free(&s);
    }
    print_message(
        "%d stands: choice %.4f, trails as cut %.4f of the shortest, on the mean\n",
        count, chosen / count, cut / count);
    assert_true(count > 50);
    assert_true(chosen / count <= 1.10);
    assert_true(cut / count <= 1.10);
}

static void too_many_openings_are_told_with_the_number_that_fits(void **state)
{
    (void)state;
    struct stand s;
    struct layout out, again;
    assert_true(stand_make(&s, 2, 3, 3, &fault));
    s.ask.count = 60;
    assert_true(layout_design(&s.ask, &out, &fault));
    const struct layout_trouble *t = trouble(&out, LAYOUT_COUNT);
    assert_non_null(t);
    assert_true(t->asked == 60 && t->got == (double)out.openings.part_count);
    assert_true(t->got > 3 && t->got < 30);
    assert_non_null(strstr(t->words, "of 60 openings"));
    assert_non_null(strstr(t->remedy, "openings"));
    s.ask.count = (size_t)t->got;
    assert_true(layout_design(&s.ask, &again, &fault));
    assert_null(trouble(&again, LAYOUT_COUNT));
    layout_free(&out);
    layout_free(&again);
    stand_free(&s);
}

static void too_few_exits_are_told(void **state)
{
    (void)state;
    struct stand s;
    struct layout out;
    assert_true(stand_make(&s, 5, 2, 4, &fault));
    s.ask.ways_out = 3;
    assert_true(layout_design(&s.ask, &out, &fault));
    const struct layout_trouble *t = trouble(&out, LAYOUT_WAYS_OUT);
    assert_non_null(t);
    assert_true(t->asked == 3 && t->got == 2 && t->how_many == 3);
    assert_string_equal(t->words,
                        "3 ways out to different exits are asked, but the cover "
                        "has only 2 exits");
    assert_string_equal(t->remedy, "2 ways out, or another edge to leave by");
    layout_free(&out);
    stand_free(&s);
}

/* A road all along the stand, shunned by more than the reach. */
static void a_setback_wider_than_the_reach_is_told(void **state)
{
    (void)state;
    struct stand s;
    struct layout out, again;
    assert_true(stand_make(&s, 8, 3, 6, &fault));
    s.shun.least = 150;
    s.ask.reach = 110;
    s.ask.count = 5;
    assert_true(layout_design(&s.ask, &out, &fault));
    const struct layout_trouble *t = trouble(&out, LAYOUT_REACH);
    assert_non_null(t);
    assert_true(t->got > 149 && t->got < 260);
    assert_true(shape_distance(&s.road, t->where, NULL) < 60);
    assert_non_null(strstr(t->remedy, "a reach of "));
    s.ask.reach = strtod(strstr(t->remedy, "reach of ") + 9, NULL);
    assert_true(layout_design(&s.ask, &again, &fault));
    assert_null(trouble(&again, LAYOUT_REACH));
    layout_free(&out);
    layout_free(&again);
    stand_free(&s);
}

static void a_sight_shorter_than_the_trail_is_wide_is_told(void **state)
{
    (void)state;
    struct stand s;
    struct layout out;
    assert_true(stand_make(&s, 5, 3, 8, &fault));
    s.ask.sight = 8;
    s.ask.trail_width = 10;
    assert_true(layout_design(&s.ask, &out, &fault));
    const struct layout_trouble *t = trouble(&out, LAYOUT_SIGHT);
    assert_non_null(t);
    assert_true(t->got > 8 && t->how_many > 0);
    assert_true(shape_distance(&out.trails, t->where, NULL) < 10);
    layout_free(&out);
    stand_free(&s);
}

/* One long edge gives several exits, so far apart along it. */
static void one_edge_may_be_several_exits(void **state)
{
    (void)state;
    struct stand s;
    struct layout out;
    assert_true(stand_make(&s, 12, 1, 10, &fault));
    s.ask.ways_out = 2;
    assert_true(layout_design(&s.ask, &out, &fault));
    assert_non_null(trouble(&out, LAYOUT_WAYS_OUT));
    layout_free(&out);
    s.exits[0].apart = 120;
    assert_true(layout_design(&s.ask, &out, &fault));
    assert_int_equal(out.trouble_count, 0);
    size_t ends = 0;
    for (size_t i = 0; i < out.trails.part_count; i++) {
        const struct shape_part *a = &out.trails.parts[i];
        ends += out.trail[i].to < 0;
        for (size_t j = 0; j < i; j++) {
            const struct shape_part *b = &out.trails.parts[j];
            struct point p = out.trails.points[a->first + a->count - 1];
            struct point q = out.trails.points[b->first + b->count - 1];
            if (out.trail[i].to < 0 && out.trail[j].to < 0 &&
                out.trail[i].gate != out.trail[j].gate)
                assert_true(hypot(p.x - q.x, p.y - q.y) >= 120 - 1e-6);
        }
    }
    assert_true(ends >= 2);
    layout_free(&out);
    stand_free(&s);
}

/* Two stands joined by a neck, both exits on the western one: a second trail needs ground
 * of its own. */
static size_t without_two_ways(double neck, struct layout *out)
{
    struct point rim[] = { { 0, 0 }, { 400, 0 }, { 400, 200 - neck / 2 },
                           { 500, 200 - neck / 2 }, { 500, 0 }, { 900, 0 }, { 900, 400 },
                           { 500, 400 }, { 500, 200 + neck / 2 }, { 400, 200 + neck / 2 },
                           { 400, 400 }, { 0, 400 } };
    struct shape cover = { .kind = SHAPE_AREAS }, south = { .kind = SHAPE_LINES };
    struct shape north = { .kind = SHAPE_LINES };
    struct layout_exit exits[] = { { &south, 0, 0 }, { &north, 0, 0 } };
    assert_true(shape_add_part(&cover, rim, 12, false, &fault));
    assert_true(shape_add_part(&south, rim, 2, false, &fault));
    assert_true(shape_add_part(&north, rim + 10, 2, false, &fault));
    struct layout_ask ask = { .cover = &cover, .exits = exits, .exit_count = 2,
                              .width = 40, .count = 4, .ways_out = 2,
                              .trail_width = 6, .seed = 1 };
    assert_true(layout_design(&ask, out, &fault));
    shape_free(&cover);
    shape_free(&south);
    shape_free(&north);
    const struct layout_trouble *t = trouble(out, LAYOUT_WAYS_OUT);
    return t ? t->how_many : 0;
}

static void a_neck_too_narrow_for_two_trails_is_told(void **state)
{
    (void)state;
    struct layout out;
    assert_int_equal(without_two_ways(80, &out), 0);
    layout_free(&out);
    assert_int_equal(without_two_ways(9, &out), 2);
    const struct layout_trouble *t = trouble(&out, LAYOUT_WAYS_OUT);
    assert_true(t->got == 1 && t->where.x > 400);
    assert_non_null(strstr(t->words, "2 of 4 openings have fewer than 2 ways out"));
    layout_free(&out);
}

static void openings_that_are_there_are_joined_as_they_are(void **state)
{
    (void)state;
    struct stand s;
    struct layout first, out;
    assert_true(stand_make(&s, 8, 3, 12, &fault));
    s.ask.count = 5;
    assert_true(layout_design(&s.ask, &first, &fault));
    s.ask.openings = &first.openings;
    s.ask.count = 0;
    assert_true(layout_design(&s.ask, &out, &fault));
    assert_int_equal(out.openings.part_count, 5);
    assert_int_equal(out.openings.point_count, first.openings.point_count);
    assert_memory_equal(out.openings.points, first.openings.points,
                        out.openings.point_count * sizeof *out.openings.points);
    assert_int_equal(out.trouble_count, 0);
    assert_true(out.trails.part_count >= 5);
    layout_free(&first);
    layout_free(&out);
    stand_free(&s);
}

static void asks_without_sense_are_faults(void **state)
{
    (void)state;
    struct stand s;
    struct layout out;
    struct fault f;
    assert_true(stand_make(&s, 5, 2, 4, &fault));
    struct layout_ask ask = s.ask;
    ask.count = 0;
    fault_clear(&f);
    assert_false(layout_design(&ask, &out, &f));
    assert_string_equal(f.id, "layout-count");
    ask = s.ask;
    ask.width = 0;
    fault_clear(&f);
    assert_false(layout_design(&ask, &out, &f));
    assert_string_equal(f.id, "layout-width");
    ask = s.ask;
    ask.trail_width = 0;
    fault_clear(&f);
    assert_false(layout_design(&ask, &out, &f));
    assert_string_equal(f.id, "layout-trail-width");
    ask = s.ask;
    ask.cover = &s.road;
    fault_clear(&f);
    assert_false(layout_design(&ask, &out, &f));
    assert_string_equal(f.id, "layout-cover");
    ask = s.ask;
    ask.count = 200000;
    fault_clear(&f);
    assert_false(layout_design(&ask, &out, &f));
    assert_string_equal(f.id, "layout-too-many");
    stand_free(&s);
}

/* No room at all, no exit at all, a stand that is all keep-out: told, not crashed on. */
static void nothing_fits_where_nothing_can(void **state)
{
    (void)state;
    struct stand s;
    struct layout out;
    assert_true(stand_make(&s, 3, 2, 4, &fault));
    s.shun.least = 5000;
    assert_true(layout_design(&s.ask, &out, &fault));
    assert_non_null(trouble(&out, LAYOUT_COUNT));
    assert_int_equal(out.openings.part_count, 0);
    layout_free(&out);
    s.shun.least = 0;
    s.ask.exit_count = 0;
    assert_true(layout_design(&s.ask, &out, &fault));
    assert_string_equal(trouble(&out, LAYOUT_WAYS_OUT)->remedy, "an edge to leave by");
    layout_free(&out);
    const struct shape *all = &s.cover;
    s.ask.keep_outs = &all;
    assert_true(layout_design(&s.ask, &out, &fault));
    assert_int_equal(out.openings.part_count, 0);
    layout_free(&out);
    stand_free(&s);
}

/* Three squares of 600 ft with water between them, two with an opening: trails stay on
 * their own side, and the third square is the one that is told. */
static void cover_across_a_water_is_out_of_reach(void **state)
{
    (void)state;
    struct shape cover = { .kind = SHAPE_AREAS }, there = { .kind = SHAPE_AREAS },
                 rim = { .kind = SHAPE_LINES };
    for (int i = 0; i < 3; i++) {
        double w = 700 * i, at = w + 270;
        struct point square[] = { { w, 0 }, { w + 600, 0 }, { w + 600, 600 }, { w, 600 },
                                  { w, 0 } };
        struct point opening[] = { { at, 270 }, { at + 60, 270 }, { at + 60, 330 },
                                   { at, 330 } };
        assert_true(shape_add_part(&cover, square, 4, false, &fault));
        assert_true(i == 2 || shape_add_part(&there, opening, 4, false, &fault));
        assert_true(i == 2 || shape_add_part(&rim, square, 5, false, &fault));
    }
    struct layout_exit exit = { &rim, 0, 150 };
    struct layout_ask ask = { .cover = &cover, .exits = &exit, .exit_count = 1,
                              .openings = &there, .ways_out = 2, .reach = 150,
                              .trail_width = 6, .seed = 1 };
    struct layout out;
    assert_true(layout_design(&ask, &out, &fault));
    const struct layout_trouble *t = trouble(&out, LAYOUT_REACH);
    assert_non_null(t);
    assert_true(t->where.x > 1400 && t->got > 700);
    assert_null(trouble(&out, LAYOUT_WAYS_OUT));
    int of[2] = { 0, 0 };
    for (size_t i = 0; i < out.trails.part_count; i++) {
        long from = out.trail[i].from;
        const struct shape_part *part = &out.trails.parts[i];
        of[from]++;
        for (size_t k = 0; k < part->count; k++) {
            double x = out.trails.points[part->first + k].x - 700 * (double)from;
            assert_true(x >= 0 && x <= 600);
        }
    }
    assert_true(of[0] >= 2 && of[1] >= 2);
    /* What can be reached is. */
    struct shape lines[] = { out.trails, there };
    for (int i = 0; i < 4; i++) {
        struct point corner = { i % 2 ? 1250 : 50, i / 2 ? 550 : 50 };
        double d = fmin(shape_distance(&lines[0], corner, NULL),
                        shape_distance(&lines[1], corner, NULL));
        assert_true(d <= 150);
    }
    double all = out.scores[out.best].length;
    layout_free(&out);
    /* Asked of the cover round one opening alone, it is met, with fewer trails. */
    struct shape half = { .kind = SHAPE_AREAS };
    struct point west[] = { { 0, 0 }, { 600, 0 }, { 600, 600 }, { 0, 600 } };
    assert_true(shape_add_part(&half, west, 4, false, &fault));
    ask.reached = &half;
    assert_true(layout_design(&ask, &out, &fault));
    assert_null(trouble(&out, LAYOUT_REACH));
    assert_true(out.scores[out.best].reach <= 150);
    assert_true(out.scores[out.best].length < 0.8 * all);
    shape_free(&half);
    layout_free(&out);
    shape_free(&cover);
    shape_free(&there);
    shape_free(&rim);
}

static double trails_of(double deep, double reach, uint64_t seed, double *farthest)
{
    struct shape cover = { .kind = SHAPE_AREAS }, road = { .kind = SHAPE_LINES },
                 rim = { .kind = SHAPE_LINES };
    struct point block[] = { { 0, -deep }, { 1200, -deep }, { 1200, 700 }, { 0, 700 } };
    struct point south[] = { { 0, -400 }, { 1200, -400 } };
    struct point north[] = { { 0, 700 }, { 1200, 700 } };
    assert_true(shape_add_part(&cover, block, 4, false, &fault));
    assert_true(shape_add_part(&road, south, 2, false, &fault));
    assert_true(shape_add_part(&rim, north, 2, false, &fault));
    struct layout_exit exit = { &rim, 0, 150 };
    struct layout_shun shun = { &road, 400 };
    struct layout_ask ask = { .cover = &cover, .exits = &exit, .exit_count = 1,
                              .shuns = &shun, .shun_count = 1, .count = 4, .width = 60,
                              .ways_out = 2, .reach = reach, .sight = 80,
                              .trail_width = 6, .seed = seed, .candidates = 1 };
    struct layout out;
    assert_true(layout_design(&ask, &out, &fault));
    const struct layout_trouble *t = trouble(&out, LAYOUT_REACH);
    *farthest = t ? t->got : 0;
    double length = out.scores[out.best].length;
    layout_free(&out);
    shape_free(&cover), shape_free(&road), shape_free(&rim);
    return length;
}

/* A setback of 400 ft, with cover all through it that no trail may come to: a third more
 * trails than without that cover, where going after all of it took twice as many. */
static void trails_do_not_crowd_along_a_setback(void **state)
{
    (void)state;
    double with = 0, without = 0, farthest;
    for (uint64_t seed = 1; seed <= 4; seed++) {
        without += trails_of(0, 150, seed, &farthest);
        assert_true(farthest == 0);
        with += trails_of(390, 150, seed, &farthest);
        assert_true(farthest >= 390 && farthest < 390 + 150);
    }
    printf("trails beside a setback: %.0f ft, without what it keeps off %.0f ft\n", with,
           without);
    assert_true(with < 1.5 * without);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(trails_are_close_to_the_shortest_there_are),
        cmocka_unit_test(too_many_openings_are_told_with_the_number_that_fits),
        cmocka_unit_test(too_few_exits_are_told),
        cmocka_unit_test(a_setback_wider_than_the_reach_is_told),
        cmocka_unit_test(a_sight_shorter_than_the_trail_is_wide_is_told),
        cmocka_unit_test(one_edge_may_be_several_exits),
        cmocka_unit_test(a_neck_too_narrow_for_two_trails_is_told),
        cmocka_unit_test(openings_that_are_there_are_joined_as_they_are),
        cmocka_unit_test(asks_without_sense_are_faults),
        cmocka_unit_test(nothing_fits_where_nothing_can),
        cmocka_unit_test(cover_across_a_water_is_out_of_reach),
        cmocka_unit_test(trails_do_not_crowd_along_a_setback),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
