/* What a script can reach, that it can change none of it, and that it does the same in
 * every run. */
#include "../unit.h"

#include <lualib.h>

#include "rig.h"

/* ---- what is there ---- */

static bool is_nothing(const char *name)
{
    char text[200];
    snprintf(text, sizeof text, "print(%s)", name);
    return rig_prints(text, "nil\n");
}

static void what_could_do_harm_is_not_there(void **state)
{
    static const char *const names[] = {
        "io",
        "os",
        "debug",
        "package",
        "require",
        "load",
        "loadstring",
        "loadfile",
        "dofile",
        "collectgarbage",
        "rawget",
        "rawset",
        "need",
        "_G",
        "_VERSION",
        "string.dump",
        "string.pack",
        "string.unpack",
        "string.packsize",
        "math.randomseed",
        "coroutine.kill",
        "('x').dump",
        "arg",
        "lpeg",
        "warn",
        "setfenv",
        "getfenv",
        "newproxy",
        "module",
    };
    (void)state;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        assert_true(is_nothing(names[i]));
}

struct walk {
    struct buf names; /* what is seen in the vocabulary, sorted by the caller */
    lua_State *full;  /* a state with all of Lua's libraries */
    size_t seen, forbidden;
};

/* Is it a function of Lua's libraries that scripts must not reach? */
static bool is_forbidden(lua_State *full, lua_CFunction f)
{
    static const char *const libraries[] = { "io", "os", "debug", "package" };
    static const char *const base[] = { "require",        "load",     "loadfile",
                                        "dofile",         "rawget",   "rawset",
                                        "collectgarbage", "next",     "pcall",
                                        "xpcall",         "tostring", "print",
                                        "setmetatable",   "warn" };
    bool found = false;
    for (size_t i = 0; i < sizeof libraries / sizeof *libraries; i++) {
        lua_getglobal(full, libraries[i]);
        lua_pushnil(full);
        while (lua_next(full, -2)) {
            found = found || lua_tocfunction(full, -1) == f;
            lua_pop(full, 1);
        }
        lua_pop(full, 1);
    }
    for (size_t i = 0; i < sizeof base / sizeof *base; i++) {
        lua_getglobal(full, base[i]);
        found = found || lua_tocfunction(full, -1) == f;
        lua_pop(full, 1);
    }
    static const char *const of_string[] = { "dump",  "rep",    "format", "find",
                                             "match", "gmatch", "gsub" };
    lua_getglobal(full, "string");
    for (size_t i = 0; i < sizeof of_string / sizeof *of_string; i++) {
        lua_getfield(full, -1, of_string[i]);
        found = found || lua_tocfunction(full, -1) == f;
        lua_pop(full, 1);
    }
    lua_pop(full, 1);
    return found;
}

/* Marks and goes through the value on top (popped): its fields, its metatable, the values
 * that metamethods would hand out. Upvalues of our own C functions are out of reach. */
static void visit(lua_State *L, int seen, struct walk *w)
{
    luaL_checkstack(L, 10, NULL);
    int type = lua_type(L, -1);
    if (type != LUA_TTABLE && type != LUA_TFUNCTION && type != LUA_TUSERDATA &&
        type != LUA_TSTRING) {
        lua_pop(L, 1);
        return;
    }
    lua_pushvalue(L, -1);
    if (lua_rawget(L, seen) != LUA_TNIL) {
        lua_pop(L, 2);
        return;
    }
    lua_pop(L, 1);
    lua_pushvalue(L, -1);
    lua_pushboolean(L, 1);
    lua_rawset(L, seen);
    w->seen++;
    if (lua_tocfunction(L, -1) && is_forbidden(w->full, lua_tocfunction(L, -1)))
        w->forbidden++;
    if (type == LUA_TTABLE) {
        lua_pushnil(L);
        while (lua_next(L, -2)) {
            visit(L, seen, w);
            lua_pushvalue(L, -1);
            visit(L, seen, w);
        }
    }
    if (lua_getmetatable(L, -1))
        visit(L, seen, w);
    lua_pop(L, 1);
}

