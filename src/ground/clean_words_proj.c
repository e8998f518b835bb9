/* What was mended, or why it was not, in words. */
#include <math.h>
#include <stdio.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "ground/clean_inner.h"
#include "ground/frame.h"

static const double ACRE = 43560; /* ft2 */
static const double LEAST = 0.005; /* acres that two decimals show */

static void put_place(struct buf *out, const struct frame *frame, struct point at)
{
    struct position p = frame_place(frame, at);
    num_fixed(out, fabs(p.lat), 5, false);
    buf_puts(out, p.lat < 0 ? " S, " : " N, ");
    num_fixed(out, fabs(p.lon), 5, false);
    buf_puts(out, p.lon < 0 ? " W" : " E");
}

static void put_item(struct buf *out, size_t count, const char *one, const char *many)
{
    if (count == 0)
        return;
    if (out->length > 0)
        buf_puts(out, ", ");
    buf_printf(out, "%zu %s", count, count == 1 ? one : many);
}

static void put_spikes(struct buf *out, const struct tidied *t)
{
    buf_printf(out, t->spikes == 1 ? "%zu spike of " : "%zu spikes of up to ", t->spikes);
    num_fixed(out, t->longest, 0, true);
    buf_puts(out, " ft");
}

static void put_steps(struct buf *out, const struct clean_done *done)
{
    put_item(out, done->tidied.doubles, "double point left out",
             "double points left out");
    if (done->tidied.spikes > 0) {
        buf_puts(out, out->length > 0 ? ", " : "");
        put_spikes(out, &done->tidied);
        buf_puts(out, " left out");
    }
    if (done->gap > CLEAN_GAP_SAID) {
        buf_puts(out, out->length > 0 ? ", " : "");
        buf_puts(out, "a gap of ");
        num_trade(out, done->gap);
        buf_puts(out, " ft closed");
    }
    if (done->crossed)
        buf_puts(out, out->length > 0 ? ", a crossing undone" : "a crossing undone");
    put_item(out, done->slivers, "sliver left out", "slivers left out");
}

static void put_moved(struct buf *out, const struct clean_done *done)
{
    num_fixed(out, done->moved / ACRE, 2, true);
    buf_puts(out, " ac (");
    num_fixed(out, done->share * 100, 1, true);
    buf_puts(out, " percent)");
}

bool clean_say(struct clean_done *done, enum shape_kind kind, struct fault *f)
{
    struct buf text;
    buf_init(&text);
    put_steps(&text, done);
    if (text.length > 0 && kind == SHAPE_AREAS) {
        buf_puts(&text, "; ");
        if (done->moved / ACRE < LEAST)
            buf_puts(&text, "less than 0.01 ac");
        else
            put_moved(&text, done);
        buf_puts(&text, " moved");
    }
    bool ok = !text.failed;
    snprintf(done->words, sizeof done->words, "%s", ok ? text.data : "");
    buf_clear(&text);
    return ok || fault_no_memory(f);
}

bool clean_refuse(const struct clean_ask *ask, const struct clean_done *done,
                   struct point at, double after, struct fault *f)
{
    struct buf words;
    buf_init(&words);
    buf_printf(&words, "the outline of `%s` ", ask->name);
    if (done->crossed)
        buf_puts(&words, "crosses itself");
    else if (done->tidied.spikes == 0)
        buf_puts(&words, "is broken");
    if (done->crossed && ask->frame) {
        buf_puts(&words, " near ");
        put_place(&words, ask->frame, at);
    }
    if (done->tidied.spikes > 0) {
        buf_puts(&words, done->crossed ? " and has " : "has ");
        put_spikes(&words, &done->tidied);
    }
    buf_puts(&words, "; to mend it would move ");
    put_moved(&words, done);
    buf_puts(&words, " of its ");
    num_trade(&words, after / ACRE);
    buf_puts(&words, " ac");
    fault_set(f, "shape-broken", SPAN_NONE, "%s", words.data);
    buf_clear(&words);
    buf_init(&words);
    num_trade(&words, ask->most_moved * 100);
    fault_hint(f, "draw it anew there; up to %s percent is mended without asking",
               words.data);
    buf_clear(&words);
    return false;
}
