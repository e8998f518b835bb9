/* A whole layout checked, by hand and for speed; the way in to it. */
#include "drawn.h"

#include <stdlib.h>
#include <string.h>

#include "ground/access.h"
#include "ground/routes.h"

/* 1,000 by 600 ft: an opening in the middle, a trail out to the west and one that ends in
 * the east; a road along the north, a pond. */
struct hand {
    struct shape cover, opening, west, east, exit, road, pond;
    const struct shape *openings[1], *keep_outs[1];
    struct net_trail trails[2];
    struct net_exit exits[1];
    struct routes_shun shuns[1];
    struct routes_ask ask;
};

static void draw_hand(struct hand *h)
{
    memset(h, 0, sizeof *h);
    h->cover.kind = SHAPE_AREAS;
    DRAW(&h->cover, 0, 0, 1000, 0, 1000, 600, 0, 600);
    drawn_square(&h->opening, 500, 300, 40);
    h->west.kind = h->east.kind = h->exit.kind = h->road.kind = SHAPE_LINES;
    DRAW(&h->west, 460, 300, 0, 300);
    DRAW(&h->east, 540, 300, 700, 300, 700, 520);
    DRAW(&h->exit, 0, 0, 0, 600);
    DRAW(&h->road, -100, 600, 1100, 600);
    drawn_square(&h->pond, 200, 300, 25);
    h->openings[0] = &h->opening;
    h->keep_outs[0] = &h->pond;
    h->trails[0] = (struct net_trail){ &h->west, 6 };
    h->trails[1] = (struct net_trail){ &h->east, 6 };
    h->exits[0] = (struct net_exit){ &h->exit, 0 };
    h->shuns[0] = (struct routes_shun){ &h->road, 100, 280 };
    h->ask = (struct routes_ask){ .net = { h->trails, h->openings, h->exits, 2, 1, 1,
                                           NET_SNAP },
                                  .cover = &h->cover,
                                  .shuns = h->shuns,
                                  .keep_outs = h->keep_outs,
                                  .shun_count = 1,
                                  .keep_out_count = 1,
                                  .ways_out = 2,
                                  .reach = 300,
                                  .sight = 75 };
}

static void free_hand(struct hand *h)
{
    shape_free(&h->cover);
    shape_free(&h->opening);
    shape_free(&h->west);
    shape_free(&h->east);
    shape_free(&h->exit);
    shape_free(&h->road);
    shape_free(&h->pond);
}

static void by_hand(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct hand h;
    struct routes r;
    draw_hand(&h);
    assert_true(routes_check(&h.ask, &r, &f));
    assert_int_equal(r.ways.openings[0].routes, 1);
    assert_int_equal(r.short_of_ways, 1);
    assert_int_equal(r.dead_ends.count, 1);
    assert_near(r.dead_ends.list[0].at.y, 520, 0);
    assert_near(r.dead_ends.list[0].length, 160 + 220, 1e-9);
    assert_near(r.trail_length, 460 + 160 + 220, 1e-9);
    /* The corner in the south east: 300 ft east of the bend and 300 ft south. */
    assert_near(r.farthest.distance, 300 * sqrt(2), REACH_CLOSE);
    assert_near(r.farthest.at.x, 1000, 1);
    /* Beyond 300 ft: in the south east a square of 300 ft less a quarter of a disc, in
     * the north east what is beyond 80 ft of height of the disc round the dead end. */
    double square = 300 * 300 * (1 - 3.14159265358979 / 4);
    double corner = 300 * 80 - 40 * sqrt(90000 - 6400) - 45000 * asin(80.0 / 300);
    assert_near(r.beyond, (square + corner) / 600000, 0.0001);
    assert_int_equal(r.sights.count, 3);
    assert_near(r.sights.longest, hypot(460, 6), 0.001);
    assert_int_equal(r.near.count, 2);
    assert_true(r.near.list[0].opening);
    assert_near(r.near.list[0].where.distance, 260, 1e-9);
    assert_false(r.near.list[1].opening);
    assert_near(r.near.list[1].where.from, 160 + 200, 0.02);
    assert_near(r.near.list[1].where.to, 380, 0.02);
    assert_near(r.near.list[1].where.distance, 80, 1e-9);
    assert_int_equal(r.through.count, 1);
    assert_near(r.through.list[0].where.from, 460 - 225, 1e-9);
    assert_near(r.through.list[0].where.to, 460 - 175, 1e-9);
    assert_near(r.cover, 600000, 120);
    double opened = 6400 + 6 * (460 + 160 + 220) + 9 * 3.14159265358979 * 0.75 - 9;
    assert_near(r.opened, opened, opened / 300);
    routes_free(&r);
    free_hand(&h);
}

