/* The module is found beside the program or in ../lib/spinney from there, and told in
 * words when it is not; what the environment says does not reach its libraries. */
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include <lauxlib.h>
#include <lua.h>

#include "../lang/rig.h"
#include "../unit.h"
#include "bind/module.h"
#include "lang/finder.h"

static bool told(const struct fault *f, const char *id, const char *words,
                 const char *hint)
{
    bool ok = f->id && strcmp(f->id, id) == 0 && strstr(f->message, words) &&
              strstr(f->hint, hint);
    if (!ok)
        fprintf(stderr, "fault: %s: %s\n  hint: %s\n", f->id ? f->id : "none", f->message,
                f->hint);
    return ok;
}

static int need_maps(lua_State *L)
{
    return module_open(L, "maps");
}

static int open_it(lua_State *L)
{
    sandbox_room(L, "maps", need_maps);
    sandbox_need(L, "maps");
    lua_getfield(L, -1, "frame");
    lua_pushnumber(L, -87.5);
    lua_pushnumber(L, 47.6);
    lua_call(L, 2, 1);
    return 0;
}

static int read_it(lua_State *L)
{
    sandbox_room(L, "maps", need_maps);
    sandbox_need(L, "maps");
    lua_getfield(L, -1, "read");
    lua_pushstring(L, "one.geojson");
    lua_call(L, 1, 0);
    return 0;
}

/* The test's own folder, OUT/tests/unit/bind, in which there is no module; the module is
 * in OUT. */
static void beside(char *out, size_t size, const char *name)
{
    ssize_t length = readlink("/proc/self/exe", out, size - 1);
    if (length <= 0)
        abort();
    out[length] = '\0';
    char *slash = strrchr(out, '/');
    snprintf(slash + 1, size - (size_t)(slash + 1 - out), "%s", name);
}

static bool opens(struct fault *f)
{
    struct rig r;
    rig_open(&r, NULL);
    bool ok = host_protect(r.host.L, open_it, NULL, &r.fault);
    *f = r.fault;
    rig_close(&r);
    return ok;
}

static void a_missing_module_is_told(void **state)
{
    (void)state;
    struct fault f;
    assert_false(opens(&f));
    assert_true(told(&f, "module-missing", "spinney-maps.so) is not beside it",
                     "make install"));
}

static void a_broken_module_is_told(void **state)
{
    (void)state;
    char path[4096];
    struct fault f;
    beside(path, sizeof path, "spinney-maps.so");
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_true(fputs("no library\n", file) >= 0 && fclose(file) == 0);
    bool ok = opens(&f);
    unlink(path);
    assert_false(ok);
    assert_true(told(&f, "module-missing", "reads maps cannot be loaded", "libraries"));
}

static void it_is_found_beside_the_program(void **state)
{
    (void)state;
    char path[4096];
    struct fault f;
    beside(path, sizeof path, "spinney-maps.so");
    assert_int_equal(symlink("../../../spinney-maps.so", path), 0);
    bool ok = opens(&f);
    unlink(path);
    assert_true(ok);
}

static void it_is_found_where_it_is_installed(void **state)
{
    (void)state;
    char lib[4096], own[4096], path[4096];
    struct fault f;
    beside(lib, sizeof lib, "../lib");
    beside(own, sizeof own, "../lib/spinney");
    beside(path, sizeof path, "../lib/spinney/spinney-maps.so");
    mkdir(lib, 0777);
    mkdir(own, 0777);
    assert_int_equal(symlink("../../../../spinney-maps.so", path), 0);
    bool ok = opens(&f);
    unlink(path);
    rmdir(own);
    rmdir(lib);
    assert_true(ok);
}

static void the_environment_does_not_reach_the_libraries(void **state)
{
    (void)state;
    char path[4096], folder[] = "/tmp/spinney-module-XXXXXX", plan[100], map[100];
    struct rig r;
    assert_non_null(mkdtemp(folder));
    snprintf(plan, sizeof plan, "%s/plan.rx", folder);
    snprintf(map, sizeof map, "%s/one.geojson", folder);
    FILE *file = fopen(map, "wb");
    assert_non_null(file);
    fputs("{\"type\":\"Point\",\"coordinates\":[-87.5,47.6]}", file);
    assert_int_equal(fclose(file), 0);
    /* Would keep the map from being read. */
    setenv("OGR_GEOJSON_MAX_OBJ_SIZE", "0.000001", 1);
    beside(path, sizeof path, "spinney-maps.so");
    assert_int_equal(symlink("../../../spinney-maps.so", path), 0);
    rig_open(&r, NULL);
    r.host.finder = finder_new();
    assert_true(finder_set_property(r.host.finder, plan, &r.fault));
    bool ok = host_protect(r.host.L, read_it, NULL, &r.fault);
    bool clean = getenv("HOME") == NULL;
    if (!ok)
        fprintf(stderr, "%s\n", r.fault.message);
    finder_free(r.host.finder);
    rig_close(&r);
    unlink(path);
    unlink(map);
    rmdir(folder);
    assert_true(ok && clean);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_missing_module_is_told),
        cmocka_unit_test(a_broken_module_is_told),
        cmocka_unit_test(it_is_found_beside_the_program),
        cmocka_unit_test(it_is_found_where_it_is_installed),
        cmocka_unit_test(the_environment_does_not_reach_the_libraries),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
