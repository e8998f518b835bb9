/* Comparing measures: by likely values, with a note where the ranges overlap. */
#include <string.h>

#include "bind/measure_inner.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/load.h"
#include "lang/raise.h"
#include "quantity/spread.h"

enum {
    LOOKS_MOST = 8, /* at the ranges compared on one line: draws are not free */
    LOOK_TICKS = 20000
};

/* Its address is the registry's key of how often each line was looked at. */
static const char looks_key;

/* May another look be taken at the comparison on the author's line? */
static bool take_look(lua_State *L, struct span at)
{
    lua_Integer line = (lua_Integer)((uint64_t)at.source << 32 | at.at);
    if (lua_rawgetp(L, LUA_REGISTRYINDEX, &looks_key) != LUA_TTABLE) {
        lua_pop(L, 1);
        lua_newtable(L);
        lua_pushvalue(L, -1);
        lua_rawsetp(L, LUA_REGISTRYINDEX, &looks_key);
    }
    lua_rawgeti(L, -1, line);
    lua_Integer looks = lua_tointeger(L, -1) + 1;
    lua_pushinteger(L, looks);
    lua_rawseti(L, -3, line);
    lua_pop(L, 2);
    return looks <= LOOKS_MOST;
}

/* Which of two signs the author wrote: Lua turns a > b into b < a, and asks __eq for ~=.
 *  */
static const char *sign(lua_State *L, const char *usual, const char *other)
{
    struct span line;
    size_t length, wanted = strlen(other);
    if (!raise_author(L, &line))
        return usual;
    const char *text = source_text(host_of(L)->sources, line.source, &length);
    for (uint32_t i = 0; i + wanted <= line.length; i++) {
        if (memcmp(text + line.at + i, other, wanted) == 0)
            return other;
    }
    return usual;
}

/* A built-in rule's comparison is no sentence of the author's. */
static bool is_built_in(const struct host *host, struct span at)
{
    return host->loads && load_layer(host, at.source)->kind <= LAYER_STATE;
}

static void note_overlap(lua_State *L, struct qty a, struct qty b, const char *usual,
                         const char *other)
{
    struct host *host = host_of(L);
    struct graph *g = host->graph;
    struct span at, left, right;
    struct spread s[2];
    struct fault f = { .id = NULL };
    if ((!graph_is_uncertain(g, a) && !graph_is_uncertain(g, b)) ||
        !raise_author(L, &at) || is_built_in(host, at) || !take_look(L, at))
        return;
    limits_charge(L, LOOK_TICKS);
    if (!spread_of(g, (struct qty[]){ a, b }, 2, s, &f))
        fault_raise(L, &f);
    if (s[0].high < s[1].low || s[1].high < s[0].low)
        return;
    const char *symbol = sign(L, usual, other);
    bool turned = symbol[0] == '>';
    char first[80], second[80];
    measure_text(L, turned ? b : a, first, sizeof first);
    measure_text(L, turned ? a : b, second, sizeof second);
    fault_set(&f, "compare-overlap", at,
              "compared by their likely values (%s, %s), but their ranges overlap", first,
              second);
    fault_hint(&f, "chance(a, b) is the chance that a exceeds b");
    if (operator_place(L, symbol, &left, &right)) {
        f.at = left;
        f.other = right;
    }
    faults_add(&host->warnings, &f);
}

/* -1, 0, 1 for the two operands; raises when they cannot be compared. */
static int compare(lua_State *L, const char *usual, const char *other)
{
    struct fault f = { .id = NULL };
    int order = 0;
    struct qty a = operand_at(L, 1), b = operand_at(L, 2);
    if (!qty_is(a) || !qty_is(b)) {
        char left[80], right[80];
        if (operand_nothing(L, "compare", sign(L, usual, other), &f))
            fault_raise(L, &f);
        operand_words(L, 1, left, sizeof left);
        operand_words(L, 2, right, sizeof right);
        fault_set(&f, "operand-kind", SPAN_NONE, "cannot compare %s with %s", left,
                  right);
    } else if (graph_compare(host_of(L)->graph, a, b, &order, &f)) {
        note_overlap(L, a, b, usual, other);
        return order;
    }
    const char *symbol = sign(L, usual, other);
    if (symbol[0] == '>' && qty_is(a) && qty_is(b)) { /* told in the order it was written */
        f = (struct fault){ .id = NULL };
        graph_fits(host_of(L)->graph, b, a, "compare", &f);
    }
    operator_fault(L, &f, symbol);
}

/* Only asked of two measures, or of a measure and another userdata, such as a date: these
 * are never equal. A measure and a bare number are unequal without a question to us. */
int measure_equal(lua_State *L)
{
    bool both = qty_is(measure_at(L, 1)) && qty_is(measure_at(L, 2));
    lua_pushboolean(L, both && compare(L, "==", "~=") == 0);
    return 1;
}

int measure_less(lua_State *L)
{
    lua_pushboolean(L, compare(L, "<", ">") < 0);
    return 1;
}

int measure_less_equal(lua_State *L)
{
    lua_pushboolean(L, compare(L, "<=", ">=") <= 0);
    return 1;
}
