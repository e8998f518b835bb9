#include "bind/page_ical.h"

#include <lauxlib.h>
#include <lua.h>

#include "base/buf.h"
#include "bind/calendar.h"
#include "bind/page_runs.h"
#include "lang/held.h"
#include "lang/limits.h"
#include "page/ical.h"

enum { PARTS_MOST = 8, DAYS_MOST = 3660 };

/* An event and its lists. Its texts stay Lua's, in the table at the top of the stack. */
struct read_event {
    struct ical_event event;
    struct ical_text key[PARTS_MOST], categories[PARTS_MOST];
    int alarms[PARTS_MOST];
};

static struct ical_text text_field(lua_State *L, int table, const char *key)
{
    struct ical_text text = { "", 0 };
    int type = page_field(L, table, key);
    if (type == LUA_TSTRING)
        text.at = lua_tolstring(L, -1, &text.length);
    else if (type != LUA_TNIL)
        luaL_error(L, "%s of an event is a text", key);
    lua_pop(L, 1);
    return text;
}

/* Pushes the list of that name, or nil; returns how much is in it. */
static size_t list_field(lua_State *L, int table, const char *key)
{
    int type = page_field(L, table, key);
    if (type == LUA_TNIL)
        return 0;
    if (type != LUA_TTABLE || lua_rawlen(L, -1) > PARTS_MOST)
        luaL_error(L, "%s of an event is a list of at most %d", key, PARTS_MOST);
    return lua_rawlen(L, -1);
}

static size_t texts_field(lua_State *L, int table, const char *key, struct ical_text *out)
{
    size_t count = list_field(L, table, key);
    for (size_t i = 0; i < count; i++) {
        if (lua_rawgeti(L, -1, (lua_Integer)i + 1) != LUA_TSTRING)
            luaL_error(L, "%s of an event holds texts", key);
        out[i].at = lua_tolstring(L, -1, &out[i].length);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return count;
}

static size_t alarms_field(lua_State *L, int table, int *out)
{
    size_t count = list_field(L, table, "alarms");
    for (size_t i = 0; i < count; i++) {
        int whole = 0;
        lua_rawgeti(L, -1, (lua_Integer)i + 1);
        lua_Integer days = lua_tointegerx(L, -1, &whole);
        if (!whole || days < 0 || days > DAYS_MOST)
            luaL_error(L, "an alarm rings 0 to %d days before", DAYS_MOST);
        out[i] = (int)days;
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return count;
}

/* The event at the top of the stack. */
static void read_event(lua_State *L, struct read_event *out)
{
    static const char *const keys[] = { "key", "from", "to", "summary", "description",
                                        "location", "categories", "alarms" };
    int table = lua_gettop(L);
    luaL_checktype(L, table, LUA_TTABLE);
    page_keys(L, table, "an event", keys, sizeof keys / sizeof *keys);
    struct ical_event *e = &out->event;
    *e = (struct ical_event){ .key = out->key, .categories = out->categories,
                              .alarms = out->alarms };
    e->key_count = texts_field(L, table, "key", out->key);
    e->category_count = texts_field(L, table, "categories", out->categories);
    e->alarm_count = alarms_field(L, table, out->alarms);
    e->summary = text_field(L, table, "summary");
    e->description = text_field(L, table, "description");
    e->location = text_field(L, table, "location");
    page_field(L, table, "from"), page_field(L, table, "to");
    if (!date_at(L, -2, &e->from) || !date_at(L, -1, &e->to) ||
        e->from.day > e->to.day)
        luaL_error(L, "an event goes from one date to another that is not before it");
    if (e->key_count == 0 || e->summary.length == 0)
        luaL_error(L, "an event needs a key and a summary");
    lua_settop(L, table);
}

/* ical(date, events): the calendar as a text; nil without events. Checked without a
 * calendar first, then written. */
int page_ical(lua_State *L)
{
    struct date stamp;
    struct read_event one;
    struct ical c;
    luaL_argcheck(L, date_at(L, 1, &stamp), 1, "a date is wanted");
    luaL_checktype(L, 2, LUA_TTABLE);
    lua_settop(L, 2);
    lua_Integer count = (lua_Integer)lua_rawlen(L, 2);
    if (count == 0) {
        lua_pushnil(L);
        return 1;
    }
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, 2, i);
        read_event(L, &one);
        lua_pop(L, 1);
    }
    ical_open(&c, held_new(L), stamp);
    for (lua_Integer i = 1; i <= count; i++) {
        lua_rawgeti(L, 2, i);
        read_event(L, &one);
        ical_event(&c, &one.event);
        lua_pop(L, 1);
    }
    ical_close(&c);
    limits_charge_bytes(L, c.out->length);
    return held_push(L, c.out);
}
