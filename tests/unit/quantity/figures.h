/* figures.h: what the tests of quantities share: a graph on a counting allocator that can
 * be made to fail, and short ways to make and to read figures.
 *
 *     struct table *t = *state;                       // table_open, table_close
 *     struct qty a = figure(t, 15, "ft");
 *     assert_string_equal(said(t, a), "15 ft");
 */
#ifndef SPINNEY_TESTS_QUANTITY_FIGURES_H
#define SPINNEY_TESTS_QUANTITY_FIGURES_H

#include "../unit.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "quantity/graph.h"
#include "quantity/unit_inner.h"

/* Blocks carry their size in front, so that a wrong old size is found. */
struct ledger {
    size_t live;     /* bytes held */
    size_t requests; /* those that ask for memory */
    size_t fail_at;  /* the request that fails; 0 for none */
    bool fail_after; /* and all after it */
    bool wrong_size; /* an old size was not what had been given */
};

enum { LEDGER_HEAD = 16 };

static inline void *ledger_resize(void *context, void *block, size_t old, size_t size)
{
    struct ledger *ledger = context;
    char *whole = block ? (char *)block - LEDGER_HEAD : NULL;
    size_t given = 0;
    if (whole)
        memcpy(&given, whole, sizeof given);
    ledger->wrong_size |= given != old;
    if (size == 0) {
        ledger->live -= given;
        free(whole);
        return NULL;
    }
    ledger->requests++;
    bool fails = ledger->fail_at != 0
                 && (ledger->requests == ledger->fail_at
                     || (ledger->fail_after && ledger->requests > ledger->fail_at));
    char *moved = fails ? NULL : malloc(size + LEDGER_HEAD);
    if (!moved)
        return NULL;
    /* Always a new block, and the old one gone: a pointer kept too long is found. */
    memcpy(moved, &size, sizeof size);
    if (whole) {
        memcpy(moved + LEDGER_HEAD, block, given < size ? given : size);
        free(whole);
    }
    ledger->live += size - given;
    return moved + LEDGER_HEAD;
}

struct table {
    struct ledger ledger;
    struct units *u;
    struct graph *g;
    struct fault f;
    struct buf text;
};

static inline int table_open(void **state)
{
    struct table *t = calloc(1, sizeof *t);
    if (!t)
        return -1;
    t->u = units_new_on((struct memory){ ledger_resize, &t->ledger });
    t->g = t->u ? graph_new(t->u) : NULL;
    fault_clear(&t->f);
    buf_init(&t->text);
    *state = t;
    return t->g ? 0 : -1;
}

static inline int table_close(void **state)
{
    struct table *t = *state;
    graph_free(t->g);
    units_free(t->u);
    buf_clear(&t->text);
    int bad = t->ledger.live != 0 || t->ledger.wrong_size;
    free(t);
    return bad ? -1 : 0;
}

static inline struct unit_id unit_of(struct table *t, const char *name)
{
    struct unit_id id = UNIT_NUMBER;
    if (*name)
        assert_true(units_find(t->u, name, strlen(name), &id, &t->f));
    return id;
}

static inline struct qty figure(struct table *t, double value, const char *unit)
{
    struct qty a = graph_leaf(t->g, value, unit_of(t, unit),
                              (struct origin){ { 0, 0, 0 }, NULL }, &t->f);
    assert_true(qty_is(a));
    return a;
}

static inline struct qty between(struct table *t, double low, double likely, double high,
                                 const char *unit, uint64_t key)
{
    struct qty a = graph_range(t->g, low, likely, high, unit_of(t, unit), key,
                               (struct origin){ { 1, (uint32_t)key, 6 }, NULL }, &t->f);
    assert_true(qty_is(a));
    return a;
}

/* As printed, in the unit it is said in; good until the next call. */
static inline const char *said(struct table *t, struct qty a)
{
    buf_clear(&t->text);
    if (qty_is(a))
        unit_print(t->u, graph_unit(t->g, a), graph_value(t->g, a), &t->text);
    else
        buf_puts(&t->text, t->f.message);
    return t->text.data;
}

/* The fault of the last operation, which must be `id`; clears it. */
static inline void assert_fault(struct table *t, struct qty a, const char *id,
                                const char *message, const char *hint)
{
    assert_false(qty_is(a));
    assert_non_null(t->f.id);
    assert_string_equal(t->f.id, id);
    if (message)
        assert_string_equal(t->f.message, message);
    if (hint)
        assert_string_equal(t->f.hint, hint);
    fault_clear(&t->f);
}

#define TABLE_TEST(test) cmocka_unit_test_setup_teardown(test, table_open, table_close)

#endif
