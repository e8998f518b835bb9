#include "lang/finder_inner.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/suggest.h"
#include "lang/builtin.h"

enum { SCRIPT_MOST = 1 << 20 };

struct finder *finder_new(void)
{
    return calloc(1, sizeof(struct finder));
}

void finder_free(struct finder *find)
{
    if (!find)
        return;
    free(find->property);
    for (size_t i = 0; i < find->pack_count; i++)
        free(find->packs[i]);
    free(find);
}

bool finder_set_property(struct finder *find, const char *plan_path, struct fault *f)
{
    const char *slash = strrchr(plan_path, '/');
    char *folder =
        slash ? strndup(plan_path, (size_t)(slash - plan_path) + 1) : strdup(".");
    if (!folder)
        return fault_no_memory(f);
    free(find->property);
    find->property = folder;
    return true;
}

bool finder_add_pack(struct finder *find, const char *folder, struct fault *f)
{
    struct stat about;
    if (stat(folder, &about) != 0)
        return fault_set(f, "file-missing", SPAN_NONE, "there is no folder `%s`", folder);
    if (!S_ISDIR(about.st_mode))
        return fault_set(f, "file-kind", SPAN_NONE, "the pack `%s` is not a folder",
                         folder);
    if (find->pack_count == PACKS_MOST)
        return fault_set(f, "pack-many", SPAN_NONE, "there are more than %d packs",
                         PACKS_MOST);
    char *copy = strdup(folder);
    if (!copy)
        return fault_no_memory(f);
    for (size_t end = strlen(copy); end > 1 && copy[end - 1] == '/'; end--)
        copy[end - 1] = '\0';
    const char *slash = strrchr(copy, '/'), *name = slash ? slash + 1 : copy;
    for (size_t i = 0; i < find->pack_count; i++)
        if (strcmp(find->pack_names[i], name) == 0)
            name = copy; /* two folders of one name: this one is told in full */
    find->pack_names[find->pack_count] = name;
    find->packs[find->pack_count++] = copy;
    return true;
}

size_t finder_packs(const struct finder *find)
{
    return find->pack_count;
}

const char *finder_pack_name(const struct finder *find, size_t index)
{
    return find->pack_names[index];
}

enum { NAME_MOST = 200 };

/* A name that stays below its folder: no empty, `.` or `..` part, no backslash. */
static bool name_stays_inside(const char *name, struct fault *f)
{
    if (!name[0] || strlen(name) > NAME_MOST || strchr(name, '\\')) {
        fault_set(f, "use-name", SPAN_NONE,
                  !name[0]             ? "the file has no name"
                  : strchr(name, '\\') ? "folders are separated with `/`, not with `\\`"
                                       : "this name is too long for a file");
        return false;
    }
    for (const char *part = name;;) {
        size_t length = strcspn(part, "/");
        bool here = length == 1 && part[0] == '.';
        if (length == 0 || here || (length == 2 && part[0] == '.' && part[1] == '.')) {
            fault_set(f, "use-name", SPAN_NONE,
                      here ? "`%s` names a folder with `.`, and needs none"
                           : "`%s` leads out of its folder",
                      name);
            if (here && part == name && part[1] == '/')
                fault_hint(f, "use \"%s\"", name + 2);
            else
                fault_hint(
                    f, "name a file of the property, of a pack or of the built-in book");
            return false;
        }
        if (!part[length])
            return true;
        part += length + 1;
    }
}

/* Opens a file below a folder part by part, following no link. -1 when there is none; the
 * error in errno. */
static int open_below(const char *folder, const char *name)
{
    int at = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const char *part = name;
    while (at >= 0) {
        char word[256];
        size_t length = strcspn(part, "/");
        if (length >= sizeof word) {
            errno = ENAMETOOLONG;
            break;
        }
        memcpy(word, part, length);
        word[length] = '\0';
        bool last = part[length] == '\0';
        int flags = O_RDONLY | O_CLOEXEC | O_NOFOLLOW | (last ? O_NONBLOCK : O_DIRECTORY);
        int next = openat(at, word, flags);
        int error = errno;
        close(at);
        errno = error;
        if (last || next < 0)
            return next;
        at = next;
        part += length + 1;
    }
    if (at >= 0)
        close(at);
    return -1;
}

