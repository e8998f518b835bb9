#include "ground/flags.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/grow.h"

static void cut_to(struct flags *all, size_t count)
{
    while (all->count > count)
        free(all->list[--all->count].name);
}

void flags_free(struct flags *all)
{
    cut_to(all, 0);
    free(all->list);
    *all = (struct flags){ .list = NULL };
}

const char *flag_kind_word(enum flag_kind kind)
{
    switch (kind) {
    case FLAG_OPENING: return "opening";
    case FLAG_TRAIL: return "trail";
    case FLAG_BUFFER: return "buffer";
    case FLAG_CORNER: return "corner";
    case FLAG_OTHER: break;
    }
    return "flag";
}

/* Takes the name over, which is NULL when memory ran out. */
static bool add_taken(struct flags *all, enum flag_kind kind, char *name, struct point at,
                      struct fault *f)
{
    struct flag *list =
        name ? grow(all->list, &all->room, all->count, sizeof *list) : NULL;
    if (!list) {
        free(name);
        return fault_no_memory(f);
    }
    all->list = list;
    list[all->count++] = (struct flag){ name, kind, at, 0 };
    return true;
}

bool flags_add(struct flags *all, enum flag_kind kind, const char *name, struct point at,
               struct fault *f)
{
    size_t size = strlen(name) + 1;
    char *copy = malloc(size);
    if (copy)
        memcpy(copy, name, size);
    return add_taken(all, kind, copy, at, f);
}

bool flags_center(struct flags *all, const char *name, const struct shape *s,
                  struct fault *f)
{
    if (shape_is_empty(s))
        return true;
    struct point center = shape_center(s);
    if (s->kind == SHAPE_AREAS && !shape_has(s, center))
        center = shape_inside(s);
    return flags_add(all, FLAG_OPENING, name, center, f);
}

static double off_chord(struct point a, struct point b, struct point p)
{
    double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
    double share = square > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0;
    share = fmin(fmax(share, 0), 1);
    return hypot(p.x - a.x - share * dx, p.y - a.y - share * dy);
}

/* The point between the two that is farthest off their chord; `from` when none is farther
 * than `within`. Points count past the end of a ring. */
static size_t farthest(const struct point *p, size_t count, size_t from, size_t to,
                       double within)
{
    size_t found = from;
    for (size_t i = from + 1; i < to; i++) {
        double off = off_chord(p[from], p[to % count], p[i]);
        if (off > within) {
            within = off;
            found = i;
        }
    }
    return found;
}

/* Marks what is kept between two that are: the stretches still to be looked at are those
 * between kept points, so no list of them is wanted. */
static void keep_between(const struct point *p, size_t count, size_t from, size_t to,
                         double within, bool *keep)
{
    while (from < to) {
        size_t next = from + 1;
        while (next < to && !keep[next])
            next++;
        size_t far = farthest(p, count, from, next, within);
        if (far > from)
            keep[far] = true;
        else
            from = next;
    }
}

/* Which points of the part are flagged; `keep` has a place for each. */
static void choose(const struct shape *s, const struct shape_part *part, double within,
                   bool *keep)
{
    const struct point *p = s->points + part->first;
    size_t count = part->count;
    if (s->kind == SHAPE_POINTS) {
        for (size_t i = 0; i < count; i++)
            keep[i] = true;
        return;
    }
    keep[0] = true;
    if (s->kind == SHAPE_LINES) {
        keep[count - 1] = true;
        keep_between(p, count, 0, count - 1, within, keep);
        return;
    }
    size_t across = farthest(p, count, 0, count, -1); /* of a ring the chord is a point */
    keep[across] = true;
    keep_between(p, count, 0, across, within, keep);
    keep_between(p, count, across, count, within, keep);
}

static char *flag_name(const struct shape *s, size_t part, const char *name, size_t point,
                       size_t number)
{
    struct buf b;
    buf_init(&b);
    buf_puts(&b, name);
    if (s->part_count > 1)
        buf_printf(&b, " part %zu", part + 1);
    if (s->kind == SHAPE_AREAS)
        buf_printf(&b, ", corner %zu", number + 1);
    else if (s->kind == SHAPE_POINTS && s->parts[part].count > 1)
        buf_printf(&b, ", %zu", number + 1);
    else if (s->kind == SHAPE_POINTS)
        return buf_take(&b);
    else if (point == 0)
        buf_puts(&b, ", start");
    else if (point + 1 == s->parts[part].count)
        buf_puts(&b, ", end");
    else
        buf_printf(&b, ", bend %zu", number);
    return buf_take(&b);
}

static bool add_part(struct flags *all, enum flag_kind kind, const char *name,
                     const struct shape *s, size_t part, const bool *keep,
                     struct fault *f)
{
    size_t number = 0, run = s->kind == SHAPE_POINTS ? 0 : all->count + 1;
    for (size_t i = 0; i < s->parts[part].count; i++) {
        if (!keep[i])
            continue;
        struct point at = s->points[s->parts[part].first + i];
        if (!add_taken(all, kind, flag_name(s, part, name, i, number), at, f))
            return false;
        all->list[all->count - 1].run = run;
        number++;
    }
    return true;
}

bool flags_bends(struct flags *all, enum flag_kind kind, const char *name,
                 const struct shape *s, double within_ft, struct fault *f)
{
    size_t before = all->count;
    for (size_t i = 0; i < s->part_count; i++) {
        bool *keep = calloc(s->parts[i].count, sizeof *keep);
        bool added = keep != NULL;
        if (added) {
            choose(s, &s->parts[i], within_ft, keep);
            added = add_part(all, kind, name, s, i, keep, f);
        }
        free(keep);
        if (!added) {
            cut_to(all, before);
            return fault_no_memory(f);
        }
    }
    return true;
}
