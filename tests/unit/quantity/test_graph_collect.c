/* What is kept, what goes, and that nothing depends on when. */
#include "figures.h"
#include "graph_text.h"

#include <stdio.h>

static const struct origin nowhere = { { 0, 0, 0 }, NULL };

static void what_nothing_holds_goes_and_the_rest_stays(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 1, "ft"), b = figure(t, 2, "ft"), c = figure(t, 3, "ft");
    struct qty ab = graph_multiply(t->g, a, b, &t->f);
    graph_multiply(t->g, ab, c, &t->f);
    assert_int_equal(graph_nodes(t->g), 5);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 5); /* all held, also the one not kept here */
    graph_release(t->g, a);
    graph_release(t->g, c);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 5); /* parts of what is held */
    assert_string_equal(said(t, ab), "2 ft2");
    assert_string_equal(said(t, b), "2 ft");
}

static void a_released_quantity_lives_on_as_a_part(void **state)
{
    struct table *t = *state;
    struct qty hours = between(t, 2, 2.5, 3, "h", 11), rate = figure(t, 45, "USD/h");
    assert_true(graph_name(t->g, &hours, "hours", nowhere, &t->f));
    struct qty cost = graph_multiply(t->g, hours, rate, &t->f);
    graph_release(t->g, hours);
    graph_release(t->g, rate);
    for (int i = 0; i < 3; i++)
        graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 4);
    const struct node *n = graph_node(t->g, graph_node_of(t->g, cost));
    assert_string_equal(graph_node_name(t->g, n->a), "hours");
    assert_int_equal(graph_range_of(t->g, graph_node(t->g, n->a)->a).key, 11);
    graph_release(t->g, cost);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 0);
}

static void holds_are_counted_one_by_one(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 1, "ft"), again = graph_hold(t->g, a, &t->f);
    assert_int_not_equal(a.slot, again.slot);
    graph_release(t->g, a);
    graph_collect(t->g);
    assert_string_equal(said(t, again), "1 ft");
    graph_release(t->g, again);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 0);
}

static void a_scope_releases_all_but_what_it_keeps(void **state)
{
    struct table *t = *state;
    struct qty before = figure(t, 1, "ft");
    uint32_t outer = graph_scope_open(t->g);
    struct qty kept = figure(t, 2, "ft"), gone = figure(t, 3, "ft");
    uint32_t inner = graph_scope_open(t->g);
    struct qty sum = graph_add(t->g, kept, gone, &t->f);
    struct qty held = graph_hold(t->g, before, &t->f);
    graph_release(t->g, figure(t, 9, "ft"));
    struct qty keep[] = { sum, QTY_NONE, before };
    graph_scope_close(t->g, inner, keep, 3);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 4);
    assert_string_equal(said(t, sum), "5 ft");
    assert_int_equal(graph_node_of(t->g, held), NODE_NONE); /* its hold went, */
    assert_string_equal(said(t, before), "1 ft");           /* not the older one */
    graph_scope_close(t->g, outer, &kept, 1);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 2);
    assert_string_equal(said(t, kept), "2 ft");
    assert_string_equal(said(t, before), "1 ft");
    graph_scope_close(t->g, 0, NULL, 0);
    assert_string_equal(said(t, before), "1 ft");
}

static void closing_an_outer_scope_closes_what_is_open_in_it(void **state)
{
    struct table *t = *state;
    uint32_t outer = graph_scope_open(t->g);
    figure(t, 1, "ft");
    graph_scope_open(t->g);
    figure(t, 2, "ft");
    graph_scope_close(t->g, outer, NULL, 0);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 0);
}

static double mean_of(const double *x, const double *with)
{
    return with[0] * (x[0] + x[1]) / 2;
}

static const struct formula mean = { "mean", mean_of };

static struct qty make_shared(struct table *t, uint32_t step, struct origin from)
{
    struct cause causes[6];
    size_t count = 1 + step % 6;
    for (size_t i = 0; i < count; i++)
        causes[i] = (struct cause){ (step + i * 3) % 7, 1 + (double)(step % 5) };
    return graph_shared(t->g, 1, 2 + step % 3, 9, unit_of(t, "ft"), causes, count, from,
                        &t->f);
}

static struct qty make_mean(struct table *t, struct qty a, struct qty b,
                            struct origin from)
{
    struct operand of[] = { { a, unit_of(t, "in"), "one" },
                            { b, unit_of(t, "ft"), NULL } };
    double with[] = { 0.25, 7, 8 };
    return graph_formula(t->g, &mean, with, 1 + from.at.at % 3, of, 2, unit_of(t, "ft"),
                         from, &t->f);
}

/* A random program over a pool; collected after every step when `often`. The same text
 * must come out either way. */
