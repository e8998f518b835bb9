/* need "layout" and need "routes", as the built-in Lua uses them. */
#include "../lang/room_rig.h"
#include "../unit.h"
#include "bind/layout.h"
#include "bind/shape.h"

/* A square of 600 ft, 8.3 acres, whose four sides are exits of their own; a road along
 * the west. */
static const char HEAD[] =
    "local shapes, layout, routes = need 'shapes', need 'layout', need 'routes'\n"
    "local function line(...) return shapes.make('line', { { ... } }) end\n"
    "local function box(w, s, e, n)\n"
    "  return shapes.make('area', { { w, s, e, s, e, n, w, n } })\n"
    "end\n"
    "local stand = box(0, 0, 600, 600)\n"
    "local sides = { line(0, 0, 600, 0), line(600, 0, 600, 600), line(600, 600, 0, 600),\n"
    "  line(0, 600, 0, 0) }\n"
    "local function ask(more)\n"
    "  local out = { cover = stand, exits = {}, width = 40, count = 3, ways_out = 2,\n"
    "    trail_width = 6, seed = 1, reach = 200, sight = 100 }\n"
    "  for i = 1, 4 do out.exits[i] = { line = sides[i], apart = 0 } end\n"
    "  for k, v in pairs(more or {}) do out[k] = v end\n"
    "  return out\n"
    "end\n"
    "local function close(a, b, by)\n"
    "  if math.abs(a - b) > (by or 1e-6) then error(a .. ' is not ' .. b, 2) end\n"
    "end\n";