static void nothing_forbidden_is_reachable(void **state)
{
    (void)state;
    struct rig r;
    struct walk w = { .full = luaL_newstate() };
    luaL_openlibs(w.full);
    rig_open(&r, NULL);
    lua_State *L = r.host.L;
    lua_newtable(L);
    int seen = lua_gettop(L);
    sandbox_script_env(L);
    visit(L, seen, &w);
    lua_pushliteral(L, "text");
    visit(L, seen, &w);
    lua_rawgeti(L, LUA_REGISTRYINDEX, LUA_RIDX_GLOBALS);
    lua_pushnil(L);
    bool globals = lua_next(L, -2) != 0;
    rig_close(&r);
    lua_close(w.full);
    assert_true(w.seen > 80);
    assert_int_equal(w.forbidden, 0);
    assert_false(globals);
}

static int list_names(lua_State *L)
{
    sandbox_vocabulary(L);
    lua_setglobal(L, "vocabulary");
    lua_newtable(L);
    for (int i = 0; i < 5; i++) {
        static const char *const names[] = { "coroutine", "math", "string", "table",
                                             "utf8" };
        sandbox_library(L, names[i]);
        lua_setfield(L, -2, names[i]);
    }
    lua_setglobal(L, "libraries");
    return 0;
}

/* The stored list: a name that joins it is a decision. */
static void the_vocabulary_is_the_list(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, list_names);
    lua_State *L = r.host.L;
    static const char collect[] =
        "local names = {}\n"
        "for k in pairs(vocabulary) do names[#names + 1] = k end\n"
        "local out = { table.concat(names, ' ') }\n"
        "for lib, t in pairs(libraries) do\n"
        "  local list = {}\n"
        "  for k in pairs(t) do list[#list + 1] = k end\n"
        "  out[#out + 1] = lib .. ': ' .. table.concat(list, ' ')\n"
        "end\n"
        "return table.concat(out, '\\n')";
    bool ok = luaL_loadbuffer(L, collect, sizeof collect - 1, "=collect") == LUA_OK;
    sandbox_module_env(L);
    lua_getglobal(L, "vocabulary");
    lua_setfield(L, -2, "vocabulary");
    lua_getglobal(L, "libraries");
    lua_setfield(L, -2, "libraries");
    lua_setupvalue(L, -2, 1);
    ok = ok && lua_pcall(L, 0, 1, 0) == LUA_OK;
    char text[2000];
    snprintf(text, sizeof text, "%s", lua_tostring(L, -1));
    rig_close(&r);
    assert_true(ok);
    assert_string_equal(
        text,
        "abs assert ceil chance coroutine count date error floor getmetatable ipairs key "
        "math "
        "max measure min next number pairs pcall print range rawequal rawlen same select "
        "setmetatable sqrt string sum table tonumber tostring type utf8 window xpcall\n"
        "coroutine: close create isyieldable resume running status wrap yield\n"
        "math: abs acos asin atan ceil cos deg exp floor fmod huge log max maxinteger "
        "min "
        "mininteger modf pi rad random sin sqrt tan tointeger type ult\n"
        "string: byte char find format gmatch gsub len lower match rep reverse sub "
        "upper\n"
        "table: concat insert move pack remove sort unpack\n"
        "utf8: char charpattern codepoint codes len offset");
}

/* ---- that it stays as it is ---- */

static void the_libraries_cannot_be_written(void **state)
{
    (void)state;
    assert_true(
        rig_fails("\nstring.len = 1", "name-taken", 2, "`len` cannot be put here"));
    assert_true(rig_fails("math.extra = 1", "name-taken", 1, "`extra`"));
    assert_true(
        rig_fails("table.insert(string, 'x')", "name-taken", 1, "cannot be put here"));
    assert_true(rig_fails("setmetatable(string, {})", "table-closed", 1, "closed"));
    assert_true(
        rig_prints("print(getmetatable(string), getmetatable(''))", "false\tfalse\n"));
    assert_true(rig_prints("print(('x').len == string.len, ('x').rep == string.rep)",
                           "true\ttrue\n"));
    assert_true(
        rig_prints("local s = 'x' print(pcall(function() s.y = 1 end))",
                   "false\tplan.rx:1: attempt to index a string value (upvalue 's')\n"));
}

