/* pattern.h: Lua's patterns, matched with a budget: a pattern that tries too many ways
 * ends in a refusal instead of hanging.
 *
 *     struct pattern p;
 *     pattern_init(&p, text, length, "%a+", 3, 1000000);
 *     const char *end = pattern_match(&p, text);    // from this place on; NULL for no
 *     if (!end && p.wrong) ...                      // malformed, or out of steps
 *
 * The same language and the same answers as Lua's own (the tests compare them), with the
 * letters of the C locale. No recursion and no memory: a pattern has no loops over
 * groups, so what is left to try is never more than the pattern has parts. */
#ifndef SPINNEY_LANG_PATTERN_H
#define SPINNEY_LANG_PATTERN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { PATTERN_CAPTURES = 32 };
enum { CAPTURE_OPEN = -1, CAPTURE_PLACE = -2 };

struct pattern {
    const char *subject, *subject_end;
    const char *text, *text_end;
    uint64_t steps_left;
    const char *wrong;  /* static words; NULL while nothing is */
    bool out_of_steps;
    int captures;
    struct {
        const char *start;
        ptrdiff_t length; /* or CAPTURE_OPEN, CAPTURE_PLACE */
    } capture[PATTERN_CAPTURES];
};

/* `subject` must be followed by a NUL that length does not count, as Lua's texts are; so
 * must `text`, the pattern, here without a ^ at its start. */
void pattern_init(struct pattern *p, const char *subject, size_t length, const char *text,
                  size_t text_length, uint64_t steps);
/* Matches at `from` and nowhere else. */
const char *pattern_match(struct pattern *p, const char *from);

#endif
