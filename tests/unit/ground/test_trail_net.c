/* Trails joined to a net, ways out and dead ends: drawn by hand, and by chance against
 * every set of routes. */
#include "drawn.h"

#include <stdlib.h>
#include <string.h>

#include "ground/dead_ends.h"
#include "ground/ways.h"

struct layout {
    struct shape trails[40], openings[12], exits[8];
    size_t trail_count, opening_count, exit_count;
    struct net_trail net_trails[40];
    const struct shape *net_openings[12];
    struct net_exit net_exits[8];
    double snap, apart;
};

struct checked {
    struct trail_net net;
    struct ways ways, apart;
    struct dead_end_list dead_ends;
};

static void trail(struct layout *l, const double *xy, size_t count)
{
    struct shape *s = &l->trails[l->trail_count++];
    s->kind = SHAPE_LINES;
    drawn_part(s, xy, count);
}

#define TRAIL(l, ...)                         \
    trail(l, (const double[]){ __VA_ARGS__ }, \
          sizeof((const double[]){ __VA_ARGS__ }) / sizeof(double) / 2)

static void opening(struct layout *l, double x, double y, double half)
{
    drawn_square(&l->openings[l->opening_count++], x, y, half);
}

static void exit_line(struct layout *l, double x, double y, double u, double v)
{
    struct shape *s = &l->exits[l->exit_count++];
    s->kind = SHAPE_LINES;
    DRAW(s, x, y, u, v);
}

static void exit_point(struct layout *l, double x, double y)
{
    struct shape *s = &l->exits[l->exit_count++];
    s->kind = SHAPE_POINTS;
    DRAW(s, x, y);
}

static struct checked check(struct layout *l)
{
    struct fault f = { .id = NULL };
    struct checked c;
    for (size_t i = 0; i < l->trail_count; i++)
        l->net_trails[i] = (struct net_trail){ &l->trails[i], 6 };
    for (size_t i = 0; i < l->opening_count; i++)
        l->net_openings[i] = &l->openings[i];
    for (size_t i = 0; i < l->exit_count; i++)
        l->net_exits[i] = (struct net_exit){ &l->exits[i], l->apart };
    struct net_ask ask = { l->net_trails,
                           l->net_openings,
                           l->net_exits,
                           l->trail_count,
                           l->opening_count,
                           l->exit_count,
                           l->snap > 0 ? l->snap : NET_SNAP };
    assert_true(trail_net_build(&ask, &c.net, &f));
    struct one_ground ground;
    assert_true(ways_ground(&c.net, &ground, &f));
    assert_true(ways_find(&c.net, &ground, l->opening_count, false, &c.ways, &f));
    assert_true(ways_find(&c.net, &ground, l->opening_count, true, &c.apart, &f));
    one_ground_free(&ground);
    assert_true(dead_ends_find(&c.net, &c.dead_ends, &f));
    for (size_t i = 0; i < l->opening_count; i++) {
        assert_int_equal(c.ways.openings[i].count, c.ways.openings[i].routes);
        assert_int_equal(c.apart.openings[i].count, c.apart.openings[i].routes);
        assert_true(c.apart.openings[i].routes <= c.ways.openings[i].routes);
    }
    return c;
}

static void finish(struct layout *l, struct checked *c)
{
    trail_net_free(&c->net);
    ways_free(&c->ways);
    ways_free(&c->apart);
    free(c->dead_ends.list);
    for (size_t i = 0; i < l->trail_count; i++)
        shape_free(&l->trails[i]);
    for (size_t i = 0; i < l->opening_count; i++)
        shape_free(&l->openings[i]);
    for (size_t i = 0; i < l->exit_count; i++)
        shape_free(&l->exits[i]);
    *l = (struct layout){ .snap = 0 };
}

/* A ring with an opening on it and two ways off it. */
static void ring(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    TRAIL(&l, 0, 0, 300, 0, 300, 300, 0, 300, 0, 0);
    TRAIL(&l, 300, 150, 500, 150);
    TRAIL(&l, 4, 150, -200, 150);
    opening(&l, 150, 0, 30);
    exit_line(&l, 500, 0, 500, 400);
    exit_line(&l, -200, 0, -200, 400);
    struct checked c = check(&l);
    assert_int_equal(c.ways.openings[0].routes, 2);
    assert_int_equal(c.apart.openings[0].routes, 2);
    assert_int_equal(c.dead_ends.count, 0);
    assert_int_equal(c.net.outlet_count, 2);
    finish(&l, &c);
}

