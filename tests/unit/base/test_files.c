#include "../unit.h"

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/files.h"

/* Each test works in a folder of its own. */
static char folder[64];
static char path_text[6000];

static const char *path(const char *name)
{
    snprintf(path_text, sizeof path_text, "%s/%s", folder, name);
    return path_text;
}

static int begin(void **state)
{
    (void)state;
    strcpy(folder, "/tmp/spinney_files_XXXXXX");
    return mkdtemp(folder) && chmod(folder, 0755) == 0 ? 0 : -1;
}

static int entries(void)
{
    DIR *d = opendir(folder);
    int count = 0;
    while (d && readdir(d))
        count++;
    if (d)
        closedir(d);
    return count - 2; /* itself and its parent */
}

static int end(void **state)
{
    (void)state;
    DIR *d = opendir(folder);
    for (struct dirent *e; d && (e = readdir(d)) != NULL;)
        remove(path(e->d_name));
    if (d)
        closedir(d);
    return rmdir(folder);
}

static void put(const char *name, const char *text)
{
    FILE *file = fopen(path(name), "wb");
    fputs(text, file);
    fclose(file);
}

static void check_holds(const char *name, const char *text)
{
    struct buf b;
    struct fault f;
    fault_clear(&f);
    assert_true(file_read(path(name), 1u << 20, &b, &f));
    assert_string_equal(b.data, text);
    buf_clear(&b);
}

static void check_read_fault(const char *where, size_t most, const char *id)
{
    struct buf b;
    struct fault f;
    fault_clear(&f);
    assert_false(file_read(where, most, &b, &f));
    assert_string_equal(f.id, id);
    assert_non_null(strstr(f.message, where));
    assert_string_equal(b.data, "");
    buf_clear(&b);
}

static void check_write_fault(const char *where, const char *id)
{
    struct fault f;
    fault_clear(&f);
    assert_false(file_write(where, "new", 3, &f));
    assert_string_equal(f.id, id);
    assert_non_null(strstr(f.message, where));
}

static void what_is_written_is_read_back(void **state)
{
    (void)state;
    static char data[100000];
    for (size_t i = 0; i < sizeof data; i++)
        data[i] = (char)(i * 7);
    struct fault f;
    fault_clear(&f);
    assert_true(file_write(path("plan.json"), data, sizeof data, &f));
    struct buf b;
    assert_true(file_read(path("plan.json"), sizeof data, &b, &f));
    assert_int_equal(b.length, sizeof data);
    assert_memory_equal(b.data, data, sizeof data);
    buf_clear(&b);
    assert_int_equal(entries(), 1);
}

static void an_empty_file_is_a_file(void **state)
{
    (void)state;
    struct fault f;
    fault_clear(&f);
    assert_true(file_write(path("empty"), "", 0, &f));
    struct buf b;
    assert_true(file_read(path("empty"), 0, &b, &f));
    assert_int_equal(b.length, 0);
    buf_clear(&b);
}

static void a_missing_file_is_told(void **state)
{
    (void)state;
    check_read_fault(path("none.rx"), 100, "file-missing");
    put("plain", "x");
    check_read_fault(path("plain/none.rx"), 100, "file-missing");
}

static void folders_pipes_and_devices_are_not_read(void **state)
{
    (void)state;
    check_read_fault(folder, 100, "file-kind");
    assert_int_equal(mkfifo(path("pipe"), 0644), 0);
    alarm(20); /* waiting for the pipe's writer would last for ever */
    check_read_fault(path("pipe"), 100, "file-kind");
    check_read_fault("/dev/zero", 100, "file-kind");
    alarm(0);
}

static void a_file_over_the_size_is_refused_and_one_of_it_is_not(void **state)
{
    (void)state;
    put("tally", "12345678");
    check_read_fault(path("tally"), 7, "file-size");
    check_read_fault(path("tally"), 0, "file-size");
    struct buf b;
    struct fault f;
    fault_clear(&f);
    assert_true(file_read(path("tally"), 8, &b, &f));
    assert_int_equal(b.length, 8);
    buf_clear(&b);
}

/* Runs a check without the rights of root, which are above permissions. */
static void as_somebody(void (*check)(void))
{
    bool root = geteuid() == 0;
    if (root)
        assert_int_equal(seteuid(65534), 0);
    check();
    if (root)
        assert_int_equal(seteuid(0), 0);
}

static void read_secret(void)
{
    check_read_fault(path("secret"), 100, "file-read");
}

static void a_file_without_permission_is_not_read(void **state)
{
    (void)state;
    put("secret", "x");
    assert_int_equal(chmod(path("secret"), 0), 0);
    as_somebody(read_secret);
}

static void writing_replaces_the_whole_file(void **state)
{
    (void)state;
    put("plan.json", "an older and longer text");
    struct fault f;
    fault_clear(&f);
    assert_true(file_write(path("plan.json"), "new", 3, &f));
    check_holds("plan.json", "new");
    assert_int_equal(entries(), 1);
}

