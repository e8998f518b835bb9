#include "bind/measure.h"

#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/buf.h"
#include "bind/measure_inner.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"
#include "lang/sandbox.h"

/* How many measures are made between two looks at the memory of the graph. */
enum { LOOK_EVERY = 64 };

/* Its address is the registry's key of the metatable. */
static const char measure_key;

/* ---- the value ---- */

static void release(void *owner, uint32_t number)
{
    graph_release(owner, (struct qty){ number });
}

static inline struct qty at(lua_State *L, struct limits *l, int index)
{
    const void *payload = lua_touserdata(L, index);
    if (!payload)
        return QTY_NONE;
    return (struct qty){ cells_number(&l->cells, payload) };
}

struct graph *measure_graph(lua_State *L)
{
    return host_of(L)->graph;
}

struct qty measure_at(lua_State *L, int index)
{
    return at(L, host_of(L)->limits, index);
}

static inline void push_bare(lua_State *L, struct limits *l, struct qty take)
{
    cells_want(&l->cells, take.slot); /* from here on it is not lost when Lua jumps */
    if (++l->looked >= LOOK_EVERY) {
        l->looked = 0;
        limits_graph(L);
    }
    lua_newuserdatauv(L, 0, 0);
}

void measure_push(lua_State *L, struct qty take)
{
    if (!qty_is(take)) {
        lua_pushnil(L);
        return;
    }
    push_bare(L, host_of(L)->limits, take);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &measure_key);
    lua_setmetatable(L, -2);
}

void measure_result(lua_State *L, struct qty take, const struct fault *f)
{
    if (!qty_is(take))
        fault_raise(L, f);
    measure_push(L, take);
}

void measure_text(lua_State *L, struct qty q, char *out, size_t size)
{
    const struct host *host = host_of(L);
    struct buf b;
    buf_init(&b);
    unit_print(host->units, graph_unit(host->graph, q), graph_value(host->graph, q), &b);
    snprintf(out, size, "%s", b.failed ? "a measure" : b.data);
    buf_clear(&b);
}

struct origin measure_origin(lua_State *L, const char *words)
{
    struct origin from = { SPAN_NONE, words };
    raise_author(L, &from.at);
    return from;
}

/* ---- arithmetic ---- */

enum operation { ADD, SUBTRACT, MULTIPLY, DIVIDE };

static const struct {
    const char *symbol, *event;
    struct qty (*make)(struct graph *, struct qty, struct qty, struct fault *);
} operations[] = {
    [ADD] = { "+", "__add", graph_add },
    [SUBTRACT] = { "-", "__sub", graph_subtract },
    [MULTIPLY] = { "*", "__mul", graph_multiply },
    [DIVIDE] = { "/", "__div", graph_divide },
};

/* One of the two is no measure, or the graph refuses. */
static int arithmetic_slowly(lua_State *L, enum operation what)
{
    struct fault f = { .id = NULL };
    bool left = qty_is(measure_at(L, 1)), right = qty_is(measure_at(L, 2));
    /* 3 wk + a date: the date knows what to do. */
    if (left && !right && lua_type(L, 2) == LUA_TUSERDATA &&
        luaL_getmetafield(L, 2, operations[what].event) != LUA_TNIL) {
        lua_insert(L, 1);
        lua_call(L, 2, 1);
        return 1;
    }
    if ((!left && lua_type(L, 1) != LUA_TNUMBER) ||
        (!right && lua_type(L, 2) != LUA_TNUMBER))
        operands_refuse(L, operations[what].symbol);
    bool dash = what == SUBTRACT && !left; /* perhaps 2-3 h, meant as a range */
    struct qty a = operand_at(L, 1), b = operand_at(L, 2);
    struct qty made = operations[what].make(host_of(L)->graph, a, b, &f);
    if (!qty_is(made) && dash && f.hint[0] != '\0') {
        size_t length = strlen(f.hint);
        snprintf(f.hint + length, sizeof f.hint - length,
                 "; a range is written with `to`: 2 to 3 h");
    }
    if (!qty_is(made))
        operator_fault(L, &f, operations[what].symbol);
    measure_push(L, made);
    return 1;
}

/* The common case: two measures that fit, with nothing looked up by name. Upvalue 1 is
 * the metatable. */
static inline int arithmetic(lua_State *L, enum operation what)
{
    const struct host *host = host_of(L);
    struct limits *l = host->limits;
    struct qty a = at(L, l, 1), b = at(L, l, 2);
    if (!qty_is(a) || !qty_is(b))
        return arithmetic_slowly(L, what);
    struct qty made = operations[what].make(host->graph, a, b, &l->scratch);
    if (!qty_is(made)) {
        l->scratch.id = NULL;
        return arithmetic_slowly(L, what);
    }
    push_bare(L, l, made);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_setmetatable(L, -2);
    return 1;
}