/* A comb: a back with three teeth, of which two lead out. */
static void comb(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    TRAIL(&l, 0, 0, 600, 0);
    TRAIL(&l, 100, 2, 100, 200);
    TRAIL(&l, 300, -3, 300, 150);
    TRAIL(&l, 600, 5, 600, 200);
    opening(&l, -20, 0, 20);
    exit_line(&l, 50, 200, 150, 200);
    exit_line(&l, 550, 200, 650, 200);
    struct checked c = check(&l);
    assert_int_equal(c.dead_ends.count, 1);
    assert_near(c.dead_ends.list[0].at.x, 300, 1e-9);
    assert_near(c.dead_ends.list[0].at.y, 150, 1e-9);
    assert_near(c.dead_ends.list[0].length, 150, 1e-9);
    assert_false(c.dead_ends.list[0].loop);
    assert_false(c.dead_ends.list[0].alone);
    /* One trail leaves the opening: it is what holds the ways to one. */
    assert_int_equal(c.ways.openings[0].routes, 1);
    struct ways_cut cut = c.ways.cuts[c.ways.openings[0].first];
    assert_int_equal(cut.kind, WAYS_STRETCH);
    const struct net_stretch *s = &c.net.stretches[cut.index];
    assert_int_equal(s->trail, 0);
    assert_near(s->from, 0, 1e-9);
    assert_near(s->to, 100, 1e-9);
    finish(&l, &c);
}

/* Two openings that share a bridge to two exits. */
static void shared_bridge(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    opening(&l, 0, 100, 25);
    opening(&l, 0, -100, 25);
    TRAIL(&l, 0, 75, 0, -75);
    TRAIL(&l, 25, 100, 200, 0);
    TRAIL(&l, 25, -100, 200, 0);
    TRAIL(&l, 200, 0, 300, 0);
    TRAIL(&l, 300, 0, 500, 200);
    TRAIL(&l, 300, 0, 500, -200);
    exit_point(&l, 500, 200);
    exit_point(&l, 500, -200);
    struct checked c = check(&l);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(c.ways.openings[i].routes, 1);
        struct ways_cut cut = c.ways.cuts[c.ways.openings[i].first];
        assert_int_equal(cut.kind, WAYS_STRETCH);
        assert_int_equal(c.net.stretches[cut.index].trail, 3);
        cut = c.apart.cuts[c.apart.openings[i].first];
        assert_int_equal(cut.kind, WAYS_JUNCTION);
        assert_near(c.net.nodes[cut.index].at.x, 200, 1e-9);
    }
    assert_int_equal(c.dead_ends.count, 0);
    finish(&l, &c);
}

/* Two trails that cross: routes may share the crossing, not when they are to be apart. */
static void crossing(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    opening(&l, 0, 0, 20);
    TRAIL(&l, 20, 10, 100, 60, 200, -60, 300, 0);
    TRAIL(&l, 20, -10, 100, -60, 200, 60, 300, 200);
    exit_point(&l, 300, 0);
    exit_point(&l, 300, 200);
    struct checked c = check(&l);
    assert_int_equal(c.net.stretch_count, 4);
    assert_int_equal(c.ways.openings[0].routes, 2);
    assert_int_equal(c.apart.openings[0].routes, 1);
    struct ways_cut cut = c.apart.cuts[c.apart.openings[0].first];
    assert_int_equal(cut.kind, WAYS_JUNCTION);
    assert_near(c.net.nodes[cut.index].at.x, 150, 1e-9);
    assert_near(c.net.nodes[cut.index].at.y, 0, 1e-9);
    finish(&l, &c);
}

/* One trail through two openings, as one line: three stretches, no ends in openings. */
static void through_openings(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    opening(&l, 100, 0, 25);
    opening(&l, 300, 0, 25);
    TRAIL(&l, 0, 0, 100, 3, 100, -3, 400, 0);
    exit_point(&l, 0, 0);
    exit_point(&l, 400, 0);
    struct checked c = check(&l);
    assert_int_equal(c.net.stretch_count, 3);
    assert_int_equal(c.dead_ends.count, 0);
    assert_int_equal(c.ways.openings[0].routes, 2);
    assert_int_equal(c.ways.openings[1].routes, 2);
    double length = 0;
    for (size_t i = 0; i < 3; i++)
        length += c.net.stretches[i].length;
    assert_near(length, 400 - 100, 0.3);
    finish(&l, &c);
}

