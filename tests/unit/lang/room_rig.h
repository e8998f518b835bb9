/* room_rig.h: texts run as modules of our own, for the tests of rooms that make things which
 * the limits of a run have to know of.
 *
 *     static bool run(struct rig *r, const char *text) ...   // opens the rooms, runs the text
 *     room_holds(run, "assert(layout.design(ask()).count == 3)");
 *     room_fails(run, "layout.design(1)", "table expected");
 *     room_short_of_memory(run, text, 1);
 */
#ifndef SPINNEY_TESTS_LANG_ROOM_RIG_H
#define SPINNEY_TESTS_LANG_ROOM_RIG_H

#include "../unit.h"
#include "rig.h"

typedef bool room_run(struct rig *r, const char *text);

/* It runs, and gives back what it held. */
static inline void room_holds(room_run *run, const char *text)
{
    struct rig r;
    rig_open(&r, NULL);
    bool ok = run(&r, text);
    size_t left = 0;
    if (ok) {
        lua_gc(r.host.L, LUA_GCCOLLECT);
        lua_gc(r.host.L, LUA_GCCOLLECT);
        left = r.limits.held_bytes;
    } else {
        fprintf(stderr, "%s (%s)\n", r.fault.message, r.fault.hint);
    }
    rig_close(&r);
    assert_true(ok);
    assert_int_equal(left, 0);
}

/* It ends in a fault that says these words. */
static inline void room_fails(room_run *run, const char *text, const char *words)
{
    struct rig r;
    rig_open(&r, NULL);
    bool ok = !run(&r, text) && strstr(r.fault.message, words);
    if (!ok)
        fprintf(stderr, "%s\n  fault: %s\n", text, r.fault.message);
    rig_close(&r);
    assert_true(ok);
}

/* Every step-th request for memory of its own run fails: all is given back (the sanitizers
 * look), until none fails any more. */
static inline void room_short_of_memory(room_run *run, const char *text, long step)
{
    long n = 1;
    bool ok = false;
    for (; n < 2000 && !ok; n += step) {
        struct rig r;
        rig_open(&r, NULL);
        r.fail_at = n;
        r.asked = 0;
        r.fail_on = true;
        ok = run(&r, text);
        r.fail_at = 0;
        rig_close(&r);
    }
    assert_true(ok && n > 30);
}

#endif
