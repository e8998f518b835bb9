/* What a quantity hangs on: the second half of spread.h. */
#include "quantity/spread.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/ahead.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/ranks.h"
#include "quantity/scratch.h"
#include "quantity/shuffle.h"
#include "quantity/spread_inner.h"

enum { ROWS_MERGED = 64 }; /* sources told apart; callers list a handful */

/* What is drawn by itself: a range, or one cause of shared leaves (node: the first made
 * of those). */
struct source_leaf {
    uint32_t node, name; /* name: the nearest node that names it, NODE_NONE for none */
    uint64_t key;
    double share;
};

/* Uncertain leaves below, one for each key (the first made). */
static int by_key(const void *a, const void *b)
{
    const struct source_leaf *x = a, *y = b;
    if (x->key != y->key)
        return x->key < y->key ? -1 : 1;
    return x->node < y->node ? -1 : x->node > y->node;
}

static int by_share(const void *a, const void *b)
{
    const struct source_leaf *x = a, *y = b;
    if (x->share != y->share)
        return x->share > y->share ? -1 : 1;
    return x->node < y->node ? -1 : x->node > y->node;
}

static size_t one_for_each_key(struct source_leaf *leaf, size_t count)
{
    qsort(leaf, count, sizeof *leaf, by_key);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        if (kept == 0 || leaf[kept - 1].key != leaf[i].key)
            leaf[kept++] = leaf[i];
    }
    return kept;
}

struct naming {
    uint32_t name, steps; /* how many steps up the name is */
};

/* The nearest name above each marked node: passed down from what is made of it, which has
 * been passed its own before. Among equally near ones the first made. The own names of
 * what was asked say nothing new, unless it is a range itself. */
static void pass_names_down(const struct graph *g, uint32_t top, const bool *marks,
                            struct naming *names)
{
    uint32_t own = spread_behind(g, top);
    bool own_counts = node_is_drawn(graph_node(g, own));
    for (uint32_t i = top; i > 0; i--) {
        if (!marks[i])
            continue;
        struct naming below = names[i];
        below.steps++;
        if (graph_node(g, i)->op == OP_NAME && (i < own || own_counts))
            below = (struct naming){ i, 1 };
        uint32_t operand;
        for (size_t k = 0; draws_operand(g, i, k, &operand); k++) {
            struct naming *n = &names[operand];
            if (below.name != NODE_NONE &&
                (n->name == NODE_NONE || below.steps <= n->steps))
                *n = below;
        }
    }
}

static double squares_of(const double *list)
{
    double total = 0;
    for (int i = 0; i < SPREAD_DRAWS; i++)
        total += list[i] * list[i];
    return total;
}

/* The square of the correlation, less what two things that have nothing to do with each
 * other would show. `squares`: those of the scores times those of the table, which a leaf
 * takes in another order. */
static double share_of(const double *scores, const double *table, double squares,
                       uint64_t key)
{
    struct shuffle order = shuffle_of(key);
    double with = 0;
    for (unsigned from = 0; from < SPREAD_DRAWS; from += SHUFFLE_BLOCK) {
        uint16_t part[SHUFFLE_BLOCK];
        shuffle_block(&order, from, part);
        for (unsigned i = 0; i < SHUFFLE_BLOCK; i += 4) {
            /* One after another: the sum does not hang on the compiler. */
            const double *four = scores + from + i;
            with += table[part[i]] * four[0];
            with += table[part[i + 1]] * four[1];
            with += table[part[i + 2]] * four[2];
            with += table[part[i + 3]] * four[3];
        }
    }
    if (squares <= 0)
        return 0;
    double square = with * with / squares - 1.0 / (SPREAD_DRAWS - 1);
    return square > 0 ? square : 0;
}

/* A name of the leaf itself, else the words of its origin, else the name of what it is a
 * part of. A cause is no figure of its own: the words of where the leaves came from say
 * more of it than the name of one of them. */
static struct hangs_on row_of(const struct graph *g, const struct source_leaf *leaf)
{
    struct hangs_on row = { "", graph_origin(g, leaf->node), leaf->share };
    bool named = leaf->name != NODE_NONE;
    bool own = named && spread_behind(g, leaf->name) == leaf->node
               && graph_node(g, leaf->node)->op == OP_RANGE;
    if (row.from.words && !own)
        row.name = row.from.words;
    else if (named)
        row.name = graph_node_name(g, leaf->name);
    return row;
}

/* Cells of one tally and the like: the same words from the same place. Nobody could tell
 * such rows apart, so they are told as one. */
static bool same_source(const struct hangs_on *a, const struct hangs_on *b)
{
    return a->name[0] != '\0' && strcmp(a->name, b->name) == 0 &&
           a->from.at.source == b->from.at.source && a->from.at.at == b->from.at.at;
}

/* The rows of the leaves, those of one source as one, largest share first. */
static size_t rows_of(const struct graph *g, const struct source_leaf *leaf, size_t count,
                      struct hangs_on *rows)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        struct hangs_on row = row_of(g, &leaf[i]);
        size_t k = 0;
        while (k < kept && !same_source(&rows[k], &row))
            k++;
        if (k == kept && kept == ROWS_MERGED)
            continue; /* too small to tell */
        if (k == kept)
            rows[kept++] = row;
        else
            rows[k].share += row.share;
        for (; k > 0 && rows[k].share > rows[k - 1].share; k--) {
            struct hangs_on smaller = rows[k - 1];
            rows[k - 1] = rows[k];
            rows[k] = smaller;
        }
    }
    return kept;
}

