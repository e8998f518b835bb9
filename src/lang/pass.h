/* pass.h: the literal pass at work on one text: what its files (literals.c, operand.c,
 * amount.c, measures.c, dates.c, equals.c) share.
 *
 *     size_t next = settle_number(p, at);    // a site: reads on, accepts or refuses
 *     return pass_refuse(p, &f, at, end);    // the text from at to end is no literal
 *
 * A site is a token at which the pattern of literals.lua stopped. Whatever settles one
 * returns the place where the pattern goes on, further on than the site. */
#ifndef SPINNEY_LANG_PASS_H
#define SPINNEY_LANG_PASS_H

#include "base/buf.h"
#include "base/fault.h"
#include "lang/host.h"
#include "lang/scope.h"
#include "lang/script_inner.h"

struct pass {
    struct lua_State *L;
    struct host *host;
    struct units *units;
    uint32_t source;
    const char *text;
    size_t length;
    struct script *script;
    struct faults *faults;
    struct buf out;
    size_t copied; /* the text up to here is in `out` */
    struct stretch *settled;
    size_t settled_count, settled_room;
    struct scope scope; /* never further than `site` */
    size_t site;        /* where the literal at hand starts */
    bool compares;      /* there is an == or ~= beside a number */
    bool ended;         /* Lua itself can read no further */
    bool refused;
};

/* A number and the unit behind it. */
struct amount {
    size_t at, number_end, end; /* end: of the unit, else of the number */
    size_t unit_at;
    bool has_unit;
    double value;
    struct unit_id unit;
    size_t last_group; /* of 1,200,300 as plain Lua: where 300 starts; else 0 */
};

struct span pass_span(const struct pass *p, size_t at, size_t end);
/* Adds the fault and remembers the stretch, so that nothing is said about it twice.
 * Returns `end`. */
size_t pass_refuse(struct pass *p, const struct fault *f, size_t at, size_t end);
/* Brings the scope to the site. When that fails the pass ends, with its fault. */
bool pass_look(struct pass *p);
/* The token behind `end`; *same_line tells whether it is on the line of `end`. */
struct token pass_next(const struct pass *p, size_t end, bool *same_line);
bool pass_token_is(const struct pass *p, const struct token *t, const char *word);

/* literals.c: writes a literal where its text stood, unless operand_stands refuses. */
size_t settle_literal(struct pass *p, struct literal *made, size_t at, size_t end);

/* operand.c: may one operand stand from at to end? What is before or behind it could make
 * a call, an index or a statement of it; *close asks for a `;` behind it. False without a
 * fault where the trouble has been told already. */
bool operand_stands(struct pass *p, const struct literal *made, size_t at, size_t end,
                    bool *close, struct fault *f);
/* Would Lua refuse a name behind a number, with `next` behind that name? Else the name
 * begins a statement. The scope is at the number. */
bool name_is_lost(const struct pass *p, const struct token *next);
/* Does an expression end with this token? */
bool ends_operand(const struct token *t);
bool is_arithmetic(const struct token *t);
bool is_symbol(const struct token *t, uint16_t symbol);

/* amount.c: reads a number with its unit. False when it was refused: `a->end` is where to
 * go on then. */
bool amount_read(struct pass *p, size_t at, struct amount *a);
/* How many bytes a unit takes at `at`, behind a number; 0 for none. */
size_t unit_size(const struct pass *p, size_t at, struct unit_id *unit);
/* Is the word `to` at `at`, with a blank behind it? */
bool is_range_to(const struct pass *p, size_t at);

/* measures.c */
size_t settle_number(struct pass *p, size_t at);
size_t settle_to(struct pass *p, size_t at);
/* dates.c: a name before a number, or `14 Oct 2026` (a number before a month). */
size_t settle_name(struct pass *p, size_t at);
bool is_month(const char *word, size_t length);
size_t refuse_day_first(struct pass *p, const struct amount *day, size_t month_at);
/* equals.c: warnings about == between a measure and a bare number. */
void warn_of_equals(struct pass *p);

/* `%.*s` of a stretch of the text, cut where it is long. */
#define QUOTED(p, from, to) \
    (int)((to) - (from) > 60 ? 60 : (to) - (from)), (p)->text + (from)

#endif
