/* fault.h: what went wrong, where, in the trade's words, and the mend.
 *
 *     if (!date_make(2026, 11, 31, &d, f)) return false;       // passes it on
 *     return fault_set(f, "date-day", at, "November has 30 days, not 31");
 *
 * Fixed-size text, so that running out of memory can be told too. The first fault stays:
 * fault_set on a fault already set does nothing. Ids are stable, lower case, hyphenated,
 * thing first ("unit-unknown", "key-missing", "dimension-add"). Messages are lower case,
 * without a full stop, without blame and without jargon. */
#ifndef SPINNEY_BASE_FAULT_H
#define SPINNEY_BASE_FAULT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/source.h"

struct fault {
    const char *id;          /* static text; NULL while nothing is wrong */
    struct span at, other;   /* other: the second operand, where there is one */
    bool of_nothing;         /* of a value that is not there: another fault may have left it */
    char message[480];
    char hint[240];          /* the mend, shown after "try:"; "" for none */
};

#define SPAN_NONE ((struct span){ 0, 0, 0 })

void fault_clear(struct fault *f);
static inline bool fault_is_set(const struct fault *f) { return f->id != NULL; }
/* Always returns false, so that it can be returned. Over-long text is cut with "...". */
__attribute__((format(printf, 4, 5)))
bool fault_set(struct fault *f, const char *id, struct span at, const char *format, ...);
/* Adds the mend to the fault just set; keeps the first. */
__attribute__((format(printf, 2, 3)))
void fault_hint(struct fault *f, const char *format, ...);
/* Gives the fault a place when it has none yet (a deeper room did not know it). */
void fault_place(struct fault *f, struct span at);
bool fault_no_memory(struct fault *f);

/* A list that keeps source order and drops exact repeats; at most FAULTS_MOST are kept,
 * `more` counts the rest. */
enum { FAULTS_MOST = 10 };
struct faults {
    struct fault list[FAULTS_MOST];
    size_t count, more;
};
void faults_add(struct faults *all, const struct fault *f);

struct buf;
/* "plan.rx:14:22: error: MESSAGE", the line with carets, "    try: HINT". `level` is the
 * word after the place: "error" or "warning". */
void fault_show(const struct sources *all, const struct fault *f, const char *level,
                struct buf *out);

#endif
