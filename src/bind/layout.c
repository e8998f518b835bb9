#include "ground/layout.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "base/fault.h"
#include "bind/ask.h"
#include "bind/layout.h"
#include "bind/shape.h"
#include "bind/tell.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"

/* Instructions that the work takes as long as, for each candidate: for each cell of the
 * ground, and for each pair of openings. A cell is at least 4 ft wide, and 10 where the
 * stand has more than 9,000 of them (ground/layout.h). A short reach is slow: below
 * REACH_FT the trails that it needs crowd one another. */
enum { TICKS_A_CELL = 50, TICKS_A_PAIR = 4, CELLS = 9000, REACH_FT = 60 };
/* What fails is tried again with less asked: that takes about so many times as long. */
enum { TIMES_FOR_TROUBLE = 4 };
/* Bytes that a cell takes while it lasts. */
enum { BYTES_A_CELL = 64 };

static const char LAYOUT[] = "layout";
static const char *const ask_words[] = { [LAYOUT_COUNT] = "count",
                                         [LAYOUT_WAYS_OUT] = "ways_out",
                                         [LAYOUT_REACH] = "reach",
                                         [LAYOUT_SIGHT] = "sight" };

struct held_layout {
    struct layout layout;
    size_t bytes; /* as told to the limits */
};

static int held_gc(lua_State *L)
{
    struct held_layout *h = luaL_checkudata(L, 1, LAYOUT);
    layout_free(&h->layout);
    limits_let_go(L, h->bytes);
    h->bytes = 0;
    return 0;
}

/* ---- what is asked ---- */

static void read_tree(lua_State *L, int row, void *out)
{
    struct layout_tree *tree = out;
    tree->at = (struct point){ ask_place(L, row, "x"), ask_place(L, row, "y") };
    tree->radius = ask_number(L, row, "radius", 0);
}

static void read_exit(lua_State *L, int row, void *out)
{
    *(struct layout_exit *)out = (struct layout_exit){ ask_some_shape(L, row, "line"),
                                                       ask_number(L, row, "within", 0),
                                                       ask_number(L, row, "apart", 0) };
}

static void read_shun(lua_State *L, int row, void *out)
{
    *(struct layout_shun *)out = (struct layout_shun){ ask_some_shape(L, row, "line"),
                                                       ask_number(L, row, "least", 0) };
}

/* Leaves the lists on the stack, for what they hold is used. */
static struct layout_ask read_ask(lua_State *L)
{
    struct layout_ask ask = { .cover = ask_shape(L, 1, "cover", SHAPE_AREAS),
                              .openings = ask_shape(L, 1, "openings", SHAPE_AREAS),
                              .width = ask_number(L, 1, "width", 0),
                              .area = ask_number(L, 1, "area", 0),
                              .count = ask_count(L, 1, "count", 0),
                              .share = ask_number(L, 1, "share", 0),
                              .spacing = ask_number(L, 1, "spacing", 0),
                              .gap = ask_number(L, 1, "gap", 0),
                              .ways_out = ask_count(L, 1, "ways_out", 0),
                              .reached = ask_shape(L, 1, "reached", SHAPE_AREAS),
                              .reach = ask_number(L, 1, "reach", 0),
                              .sight = ask_number(L, 1, "sight", 0),
                              .trail_width = ask_number(L, 1, "trail_width", 0),
                              .seed = ask_count(L, 1, "seed", 0),
                              .candidates = ask_count(L, 1, "candidates", 0) };
    ask.keep_outs = ask_areas(L, 1, "keep_outs", &ask.keep_out_count);
    ask.trees = ask_rows(L, 1, "trees", sizeof *ask.trees, read_tree, &ask.tree_count);
    ask.exits = ask_rows(L, 1, "exits", sizeof *ask.exits, read_exit, &ask.exit_count);
    ask.shuns = ask_rows(L, 1, "shuns", sizeof *ask.shuns, read_shun, &ask.shun_count);
    return ask;
}

static double cells_of(const struct layout_ask *ask)
{
    double area = ask->cover ? shape_area(ask->cover) : 0;
    double cell = fmin(fmax(sqrt(area / CELLS), 4), 10);
    return 1 + area / (cell * cell);
}

static double openings_of(const struct layout_ask *ask)
{
    double area = ask->cover ? shape_area(ask->cover) : 0;
    double one = ask->area > 0 ? ask->area : 0.785 * ask->width * ask->width;
    double count = (double)ask->count;
    if (ask->openings)
        count = (double)ask->openings->part_count;
    else if (ask->share > 0 && one > 0)
        count = fmax(count, ask->share * area / one);
    else if (ask->spacing > 0)
        count = fmax(count, 1.16 * area / (ask->spacing * ask->spacing));
    return fmin(count, 1e6);
}

/* For one design, without what is tried for its troubles. */
static uint64_t work_of(const struct layout_ask *ask)
{
    double candidates = ask->candidates > 0 ? (double)ask->candidates : 3;
    double openings = openings_of(ask);
    double crowd = ask->ways_out > 0 && ask->reach > 0 ? REACH_FT / ask->reach : 0;
    double ticks = candidates * (TICKS_A_CELL * cells_of(ask) * (1 + pow(crowd, 3)) +
                                 TICKS_A_PAIR * openings * openings);
    return (uint64_t)fmin(ticks, 1e15);
}

/* ---- what was found ---- */

