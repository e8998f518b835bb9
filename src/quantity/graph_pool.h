/* graph_pool.h: byte strings kept once each: names, words, places in scripts.
 *
 *     uint32_t id = pool_put(&p, &memory, "felling cost", 12);   // 0: out of memory
 *     puts(pool_get(&p, id));                                     // NUL-terminated
 *     pool_use(&p, id); ...; pool_sweep(&p, &memory);             // the unused ones go
 *
 * Found by content, so a loop that makes a million leaves at one place keeps one. Ids of
 * strings still in use do not change in a sweep. */
#ifndef SPINNEY_QUANTITY_GRAPH_POOL_H
#define SPINNEY_QUANTITY_GRAPH_POOL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "quantity/memory.h"

struct pool_entry {
    char *bytes; /* NULL while the entry is free */
    size_t length;
    uint32_t hash;
    uint32_t next; /* in its bucket, or the next free entry */
    bool used;     /* seen since the last sweep */
};

struct pool {
    struct pool_entry *entries; /* entry 0 is never given out */
    size_t count, capacity;
    uint32_t *buckets; /* a power of two of them, as many as `capacity` */
    uint32_t free;
    size_t bytes; /* all that is held, for graph_bytes */
};

uint32_t pool_put(struct pool *p, const struct memory *m, const void *bytes,
                  size_t length);
static inline const char *pool_get(const struct pool *p, uint32_t id)
{
    return p->entries[id].bytes;
}
static inline void pool_use(struct pool *p, uint32_t id)
{
    p->entries[id].used = true;
}
void pool_sweep(struct pool *p, const struct memory *m);
void pool_clear(struct pool *p, const struct memory *m);

#endif
