/* How sums keep their terms. */
#include "figures.h"

#include "quantity/graph_inner.h"

/* "1*3 -1*4 +2(16)": times and value of each term in feet, then the rest and its count.
 */
static const char *terms_of(struct table *t, struct qty a)
{
    uint32_t node = graph_node_of(t->g, a);
    struct term term;
    buf_clear(&t->text);
    assert_int_equal(graph_node(t->g, node)->op, OP_SUM);
    double total = 0;
    for (size_t i = 0; graph_term(t->g, node, i, &term); i++) {
        if (i)
            buf_putc(&t->text, ' ');
        if (term.node == NODE_NONE) {
            buf_printf(&t->text, "+%d(%d)", (int)(term.rest / 3048),
                       (int)term.rest_count);
            total += term.rest;
            continue;
        }
        double value = graph_node(t->g, term.node)->value;
        buf_printf(&t->text, "%d*%d", (int)term.times, (int)(value / 3048));
        total += term.times * value;
    }
    assert_true(total == graph_value(t->g, a)); /* whole numbers: exact */
    return t->text.data;
}

static struct qty feet(struct table *t, double value)
{
    return figure(t, value, "ft");
}

static struct qty plus(struct table *t, struct qty a, struct qty b)
{
    struct qty c = graph_add(t->g, a, b, &t->f);
    assert_true(qty_is(c));
    return c;
}

static void terms_stand_in_the_order_of_adding(void **state)
{
    struct table *t = *state;
    struct qty a = feet(t, 1), b = feet(t, 2), c = feet(t, 3), d = feet(t, 4);
    struct qty ab = plus(t, a, b), abc = plus(t, ab, c), abcd = plus(t, abc, d);
    assert_string_equal(terms_of(t, ab), "1*1 1*2");
    assert_string_equal(terms_of(t, abc), "1*1 1*2 1*3");
    assert_string_equal(terms_of(t, abcd), "1*1 1*2 1*3 1*4");
    struct qty less = graph_subtract(t->g, d, ab, &t->f);
    assert_string_equal(terms_of(t, less), "1*4 -1*1 -1*2");
    assert_string_equal(terms_of(t, graph_subtract(t->g, abc, less, &t->f)),
                        "1*1 1*2 1*3 -1*4 1*1 1*2");
    assert_string_equal(terms_of(t, graph_negate(t->g, a, &t->f)), "-1*1");
    assert_string_equal(terms_of(t, graph_subtract(t->g, a, a, &t->f)), "1*1 -1*1");
    assert_string_equal(
        terms_of(t, graph_sum(t->g, (struct qty[]){ d, ab, a }, 3, &t->f)),
        "1*4 1*1 1*2 1*1");
}

static void an_older_sum_is_not_changed_by_what_grows_out_of_it(void **state)
{
    struct table *t = *state;
    struct qty one = feet(t, 1), two = feet(t, 2), three = feet(t, 3);
    struct qty root = plus(t, plus(t, one, two), three);
    struct qty left = plus(t, root, feet(t, 4)), right = plus(t, root, feet(t, 5));
    struct qty far = plus(t, left, feet(t, 6)), near = plus(t, left, feet(t, 7));
    assert_string_equal(terms_of(t, root), "1*1 1*2 1*3");
    assert_string_equal(terms_of(t, left), "1*1 1*2 1*3 1*4");
    assert_string_equal(terms_of(t, right), "1*1 1*2 1*3 1*5");
    assert_string_equal(terms_of(t, far), "1*1 1*2 1*3 1*4 1*6");
    assert_string_equal(terms_of(t, near), "1*1 1*2 1*3 1*4 1*7");
}

static void the_same_last_term_is_counted(void **state)
{
    struct table *t = *state;
    struct qty a = feet(t, 1), r = feet(t, 2);
    struct qty x = plus(t, a, r), kept[4];
    for (int i = 2; i <= 1000; i++) {
        x = plus(t, x, r);
        if (i == 2 || i == 127 || i == 128 || i == 500)
            kept[i == 2 ? 0 : i == 127 ? 1 : i == 128 ? 2 : 3] = x;
    }
    assert_string_equal(terms_of(t, kept[0]), "1*1 2*2");
    assert_string_equal(terms_of(t, kept[1]), "1*1 127*2");
    assert_string_equal(terms_of(t, kept[2]), "1*1 128*2");
    assert_string_equal(terms_of(t, kept[3]), "1*1 500*2");
    assert_string_equal(terms_of(t, x), "1*1 1000*2");
    /* Going on from one of them leaves the others as they were. */
    struct qty y = plus(t, kept[3], feet(t, 3)), z = plus(t, x, feet(t, 4));
    assert_string_equal(terms_of(t, y), "1*1 500*2 1*3");
    assert_string_equal(terms_of(t, z), "1*1 1000*2 1*4");
    assert_string_equal(terms_of(t, kept[2]), "1*1 128*2");
    assert_string_equal(terms_of(t, plus(t, plus(t, r, r), r)), "3*2");
    struct qty minus = graph_subtract(t->g, graph_subtract(t->g, a, r, &t->f), r, &t->f);
    assert_string_equal(terms_of(t, minus), "1*1 -2*2");
}

