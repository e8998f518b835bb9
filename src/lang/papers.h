/* papers.h: the files of a settled plan, all made before the first is written.
 *
 *     struct papers p;
 *     if (papers_make(host, &p)) ok = papers_write(&p, "out", &told, &f);
 *     papers_clear(&p);
 */
#ifndef SPINNEY_LANG_PAPERS_H
#define SPINNEY_LANG_PAPERS_H

#include <stdbool.h>
#include <stddef.h>

struct buf;
struct fault;
struct host;
struct paper_file;

struct papers {
    struct paper_file *list;
    size_t count, room;
};

/* False when a text could not be made; why is among the host's faults. `p` is initialised
 * here, also on failure. */
bool papers_make(struct host *host, struct papers *p);
/* Writes them into the folder, all or none (base/folder.h), and none over a file that the
 * plan was read from: fault papers-input. Appends to `told` a line a
 * file, and to `old` one for each file there that a plan may have and this one has not:
 * it is from an earlier run. */
bool papers_write(const struct papers *p, const char *folder, struct buf *told,
                  struct buf *old, struct fault *f);
void papers_clear(struct papers *p);

#endif
