/* string.find, match, gmatch and gsub over our own matcher (pattern.h). */
#include <lauxlib.h>
#include <string.h>

#include "lang/host.h"
#include "lang/library.h"
#include "lang/limits.h"
#include "lang/pattern.h"
#include "lang/raise.h"

enum { STEPS_PER_TICK = 4 };

struct search {
    const char *function; /* its name, for messages */
    struct pattern p;
    bool anchored;  /* the pattern starts with ^ */
    uint64_t steps; /* allowed at the start */
};

static void search_init(lua_State *L, struct search *s, const char *function,
                        bool may_anchor)
{
    size_t length, text_length;
    const char *subject = luaL_checklstring(L, 1, &length);
    const char *text = luaL_checklstring(L, 2, &text_length);
    const struct limits *l = host_of(L)->limits;
    uint64_t left = limits_left(l);
    s->function = function;
    s->steps = l->pattern_most;
    if (left < s->steps / STEPS_PER_TICK)
        s->steps = left * STEPS_PER_TICK;
    s->anchored = may_anchor && text_length > 0 && *text == '^';
    if (s->anchored) {
        text++;
        text_length--;
    }
    pattern_init(&s->p, subject, length, text, text_length, s->steps);
}

/* Raises when the pattern is malformed or takes too long. */
static void search_check(lua_State *L, const struct search *s)
{
    const struct limits *l = host_of(L)->limits;
    /* What ran out was what the script had left, not what one pattern may take. */
    if (s->p.out_of_steps && limits_left(l) < l->pattern_most / STEPS_PER_TICK)
        limits_charge(L, limits_left(l) + 1);
    if (s->p.out_of_steps)
        limits_stop(L, "limit-pattern",
                    "a shorter text, or fewer `.-`, `.*` and `?` in one pattern",
                    "`string.%s`: %s", s->function, s->p.wrong);
    if (s->p.wrong)
        luaL_error(L, "%s", s->p.wrong);
}

/* The match at `from`. */
static const char *search_at(lua_State *L, struct search *s, const char *from)
{
    const char *end = pattern_match(&s->p, from);
    if (!end)
        search_check(L, s);
    return end;
}

/* Charges what was done so far. */
static void search_charge(lua_State *L, struct search *s)
{
    uint64_t used = s->steps - s->p.steps_left;
    s->steps = s->p.steps_left;
    limits_charge(L, 1 + used / STEPS_PER_TICK);
}

/* Pushes capture i, or the whole match when it is the first and there are none. */
static void push_capture(lua_State *L, const struct pattern *p, int i, const char *start,
                         const char *end)
{
    if (i >= p->captures) {
        if (i != 0)
            luaL_error(L, "invalid capture index %%%d", i + 1);
        lua_pushlstring(L, start, (size_t)(end - start));
    } else if (p->capture[i].length == CAPTURE_OPEN) {
        luaL_error(L, "unfinished capture");
    } else if (p->capture[i].length == CAPTURE_PLACE) {
        lua_pushinteger(L, p->capture[i].start - p->subject + 1);
    } else {
        lua_pushlstring(L, p->capture[i].start, (size_t)p->capture[i].length);
    }
}

/* All captures; the whole match when there are none and `whole`. */
static int push_captures(lua_State *L, const struct pattern *p, const char *start,
                         const char *end, bool whole)
{
    int count = p->captures == 0 && whole ? 1 : p->captures;
    luaL_checkstack(L, count, "too many captures");
    for (int i = 0; i < count; i++)
        push_capture(L, p, i, start, end);
    return count;
}

/* "from the n-th character", negative from the end: as an offset, may be past the end. */
static size_t start_of(lua_State *L, int index, size_t length)
{
    lua_Integer n = luaL_optinteger(L, index, 1);
    if (n > 0)
        return (lua_Unsigned)n > length + 1 ? length + 1 : (size_t)n - 1;
    if (n == 0 || n < -(lua_Integer)length)
        return 0;
    return (size_t)((lua_Integer)length + n);
}

