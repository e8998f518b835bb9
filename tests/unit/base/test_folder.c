#include "../unit.h"

#include <dirent.h>
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
#include "base/folder.h"

/* Each test works in a folder of its own; `out` is what is written to. */
static char top[64], out[80];
static char path_text[400];

static const char *path(const char *name)
{
    snprintf(path_text, sizeof path_text, "%s/%s", out, name);
    return path_text;
}

static int begin(void **state)
{
    (void)state;
    strcpy(top, "/tmp/spinney_folder_XXXXXX");
    if (!mkdtemp(top))
        return -1;
    snprintf(out, sizeof out, "%s/out", top);
    return 0;
}

static int entries(const char *folder)
{
    DIR *d = opendir(folder);
    int count = -2; /* itself and its parent */
    if (!d)
        return -1;
    while (readdir(d))
        count++;
    closedir(d);
    return count;
}

static int end(void **state)
{
    (void)state;
    DIR *d = opendir(out);
    for (struct dirent *e; d && (e = readdir(d)) != NULL;)
        remove(path(e->d_name));
    if (d)
        closedir(d);
    remove(out);
    return rmdir(top);
}

static void check_holds(const char *name, const char *wanted)
{
    struct buf text;
    struct fault f = { 0 };
    assert_true(file_read(path(name), 1 << 20, &text, &f));
    assert_string_equal(text.data, wanted);
    buf_clear(&text);
}

static char large[100000];

static const struct folder_file small_ones[] = { { "a.txt", "first", 5 },
                                                 { "b.txt", "second", 6 },
                                                 { "c.txt", "", 0 } };
static const struct folder_file with_large[] = { { "a.txt", "new", 3 },
                                                 { "b.txt", large, sizeof large },
                                                 { "c.txt", "new", 3 } };

static bool write_to(const char *folder, const struct folder_file *files, size_t count,
                     struct fault *f)
{
    fault_clear(f);
    return folder_write(folder, files, count, f);
}

static void a_folder_is_made_and_filled_and_filled_again(void **state)
{
    (void)state;
    struct fault f;
    assert_true(write_to(out, small_ones, 3, &f));
    check_holds("a.txt", "first");
    check_holds("b.txt", "second");
    check_holds("c.txt", "");
    assert_true(write_to(out, &(struct folder_file){ "a.txt", "third", 5 }, 1, &f));
    check_holds("a.txt", "third");
    check_holds("b.txt", "second");
    assert_int_equal(entries(out), 3);
}

static void a_blank_list_makes_the_folder_alone(void **state)
{
    (void)state;
    struct fault f;
    assert_true(write_to(out, NULL, 0, &f));
    assert_int_equal(entries(out), 0);
}

static void one_level_is_made_and_no_more(void **state)
{
    (void)state;
    struct fault f;
    char deep[100];
    snprintf(deep, sizeof deep, "%s/deep", out);
    assert_false(write_to(deep, small_ones, 3, &f));
    assert_string_equal(f.id, "folder-make");
    assert_non_null(strstr(f.message, "the folder it is to lie in is not there"));
    assert_int_equal(entries(top), 0);
}

static void a_file_in_its_place_is_told(void **state)
{
    (void)state;
    struct fault f = { 0 };
    assert_true(file_write(out, "file", 4, &f));
    assert_false(write_to(out, small_ones, 3, &f));
    assert_string_equal(f.id, "folder-kind");
    assert_int_equal(entries(top), 1);
}

static void a_folder_in_the_place_of_a_file_keeps_all_the_others(void **state)
{
    (void)state;
    struct fault f;
    assert_true(write_to(out, small_ones, 1, &f));
    assert_int_equal(mkdir(path("c.txt"), 0777), 0);
    const struct folder_file files[] = { { "a.txt", "new", 3 }, { "c.txt", "new", 3 } };
    assert_false(write_to(out, files, 2, &f));
    assert_string_equal(f.id, "file-kind");
    check_holds("a.txt", "first");
    assert_int_equal(entries(out), 2);
}

/* A limit on the size of files fails in the middle, as a full disk does. */
static bool write_with_little_room(const char *folder, struct fault *f)
{
    struct rlimit before, tight;
    if (getrlimit(RLIMIT_FSIZE, &before) != 0)
        return true;
    tight = before;
    tight.rlim_cur = 4096;
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    setrlimit(RLIMIT_FSIZE, &tight);
    bool good = write_to(folder, with_large, 3, f);
    setrlimit(RLIMIT_FSIZE, &before);
    signal(SIGXFSZ, handler);
    return good;
}

static void running_out_of_room_keeps_every_old_file(void **state)
{
    (void)state;
    struct fault f;
    assert_true(write_to(out, small_ones, 2, &f));
    assert_false(write_with_little_room(out, &f));
    assert_string_equal(f.id, "file-write");
    assert_non_null(strstr(f.message, "b.txt"));
    check_holds("a.txt", "first");
    check_holds("b.txt", "second");
    assert_int_equal(entries(out), 2);
}

static void running_out_of_room_leaves_no_new_folder(void **state)
{
    (void)state;
    struct fault f;
    assert_false(write_with_little_room(out, &f));
    assert_int_equal(entries(top), 0);
}

static void a_name_is_put_behind_a_folder_with_one_slash(void **state)
{
    (void)state;
    static const char *const rows[][3] = { { "out", "a", "out/a" }, { "out/", "a", "out/a" },
                                           { "/", "a", "/a" },      { ".", "a", "./a" } };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char *got = folder_path(rows[i][0], rows[i][1]);
        assert_string_equal(got, rows[i][2]);
        free(got);
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_folder_is_made_and_filled_and_filled_again),
        TEST(a_blank_list_makes_the_folder_alone),
        TEST(one_level_is_made_and_no_more),
        TEST(a_file_in_its_place_is_told),
        TEST(a_folder_in_the_place_of_a_file_keeps_all_the_others),
        TEST(running_out_of_room_keeps_every_old_file),
        TEST(running_out_of_room_leaves_no_new_folder),
        TEST(a_name_is_put_behind_a_folder_with_one_slash),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
