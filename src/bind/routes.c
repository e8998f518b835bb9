#include "ground/routes.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/ask.h"
#include "bind/layout.h"
#include "bind/shape.h"
#include "bind/tell.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* Instructions that the check takes as long as: for each point of the shapes, each foot
 * of trail (sight lines), and each point with each shunned edge and keep-out; and what it
 * takes anyway (the farthest cover is sought by some thousand looks). */
enum { TICKS = 20000, TICKS_A_POINT = 300, TICKS_A_FOOT = 20, TICKS_A_PIECE = 2 };

static const char ROUTES[] = "routes";

static int held_gc(lua_State *L)
{
    routes_free(luaL_checkudata(L, 1, ROUTES));
    return 0;
}

/* ---- what is asked ---- */

static void read_trail(lua_State *L, int row, void *out)
{
    const struct shape *line = ask_shape(L, row, "line", SHAPE_LINES);
    if (!line)
        luaL_error(L, "a trail wants its line");
    *(struct net_trail *)out = (struct net_trail){ line, ask_number(L, row, "width", 0) };
}

static void read_exit(lua_State *L, int row, void *out)
{
    *(struct net_exit *)out = (struct net_exit){ ask_some_shape(L, row, "edge"),
                                                 ask_number(L, row, "apart", 0) };
}

static void read_shun(lua_State *L, int row, void *out)
{
    *(struct routes_shun *)out = (struct routes_shun){ ask_some_shape(L, row, "edge"),
                                                       ask_number(L, row, "trail", 0),
                                                       ask_number(L, row, "opening", 0) };
}

/* Leaves the lists on the stack, for what they hold is used. */
static struct routes_ask read_ask(lua_State *L)
{
    struct routes_ask ask = { .net = { .snap = ask_number(L, 1, "snap", NET_SNAP) },
                              .cover = ask_shape(L, 1, "cover", SHAPE_AREAS),
                              .ways_out = ask_count(L, 1, "ways_out", 0),
                              .apart = ask_flag(L, 1, "apart"),
                              .reached = ask_shape(L, 1, "reached", SHAPE_AREAS),
                              .reach = ask_number(L, 1, "reach", 0),
                              .sight = ask_number(L, 1, "sight", 0) };
    if (!ask.cover)
        luaL_error(L, "`cover` wants a shape");
    struct net_ask *net = &ask.net;
    net->trails =
        ask_rows(L, 1, "trails", sizeof *net->trails, read_trail, &net->trail_count);
    net->exits = ask_rows(L, 1, "exits", sizeof *net->exits, read_exit, &net->exit_count);
    ask.shuns = ask_rows(L, 1, "shuns", sizeof *ask.shuns, read_shun, &ask.shun_count);
    net->openings = ask_areas(L, 1, "openings", &net->opening_count);
    ask.keep_outs = ask_areas(L, 1, "keep_outs", &ask.keep_out_count);
    return ask;
}

/* Trails and openings are held against every edge and keep-out; the cover is not. */
static uint64_t work_of(const struct routes_ask *ask)
{
    double cover = (double)ask->cover->point_count, own = 0, others = 0, feet = 0;
    for (size_t i = 0; i < ask->net.trail_count; i++) {
        own += (double)ask->net.trails[i].line->point_count;
        feet += shape_length(ask->net.trails[i].line);
    }
    for (size_t i = 0; i < ask->net.opening_count; i++)
        own += (double)ask->net.openings[i]->point_count;
    for (size_t i = 0; i < ask->net.exit_count; i++)
        others += (double)ask->net.exits[i].edge->point_count;
    for (size_t i = 0; i < ask->shun_count; i++)
        others += (double)ask->shuns[i].edge->point_count;
    for (size_t i = 0; i < ask->keep_out_count; i++)
        others += (double)ask->keep_outs[i]->point_count;
    double ticks = TICKS + TICKS_A_POINT * (cover + own + others) + TICKS_A_FOOT * feet +
                   TICKS_A_PIECE * own * others;
    return (uint64_t)fmin(ticks, 1e15);
}

/* ---- what was found ---- */

static struct point middle_of(const struct trail_net *net, const struct net_stretch *s)
{
    struct shape line = { .kind = SHAPE_LINES, .points = net->points + s->first,
                          .point_count = s->count };
    struct shape_part part = { 0, s->count, false };
    line.parts = &part;
    line.part_count = 1;
    return shape_at(&line, 0, s->length / 2);
}

static void push_cut(lua_State *L, const struct trail_net *net, const struct ways_cut *c)
{
    static const char *const words[] = { [WAYS_STRETCH] = "trail",
                                         [WAYS_JUNCTION] = "junction",
                                         [WAYS_OPENING] = "opening",
                                         [WAYS_OUTLET] = "exit" };
    lua_createtable(L, 0, 5);
    tell_text(L, "kind", words[c->kind]);
    if (c->kind == WAYS_STRETCH) {
        const struct net_stretch *s = &net->stretches[c->index];
        tell_count(L, "trail", s->trail + 1);
        tell_number(L, "length", s->length);
        tell_point(L, middle_of(net, s));
    } else if (c->kind == WAYS_JUNCTION) {
        tell_point(L, net->nodes[c->index].at);
    } else if (c->kind == WAYS_OPENING) {
        tell_count(L, "opening", c->index + 1);
    } else {
        tell_count(L, "exit", net->outlets[c->index].exit + 1);
        tell_point(L, net->outlets[c->index].at);
    }
}