static size_t list_leaves(const struct graph *g, uint32_t top, const bool *marks,
                          const struct naming *names, struct source_leaf *out)
{
    size_t count = 0;
    for (uint32_t i = 1; i <= top; i++) {
        if (!marks[i] || !node_is_drawn(graph_node(g, i)))
            continue;
        struct source_leaf leaf = { i, names[i].name, graph_range_of(g, i).key, 0 };
        if (graph_node(g, i)->op == OP_RANGE) {
            out[count++] = leaf;
            continue;
        }
        struct causes c = graph_causes_of(g, i);
        for (size_t k = 0; k < c.count; k++) {
            leaf.key = c.list[k].key;
            out[count++] = leaf;
        }
    }
    return one_for_each_key(out, count);
}

/* How many list_leaves may list. */
static size_t count_sources(const struct graph *g, uint32_t top, const bool *marks)
{
    size_t count = 0;
    for (uint32_t i = 1; i <= top; i++) {
        if (!marks[i] || !node_is_drawn(graph_node(g, i)))
            continue;
        count += graph_node(g, i)->op == OP_RANGE ? 1 : graph_causes_of(g, i).count;
    }
    return count;
}

/* By key too: sums must not depend on how a library sorts. */
static int by_node(const void *a, const void *b)
{
    const struct source_leaf *x = a, *y = b;
    if (x->node != y->node)
        return x->node < y->node ? -1 : 1;
    return x->key < y->key ? -1 : x->key > y->key;
}

/* The causes of one leaf as one. */
static size_t one_for_each_node(struct source_leaf *leaf, size_t count)
{
    qsort(leaf, count, sizeof *leaf, by_node);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        if (kept > 0 && leaf[kept - 1].node == leaf[i].node)
            leaf[kept - 1].share += leaf[i].share;
        else
            leaf[kept++] = leaf[i];
    }
    return kept;
}

/* Shares out to 1, largest first. Returns how many leaves matter at all. */
static size_t share_out(struct source_leaf *leaf, size_t count, const double *scores,
                        const double *table)
{
    double total = 0, squares = squares_of(scores) * squares_of(table);
    for (size_t i = 0; i < count; i++) {
        leaf[i].share = share_of(scores, table, squares, leaf[i].key);
        total += leaf[i].share;
    }
    count = one_for_each_node(leaf, count);
    qsort(leaf, count, sizeof *leaf, by_share);
    size_t matter = 0;
    while (matter < count && leaf[matter].share > 0)
        leaf[matter++].share /= total;
    return matter;
}

static size_t rank_leaves(const struct graph *g, uint32_t top, struct scratch *memory,
                          struct hangs_on *out, size_t most, struct fault *f)
{
    bool *marks = scratch_zeroed(memory, (size_t)top + 1, sizeof *marks);
    struct naming *names = scratch_zeroed(memory, (size_t)top + 1, sizeof *names);
    if (memory->failed)
        return 0;
    marks[top] = true;
    draws_reach(g, top, marks);
    pass_names_down(g, top, marks, names);
    struct source_leaf *leaf =
        scratch_get(memory, count_sources(g, top, marks), sizeof *leaf);
    double *table = scratch_get(memory, SPREAD_DRAWS, sizeof *table);
    double *scores = scratch_get(memory, SPREAD_DRAWS, sizeof *scores);
    struct ranked *ranked = scratch_get(memory, RANKS_ROOM, sizeof *ranked);
    const double *row = ahead_row(g, spread_behind(g, top));
    struct draws *d = NULL;
    if (!row && !memory->failed)
        d = draws_of(g, &top, 1, f);
    if (memory->failed || (!row && !d))
        return 0;
    draws_table(table);
    ranks_score(row ? row : draws_row(d, 0), table, ranked, scores);
    draws_free(d);
    size_t count = list_leaves(g, top, marks, names, leaf);
    count = share_out(leaf, count, scores, table);
    struct hangs_on rows[ROWS_MERGED];
    count = rows_of(g, leaf, count, rows);
    count = count < most ? count : most;
    for (size_t i = 0; i < count; i++)
        out[i] = rows[i];
    return count;
}

size_t spread_node_hangs_on(const struct graph *g, uint32_t node, struct hangs_on *out,
                            size_t most, struct fault *f)
{
    if (!graph_node(g, node)->uncertain)
        return 0;
    struct scratch memory = scratch_of(g);
    size_t count = rank_leaves(g, node, &memory, out, most, f);
    if (memory.failed)
        fault_no_memory(f);
    scratch_clear(&memory);
    return count;
}

size_t spread_hangs_on(struct graph *g, struct qty a, struct hangs_on *out, size_t most,
                       struct fault *f)
{
    return qty_is(a) ? spread_node_hangs_on(g, graph_node_of(g, a), out, most, f) : 0;
}