static void a_script_spoils_nothing_for_the_next(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    assert_true(rig_run(&r, "pairs = nil  string = {}  math = 3  print = error\n"
                            "min = function() return 'mine' end  table = nil"));
    assert_true(rig_run_as(&r, "other.rx",
                           "for k, v in pairs { a = 1 } do\n"
                           "  print(k, v, min(2, 3), ('x'):rep(2), #table) end"));
    assert_string_equal(r.printed.data, "a\t1\t2\txx\t0\n");
    rig_close(&r);
}

static void metatables_of_scripts_have_no_finalizer(void **state)
{
    (void)state;
    assert_true(rig_fails("setmetatable({}, { __gc = function() end })",
                          "metatable-refused", 1, "`__gc`"));
    assert_true(
        rig_fails("setmetatable({}, { __gc = true })", "metatable-refused", 1, "`__gc`"));
    assert_true(rig_fails("setmetatable({}, { __mode = 'k' })", "metatable-refused", 1,
                          "`__mode`"));
    /* added later it does nothing */
    struct rig r;
    rig_open(&r, NULL);
    assert_true(rig_run(&r, "for i = 1, 100 do local m = {} setmetatable({}, m)\n"
                            "  m.__gc = function() print 'printed' end end\n"
                            "local t = {} for i = 1, 100000 do t[i] = {} end"));
    lua_gc(r.host.L, LUA_GCCOLLECT);
    assert_string_equal(r.printed.data, "");
    rig_close(&r);
}

static void bytecode_is_refused_everywhere(void **state)
{
    (void)state;
    struct rig r;
    struct fault f;
    static const char dumped[] = "\x1bLua\x54\x00\x19\x93";
    rig_open(&r, NULL);
    sources_add(r.host.sources, "plan.rx", dumped, sizeof dumped - 1);
    sandbox_script_env(r.host.L);
    assert_false(host_load(r.host.L, "plan.rx", dumped, sizeof dumped - 1, &f));
    assert_string_equal(f.id, "script-compiled");
    assert_int_equal(lua_gettop(r.host.L), 0);
    rig_close(&r);
}

/* ---- the same in every run ---- */

static void pairs_goes_by_sorted_keys(void **state)
{
    (void)state;
    assert_true(rig_prints("local t = { oak = 1, ash = 2, [3] = 3, [1] = 4, [2.5] = 5,\n"
                           "  [true] = 6, [false] = 7, Elm = 8, [-1] = 9, ['10'] = 10 }\n"
                           "for k, v in pairs(t) do print(k, v) end",
                           "-1\t9\n1\t4\n2.5\t5\n3\t3\n10\t10\nElm\t8\nash\t2\noak\t1\n"
                           "false\t7\ntrue\t6\n"));
    assert_true(rig_prints("local t = { 5, 6, 7, x = 1 }\n"
                           "for k in pairs(t) do t[k] = nil print(k) end\nprint(next(t))",
                           "1\n2\n3\nx\nnil\n"));
    assert_true(rig_prints("local t = { a = 1, b = 2, c = 3 }\n"
                           "for k in pairs(t) do print(k) t.b = nil end",
                           "a\nc\n"));
    assert_true(
        rig_prints("local t = { b = 1, a = 2, [3] = 3 }\n"
                   "local k, v = next(t) while k do print(k, v) k, v = next(t, k) end",
                   "3\t3\na\t2\nb\t1\n"));
    assert_true(
        rig_prints("local t = setmetatable({}, { __pairs = function()\n"
                   "  return function(_, k) if not k then return 1, 2 end end end })\n"
                   "for k, v in pairs(t) do print(k, v) end",
                   "1\t2\n"));
    assert_true(rig_fails("local t = { [{}] = 1, [print] = 2 }\nfor k in pairs(t) do end",
                          "key-order", 2, "has no order"));
    assert_true(
        rig_prints("for k, v in pairs { measure(3, 'ft'), w = measure(1, 'h') } do\n"
                   "  print(k, v) end",
                   "1\t3 ft\nw\t1 h\n"));
}

