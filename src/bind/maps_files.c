/* Finds the files of a map, and holds them while they are read. */
#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "bind/maps_inner.h"
#include "ground/map.h"
#include "lang/host.h"

static const char FILES[] = "map files";

int map_files_clear(lua_State *L)
{
    struct map_files *files = luaL_checkudata(L, 1, FILES);
    for (size_t i = 0; i < files->count; i++)
        found_clear(&files->found[i]);
    files->count = 0;
    return 0;
}

struct map_files *map_files_new(lua_State *L)
{
    struct map_files *files = lua_newuserdatauv(L, sizeof *files, 0);
    *files = (struct map_files){ .count = 0 };
    if (luaL_newmetatable(L, FILES)) {
        lua_pushcfunction(L, map_files_clear);
        lua_setfield(L, -2, "__gc");
    }
    lua_setmetatable(L, -2);
    return files;
}

static bool find_file(const struct finder *finder, const char *name, bool optional,
                      struct map_files *files, struct fault *f)
{
    /* Owned from the start: a file that could not be read whole is cleared too. */
    struct found *found = &files->found[files->count++];
    if (finder_read_data(finder, name, MAP_BYTES_MOST, optional, found, f))
        return true;
    found_clear(found);
    files->count--;
    return false;
}

/* "farm.shp" and ".dbf" give "farm.dbf"; an end that starts with no point is put behind.
 * False when the name is too long to have such a file. */
static bool name_beside(const char *name, const char *end, char *out, size_t size)
{
    size_t length = strlen(name);
    if (end[0] == '.')
        length = (size_t)(strrchr(name, '.') - name);
    int put = snprintf(out, size, "%.*s%s", (int)length, name, end);
    return put > 0 && (size_t)put < size;
}

bool map_files_find(lua_State *L, const char *name, struct map_files *files, struct fault *f)
{
    const struct finder *finder = host_of(L)->finder;
    const char *end;
    char beside[512];
    if (!find_file(finder, name, false, files, f))
        return false;
    for (size_t i = 0; i < BESIDE_MOST && (end = map_beside(name, i)) != NULL; i++)
        if (name_beside(name, end, beside, sizeof beside) &&
            !find_file(finder, beside, true, files, f) && fault_is_set(f))
            return false;
    return true;
}
