/* What led to where a script is, and its words behind a fault. */
#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "lang/host.h"
#include "lang/raise_inner.h"

static struct link *push(lua_State *L, const char *words)
{
    struct raise *r = raise_of(L);
    struct link *link = r->depth < CHAIN_MOST ? &r->chain[r->depth] : NULL;
    r->depth++;
    if (!link)
        return NULL;
    size_t length = strnlen(words, sizeof link->words - 1);
    memcpy(link->words, words, length);
    link->words[length] = '\0';
    link->where = NULL;
    return link;
}

void host_chain_push(lua_State *L, const char *words, struct span at)
{
    struct link *link = push(L, words);
    if (link)
        link->at = at;
}

void host_chain_push_place(lua_State *L, const char *words,
                           struct span (*where)(lua_State *, int64_t), int64_t place)
{
    struct link *link = push(L, words);
    if (link) {
        link->where = where;
        link->place = place;
    }
}

static struct span link_at(lua_State *L, const struct link *link)
{
    return link->where ? link->where(L, link->place) : link->at;
}

struct span raise_chain_place(lua_State *L)
{
    const struct raise *r = raise_of(L);
    bool kept = r && r->depth > 0 && r->depth <= CHAIN_MOST;
    return kept ? link_at(L, &r->chain[r->depth - 1]) : SPAN_NONE;
}

void host_chain_pop(lua_State *L)
{
    struct raise *r = raise_of(L);
    if (r->depth > 0)
        r->depth--;
}

size_t host_chain_depth(lua_State *L)
{
    const struct raise *r = raise_of(L);
    return r ? r->depth : 0;
}

void host_chain_cut(lua_State *L, size_t depth)
{
    struct raise *r = raise_of(L);
    if (r && depth < r->depth)
        r->depth = depth;
}

static bool same_line(const struct sources *all, struct span a, struct span b)
{
    return a.source == b.source && a.source != 0 &&
           source_place(all, a).line == source_place(all, b).line;
}

/* Innermost first; what a deeper host_call has already said is not said again. */
void host_chain_tell(lua_State *L, struct fault *f)
{
    const struct host *host = host_of(L);
    const struct raise *r = raise_of(L);
    if (!r)
        return;
    size_t from = r->depth < CHAIN_MOST ? r->depth : CHAIN_MOST;
    for (size_t i = from; i > 0; i--) {
        const struct link *link = &r->chain[i - 1];
        struct span at = link_at(L, link);
        /* What happens after the script has no line of its own running: its act's is it.
         *  */
        fault_place(f, at);
        if (same_line(host->sources, f->at, at))
            continue;
        char said[240];
        if (at.source != 0) {
            struct place p = source_place(host->sources, at);
            snprintf(said, sizeof said, ", in %s, applied at %.80s:%u", link->words,
                     p.file, (unsigned)p.line);
        } else {
            snprintf(said, sizeof said, ", in %s", link->words);
        }
        size_t length = strlen(f->message), more = strlen(said);
        if (strstr(f->message, said) || length + more >= sizeof f->message)
            continue;
        memcpy(f->message + length, said, more + 1);
    }
}
