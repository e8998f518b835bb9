/* Any bytes as a plan, run to the end within a few steps: it is made, or refused with words
 * that lie inside the text, and never by a mistake of Spinney's own. Slips of syntax, wrong
 * keys and odd values all come by here. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/fault.h"
#include "lang/host.h"
#include "lang/settings.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static char path[] = "/tmp/spinney-fuzz-XXXXXX";

static void forget(void)
{
    unlink(path);
}

static void check(bool holds, const char *what)
{
    if (holds)
        return;
    fprintf(stderr, "%s\n", what);
    abort();
}

static void write_plan(const uint8_t *data, size_t size)
{
    static int file = -1;
    if (file < 0) {
        file = mkstemp(path);
        check(file >= 0 && atexit(forget) == 0, "there is no file to write to");
    }
    check(ftruncate(file, 0) == 0 && pwrite(file, data, size, 0) == (ssize_t)size,
          "the file cannot be written");
}

static void look_at(const struct host *host, const struct fault *f)
{
    size_t length = 0;
    check(f->id && f->message[0], "a fault without words");
    if (strcmp(f->id, "internal") == 0) {
        fprintf(stderr, "%s\n", f->message);
        abort();
    }
    if (f->at.source > 0)
        source_text(host->sources, f->at.source, &length);
    check(f->at.at + f->at.length <= length, "a fault outside the text");
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct settings settings = settings_plain();
    struct fault f = { .id = NULL };
    settings.steps = 3;
    settings.memory = 64;
    write_plan(data, size);
    struct host *host = host_new(&settings, &f);
    check(host != NULL, "there is no host");
    struct buf out;
    buf_init(&out);
    bool ok = host_run(host, path, HOST_WRITES) && host_report(host, "json", &out);
    check(ok || host->faults.count > 0, "refused without a word");
    for (size_t i = 0; i < host->faults.count; i++)
        look_at(host, &host->faults.list[i]);
    host_problems(host, true, &out);
    buf_clear(&out);
    host_free(host);
    return 0;
}