/* The text, after the head, runs as a module of our own. */
static int run_module(lua_State *L)
{
    const char *text = lua_touserdata(L, 1);
    sandbox_room(L, "shapes", shapes_room);
    sandbox_room(L, "layout", layout_room);
    sandbox_room(L, "routes", routes_room);
    lua_pushfstring(L, "%s%s", HEAD, text);
    size_t length;
    const char *all = lua_tolstring(L, -1, &length);
    if (luaL_loadbufferx(L, all, length, "=module", "t") != LUA_OK)
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

static void holds(const char *text)
{
    room_holds(run, text);
}

static void fails(const char *text, const char *words)
{
    room_fails(run, text, words);
}

static void openings_and_trails_are_laid_out(void **state)
{
    (void)state;
    holds("local out = layout.design(ask())\n"
          "assert(#out.troubles == 0 and #out.centers == 3 and #out.scores == 3)\n"
          "local best, length = out.scores[out.best], 0\n"
          "assert(best.openings == 3 and best.trails == #out.trail and best.failed == 0)\n"
          "assert(best.evenness > 0 and best.evenness <= 1 and best.reach <= 200)\n"
          "close(best.cost, best.length * (2 - best.evenness))\n"
          "for _, s in ipairs(out.scores) do\n"
          "  assert(s.failed > best.failed or s.cost >= best.cost)\n"
          "end\n"
          "local parts = out.openings:parts()\n"
          "assert(out.openings:kind() == 'area' and #parts == 3)\n"
          "for i, c in ipairs(out.centers) do\n"
          "  local one = shapes.make('area', { parts[i] })\n"
          "  assert(one:has(c.x, c.y))\n"
          "  close(one:area(), math.pi / 4 * 40 * 40, 0.05 * 1257)\n"
          "end\n"
          "local lines = out.trails:parts()\n"
          "assert(out.trails:kind() == 'line' and #lines == #out.trail)\n"
          "for i, t in ipairs(out.trail) do\n"
          "  close(shapes.make('line', { lines[i] }):length(), t.length)\n"
          "  length = length + t.length\n"
          "  assert(t.from >= 1 and t.from <= 3 and t.sight <= 100)\n"
          "  assert((t.to == nil) == (t.exit ~= nil))\n"
          "  if t.exit then\n"
          "    local p = lines[i]\n"
          "    assert(sides[t.exit]:distance(p[#p - 1], p[#p]) < 1 and t.gate == 1)\n"
          "  end\n"
          "end\n"
          "close(length, best.length)\n");
}

static void a_seed_repeats_a_layout_and_another_changes_it(void **state)
{
    (void)state;
    holds("local function words(seed)\n"
          "  local list = {}\n"
          "  for i, c in ipairs(layout.design(ask { seed = seed }).centers) do\n"
          "    list[i] = string.format('%.9f %.9f', c.x, c.y)\n"
          "  end\n"
          "  return table.concat(list, ';')\n"
          "end\n"
          "assert(words(1) == words(1) and words(2) == words(2) and words(1) ~= words(2))\n"
          "assert(#layout.design(ask { candidates = 5 }).scores == 5)\n");
}

static void ground_to_keep_off_is_kept_off(void **state)
{
    (void)state;
    holds("local wet, road = box(250, 250, 350, 350), sides[4]\n"
          "local out = layout.design(ask { keep_outs = { wet },\n"
          "  trees = { { x = 150, y = 150, radius = 30 } },\n"
          "  shuns = { { line = road, least = 80 } }, count = 5 })\n"
          "assert(#out.centers == 5)\n"
          "for _, part in ipairs(out.openings:parts()) do\n"
          "  for k = 1, #part, 2 do\n"
          "    assert(not wet:has(part[k], part[k + 1]) and part[k] >= 80 - 1e-6)\n"
          "    assert((part[k] - 150) ^ 2 + (part[k + 1] - 150) ^ 2 >= 30 ^ 2 - 1e-6)\n"
          "  end\n"
          "end\n"
          "for _, t in ipairs(out.trail) do assert(t.exit ~= 4) end\n");
}

static void openings_that_are_there_are_joined(void **state)
{
    (void)state;
    holds("local there = shapes.make('area', { { 100, 100, 140, 100, 140, 140, 100, 140 },\n"
          "  { 400, 400, 440, 400, 440, 440, 400, 440 } })\n"
          "local out = layout.design(ask { openings = there, reach = 0 })\n"
          "assert(#out.centers == 2 and #out.troubles == 0 and out.openings:area() == 3200)\n"
          "close(out.centers[2].x, 420)\n"
          "local none = layout.design(ask { ways_out = 0, reach = 0 })\n"
          "assert(#none.centers == 3 and #none.trail == 0 and none.trails:is_empty())\n"
          "local all = layout.design(ask { count = 0, share = 0.05, ways_out = 0 })\n"
          "close(#all.centers, 0.05 * 360000 / 1257, 1)\n"
          "local wide = layout.design(ask { count = 0, spacing = 150, ways_out = 0 })\n"
          "for i, a in ipairs(wide.centers) do\n"
          "  for k = 1, i - 1 do\n"
          "    local b = wide.centers[k]\n"
          "    assert((a.x - b.x) ^ 2 + (a.y - b.y) ^ 2 >= 150 ^ 2 - 1e-6)\n"
          "  end\n"
          "end\n"
          "assert(#wide.centers >= 8)\n");
}

static void what_cannot_be_met_is_told(void **state)
{
    (void)state;
    holds("local t = layout.design(ask { count = 200, ways_out = 0, reach = 0 }).troubles\n"
          "assert(#t == 1 and t[1].ask == 'count' and t[1].asked == 200 and t[1].got < 200)\n"
          "assert(t[1].x == nil and t[1].how_many == 200 - t[1].got)\n"
          "assert(t[1].words:find('there is room for') and t[1].remedy:find('openings'))\n"
          "t = layout.design(ask { exits = { { line = sides[1], apart = 0 } } }).troubles\n"
          "assert(t[1].ask == 'ways_out' and t[1].asked == 2 and t[1].got == 1)\n"
          "assert(t[1].opening and stand:has(t[1].x, t[1].y))\n"
          "t = layout.design(ask { reach = 150, count = 1, candidates = 1,\n"
          "  shuns = { { line = sides[4], least = 160 } } }).troubles\n"
          "local reach\n"
          "for _, one in ipairs(t) do reach = reach or one.ask == 'reach' and one end\n"
          "assert(reach.asked == 150 and reach.got > 160 and stand:has(reach.x, reach.y))\n");
}

/* Two openings of 40 ft, a trail between them, one out from each, one that ends in the
 * woods: all by hand. */
static void a_layout_is_checked(void **state)
{
    (void)state;
    holds("local a, b = box(100, 280, 140, 320), box(460, 280, 500, 320)\n"
          "local found = routes.check { cover = stand, openings = { a, b },\n"
          "  trails = { { line = line(140, 300, 460, 300), width = 6 },\n"
          "    { line = line(0, 300, 100, 300), width = 6 },\n"
          "    { line = line(500, 300, 600, 300), width = 6 },\n"
          "    { line = line(300, 300, 300, 420), width = 6 } },\n"
          "  exits = { { edge = sides[2], apart = 0 }, { edge = sides[4], apart = 0 } },\n"
          "  shuns = { { edge = sides[4], trail = 50, opening = 120 } },\n"
          "  keep_outs = { box(290, 350, 310, 400) }, ways_out = 2, reach = 150,\n"
          "  sight = 200 }\n"
          "assert(found.openings[1].ways == 2 and found.openings[2].ways == 2)\n"
          "assert(found.short_of_ways == 0 and #found.exits == 2)\n"
          "assert(#found.dead_ends == 1)\n"
          "local d = found.dead_ends[1]\n"
          "assert(d.trail == 4 and not d.loop and not d.alone)\n"
          "close(d.x, 300) close(d.y, 420) close(d.length, 120)\n"
          "close(found.trail_length, 640)\n"
          "close(found.cover, 360000, 0.1)\n" /* summed over many lines */
          "close(found.opened, 2 * 1600 + 6 * 520 + 6 * 117, 40)\n"
          "close(found.farthest.distance, 300, 0.2)\n"
          "assert(found.beyond > 0.3 and found.beyond < 0.6)\n"
          "close(found.longest_sight, 320, 3)\n"
          "assert(found.sights[1].trail == 1 and #found.sights >= 1)\n"
          "local near, by = {}, 0\n"
          "for _, p in ipairs(found.near) do\n"
          "  assert(p.of == 1)\n"
          "  near[#near + 1] = p.opening and 'opening ' .. p.opening or 'trail ' .. p.trail\n"
          "  if p.trail then close(p.length, 50, 0.1) end\n"
          "end\n"
          "assert(table.concat(near, ' '):find('opening 1'))\n"
          "assert(table.concat(near, ' '):find('trail 2'))\n"
          "assert(#found.through == 1 and found.through[1].trail == 4)\n"
          "close(found.through[1].length, 50)\n");
}

static void what_holds_an_opening_is_told(void **state)
{
    (void)state;
    holds("local a = box(100, 280, 140, 320)\n"
          "local found = routes.check { cover = stand, openings = { a },\n"
          "  trails = { { line = line(140, 300, 600, 300), width = 6 } },\n"
          "  exits = { { edge = sides[2] } }, ways_out = 2 }\n"
          "local one = found.openings[1]\n"
          "assert(one.ways == 1 and one.ways_apart == 1 and found.short_of_ways == 1)\n"
          "assert(#one.held_by == 1 and one.held_by[1].kind == 'trail')\n"
          "assert(one.held_by[1].trail == 1)\n"
          "close(one.held_by[1].length, 460) close(one.held_by[1].x, 370)\n"
          "found = routes.check { cover = stand, openings = { a }, trails = {} }\n"
          "assert(found.openings[1].ways == 0 and #found.openings[1].held_by == 0)\n"
          "found = routes.check { cover = stand }\n"
          "assert(found.farthest == nil and found.opened == 0)\n");
}

static void what_is_designed_passes_the_check(void **state)
{
    (void)state;
    holds("for seed = 1, 5 do\n"
          "  local out = layout.design(ask { seed = seed })\n"
          "  local openings, exits = {}, {}\n"
          "  for i, part in ipairs(out.openings:parts()) do\n"
          "    openings[i] = shapes.make('area', { part })\n"
          "  end\n"
          "  for i = 1, 4 do exits[i] = { edge = sides[i] } end\n"
          "  local found = routes.check { cover = stand, openings = openings, exits = exits,\n"
          "    trails = { { line = out.trails, width = 6 } }, ways_out = 2, reach = 200,\n"
          "    sight = 100, snap = 2 }\n"
          "  assert(found.short_of_ways == 0 and #found.dead_ends == 0)\n"
          "  assert(#found.sights == 0 and found.farthest.distance <= 200.5)\n"
          "  close(found.trail_length, out.scores[out.best].length)\n"
          "end\n");
}

static void what_makes_no_sense_is_named(void **state)
{
    (void)state;
    fails("layout.design { width = 40, count = 1 }", "need the shape of the stand");
    fails("layout.design(ask { width = 0 })", "how wide are the openings?");
    fails("layout.design(ask { count = 0 })", "how many openings");
    fails("layout.design(ask { trail_width = 0 })", "how wide are the trails?");
    fails("layout.design(ask { width = 0 / 0 })", "`width` wants a number");
    fails("layout.design(ask { count = 1.5 })", "`count` wants a whole number");
    fails("layout.design(ask { count = 1e9 })", "`count` wants a whole number");
    fails("layout.design(ask { cover = sides[1] })", "`cover` wants a shape of areas");
    fails("layout.design(ask { keep_outs = { sides[1] } })", "`keep_outs` wants shapes of");
    fails("layout.design(ask { exits = { { apart = 3 } } })", "`line` wants a shape");
    fails("layout.design(ask { shuns = { 3 } })", "number 1 of a list");
    fails("layout.design(ask { trees = 3 })", "`trees` wants a list");
    fails("layout.design(ask { trees = { { x = 1 } } })", "`y` wants a number");
    fails("routes.check {}", "`cover` wants a shape");
    fails("routes.check { cover = stand, trails = { { width = 3 } } }", "wants its line");
    fails("routes.check { cover = stand, openings = { sides[1] } }", "`openings` wants");
    fails("routes.check { cover = stand, reach = -1 }", "`reach` wants a number");
}

static void much_work_ends_at_the_limits(void **state)
{
    (void)state;
    static const char *const floods[] = {
        "while true do layout.design(ask()) end\n",
        "while true do routes.check { cover = stand } end\n",
        "layout.design(ask { count = 100000, width = 2, ways_out = 0 })\n",
        "layout.design(ask { candidates = 1000000 })\n",
        "layout.design(ask { count = 0, spacing = 0.001, ways_out = 0 })\n",
    };
    for (size_t i = 0; i < sizeof floods / sizeof *floods; i++) {
        struct rig r;
        rig_open(&r, NULL);
        r.limits.ticks_most = 20 * 1000 * 1000;
        bool ok = !run(&r, floods[i]) && strcmp(r.fault.id, "limit-steps") == 0;
        if (!ok)
            fprintf(stderr, "%s%s\n", floods[i], r.fault.message);
        rig_close(&r);
        assert_true(ok);
    }
}

/* A rim of many corners is held against nothing but squares of cover: it may be an exit. */
static void a_rim_of_many_corners_is_not_too_much(void **state)
{
    (void)state;
    holds("local ring = {}\n"
          "for i = 1, 20000 do\n"
          "  local angle = 2 * math.pi * i / 20000\n"
          "  ring[2 * i - 1], ring[2 * i] = 300 * math.cos(angle), 300 * math.sin(angle)\n"
          "end\n"
          "local found = routes.check { cover = shapes.make('area', { ring }),\n"
          "  exits = { { edge = shapes.make('line', { ring }), apart = 150 } },\n"
          "  trails = { { line = line(-300, 0, 300, 0), width = 6 } } }\n"
          "assert(#found.exits == 2 and #found.dead_ends == 0)\n"
          "close(found.farthest.distance, 300, 0.2)\n");
}

/* Each allocation of Lua's fails in turn, from the n-th on: a fault, and nothing left. */
static void without_memory_nothing_is_left(void **state)
{
    (void)state;
    static const char text[] =
        "local out = layout.design(ask { count = 2, candidates = 1, reach = 0,\n"
        "  cover = box(0, 0, 200, 200), keep_outs = { box(0, 0, 20, 20) },\n"
        "  exits = { { line = line(200, 0, 200, 200) } } })\n"
        "assert(#out.troubles == 1)\n"
        "routes.check { cover = stand, trails = { { line = out.trails, width = 6 } },\n"
        "  openings = { out.openings }, exits = { { edge = sides[1] } }, sight = 10 }\n";
    room_short_of_memory(run, text, RIG_SANITIZED ? 5 : 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(openings_and_trails_are_laid_out),
        cmocka_unit_test(a_seed_repeats_a_layout_and_another_changes_it),
        cmocka_unit_test(ground_to_keep_off_is_kept_off),
        cmocka_unit_test(openings_that_are_there_are_joined),
        cmocka_unit_test(what_cannot_be_met_is_told),
        cmocka_unit_test(a_layout_is_checked),
        cmocka_unit_test(what_holds_an_opening_is_told),
        cmocka_unit_test(what_is_designed_passes_the_check),
        cmocka_unit_test(what_makes_no_sense_is_named),
        cmocka_unit_test(much_work_ends_at_the_limits),
        cmocka_unit_test(a_rim_of_many_corners_is_not_too_much),
        cmocka_unit_test(without_memory_nothing_is_left),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