/* Where `what` stands in the text as it is, from offset `at`; NULL when it does not. */
static const char *find_plain(struct search *s, size_t at)
{
    const struct pattern *p = &s->p;
    size_t wanted = (size_t)(p->text_end - p->text);
    const char *from = p->subject + at;
    while ((size_t)(p->subject_end - from) >= wanted) {
        if (wanted == 0)
            return from;
        const char *hit =
            memchr(from, *p->text, (size_t)(p->subject_end - from) - wanted + 1);
        if (!hit)
            return NULL;
        size_t same = 1;
        while (same < wanted && hit[same] == p->text[same])
            same++;
        size_t steps = same + (size_t)(hit - from) / 16;
        if (s->p.steps_left < steps) {
            s->p.out_of_steps = true;
            s->p.wrong = "this search takes too long";
            return NULL;
        }
        s->p.steps_left -= steps;
        if (same == wanted)
            return hit;
        from = hit + 1;
    }
    return NULL;
}

static bool is_plain(const struct pattern *p)
{
    for (const char *c = p->text; c < p->text_end; c++) {
        if (*c != '\0' && strchr("^$*+?.([%-", *c))
            return false;
    }
    return true;
}

static int find_or_match(lua_State *L, const char *function, bool find)
{
    struct search s;
    search_init(L, &s, function, true);
    size_t length = (size_t)(s.p.subject_end - s.p.subject);
    size_t at = start_of(L, 3, length);
    if (at > length) {
        lua_pushnil(L);
        return 1;
    }
    bool plain = find && lua_toboolean(L, 4);
    if (plain && s.anchored)
        s.p.text--;
    if (plain || (find && !s.anchored && is_plain(&s.p))) {
        const char *hit = find_plain(&s, at);
        search_check(L, &s);
        search_charge(L, &s);
        if (!hit) {
            lua_pushnil(L);
            return 1;
        }
        lua_pushinteger(L, hit - s.p.subject + 1);
        lua_pushinteger(L, hit - s.p.subject + (s.p.text_end - s.p.text));
        return 2;
    }
    const char *from = s.p.subject + at, *end;
    while ((end = search_at(L, &s, from)) == NULL && !s.anchored &&
           from < s.p.subject_end)
        from++;
    search_charge(L, &s);
    if (!end) {
        lua_pushnil(L);
        return 1;
    }
    if (!find)
        return push_captures(L, &s.p, from, end, true);
    lua_pushinteger(L, from - s.p.subject + 1);
    lua_pushinteger(L, end - s.p.subject);
    return 2 + push_captures(L, &s.p, from, end, false);
}

static int string_find(lua_State *L)
{
    return find_or_match(L, "find", true);
}

static int string_match(lua_State *L)
{
    return find_or_match(L, "match", false);
}

/* Upvalues: subject, pattern, where to go on, the end of the last match (-1 for none). */
static int gmatch_step(lua_State *L)
{
    struct search s;
    lua_settop(L, 0);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_pushvalue(L, lua_upvalueindex(2));
    search_init(L, &s, "gmatch", false);
    const char *from = s.p.subject + lua_tointeger(L, lua_upvalueindex(3));
    lua_Integer last = lua_tointeger(L, lua_upvalueindex(4));
    for (; from <= s.p.subject_end; from++) {
        const char *end = search_at(L, &s, from);
        if (!end || end - s.p.subject == last)
            continue;
        search_charge(L, &s);
        lua_pushinteger(L, end - s.p.subject);
        lua_copy(L, -1, lua_upvalueindex(3));
        lua_copy(L, -1, lua_upvalueindex(4));
        lua_pop(L, 1);
        return push_captures(L, &s.p, from, end, true);
    }
    search_charge(L, &s);
    lua_pushinteger(L, s.p.subject_end - s.p.subject + 1);
    lua_copy(L, -1, lua_upvalueindex(3));
    return 0;
}

static int string_gmatch(lua_State *L)
{
    size_t length;
    luaL_checklstring(L, 1, &length);
    luaL_checkstring(L, 2);
    size_t at = start_of(L, 3, length);
    lua_settop(L, 2);
    lua_pushinteger(L, (lua_Integer)at);
    lua_pushinteger(L, -1);
    lua_pushcclosure(L, gmatch_step, 4);
    return 1;
}

