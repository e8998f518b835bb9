/* Which scripts there are: in the packs, built in, and the property's prescriptions. */
#include <dirent.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "lang/builtin.h"
#include "lang/finder_inner.h"

struct names {
    char **list;
    size_t count;
};

static bool add_name(struct names *names, const char *name, size_t length)
{
    char **more = realloc(names->list, (names->count + 1) * sizeof *more);
    if (!more)
        return false;
    names->list = more;
    names->list[names->count] = strndup(name, length);
    return names->list[names->count++] != NULL;
}

static bool is_script(const char *name, size_t *stem)
{
    size_t length = strlen(name);
    *stem = length > 3 ? length - 3 : 0;
    return length > 3 && strcmp(name + length - 3, ".rx") == 0 && !strchr(name, '/');
}

static bool add_folder(struct names *names, const char *pack, const char *folder)
{
    char path[4096];
    size_t a = strlen(pack), b = strlen(folder);
    if (a + b + 2 > sizeof path)
        return true;
    memcpy(path, pack, a);
    path[a] = '/';
    memcpy(path + a + 1, folder, b + 1);
    DIR *dir = opendir(path);
    if (!dir)
        return true; /* a pack need not have this folder */
    bool ok = true;
    for (const struct dirent *entry; ok && (entry = readdir(dir)) != NULL;) {
        size_t stem;
        if (is_script(entry->d_name, &stem))
            ok = add_name(names, entry->d_name, stem);
    }
    closedir(dir);
    return ok;
}

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

bool finder_list(const struct finder *find, const char *folder, struct buf *out)
{
    struct names names = { NULL, 0 };
    size_t length = strlen(folder), stem;
    bool ok = true;
    if (find->property && strcmp(folder, "prescriptions") == 0)
        ok = add_folder(&names, find->property, folder);
    for (size_t i = 0; ok && i < find->pack_count; i++)
        ok = add_folder(&names, find->packs[i], folder);
    const struct builtin *entry;
    for (size_t i = 0; ok && (entry = builtin_at(i)) != NULL; i++)
        if (strncmp(entry->name, folder, length) == 0 && entry->name[length] == '/' &&
            is_script(entry->name + length + 1, &stem))
            ok = add_name(&names, entry->name + length + 1, stem);
    if (ok && names.count)
        qsort(names.list, names.count, sizeof *names.list, by_name);
    for (size_t i = 0; ok && i < names.count; i++) {
        if (i > 0 && strcmp(names.list[i], names.list[i - 1]) == 0)
            continue;
        buf_puts(out, names.list[i]);
        buf_putc(out, '\n');
    }
    for (size_t i = 0; i < names.count; i++)
        free(names.list[i]);
    free(names.list);
    return ok && !out->failed;
}