/* Too few exits, rather than trails, hold it; a long exit counts by its outlets. */
static void one_long_exit(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    opening(&l, 0, 0, 30);
    TRAIL(&l, 30, 0, 200, 0);
    TRAIL(&l, 0, 30, 0, 100, 200, 100);
    TRAIL(&l, 0, -30, 0, -40, 200, -40);
    exit_line(&l, 200, -500, 200, 500);
    struct checked c = check(&l);
    assert_int_equal(c.ways.openings[0].routes, 1);
    struct ways_cut cut = c.ways.cuts[c.ways.openings[0].first];
    assert_int_equal(cut.kind, WAYS_OUTLET);
    assert_int_equal(c.net.outlets[cut.index].exit, 0);
    trail_net_free(&c.net);
    ways_free(&c.ways);
    ways_free(&c.apart);
    free(c.dead_ends.list);
    l.apart = 100;
    c = check(&l);
    assert_int_equal(c.net.outlet_count, 2);
    assert_int_equal(c.ways.openings[0].routes, 2);
    finish(&l, &c);
}

/* Tracks walked twice with a phone are one way; there and back is a dead end. */
static void walked_twice(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    opening(&l, 0, 0, 20);
    TRAIL(&l, 20, 0, 60, 3, 120, -2, 180, 2, 240, 0);
    TRAIL(&l, 20, 1, 60, -2, 120, 3, 180, -4, 240, 1);
    exit_point(&l, 240, 0);
    TRAIL(&l, 0, 20, 2, 80, -2, 140, 0, 200, 3, 140, -3, 80, 2, 18);
    struct checked c = check(&l);
    assert_int_equal(c.ways.openings[0].routes, 1);
    assert_int_equal(c.dead_ends.count, 1);
    assert_near(c.dead_ends.list[0].at.y, 200, 1e-9);
    assert_near(c.dead_ends.list[0].length, 180, 1);
    finish(&l, &c);
}

/* A trail drawn exactly over part of another, and one back over itself. */
static void drawn_over(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    opening(&l, 0, 0, 20);
    TRAIL(&l, 20, 0, 100, 0, 200, 0, 300, 100);
    TRAIL(&l, 60, 0, 150, 0, 200, 0, 300, -100);
    TRAIL(&l, 0, 20, 0, 120, 0, 20);
    exit_point(&l, 300, 100);
    exit_point(&l, 300, -100);
    struct checked c = check(&l);
    assert_int_equal(c.ways.openings[0].routes, 1);
    assert_int_equal(c.dead_ends.count, 1);
    assert_near(c.dead_ends.list[0].at.y, 120, 1e-9);
    assert_near(c.dead_ends.list[0].length, 100, 0.02);
    finish(&l, &c);
}

static void nowhere(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    TRAIL(&l, 0, 0, 200, 0);                               /* joined to nothing */
    TRAIL(&l, 0, 500, 100, 500, 100, 600, 0, 600, 0, 500); /* a ring, neither */
    opening(&l, 1000, 0, 20);
    TRAIL(&l, 1020, 0, 1200, 0); /* a loop at its end */
    TRAIL(&l, 1200, 0, 1300, 80, 1300, -80, 1200, 0);
    struct checked c = check(&l);
    assert_int_equal(c.dead_ends.count, 4);
    assert_int_equal(c.ways.openings[0].routes, 0);
    double ring_length = 400, loop = 160 + 2 * hypot(100, 80);
    int alone = 0, loops = 0;
    for (size_t i = 0; i < 4; i++) {
        const struct dead_end *d = &c.dead_ends.list[i];
        alone += d->alone;
        loops += d->loop;
        if (d->loop && d->alone)
            assert_near(d->length, ring_length, 1e-9);
        else if (d->loop)
            assert_near(d->length, 180 + loop, 1e-9);
        else
            assert_near(d->length, 200, 1e-9);
    }
    assert_int_equal(alone, 3);
    assert_int_equal(loops, 2);
    finish(&l, &c);
}