static void a_replaced_file_keeps_its_permissions(void **state)
{
    (void)state;
    put("plan.json", "old");
    assert_int_equal(chmod(path("plan.json"), 0640), 0);
    struct fault f;
    fault_clear(&f);
    assert_true(file_write(path("plan.json"), "new", 3, &f));
    struct stat about;
    assert_int_equal(stat(path("plan.json"), &about), 0);
    assert_int_equal(about.st_mode & 0777, 0640);
}

static void a_new_file_follows_the_umask(void **state)
{
    (void)state;
    mode_t before = umask(027);
    struct fault f;
    fault_clear(&f);
    bool good = file_write(path("plan.json"), "new", 3, &f);
    umask(before);
    assert_true(good);
    struct stat about;
    assert_int_equal(stat(path("plan.json"), &about), 0);
    assert_int_equal(about.st_mode & 0777, 0640);
}

static void a_link_is_replaced_and_not_followed(void **state)
{
    (void)state;
    static const char *const leads[] = { "real.json", "nowhere", "/dev/null", "." };
    put("real.json", "old");
    for (size_t i = 0; i < sizeof leads / sizeof *leads; i++) {
        unlink(path("link.json"));
        assert_int_equal(symlink(leads[i], path("link.json")), 0);
        struct fault f;
        fault_clear(&f);
        assert_true(file_write(path("link.json"), "new", 3, &f));
        struct stat about;
        assert_int_equal(lstat(path("link.json"), &about), 0);
        assert_true(S_ISREG(about.st_mode));
        check_holds("link.json", "new");
        check_holds("real.json", "old");
    }
}

static void folders_pipes_and_devices_are_not_replaced(void **state)
{
    (void)state;
    check_write_fault(folder, "file-kind");
    check_write_fault("/dev/full", "file-kind");
    assert_int_equal(mkfifo(path("pipe"), 0644), 0);
    check_write_fault(path("pipe"), "file-kind");
    assert_int_equal(entries(), 1);
}

static void a_missing_folder_is_told(void **state)
{
    (void)state;
    check_write_fault(path("none/plan.json"), "file-write");
}

static void write_plan(void)
{
    check_write_fault(path("plan.json"), "file-write");
}

static void a_folder_without_permission_keeps_the_old_file(void **state)
{
    (void)state;
    put("plan.json", "old");
    assert_int_equal(chmod(folder, 0555), 0);
    as_somebody(write_plan);
    assert_int_equal(chmod(folder, 0755), 0);
    check_holds("plan.json", "old");
    assert_int_equal(entries(), 1);
}

/* A limit on the size of files fails in the middle of writing, as a full disk does. */
static void running_out_of_room_keeps_the_old_file(void **state)
{
    (void)state;
    put("plan.json", "old");
    struct rlimit before, tight;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    tight = before;
    tight.rlim_cur = 4096;
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    setrlimit(RLIMIT_FSIZE, &tight);
    static char data[100000];
    struct fault f;
    fault_clear(&f);
    bool good = file_write(path("plan.json"), data, sizeof data, &f);
    setrlimit(RLIMIT_FSIZE, &before);
    signal(SIGXFSZ, handler);
    assert_false(good);
    assert_string_equal(f.id, "file-write");
    assert_non_null(strstr(f.message, "larger than allowed"));
    check_holds("plan.json", "old");
    assert_int_equal(entries(), 1);
}

static void what_an_earlier_crash_left_behind_is_in_nobodys_way(void **state)
{
    (void)state;
    put(".spinney-part0", "half");
    struct fault f;
    fault_clear(&f);
    assert_true(file_write(path("plan.json"), "new", 3, &f));
    check_holds("plan.json", "new");
    check_holds(".spinney-part0", "half");
    assert_int_equal(entries(), 2);
}

static void a_name_too_long_is_told(void **state)
{
    (void)state;
    char name[5000];
    memset(name, 'n', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    struct fault f;
    fault_clear(&f);
    assert_false(file_write(name, "new", 3, &f));
    assert_string_equal(f.id, "file-write");
    name[256] = '\0'; /* one letter more than a name may have */
    fault_clear(&f);
    assert_false(file_write(path(name), "new", 3, &f));
    assert_string_equal(f.id, "file-write");
    assert_int_equal(entries(), 0);
    name[255] = '\0';
    fault_clear(&f);
    assert_true(file_write(path(name), "new", 3, &f));
    check_holds(name, "new");
    assert_int_equal(entries(), 1);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(what_is_written_is_read_back),
        TEST(an_empty_file_is_a_file),
        TEST(a_missing_file_is_told),
        TEST(folders_pipes_and_devices_are_not_read),
        TEST(a_file_over_the_size_is_refused_and_one_of_it_is_not),
        TEST(a_file_without_permission_is_not_read),
        TEST(writing_replaces_the_whole_file),
        TEST(a_replaced_file_keeps_its_permissions),
        TEST(a_new_file_follows_the_umask),
        TEST(a_link_is_replaced_and_not_followed),
        TEST(folders_pipes_and_devices_are_not_replaced),
        TEST(a_missing_folder_is_told),
        TEST(a_folder_without_permission_keeps_the_old_file),
        TEST(running_out_of_room_keeps_the_old_file),
        TEST(what_an_earlier_crash_left_behind_is_in_nobodys_way),
        TEST(a_name_too_long_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
