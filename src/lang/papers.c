#include "lang/papers.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/folder.h"
#include "base/grow.h"
#include "base/utf8.h"
#include "lang/host.h"

struct paper_file {
    char *name, *says; /* says: "" when the plan has none such */
    struct buf text;
};

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

/* The line "plan.txt\tthe plan" as a file without its text. */
static bool add(struct papers *p, const char *line, size_t length)
{
    struct paper_file *list = grow(p->list, &p->room, p->count, sizeof *list);
    if (!list)
        return false;
    p->list = list;
    const char *tab = memchr(line, '\t', length);
    size_t name = tab ? (size_t)(tab - line) : length;
    struct paper_file *file = &list[p->count];
    file->name = strndup(line, name);
    file->says = strndup(line + name + (tab != NULL), length - name - (tab != NULL));
    buf_init(&file->text);
    p->count++;
    return file->name && file->says;
}

static bool read_names(struct papers *p, const struct buf *names)
{
    for (const char *line = names->data; *line;) {
        size_t length = strcspn(line, "\n");
        if (!add(p, line, length))
            return false;
        line += length + (line[length] == '\n');
    }
    return true;
}

bool papers_make(struct host *host, struct papers *p)
{
    struct buf names;
    *p = (struct papers){ NULL, 0, 0 };
    buf_init(&names);
    bool good = host_file(host, NULL, &names);
    bool room = good && !names.failed && read_names(p, &names);
    buf_clear(&names);
    for (size_t i = 0; room && good && i < p->count; i++) {
        struct paper_file *file = &p->list[i];
        if (file->says[0] != '\0')
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

static bool is_there(const char *folder, const char *name)
{
    struct stat about;
    char *path = folder_path(folder, name);
    bool there = path && stat(path, &about) == 0;
    free(path);
    return there;
}

bool papers_write(const struct papers *p, const char *folder, struct buf *told,
                  struct buf *old, struct fault *f)
{
    struct folder_file *files = calloc(p->count + 1, sizeof *files);
    size_t count = 0;
    if (!files)
        return fault_no_memory(f);
    for (size_t i = 0; i < p->count; i++) {
        const struct paper_file *file = &p->list[i];
        if (file->says[0] != '\0')
            files[count++] =
                (struct folder_file){ file->name, file->text.data, file->text.length };
    }
    bool good = folder_write(folder, files, count, f);
    free(files);
    for (size_t i = 0; good && i < p->count; i++) {
        const struct paper_file *file = &p->list[i];
        if (file->says[0] != '\0')
            tell(told, folder, file, file->says);
        else if (is_there(folder, file->name))
            tell(old, folder, file, "from an earlier run; this plan has no flags");
    }
    return good;
}
