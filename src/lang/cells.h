/* cells.h: blocks of memory that Lua takes and gives back like any other, and that carry
 * a number out of Lua's reach: when Lua gives one back, the owner of the number is told.
 * So a value can hold something of ours without a finalizer, which is slower and runs
 * without a hook.
 *
 *     cells_want(&c, slot);            // the next block of that size is a cell
 *     lua_newuserdatauv(L, 0, 0);      // when Lua frees it: c.dead(owner, slot)
 *     cells_number(&c, lua_touserdata(L, -1)) == slot
 *
 * Safe when Lua jumps in between (the number waits for the next block, or is handed back
 * by cells_want and cells_clear), in emergency collections and when the state is closed.
 * No knowledge of Lua's layout: the number lies before the block that Lua sees. */
#ifndef SPINNEY_LANG_CELLS_H
#define SPINNEY_LANG_CELLS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

/* A chunk of cells lies at a multiple of its size, so that the chunk of an address is one
 * mask. */
enum { CELLS_CHUNK = 1 << 16, CELLS_NUMBER = 8 };

struct cells {
    void (*dead)(void *owner, uint32_t number);
    void *owner;
    size_t block;      /* bytes Lua asks for; 0 until learned */
    size_t cell;       /* bytes of a cell: the number and the block */
    size_t payload;    /* from the start of a block to what Lua shows of it */
    uint32_t waiting;  /* the number of the next cell; 0 for none */
    char *last;        /* the block given last */
    void *unused;      /* cells given back, as a list */
    char *fresh, *fresh_end; /* the part of the newest chunk never used */
    uintptr_t *chunks; /* a hash set of chunk addresses, 0 for empty */
    uintptr_t recent;  /* the chunk found last */
    size_t room, count;
};

void cells_init(struct cells *c);
/* Hands back the waiting number and frees all chunks: after lua_close. */
void cells_clear(struct cells *c);
/* Blocks of this size can be cells from now on. */
void cells_size(struct cells *c, size_t block);
/* The payload of the block that cells_take gave last lies there; its number is taken off.
 *  */
void cells_payload(struct cells *c, const void *payload);
/* `number` (not 0) belongs to the next cell; one still waiting is handed back. */
void cells_want(struct cells *c, uint32_t number);
/* A cell's block for the waiting number; NULL when out of memory. */
void *cells_take(struct cells *c);
/* Is there a chunk at that address? Keeps it as the recent one. */
bool cells_chunk(struct cells *c, uintptr_t chunk);
/* Was this block made by cells_take? Any address in it will do. */
static inline bool cells_hold(struct cells *c, const void *address)
{
    uintptr_t chunk = (uintptr_t)address & ~(uintptr_t)(CELLS_CHUNK - 1);
    return chunk == c->recent || cells_chunk(c, chunk);
}
/* The number of the cell with that payload; 0 for the payload of any other block. */
static inline uint32_t cells_number(struct cells *c, const void *payload)
{
    uint32_t number;
    const char *block = (const char *)((uintptr_t)payload - c->payload);
    if (!cells_hold(c, block))
        return 0;
    memcpy(&number, block - CELLS_NUMBER, sizeof number);
    return number;
}
/* Only for what cells_take made: tells the owner. */
void cells_give(struct cells *c, void *block);

#endif
