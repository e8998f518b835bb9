#include "base/files.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/fault.h"

const char *file_reason(int error)
{
    switch (error) {
    case ENOENT: return "there is no such file or folder";
    case ENOTDIR: return "a part of its path is no folder";
    case EISDIR: return "it is a folder";
    case EACCES:
    case EPERM: return "permission is refused";
    case EROFS: return "the disk can only be read";
    case ENOSPC: return "the disk is full";
    case EDQUOT: return "the disk space allowed to you is used up";
    case EFBIG: return "the file would be larger than allowed";
    case ENAMETOOLONG: return "the name is too long";
    case ELOOP: return "its links lead round in a circle";
    case EMFILE:
    case ENFILE: return "too many files are open";
    case EIO: return "the disk reports an error";
    default: return "the system refused it";
    }
}

static bool cannot_open(const char *path, int error, struct fault *f)
{
    if (error == ENOENT || error == ENOTDIR) {
        fault_set(f, "file-missing", SPAN_NONE, "there is no file `%s`", path);
        fault_hint(f, "look at the spelling, and at the folder you are in");
        return false;
    }
    return fault_set(f, "file-read", SPAN_NONE, "`%s` cannot be read: %s", path,
                     file_reason(error));
}

static bool wrong_kind(const char *path, mode_t mode, struct fault *f)
{
    const char *kind = S_ISDIR(mode) ? "a folder" : "a device or a pipe";
    return fault_set(f, "file-kind", SPAN_NONE, "`%s` is %s, not a file", path, kind);
}

static bool too_large(const char *path, size_t most, struct fault *f)
{
    return fault_set(f, "file-size", SPAN_NONE,
                     "`%s` is larger than the %zu bytes allowed", path, most);
}

bool file_read(const char *path, size_t most, struct buf *out, struct fault *f)
{
    buf_init(out);
    /* Without O_NONBLOCK a named pipe would keep us waiting for its writer. */
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (file < 0)
        return cannot_open(path, errno, f);
    bool good = false;
    struct stat about;
    if (fstat(file, &about) != 0) {
        cannot_open(path, errno, f);
        goto done;
    }
    if (!S_ISREG(about.st_mode)) {
        wrong_kind(path, about.st_mode, f);
        goto done;
    }
    for (;;) {
        /* The size is judged by what arrives: a file can grow while it is read. */
        char block[16384];
        ssize_t got = read(file, block, sizeof block);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0) {
            cannot_open(path, errno, f);
            goto done;
        }
        if (got == 0)
            break;
        if ((size_t)got > most - out->length) {
            too_large(path, most, f);
            goto done;
        }
        buf_put(out, block, (size_t)got);
    }
    good = out->failed ? fault_no_memory(f) : true;
done:
    close(file);
    if (!good)
        buf_clear(out);
    return good;
}

static bool cannot_write(const char *path, int error, struct fault *f)
{
    return fault_set(f, "file-write", SPAN_NONE, "`%s` cannot be written: %s", path,
                     file_reason(error));
}

/* Opens a new file in the target's folder; its name, left in `name`, does not grow with
 * the target's, which may be as long as names may be. */
static int open_beside(const char *target, char *name, size_t size)
{
    const char *slash = strrchr(target, '/');
    int folder = slash ? (int)(slash - target) + 1 : 0;
    for (int i = 0; i < 100; i++) {
        int length = snprintf(name, size, "%.*s.spinney-part%d", folder, target, i);
        if (length < 0 || (size_t)length >= size) {
            errno = ENAMETOOLONG;
            return -1;
        }
        int file = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST)
            return file;
    }
    return -1;
}

static bool write_all(int file, const char *data, size_t length)
{
    while (length > 0) {
        ssize_t put = write(file, data, length);
        if (put < 0 && errno == EINTR)
            continue;
        if (put <= 0)
            return false;
        data += put;
        length -= (size_t)put;
    }
    return true;
}

/* The new name is only safe on the disk once its folder is; not every file system can. */
static void sync_folder(char *name)
{
    char *slash = strrchr(name, '/');
    if (slash)
        slash[slash == name ? 1 : 0] = '\0';
    int folder = open(slash ? name : ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder >= 0) {
        fsync(folder);
        close(folder);
    }
}

/* May a new file take that place? A link there is replaced itself: it could lead to a file
 * that nobody named. `mode` is that of the file it replaces, 0 for none. */
static bool may_take(const char *path, mode_t *mode, struct fault *f)
{
    struct stat about;
    *mode = 0;
    if (lstat(path, &about) != 0)
        return strlen(path) < PATH_MAX || cannot_write(path, ENAMETOOLONG, f);
    if (S_ISREG(about.st_mode))
        *mode = about.st_mode; /* never 0: it is a file */
    else if (!S_ISLNK(about.st_mode))
        return wrong_kind(path, about.st_mode, f);
    return true;
}

static bool fill(int file, mode_t mode, const char *data, size_t length)
{
    return (!mode || fchmod(file, mode & 0777) == 0) && write_all(file, data, length) &&
           fsync(file) == 0;
}

bool file_put_beside(const char *path, const char *data, size_t length,
                     struct file_beside *out, struct fault *f)
{
    char beside[PATH_MAX];
    mode_t mode;
    *out = (struct file_beside){ NULL, NULL };
    if (!may_take(path, &mode, f))
        return false;
    char *target = strdup(path);
    if (!target)
        return fault_no_memory(f);
    int file = open_beside(target, beside, sizeof beside);
    if (file < 0) {
        cannot_write(path, errno, f);
        free(target);
        return false;
    }
    bool good = fill(file, mode, data, length);
    int error = errno;
    if (close(file) != 0 && good) {
        good = false;
        error = errno;
    }
    char *copy = good ? strdup(beside) : NULL;
    if (copy) {
        *out = (struct file_beside){ target, copy };
        return true;
    }
    unlink(beside);
    free(target);
    return good ? fault_no_memory(f) : cannot_write(path, error, f);
}

bool file_take_place(struct file_beside *b, struct fault *f)
{
    if (rename(b->beside, b->target) != 0) {
        cannot_write(b->target, errno, f);
        file_drop(b);
        return false;
    }
    sync_folder(b->target);
    free(b->target);
    free(b->beside);
    *b = (struct file_beside){ NULL, NULL };
    return true;
}

void file_drop(struct file_beside *b)
{
    if (b->beside)
        unlink(b->beside);
    free(b->target);
    free(b->beside);
    *b = (struct file_beside){ NULL, NULL };
}

bool file_write(const char *path, const char *data, size_t length, struct fault *f)
{
    struct file_beside b;
    return file_put_beside(path, data, length, &b, f) && file_take_place(&b, f);
}