/* What is read: a script, or data. */
struct wanted {
    const char *kind; /* "a script" */
    size_t most;      /* bytes */
    const char *mend; /* when it has more; NULL for none */
};

static bool too_large(const char *name, struct wanted w, struct fault *f)
{
    fault_set(f, "file-size", SPAN_NONE, "`%s` is larger than %s may be (%zu MB)", name,
              w.kind, w.most >> 20);
    if (w.mend)
        fault_hint(f, "%s", w.mend);
    return false;
}

static bool read_all(int file, const char *name, struct wanted w, struct buf *out,
                     struct fault *f)
{
    struct stat about;
    if (fstat(file, &about) != 0 || !S_ISREG(about.st_mode))
        return fault_set(f, "file-kind", SPAN_NONE,
                         S_ISDIR(about.st_mode) ? "`%s` is a folder, not %s"
                                                : "`%s` is not a file of text",
                         name, w.kind);
    if (about.st_size > 0 && (uintmax_t)about.st_size > w.most)
        return too_large(name, w, f);
    for (;;) {
        char block[16384];
        ssize_t got = read(file, block, sizeof block);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return fault_set(f, "file-read", SPAN_NONE, "`%s` cannot be read", name);
        if (got == 0)
            break;
        buf_put(out, block, (size_t)got);
        if (out->length > w.most)
            return too_large(name, w, f);
    }
    return !out->failed || fault_no_memory(f);
}

/* Is a part of the name a link? Asked when a folder on the way could not be opened. */
static bool is_linked(const char *folder, const char *name)
{
    int at = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool linked = false;
    for (size_t i = 0; at >= 0 && !linked && name[i]; i++) {
        char part[NAME_MOST + 1];
        struct stat about;
        if (name[i] != '/' || i >= sizeof part)
            continue;
        memcpy(part, name, i);
        part[i] = '\0';
        linked =
            fstatat(at, part, &about, AT_SYMLINK_NOFOLLOW) == 0 && S_ISLNK(about.st_mode);
    }
    if (at >= 0)
        close(at);
    return linked;
}

/* False without a fault when the folder has no such file. */
static bool read_below(const char *folder, const char *name, struct wanted w,
                       struct found *out, struct fault *f)
{
    int file = open_below(folder, name);
    if (file < 0) {
        if (errno == ELOOP || (errno == ENOTDIR && is_linked(folder, name)))
            fault_set(f, "file-kind", SPAN_NONE,
                      "`%s` is a link, and links are not followed", name);
        return false;
    }
    bool ok = read_all(file, name, w, &out->text, f);
    close(file);
    return ok;
}

static void show_as(struct found *out, const char *folder, const char *name)
{
    size_t room = sizeof out->name, at = 0;
    if (folder) {
        size_t length = strlen(folder);
        while (length > 1 && folder[length - 1] == '/')
            length--;
        if (length > room / 4) {
            folder += length - room / 4;
            length = room / 4;
        }
        memcpy(out->name, folder, length);
        out->name[length] = '/';
        at = length + 1;
    }
    out->folder = at;
    size_t length = strlen(name);
    if (length > room - at - 1)
        length = room - at - 1;
    memcpy(out->name + at, name, length);
    out->name[at + length] = '\0';
}

/* The file of the same folder of the property that is called most like it, and ends in
 * these letters. */
