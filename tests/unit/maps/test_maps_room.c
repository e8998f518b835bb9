/* need "maps" and need "shapes", as the built-in Lua uses them, in a host that reads files
 * below a folder of the test's own. */
#include <lauxlib.h>
#include <lua.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../lang/room_rig.h"
#include "bind/maps.h"
#include "bind/shape.h"
#include "ground.h"
#include "lang/finder.h"

static char folder[] = "/tmp/spinney-maps-XXXXXX";

static void put(const char *name, const char *text)
{
    char path[200];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    if (!file || fputs(text, file) < 0 || fclose(file) != 0)
        abort();
}

static const char FARM[] =
    "{\"type\":\"FeatureCollection\",\"features\":["
    "{\"type\":\"Feature\",\"properties\":{\"name\":\"Bench aspen\",\"kind\":\"stand\"},"
    "\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[[[-87.5,47.6],[-87.49,47.6],"
    "[-87.49,47.61],[-87.5,47.61],[-87.5,47.6]]]}},"
    "{\"type\":\"Feature\",\"properties\":{\"name\":\"Creek\"},\"geometry\":"
    "{\"type\":\"LineString\",\"coordinates\":[[-87.5,47.605],[-87.48,47.605]]}}]}";

static int open_folder(void **state)
{
    (void)state;
    char path[200];
    if (!mkdtemp(folder))
        return -1;
    put("farm.geojson", FARM);
    put("empty.gpx", "");
    snprintf(path, sizeof path, "%s/link.geojson", folder);
    if (symlink("farm.geojson", path) != 0)
        return -1;
    /* As large as 200 MB, and takes no room. */
    put("large.gpkg", "");
    snprintf(path, sizeof path, "%s/large.gpkg", folder);
    return truncate(path, 200 << 20);
}

static int close_folder(void **state)
{
    (void)state;
    static const char *const names[] = { "/farm.geojson", "/empty.gpx", "/link.geojson",
                                         "/large.gpkg", "" };
    for (size_t i = 0; i < 5; i++) {
        char path[200];
        snprintf(path, sizeof path, "%s%s", folder, names[i]);
        if (remove(path) != 0)
            return -1;
    }
    return 0;
}

/* The text runs as a module of our own. */
static int run_module(lua_State *L)
{
    const char *text = lua_touserdata(L, 1);
    sandbox_room(L, "maps", luaopen_maps);
    sandbox_room(L, "shapes", shapes_room);
    if (luaL_loadbufferx(L, text, strlen(text), "=module", "t") != LUA_OK)
        lua_error(L);
    sandbox_module_env(L);
    lua_setupvalue(L, -2, 1);
    lua_call(L, 0, 0);
    return 0;
}

static bool run(struct rig *r, const char *text)
{
    char plan[200];
    union {
        const char *in;
        void *out;
    } with = { text };
    struct fault f = { 0 };
    snprintf(plan, sizeof plan, "%s/plan.rx", folder);
    r->host.finder = finder_new();
    if (!finder_set_property(r->host.finder, plan, &f))
        abort();
    bool ok = host_protect(r->host.L, run_module, with.out, &r->fault);
    finder_free(r->host.finder);
    return ok;
}

static void holds(const char *text)
{
    room_holds(run, text);
}

static void fails(const char *text, const char *id, const char *words)
{
    struct rig r;
    rig_open(&r, NULL);
    bool ok = !run(&r, text) && told(&r.fault, id, words, "");
    rig_close(&r);
    assert_true(ok);
}

static void a_map_is_opened_and_its_features_are_shapes(void **state)
{
    (void)state;
    holds("local maps = need 'maps'\n"
          "local map = maps.read 'farm.geojson'\n"
          "assert(map:count() == 2)\n"
          "local one = map:feature(1)\n"
          "assert(one.name == 'Bench aspen' and one.kind == 'stand' and one.form == 'area')\n"
          "assert(one.attributes[1].field == 'name')\n"
          "local about = map:about()\n"
          "assert(about.without_shape == 0 and not about.datum)\n"
          "local frame = maps.frame(map:middle())\n"
          "local stand, mended = map:shape(1, frame)\n"
          "assert(mended == nil and stand:kind() == 'area')\n"
          "assert(stand:words():find('^Bench aspen of map .*farm.geojson$'))\n"
          "assert(math.abs(stand:area() / 43560 - 206.6) < 1)\n"
          "assert(math.abs(stand:area() / frame:area(stand) - 1) < 1e-6)\n"
          "assert(math.abs(stand:length() / frame:length(stand) - 1) < 1e-6)\n"
          "local lon, lat = frame:place(frame:point(-87.5, 47.6))\n"
          "assert(math.abs(lon + 87.5) < 1e-7 and math.abs(lat - 47.6) < 1e-7)\n");
}