static void nothing_there(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape none = { .kind = SHAPE_AREAS };
    struct routes_ask ask = { .cover = &none };
    struct routes r;
    assert_true(routes_check(&ask, &r, &f));
    assert_int_equal(r.net.node_count + r.dead_ends.count + r.near.count, 0);
    assert_near(r.farthest.distance, 0, 0);
    routes_free(&r);
}

/* A house in an opening is near no stretch of its rim, and too near all the same. */
static void a_house_in_an_opening(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct hand h;
    struct routes r;
    draw_hand(&h);
    struct shape house = { .kind = SHAPE_POINTS };
    DRAW(&house, 505, 305);
    h.shuns[0] = (struct routes_shun){ &house, 0, 20 };
    assert_true(routes_check(&h.ask, &r, &f));
    assert_int_equal(r.near.count, 1);
    assert_near(r.near.list[0].where.distance, 0, 0);
    assert_near(r.near.list[0].where.to, 320, 1e-9);
    routes_free(&r);
    shape_free(&house);
    free_hand(&h);
}

/* A trail that runs on past the rim ends on somebody else's ground: no dead end. */
static void beyond_the_rim(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct hand h;
    struct routes r;
    draw_hand(&h);
    shape_free(&h.west);
    h.west.kind = SHAPE_LINES;
    DRAW(&h.west, 460, 300, -200, 300);
    assert_true(routes_check(&h.ask, &r, &f));
    assert_int_equal(r.ways.openings[0].routes, 1);
    assert_int_equal(r.dead_ends.count, 1);
    routes_free(&r);
    free_hand(&h);
}

static void the_way_in(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct shape way = { .kind = SHAPE_LINES }, seats = { .kind = SHAPE_POINTS };
    struct shape bed = { .kind = SHAPE_AREAS }, rest = { .kind = SHAPE_AREAS };
    const struct shape *const beds[] = { &bed }, *const rests[] = { &rest };
    struct access_list found;
    drawn_square(&bed, 0, 0, 100);
    drawn_square(&rest, 600, -300, 30);
    DRAW(&way, -400, -300, 700, -300);
    DRAW(&seats, -200, 0, 50, 50);
    DRAW(&seats, 400, 0);
    struct access_ask ask = { &way, &seats, beds, 1, rests, 1, 250, 300, { 270, 20 } };
    assert_true(access_check(&ask, &found, &f));
    struct {
        enum access_kind kind;
        bool seat, opening;
        double from, to, distance;
    } want[] = {
        /* 200 ft south of it for 200 ft, and at the corners 150 ft more each way. */
        { ACCESS_NEAR, false, false, 150, 650, 200 },
        { ACCESS_NEAR, true, false, 0, 0, 100 }, /* the first seat, west of it */
        { ACCESS_UPWIND, true, false, 0, 0, 100 },
        { ACCESS_CROSSES, true, false, 0, 0, 0 }, /* the second, in it */
        { ACCESS_NEAR, true, false, 0, 0, 0 },
        { ACCESS_UPWIND, true, false, 0, 0, 0 },
        { ACCESS_CROSSES, false, true, 970, 1030, 0 },
        { ACCESS_NEAR, false, true, 720, 1100, 0 },
        { ACCESS_UPWIND, false, true, 670, 1030, 0 },
    };
    assert_int_equal(found.count, sizeof want / sizeof *want);
    for (size_t i = 0; i < found.count; i++) {
        assert_int_equal(found.list[i].kind, want[i].kind);
        assert_int_equal(found.list[i].seat, want[i].seat);
        assert_int_equal(found.list[i].opening, want[i].opening);
        assert_near(found.list[i].where.from, want[i].from, 0.5);
        assert_near(found.list[i].where.to, want[i].to, 0.5);
        assert_near(found.list[i].where.distance, want[i].distance, 1e-6);
    }
    free(found.list);
    shape_free(&way);
    shape_free(&seats);
    shape_free(&bed);
    shape_free(&rest);
}