static void chance_starts_from_the_seed(void **state)
{
    (void)state;
    struct rig r;
    char first[400] = "";
    for (int i = 0; i < 3; i++) {
        rig_open(&r, NULL);
        sandbox_seed(r.host.L, i < 2 ? 7 : 8);
        assert_true(rig_run(&r, "for i = 1, 8 do print(math.random(100), math.random(),\n"
                                "  math.random(-3, 3)) end"));
        if (i == 0)
            snprintf(first, sizeof first, "%s", r.printed.data);
        assert_int_equal(strcmp(first, r.printed.data) == 0, i < 2);
        rig_close(&r);
    }
    assert_true(
        rig_prints("local n = { 0, 0, 0 }\n"
                   "for i = 1, 3000 do local k = math.random(3) n[k] = n[k] + 1\n"
                   "  local x = math.random() assert(x >= 0 and x < 1)\n"
                   "  local y = math.random(math.mininteger, math.maxinteger) end\n"
                   "for i = 1, 3 do assert(n[i] > 900 and n[i] < 1100) end",
                   ""));
    assert_true(rig_fails("math.random(3, 2)", "script-error", 1, "interval is empty"));
}

static void no_address_is_shown(void **state)
{
    (void)state;
    assert_true(rig_prints("print({}, print, coroutine.create(print), string,\n"
                           "  ('%s %s'):format({}, print), tostring(setmetatable({},\n"
                           "  { __name = 'stand' })))",
                           "table\tfunction\tthread\ttable\ttable function\tstand\n"));
    assert_true(rig_fails("string.format('%p', {})", "format-refused", 1, "no %p"));
    assert_true(rig_fails("string.format('%-10.3p', {})", "format-refused", 1, "no %p"));
    assert_true(
        rig_fails("print(setmetatable({}, { __tostring = function() return 1 end }))",
                  "script-error", 1, "'__tostring' must return a string"));
    assert_true(
        rig_prints("print(('%5.2f|%-4s|%q|%d|%%'):format(3.14159, 'x', 'a\\n', 3))",
                   " 3.14|x   |\"a\\\n\"|3|%\n"));
    assert_true(
        rig_fails("string.format('%200d', 3)", "script-error", 1, "invalid conversion"));
}

/* ---- the functions themselves ---- */

static void sort_is_stable_and_survives_bad_comparators(void **state)
{
    (void)state;
    assert_true(
        rig_prints("local t = { 'c1', 'a1', 'b1', 'a2', 'c2', 'b2' }\n"
                   "table.sort(t, function(x, y) return x:sub(1, 1) < y:sub(1, 1) end)\n"
                   "print(table.concat(t, ' '))",
                   "a1 a2 b1 b2 c1 c2\n"));
    assert_true(
        rig_prints("local t = { 3, 1, 2 } table.sort(t) print(table.concat(t, ' '))\n"
                   "table.sort(t, function(a, b) return a > b end)\n"
                   "print(table.concat(t, ' ')) table.sort {} table.sort { 1 }",
                   "1 2 3\n3 2 1\n"));
    assert_true(rig_prints("for n = 0, 300, 7 do local t = {}\n"
                           "  for i = 1, n do t[i] = i end\n"
                           "  table.sort(t, function() return math.random(2) == 1 end)\n"
                           "  table.sort(t, function() return true end)\n"
                           "  local seen = {} for i = 1, n do seen[t[i]] = true end\n"
                           "  for i = 1, n do assert(seen[i]) end end",
                           ""));
    assert_true(rig_prints("local t = { 3, 1, 'x', 2 }\n"
                           "print(pcall(table.sort, t)) print(table.concat(t, ' '))",
                           "false\tattempt to compare number with string\n3 1 x 2\n"));
    assert_true(
        rig_prints("local t = { measure(3, 'ft'), measure(2, 'ft'), measure(30, 'in') }\n"
                   "table.sort(t) print(table.concat(t, ' '))",
                   "2 ft 30 in 3 ft\n"));
    assert_true(rig_fails("table.sort({ 1, 2 }, 3)", "script-error", 1,
                          "`sort` wants a function as its second value"));
}

