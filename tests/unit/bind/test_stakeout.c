/* need "stakeout", and the shapes and page.csv it is used with, as the built-in Lua uses
 * them. */
#include "../lang/room_rig.h"

#include "../unit.h"

#include "bind/page.h"
#include "bind/shape.h"
#include "bind/stakeout.h"

/* The text runs as a module of our own. */
static int run_module(lua_State *L)
{
    const char *text = lua_touserdata(L, 1);
    sandbox_room(L, "shapes", shapes_room);
    sandbox_room(L, "stakeout", stakeout_room);
    sandbox_room(L, "page", page_room);
    if (luaL_loadbufferx(L, text, strlen(text), "=module", "t") != LUA_OK)
        lua_error(L);
    sandbox_module_env(L);
    lua_setupvalue(L, -2, 1);
    lua_call(L, 0, 0);
    return 0;
}

static bool run(struct rig *r, const char *text)
{
    union {
        const char *in;
        void *out;
    } with = { text };
    return host_protect(r->host.L, run_module, with.out, &r->fault);
}

#define HEAD                                                                    \
    "local shapes, stakeout = need 'shapes', need 'stakeout'\n"                 \
    "local box = shapes.make('area', { { 0, 0, 100, 0, 100, 40, 0, 40 },\n"      \
    "    { 10, 10, 20, 10, 20, 20, 10, 20, hole = true },\n"                    \
    "    { 200, 0, 240, 0, 240, 40, 200, 40 } }, 'map farm, glades')\n"          \
    "local line = shapes.make('line', { { 0, 0, 50, 1, 100, 0, 100, 80 } })\n"

static void holds(const char *text)
{
    room_holds(run, text);
}

static void fails(const char *text, const char *words)
{
    room_fails(run, text, words);
}

static void shapes_are_taken_one_by_one(void **state)
{
    (void)state;
    holds(HEAD "local list = stakeout.singles(box)\n"
               "assert(#list == 2 and list[1]:area() == 3900 and list[2]:area() == 1600)\n"
               "assert(#list[1]:parts() == 2 and list[1]:parts()[2].hole)\n"
               "assert(list[2]:words() == 'map farm, glades')\n"
               "assert(#stakeout.singles(line) == 1)\n"
               "assert(#stakeout.singles(shapes.make('area', {})) == 0)\n");
}

static void centers_and_bends_are_flagged(void **state)
{
    (void)state;
    holds(HEAD
          "local list = stakeout.singles(box)\n"
          "local flags = stakeout.flags { { kind = 'opening', name = 'opening 2', shape = list[2] },\n"
          "    { kind = 'trail', name = 'trail 1', shape = line, within = 5 },\n"
          "    { kind = 'corner', name = 'clump', shape = list[2], within = 5 } }\n"
          "local names = {}\n"
          "for i, f in ipairs(flags) do names[i] = f.kind .. ' ' .. f.name end\n"
          "local all = table.concat(names, '; ')\n"
          "assert(all == 'opening opening 2; trail trail 1, start; trail trail 1, bend 1; '\n"
          "    .. 'trail trail 1, end; corner clump, corner 1; corner clump, corner 2; '\n"
          "    .. 'corner clump, corner 3; corner clump, corner 4', all)\n"
          "assert(flags[1].x == 220 and flags[1].y == 20)\n"
          "assert(flags[3].x == 100 and flags[3].y == 0)\n"
          "assert(#stakeout.flags {} == 0)\n"
          "local fine = stakeout.flags { { kind = 'trail', name = 't', shape = line, within = 0.5 } }\n"
          "assert(#fine == 4)\n");
}