/* Anything at all, on whole feet so that much of it coincides: lines over lines, points
 * twice, openings in openings, trails without length. Twice the same, and in one piece. */
static void anything_at_all(void **state)
{
    (void)state;
    unsigned seed = 41;
    for (int n = 0; n < 200; n++) {
        struct shape lines[6], areas[5];
        const struct shape *openings[3], *keep_outs[1];
        struct net_trail trails[4];
        struct fault f = { .id = NULL };
        double grid = drawn_chance(&seed) % 2 ? 50 : 7;
        for (int i = 0; i < 6; i++) {
            double xy[16];
            for (int k = 0; k < 16; k++)
                xy[k] = grid * (double)(drawn_chance(&seed) % 9);
            lines[i] = (struct shape){ .kind = SHAPE_LINES };
            drawn_part(&lines[i], xy, 1 + drawn_chance(&seed) % 8);
            if (i < 4)
                trails[i] = (struct net_trail){ &lines[i], drawn_chance(&seed) % 3 * 4 };
        }
        for (int i = 0; i < 5; i++) {
            areas[i] = (struct shape){ .kind = SHAPE_AREAS };
            drawn_square(&areas[i], grid * (double)(drawn_chance(&seed) % 9),
                         grid * (double)(drawn_chance(&seed) % 9), i == 4 ? 300 : grid);
            if (i < 3)
                openings[i] = &areas[i];
        }
        keep_outs[0] = &areas[3];
        struct net_exit exits[] = { { &lines[4], 0 }, { &areas[4], 60 } };
        struct routes_shun shuns[] = { { &lines[5], 30, 30 } };
        struct routes_ask ask = { .net = { trails, openings, exits, 4, 3, 2,
                                           drawn_chance(&seed) % 3 * 6 },
                                  .cover = &areas[4],
                                  .shuns = shuns,
                                  .keep_outs = keep_outs,
                                  .shun_count = 1,
                                  .keep_out_count = 1,
                                  .ways_out = 2,
                                  .reach = 40,
                                  .sight = 60 };
        struct routes r, again;
        assert_true(routes_check(&ask, &r, &f));
        assert_true(routes_check(&ask, &again, &f));
        for (size_t i = 0; i < r.net.stretch_count; i++) {
            const struct net_stretch *s = &r.net.stretches[i];
            assert_true(s->a < r.net.node_count && s->b < r.net.node_count);
            assert_true(s->count >= 2 && s->first + s->count <= r.net.point_count);
            assert_true(s->length > 0 && s->to > s->from);
        }
        for (size_t i = 0; i < 3; i++) {
            assert_true(r.ways_apart.openings[i].routes <= r.ways.openings[i].routes);
            assert_true(r.ways.openings[i].routes <= r.net.outlet_count);
            assert_int_equal(r.ways.openings[i].count, r.ways.openings[i].routes);
        }
        assert_true(r.opened >= 0 && r.opened <= r.cover * (1 + 1e-9));
        assert_true(r.beyond >= 0 && r.beyond <= 1);
        assert_int_equal(r.net.stretch_count, again.net.stretch_count);
        assert_memory_equal(r.net.points, again.net.points,
                            r.net.point_count * sizeof *r.net.points);
        assert_near(r.farthest.distance, again.farthest.distance, 0);
        assert_near(r.sights.longest, again.sights.longest, 0);
        routes_free(&r);
        routes_free(&again);
        for (int i = 0; i < 6; i++)
            shape_free(&lines[i]);
        for (int i = 0; i < 5; i++)
            shape_free(&areas[i]);
    }
}

