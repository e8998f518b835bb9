/* folder.h: files that belong together, written into one folder: all of them or none.
 *
 *     struct folder_file list[] = { { "plan.txt", text, length }, ... };
 *     if (!folder_write("out", list, 2, f)) ...
 *
 * The folder is made when there is none, the one above it must be there. Every file is
 * put beside its target and synced before the first takes its place, so a full disk or a
 * folder that may not be written leaves the old files as they were, and no new folder.
 * Two ends are not covered: another user's file in a folder where only owners may rename
 * (the files before it are new then, and the fault names the one that is not), and a
 * process that is killed in between, which leaves files called .spinney-partN. */
#ifndef SPINNEY_BASE_FOLDER_H
#define SPINNEY_BASE_FOLDER_H

#include <stdbool.h>
#include <stddef.h>

struct fault;

struct folder_file {
    const char *name; /* without a folder */
    const char *data;
    size_t length;
};

/* Faults: file-kind, file-write, folder-kind, folder-make. */
bool folder_write(const char *folder, const struct folder_file *files, size_t count,
                  struct fault *f);
/* "out/plan.txt", to be freed; NULL when out of memory. */
char *folder_path(const char *folder, const char *name);

#endif
