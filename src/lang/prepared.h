/* prepared.h: the scripts that are built in, read when the program was built: their
 * literals and their Lua as bytecode, so that a run need not read them again.
 *
 *     const struct prepared *p = prepared_find("stdlib/base/rules.rx");
 *     struct script *s = p ? script_of_prepared(source, text, length, p, units, f) : NULL;
 *
 * src/prepare.c writes them with the very reader that reads a script from outside. The text
 * stays built in as well, for messages (builtin.h). */
#ifndef SPINNEY_LANG_PREPARED_H
#define SPINNEY_LANG_PREPARED_H

#include "lang/script.h"

struct prepared_literal {
    enum literal_kind kind;
    uint32_t at, length;
    double low, value, high;
    const char *unit; /* as it is printed; NULL for dates, windows and bare numbers */
    bool around;
    struct date date;
    struct month_day day;
    struct window window;
};

struct prepared {
    const char *name;
    const unsigned char *code;
    size_t code_length;
    const struct prepared_literal *literals;
    size_t literal_count;
};

/* NULL when nothing of that name is built in. */
const struct prepared *prepared_find(const char *name);
/* A script without Lua text; NULL with the fault when out of memory. */
struct script *script_of_prepared(uint32_t source, const char *text, size_t length,
                                  const struct prepared *p, struct units *units,
                                  struct fault *f);

/* Written by src/prepare.c when the program is built; sorted by name. */
extern const struct prepared prepared_list[];
extern const size_t prepared_count;

#endif