/* 100 acres, 60 openings, 20,000 ft of winding trail that joins them in rows. */
static void sixty_openings(void **state)
{
    (void)state;
    enum { ACROSS = 10, UP = 6 };
    static struct shape openings[60], trails[ACROSS + UP];
    const struct shape *list[60];
    struct net_trail net_trails[ACROSS + UP];
    struct shape cover = { .kind = SHAPE_AREAS }, road = { .kind = SHAPE_LINES };
    struct fault f = { .id = NULL };
    double side = sqrt(43560 * 100), xy[512];
    drawn_blob(&cover, side / 2, side / 2, side / sqrt(3.14159265358979), 0.05, 200);
    for (int i = 0; i < 60; i++) {
        drawn_blob(&openings[i], side * (0.1 + 0.8 * (i % ACROSS) / (ACROSS - 1)),
                   side * (0.15 + 0.7 * (i / ACROSS) / (UP - 1)), 22, 0.2, 24);
        list[i] = &openings[i];
    }
    for (int i = 0; i < ACROSS + UP; i++) {
        bool up = i < ACROSS;
        double at =
            up ? 0.1 + 0.8 * i / (ACROSS - 1) : 0.15 + 0.7 * (i - ACROSS) / (UP - 1);
        for (int k = 0; k < 120; k++) {
            double on = side * (0.05 + 0.9 * k / 119), off = side * at + 9 * sin(on / 18);
            xy[2 * k] = up ? off : on;
            xy[2 * k + 1] = up ? on : off;
        }
        trails[i].kind = SHAPE_LINES;
        drawn_part(&trails[i], xy, 120);
        net_trails[i] = (struct net_trail){ &trails[i], 6 };
    }
    DRAW(&road, 0, 0, side, 0, side, side);
    struct shape rim = { .kind = SHAPE_LINES };
    for (size_t i = 0; i < 200; i++) {
        xy[2 * i] = cover.points[i].x;
        xy[2 * i + 1] = cover.points[i].y;
    }
    drawn_part(&rim, xy, 200);
    struct net_exit exits[] = { { &rim, 150 } };
    struct routes_shun shuns[] = { { &road, 150, 150 } };
    struct routes_ask ask = { .net = { net_trails, list, exits, ACROSS + UP, 60, 1, 10 },
                              .cover = &cover,
                              .shuns = shuns,
                              .shun_count = 1,
                              .ways_out = 2,
                              .reach = 150,
                              .sight = 75 };
    struct routes r;
    assert_true(routes_check(&ask, &r, &f));
    for (int i = 0; i < 60; i++)
        assert_true(r.ways.openings[i].routes >= 2 && r.ways.openings[i].routes <= 4);
    assert_true(r.trail_length >= 20000);
    routes_free(&r);
    for (int i = 0; i < 60; i++)
        shape_free(&openings[i]);
    for (int i = 0; i < ACROSS + UP; i++)
        shape_free(&trails[i]);
    shape_free(&cover);
    shape_free(&road);
    shape_free(&rim);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(by_hand),
        cmocka_unit_test(nothing_there),
        cmocka_unit_test(a_house_in_an_opening),
        cmocka_unit_test(beyond_the_rim),
        cmocka_unit_test(the_way_in),
        cmocka_unit_test(anything_at_all),
        cmocka_unit_test(sixty_openings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
