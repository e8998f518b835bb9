#include "quantity/graph_pool.h"

#include <string.h>

/* Eight bytes at a time: a leaf's place is hashed whenever one is made. */
static uint32_t hash_bytes(const char *bytes, size_t length)
{
    uint64_t h = length, piece;
    for (; length >= sizeof piece; bytes += sizeof piece, length -= sizeof piece) {
        memcpy(&piece, bytes, sizeof piece);
        h = (h ^ piece) * UINT64_C(0x9e3779b97f4a7c15);
        h ^= h >> 32;
    }
    piece = 0;
    memcpy(&piece, bytes, length);
    h = (h ^ piece) * UINT64_C(0x9e3779b97f4a7c15);
    return (uint32_t)(h >> 32);
}

static uint32_t *bucket(const struct pool *p, uint32_t hash)
{
    return &p->buckets[hash & (p->capacity - 1)];
}

static bool enlarge(struct pool *p, const struct memory *m)
{
    size_t wanted = p->capacity ? p->capacity * 2 : 16;
    if (wanted > UINT32_MAX / 2)
        return false;
    uint32_t *buckets = memory_resize(m, NULL, 0, wanted * sizeof *buckets);
    if (!buckets)
        return false;
    struct pool_entry *entries = memory_resize(m, p->entries,
                                               p->capacity * sizeof *entries,
                                               wanted * sizeof *entries);
    if (!entries) {
        memory_resize(m, buckets, wanted * sizeof *buckets, 0);
        return false;
    }
    memory_resize(m, p->buckets, p->capacity * sizeof *buckets, 0);
    p->bytes += (wanted - p->capacity) * (sizeof *entries + sizeof *buckets);
    p->entries = entries;
    p->buckets = buckets;
    p->capacity = wanted;
    memset(buckets, 0, wanted * sizeof *buckets);
    if (p->count == 0)
        entries[p->count++] = (struct pool_entry){ .bytes = NULL };
    for (uint32_t i = 1; i < p->count; i++) {
        if (!entries[i].bytes)
            continue;
        uint32_t *head = bucket(p, entries[i].hash);
        entries[i].next = *head;
        *head = i;
    }
    return true;
}

uint32_t pool_put(struct pool *p, const struct memory *m, const void *bytes,
                  size_t length)
{
    uint32_t hash = hash_bytes(bytes, length);
    for (uint32_t i = p->capacity ? *bucket(p, hash) : 0; i; i = p->entries[i].next) {
        const struct pool_entry *e = &p->entries[i];
        if (e->hash == hash && e->length == length
            && memcmp(e->bytes, bytes, length) == 0)
            return i;
    }
    if (!p->free && p->count == p->capacity && !enlarge(p, m))
        return 0;
    char *copy = memory_resize(m, NULL, 0, length + 1);
    if (!copy)
        return 0;
    memcpy(copy, bytes, length);
    copy[length] = '\0';
    p->bytes += length + 1;
    uint32_t id = p->free;
    if (id)
        p->free = p->entries[id].next;
    else
        id = (uint32_t)p->count++;
    uint32_t *head = bucket(p, hash);
    p->entries[id] = (struct pool_entry){ copy, length, hash, *head, false };
    *head = id;
    return id;
}

void pool_sweep(struct pool *p, const struct memory *m)
{
    if (p->capacity == 0)
        return;
    memset(p->buckets, 0, p->capacity * sizeof *p->buckets);
    for (uint32_t i = 1; i < p->count; i++) {
        struct pool_entry *e = &p->entries[i];
        if (!e->bytes)
            continue;
        if (e->used) {
            uint32_t *head = bucket(p, e->hash);
            e->next = *head;
            e->used = false;
            *head = i;
            continue;
        }
        p->bytes -= e->length + 1;
        memory_resize(m, e->bytes, e->length + 1, 0);
        *e = (struct pool_entry){ .next = p->free };
        p->free = i;
    }
}

void pool_clear(struct pool *p, const struct memory *m)
{
    for (size_t i = 1; i < p->count; i++)
        if (p->entries[i].bytes)
            memory_resize(m, p->entries[i].bytes, p->entries[i].length + 1, 0);
    memory_resize(m, p->entries, p->capacity * sizeof *p->entries, 0);
    memory_resize(m, p->buckets, p->capacity * sizeof *p->buckets, 0);
    *p = (struct pool){ .count = 0 };
}
