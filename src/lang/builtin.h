/* builtin.h: the vocabulary and the book of prescriptions, built into the program.
 *
 *     const struct builtin *b = builtin_find("stdlib/schema.lua");
 *     if (b) luaL_loadbufferx(L, (const char *)b->data, b->length, b->name,
 *                             b->bytecode ? "b" : "t");
 *
 * Names are paths: "stdlib/...", "prescriptions/...", and "lang/..." or "bind/..." for
 * Lua that belongs to a room of C. Lua modules are bytecode, scripts (.rx) are text. */
#ifndef SPINNEY_LANG_BUILTIN_H
#define SPINNEY_LANG_BUILTIN_H

#include <stdbool.h>
#include <stddef.h>

struct builtin {
    const char *name;
    const unsigned char *data; /* followed by a NUL that length does not count */
    size_t length;
    bool bytecode;
};

/* NULL when nothing of that name is built in. */
const struct builtin *builtin_find(const char *name);
/* All of them, sorted by name; NULL past the last. */
const struct builtin *builtin_at(size_t index);

/* Written by src/embed.lua when the program is built. */
extern const struct builtin builtin_list[];
extern const size_t builtin_count;

#endif
