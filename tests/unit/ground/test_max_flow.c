/* Routes that share nothing, against every set of routes there is. */
#include "drawn.h"

#include "ground/max_flow.h"

enum { PLACES = 7, EDGES_MOST = 11, ROUTES_MOST = 4000, GRAPHS = 4000 };

struct graph {
    size_t a[EDGES_MOST], b[EDGES_MOST], count;
    bool one_way[EDGES_MOST];
};

/* Every route from 0 to the last place that comes to no place twice, as the set of edges
 * it takes; and of places between, when they count. */
struct routes {
    unsigned long sets[ROUTES_MOST];
    size_t count;
};

static void walk(const struct graph *g, size_t at, unsigned places, unsigned long edges,
                 bool apart, struct routes *out)
{
    if (at == PLACES - 1) {
        unsigned long between = apart ? places & ~1u & ~(1u << (PLACES - 1)) : 0;
        assert_true(out->count < ROUTES_MOST);
        out->sets[out->count++] = edges | between << EDGES_MOST;
        return;
    }
    for (size_t i = 0; i < g->count; i++)
        for (int back = 0; back < 2; back++) {
            size_t from = back ? g->b[i] : g->a[i], to = back ? g->a[i] : g->b[i];
            if (from == at && !(back && g->one_way[i]) && !(places >> to & 1))
                walk(g, to, places | 1u << to, edges | 1ul << i, apart, out);
        }
}

static size_t most_apart(const struct routes *r, size_t from, unsigned long taken,
                         size_t enough)
{
    size_t best = 0;
    for (size_t i = from; i < r->count && best < enough; i++)
        if (!(r->sets[i] & taken)) {
            size_t found = 1 + most_apart(r, i + 1, taken | r->sets[i], enough - 1);
            best = found > best ? found : best;
        }
    return best;
}

static void draw(struct graph *g, unsigned *seed)
{
    g->count = 3 + drawn_chance(seed) % (EDGES_MOST - 2);
    for (size_t i = 0; i < g->count; i++) {
        g->a[i] = drawn_chance(seed) % PLACES;
        g->b[i] = drawn_chance(seed) % PLACES;
        g->one_way[i] = drawn_chance(seed) % 4 == 0;
    }
}

static bool reached_without_cut(const struct graph *g, const struct max_flow *fl)
{
    unsigned seen = 1;
    for (size_t round = 0; round < PLACES; round++)
        for (size_t i = 0; i < g->count; i++) {
            if (max_flow_cuts(fl, i))
                continue;
            if (seen >> g->a[i] & 1)
                seen |= 1u << g->b[i];
            if (!g->one_way[i] && seen >> g->b[i] & 1)
                seen |= 1u << g->a[i];
        }
    return seen >> (PLACES - 1) & 1;
}

static void most_against_all_sets(void **state)
{
    (void)state;
    unsigned seed = 3;
    size_t seen[5] = { 0 };
    for (int n = 0; n < GRAPHS; n++) {
        struct fault f = { .id = NULL };
        struct graph g;
        struct routes all = { .count = 0 };
        draw(&g, &seed);
        struct max_flow *fl = max_flow_new(PLACES, &f);
        assert_non_null(fl);
        for (size_t i = 0; i < g.count; i++)
            assert_true(max_flow_add(fl, g.a[i], g.b[i], 1, !g.one_way[i], &f));
        size_t found = max_flow_most(fl, 0, PLACES - 1), cut = 0;
        walk(&g, 0, 1, 0, false, &all);
        assert_int_equal(found, most_apart(&all, 0, 0, 12));
        for (size_t i = 0; i < g.count; i++)
            cut += max_flow_cuts(fl, i);
        assert_int_equal(cut, found);
        assert_false(reached_without_cut(&g, fl));
        assert_int_equal(max_flow_most(fl, 0, PLACES - 1), found);
        seen[found < 4 ? found : 4]++;
        max_flow_free(fl);
    }
    for (int i = 0; i < 4; i++)
        assert_true(seen[i] > 50);
}

/* A place that only one route may pass is two with room for one between. */
static void places_against_all_sets(void **state)
{
    (void)state;
    unsigned seed = 11;
    for (int n = 0; n < GRAPHS; n++) {
        struct fault f = { .id = NULL };
        struct graph g;
        struct routes all = { .count = 0 };
        draw(&g, &seed);
        struct max_flow *fl = max_flow_new(2 * PLACES, &f);
        for (size_t i = 0; i < PLACES; i++)
            assert_true(max_flow_add(fl, 2 * i, 2 * i + 1, 1, 0, &f));
        for (size_t i = 0; i < g.count; i++) {
            assert_true(max_flow_add(fl, 2 * g.a[i] + 1, 2 * g.b[i], 1, 0, &f));
            if (!g.one_way[i])
                assert_true(max_flow_add(fl, 2 * g.b[i] + 1, 2 * g.a[i], 1, 0, &f));
        }
        walk(&g, 0, 1, 0, true, &all);
        assert_int_equal(max_flow_most(fl, 1, 2 * (PLACES - 1)),
                         most_apart(&all, 0, 0, 12));
        max_flow_free(fl);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(most_against_all_sets),
        cmocka_unit_test(places_against_all_sets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
