/* A map's features in the property's frame. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "ground/map.h"

struct position map_middle(const struct map *map)
{
    struct shape_box all = { 180, 90, -180, -90 };
    for (size_t i = 0; i < map->count; i++) {
        struct shape_box b = shape_box(&map->features[i].degrees);
        all.west = fmin(all.west, b.west);
        all.east = fmax(all.east, b.east);
        all.south = fmin(all.south, b.south);
        all.north = fmax(all.north, b.north);
    }
    return (struct position){ (all.west + all.east) / 2, (all.south + all.north) / 2 };
}

static bool is_near(const struct frame *frame, struct point degrees)
{
    struct point p = frame_point(frame, (struct position){ degrees.x, degrees.y });
    return hypot(p.x, p.y) <= FRAME_REACH_FT; /* false when not finite */
}

static bool too_far(const struct map *map, const struct frame *frame, const char *name,
                    struct point degrees, struct fault *f)
{
    struct point p = frame_point(frame, (struct position){ degrees.x, degrees.y });
    struct buf miles;
    buf_init(&miles);
    if (isfinite(p.x) && isfinite(p.y)) {
        num_trade(&miles, hypot(p.x, p.y) / 5280);
        buf_puts(&miles, " miles");
    } else {
        buf_puts(&miles, "half the earth");
    }
    fault_set(f, "map-far", SPAN_NONE,
              "on the map `%s`, `%s` lies %s from the middle of the property", map->file,
              name, miles.data);
    buf_clear(&miles);
    if (is_near(frame, (struct point){ degrees.y, degrees.x }))
        fault_hint(f, "its longitude and latitude look swapped: longitude comes first");
    else
        fault_hint(f, "is this the map of another property, or another datum?");
    return false;
}

static bool project(const struct map *map, const struct map_feature *feature,
                    const struct frame *frame, const char *name, struct shape *out,
                    struct fault *f)
{
    const struct shape *from = &feature->degrees;
    struct point *points = malloc((from->point_count + 1) * sizeof *points);
    if (!points)
        return fault_no_memory(f);
    bool ok = true;
    for (size_t i = 0; ok && i < from->point_count; i++) {
        struct point p = from->points[i];
        if (is_near(frame, p))
            points[i] = frame_point(frame, (struct position){ p.x, p.y });
        else
            ok = too_far(map, frame, name, p, f);
    }
    for (size_t i = 0; ok && i < from->part_count; i++)
        ok = shape_add_part(out, points + from->parts[i].first, from->parts[i].count,
                            from->parts[i].hole, f);
    free(points);
    return ok;
}

static double gap_of(const struct map_feature *feature, const struct frame *frame)
{
    const struct point *gap = feature->gap;
    struct point a = frame_point(frame, (struct position){ gap[0].x, gap[0].y });
    struct point b = frame_point(frame, (struct position){ gap[1].x, gap[1].y });
    bool open = gap[0].x != gap[1].x || gap[0].y != gap[1].y;
    return open ? hypot(b.x - a.x, b.y - a.y) : 0;
}

bool map_shape(const struct map *map, size_t index, const struct frame *frame,
               const struct clean_ask *ask, bool as_area, struct shape *out,
               struct clean_done *done, struct fault *f)
{
    const struct map_feature *feature = &map->features[index];
    struct clean_ask here = *ask;
    if (!here.name)
        here.name = feature->name ? feature->name : "a feature without a name";
    here.frame = frame;
    *out = (struct shape){ .kind = feature->degrees.kind };
    bool ok = project(map, feature, frame, here.name, out, f);
    if (ok && out->kind == SHAPE_AREAS)
        done->gap = gap_of(feature, frame);
    else if (ok && as_area)
        ok = clean_close(out, &here, done, f);
    ok = ok && clean_shape(out, &here, done, f);
    if (!ok)
        shape_free(out);
    return ok;
}
