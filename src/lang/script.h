/* script.h: one text as its author wrote it: the plain Lua made of it, its literals
 * (measures, ranges, dates, windows), and the places of its calls, keys and strings.
 *
 *     struct script *script;
 *     if (!literals_read(L, host, source, &script, &host->faults)) ...
 *     text = script_lua(script, &length);               // for luaL_loadbufferx, mode "t"
 *     at = script_key_in_call(script, host->sources, script_call_at(...), "width");
 *
 * The Lua text has the lines of the source. Each measure, date and window became
 * `(__lit[N])`, each range `(__each(N))`, N from 1; where there is at least one, the
 * chunk takes the two as its arguments. Spans are places of the source, never of the
 * Lua text. */
#ifndef SPINNEY_LANG_SCRIPT_H
#define SPINNEY_LANG_SCRIPT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/source.h"
#include "calendar/date.h"
#include "calendar/window.h"
#include "quantity/unit.h"

struct faults;
struct host;
struct lua_State;
struct script;

enum { SCRIPT_MOST = 1 << 20 }; /* bytes of one text */

enum literal_kind {
    LITERAL_MEASURE,
    LITERAL_RANGE,
    LITERAL_DATE,
    LITERAL_DAY,
    LITERAL_WINDOW
};

struct literal {
    enum literal_kind kind;
    struct span at;
    /* Measures and ranges, in `unit` as typed, not in base units; of a measure all three
     * are equal. Without `around` the value is the middle. */
    double low, value, high;
    struct unit_id unit;
    bool around;          /* the likely value was typed */
    struct date date;     /* LITERAL_DATE */
    struct month_day day; /* LITERAL_DAY */
    struct window window; /* LITERAL_WINDOW */
};

/* Reads a text of host->sources; only `sources`, `units` and `warnings` of the host are
 * used. False when there are faults (all of the text, in order of the source; file-size,
 * nesting-deep, memory too): *out is NULL then. Never raises. */
__attribute__((warn_unused_result)) bool literals_read(struct lua_State *L,
                                                       struct host *host, uint32_t source,
                                                       struct script **out,
                                                       struct faults *faults);
void script_free(struct script *s);

uint32_t script_source(const struct script *s);
/* The whole rewritten text; borrowed until script_free, NUL-terminated. */
const char *script_text(const struct script *s, size_t *length);
/* The same as Lua's own loader of files hands it on: without a byte order mark, without a
 * first line that starts with # (but with its newline, so that lines keep their
 * number). */
const char *script_lua(const struct script *s, size_t *length);
size_t script_literals(const struct script *s);
/* i from 0: `__lit[N]` is literal N - 1. */
const struct literal *script_literal(const struct script *s, size_t i);

/* Is there a word in it without which a script of Lua ends by itself: for, while, repeat,
 * goto, function? (True when out of memory.) */
bool script_may_loop(struct script *s, const struct sources *all);

/* Places for messages. The tokens of the text are read again on the first question and
 * kept. Each answers SPAN_NONE when there is nothing of the kind. */

/* The name in a call on that line (`cut` of `cut { ... }`): the first of the line that is
 * called, else one whose string ends on the line, else the first of that name, else the
 * nearest that is called on another line. */
struct span script_call_at(struct script *s, const struct sources *all, uint32_t line,
                           const char *name);
/* `key` among the keys of the table that the call at `call` is given, and what stands
 * behind its `=` (the whole value where it ends on its line, else its first token). A
 * key's own place serves as `call` for the table that is its value. */
struct span script_key_in_call(struct script *s, const struct sources *all,
                               struct span call, const char *key);
/* The first token of an entry, from 1, of the list that the call is given, or that is the
 * value of a key; an entry's own place serves as `call` where it is a table. */
struct span script_entry_in_call(struct script *s, const struct sources *all,
                                 struct span call, uint32_t entry);
struct span script_value_of_key(struct script *s, const struct sources *all,
                                struct span call, const char *key);
/* The inside of the string that is the value of a key, without its quotes or brackets;
 * with "" for the key, of the string that the call is given in place of a table. */
struct span script_string_at(struct script *s, const struct sources *all,
                             struct span call, const char *key);
/* The place of bytes `offset` to `offset + length` of that string's value: escapes and
 * \r\n make a value shorter than what was typed. */
struct span script_inside_string(const struct script *s, const struct sources *all,
                                 struct span inside, size_t offset, size_t length);
/* The first such operator ("+", "//", "..", "==") on the line, and its two operands as
 * far as they can be told: names with their fields, calls, literals, strings,
 * brackets. */
struct span script_operator_at(struct script *s, const struct sources *all, uint32_t line,
                               const char *symbol);
bool script_operands(struct script *s, const struct sources *all, struct span symbol,
                     struct span *left, struct span *right);

#endif
