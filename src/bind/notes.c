#include "bind/notes.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "lang/face.h"
#include "lang/host.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/script.h"

/* A text that is not written where it is given: the line in it is told in words. */
static void tell_line(struct fault *f, const char *text)
{
    unsigned line = 1;
    for (uint32_t i = 0; i < f->at.at; i++)
        line += text[i] == '\n';
    size_t length = strlen(f->message);
    snprintf(f->message + length, sizeof f->message - length, " (line %u of the notes)",
             line);
}

struct notes notes_read(lua_State *L, int text, int place)
{
    struct notes n = { .source = 0 };
    n.text = luaL_checklstring(L, text, &n.length);
    n.call = face_span(L, place);
    n.key = luaL_checkstring(L, place + 1);
    n.source = (uint32_t)luaL_optinteger(L, place + 2, 0);
    return n;
}

struct span notes_place(lua_State *L, const struct notes *n, struct span at)
{
    struct host *host = host_of(L);
    if (n->source)
        return (struct span){ n->source, at.at, at.length };
    struct script *script = load_script(host, n->call.source);
    struct span inside = SPAN_NONE;
    if (script)
        inside = script_string_at(script, host->sources, n->call, n->key);
    return inside.source
               ? script_inside_string(script, host->sources, inside, at.at, at.length)
               : SPAN_NONE;
}

static void place_fault(lua_State *L, const struct notes *n, struct fault *f)
{
    struct span at = notes_place(L, n, f->at);
    if (!at.source)
        tell_line(f, n->text);
    f->at = at.source ? at : n->call;
    if (f->other.length > 0)
        f->other = notes_place(L, n, f->other);
    host_chain_tell(L, f);
}

void notes_tell(lua_State *L, const struct notes *n, struct fault *f)
{
    place_fault(L, n, f);
    faults_add(&host_of(L)->faults, f);
}

void notes_warn(lua_State *L, const struct notes *n, struct fault *f)
{
    place_fault(L, n, f);
    faults_add(&host_of(L)->warnings, f);
}
