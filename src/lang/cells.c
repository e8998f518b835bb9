#include "lang/cells.h"

#include <stdlib.h>
#include <string.h>

void cells_init(struct cells *c)
{
    memset(c, 0, sizeof *c);
}

void cells_clear(struct cells *c)
{
    if (c->waiting != 0 && c->dead)
        c->dead(c->owner, c->waiting);
    for (size_t i = 0; i < c->room; i++)
        free((void *)c->chunks[i]);
    free(c->chunks);
    cells_init(c);
}

void cells_size(struct cells *c, size_t block)
{
    c->block = block;
    c->cell = CELLS_NUMBER + (block + CELLS_NUMBER - 1) / CELLS_NUMBER * CELLS_NUMBER;
}

void cells_payload(struct cells *c, const void *payload)
{
    c->payload = (size_t)((const char *)payload - c->last);
    memset(c->last - CELLS_NUMBER, 0, CELLS_NUMBER);
}

void cells_want(struct cells *c, uint32_t number)
{
    if (c->waiting != 0)
        c->dead(c->owner, c->waiting);
    c->waiting = number;
}

static size_t start_at(uintptr_t chunk, size_t room)
{
    return (size_t)(chunk / CELLS_CHUNK) & (room - 1);
}

static void chunks_put(uintptr_t *chunks, size_t room, uintptr_t chunk)
{
    size_t i = start_at(chunk, room);
    while (chunks[i] != 0)
        i = (i + 1) & (room - 1);
    chunks[i] = chunk;
}

/* The set is never more than half full, so that looking up one that is not there ends. */
static bool chunks_grow(struct cells *c)
{
    if ((c->count + 1) * 2 <= c->room)
        return true;
    size_t room = c->room == 0 ? 64 : c->room * 2;
    uintptr_t *chunks = calloc(room, sizeof *chunks);
    if (!chunks)
        return false;
    for (size_t i = 0; i < c->room; i++) {
        if (c->chunks[i] != 0)
            chunks_put(chunks, room, c->chunks[i]);
    }
    free(c->chunks);
    c->chunks = chunks;
    c->room = room;
    return true;
}

static bool chunk_add(struct cells *c)
{
    if (!chunks_grow(c))
        return false;
    char *chunk = aligned_alloc(CELLS_CHUNK, CELLS_CHUNK);
    if (!chunk)
        return false;
    chunks_put(c->chunks, c->room, (uintptr_t)chunk);
    c->count++;
    c->fresh = chunk;
    c->fresh_end = chunk + CELLS_CHUNK;
    return true;
}

void *cells_take(struct cells *c)
{
    char *block;
    if (c->unused) {
        block = c->unused;
        memcpy(&c->unused, block, sizeof c->unused);
    } else {
        if ((size_t)(c->fresh_end - c->fresh) < c->cell && !chunk_add(c))
            return NULL;
        block = c->fresh + CELLS_NUMBER;
        c->fresh += c->cell;
    }
    memcpy(block - CELLS_NUMBER, &c->waiting, sizeof c->waiting);
    c->waiting = 0;
    c->last = block;
    return block;
}

bool cells_chunk(struct cells *c, uintptr_t chunk)
{
    if (c->count == 0)
        return false;
    size_t i = start_at(chunk, c->room);
    while (c->chunks[i] != 0) {
        if (c->chunks[i] == chunk) {
            c->recent = chunk;
            return true;
        }
        i = (i + 1) & (c->room - 1);
    }
    return false;
}

void cells_give(struct cells *c, void *block)
{
    uint32_t number;
    memcpy(&number, (char *)block - CELLS_NUMBER, sizeof number);
    memcpy(block, &c->unused, sizeof c->unused);
    c->unused = block;
    if (number != 0)
        c->dead(c->owner, number);
}