static void run_program(struct table *t, bool often, struct buf *out)
{
    enum { POOL = 12, STEPS = 6000 };
    struct qty pool[POOL];
    uint32_t seed = 99;
    for (int i = 0; i < POOL; i++)
        pool[i] = i % 2 ? figure(t, i + 1, "ft")
                        : between(t, i, i + 1, i + 3, "ft", (uint64_t)i + 1);
    for (uint32_t step = 0; step < STEPS; step++) {
        seed = seed * 1664525u + 1013904223u;
        uint32_t to = (seed >> 4) % POOL;
        struct qty a = pool[(seed >> 9) % POOL], b = pool[(seed >> 15) % POOL], c;
        struct origin from = { { 2, step % 50, 3 }, step % 7 ? NULL : "a table" };
        char name[24];
        snprintf(name, sizeof name, "name %u", step % 90);
        uint32_t mark = graph_scope_open(t->g);
        switch ((seed >> 21) % 17) {
        case 0:
            c = graph_leaf(t->g, step % 17, unit_of(t, "in"), from, &t->f);
            break;
        case 1:
            c = graph_range(t->g, 1, 2 + step % 3, 9, unit_of(t, "ft"), step, from,
                            &t->f);
            break;
        case 2:
            c = graph_subtract(t->g, a, b, &t->f);
            break;
        case 3:
            c = graph_min(t->g, a, b, &t->f);
            break;
        case 4:
            c = graph_ceil(t->g, a, unit_of(t, "ft"), &t->f);
            break;
        case 5:
            c = graph_say_in(t->g, a, unit_of(t, step % 2 ? "m" : "ft"), &t->f);
            break;
        case 6:
            c = graph_scale(t->g, a, 0.5, &t->f);
            break;
        case 7:
            c = graph_hold(t->g, a, &t->f);
            assert_true(graph_name(t->g, &c, name, from, &t->f));
            break;
        case 9:
        case 10:
            c = make_shared(t, step, from);
            break;
        case 11:
            c = make_mean(t, a, b, from);
            break;
        case 8:
            c = graph_sum(t->g, pool, POOL, &t->f);
            break;
        default: /* mostly running sums, which share their terms */
            c = graph_add(t->g, pool[to], b, &t->f);
        }
        assert_true(qty_is(c));
        if (graph_value_in(t->g, c, unit_of(t, "ft")) > 1e6) {
            c = figure(t, 3, "ft");
        }
        graph_scope_close(t->g, mark, &c, 1);
        graph_release(t->g, pool[to]);
        pool[to] = c;
        if (often)
            graph_collect(t->g);
    }
    for (int i = 0; i < POOL; i++) {
        graph_text(t->g, graph_node_of(t->g, pool[i]), 5, out);
        buf_putc(out, '\n');
    }
}

static void nothing_depends_on_when_it_is_collected(void **state)
{
    struct table *t = *state;
    struct buf often, seldom;
    buf_init(&often);
    buf_init(&seldom);
    run_program(t, true, &often);
    graph_free(t->g);
    t->g = graph_new(t->u);
    run_program(t, false, &seldom);
    assert_false(often.failed || seldom.failed);
    assert_true(often.length > 1000);
    assert_string_equal(often.data, seldom.data);
    buf_clear(&often);
    buf_clear(&seldom);
}

/* The bytes that are told are the bytes that are held. */
static void bytes_are_told_truly(void **state)
{
    struct table *t = *state;
    struct buf out;
    run_program(t, false, (buf_init(&out), &out)); /* all units are there now */
    graph_free(t->g);
    size_t without = t->ledger.live;
    t->g = graph_new(t->u);
    assert_int_equal(t->ledger.live - without, graph_bytes(t->g));
    run_program(t, false, &out);
    assert_int_equal(t->ledger.live - without, graph_bytes(t->g));
    graph_collect(t->g);
    assert_int_equal(t->ledger.live - without, graph_bytes(t->g));
    buf_clear(&out);
}

enum { MANY = 1000000 };

static void assert_flat(struct table *t, struct qty x)
{
    assert_true(qty_is(x));
    assert_true(graph_bytes(t->g) < 400000);
    graph_collect(t->g);
    assert_true(graph_nodes(t->g) < 200);
}

static void a_running_sum_of_one_term_stays_flat(void **state)
{
    struct table *t = *state;
    struct qty x = figure(t, 0, "ft"), r = between(t, 1, 2, 3, "ft", 1);
    for (int i = 0; i < MANY; i++) {
        struct qty next = graph_add(t->g, x, r, &t->f);
        graph_release(t->g, x);
        x = next;
    }
    assert_true(graph_value_in(t->g, x, unit_of(t, "ft")) == 2.0 * MANY);
    assert_flat(t, x);
}

