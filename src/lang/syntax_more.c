/* The slips behind the first: the parser starts again at the next statement. */
#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lang/host.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/syntax.h"
#include "lang/syntax_inner.h"

enum { MORE_MOST = 4 };

static bool in_first_column(const struct index *t, size_t i)
{
    size_t at = t->list[i].at;
    return at == 0 || t->text[at - 1] == '\n' || t->text[at - 1] == '\r';
}

/* Does a statement begin there, for all that can be seen? A name with `=` behind it may as
 * well be a key of a table that was not indented. */
static bool begins(const struct index *t, size_t i)
{
    if (!in_first_column(t, i))
        return false;
    if (index_is_kind(t, i, TOKEN_NAME))
        return index_is_kind(t, i + 1, TOKEN_STRING) || index_is_sign(t, i + 1, '{') ||
               index_is_sign(t, i + 1, '(');
    if (!index_is_kind(t, i, TOKEN_KEYWORD))
        return false;
    switch (t->list[i].keyword) {
    case KEYWORD_LOCAL:
    case KEYWORD_FUNCTION:
    case KEYWORD_FOR:
    case KEYWORD_IF:
    case KEYWORD_WHILE:
    case KEYWORD_REPEAT: return true;
    default: return false;
    }
}

/* The first statement that begins behind a place; `count` for none. */
static size_t next_statement(const struct index *t, size_t behind)
{
    size_t i = 0;
    while (i < t->count && (t->list[i].at <= behind || !begins(t, i)))
        i++;
    return i;
}

/* What the parser says of the text from this token on; NULL when nothing. On the stack.
 * Raises nothing: the text is held outside of Lua. */
static const char *said_of(lua_State *L, const struct index *t, char *plain, size_t from)
{
    char chunk[1024]; /* as in host_load */
    snprintf(chunk, sizeof chunk, "@%s", source_name(host_of(L)->sources, t->source));
    for (size_t i = 0; i < t->list[from].at; i++)
        if (plain[i] != '\n' && plain[i] != '\r')
            plain[i] = ' ';
    if (luaL_loadbufferx(L, plain, t->length, chunk, "t") != LUA_ERRSYNTAX)
        return NULL;
    return lua_tostring(L, -1);
}

/* May be wrong only because of what was left out. */
static bool follows(const char *said)
{
    return strstr(said, "<eof> expected") || strstr(said, "no visible label") ||
           strstr(said, "break outside") || strstr(said, "overflow") ||
           strstr(said, "C levels");
}

void syntax_more(lua_State *L, uint32_t id, const struct fault *first, struct faults *all)
{
    const struct host *host = host_of(L);
    struct script *script = host->loads ? load_script(host, id) : NULL;
    struct index t;
    if (first->at.source != id || !script || !index_of(script, host->sources, &t))
        return;
    char *plain = syntax_plain(&t);
    size_t behind = first->at.at;
    for (int n = 0; plain && n < MORE_MOST; n++) {
        struct fault f = { 0 };
        size_t from = next_statement(&t, behind);
        int top = lua_gettop(L);
        const char *said = from < t.count ? said_of(L, &t, plain, from) : NULL;
        if (said && !follows(said)) {
            struct index rest = t;
            rest.list += from;
            rest.count -= from;
            syntax_say(L, &rest, said, &f);
        }
        lua_settop(L, top);
        if (!fault_is_set(&f) || f.at.source != id || f.at.at < t.list[from].at)
            break;
        host_chain_tell(L, &f);
        faults_add(all, &f);
        behind = f.at.at;
    }
    free(plain);
}