static void suggest_file(const struct finder *find, const char *name, const char *end,
                         struct fault *f)
{
    const char *slash = strrchr(name, '/'), *last = slash ? slash + 1 : name;
    char path[4096], best[256] = "";
    size_t a = find->property ? strlen(find->property) : 0, b = (size_t)(last - name);
    if (a == 0 || a + b + 2 > sizeof path)
        return;
    memcpy(path, find->property, a);
    path[a] = '/';
    memcpy(path + a + 1, name, b);
    path[a + 1 + b] = '\0';
    DIR *dir = opendir(path);
    if (!dir)
        return;
    struct suggest s = suggest_for(last, strlen(last));
    for (const struct dirent *entry; (entry = readdir(dir)) != NULL;) {
        size_t length = strlen(entry->d_name);
        if (length <= strlen(end) || length >= sizeof best ||
            strcmp(entry->d_name + length - strlen(end), end) != 0)
            continue;
        suggest_offer(&s, entry->d_name);
        if (s.best == entry->d_name) { /* which the next entry overwrites */
            memcpy(best, entry->d_name, length + 1);
            s.best = best;
        }
    }
    closedir(dir);
    if (s.best)
        fault_hint(f, "did you mean \"%.*s%s\"?", (int)b, name, best);
}

static bool read_pack(const struct finder *find, size_t pack, const char *name,
                      struct wanted w, struct found *out, struct fault *f)
{
    *out = (struct found){ .layer = LAYER_PACK, .order = (int)pack + 1 };
    buf_init(&out->text);
    show_as(out, find->pack_names[pack], name);
    out->folder = 0; /* packs are told apart by theirs */
    /* A manifest names files too, and a property its region. */
    return name_stays_inside(name, f) && read_below(find->packs[pack], name, w, out, f);
}

static const struct wanted script = { "a script", SCRIPT_MOST, NULL };

bool finder_read_pack(const struct finder *find, size_t pack, const char *name,
                      struct found *out, struct fault *f)
{
    return read_pack(find, pack, name, script, out, f);
}

/* In the property's folder, then the packs; false without a fault when in neither. */
static bool read_files(const struct finder *find, const char *name, struct wanted w,
                       struct found *out, struct fault *f)
{
    *out = (struct found){ .layer = LAYER_PROPERTY };
    buf_init(&out->text);
    if (!name_stays_inside(name, f))
        return false;
    /* The property's files show under the folder that the plan was typed with. */
    bool here = !find->property || strcmp(find->property, ".") == 0;
    show_as(out, here ? NULL : find->property, name);
    if (find->property && read_below(find->property, name, w, out, f))
        return true;
    for (size_t i = find->pack_count; i-- > 0 && !fault_is_set(f);) {
        found_clear(out);
        if (read_pack(find, i, name, w, out, f))
            return true;
    }
    return false;
}

bool finder_read_data(const struct finder *find, const char *name, size_t most,
                      bool optional, struct found *out, struct fault *f)
{
    const struct wanted data = { "a map", most, "cut the property out of it first" };
    if (read_files(find, name, data, out, f))
        return true;
    if (fault_is_set(f) || optional)
        return false;
    const char *dot = strrchr(name, '.');
    fault_set(f, "file-missing", SPAN_NONE, "there is no map `%s`", name);
    suggest_file(find, name, dot ? dot : "", f);
    bool here = !find->property || strcmp(find->property, ".") == 0;
    fault_hint(f, "it is looked for in %s%.200s%s", here ? "this folder" : "",
               here ? "" : find->property, find->pack_count > 0 ? " and the packs" : "");
    return false;
}

bool finder_read(const struct finder *find, const char *name, struct found *out,
                 struct fault *f)
{
    if (read_files(find, name, script, out, f))
        return true;
    if (fault_is_set(f))
        return false;
    const struct builtin *built_in = builtin_find(name);
    if (built_in && !built_in->bytecode) {
        out->layer = LAYER_BUILT_IN;
        out->order = 0;
        show_as(out, NULL, name);
        buf_put(&out->text, (const char *)built_in->data, built_in->length);
        return !out->text.failed || fault_no_memory(f);
    }
    fault_set(f, "file-missing", SPAN_NONE, "there is no script `%s`", name);
    suggest_file(find, name, ".rx", f);
    fault_hint(
        f, "it is looked for in the property's folder, the packs and the built-in book");
    return false;
}

void found_clear(struct found *file)
{
    buf_clear(&file->text);
}
