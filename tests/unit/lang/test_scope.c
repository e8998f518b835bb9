/* Local names are seen where Lua sees them: random programs are run, and Lua itself says
 * at each mark whether the name is a local there. */
#include "literal_reading.h"

#include <stdio.h>

#include <lualib.h>

/* A random program whose every part runs: at each mark, `probe` tells Lua's own word on
 * whether the name d is a local there. */
struct program {
    char ours[4096], luas[4096];
    size_t marks, depth;
    uint64_t seed;
};

static void both(struct program *p, const char *text)
{
    strcat(p->ours, text);
    strcat(p->luas, text);
}

static void mark(struct program *p)
{
    char call[32];
    sprintf(call, "probe(%zu, d)", ++p->marks);
    strcat(p->ours, "use(3 h/d)");
    strcat(p->luas, call);
}

static void block(struct program *p);

static void statement(struct program *p)
{
    static const char *const around[][2] = {
        { "do ", " end " },
        { "if true then ", " end " },
        { "if false then local d = 1 else ", " end " },
        { "if false then elseif true then ", " end " },
        { "for d = 1, 1 do ", " end " },
        { "for d in once do ", " end " },
        { "for k, v in once do ", " end " },
        { "while true do ", " break end " },
        { "; (function(a, d) ", " end)(1, 1); " },
        { "call({ function(...) ", " end }); " },
        { "local function d() ", " end d() " },
        { "local d = call({ function() ", " end }) " },
    };
    uint32_t kind = reading_random(&p->seed, 22);
    if (kind < 12) {
        both(p, around[kind][0]);
        block(p);
        both(p, around[kind][1]);
    } else if (kind < 14) {
        both(p, "local d = 1; ");
    } else if (kind == 14) {
        both(p, "local a, d <const> = ");
        mark(p);
        both(p, ", 1 + #{ ");
        mark(p);
        both(p, " } ");
    } else if (kind == 15) {
        both(p, "for d = ");
        mark(p);
        both(p, ", 1 do ");
        block(p);
        both(p, " end ");
    } else if (kind == 16) {
        both(p, "repeat ");
        block(p);
        both(p, " until ");
        mark(p);
        both(p, " ");
    } else if (kind == 17) {
        both(p, "x = { d = 1, x.d } ");
    } else {
        mark(p);
        both(p, "; ");
    }
}

static void block(struct program *p)
{
    if (p->depth == 5)
        return;
    p->depth++;
    for (uint32_t n = 1 + reading_random(&p->seed, 4); n > 0; n--)
        if (p->marks < FAULTS_MOST - 3 && strlen(p->luas) < 3000)
            statement(p);
    p->depth--;
}

static const char runner[] =
    "local text = ... local seen = {} x = {}\n"
    "function probe(n, d) seen[n] = d ~= nil return 1 end\n"
    "function call(t) t[1]() return 1 end\n"
    "function once(_, last) if not last then return 1, 1 end end\n"
    "local f = assert(load(text)) f() return table.unpack(seen, 1, select('#', ...) * "
    "16)";

static void lua_says(lua_State *L, const struct program *p, bool *seen)
{
    if (luaL_loadstring(L, runner) != LUA_OK)
        fail_msg("%s", lua_tostring(L, -1));
    lua_pushstring(L, p->luas);
    if (lua_pcall(L, 1, 16, 0) != LUA_OK)
        fail_msg("%s: %s", lua_tostring(L, -1), p->luas);
    for (size_t i = 0; i < 16; i++)
        seen[i] = lua_toboolean(L, (int)i - 16);
    lua_pop(L, 16);
}

static void locals_are_seen_where_lua_sees_them(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r);
    luaL_requiref(r.host.L, "_G", luaopen_base, 1);
    luaL_requiref(r.host.L, "table", luaopen_table, 1);
    lua_pop(r.host.L, 2);
    size_t locals = 0, globals = 0;
    static struct program p;
    for (uint64_t i = 1; i <= 2000; i++) {
        memset(&p, 0, sizeof p);
        p.seed = i * 0x9E3779B97F4A7C15u;
        for (int n = 0; n < 4; n++)
            block(&p);
        bool seen[16];
        lua_says(r.host.L, &p, seen);
        reading_next(&r, p.ours, strlen(p.ours));
        const char *at = p.ours;
        for (size_t n = 0; n < p.marks; n++, at++) {
            at = strstr(at, "3 h/d");
            bool refused = false;
            for (size_t f = 0; f < r.faults.count; f++)
                refused = refused || r.faults.list[f].at.at == (uint32_t)(at - p.ours);
            if (refused != seen[n])
                fail_msg("mark %zu is %s local: %s", n + 1, seen[n] ? "a" : "no", p.ours);
            locals += seen[n];
            globals += !seen[n];
        }
    }
    assert_true(locals > 1000 && globals > 1000);
    reading_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(locals_are_seen_where_lua_sees_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
