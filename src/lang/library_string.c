#include <lauxlib.h>
#include <lualib.h>
#include <string.h>

#include "lang/host.h"
#include "lang/library.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* The original of string.format is upvalue 1. Its %s is given our own tostring (no
 * addresses), and %p is not there at all. Lua itself bounds widths to two digits. */
static int string_format(lua_State *L)
{
    size_t length, total;
    const char *format = luaL_checklstring(L, 1, &length);
    int top = lua_gettop(L), argument = 1;
    total = length;
    for (const char *c = format; c < format + length; c++) {
        size_t text = 0;
        if (*c != '%' || *++c == '%')
            continue;
        c += strspn(c, "-+ #0123456789.");
        argument++;
        if (*c == 'p')
            fault_say(L, "format-refused", "%s shows a value as `print` does",
                      "string.format has no %%p here");
        if (*c == 's' && argument <= top) {
            library_tostring(L, argument, &text);
            lua_replace(L, argument);
        } else if (*c == 'q' && lua_type(L, argument) == LUA_TSTRING) {
            lua_tolstring(L, argument, &text);
        }
        total += text;
    }
    library_text(L, "string.format", total);
    return lua_tocfunction(L, lua_upvalueindex(1))(L);
}

static int string_rep(lua_State *L)
{
    size_t length, between;
    const char *text = luaL_checklstring(L, 1, &length);
    lua_Integer n = luaL_checkinteger(L, 2);
    const char *separator = luaL_optlstring(L, 3, "", &between);
    if (n <= 0 || length + between == 0) {
        lua_pushliteral(L, "");
        return 1;
    }
    const struct limits *l = host_of(L)->limits;
    size_t each = length + between;
    if ((lua_Unsigned)n > l->string_most / each + 1)
        library_text(L, "string.rep", SIZE_MAX);
    size_t total = each * (size_t)n - between;
    library_text(L, "string.rep", total);
    luaL_Buffer b;
    char *out = luaL_buffinitsize(L, &b, total);
    for (lua_Integer i = 0; i < n; i++) {
        memcpy(out, text, length);
        out += length;
        if (i + 1 < n) {
            memcpy(out, separator, between);
            out += between;
        }
    }
    luaL_pushresultsize(&b, total);
    return 1;
}

/* Letters of the C locale only, whatever the locale is. */
static int change_case(lua_State *L, char first, char last, int by)
{
    size_t length;
    const char *text = luaL_checklstring(L, 1, &length);
    limits_charge_bytes(L, length);
    luaL_Buffer b;
    char *out = luaL_buffinitsize(L, &b, length);
    for (size_t i = 0; i < length; i++)
        out[i] = text[i] >= first && text[i] <= last ? (char)(text[i] + by) : text[i];
    luaL_pushresultsize(&b, length);
    return 1;
}

static int string_lower(lua_State *L)
{
    return change_case(L, 'A', 'Z', 'a' - 'A');
}

static int string_upper(lua_State *L)
{
    return change_case(L, 'a', 'z', 'A' - 'a');
}

void library_string(lua_State *L)
{
    static const char *const as_they_are[] = { "char", "len", "sub", NULL };
    static const char *const by_length[] = { "reverse", NULL };
    static const char *const by_results[] = { "byte", NULL };
    static const luaL_Reg ours[] = { { "lower", string_lower },
                                     { "rep", string_rep },
                                     { "upper", string_upper },
                                     { NULL, NULL } };
    static const char *const operators[] = { "__add", "__sub", "__mul", "__div",
                                             "__mod", "__pow", "__unm", "__idiv" };
    lua_pushcfunction(L, luaopen_string);
    lua_call(L, 0, 1);
    lua_insert(L, -2); /* Lua's, ours */
    library_take(L, as_they_are);
    library_take_charged(L, by_length);
    library_take_counted(L, by_results);
    luaL_setfuncs(L, ours, 0);
    lua_getfield(L, -2, "format");
    lua_pushcclosure(L, string_format, 1);
    lua_setfield(L, -2, "format");
    library_pattern(L);
    /* Methods of texts: luaopen_string has given them Lua's own table. */
    lua_createtable(L, 0, 10);
    lua_pushliteral(L, "");
    lua_getmetatable(L, -1); /* Lua's, ours, new metatable, "", Lua's metatable */
    for (size_t i = 0; i < sizeof operators / sizeof *operators; i++) {
        lua_getfield(L, -1, operators[i]);
        lua_setfield(L, -4, operators[i]);
    }
    lua_pop(L, 1);
    lua_pushvalue(L, -3);
    lua_setfield(L, -3, "__index");
    lua_pushboolean(L, 0);
    lua_setfield(L, -3, "__metatable");
    lua_pushvalue(L, -2);
    lua_setmetatable(L, -2);
    lua_pop(L, 2);
    lua_remove(L, -2);
}

void library_utf8(lua_State *L)
{
    static const char *const by_length[] = { "codes", "len", "offset", NULL };
    static const char *const by_results[] = { "codepoint", NULL };
    static const char *const as_they_are[] = { "char", "charpattern", NULL };
    lua_pushcfunction(L, luaopen_utf8);
    lua_call(L, 0, 1);
    lua_insert(L, -2);
    library_take_charged(L, by_length);
    library_take_counted(L, by_results);
    library_take(L, as_they_are);
    lua_remove(L, -2);
}
