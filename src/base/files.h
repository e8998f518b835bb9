/* files.h: whole files in, whole files out.
 *
 *     struct buf text;
 *     if (!file_read("plan.rx", 4u << 20, &text, f)) ...
 *     if (!file_write("plan.json", data, length, f)) ...
 *
 * Reading takes regular files only, up to a stated size. Writing goes beside the target
 * and is renamed over it once it is synced and closed: a failure keeps the old file. */
#ifndef SPINNEY_BASE_FILES_H
#define SPINNEY_BASE_FILES_H

#include <stdbool.h>
#include <stddef.h>

struct buf;
struct fault;

/* `out` is initialised here, also on failure. Faults: file-missing, file-kind, file-size,
 * file-read. */
bool file_read(const char *path, size_t most, struct buf *out, struct fault *f);
/* Keeps the permissions of the file it replaces. A link is replaced itself, and what it
 * leads to left alone: whoever names a folder to write to names no file outside it.
 * Faults: file-kind, file-write. */
bool file_write(const char *path, const char *data, size_t length, struct fault *f);

/* The same in two steps, for files that belong together: all are put beside their
 * targets before the first takes its place (base/folder.h). */
struct file_beside {
    char *target, *beside; /* NULL: none */
};

/* Nothing is beside on failure. */
bool file_put_beside(const char *path, const char *data, size_t length,
                     struct file_beside *out, struct fault *f);
/* It takes its place, or, on failure, is gone; either way none is left in `b`. */
bool file_take_place(struct file_beside *b, struct fault *f);
/* It is taken away again; fine when there is none. */
void file_drop(struct file_beside *b);
/* Why the system refused: "the disk is full"; in our words, whatever the locale. */
const char *file_reason(int error);

#endif