static int measure_add(lua_State *L)
{
    return arithmetic(L, ADD);
}
static int measure_subtract(lua_State *L)
{
    return arithmetic(L, SUBTRACT);
}
static int measure_multiply(lua_State *L)
{
    return arithmetic(L, MULTIPLY);
}
static int measure_divide(lua_State *L)
{
    return arithmetic(L, DIVIDE);
}

static int measure_negate(lua_State *L)
{
    struct fault f = { .id = NULL };
    measure_result(L, graph_negate(host_of(L)->graph, measure_at(L, 1), &f), &f);
    return 1;
}

static int measure_power(lua_State *L)
{
    struct fault f = { .id = NULL };
    struct qty base = measure_at(L, 1);
    if (!qty_is(base) || lua_type(L, 2) != LUA_TNUMBER)
        operands_refuse(L, "^");
    double power = lua_tonumber(L, 2);
    int denominator = fabs(power - 1.0 / 3) < 1e-12 ? 3 : power == 0.5 ? 2 : 1;
    if (denominator == 1 && (power != floor(power) || fabs(power) > 6)) {
        fault_set(&f, "dimension-power", SPAN_NONE,
                  "only whole powers from -6 to 6, square roots and cube roots");
        fault_hint(&f, "sqrt(x), or x ^ (1/3)");
        operator_fault(L, &f, "^");
    }
    struct qty made = graph_power(host_of(L)->graph, base,
                                  denominator == 1 ? (int)power : 1, denominator, &f);
    if (!qty_is(made))
        operator_fault(L, &f, "^");
    measure_push(L, made);
    return 1;
}

static int measure_modulo(lua_State *L)
{
    struct fault f = { .id = NULL };
    fault_set(&f, "operand-kind", SPAN_NONE, "a measure has no remainder (%%)");
    fault_hint(&f, "a - b * floor(a / b), or number(a, \"ft\") %% 3");
    operator_fault(L, &f, "%");
}

static int measure_whole_division(lua_State *L)
{
    struct fault f = { .id = NULL };
    fault_set(&f, "operand-kind", SPAN_NONE, "measures are not divided with //");
    fault_hint(&f, "floor(a / b)");
    operator_fault(L, &f, "//");
}

/* ---- as text ---- */

static int measure_tostring(lua_State *L)
{
    char text[160];
    measure_text(L, measure_at(L, 1), text, sizeof text);
    lua_pushstring(L, text);
    return 1;
}

static int measure_concat(lua_State *L)
{
    for (int i = 1; i <= 2; i++) {
        bool printable = lua_type(L, i) == LUA_TUSERDATA &&
                         luaL_getmetafield(L, i, "__tostring") != LUA_TNIL;
        if (!printable && !lua_isstring(L, i))
            operands_refuse(L, "..");
        lua_settop(L, 2);
    }
    for (int i = 1; i <= 2; i++) {
        if (luaL_callmeta(L, i, "__tostring"))
            lua_replace(L, i);
    }
    lua_concat(L, 2);
    return 1;
}

static int measure_newindex(lua_State *L)
{
    char text[160];
    operand_words(L, 1, text, sizeof text);
    fault_say(L, "measure-part", "make a new one: width = width + 3 ft",
              "a measure (%s) cannot be changed", text);
}

void measure_open(lua_State *L)
{
    static const luaL_Reg operators[] = { { "__add", measure_add },
                                          { "__sub", measure_subtract },
                                          { "__mul", measure_multiply },
                                          { "__div", measure_divide },
                                          { "__unm", measure_negate },
                                          { "__pow", measure_power },
                                          { "__mod", measure_modulo },
                                          { "__idiv", measure_whole_division },
                                          { "__eq", measure_equal },
                                          { "__lt", measure_less },
                                          { "__le", measure_less_equal },
                                          { "__tostring", measure_tostring },
                                          { "__concat", measure_concat },
                                          { "__newindex", measure_newindex },
                                          { NULL, NULL } };
    struct limits *l = host_of(L)->limits;
    limits_learn_cell(L);
    l->cells.dead = release;
    l->cells.owner = host_of(L)->graph;
    lua_createtable(L, 0, 20);
    lua_pushvalue(L, -1); /* upvalue of each: the metatable */
    luaL_setfuncs(L, operators, 1);
    lua_pushliteral(L, "measure");
    lua_setfield(L, -2, "__name");
    lua_pushboolean(L, 0);
    lua_setfield(L, -2, "__metatable");
    lua_newtable(L);
    measure_methods(L);
    lua_pushcclosure(L, measure_index, 1);
    lua_setfield(L, -2, "__index");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &measure_key);
    sandbox_vocabulary(L);
    measure_functions(L);
    lua_pop(L, 1);
}
