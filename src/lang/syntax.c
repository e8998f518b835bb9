#include "lang/syntax.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lang/host.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "lang/syntax_inner.h"

enum { CANDIDATES_MOST = 64 };

/* Where brackets stand inside one another deepest, for texts that Lua refuses as too deep;
 * strings and comments are not looked at, so it is a guess. */
static struct span deepest(uint32_t id, const char *text, size_t length)
{
    size_t depth = 0, most = 0, at = 0;
    for (size_t i = 0; i < length; i++) {
        if (strchr("([{", text[i]) && text[i] != '\0' && ++depth > most) {
            most = depth;
            at = i;
        } else if (strchr(")]}", text[i]) && text[i] != '\0' && depth > 0) {
            depth--;
        }
    }
    return (struct span){ id, (uint32_t)at, 1 };
}

/* What the parser makes of it is what it made of the text that was loaded. */
char *syntax_plain(const struct index *t)
{
    char *copy = malloc(t->length + 1);
    if (!copy)
        return NULL;
    memcpy(copy, t->text, t->length);
    copy[t->length] = '\0';
    for (size_t i = 0; i < t->count; i++) {
        if (t->list[i].kind != TOKEN_LITERAL)
            continue;
        memset(copy + t->list[i].at, ' ', t->list[i].length);
        copy[t->list[i].at] = '0';
    }
    return copy;
}

/* Does the parser say the same when it gets no more than this much? */
static bool says_same(lua_State *L, const char *start, size_t length, const char *words)
{
    bool failed = luaL_loadbufferx(L, start, length, "=x", "t") == LUA_ERRSYNTAX;
    const char *said = failed ? lua_tostring(L, -1) : "";
    size_t wanted = strlen(words), got = strlen(said);
    bool same = got >= wanted && strcmp(said + got - wanted, words) == 0;
    lua_pop(L, 1);
    return same;
}

static bool is_near(const struct syntax *s, size_t i)
{
    unsigned byte;
    if (sscanf(s->near, "<\\%u>", &byte) == 1)
        return (unsigned char)s->t.text[s->t.list[i].at] == byte;
    return index_is_text(&s->t, i, s->near);
}

/* The token that Lua did not want: the only such one of the line, or the first behind
 * which the text may end without another word from the parser. */
static void find_token(lua_State *L, struct syntax *s)
{
    size_t candidates[CANDIDATES_MOST], count = 0;
    uint32_t number = source_place(s->all, s->line).line;
    for (size_t i = index_line(&s->t, number);
         i < s->t.count && s->t.list[i].line == number && count < CANDIDATES_MOST; i++)
        if (is_near(s, i))
            candidates[count++] = i;
    if (count == 1)
        s->at = candidates[0];
    char *copy = count > 1 ? syntax_plain(&s->t) : NULL;
    for (size_t i = 0; copy && i < count && s->at == s->t.count; i++) {
        const struct token *t = &s->t.list[candidates[i]];
        size_t from = s->t.list[0].at;
        if (says_same(L, copy + from, t->at + t->length - from, s->words))
            s->at = candidates[i];
    }
    free(copy);
}

size_t syntax_open(const struct syntax *s, size_t i)
{
    size_t depth = 0;
    while (i-- > 0) {
        int change = index_nesting(&s->t, i); /* `while` and `for` open at their `do` */
        if (change < 0)
            depth++;
        else if (change > 0 && depth == 0)
            return i;
        else if (change > 0)
            depth--;
    }
    return s->t.count;
}

static void read_near(struct syntax *s)
{
    const char *near = NULL;
    for (const char *at = s->words; (at = strstr(at, " near ")) != NULL; at += 6)
        near = at + 6;
    if (!near) { /* to Lua a NUL is no token at all */
        if (strcmp(s->words, "unexpected symbol") == 0)
            strcpy(s->near, "<\\0>");
        return;
    }
    s->at_end = strcmp(near, "<eof>") == 0 || strcmp(near, "'<eof>'") == 0;
    size_t length = strlen(near);
    if (length >= 2 && near[0] == '\'' && near[length - 1] == '\'') {
        near++;
        length -= 2;
    }
    snprintf(s->near, sizeof s->near, "%.*s", (int)(length < 79 ? length : 79), near);
}

/* Without tokens (out of memory) it is Lua's own words. */
void syntax_say(lua_State *L, const struct index *t, const char *said, struct fault *out)
{
    struct syntax s = { .all = host_of(L)->sources,
                        .t = *t,
                        .at = t->count,
                        .out = out,
                        .line = { t->source, 0, 0 } };
    const char *words = raise_prefix(L, said, &s.line);
    s.words = words ? words : said;
    read_near(&s);
    if (t->list) {
        if (!s.at_end)
            find_token(L, &s);
        if (syntax_tell(&s))
            return;
    }
    if (s.at_end)
        fault_set(out, "syntax", s.line, "%.*s at the end of the file",
                  (int)(strstr(s.words, " near ") - s.words), s.words);
    else
        fault_set(out, "syntax", s.line, "%s", s.words);
}

void syntax_fault(lua_State *L, uint32_t id, const char *said, struct fault *out)
{
    const struct host *host = host_of(L);
    struct script *script = host->loads ? load_script(host, id) : NULL;
    size_t length;
    const char *text = source_text(host->sources, id, &length);
    if (strstr(said, "stack overflow") || strstr(said, "C levels")) {
        fault_set(out, "limit-depth", deepest(id, text, length),
                  "too many brackets or blocks inside one another");
        fault_hint(out, "name the inner parts with `local`");
        return;
    }
    struct index t = { .source = id };
    if (!script || !index_of(script, host->sources, &t))
        t = (struct index){ .source = id };
    syntax_say(L, &t, said, out);
}
