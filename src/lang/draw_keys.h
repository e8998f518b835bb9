/* draw_keys.h: what the draws of a range written in a script are known by: the text of
 * its line, not its number, so that a line put in or taken out elsewhere moves no other
 * figure.
 *
 *     struct draw_keys *keys = draw_keys_new(sources, source, "plan.rx");
 *     uint64_t key = draw_keys_at(keys, line, column, occurrence);
 *     draw_keys_free(keys);
 *
 * Lines of the same text are counted, the first, the second, and so on. */
#ifndef SPINNEY_LANG_DRAW_KEYS_H
#define SPINNEY_LANG_DRAW_KEYS_H

#include <stdint.h>

struct draw_keys;
struct sources;

/* `name` tells the scripts of a run apart; it holds nothing of how the plan was reached
 * from where it is run. NULL when out of memory. */
struct draw_keys *draw_keys_new(const struct sources *all, uint32_t source,
                                const char *name);
void draw_keys_free(struct draw_keys *keys);
/* `occurrence`: how often that place was read before. */
uint64_t draw_keys_at(const struct draw_keys *keys, uint32_t line, uint32_t column,
                      uint32_t occurrence);

#endif
