/* page_ical.h: page.ical: days of work as a calendar (page/ical.h).
 *
 *     page.ical(date, { { key = { "Quill Creek", "bench-aspen/fell", "1" }, from = date,
 *         to = date, summary = "Fell the aspen", description = "62 h",
 *         location = "Bench", categories = { "cut" }, alarms = { 7 } } })
 *
 * The date is the plan's; key, from, to and summary are wanted. Without events it is no
 * calendar: nil. */
#ifndef SPINNEY_BIND_PAGE_ICAL_H
#define SPINNEY_BIND_PAGE_ICAL_H

struct lua_State;

int page_ical(struct lua_State *L);

#endif
