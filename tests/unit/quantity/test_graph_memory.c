/* Every request for memory fails in turn, once and for good: the operation says so,
 * nothing leaks, and what was there before is as it was. */
#include "figures.h"
#include "graph_text.h"

#include <stdio.h>

/* Retries where memory came back; gives up where it stays away. */
struct run {
    struct table *t;
    bool gave_up;
    size_t refusals;
};

/* Whether to try the operation once more. */
static bool again(struct run *r)
{
    assert_non_null(r->t->f.id);
    assert_string_equal(r->t->f.id, "memory");
    fault_clear(&r->t->f);
    r->refusals++;
    if (r->t->ledger.fail_after)
        r->gave_up = true;
    return !r->gave_up;
}

#define TRY(result, operation)                                                           \
    {                                                                                    \
        struct qty made;                                                                 \
        do                                                                               \
            made = operation;                                                            \
        while (!qty_is(made) && again(r));                                               \
        if (r->gave_up)                                                                  \
            return;                                                                      \
        result = made;                                                                   \
    }

static struct unit_id find_unit(struct run *r, const char *name)
{
    struct unit_id id = UNIT_NUMBER;
    while (!units_find(r->t->u, name, strlen(name), &id, &r->t->f) && again(r))
        ;
    return id;
}

static bool name_it(struct run *r, struct qty *a, const char *name, struct origin how)
{
    while (!graph_name(r->t->g, a, name, how, &r->t->f))
        if (!again(r))
            return false;
    return true;
}

static struct qty hold_it(struct run *r, struct qty a)
{
    return graph_hold(r->t->g, a, &r->t->f);
}

static double product_of(const double *x, const double *with)
{
    return x[0] * x[1] * with[0];
}

static const struct formula product = { "product", product_of };

/* Leaves of causes, and an equation over them. */
static void shared_program(struct run *r, struct unit_id ft, struct buf *out)
{
    struct graph *g = r->t->g;
    struct fault *f = &r->t->f;
    struct qty x, y, z = QTY_NONE;
    for (uint32_t i = 0; i < 40; i++) {
        struct cause causes[] = { { i, 1 }, { 3, 2 }, { i / 2, 1 } };
        struct origin from = { { 1, i, 2 }, "tally" };
        double with[] = { 1, i, 3 };
        graph_release(g, z);
        TRY(x, graph_shared(g, 1, 2, 3 + i, ft, causes, 3, from, f))
        TRY(y, graph_shared(g, 1, 2, 4, ft, causes, 2, from, f))
        struct operand of[] = { { x, ft, "one" }, { y, ft, "other" } };
        TRY(z, graph_formula(g, &product, with, 3, of, 2, ft, from, f))
        graph_release(g, x);
        if (i % 8 == 7)
            graph_collect(g);
    }
    graph_text(g, graph_node_of(g, z), 3, out);
}

/* A little of everything: long sums, branches, names, places, new compound units. */
static void program(struct run *r, struct buf *out)
{
    struct graph *g = r->t->g;
    struct fault *f = &r->t->f;
    struct unit_id ft = find_unit(r, "ft"), rate_unit = find_unit(r, "USD/chain/wk");
    struct qty x, y, z, area, rate, branch = QTY_NONE;
    if (r->gave_up)
        return;
    TRY(x, graph_leaf(g, 1, ft, (struct origin){ { 1, 5, 2 }, "start" }, f))
    TRY(rate, graph_leaf(g, 3, rate_unit, (struct origin){ { 1, 9, 2 }, NULL }, f))
    for (uint32_t i = 0; i < 600; i++) {
        char words[24];
        snprintf(words, sizeof words, "words %u", i % 6);
        if (i % 3)
            TRY(y, graph_range(g, i, i + 1, i + 2, ft, i,
                               (struct origin){ { 1, i % 20, 2 }, words }, f))
        else
            TRY(y, graph_leaf(g, i, ft, (struct origin){ { 1, i % 20, 2 }, NULL }, f))
        if (i % 250 == 0 && !name_it(r, &y, words, (struct origin){ { 2, i, 1 }, NULL }))
            return;
        TRY(z, graph_add(g, x, y, f))
        if (i == 300)
            TRY(branch, hold_it(r, z))
        graph_release(g, x);
        graph_release(g, y);
        x = z;
    }
    TRY(y, graph_add(g, branch, x, f))
    TRY(area, graph_multiply(g, y, x, f))
    TRY(z, graph_multiply(g, area, rate, f))
    TRY(y, graph_sum(g, (struct qty[]){ x, branch, x, y }, 4, f))
    TRY(y, graph_scale(g, y, 3, f))
    TRY(y, graph_power(g, y, 3, 1, f))
    TRY(x, graph_negate(g, x, f))
    for (int i = 0; i < 100; i++) /* slots run out */
        TRY(x, hold_it(r, x))
    uint32_t mark = graph_scope_open(g);
    TRY(branch, graph_subtract(g, branch, x, f))
    graph_scope_close(g, mark, &branch, 1);
    graph_collect(g);
    struct qty shown[] = { x, y, z, branch };
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++)
        graph_text(g, graph_node_of(g, shown[i]), 3, out);
    shared_program(r, ft, out);
}