static void flags_are_put_in_order_from_a_start(void **state)
{
    (void)state;
    holds(HEAD "local flags = { { x = 300, y = 0 }, { x = 100, y = 0 }, { x = 100, y = 100 } }\n"
               "local walk = stakeout.order(flags, { start = { x = 0, y = 0 }, declination = -3.5,\n"
               "    pace = 2.5 })\n"
               "assert(#walk == 3 and walk[1].flag == 2 and walk[2].flag == 3 and walk[3].flag == 1)\n"
               "assert(walk[1].azimuth == 90 and walk[1].magnetic == 93.5)\n"
               "assert(walk[1].distance == 100 and walk[1].paces == 40)\n"
               "assert(walk[2].azimuth == 0 and walk[2].distance == 100)\n"
               "assert(math.abs(walk.length - 200 - 50000 ^ 0.5) < 1e-9)\n"
               "local back = stakeout.order(flags, { start = { x = 0, y = 0 }, returns = true })\n"
               "assert(back.length > walk.length and back[1].paces == nil)\n");
}

static void without_a_start_nothing_leads_to_the_first(void **state)
{
    (void)state;
    holds(HEAD "local walk = stakeout.order({ { x = 0, y = 0 }, { x = 0, y = -10 } }, {})\n"
               "assert(walk[1].azimuth == nil and walk[1].distance == nil)\n"
               "assert(walk[2].distance == 10 and walk.length == 10)\n"
               "assert(#stakeout.order({}, {}) == 0)\n");
}

static void what_cannot_be_is_told(void **state)
{
    (void)state;
    fails(HEAD "local many = {}\n"
               "for i = 1, stakeout.most + 1 do many[i] = { x = i, y = 0 } end\n"
               "stakeout.order(many, {})",
          "2001 flags are more than 2000");
    fails(HEAD "stakeout.order({ { x = 1 } }, {})", "a number");
    fails(HEAD "stakeout.order({ { x = 0, y = 0 } }, { returns = true })", "start");
    fails(HEAD "stakeout.flags { { kind = 'tree', name = 'x', shape = box } }", "tree");
    fails(HEAD "stakeout.flags { { kind = 'trail', name = 'x' } }", "a shape");
    fails(HEAD "stakeout.flags { 7 }", "a table");
    fails(HEAD "stakeout.singles(7)", "a shape");
}

static void tables_become_csv(void **state)
{
    (void)state;
    holds("local page = need 'page'\n"
          "local text = page.csv { { 'flag', 'feet' }, { '=1, \"x\"', { -87.5, 3 } },\n"
          "    { false, { 2, 0 } } }\n"
          "assert(text == 'flag,feet\\r\\n\"\\'=1, \"\"x\"\"\",-87.500\\r\\n,2\\r\\n', text)\n"
          "assert(page.csv {} == '')\n"
          "assert(page.fixed(-87.5, 4) == '-87.5000' and page.fixed(2.5, 0) == '3')\n");
    fails("need('page').csv { { 7 } }", "a cell is a text");
    fails("need('page').csv { { { 'x', 1 } } }", "a number");
    fails("need('page').csv { { { 1, 12 } } }", "0 to 9 decimals");
    fails("need('page').csv { 'x' }", "a table");
}

/* Each allocation of Lua's fails in turn, from the n-th on: a fault, and nothing left. */
static void without_memory_nothing_is_left(void **state)
{
    (void)state;
    static const char text[] =
        HEAD "local flags = stakeout.flags { { kind = 'trail', name = 't', shape = line,\n"
             "    within = 1 }, { kind = 'opening', name = 'o', shape = box } }\n"
             "stakeout.order(flags, { start = { x = 5, y = 5 }, pace = 2 })\n"
             "stakeout.singles(box)\n"
             "need('page').csv { { 'a', { 1, 1 } } }\n";
    room_short_of_memory(run, text, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shapes_are_taken_one_by_one),
        cmocka_unit_test(centers_and_bends_are_flagged),
        cmocka_unit_test(flags_are_put_in_order_from_a_start),
        cmocka_unit_test(without_a_start_nothing_leads_to_the_first),
        cmocka_unit_test(what_cannot_be_is_told),
        cmocka_unit_test(tables_become_csv),
        cmocka_unit_test(without_memory_nothing_is_left),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
