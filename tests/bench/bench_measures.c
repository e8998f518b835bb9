/* How much dearer adding measures is than adding numbers in plain Lua, and whether memory
 * stays where it is. The bar: a million additions in a script's loop, under all limits,
 * at most 30 times those of plain floats in a bare state without a hook. */
#include <lualib.h>
#include <stdio.h>
#include <time.h>

#include "../unit/lang/rig.h"

enum { RUNS = 5, BAR = 30 };

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static double plain(void)
{
    static const char text[] =
        "local a, b, c = 15.0, 0.25 for i = 1, 1000000 do c = a + b end";
    double best = 1e9;
    for (int i = 0; i < RUNS; i++) {
        lua_State *L = luaL_newstate();
        double before = seconds();
        if (!L || luaL_dostring(L, text) != LUA_OK)
            return 0;
        double took = seconds() - before;
        best = took < best ? took : best;
        lua_close(L);
    }
    return best;
}

/* The best of some runs; what the memory came to, of the last. */
static double measured(const char *text, size_t *lua_bytes, size_t *native_bytes)
{
    double best = 1e9;
    for (int i = 0; i < RUNS; i++) {
        struct rig r;
        rig_open(&r, NULL);
        double before = seconds();
        if (!rig_run(&r, text)) {
            fprintf(stderr, "%s\n", r.fault.message);
            exit(1);
        }
        double took = seconds() - before;
        best = took < best ? took : best;
        *lua_bytes = r.limits.lua_bytes_peak;
        *native_bytes = graph_bytes(r.host.graph);
        rig_close(&r);
    }
    return best;
}

int main(void)
{
    static const struct {
        const char *name, *text;
    } loops[] = {
        { "temporaries", "local a, b, c = measure(15, 'ft'), measure(3, 'in')\n"
                         "for i = 1, 1000000 do c = a + b end" },
        { "running sum", "local s, b = measure(15, 'ft'), measure(3, 'in')\n"
                         "for i = 1, 1000000 do s = s + b end" },
        { "uncertain", "local a, b, c = range(2, 3, 'h'), measure(3, 'h')\n"
                       "for i = 1, 1000000 do c = a + b end" },
    };
    double base = plain();
    bool met = true;
    printf("plain floats       %6.1f ns an addition\n", base * 1e3);
    for (size_t i = 0; i < sizeof loops / sizeof *loops; i++) {
        size_t lua_bytes, native_bytes;
        double took = measured(loops[i].text, &lua_bytes, &native_bytes);
        printf(
            "%-18s %6.1f ns an addition, %4.1f times; Lua %zu KB at most, graph %zu KB\n",
            loops[i].name, took * 1e3, took / base, lua_bytes / 1024,
            native_bytes / 1024);
        met = met && took <= BAR * base;
    }
    printf("bar: %d times, %s\n", BAR, met ? "met" : "missed");
    return met ? 0 : 1;
}
