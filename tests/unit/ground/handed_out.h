/* handed_out.h: one handout for the tests of every writer: flags, a trail in two pieces,
 * a stand of two areas with holes that run the wrong way, trees, and awkward names. Its
 * places lie on open water in Lake Superior, on purpose. */
#ifndef SPINNEY_TESTS_GROUND_HANDED_OUT_H
#define SPINNEY_TESTS_GROUND_HANDED_OUT_H

#include "../unit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "ground/handout.h"

#define AWKWARD "a <b> & \"c\" 'd' \\ \xc3\xa9 \x01\xff\n\t\xef\xbf\xbf]]>"

struct handed_out {
    struct handout h;
    struct handout_flag flags[3];
    struct shape shapes[5];
    struct handout_shape named[5];
};

/* Feet to degrees about 47.6 N 87.5 W, roughly; east of 1e6 ft nothing has a place. */
static inline bool on_the_lake(void *owner, struct point at, double *lon, double *lat)
{
    (void)owner;
    *lon = -87.5 + at.x / 246000;
    *lat = 47.6 + at.y / 364800;
    return at.x < 1e6;
}

static inline void add_part(struct shape *s, bool hole, size_t count,
                            const struct point *points)
{
    struct fault f = { .id = NULL };
    assert_true(shape_add_part(s, points, count, hole, &f));
}

#define PART(s, hole, ...)                                                         \
    add_part(s, hole,                                                              \
             sizeof((const struct point[]){ __VA_ARGS__ }) / sizeof(struct point), \
             (const struct point[]){ __VA_ARGS__ })

/* All is borrowed from `all`, which must stay where it is. */
static inline void hand_out(struct handed_out *all)
{
    *all = (struct handed_out){
        .flags = { { "opening 1", "opening", "N 42\xc2\xb0 E, 130 ft", { 100, 100 } },
                   { AWKWARD, "trail", NULL, { 200.5, 100 } },
                   { "end", "trail", "", { 246, -364.8 } } },
        .shapes = { { .kind = SHAPE_LINES },
                    { .kind = SHAPE_AREAS },
                    { .kind = SHAPE_POINTS },
                    { .kind = SHAPE_AREAS },
                    { .kind = SHAPE_LINES } },
    };
    struct shape *s = all->shapes;
    PART(&s[0], false, { 0, 0 }, { 246, 0 }, { 246, 364.8 });
    PART(&s[0], false, { 5, 5 }); /* no line */
    PART(&s[0], false, { 9, 9 }, { 19, 9 });
    PART(&s[1], false, { 0, 0 }, { 0, 100 }, { 100, 100 }, { 100, 0 }); /* clockwise */
    PART(&s[1], true, { 110, 10 }, { 120, 10 }, { 120, 20 }, { 110, 20 });
    PART(&s[1], false, { 100, 0 }, { 200, 0 }, { 200, 100 }, { 100, 100 });
    PART(&s[1], true, { 0, 50 }, { 10, 40 }, { 10, 60 });        /* touches the rim */
    PART(&s[1], true, { 900, 900 }, { 910, 900 }, { 900, 910 }); /* in nothing */
    PART(&s[2], false, { 50, 50 });
    PART(&s[2], false, { 60, 50 }, { 70, 50 });
    PART(&s[3], false, { 0, 0 }, { 246, 0 }, { 123, 364.8 });
    const char *const names[5] = { "trail " AWKWARD, "Bench aspen", "den trees",
                                   "opening 1", "nothing" };
    const char *const kinds[5] = { "trail", "stand", "den tree", "opening", NULL };
    for (int i = 0; i < 5; i++)
        all->named[i] = (struct handout_shape){ names[i], kinds[i], NULL, &s[i] };
    all->h = (struct handout){ "Quill Creek & co", "stake-out", all->flags,  3,
                               all->named,         5,           on_the_lake, NULL };
}

static inline void take_back(struct handed_out *all)
{
    for (int i = 0; i < 5; i++)
        shape_free(&all->shapes[i]);
}

typedef bool writer(const struct handout *h, struct buf *out, struct fault *f);

/* The text, for free(). */
static inline char *written(writer *write, const struct handout *h)
{
    struct buf out;
    struct fault f = { .id = NULL };
    buf_init(&out);
    assert_true(write(h, &out, &f));
    assert_null(f.id);
    char *text = buf_take(&out);
    assert_non_null(text);
    return text;
}

/* A place off the globe, or none at all, ends in a fault; the same handout gives the same
 * bytes. */
static inline void check_faults_and_bytes(writer *write, struct handed_out *all)
{
    char *once = written(write, &all->h), *again = written(write, &all->h);
    assert_string_equal(once, again);
    free(once);
    free(again);
    struct point kept = all->flags[1].at;
    const struct point bad[] = { { 2e6, 0 }, { 0, 4e7 }, { NAN, 0 }, { 0, INFINITY } };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        struct buf out;
        struct fault f = { .id = NULL };
        buf_init(&out);
        all->flags[1].at = bad[i];
        assert_false(write(&all->h, &out, &f));
        assert_string_equal(f.id, "handout-place");
        buf_clear(&out);
    }
    all->flags[1].at = kept;
    struct point *in_shape = &all->shapes[3].points[2];
    kept = *in_shape;
    *in_shape = bad[0];
    struct buf out;
    struct fault f = { .id = NULL };
    buf_init(&out);
    assert_false(write(&all->h, &out, &f));
    assert_string_equal(f.id, "handout-place");
    buf_clear(&out);
    *in_shape = kept;
}

/* Hands the text to a command; its exit status. */
static inline int checked_by(const char *command, const char *text)
{
    FILE *pipe = popen(command, "w");
    assert_non_null(pipe);
    fputs(text, pipe);
    return pclose(pipe);
}

#endif