static void shapes_are_made_of_shapes(void **state)
{
    (void)state;
    holds("local maps, shapes = need 'maps', need 'shapes'\n"
          "local map = maps.read 'farm.geojson'\n"
          "local frame = maps.frame(map:middle())\n"
          "local stand, creek = map:shape(1, frame), map:shape(2, frame)\n"
          "local strip = creek:buffer(66, 'flat', 'within 66 ft of Creek')\n"
          "assert(strip:words() == 'within 66 ft of Creek')\n"
          "assert(math.abs(strip:area() / (creek:length() * 132) - 1) < 1e-6)\n"
          "local left, cut = stand:difference(strip), stand:intersection(strip)\n"
          "assert(math.abs(left:area() + cut:area() - stand:area()) < 1e-3)\n"
          "assert(math.abs(left:union(cut):area() - stand:area()) < 1e-3)\n"
          "assert(math.abs(left:union { cut, strip }:area() - stand:union(strip):area()) < 1)\n"
          "local x, y = stand:inside()\n"
          "assert(stand:has(x, y) and stand:distance(x, y) == 0)\n"
          "assert(stand:rim_distance(x, y) > 0)\n"
          "local box = shapes.make('area', { { 0, 0, 100, 0, 100, 50, 0, 50 },\n"
          "    { 10, 10, 20, 10, 20, 20, 10, 20, hole = true } }, 'drawn')\n"
          "assert(box:area() == 4900 and box:words() == 'drawn')\n"
          "assert(box:parts()[2].hole and #box:parts()[1] == 8)\n"
          "local west, south, east, north = box:box()\n"
          "assert(west == 0 and south == 0 and east == 100 and north == 50)\n"
          "assert(creek:intersection(stand):kind() == 'line')\n"
          "assert(box:intersection(stand:buffer(-1e5)):is_empty())\n");
}

/* Longitude and latitude are the map's own again, and nothing but texts go in as texts. */
static void a_handout_is_written_in_degrees(void **state)
{
    (void)state;
    holds("local maps = need 'maps'\n"
          "local map = maps.read 'farm.geojson'\n"
          "local frame = maps.frame(map:middle())\n"
          "local stand, creek = map:shape(1, frame), map:shape(2, frame)\n"
          "local x, y = frame:point(-87.495, 47.605)\n"
          "local contents = { title = 'Farm & co', route = 'way', flags = {\n"
          "    { name = 'opening 1', kind = 'opening', note = 'N 42 E', x = x, y = y },\n"
          "    { name = 'end', x = x, y = y } },\n"
          "    shapes = { { name = 'Bench \"aspen\"', kind = 'stand', shape = stand },\n"
          "        { name = 'Creek', shape = creek } } }\n"
          "local gpx = frame:handout('gpx', contents)\n"
          "assert(gpx:find('<name>Farm &amp; co</name>', 1, true))\n"
          "assert(gpx:find('<wpt lat=\"47.6050000\" lon=\"-87.4950000\"><name>01 opening 1</name>'\n"
          "    .. '<desc>N 42 E</desc><type>opening</type></wpt>', 1, true))\n"
          "assert(gpx:find('<trkpt lat=\"47.6100000\" lon=\"-87.4900000\">', 1, true))\n"
          "local json = frame:handout('geojson', contents)\n"
          "assert(json:find('[-87.4950000,47.6050000]', 1, true))\n"
          "assert(json:find('Bench \\\\\"aspen\\\\\"', 1, true))\n"
          "assert(frame:handout('kml', contents):find('-87.4950000,47.6050000', 1, true))\n"
          "assert(frame:handout('gpx', {}):find('</gpx>', 1, true))\n"
          "for _, bad in ipairs { { title = 7 }, { flags = { { x = 0, y = 0 } } },\n"
          "    { flags = { { name = 'a', x = 0 } } }, { shapes = { { name = 'a' } } },\n"
          "    { flags = 'x' }, { flags = { { name = 'a', x = 1e12, y = 1e12 } } } } do\n"
          "    assert(not pcall(frame.handout, frame, 'gpx', bad))\n"
          "end\n"
          "assert(not pcall(frame.handout, frame, 'dxf', {}))\n");
}