/* How near is near enough: 9 ft is joined at a snap of 10, 11 ft is not. */
static void snapping(void **state)
{
    (void)state;
    for (int near = 0; near < 2; near++) {
        struct layout l = { .snap = 10 };
        double gap = near ? 9 : 11;
        opening(&l, 0, 0, 20);
        TRAIL(&l, 20 + gap, 0, 200, 0);
        TRAIL(&l, 100, gap, 100, 200);
        TRAIL(&l, 200 + gap, 0, 400, 0);
        exit_line(&l, 50, 200 + gap, 150, 200 + gap);
        exit_point(&l, 400 + gap, 0);
        struct checked c = check(&l);
        assert_int_equal(c.dead_ends.count, near ? 0 : 6);
        assert_int_equal(c.net.outlet_count, near ? 2 : 0);
        assert_int_equal(c.ways.openings[0].routes, near ? 1 : 0);
        finish(&l, &c);
    }
}

/* An opening at an exit is there already, whatever trails do. */
static void opening_at_exit(void **state)
{
    (void)state;
    struct layout l = { .snap = 0 };
    opening(&l, 0, 0, 20);
    TRAIL(&l, 20, 0, 200, 0);
    exit_line(&l, -25, -100, -25, 100);
    exit_point(&l, 200, 0);
    struct checked c = check(&l);
    assert_int_equal(c.ways.openings[0].routes, 2);
    finish(&l, &c);
}

/* Nets by chance: a lattice of places 200 ft apart, some stretches between neighbours,
 * both diagonals of some squares (which cross), some places openings, some exits. */
enum {
    SIDE = 3,
    PLACES = SIDE * SIDE,
    CROSSINGS = 4,
    NODES = PLACES + CROSSINGS,
    EDGES_MOST = 13,
    ROUTES_MOST = 60000,
    NETS = 3000
};

struct brute {
    size_t a[EDGES_MOST], b[EDGES_MOST], count;
    bool opening[NODES], exit[NODES];
    unsigned long long sets[ROUTES_MOST];
    size_t set_count;
};

static void walk(struct brute *g, size_t at, unsigned nodes, unsigned long long edges,
                 bool apart)
{
    if (g->exit[at]) {
        /* It may end here or go on past it; another may not use this exit, nor, apart,
         * any node between. */
        unsigned long long used = apart ? nodes : 1u << at;
        assert_true(g->set_count < ROUTES_MOST);
        g->sets[g->set_count++] = edges << NODES | used;
    }
    for (size_t i = 0; i < g->count; i++) {
        if (g->a[i] != at && g->b[i] != at)
            continue;
        size_t to = g->a[i] == at ? g->b[i] : g->a[i];
        if (!(nodes >> to & 1))
            walk(g, to, nodes | 1u << to, edges | 1ull << i, apart);
    }
}

static size_t most_apart(const struct brute *g, size_t from, unsigned long long taken,
                         size_t enough)
{
    size_t best = 0;
    for (size_t i = from; i < g->set_count && best < enough; i++)
        if (!(g->sets[i] & taken)) {
            size_t found = 1 + most_apart(g, i + 1, taken | g->sets[i], enough - 1);
            best = found > best ? found : best;
        }
    return best;
}

static size_t brute_routes(struct brute *g, size_t from, bool apart)
{
    g->set_count = 0;
    walk(g, from, 1u << from, 0, apart);
    for (size_t i = 0; i < g->set_count; i++)
        g->sets[i] &= ~(1ull << from);
    return most_apart(g, 0, 0, 8);
}

static void brute_edge(struct brute *g, size_t a, size_t b)
{
    g->a[g->count] = a;
    g->b[g->count++] = b;
}

static void line_between(struct layout *l, unsigned *seed, const struct point *at,
                         size_t a, size_t b, double bend)
{
    struct point p = at[a], q = at[b];
    /* An end may fall a little short, or be drawn the other way. */
    double t = drawn_between(seed, 0, 3.5) / 200;
    struct point end = { q.x + t * (p.x - q.x), q.y + t * (p.y - q.y) };
    struct point middle = { (p.x + q.x) / 2 + bend, (p.y + q.y) / 2 - bend };
    if (drawn_chance(seed) % 2)
        TRAIL(l, p.x, p.y, middle.x, middle.y, end.x, end.y);
    else
        TRAIL(l, end.x, end.y, middle.x, middle.y, p.x, p.y);
}

