#include "base/folder.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/files.h"

char *folder_path(const char *folder, const char *name)
{
    size_t before = strlen(folder), after = strlen(name);
    char *path = malloc(before + after + 2);
    if (!path)
        return NULL;
    memcpy(path, folder, before);
    if (before > 0 && path[before - 1] != '/')
        path[before++] = '/';
    memcpy(path + before, name, after + 1);
    return path;
}

/* Makes the folder unless it is there; `made` tells which. */
static bool open_folder(const char *folder, bool *made, struct fault *f)
{
    struct stat about;
    *made = mkdir(folder, 0777) == 0;
    if (*made)
        return true;
    int error = errno;
    if (error == EEXIST && stat(folder, &about) == 0 && S_ISDIR(about.st_mode))
        return true;
    if (error == EEXIST) {
        fault_set(f, "folder-kind", SPAN_NONE, "`%s` is there, and is no folder", folder);
        fault_hint(f, "another name for the folder");
        return false;
    }
    fault_set(f, "folder-make", SPAN_NONE, "the folder `%s` cannot be made: %s", folder,
              error == ENOENT ? "the folder it is to lie in is not there"
                              : file_reason(error));
    if (error == ENOENT)
        fault_hint(f, "make that one first");
    return false;
}

static bool put_beside(const char *folder, const struct folder_file *file,
                       struct file_beside *out, struct fault *f)
{
    char *path = folder_path(folder, file->name);
    bool good = path ? file_put_beside(path, file->data, file->length, out, f)
                     : fault_no_memory(f);
    free(path);
    return good;
}

bool folder_write(const char *folder, const struct folder_file *files, size_t count,
                  struct fault *f)
{
    bool made = false;
    struct file_beside *list = calloc(count + 1, sizeof *list);
    bool good = list ? open_folder(folder, &made, f) : fault_no_memory(f);
    for (size_t i = 0; good && i < count; i++)
        good = put_beside(folder, &files[i], &list[i], f);
    for (size_t i = 0; good && i < count; i++)
        good = file_take_place(&list[i], f);
    for (size_t i = 0; list && !good && i < count; i++)
        file_drop(&list[i]);
    if (!good && made)
        rmdir(folder); /* fails when something is in it, and then it is wanted */
    free(list);
    return good;
}
