/* What stands on both sides of an operator, and what is told when they do not go together. */
#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "bind/measure_inner.h"
#include "lang/host.h"
#include "lang/load.h"
#include "lang/plainer.h"
#include "lang/raise.h"
#include "lang/script.h"
#include "lang/tokens.h"

void operand_words(lua_State *L, int index, char *out, size_t size)
{
    int top = lua_gettop(L);
    struct qty q = measure_at(L, index);
    if (qty_is(q)) {
        measure_text(L, q, out, size);
    } else if (lua_isnoneornil(L, index)) {
        snprintf(out, size, "nil (nothing)");
    } else if (lua_type(L, index) == LUA_TNUMBER) {
        lua_pushvalue(L, index);
        snprintf(out, size, "%s", lua_tostring(L, -1));
        lua_pop(L, 1);
    } else if (lua_type(L, index) == LUA_TSTRING) {
        snprintf(out, size, "text (\"%.40s\")", lua_tostring(L, index));
    } else {
        bool named = luaL_getmetafield(L, index, "__name") == LUA_TSTRING;
        const char *name = named ? lua_tostring(L, -1) : luaL_typename(L, index);
        snprintf(out, size, "%s %.60s", strchr("aeiou", name[0]) ? "an" : "a", name);
        lua_settop(L, top);
    }
}

struct qty operand_at(lua_State *L, int index)
{
    struct qty q = measure_at(L, index);
    if (qty_is(q) || lua_type(L, index) != LUA_TNUMBER)
        return q;
    struct fault f = { .id = NULL };
    index = lua_absindex(L, index);
    q = graph_leaf(host_of(L)->graph, lua_tonumber(L, index), UNIT_NUMBER,
                   measure_origin(L, NULL), &f);
    measure_result(L, q, &f);
    lua_replace(L, index);
    return q;
}

/* Does the symbol stand on that line just once? Else nobody can tell which one it was. */
static bool is_alone(const struct sources *all, struct span line, const char *symbol)
{
    size_t length;
    const char *text = source_text(all, line.source, &length);
    struct reader r = reader_at(text, line.at + line.length, line.at, 1);
    size_t wanted = strlen(symbol), count = 0;
    struct token t;
    while (t = token_read(&r), t.kind != TOKEN_END && t.kind != TOKEN_BROKEN)
        count += t.kind == TOKEN_SYMBOL && t.length == wanted &&
                 memcmp(text + t.at, symbol, wanted) == 0;
    return count == 1;
}

bool operator_place(lua_State *L, const char *symbol, struct span *left,
                    struct span *right)
{
    const struct host *host = host_of(L);
    struct span line;
    if (!host->loads || !raise_author(L, &line) || !is_alone(host->sources, line, symbol))
        return false;
    struct script *script = load_script(host, line.source);
    if (!script)
        return false;
    uint32_t number = source_place(host->sources, line).line;
    struct span at = script_operator_at(script, host->sources, number, symbol);
    return at.source != 0 && script_operands(script, host->sources, at, left, right);
}

void operator_fault(lua_State *L, struct fault *f, const char *symbol)
{
    struct span left, right;
    if (f->at.source == 0 && operator_place(L, symbol, &left, &right)) {
        f->at = left;
        f->other = right;
    }
    fault_raise(L, f);
}

/* The words of an operand; of one that is nil, what the author wrote. */
static void typed_words(lua_State *L, int index, struct span at, char *out, size_t size)
{
    const struct host *host = host_of(L);
    size_t length;
    operand_words(L, index, out, size);
    if (!lua_isnil(L, index) || at.source == 0 || at.length >= size)
        return;
    const char *text = source_text(host->sources, at.source, &length);
    snprintf(out, size, "%.*s", (int)at.length, text + at.at);
}

bool operand_nothing(lua_State *L, const char *how, const char *symbol, struct fault *f)
{
    const struct host *host = host_of(L);
    struct span place[2] = { SPAN_NONE, SPAN_NONE };
    char words[2][80];
    int nothing = lua_isnil(L, 1) ? 0 : 1;
    if (!lua_isnil(L, nothing + 1) || !operator_place(L, symbol, &place[0], &place[1]))
        return false;
    /* Lua asks for b < a where a > b was written. */
    bool turned = symbol[0] == '>';
    for (int i = 0; i < 2; i++)
        typed_words(L, turned ? 2 - i : i + 1, place[i], words[i], sizeof words[i]);
    const char *name = words[turned ? 1 - nothing : nothing];
    fault_set(f, "operand-kind", place[0], "cannot %s %s %s %s: `%s` is nil (nothing)", how,
              words[0], symbol, words[1], name);
    f->other = place[1];
    f->of_nothing = true;
    struct qty other = measure_at(L, 2 - nothing);
    bool unit = (symbol[0] == '/' || symbol[0] == '*') && qty_is(other) &&
                units_is_name(host->units, name, strlen(name));
    if (unit)
        fault_hint(f, "`%s` is a unit: a compound unit has no blanks, as in 80 ft2/ac", name);
    else if (name[skip_word(name, strlen(name), 0)] == '\0')
        plainer_suggest(L, name, false, f);
    return true;
}

/* Prices and rates are things with a source; the measure is in them. */
static bool is_told(const char *words)
{
    return strcmp(words, "a price") == 0 || strcmp(words, "a rate") == 0;
}

void operands_refuse(lua_State *L, const char *symbol)
{
    char left[80], right[80];
    struct fault f = { .id = NULL };
    if (operand_nothing(L, "work out", symbol, &f))
        fault_raise(L, &f);
    operand_words(L, 1, left, sizeof left);
    operand_words(L, 2, right, sizeof right);
    fault_set(&f, "operand-kind", SPAN_NONE, "cannot work out %s %s %s", left, symbol,
              right);
    if (lua_type(L, 1) == LUA_TSTRING || lua_type(L, 2) == LUA_TSTRING)
        fault_hint(&f, "a measure is written without quotes: 3 ft");
    else if (is_told(left) || is_told(right))
        fault_hint(&f, "what it amounts to is its value: price \"steel post\".value");
    else if (symbol[0] == '^')
        fault_hint(&f, "a power is a bare number: (3 ft)^2");
    operator_fault(L, &f, symbol);
}
