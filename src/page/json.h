/* json.h: data as JSON, written from top to bottom, keys in the order they were given.
 *
 *     struct json *j = json_new(graph);
 *     json_text(j, "property", "Quill Creek");
 *     json_list_open(j, "acts");
 *     json_object_open(j, NULL), json_figure(j, "hours", hours), json_close(j);
 *     json_close(j);
 *     if (!json_write(j, &out, f)) ...
 *     json_free(j);
 *
 * The outermost value is an object, open from the start. Inside a list the key is NULL.
 * A figure is an object {"value": 70, "low": 60, "high": 80, "unit": "h"}: the value is
 * the arithmetic at likely leaves, low and high are the 10th and 90th percentiles, all in
 * `unit` as papers print it ("" for a bare number); a certain one has all three the same,
 * one that may be endless has null there.
 * Where the median of the draws differs from the value by more than 3 percent, a fifth
 * key "median" gives it. What is not known is null. Dates are text as in ISO 8601
 * ("2026-10-14").
 * Numbers are decimal with the digits of num_data (12 significant), under any locale; one
 * that is not finite is null. Bytes that are no UTF-8 are written as U+FFFD, control
 * characters as \u0000 and so on: data may be looked at on a terminal.
 *
 * Out of memory is kept and told by json_write. Keys and texts are copied. */
#ifndef SPINNEY_PAGE_JSON_H
#define SPINNEY_PAGE_JSON_H

#include <stdbool.h>
#include <stddef.h>

#include "calendar/date.h"
#include "quantity/graph.h"

struct buf;
struct fault;
struct json;

enum { JSON_DEPTH_MOST = 32 }; /* deeper nesting is a mistake of the program: asserted */

/* Borrows the graph, which must outlive it; NULL where there are no figures. */
struct json *json_new(struct graph *g);
void json_free(struct json *j);

void json_object_open(struct json *j, const char *key);
void json_list_open(struct json *j, const char *key);
void json_close(struct json *j);

void json_text(struct json *j, const char *key, const char *text); /* NULL is null */
void json_text_bytes(struct json *j, const char *key, const char *text, size_t length);
void json_number(struct json *j, const char *key, double value);
void json_truth(struct json *j, const char *key, bool value);
void json_nothing(struct json *j, const char *key);
void json_day(struct json *j, const char *key, struct date when);
void json_figure(struct json *j, const char *key, struct qty q);

/* Draws the spread of all figures in one call and appends the whole text, ending in "\n".
 * Everything opened must be closed; nothing can be added afterwards. */
__attribute__((warn_unused_result))
bool json_write(struct json *j, struct buf *out, struct fault *f);

#endif