static void table_functions_do_what_lua_does(void **state)
{
    (void)state;
    assert_true(rig_prints(
        "local t = { 1, 2 } table.insert(t, 3) table.insert(t, 1, 0)\n"
        "print(table.concat(t, ',')) print(table.remove(t), table.remove(t, 1),\n"
        "  table.remove(t, 3), table.remove({})) print(table.concat(t, ','))",
        "0,1,2,3\n3\t0\tnil\tnil\n1,2\n"));
    assert_true(
        rig_prints("print(table.unpack({ 1, 2, 3 }, 2)) print(table.pack(1, nil).n)\n"
                   "print(select('#', table.unpack({}, 1, 3)))\n"
                   "print(table.concat(table.move({ 1, 2, 3 }, 1, 3, 2), ','))\n"
                   "print(table.concat(table.move({ 1, 2, 3 }, 2, 3, 1), ','))\n"
                   "print(#table.move({ 1, 2 }, 1, 2, 1, {}))",
                   "2\t3\n2\n3\n1,1,2,3\n2,3,3\n2\n"));
    assert_true(rig_fails("table.insert({}, 5, 1)", "script-error", 1, "out of bounds"));
    assert_true(rig_fails("table.remove({}, 5)", "script-error", 1, "out of bounds"));
    assert_true(rig_fails("table.insert({})", "script-error", 1, "takes a table"));
    assert_true(
        rig_fails("table.concat { {} }", "script-error", 1, "cannot join item 1"));
    assert_true(rig_prints("print(table.concat({ 1, 2 }, ',', math.maxinteger, "
                           "math.mininteger))",
                           "\n"));
}

static void texts_do_what_lua_does(void **state)
{
    (void)state;
    assert_true(
        rig_prints("print(('aBc'):upper(), ('aBc'):lower(), ('abc'):rep(2, '-'),\n"
                   "  ('abc'):reverse(), #'abc', (''):rep(9), ('abc'):byte(1, -1))",
                   "ABC\tabc\tabc-abc\tcba\t3\t\t97\t98\t99\n"));
    assert_true(
        rig_prints("print('10' + 1, '3' * '4', -'2', 10 .. '')", "11\t12\t-2\t10\n"));
    assert_true(
        rig_prints("print(utf8.len('h\xc3\xa9'), utf8.char(233), #utf8.charpattern)\n"
                   "for p, c in utf8.codes('\xc3\xa9x') do print(p, c) end",
                   "2\t\xc3\xa9\t14\n1\t233\n3\t120\n"));
    assert_true(
        rig_prints("print(tostring(nil), tostring(true), tostring(1.5), tostring(2^53),\n"
                   "  tonumber('0x10'), tonumber('z', 36), tonumber('x'))",
                   "nil\ttrue\t1.5\t9.007199254741e+15\t16\t35\tnil\n"));
}