/* Runs it all with request n failing; true when it was never reached. */
static bool attempt(size_t n, bool fail_after, const char *wanted, struct buf *out)
{
    struct table t = { .ledger = { .fail_at = n, .fail_after = fail_after } };
    struct run r = { .t = &t };
    fault_clear(&t.f);
    t.u = units_new_on((struct memory){ ledger_resize, &t.ledger });
    t.g = t.u ? graph_new(t.u) : NULL;
    assert_true(t.g || n > 0);
    if (t.g)
        program(&r, out);
    if (wanted && t.g && !r.gave_up)
        assert_string_equal(out->data, wanted);
    bool reached = n > 0 && t.ledger.requests >= n;
    graph_free(t.g);
    units_free(t.u);
    assert_int_equal(t.ledger.live, 0);
    assert_false(t.ledger.wrong_size);
    return !reached;
}

static size_t fail_each(bool fail_after)
{
    struct buf wanted, out;
    buf_init(&wanted);
    assert_true(attempt(0, false, NULL, &wanted));
    assert_true(wanted.length > 1000);
    size_t n = 1;
    for (bool done = false; !done; n++) {
        buf_init(&out);
        done = attempt(n, fail_after, wanted.data, &out);
        buf_clear(&out);
    }
    buf_clear(&wanted);
    return n;
}

static void one_request_that_fails_changes_nothing(void **state)
{
    (void)state;
    assert_true(fail_each(false) > 150);
}

static void running_out_for_good_is_told_and_nothing_leaks(void **state)
{
    (void)state;
    assert_true(fail_each(true) > 150);
}

static void a_pack_unit_that_finds_no_memory_is_not_half_there(void **state)
{
    (void)state;
    for (size_t n = 1, done = 0; !done; n++) {
        struct table t = { .ledger = { .fail_at = 0 } };
        fault_clear(&t.f);
        t.u = units_new_on((struct memory){ ledger_resize, &t.ledger });
        assert_non_null(t.u);
        t.ledger.requests = 0;
        t.ledger.fail_at = n;
        /* Enough of them that the tables must grow. */
        for (char a = 'a'; a <= 'z'; a++)
            for (char b = 'a'; b <= 'f'; b++) {
                char name[] = { 'q', a, b, '\0' }, plural[] = { 'q', a, b, 's', '\0' };
                if (units_define(t.u, name, plural, "ft", 2, "a list", &t.f))
                    continue;
                assert_string_equal(t.f.id, "memory");
                fault_clear(&t.f);
                assert_false(units_is_name(t.u, name, 3));
                assert_false(units_is_name(t.u, plural, 4));
                assert_true(units_define(t.u, name, plural, "ft", 2, "a list", &t.f));
            }
        done = t.ledger.requests < n;
        t.ledger.fail_at = 0;
        struct unit_id id;
        assert_true(units_find(t.u, "qzfs/qaa", 8, &id, &t.f));
        units_free(t.u);
        assert_int_equal(t.ledger.live, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_request_that_fails_changes_nothing),
        cmocka_unit_test(running_out_for_good_is_told_and_nothing_leaks),
        cmocka_unit_test(a_pack_unit_that_finds_no_memory_is_not_half_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
