#include "lang/papers.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/folder.h"
#include "base/grow.h"
#include "base/source.h"
#include "base/utf8.h"
#include "lang/host.h"

/* Without a name it is an input, and `says` its path; else `says` is "" when the plan has
 * no such file. */
struct paper_file {
    char *name, *says;
    struct buf text;
};

static bool is_input(const struct paper_file *file)
{
    return file->name[0] == '\0';
}

static bool is_made(const struct paper_file *file)
{
    return !is_input(file) && file->says[0] != '\0';
}

void papers_clear(struct papers *p)
{
    while (p->count > 0) {
        struct paper_file *file = &p->list[--p->count];
        free(file->name);
        free(file->says);
        buf_clear(&file->text);
    }
    free(p->list);
    *p = (struct papers){ NULL, 0, 0 };
}

static bool add(struct papers *p, const char *name, size_t length, const char *says,
                size_t says_length)
{
    struct paper_file *list = grow(p->list, &p->room, p->count, sizeof *list);
    if (!list)
        return false;
    p->list = list;
    struct paper_file *file = &list[p->count++];
    file->name = strndup(name, length);
    file->says = strndup(says, says_length);
    buf_init(&file->text);
    return file->name && file->says;
}

/* Lines "plan.txt", a tab, "the plan". */
static bool read_names(struct papers *p, const struct buf *names)
{
    for (const char *line = names->data; *line;) {
        size_t length = strcspn(line, "\n"), name = strcspn(line, "\t\n");
        size_t says = name < length ? name + 1 : length;
        if (!add(p, line, name, line + says, length - says))
            return false;
        line += length + (line[length] == '\n');
    }
    return true;
}

/* The plan itself and the scripts it reads. */
static bool add_sources(struct papers *p, const struct sources *all)
{
    for (uint32_t id = 1;; id++) {
        const char *name = source_name(all, id);
        if (name[0] == '\0')
            return true;
        if (!add(p, "", 0, name, strlen(name)))
            return false;
    }
}

bool papers_make(struct host *host, struct papers *p)
{
    struct buf names;
    *p = (struct papers){ NULL, 0, 0 };
    buf_init(&names);
    bool good = host_file(host, NULL, &names);
    bool room = good && !names.failed && read_names(p, &names) &&
                add_sources(p, host->sources);
    buf_clear(&names);
    for (size_t i = 0; room && good && i < p->count; i++) {
        struct paper_file *file = &p->list[i];
        if (is_made(file))
            good = host_file(host, file->name, &file->text);
        room = !file->text.failed;
    }
    if (good && !room) {
        struct fault f = { 0 };
        fault_no_memory(&f);
        host_told(host, &f);
    }
    return good && room;
}

/* ---- writing ---- */

/* "out/plan.txt: the plan"; what was typed may steer a terminal. */
static void tell(struct buf *out, const char *folder, const struct paper_file *file,
                 const char *says)
{
    char *path = folder_path(folder, file->name);
    if (!path) {
        out->failed = true;
        return;
    }
    utf8_put_plain(out, path, strlen(path));
    buf_puts(out, ": ");
    buf_puts(out, says);
    buf_putc(out, '\n');
    free(path);
}

static bool find(const char *folder, const char *name, struct stat *about)
{
    char *path = folder_path(folder, name);
    bool there = path && lstat(path, about) == 0; /* a link would be replaced itself */
    free(path);
    return there;
}

static bool is_same(const struct stat *one, const struct stat *other)
{
    return one->st_dev == other->st_dev && one->st_ino == other->st_ino;
}

/* Would the file take the place of one that the plan was read from? */
static bool takes_input(const struct papers *p, const char *folder,
                        const struct paper_file *file, struct fault *f)
{
    struct stat target, input, link;
    if (!is_made(file) || !find(folder, file->name, &target))
        return false;
    for (size_t i = 0; i < p->count; i++) {
        const struct paper_file *read = &p->list[i];
        if (!is_input(read) || stat(read->says, &input) != 0 ||
            lstat(read->says, &link) != 0 ||
            !(is_same(&input, &target) || is_same(&link, &target)))
            continue;
        fault_set(f, "papers-input", SPAN_NONE,
                  "the plan is read from `%s`, and `%s` would be written over it",
                  read->says, file->name);
        fault_hint(f, "another folder");
        return true;
    }
    return false;
}

static bool write_made(const struct papers *p, const char *folder, struct fault *f)
{
    size_t count = 0;
    struct folder_file *files = calloc(p->count + 1, sizeof *files);
    bool good = files ? true : fault_no_memory(f);
    for (size_t i = 0; good && i < p->count; i++) {
        const struct paper_file *file = &p->list[i];
        if (is_made(file))
            files[count++] =
                (struct folder_file){ file->name, file->text.data, file->text.length };
        good = !takes_input(p, folder, file, f);
    }
    good = good && folder_write(folder, files, count, f);
    free(files);
    return good;
}

bool papers_write(const struct papers *p, const char *folder, struct buf *told,
                  struct buf *old, struct fault *f)
{
    struct stat about;
    if (!write_made(p, folder, f))
        return false;
    for (size_t i = 0; i < p->count; i++) {
        const struct paper_file *file = &p->list[i];
        if (is_made(file))
            tell(told, folder, file, file->says);
        else if (!is_input(file) && find(folder, file->name, &about))
            tell(old, folder, file, "from an earlier run: this plan has none");
    }
    return true;
}