static void memory_is_counted_and_given_back(void **state)
{
    (void)state;
    holds("local shapes = need 'shapes'\n"
          "need 'maps'\n"
          "for i = 1, 2000 do\n"
          "  shapes.make('point', { { i, i } }):buffer(50)\n"
          "end\n");
}

static void a_stop_ends_a_flood_of_shapes(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    r.limits.allowed = r.limits.lua_bytes + (8 << 20);
    bool ok = run(&r, "local shapes, all = need 'shapes', {}\n"
                      "need 'maps'\n"
                      "for i = 1, 1e6 do\n"
                      "  all[i] = shapes.make('point', { { i, i } }):buffer(50)\n"
                      "end\n");
    bool right = !ok && told(&r.fault, "limit-memory", "memory", "");
    rig_close(&r);
    assert_true(right);
}

static void files_are_found_as_use_finds_them(void **state)
{
    (void)state;
    fails("need('maps').read '../farm.geojson'", "use-name", "leads out of its folder");
    fails("need('maps').read '/etc/farm.geojson'", "use-name", "leads out of its folder");
    fails("need('maps').read '/vsicurl/http://a.example/x.geojson'", "use-name",
          "leads out of its folder");
    fails("need('maps').read 'PG:dbname=x'", "map-kind", "not called like a map");
    fails("need('maps').read 'farm.vrt'", "map-kind", "not called like a map");
    fails("need('maps').read 'link.geojson'", "file-kind", "links are not followed");
    fails("need('maps').read 'frm.geojson'", "file-missing", "there is no map");
    fails("need('maps').read 'empty.gpx'", "map-empty", "is an empty file");
    fails("need('maps').read 'large.gpkg'", "file-size", "larger than a map may be (32 MB)");
    fails("need('maps').read('farm.geojson', { field = 'nam' })", "map-field", "`nam`");
    fails("need('maps').frame(0, 95)", "frame-place", "degrees");
}

static void a_missing_map_is_suggested(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    bool ok = !run(&r, "need('maps').read 'frm.geojson'") &&
              told(&r.fault, "file-missing", "frm.geojson", "did you mean \"farm.geojson\"?");
    rig_close(&r);
    assert_true(ok);
}

/* Each allocation of Lua's fails in turn, from the n-th on: a fault, and nothing left. */
static void without_memory_nothing_is_left(void **state)
{
    (void)state;
    static const char text[] =
        "local maps = need 'maps'\n"
        "local map = maps.read('farm.geojson', { field = 'name' })\n"
        "local frame = maps.frame(map:middle())\n"
        "local stand, creek = map:shape(1, frame), map:shape(2, frame)\n"
        "map:feature(1)\n"
        "local strip = creek:buffer(66)\n"
        "frame:handout('kml', { flags = { { name = 'a', x = 0, y = 0 } },\n"
        "    shapes = { { name = 'b', shape = strip } } })\n"
        "return stand:difference(strip):parts()\n";
    room_short_of_memory(run, text, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_map_is_opened_and_its_features_are_shapes),
        cmocka_unit_test(shapes_are_made_of_shapes),
        cmocka_unit_test(a_handout_is_written_in_degrees),
        cmocka_unit_test(memory_is_counted_and_given_back),
        cmocka_unit_test(a_stop_ends_a_flood_of_shapes),
        cmocka_unit_test(files_are_found_as_use_finds_them),
        cmocka_unit_test(a_missing_map_is_suggested),
        cmocka_unit_test(without_memory_nothing_is_left),
    };
    return cmocka_run_group_tests(tests, open_folder, close_folder);
}
