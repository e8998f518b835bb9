/* traverse_reading.h: the reader of traverses inside a whole host, for its tests. The
 * word `tally` is put in its place: tally { notes = [[...]], given = { ... } } reads a
 * traverse and gives what was made of it; faults lie at the bytes of the script.
 *
 *     struct reading r;
 *     reading_open(&r, "local t = tally { notes = [[N 42 E 130 ft]] } print(#t.calls)");
 *     ... r.host->faults, r.host->printed
 *     reading_close(&r);
 */
#ifndef SPINNEY_TESTS_BIND_TRAVERSE_READING_H
#define SPINNEY_TESTS_BIND_TRAVERSE_READING_H

#include "reading.h"

static inline void reading_open(struct reading *r, const char *script)
{
    reading_begin(r, "tally",
                  "local host, traverse = need 'host', need 'traverse'\n"
                  "local function tally(t)\n"
                  "  local run = traverse.make(host.here('tally'), "
                  "'notes', t.notes, t.given or {})\n"
                  "  if run then run.closure = traverse.closure(run) end\n"
                  "  return run\n"
                  "end\n"
                  "return tally",
                  script);
}

#endif
