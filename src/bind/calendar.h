/* calendar.h: dates, days of any year and windows of the year as values of a script.
 *
 *     calendar_open(L);                             // once, after measure_open
 *     date_push(L, d); window_push(L, yearly_of(dormant));
 *     if (date_at(L, 2, &d)) ...
 *
 * date + 3 wk, date - 5 d, date + 2 mo (the same day of a later month), date - date
 * (days); window + window is the days of either, window * window the days of both, window
 * - window the days of the first alone. Everything is whole days: a date does not move by
 * half a day or by an uncertain time. */
#ifndef SPINNEY_BIND_CALENDAR_H
#define SPINNEY_BIND_CALENDAR_H

#include <stdbool.h>

#include "calendar/date.h"
#include "calendar/window.h"

struct lua_State;

/* The metatables, and date(year, month, day) and window(from, to) in the vocabulary. */
void calendar_open(struct lua_State *L);

void date_push(struct lua_State *L, struct date d);
void day_push(struct lua_State *L, struct month_day d);
void window_push(struct lua_State *L, struct yearly w);
/* False when the value is none. */
bool date_at(struct lua_State *L, int index, struct date *out);
bool day_at(struct lua_State *L, int index, struct month_day *out);
bool window_at(struct lua_State *L, int index, struct yearly *out);

#endif
