#include "lang/narrow.h"

#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "lang/host.h"
#include "lang/index.h"
#include "lang/load.h"
#include "lang/raise.h"

static bool is_line(const struct host *host, struct span at)
{
    if (at.source == 0)
        return false;
    struct span line =
        source_line(host->sources, at.source, source_place(host->sources, at).line);
    return line.at == at.at && line.length == at.length;
}

static bool narrow_to(const struct host *host, struct fault *f, const char *name)
{
    struct script *script =
        host->loads && is_line(host, f->at) ? load_script(host, f->at.source) : NULL;
    struct index t;
    if (!script || !index_of(script, host->sources, &t))
        return false;
    size_t found = t.count, count = 0;
    uint32_t line = source_place(host->sources, f->at).line;
    for (size_t i = index_line(&t, line); i < t.count && t.list[i].line == line; i++) {
        bool word =
            index_is_kind(&t, i, TOKEN_NAME) || index_is_kind(&t, i, TOKEN_KEYWORD);
        if (word && index_is_text(&t, i, name)) {
            found = i;
            count++;
        }
    }
    if (count == 1)
        f->at = index_span(&t, found, found);
    return count == 1;
}

static bool is_question(const struct index *t, size_t i)
{
    if (i >= t->count)
        return false;
    switch (t->list[i].kind == TOKEN_KEYWORD ? t->list[i].keyword : KEYWORD_NONE) {
    case KEYWORD_OR:
    case KEYWORD_AND:
    case KEYWORD_NOT:
    case KEYWORD_THEN:
    case KEYWORD_DO: return true;
    default: return index_is_text(t, i, "==") || index_is_text(t, i, "~=");
    }
}

bool narrow_is_asked(const struct host *host, struct span line, const char *name)
{
    struct script *script = host->loads ? load_script(host, line.source) : NULL;
    struct index t;
    if (!script || !index_of(script, host->sources, &t))
        return false;
    uint32_t number = source_place(host->sources, line).line;
    for (size_t i = index_line(&t, number); i < t.count && t.list[i].line == number; i++)
        if (index_is_kind(&t, i, TOKEN_NAME) && index_is_text(&t, i, name) &&
            (is_question(&t, i + 1) || (i > 0 && is_question(&t, i - 1))))
            return true;
    return false;
}

void narrow_call(struct lua_State *L, struct fault *f, int first)
{
    const struct host *host = host_of(L);
    lua_Debug ar, callee;
    struct span line;
    if (!is_line(host, f->at))
        return;
    for (int level = first; lua_getstack(L, level, &ar); level++) {
        lua_getinfo(L, "Sl", &ar);
        bool author = ar.source[0] == '@' && ar.currentline > 0 &&
                      sources_find(host->sources, ar.source + 1) == f->at.source;
        if (!author)
            continue;
        line = source_line(host->sources, f->at.source, (uint32_t)ar.currentline);
        if (line.at != f->at.at || level == first || !lua_getstack(L, level - 1, &callee))
            return;
        lua_getinfo(L, "n", &callee);
        if (callee.name && strcmp(callee.namewhat, "metamethod") != 0)
            narrow_to(host, f, callee.name);
        return;
    }
}

void narrow_word(const struct host *host, struct fault *f)
{
    char name[64];
    const char *start = strchr(f->message, '`');
    const char *end = start ? strchr(start + 1, '`') : NULL;
    if (!end || (size_t)(end - start) > sizeof name)
        return;
    snprintf(name, sizeof name, "%.*s", (int)(end - start - 1), start + 1);
    narrow_to(host, f, name);
}