static void draw_net(struct layout *l, struct brute *g, unsigned *seed,
                     size_t opening_of[12])
{
    struct point at[PLACES];
    *l = (struct layout){ .snap = 0 };
    memset(g, 0, offsetof(struct brute, sets));
    for (size_t i = 0; i < PLACES; i++) {
        at[i] = (struct point){ 200.0 * (double)(i % SIDE), 200.0 * (double)(i / SIDE) };
        unsigned what = drawn_chance(seed) % 8;
        if (what < 2 && l->opening_count < 4) {
            g->opening[i] = true;
            opening_of[l->opening_count] = i;
            opening(l, at[i].x, at[i].y, 20);
        } else if (what < 5 && l->exit_count < 5) {
            g->exit[i] = true;
            exit_point(l, at[i].x, at[i].y);
        }
    }
    for (size_t i = 0; i < PLACES; i++)
        for (int down = 0; down < 2; down++) {
            size_t to = down ? i + SIDE : i + 1;
            bool there = down ? to < PLACES : i % SIDE + 1 < SIDE;
            if (!there || g->count >= EDGES_MOST - 4 || drawn_chance(seed) % 10 > 6)
                continue;
            line_between(l, seed, at, i, to, drawn_between(seed, -20, 20));
            brute_edge(g, i, to);
        }
    for (size_t k = 0; k < CROSSINGS && g->count + 4 <= EDGES_MOST; k++) {
        size_t i = k / 2 * SIDE + k % 2;
        if (drawn_chance(seed) % 3)
            continue;
        line_between(l, seed, at, i, i + SIDE + 1, 0);
        line_between(l, seed, at, i + 1, i + SIDE, 0);
        brute_edge(g, i, PLACES + k);
        brute_edge(g, PLACES + k, i + SIDE + 1);
        brute_edge(g, i + 1, PLACES + k);
        brute_edge(g, PLACES + k, i + SIDE);
    }
}

/* Places on no way between two ends that lead somewhere: taken away leaf by leaf. */
static size_t brute_dead_ends(const struct brute *g)
{
    size_t count = 0;
    for (size_t i = 0; i < NODES; i++) {
        size_t edges = 0;
        for (size_t k = 0; k < g->count; k++)
            edges += g->a[k] == i || g->b[k] == i;
        count += edges == 1 && !g->opening[i] && !g->exit[i];
    }
    return count;
}

static void by_chance(void **state)
{
    (void)state;
    static struct layout l;
    static struct brute g;
    unsigned seed = 29;
    size_t seen[5] = { 0 }, fewer_apart = 0, ends = 0;
    for (int n = 0; n < NETS; n++) {
        size_t opening_of[12], plain_ends = 0;
        draw_net(&l, &g, &seed, opening_of);
        struct checked c = check(&l);
        for (size_t i = 0; i < l.opening_count; i++) {
            size_t routes = brute_routes(&g, opening_of[i], false);
            size_t apart = brute_routes(&g, opening_of[i], true);
            assert_int_equal(c.ways.openings[i].routes, routes);
            assert_int_equal(c.apart.openings[i].routes, apart);
            seen[routes < 4 ? routes : 4]++;
            fewer_apart += apart < routes;
        }
        for (size_t i = 0; i < c.dead_ends.count; i++)
            plain_ends += !c.dead_ends.list[i].loop;
        assert_int_equal(plain_ends, brute_dead_ends(&g));
        ends += plain_ends;
        finish(&l, &c);
    }
    for (int i = 0; i < 4; i++)
        assert_true(seen[i] > 100);
    assert_true(fewer_apart > 20 && ends > 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ring),
        cmocka_unit_test(comb),
        cmocka_unit_test(shared_bridge),
        cmocka_unit_test(crossing),
        cmocka_unit_test(through_openings),
        cmocka_unit_test(one_long_exit),
        cmocka_unit_test(walked_twice),
        cmocka_unit_test(drawn_over),
        cmocka_unit_test(nowhere),
        cmocka_unit_test(snapping),
        cmocka_unit_test(opening_at_exit),
        cmocka_unit_test(by_chance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
