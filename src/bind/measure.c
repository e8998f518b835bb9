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
#include "lang/load.h"
#include "lang/plainer.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/script.h"
#include "lang/tokens.h"

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

/* ---- operands and their faults ---- */

void operand_words(lua_State *L, int index, char *out, size_t size)
{
    int top = lua_gettop(L);
    struct qty q = measure_at(L, index);
    if (qty_is(q)) {
        measure_text(L, q, out, size);
    } else if (lua_isnoneornil(L, index)) {
        snprintf(out, size, "nil (nothing)");
    } else if (lua_type(L, index) == LUA_TNUMBER) {
        lua_pushvalue(L, index);
        snprintf(out, size, "%s", lua_tostring(L, -1));
        lua_pop(L, 1);
    } else if (lua_type(L, index) == LUA_TSTRING) {
        snprintf(out, size, "text (\"%.40s\")", lua_tostring(L, index));
    } else {
        bool named = luaL_getmetafield(L, index, "__name") == LUA_TSTRING;
        const char *name = named ? lua_tostring(L, -1) : luaL_typename(L, index);
        snprintf(out, size, "%s %.60s", strchr("aeiou", name[0]) ? "an" : "a", name);
        lua_settop(L, top);
    }
}

struct qty operand_at(lua_State *L, int index)
{
    struct qty q = measure_at(L, index);
    if (qty_is(q) || lua_type(L, index) != LUA_TNUMBER)
        return q;
    struct fault f = { .id = NULL };
    index = lua_absindex(L, index);
    q = graph_leaf(host_of(L)->graph, lua_tonumber(L, index), UNIT_NUMBER,
                   measure_origin(L, NULL), &f);
    measure_result(L, q, &f);
    lua_replace(L, index);
    return q;
}

/* Does the symbol stand on that line just once? Else nobody can tell which one it was. */
static bool is_alone(const struct sources *all, struct span line, const char *symbol)
{
    size_t length;
    const char *text = source_text(all, line.source, &length);
    struct reader r = reader_at(text, line.at + line.length, line.at, 1);
    size_t wanted = strlen(symbol), count = 0;
    struct token t;
    while (t = token_read(&r), t.kind != TOKEN_END && t.kind != TOKEN_BROKEN)
        count += t.kind == TOKEN_SYMBOL && t.length == wanted &&
                 memcmp(text + t.at, symbol, wanted) == 0;
    return count == 1;
}

bool operator_place(lua_State *L, const char *symbol, struct span *left,
                    struct span *right)
{
    const struct host *host = host_of(L);
    struct span line;
    if (!host->loads || !raise_author(L, &line) || !is_alone(host->sources, line, symbol))
        return false;
    struct script *script = load_script(host, line.source);
    if (!script)
        return false;
    uint32_t number = source_place(host->sources, line).line;
    struct span at = script_operator_at(script, host->sources, number, symbol);
    return at.source != 0 && script_operands(script, host->sources, at, left, right);
}

void operator_fault(lua_State *L, struct fault *f, const char *symbol)
{
    struct span left, right;
    if (f->at.source == 0 && operator_place(L, symbol, &left, &right)) {
        f->at = left;
        f->other = right;
    }
    fault_raise(L, f);
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

/* The words of an operand; of one that is nil, what the author wrote. */
static void typed_words(lua_State *L, int index, struct span at, char *out, size_t size)
{
    const struct host *host = host_of(L);
    size_t length;
    operand_words(L, index, out, size);
    if (!lua_isnil(L, index) || at.source == 0 || at.length >= size)
        return;
    const char *text = source_text(host->sources, at.source, &length);
    snprintf(out, size, "%.*s", (int)at.length, text + at.at);
}

bool operand_nothing(lua_State *L, const char *how, const char *symbol, struct fault *f)
{
    const struct host *host = host_of(L);
    struct span place[2] = { SPAN_NONE, SPAN_NONE };
    char words[2][80];
    int nothing = lua_isnil(L, 1) ? 0 : 1;
    if (!lua_isnil(L, nothing + 1) || !operator_place(L, symbol, &place[0], &place[1]))
        return false;
    /* Lua asks for b < a where a > b was written. */
    bool turned = symbol[0] == '>';
    for (int i = 0; i < 2; i++)
        typed_words(L, turned ? 2 - i : i + 1, place[i], words[i], sizeof words[i]);
    const char *name = words[turned ? 1 - nothing : nothing];
    fault_set(f, "operand-kind", place[0], "cannot %s %s %s %s: `%s` is nil (nothing)", how,
              words[0], symbol, words[1], name);
    f->other = place[1];
    f->of_nothing = true;
    struct qty other = measure_at(L, 2 - nothing);
    bool unit = (symbol[0] == '/' || symbol[0] == '*') && qty_is(other) &&
                units_is_name(host->units, name, strlen(name));
    if (unit)
        fault_hint(f, "`%s` is a unit: a compound unit has no blanks, as in 80 ft2/ac", name);
    else if (name[skip_word(name, strlen(name), 0)] == '\0')
        plainer_suggest(L, name, false, f);
    return true;
}

/* Prices and rates are things with a source; the measure is in them. */
static bool is_told(const char *words)
{
    return strcmp(words, "a price") == 0 || strcmp(words, "a rate") == 0;
}

__attribute__((noreturn)) static void refuse_operands(lua_State *L, const char *symbol)
{
    char left[80], right[80];
    struct fault f = { .id = NULL };
    if (operand_nothing(L, "work out", symbol, &f))
        fault_raise(L, &f);
    operand_words(L, 1, left, sizeof left);
    operand_words(L, 2, right, sizeof right);
    fault_set(&f, "operand-kind", SPAN_NONE, "cannot work out %s %s %s", left, symbol,
              right);
    if (lua_type(L, 1) == LUA_TSTRING || lua_type(L, 2) == LUA_TSTRING)
        fault_hint(&f, "a measure is written without quotes: 3 ft");
    else if (is_told(left) || is_told(right))
        fault_hint(&f, "what it amounts to is its value: price \"steel post\".value");
    else if (symbol[0] == '^')
        fault_hint(&f, "a power is a bare number: (3 ft)^2");
    operator_fault(L, &f, symbol);
}

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
        refuse_operands(L, operations[what].symbol);
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
        refuse_operands(L, "^");
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
            refuse_operands(L, "..");
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
