/* Trees made from cruise notes, in a script or in a file of their own (forest_stock.h).
 * */
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/fault.h"
#include "base/suggest.h"
#include "bind/forest_stock.h"
#include "bind/forest_trees.h"
#include "bind/notes.h"
#include "forest/cruise.h"
#include "forest/stock.h"
#include "forest/tally.h"
#include "lang/finder.h"
#include "lang/host.h"
#include "lang/raise.h"

int trees_finish(lua_State *L, struct trees *t, struct fault *f)
{
    if (t->inv)
        t->stock = stock_of(t->inv, f);
    if (fault_is_set(f))
        fault_raise(L, f);
    return 1;
}

static struct tally *notes_tally(lua_State *L, const struct notes *n)
{
    struct faults all = { 0 };
    struct tally *tally =
        tally_read(n->text, n->length, SPAN_NONE, host_of(L)->species, &all);
    for (size_t i = 0; i < all.count; i++)
        notes_tell(L, n, &all.list[i]);
    host_of(L)->faults.more += all.more;
    return tally;
}

/* Notes of one stand may name it, but no other. */
static bool of_stand(lua_State *L, const struct notes *n, const struct tally *tally,
                     const char *stand)
{
    struct fault f = { 0 };
    for (size_t i = 0; i < tally->stand_count; i++) {
        if (strcmp(tally->stands[i].name, stand) == 0)
            continue;
        fault_set(&f, "tally-stand", tally->stands[i].at,
                  "these notes are handed over as those of %s alone", stand);
        fault_hint(&f, "tally { notes = [[...]] }, without a name, reads several stands");
        notes_tell(L, n, &f);
        return false;
    }
    return true;
}

int forest_tally(lua_State *L)
{
    struct fault f = { 0 };
    const char *stand = luaL_checkstring(L, 2);
    struct notes n = notes_read(L, 1, 3);
    struct trees *t = trees_new(L);
    struct tally *tally = notes_tally(L, &n);
    if (!tally || !of_stand(L, &n, tally, stand)) {
        tally_free(tally);
        return 0;
    }
    t->inv = cruise_inventory(tally, host_of(L)->species, stand, n.call, &f);
    tally_free(tally);
    return trees_finish(L, t, &f);
}

/* --- notes of several stands --- */

/* Tells the stands that are not in the list of names at index 2; how many. */
static size_t tell_unknown(lua_State *L, const struct notes *n, const struct tally *tally)
{
    size_t unknown = 0;
    lua_Integer count = luaL_len(L, 2);
    for (size_t i = 0; i < tally->stand_count; i++) {
        const char *name = tally->stands[i].name;
        struct suggest near = suggest_for(name, strlen(name));
        bool known = false;
        int top = lua_gettop(L);
        luaL_checkstack(L, (int)count + 8, NULL); /* the names stay for `near` */
        for (lua_Integer k = 1; k <= count && !known; k++) {
            lua_rawgeti(L, 2, k);
            const char *other = lua_tostring(L, -1);
            known = strcmp(other, name) == 0;
            suggest_offer(&near, other);
        }
        struct fault f = { 0 };
        if (!known) {
            fault_set(&f, "stand-unknown", tally->stands[i].at,
                      "there is no stand \"%s\"", name);
            if (near.best)
                fault_hint(&f, "did you mean \"%s\"?", near.best);
            else
                fault_hint(&f, "describe it before its notes: stand \"%s\" { ... }",
                           name);
            notes_tell(L, n, &f);
            unknown++;
        }
        lua_settop(L, top);
    }
    return unknown;
}

static bool names_stands(lua_State *L, const struct notes *n, const struct tally *tally)
{
    struct fault f = { 0 };
    if (tally->stand_count > 0)
        return true;
    struct span first = tally->plots[0].at;
    fault_set(&f, "tally-stand", first, "which stand plot %u is of is not said",
              (unsigned)tally->plots[0].number);
    fault_hint(&f, "a line above it: stand Bench aspen");
    notes_tell(L, n, &f);
    return false;
}

/* A tally in the making that Lua frees, whatever is raised. */
static int held_tally_gc(lua_State *L)
{
    struct tally **held = lua_touserdata(L, 1);
    tally_free(*held);
    *held = NULL;
    return 0;
}

static struct tally **hold_tally(lua_State *L)
{
    struct tally **held = lua_newuserdatauv(L, sizeof *held, 0);
    *held = NULL;
    if (luaL_newmetatable(L, "tally")) {
        lua_pushcfunction(L, held_tally_gc);
        lua_setfield(L, -2, "__gc");
    }
    lua_setmetatable(L, -2);
    return held;
}

/* Pushes { name, trees } of one stand of the notes. */
static void push_stand(lua_State *L, const struct notes *n, const struct tally *all,
                       size_t i)
{
    struct fault f = { 0 };
    struct span at = notes_place(L, n, all->stands[i].at);
    lua_createtable(L, 0, 2);
    lua_pushstring(L, all->stands[i].name);
    lua_setfield(L, -2, "name");
    struct tally **one = hold_tally(L);
    struct trees *t = trees_new(L);
    *one = tally_of_stand(all, i, &f);
    if (*one)
        t->inv = cruise_inventory(*one, host_of(L)->species, all->stands[i].name,
                                  at.source ? at : n->call, &f);
    trees_finish(L, t, &f);
    lua_setfield(L, -3, "trees");
    tally_free(*one);
    *one = NULL;
    lua_pop(L, 1);
}

int forest_tally_stands(lua_State *L)
{
    luaL_checktype(L, 2, LUA_TTABLE);
    struct notes n = notes_read(L, 1, 3);
    lua_settop(L, 5);
    struct tally **held = hold_tally(L);
    *held = notes_tally(L, &n);
    if (!*held || !names_stands(L, &n, *held) || tell_unknown(L, &n, *held) > 0)
        return 0;
    lua_createtable(L, (int)(*held)->stand_count, 0);
    for (size_t i = 0; i < (*held)->stand_count; i++) {
        push_stand(L, &n, *held, i);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
    return 1;
}

int forest_notes(lua_State *L)
{
    struct host *host = host_of(L);
    struct fault f = { 0 };
    struct found file = { 0 };
    size_t length;
    const char *name = luaL_checklstring(L, 1, &length);
    if (strlen(name) != length)
        fault_set(&f, "use-name", SPAN_NONE, "a file's name holds no such character");
    else
        finder_read(host->finder, name, &file, &f);
    if (f.id && strcmp(f.id, "file-missing") == 0) { /* it speaks of scripts */
        fault_clear(&f);
        fault_set(&f, "file-missing", SPAN_NONE, "there is no file `%s`", name);
        fault_hint(&f, "it is looked for in the property's folder and in the packs");
    }
    uint32_t source = 0;
    if (!fault_is_set(&f)) {
        source = sources_add(host->sources, file.name,
                             file.text.data ? file.text.data : "", file.text.length);
        if (!source)
            fault_no_memory(&f);
    }
    found_clear(&file);
    if (fault_is_set(&f)) {
        lua_pushnil(L);
        lua_pushstring(L, f.id);
        lua_pushstring(L, f.message);
        lua_pushstring(L, f.hint[0] ? f.hint : NULL);
        return 4;
    }
    const char *text = source_text(host->sources, source, &length);
    lua_pushlstring(L, text, length);
    lua_pushinteger(L, (lua_Integer)source);
    return 2;
}