static void coroutines_do_what_lua_does(void **state)
{
    (void)state;
    assert_true(rig_prints("local f = coroutine.wrap(function(a)\n"
                           "  local b = coroutine.yield(a + 1) return b * 2 end)\n"
                           "print(f(1), f(5))",
                           "2\t10\n"));
    assert_true(
        rig_prints("local co = coroutine.create(function() error('bad') end)\n"
                   "print(coroutine.resume(co)) print(coroutine.status(co))\n"
                   "print(coroutine.resume(co)) print(coroutine.close(co))",
                   "false\tplan.rx:1: bad\ndead\nfalse\tcannot resume dead coroutine\n"
                   "false\tplan.rx:1: bad\n"));
    assert_true(
        rig_prints("local co = coroutine.wrap(function()\n"
                   "  print(pcall(function() coroutine.yield(1) error('x', 0) end))\n"
                   "  return 2 end)\nprint(co()) print(co())",
                   "1\nfalse\tx\n2\n"));
    assert_true(rig_prints("local co = coroutine.create(function()\n"
                           "  local x <close> = setmetatable({}, { __close = function()\n"
                           "    print 'closed' end }) coroutine.yield() end)\n"
                           "coroutine.resume(co) print(coroutine.close(co))\n"
                           "print(coroutine.status(co))",
                           "closed\ntrue\ndead\n"));
    assert_true(rig_prints(
        "print(xpcall(function() error('a', 0) end,\n"
        "  function(e) return e .. '!' end))\n"
        "print(xpcall(function(...) return ... end, print, 1, 2))\n"
        "print(pcall(error)) print(pcall(pcall)) print(select(2, pcall(error, 7)))",
        "false\ta!\ntrue\t1\t2\nfalse\tnil\n"
        "false\tbad argument #1 to '?' (value expected)\n7\n"));
    assert_true(rig_prints("print(xpcall(error, function(e) error(e, 0) end, 'x'))",
                           "false\tx\n"));
    assert_true(rig_prints("local co co = coroutine.create(function()\n"
                           "  print(coroutine.resume(co)) end) coroutine.resume(co)\n"
                           "print(coroutine.resume((coroutine.running())))",
                           "false\tcannot resume non-suspended coroutine\n"
                           "false\tcannot resume non-suspended coroutine\n"));
    assert_true(rig_fails("coroutine.close(coroutine.running())", "script-error", 1,
                          "cannot close a running coroutine"));
}

static void print_goes_to_the_host(void **state)
{
    (void)state;
    assert_true(rig_prints("print() print(nil, 1) print(('x'):rep(3), measure(2, 'ac'))",
                           "\nnil\t1\nxxx\t2 ac\n"));
}

/* ---- modules ---- */

static int room_opened(lua_State *L)
{
    int *times = NULL;
    lua_getfield(L, LUA_REGISTRYINDEX, "test.times");
    times = lua_touserdata(L, -1);
    ++*times;
    lua_newtable(L);
    return 1;
}

static void rooms_are_opened_once_and_only_when_needed(void **state)
{
    (void)state;
    struct rig r;
    int times = 0;
    rig_open(&r, NULL);
    lua_State *L = r.host.L;
    lua_pushlightuserdata(L, &times);
    lua_setfield(L, LUA_REGISTRYINDEX, "test.times");
    sandbox_room(L, "forest", room_opened);
    assert_int_equal(times, 0);
    sandbox_need(L, "forest");
    sandbox_need(L, "forest");
    bool same = lua_rawequal(L, -1, -2);
    lua_settop(L, 0);
    rig_close(&r);
    assert_int_equal(times, 1);
    assert_true(same);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_could_do_harm_is_not_there),
        cmocka_unit_test(nothing_forbidden_is_reachable),
        cmocka_unit_test(the_vocabulary_is_the_list),
        cmocka_unit_test(the_libraries_cannot_be_written),
        cmocka_unit_test(a_script_spoils_nothing_for_the_next),
        cmocka_unit_test(metatables_of_scripts_have_no_finalizer),
        cmocka_unit_test(bytecode_is_refused_everywhere),
        cmocka_unit_test(pairs_goes_by_sorted_keys),
        cmocka_unit_test(chance_starts_from_the_seed),
        cmocka_unit_test(no_address_is_shown),
        cmocka_unit_test(sort_is_stable_and_survives_bad_comparators),
        cmocka_unit_test(table_functions_do_what_lua_does),
        cmocka_unit_test(texts_do_what_lua_does),
        cmocka_unit_test(coroutines_do_what_lua_does),
        cmocka_unit_test(print_goes_to_the_host),
        cmocka_unit_test(rooms_are_opened_once_and_only_when_needed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
