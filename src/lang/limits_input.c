/* What an input costs, a map above all: a stop of which it is to blame says so. */
#include <lua.h>
#include <stdio.h>

#include "lang/limits_inner.h"
#include "lang/watchdog.h"

enum {
    CORNERS_SUSPECT = 1000, /* fewer take no time worth naming */
    CORNERS_EACH = 100      /* more than an outline wants */
};

void limits_suspect(lua_State *L)
{
    const struct limits_input *input = &limits_of(L)->input;
    char what[INPUT_WHAT], mend[INPUT_MEND];
    limits_say_input(input, what, mend);
    bool large = input->corners >= CORNERS_SUSPECT;
    watchdog_suspect(large ? what : NULL, mend);
}

void limits_input(lua_State *L, const struct limits_input *input)
{
    struct limits *l = limits_of(L);
    l->input_bytes += input->bytes;
    if (input->corners >= l->input.corners)
        l->input = *input;
    limits_suspect(L);
}

void limits_say_input(const struct limits_input *input, char what[INPUT_WHAT],
                      char mend[INPUT_MEND])
{
    snprintf(what, INPUT_WHAT,
             "the map `%s` is too much to work on: it has %zu corner%s in %zu feature%s",
             input->name, input->corners, input->corners == 1 ? "" : "s", input->features,
             input->features == 1 ? "" : "s");
    snprintf(mend, INPUT_MEND, "%s",
             input->corners > CORNERS_EACH * input->features
                 ? "leave corners out of it: one every few feet is enough"
                 : "save what the plan names as a map of its own");
}

void limits_charge_input(lua_State *L, uint64_t ticks)
{
    struct limits *l = limits_of(L);
    if (l->started)
        l->input_ticks =
            ticks < UINT64_MAX - l->input_ticks ? l->input_ticks + ticks : UINT64_MAX;
    limits_charge(L, ticks);
}

bool limits_blames_input(const struct limits *l, bool memory)
{
    if (l->input.corners == 0)
        return false;
    size_t held = l->held_bytes > l->input_bytes ? l->held_bytes : l->input_bytes;
    if (memory)
        return held >= (l->lua_bytes + l->native_bytes + l->held_bytes) / 2;
    return l->input_ticks >= l->ticks / 2;
}
