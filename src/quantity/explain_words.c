/* Where things came from and what they hang on, in words: part of explain.h. */
#include "quantity/explain.h"

#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "base/utf8.h"
#include "quantity/explain_inner.h"
#include "quantity/fold.h"
#include "quantity/spread_inner.h"

enum { LISTED = 5 };  /* rows of what a quantity hangs on */
#define MATTERS 0.05 /* a share under a twentieth is not "mostly" */

void explain_plain(const char *text, struct buf *out)
{
    utf8_put_plain(out, text, strlen(text));
}

bool explain_origin(const struct sources *sources, struct origin from, const char *before,
                    struct buf *out)
{
    bool place = sources && from.at.source != 0;
    if (!place && !from.words)
        return false;
    buf_puts(out, before);
    if (place) {
        struct place at = source_place(sources, from.at);
        explain_plain(at.file, out);
        buf_printf(out, ":%u:%u%s", (unsigned)at.line, (unsigned)at.column,
                   from.words ? ", " : "");
    }
    if (from.words)
        explain_plain(from.words, out);
    return true;
}

/* The start of an origin's words, up to the comma: "felling rate, stdlib: ..." */
static size_t label_length(const struct hangs_on *row)
{
    return row->name == row->from.words ? strcspn(row->name, ",") : strlen(row->name);
}

static bool same_label(const struct hangs_on *a, const struct hangs_on *b)
{
    size_t length = label_length(a);
    return length == label_length(b) && memcmp(a->name, b->name, length) == 0;
}

static void put_row(const struct sources *sources, const struct hangs_on *rows,
                    size_t count, size_t i, struct buf *out)
{
    const struct hangs_on *row = &rows[i];
    struct origin place = { row->from.at, NULL };
    bool shared = false;
    for (size_t k = 0; k < count; k++)
        shared = shared || (k != i && same_label(row, &rows[k]));
    if (row->name[0] == '\0') {
        if (!explain_origin(sources, place, "the range at ", out))
            buf_puts(out, "a range without a name");
        return;
    }
    utf8_put_plain(out, row->name, label_length(row));
    if (shared && explain_origin(sources, place, " (", out))
        buf_putc(out, ')');
}

bool explain_hangs_on(const struct graph *g, const struct sources *sources, uint32_t node,
                      struct buf *out, struct fault *f)
{
    struct hangs_on rows[LISTED];
    if (node_is_drawn(graph_node(g, spread_behind(g, node))))
        return true; /* its own line says it all */
    size_t count = spread_node_hangs_on(g, node, rows, LISTED, f);
    if (count == 0)
        return !fault_is_set(f);
    if (rows[0].share > 0.995) {
        buf_puts(out, "hangs wholly on: ");
        put_row(sources, rows, 1, 0, out);
        return true;
    }
    if (rows[0].share < MATTERS) {
        buf_puts(out, "hangs on many parts alike, the most on: ");
        count = 1;
    } else {
        buf_puts(out, "hangs mostly on: ");
    }
    while (count > 1 && rows[count - 1].share < MATTERS)
        count--;
    for (size_t i = 0; i < count; i++) {
        buf_puts(out, i > 0 ? ", " : "");
        put_row(sources, rows, count, i, out);
        buf_putc(out, ' ');
        num_fixed(out, rows[i].share * 100, 0, false);
        buf_putc(out, FOLD_BLANK);
        buf_puts(out, "percent");
    }
    return true;
}