static void push_centers(lua_State *L, const struct layout *a)
{
    size_t count = a->openings.part_count;
    lua_createtable(L, (int)count, 0);
    for (size_t i = 0; i < count; i++) {
        lua_createtable(L, 0, 2);
        tell_point(L, a->centers[i]);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_trails(lua_State *L, const struct layout *a)
{
    lua_createtable(L, (int)a->trails.part_count, 0);
    for (size_t i = 0; i < a->trails.part_count; i++) {
        const struct layout_trail *t = &a->trail[i];
        lua_createtable(L, 0, 5);
        tell_count(L, "from", (size_t)t->from + 1);
        if (t->to >= 0) {
            tell_count(L, "to", (size_t)t->to + 1);
        } else {
            tell_count(L, "exit", (size_t)-t->to);
            tell_count(L, "gate", t->gate + 1);
        }
        tell_number(L, "length", t->length);
        tell_number(L, "sight", t->sight);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_scores(lua_State *L, const struct layout *a)
{
    lua_createtable(L, (int)a->score_count, 0);
    for (size_t i = 0; i < a->score_count; i++) {
        const struct layout_score *s = &a->scores[i];
        lua_createtable(L, 0, 9);
        tell_count(L, "openings", s->openings);
        tell_count(L, "trails", s->trails);
        tell_number(L, "length", s->length);
        tell_number(L, "evenness", s->evenness);
        if (isfinite(s->reach))
            tell_number(L, "reach", s->reach);
        tell_number(L, "sight", s->sight);
        tell_count(L, "short_of_ways", s->short_of_ways);
        tell_count(L, "failed", s->failed);
        tell_number(L, "cost", s->cost);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

static void push_troubles(lua_State *L, const struct layout *a)
{
    lua_createtable(L, (int)a->trouble_count, 0);
    for (size_t i = 0; i < a->trouble_count; i++) {
        const struct layout_trouble *t = &a->troubles[i];
        lua_createtable(L, 0, 9);
        tell_text(L, "ask", ask_words[t->ask]);
        tell_number(L, "asked", t->asked);
        tell_number(L, "got", t->got);
        tell_count(L, "how_many", t->how_many);
        if (t->ask != LAYOUT_COUNT)
            tell_point(L, t->where);
        if (t->ask == LAYOUT_WAYS_OUT)
            tell_count(L, "opening", t->opening + 1);
        tell_text(L, "words", t->words);
        if (t->remedy[0])
            tell_text(L, "remedy", t->remedy);
        lua_rawseti(L, -2, (lua_Integer)i + 1);
    }
}

/* The shape moves to one of Lua's, which is pushed. */
static void push_shape(lua_State *L, struct shape *from, enum shape_kind kind)
{
    struct shape *to = shape_push(L, kind, "as laid out");
    *to = *from;
    *from = (struct shape){ .kind = kind };
    shape_made(L);
}

/* design { cover = areas, reached = areas, keep_outs = { areas, ... },
 * trees = { { x, y, radius }, ... }, exits = { { line = shape, within, apart }, ... }, shuns = { { line = shape, least },
 * ... }, openings = areas that are there, or width, area of one (ft2) and one of count,
 * share, spacing; gap, ways_out, reach, sight, trail_width, seed, candidates }, as struct
 * layout_ask has them: { openings = areas, trails = lines, centers = { { x, y }, ... },
 * trail = { { from, to or exit and gate, length, sight }, ... }, scores = { { openings,
 * trails, length, evenness, reach, sight, short_of_ways, failed, cost }, ... }, best,
 * troubles = { { ask = "count" "ways_out" "reach" "sight", asked, got, how_many, x, y,
 * opening, words, remedy }, ... } }. */
static int l_design(lua_State *L)
{
    struct fault f = { 0 };
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    struct layout_ask ask = read_ask(L);
    uint64_t work = work_of(&ask);
    if (work > limits_left(host_of(L)->limits))
        limits_stop(L, "limit-steps", "lay out less ground at a time, or fewer openings",
                    "to lay this out is more work than the limits of a run allow");
    limits_charge(L, work);
    struct held_layout *h = ask_held(L, sizeof *h, LAYOUT, held_gc);
    h->bytes = (size_t)(BYTES_A_CELL * cells_of(&ask));
    limits_hold(L, h->bytes);
    if (!layout_design(&ask, &h->layout, &f))
        fault_raise(L, &f);
    if (h->layout.trouble_count > 0)
        limits_charge(L, TIMES_FOR_TROUBLE * work);
    lua_createtable(L, 0, 7);
    push_centers(L, &h->layout);
    lua_setfield(L, -2, "centers");
    push_trails(L, &h->layout);
    lua_setfield(L, -2, "trail");
    push_scores(L, &h->layout);
    lua_setfield(L, -2, "scores");
    tell_count(L, "best", h->layout.best + 1);
    push_troubles(L, &h->layout);
    lua_setfield(L, -2, "troubles");
    push_shape(L, &h->layout.openings, SHAPE_AREAS);
    lua_setfield(L, -2, "openings");
    push_shape(L, &h->layout.trails, SHAPE_LINES);
    lua_setfield(L, -2, "trails");
    limits_let_go(L, h->bytes);
    h->bytes = 0;
    return 1;
}

int layout_room(lua_State *L)
{
    static const luaL_Reg functions[] = { { "design", l_design }, { NULL, NULL } };
    luaL_newlib(L, functions);
    return 1;
}