static void push_openings(lua_State *L, const struct routes *r, bool apart)
{
    const struct ways *w = apart ? &r->ways_apart : &r->ways;
    lua_createtable(L, (int)w->opening_count, 0);
    for (size_t i = 0; i < w->opening_count; i++) {
        const struct ways_of *o = &w->openings[i];
        lua_createtable(L, 0, 3);
        tell_count(L, "ways", r->ways.openings[i].routes);
        tell_count(L, "ways_apart", r->ways_apart.openings[i].routes);
        lua_createtable(L, (int)o->count, 0);
        for (size_t k = 0; k < o->count; k++) {
            push_cut(L, &r->net, &w->cuts[o->first + k]);
            lua_rawseti(L, -2, (lua_Integer)k + 1);
        }
        lua_setfield(L, -2, "held_by");
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_dead_ends(lua_State *L, const struct routes *r)
{
    lua_createtable(L, (int)r->dead_ends.count, 0);
    for (size_t i = 0; i < r->dead_ends.count; i++) {
        const struct dead_end *d = &r->dead_ends.list[i];
        lua_createtable(L, 0, 6);
        tell_point(L, d->at);
        tell_number(L, "length", d->length);
        if (d->stretch != NET_NONE)
            tell_count(L, "trail", r->net.stretches[d->stretch].trail + 1);
        lua_pushboolean(L, d->loop);
        lua_setfield(L, -2, "loop");
        lua_pushboolean(L, d->alone);
        lua_setfield(L, -2, "alone");
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_sights(lua_State *L, const struct routes *r)
{
    lua_createtable(L, (int)r->sights.count, 0);
    for (size_t i = 0; i < r->sights.count; i++) {
        const struct sight_line *s = &r->sights.list[i];
        lua_createtable(L, 0, 6);
        tell_point(L, s->from);
        tell_number(L, "to_x", s->to.x);
        tell_number(L, "to_y", s->to.y);
        tell_number(L, "length", s->length);
        tell_count(L, "trail", r->net.stretches[s->stretch].trail + 1);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_places(lua_State *L, const struct routes_places *places)
{
    lua_createtable(L, (int)places->count, 0);
    for (size_t i = 0; i < places->count; i++) {
        const struct routes_place *p = &places->list[i];
        lua_createtable(L, 0, 10);
        tell_count(L, p->opening ? "opening" : "trail", p->index + 1);
        tell_count(L, "of", p->of + 1);
        tell_number(L, "least", p->least);
        tell_number(L, "distance", p->where.distance);
        tell_number(L, "length", p->where.to - p->where.from);
        tell_point(L, p->where.begin);
        tell_number(L, "to_x", p->where.end.x);
        tell_number(L, "to_y", p->where.end.y);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_outlets(lua_State *L, const struct trail_net *net)
{
    lua_createtable(L, (int)net->outlet_count, 0);
    for (size_t i = 0; i < net->outlet_count; i++) {
        lua_createtable(L, 0, 3);
        tell_count(L, "exit", net->outlets[i].exit + 1);
        tell_point(L, net->outlets[i].at);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_found(lua_State *L, const struct routes_ask *ask, const struct routes *r)
{
    lua_createtable(L, 0, 13);
    push_openings(L, r, ask->apart);
    lua_setfield(L, -2, "openings");
    tell_count(L, "short_of_ways", r->short_of_ways);
    push_dead_ends(L, r);
    lua_setfield(L, -2, "dead_ends");
    if (isfinite(r->farthest.distance)) {
        lua_createtable(L, 0, 3);
        tell_point(L, r->farthest.at);
        tell_number(L, "distance", r->farthest.distance);
        lua_setfield(L, -2, "farthest");
    }
    tell_number(L, "beyond", r->beyond);
    push_sights(L, r);
    lua_setfield(L, -2, "sights");
    tell_number(L, "longest_sight", r->sights.longest);
    push_places(L, &r->near);
    lua_setfield(L, -2, "near");
    push_places(L, &r->through);
    lua_setfield(L, -2, "through");
    push_outlets(L, &r->net);
    lua_setfield(L, -2, "exits");
    tell_number(L, "trail_length", r->trail_length);
    tell_number(L, "cover", r->cover);
    tell_number(L, "opened", r->opened);
}

/* check { cover = areas, reached = areas, trails = { { line = lines, width }, ... },
 * openings = { areas, ... } of one opening each, exits = { { edge = shape, apart }, ... }, shuns = { { edge =
 * shape, trail, opening }, ... }, keep_outs = { areas, ... }, snap, ways_out, apart,
 * reach, sight }, as struct routes_ask has them: { openings = { { ways, ways_apart,
 * held_by = { { kind = "trail" "junction" "opening" "exit", trail, opening, exit, length,
 * x, y }, ... } }, ... }, short_of_ways, dead_ends = { { x, y, length, trail, loop, alone
 * }, ... }, farthest = { x, y, distance } or nil, beyond (a share), sights = { { x, y,
 * to_x, to_y, length, trail }, ... }, longest_sight, near = { { opening or trail, of,
 * least, distance, length, x, y, to_x, to_y }, ... }, through likewise, exits = { { exit,
 * x, y }, ... } that are reached, trail_length, cover, opened (ft2) }. */
static int l_check(lua_State *L)
{
    struct fault f = { 0 };
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    struct routes_ask ask = read_ask(L);
    limits_charge_input(L, work_of(&ask));
    struct routes *found = ask_held(L, sizeof *found, ROUTES, held_gc);
    if (!routes_check(&ask, found, &f))
        fault_raise(L, &f);
    push_found(L, &ask, found);
    return 1;
}

int routes_room(lua_State *L)
{
    static const luaL_Reg functions[] = { { "check", l_check }, { NULL, NULL } };
    luaL_newlib(L, functions);
    return 1;
}
