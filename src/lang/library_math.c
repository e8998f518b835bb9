#include "lang/library.h"

#include <lauxlib.h>
#include <lualib.h>

#include "base/chance.h"
#include "lang/raise.h"

/* xoshiro256** (Blackman and Vigna, public domain), filled by splitmix64: the same
 * numbers in every run that starts from the same seed. */
static const char random_key;

struct random {
    uint64_t state[4];
};

static struct random *random_of(lua_State *L)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &random_key);
    struct random *r = lua_touserdata(L, -1);
    lua_pop(L, 1);
    return r;
}

void random_seed(lua_State *L, uint64_t seed)
{
    struct random *r = random_of(L);
    for (int i = 0; i < 4; i++)
        r->state[i] = chance_next(&seed);
}

static uint64_t turned(uint64_t x, int by)
{
    return x << by | x >> (64 - by);
}

static uint64_t random_next(struct random *r)
{
    uint64_t *s = r->state, result = turned(s[1] * 5, 7) * 9, t = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = turned(s[3], 45);
    return result;
}

/* random() in [0, 1), random(n) in 1 to n, random(a, b): as Lua's. */
static int math_random(lua_State *L)
{
    struct random *r = random_of(L);
    int given = lua_gettop(L);
    if (given == 0) {
        lua_pushnumber(L, (lua_Number)(random_next(r) >> 11) * 0x1p-53);
        return 1;
    }
    lua_Integer low = given == 1 ? 1 : luaL_checkinteger(L, 1);
    lua_Integer high = luaL_checkinteger(L, given == 1 ? 1 : 2);
    luaL_argcheck(L, low <= high, given == 1 ? 1 : 2, "interval is empty");
    uint64_t span = (uint64_t)high - (uint64_t)low, mask = span, x;
    for (int shift = 1; shift < 64; shift *= 2)
        mask |= mask >> shift;
    do {
        x = random_next(r) & mask;
    } while (x > span); /* more than half of all are taken */
    lua_pushinteger(L, (lua_Integer)((uint64_t)low + x));
    return 1;
}

void library_math(lua_State *L)
{
    static const char *const as_they_are[] = {
        "abs", "acos",       "asin", "atan", "ceil", "cos", "deg",
        "exp", "floor",      "fmod", "huge", "log",  "max", "maxinteger",
        "min", "mininteger", "modf", "pi",   "rad",  "sin", "sqrt",
        "tan", "tointeger",  "type", "ult",  NULL
    };
    lua_pushcfunction(L, luaopen_math);
    lua_call(L, 0, 1);
    lua_insert(L, -2);
    library_take(L, as_they_are);
    lua_remove(L, -2);
    lua_newuserdatauv(L, sizeof(struct random), 0);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &random_key);
    random_seed(L, 0);
    lua_pushcfunction(L, math_random);
    lua_setfield(L, -2, "random");
}
