#include "../unit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ground/outline.h"
#include "ground/routes.h"
#include "stand_fixture.h"

static struct fault fault;

static double apart(struct point a, struct point b)
{
    return hypot(a.x - b.x, a.y - b.y);
}

static const struct point *part_of(const struct shape *s, size_t i, size_t *count)
{
    *count = s->parts[i].count;
    return s->points + s->parts[i].first;
}

/* How much nearer a point is to what must be kept off than it may be; 0 when it is not.
 * `half` is half the width of what is there. */
static double too_near(const struct stand *s, struct point p, double half)
{
    double worst = half - shape_rim_distance(&s->keep, p, NULL);
    worst = fmax(worst, s->shun.least + half - shape_distance(&s->road, p, NULL));
    for (int i = 0; i < STAND_TREES; i++)
        worst = fmax(worst, s->trees[i].radius + half - apart(p, s->trees[i].at));
    if (shape_has(&s->keep, p) || !shape_has(&s->cover, p))
        worst = fmax(worst, 1);
    return fmax(worst, 0);
}

static void check_openings(const struct stand *s, const struct layout *out)
{
    size_t count, other_count;
    for (size_t i = 0; i < out->openings.part_count; i++) {
        const struct point *rim = part_of(&out->openings, i, &count);
        assert_true(outline_has(rim, count, out->centers[i]));
        for (size_t k = 0; k < count; k++) {
            for (double t = 0; t < 1; t += 0.25) {
                struct point a = rim[k], b = rim[(k + 1) % count];
                struct point p = { a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
                assert_true(too_near(s, p, 0) < 1e-6);
            }
        }
        for (int k = 0; k < STAND_TREES; k++)
            assert_false(outline_has(rim, count, s->trees[k].at));
        for (size_t j = 0; j < i; j++) {
            const struct point *other = part_of(&out->openings, j, &other_count);
            for (size_t k = 0; k < count; k++)
                for (size_t m = 0; m < other_count; m++)
                    assert_true(apart(rim[k], other[m]) > s->ask.width / 2 - 1e-6);
        }
    }
}

static double to_rim(const struct layout *out, size_t opening, struct point p)
{
    size_t count;
    const struct point *rim = part_of(&out->openings, opening, &count);
    struct shape one = { .kind = SHAPE_AREAS };
    assert_true(shape_add_part(&one, rim, count, false, &fault));
    double d = shape_rim_distance(&one, p, NULL);
    shape_free(&one);
    return d;
}

/* In the cover, off what is shunned, through no other opening, from rim to rim or exit.
 * */
static void check_trail(const struct stand *s, const struct layout *out, size_t i)
{
    const struct layout_trail *t = &out->trail[i];
    size_t count, rim_count;
    const struct point *p = part_of(&out->trails, i, &count);
    assert_true(count >= 2);
    assert_true(to_rim(out, (size_t)t->from, p[0]) < 1e-6);
    struct point end = p[count - 1];
    if (t->to >= 0)
        assert_true(to_rim(out, (size_t)t->to, end) < 1e-6);
    else
        assert_true(shape_distance(s->exits[-1 - t->to].line, end, NULL) <= 1);
    double length = 0;
    for (size_t k = 0; k + 1 < count; k++) {
        double step = apart(p[k], p[k + 1]);
        length += step;
        for (double d = 0; d < step; d += 1) {
            struct point q = { p[k].x + d / step * (p[k + 1].x - p[k].x),
                               p[k].y + d / step * (p[k + 1].y - p[k].y) };
            double half = s->ask.trail_width / 2;
            bool leaving = t->to < 0 && apart(q, end) < 30;
            assert_true(too_near(s, q, leaving ? 0 : half) < 0.05);
            if (!leaving)
                assert_true(shape_rim_distance(&s->cover, q, NULL) > half - 0.05);
            for (size_t j = 0; j < out->openings.part_count; j++) {
                const struct point *rim = part_of(&out->openings, j, &rim_count);
                if ((long)j != t->from && (long)j != t->to)
                    assert_false(outline_has(rim, rim_count, q));
            }
        }
    }
    assert_true(fabs(length - t->length) < 1e-6);
}

/* The longest stretch of one trail whose ground another trail has too (their edges
 * touch), but for the first feet at an opening or exit of both. */
static double shared(const struct stand *s, const struct layout *out, size_t i, size_t j)
{
    size_t n, m;
    const struct point *a = part_of(&out->trails, i, &n),
                       *b = part_of(&out->trails, j, &m);
    struct shape other = { .kind = SHAPE_LINES };
    assert_true(shape_add_part(&other, b, m, false, &fault));
    double run = 0, most = 0;
    for (size_t k = 0; k + 1 < n; k++) {
        double step = apart(a[k], a[k + 1]);
        for (double d = 0; d < step; d += 1) {
            struct point q = { a[k].x + d / step * (a[k + 1].x - a[k].x),
                               a[k].y + d / step * (a[k + 1].y - a[k].y) };
            bool at_end = apart(q, a[0]) < 15 || apart(q, a[n - 1]) < 15;
            bool in = !at_end && shape_distance(&other, q, NULL) < s->ask.trail_width;
            run = in ? run + 1 : 0;
            most = fmax(most, run);
        }
    }
    shape_free(&other);
    return most;
}

/* Routes from one opening that share no trail, to different exits; found by trying all.
 * */
static int routes(const struct layout *out, uint8_t *gone, unsigned exits, uint64_t seen,
                  long place, long start, int most)
{
    if (most == 0)
        return 0;
    if (place < 0) {
        unsigned exit = 1u << (-1 - place);
        return exits & exit
                   ? 0
                   : 1 + routes(out, gone, exits | exit, 0, start, start, most - 1);
    }
    int best = 0;
    seen |= (uint64_t)1 << place;
    for (size_t i = 0; i < out->trails.part_count && best < most; i++) {
        const struct layout_trail *t = &out->trail[i];
        if (gone[i] || (t->from != place && t->to != place))
            continue;
        long next = t->from == place ? t->to : t->from;
        if (next >= 0 && seen >> next & 1)
            continue;
        gone[i] = 1;
        int found = routes(out, gone, exits, seen, next, start, most);
        gone[i] = 0;
        best = found > best ? found : best;
    }
    return best;
}

/* The longest straight line within a trail, by trying lines between all pairs of points
 * of its sides and middle. */
static double longest_sight(const struct layout *out, size_t i, double width)
{
    size_t n;
    const struct point *p = part_of(&out->trails, i, &n);
    struct shape line = { .kind = SHAPE_LINES };
    assert_true(shape_add_part(&line, p, n, false, &fault));
    double most = 0;
    for (size_t a = 0; a + 1 < n; a++) {
        for (size_t b = a + 1; b < n; b++) {
            if (apart(p[a], p[b]) <= most)
                continue;
            struct point middle = { (p[a].x + p[b].x) / 2, (p[a].y + p[b].y) / 2 };
            if (shape_distance(&line, middle, NULL) > width)
                continue; /* the middle of such a line is half a width off that at most */
            for (int k = 0; k < 9; k++) {
                struct point at[2] = { p[a], p[b] };
                for (int e = 0; e < 2; e++) {
                    size_t c = e == 0 ? a : b;
                    struct point u = p[c > 0 ? c - 1 : 0], v = p[c + 1 < n ? c + 1 : c];
                    double side = ((e == 0 ? k / 3 : k % 3) - 1) * width / 2 * 0.98;
                    double d = apart(u, v);
                    at[e].x -= (v.y - u.y) / d * side;
                    at[e].y += (v.x - u.x) / d * side;
                }
                bool in = true;
                for (int h = 1; in && h < 30; h++) {
                    struct point q = { at[0].x + (at[1].x - at[0].x) * h / 30,
                                       at[0].y + (at[1].y - at[0].y) * h / 30 };
                    in = shape_distance(&line, q, NULL) <= width / 2;
                }
                if (in)
                    most = fmax(most, apart(at[0], at[1]));
            }
        }
    }
    shape_free(&line);
    return most;
}

static void check_reach(const struct stand *s, const struct layout *out, double reach)
{
    uint64_t chance = s->ask.seed + 1;
    struct shape_box box = shape_box(&s->cover);
    for (int i = 0; i < 1500; i++) {
        struct point p = { box.west + chance_unit(&chance) * (box.east - box.west),
                           box.south + chance_unit(&chance) * (box.north - box.south) };
        if (!shape_has(&s->cover, p) || shape_has(&s->keep, p))
            continue;
        double d = fmin(shape_distance(&out->openings, p, NULL),
                        shape_distance(&out->trails, p, NULL));
        assert_true(d <= reach + 0.5);
    }
}

static bool lacks(const struct layout *out, enum layout_what ask)
{
    for (size_t i = 0; i < out->trouble_count; i++)
        if (out->troubles[i].ask == ask)
            return true;
    return false;
}

/* The check of mapped layouts has nothing against it. Each opening is a shape there. */
static void check_as_if_mapped(const struct stand *s, const struct layout *out)
{
    enum { MOST = 16 };
    struct shape openings[MOST] = { 0 };
    const struct shape *list[MOST], *keep = &s->keep;
    struct shape ground = { .kind = SHAPE_AREAS }; /* the stand less its wet spot */
    struct net_trail trails = { &out->trails, s->ask.trail_width };
    struct net_exit exits[STAND_EXITS];
    struct routes_shun shun = { &s->road, s->shun.least, s->shun.least };
    struct routes found;
    size_t count = out->openings.part_count;
    assert_true(count <= MOST);
    assert_true(shape_copy(&s->cover, &ground, &fault));
    assert_true(shape_add_part(&ground, keep->points, keep->point_count, true, &fault));
    for (size_t i = 0; i < count; i++) {
        size_t corners;
        const struct point *rim = part_of(&out->openings, i, &corners);
        openings[i].kind = SHAPE_AREAS;
        assert_true(shape_add_part(&openings[i], rim, corners, false, &fault));
        list[i] = &openings[i];
    }
    for (size_t i = 0; i < s->ask.exit_count; i++)
        exits[i] = (struct net_exit){ s->exits[i].line, 0 };
    struct routes_ask ask = {
        .net = { .trails = &trails, .trail_count = 1, .openings = list,
                 .opening_count = count, .exits = exits, .exit_count = s->ask.exit_count,
                 .snap = 2 },
        .cover = &ground, .shuns = &shun, .shun_count = 1, .keep_outs = &keep,
        .keep_out_count = 1, .ways_out = s->ask.ways_out, .reach = s->ask.reach,
        .sight = s->ask.sight };
    assert_true(routes_check(&ask, &found, &fault));
    if (!lacks(out, LAYOUT_WAYS_OUT))
        assert_int_equal(found.short_of_ways, 0);
    else
        assert_true(found.short_of_ways > 0);
    assert_int_equal(found.dead_ends.count, 0);
    assert_int_equal(found.near.count, 0);
    assert_int_equal(found.through.count, 0);
    if (!lacks(out, LAYOUT_SIGHT))
        assert_int_equal(found.sights.count, 0);
    if (!lacks(out, LAYOUT_REACH))
        assert_true(found.farthest.distance <= s->ask.reach + 0.5);
    routes_free(&found);
    shape_free(&ground);
    for (size_t i = 0; i < count; i++)
        shape_free(&openings[i]);
}

/* Every ask is met, or said to fail: looked at again from the shapes alone. */
static void layouts_keep_to_what_was_asked(void **state)
{
    (void)state;
    uint64_t chance = 42;
    int met = 0, all = 150, crowded = 0, pairs = 0;
    for (int n = 0; n < all; n++) {
        struct stand s;
        struct layout out;
        size_t exits = 2 + chance_below(&chance, 3);
        assert_true(stand_make(&s, 3 + 12 * chance_unit(&chance), exits,
                               1000 + (uint64_t)n, &fault));
        s.ask.count = 2 + chance_below(&chance, 6);
        s.ask.ways_out = 2 + chance_below(&chance, exits > 2 ? 2 : 1);
        s.ask.reach = 160 + 60 * chance_unit(&chance);
        s.ask.sight = 60 + 60 * chance_unit(&chance);
        s.ask.candidates = 2;
        assert_true(layout_design(&s.ask, &out, &fault));
        check_openings(&s, &out);
        for (size_t i = 0; i < out.trails.part_count; i++) {
            check_trail(&s, &out, i);
            if (n % 3 == 0 && !lacks(&out, LAYOUT_SIGHT))
                assert_true(longest_sight(&out, i, s.ask.trail_width) <=
                            s.ask.sight + 1e-6);
            for (size_t j = 0; j < i; j++) {
                double both = fmax(shared(&s, &out, i, j), shared(&s, &out, j, i));
                pairs++;
                crowded += both > 4 * s.ask.trail_width;
            }
        }
        if (!lacks(&out, LAYOUT_COUNT))
            assert_int_equal(out.openings.part_count, s.ask.count);
        uint8_t gone[256] = { 0 };
        for (size_t i = 0; i < out.openings.part_count && !lacks(&out, LAYOUT_WAYS_OUT);
             i++)
            assert_int_equal(
                routes(&out, gone, 0, 0, (long)i, (long)i, (int)s.ask.ways_out),
                s.ask.ways_out);
        if (!lacks(&out, LAYOUT_REACH))
            check_reach(&s, &out, s.ask.reach);
        check_as_if_mapped(&s, &out);
        met += out.trouble_count == 0;
        layout_free(&out);
        stand_free(&s);
    }
    print_message("%d of %d stands met all asks; %d of %d pairs of trails share ground\n",
                  met, all, crowded, pairs);
    assert_true(met > all * 9 / 10);
    assert_int_equal(crowded, 0);
}

static bool same_shape(const struct shape *a, const struct shape *b)
{
    return a->point_count == b->point_count && a->part_count == b->part_count &&
           memcmp(a->points, b->points, a->point_count * sizeof *a->points) == 0;
}

static void the_seed_is_all_the_chance_there_is(void **state)
{
    (void)state;
    struct stand s;
    struct layout one, again, other;
    assert_true(stand_make(&s, 8, 3, 5, &fault));
    s.ask.count = 6;
    s.ask.sight = 75;
    s.ask.candidates = 0;
    assert_true(layout_design(&s.ask, &one, &fault));
    assert_true(layout_design(&s.ask, &again, &fault));
    s.ask.seed = 6;
    assert_true(layout_design(&s.ask, &other, &fault));
    assert_true(same_shape(&one.openings, &again.openings));
    assert_true(same_shape(&one.trails, &again.trails));
    assert_false(same_shape(&one.openings, &other.openings));
    assert_int_equal(one.score_count, 3);
    for (size_t i = 0; i < 3; i++) {
        assert_true(one.scores[one.best].failed <= one.scores[i].failed);
        if (one.scores[one.best].failed == one.scores[i].failed)
            assert_true(one.scores[one.best].cost <= one.scores[i].cost);
    }
    layout_free(&one);
    layout_free(&again);
    layout_free(&other);
    stand_free(&s);
}

static void a_share_and_a_spacing_give_the_count(void **state)
{
    (void)state;
    struct stand s;
    struct layout out;
    assert_true(stand_make(&s, 10, 3, 9, &fault));
    double ground = shape_area(&s.cover) - shape_area(&s.keep);
    s.ask.count = 0;
    s.ask.share = 0.04;
    assert_true(layout_design(&s.ask, &out, &fault));
    double share = shape_area(&out.openings) / ground;
    assert_true(fabs(share - 0.04) < 0.003);
    layout_free(&out);
    s.ask.share = 0;
    s.ask.spacing = 180;
    assert_true(layout_design(&s.ask, &out, &fault));
    size_t count = out.openings.part_count;
    /* At the loosest such points leave room for no other, 180 ft off all; at the closest
     * they lie in rows of triangles. */
    assert_true((double)count > 0.4 * ground / (180 * 180));
    assert_true((double)count < 1.16 * ground / (180 * 180));
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < i; j++)
            assert_true(apart(out.centers[i], out.centers[j]) >= 180 - 1e-6);
    layout_free(&out);
    stand_free(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(layouts_keep_to_what_was_asked),
        cmocka_unit_test(the_seed_is_all_the_chance_there_is),
        cmocka_unit_test(a_share_and_a_spacing_give_the_count),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