static void certain_terms_past_64_are_kept_as_their_total(void **state)
{
    struct table *t = *state;
    struct qty x = feet(t, 0), range = between(t, 1, 2, 3, "ft", 1), named = feet(t, 9);
    assert_true(
        graph_name(t->g, &named, "nine", (struct origin){ { 0, 0, 0 }, NULL }, &t->f));
    for (int i = 1; i < 64; i++)
        x = plus(t, x, feet(t, i));
    struct term term;
    assert_true(graph_term(t->g, graph_node_of(t->g, x), 63, &term));
    assert_false(graph_term(t->g, graph_node_of(t->g, x), 64, &term));
    x = plus(t, x, feet(t, 100));
    x = graph_subtract(t->g, x, feet(t, 10), &t->f);
    struct qty before = x;
    x = plus(t, x, named);
    x = plus(t, x, range);
    x = plus(t, x, feet(t, 5));
    uint32_t node = graph_node_of(t->g, x);
    assert_true(graph_term(t->g, node, 64, &term));
    assert_string_equal(graph_node_name(t->g, term.node), "nine");
    assert_true(graph_term(t->g, node, 65, &term));
    assert_int_equal(graph_node(t->g, term.node)->op, OP_RANGE);
    assert_true(graph_term(t->g, node, 66, &term));
    assert_int_equal(term.node, NODE_NONE);
    assert_true(term.rest == 95 * 3048.0);
    assert_int_equal(term.rest_count, 3);
    assert_false(graph_term(t->g, node, 67, &term));
    assert_true(graph_term(t->g, graph_node_of(t->g, before), 64, &term));
    assert_true(term.rest == 90 * 3048.0);
    assert_int_equal(term.rest_count, 2);
    terms_of(t, x); /* adds up */
}

static void a_named_sum_stays_one_term(void **state)
{
    struct table *t = *state;
    struct qty sum = plus(t, feet(t, 1), feet(t, 2));
    assert_true(
        graph_name(t->g, &sum, "sides", (struct origin){ { 0, 0, 0 }, NULL }, &t->f));
    assert_string_equal(terms_of(t, plus(t, sum, feet(t, 4))), "1*3 1*4");
    assert_string_equal(terms_of(t, plus(t, feet(t, 4), sum)), "1*4 1*3");
}

static void a_sum_may_be_built_from_its_other_end(void **state)
{
    struct table *t = *state;
    struct qty x = feet(t, 0);
    for (int i = 1; i <= 20; i++)
        x = plus(t, between(t, i - 1, i, i + 1, "ft", (uint64_t)i), x);
    struct term term;
    size_t count = 0;
    while (graph_term(t->g, graph_node_of(t->g, x), count, &term))
        count++;
    assert_int_equal(count, 21);
    terms_of(t, x);
}

/* Thousands of sums from one long sum must not copy it each time. */
static void a_long_sum_becomes_a_term_of_what_branches_off_it(void **state)
{
    struct table *t = *state;
    struct qty root = feet(t, 0);
    for (int i = 1; i <= 5000; i++) {
        struct qty leaf = between(t, i, i + 1, i + 2, "ft", (uint64_t)i);
        struct qty next = plus(t, root, leaf);
        graph_release(t->g, root);
        graph_release(t->g, leaf);
        root = next;
    }
    size_t before = graph_bytes(t->g);
    for (int i = 0; i < 5000; i++)
        plus(t, root, between(t, 1, 2, 3, "ft", (uint64_t)i));
    assert_true(graph_bytes(t->g) - before < 2000000);
}

static void the_sum_of_nothing_is_nought_and_of_one_itself(void **state)
{
    struct table *t = *state;
    assert_string_equal(said(t, graph_sum(t->g, NULL, 0, &t->f)), "0");
    struct qty a = feet(t, 3), same = graph_sum(t->g, &a, 1, &t->f);
    assert_int_equal(graph_node_of(t->g, a), graph_node_of(t->g, same));
    assert_int_not_equal(a.slot, same.slot);
}

/* Exact sums (small whole numbers) over random programs: the value, the terms and the
 * rest agree whatever way a sum was put together. */
static void random_sums_add_up(void **state)
{
    struct table *t = *state;
    enum { POOL = 24 };
    struct qty pool[POOL];
    uint32_t seed = 12345;
    for (int i = 0; i < POOL; i++)
        pool[i] = i % 3 ? feet(t, i) : between(t, i - 1, i, i + 1, "ft", (uint64_t)i);
    for (int step = 0; step < 20000; step++) {
        seed = seed * 1664525u + 1013904223u;
        uint32_t to = seed >> 8 & 0xffff, x = seed >> 12 & 0xfff, y = seed >> 20;
        struct qty a = pool[x % POOL], b = pool[y % POOL];
        struct qty c =
            seed >> 31 ? graph_add(t->g, a, b, &t->f) : graph_subtract(t->g, a, b, &t->f);
        assert_true(qty_is(c));
        if (graph_value(t->g, c) < 1e12 && graph_value(t->g, c) > -1e12) {
            terms_of(t, c);
        } else { /* keep to numbers whose sums are exact */
            graph_release(t->g, c);
            c = feet(t, step % 50);
        }
        graph_release(t->g, pool[to % POOL]);
        pool[to % POOL] = c;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TABLE_TEST(terms_stand_in_the_order_of_adding),
        TABLE_TEST(an_older_sum_is_not_changed_by_what_grows_out_of_it),
        TABLE_TEST(the_same_last_term_is_counted),
        TABLE_TEST(certain_terms_past_64_are_kept_as_their_total),
        TABLE_TEST(a_named_sum_stays_one_term),
        TABLE_TEST(a_sum_may_be_built_from_its_other_end),
        TABLE_TEST(a_long_sum_becomes_a_term_of_what_branches_off_it),
        TABLE_TEST(the_sum_of_nothing_is_nought_and_of_one_itself),
        TABLE_TEST(random_sums_add_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