/* ---- gsub ---- */

/* Appends the replacement text at 3, with %0 to %9 and %% put in. */
static void add_text(lua_State *L, luaL_Buffer *b, const struct pattern *p,
                     const char *start, const char *end)
{
    size_t length;
    const char *text = lua_tolstring(L, 3, &length);
    for (size_t i = 0; i < length; i++) {
        if (text[i] != '%') {
            luaL_addchar(b, text[i]);
            continue;
        }
        char c = text[++i]; /* the NUL behind the text when it ends in % */
        if (c == '%') {
            luaL_addchar(b, '%');
        } else if (c == '0') {
            luaL_addlstring(b, start, (size_t)(end - start));
        } else if (c >= '1' && c <= '9') {
            push_capture(L, p, c - '1', start, end);
            luaL_tolstring(L, -1, NULL); /* a place is a number */
            lua_remove(L, -2);
            luaL_addvalue(b);
        } else {
            luaL_error(L, "invalid use of '%%' in replacement string");
        }
    }
}

/* Appends what the match becomes; false when it stays as it is. */
static bool add_value(lua_State *L, luaL_Buffer *b, const struct pattern *p,
                      const char *start, const char *end)
{
    switch (lua_type(L, 3)) {
    case LUA_TFUNCTION: {
        lua_pushvalue(L, 3);
        int count = push_captures(L, p, start, end, true);
        limits_enter(L);
        lua_call(L, count, 1);
        limits_leave(L);
        break;
    }
    case LUA_TTABLE:
        push_capture(L, p, 0, start, end);
        lua_gettable(L, 3);
        break;
    default: add_text(L, b, p, start, end); return true;
    }
    if (!lua_toboolean(L, -1)) {
        lua_pop(L, 1);
        luaL_addlstring(b, start, (size_t)(end - start));
        return false;
    }
    if (!lua_isstring(L, -1))
        luaL_error(L, "invalid replacement value (a %s)", luaL_typename(L, -1));
    luaL_addvalue(b);
    return true;
}

static int string_gsub(lua_State *L)
{
    const struct limits *l = host_of(L)->limits;
    struct search s;
    search_init(L, &s, "gsub", true);
    int type = lua_type(L, 3);
    luaL_argexpected(L,
                     type == LUA_TNUMBER || type == LUA_TSTRING ||
                         type == LUA_TFUNCTION || type == LUA_TTABLE,
                     3, "string/function/table");
    const char *from = s.p.subject, *last = NULL;
    size_t length = (size_t)(s.p.subject_end - from);
    lua_Integer most = luaL_optinteger(L, 4, (lua_Integer)length + 1), count = 0;
    bool changed = false;
    if (type == LUA_TNUMBER) {
        luaL_tolstring(L, 3, NULL);
        lua_replace(L, 3);
    }
    luaL_Buffer b;
    luaL_buffinit(L, &b);
    while (count < most) {
        const char *end = search_at(L, &s, from);
        search_charge(L, &s);
        if (end && end != last) {
            count++;
            changed = add_value(L, &b, &s.p, from, end) || changed;
            if (luaL_bufflen(&b) > l->string_most)
                library_text(L, "string.gsub", luaL_bufflen(&b));
            from = last = end;
        } else if (from < s.p.subject_end) {
            luaL_addchar(&b, *from++);
        } else {
            break;
        }
        if (s.anchored)
            break;
    }
    if (changed) {
        luaL_addlstring(&b, from, (size_t)(s.p.subject_end - from));
        luaL_pushresult(&b);
    } else {
        lua_pushvalue(L, 1);
    }
    lua_pushinteger(L, count);
    return 2;
}

void library_pattern(lua_State *L)
{
    static const luaL_Reg functions[] = { { "find", string_find },
                                          { "match", string_match },
                                          { "gmatch", string_gmatch },
                                          { "gsub", string_gsub },
                                          { NULL, NULL } };
    luaL_setfuncs(L, functions, 0);
}