static void a_running_sum_of_new_terms_stays_flat(void **state)
{
    struct table *t = *state;
    struct qty x = figure(t, 0, "ft");
    struct unit_id ft = unit_of(t, "ft");
    for (int i = 0; i < MANY; i++) {
        /* One place in a script, a million times. */
        struct qty term = graph_leaf(
            t->g, i % 3, ft, (struct origin){ { 1, 70, 4 }, "price list" }, &t->f);
        struct qty next = graph_add(t->g, x, term, &t->f);
        graph_release(t->g, term);
        graph_release(t->g, x);
        x = next;
    }
    assert_true(graph_value_in(t->g, x, ft) == MANY - 1);
    assert_flat(t, x);
}

static void temporaries_stay_flat(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 1, "ft"), b = figure(t, 2, "ft"), c = figure(t, 3, "ft");
    for (int i = 0; i < MANY / 2; i++) {
        struct qty ab = graph_add(t->g, a, b, &t->f);
        struct qty abc = graph_add(t->g, ab, c, &t->f);
        struct qty area = graph_multiply(t->g, abc, a, &t->f);
        graph_release(t->g, ab);
        graph_release(t->g, abc);
        graph_release(t->g, area);
    }
    assert_flat(t, a);
}

static void new_names_and_places_without_end_stay_flat(void **state)
{
    struct table *t = *state;
    struct qty a = figure(t, 1, "ft");
    for (uint32_t i = 0; i < 100000; i++) {
        char name[32];
        snprintf(name, sizeof name, "cut %u", i);
        struct qty b = graph_leaf(t->g, 1, unit_of(t, "ft"),
                                  (struct origin){ { 1, i, 1 }, name }, &t->f);
        assert_true(graph_name(t->g, &b, name, nowhere, &t->f));
        graph_release(t->g, b);
    }
    assert_flat(t, a);
}

static void a_chain_of_a_million_collects_without_recursion(void **state)
{
    struct table *t = *state;
    struct qty x = figure(t, 1, "ft"), c = figure(t, 1, "");
    for (int i = 0; i < MANY; i++) {
        struct qty next = graph_multiply(t->g, x, c, &t->f);
        graph_release(t->g, x);
        x = next;
    }
    assert_int_equal(graph_nodes(t->g), MANY + 2);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), MANY + 2);
    assert_string_equal(said(t, x), "1 ft");
    graph_release(t->g, x);
    graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 1);
}

/* A script that keeps every step of a running sum: marking must not walk each from its
 * start. Without sharing this would be two thousand million terms. */
static void every_step_of_a_sum_may_be_kept(void **state)
{
    struct table *t = *state;
    struct qty x = figure(t, 0, "ft");
    for (uint64_t i = 0; i < 50000; i++) {
        struct qty leaf = between(t, 1, 2, 3, "ft", i);
        x = graph_add(t->g, x, leaf, &t->f);
        graph_release(t->g, leaf);
    }
    for (int i = 0; i < 20; i++)
        graph_collect(t->g);
    assert_int_equal(graph_nodes(t->g), 100001);
    assert_true(graph_bytes(t->g) < 20000000);
    assert_true(qty_is(x));
}

/* Few nodes but a long sum of them by turns: collecting walks the terms, so it must not
 * come round for every thousand nodes. */
static void a_sum_of_two_terms_by_turns_is_no_slower_for_its_length(void **state)
{
    struct table *t = *state;
    struct qty x = figure(t, 0, "ft");
    struct qty turns[2] = { between(t, 1, 2, 3, "ft", 1), between(t, 1, 3, 5, "ft", 2) };
    size_t collected = 0, nodes = 0;
    for (int i = 0; i < 300000; i++) {
        struct qty next = graph_add(t->g, x, turns[i % 2], &t->f);
        graph_release(t->g, x);
        x = next;
        collected += graph_nodes(t->g) <= nodes;
        nodes = graph_nodes(t->g);
    }
    assert_true(collected < 40);
    assert_true(graph_value_in(t->g, x, unit_of(t, "ft")) == 750000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(what_nothing_holds_goes_and_the_rest_stays),
        TABLE_TEST(a_released_quantity_lives_on_as_a_part),
        TABLE_TEST(holds_are_counted_one_by_one),
        TABLE_TEST(a_scope_releases_all_but_what_it_keeps),
        TABLE_TEST(closing_an_outer_scope_closes_what_is_open_in_it),
        TABLE_TEST(nothing_depends_on_when_it_is_collected),
        TABLE_TEST(bytes_are_told_truly),
        TABLE_TEST(a_running_sum_of_one_term_stays_flat),
        TABLE_TEST(a_running_sum_of_new_terms_stays_flat),
        TABLE_TEST(temporaries_stay_flat),
        TABLE_TEST(new_names_and_places_without_end_stay_flat),
        TABLE_TEST(a_chain_of_a_million_collects_without_recursion),
        TABLE_TEST(every_step_of_a_sum_may_be_kept),
        TABLE_TEST(a_sum_of_two_terms_by_turns_is_no_slower_for_its_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
