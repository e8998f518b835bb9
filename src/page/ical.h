/* ical.h: days of work as an iCalendar file (RFC 5545), for calendar programs.
 *
 *     struct ical c;
 *     ical_open(&c, &out, plan_date);
 *     ical_event(&c, &(struct ical_event){ .key = key, .key_count = 3,
 *         .summary = { "Fell the bench aspen", 20 }, .from = dec_7, .to = dec_9,
 *         .alarms = (int[]){ 7 }, .alarm_count = 1 });
 *     ical_close(&c);                       // at least one event, or the file is none
 *
 * Events last whole days and mark nobody as busy: so many hours a week are worked on
 * them, at no hour that a plan could tell. The key says what an event is and nothing of
 * when, and its UID is made of the key alone (a name-based UUID, version 8 of RFC 9562):
 * so a program that reads the file of a later run moves the event it has. Every DTSTAMP
 * is the day of the plan, never that of the run, so that the same plan gives the same
 * bytes. There is no SEQUENCE: it would have to grow with each change, and nothing here
 * knows what was written before.
 *
 * Lines are folded at 75 bytes, never inside a character. Bytes that are no UTF-8 and
 * characters that steer become question marks, tabs blanks, each kind of line break \n.
 * Out of memory sets `failed` of the buffer. */
#ifndef SPINNEY_PAGE_ICAL_H
#define SPINNEY_PAGE_ICAL_H

#include <stddef.h>

#include "base/buf.h"
#include "calendar/date.h"

enum {
    ICAL_LINE = 75,    /* bytes of a line, without CR LF (RFC 5545, 3.1) */
    ICAL_ALARM_HOUR = 7 /* local time; common practice, no source */
};

struct ical_text {
    const char *at;
    size_t length;
};

struct ical {
    struct buf *out;
    struct date stamp;
};

struct ical_event {
    const struct ical_text *key; /* "Quill Creek", "bench-aspen/fell", "1" */
    size_t key_count;
    struct ical_text summary, description, location; /* the last two may be empty */
    const struct ical_text *categories;
    size_t category_count;
    struct date from, to; /* both included */
    const int *alarms;    /* days before `from`, 0 or more: a word on the screen */
    size_t alarm_count;
};

void ical_open(struct ical *c, struct buf *out, struct date stamp);
void ical_event(struct ical *c, const struct ical_event *e);
void ical_close(struct ical *c);

/* The parts of the above. Appends the line, folded, and CR LF; it must be UTF-8. */
void ical_fold(struct buf *out, const char *line, size_t length);
/* Appends a value of type TEXT (RFC 5545, 3.3.11). */
void ical_put_text(struct buf *out, struct ical_text text);
/* Appends the UUID of a key. */
void ical_put_uid(struct buf *out, const struct ical_text *key, size_t count);

#endif
