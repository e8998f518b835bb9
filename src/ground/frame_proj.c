#include "ground/frame.h"

#include <geodesic.h>
#include <math.h>
#include <proj.h>
#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"

static const double FOOT = 0.3048; /* m: the international foot, exact since 1959 */

/* WGS84: NIMA TR 8350.2, table 3.1 (from memory). */
static const double RADIUS = 6378137.0, FLATTENING = 1 / 298.257223563;

struct frame {
    PJ_CONTEXT *context;
    PJ *projection;
    struct position middle;
    struct geod_geodesic earth;
};

/* Degrees for PROJ to read, under any locale. */
static void put_degrees(struct buf *text, const char *key, double value)
{
    buf_puts(text, key);
    if (value < 0)
        buf_putc(text, '-');
    num_fixed(text, fabs(value), 9, false);
}

static PJ *project(PJ_CONTEXT *context, struct position middle)
{
    struct buf text;
    buf_init(&text);
    buf_puts(&text, "+proj=laea +ellps=WGS84");
    put_degrees(&text, " +lat_0=", middle.lat);
    put_degrees(&text, " +lon_0=", middle.lon);
    PJ *made = text.failed ? NULL : proj_create(context, text.data);
    buf_clear(&text);
    return made;
}

static void say_nothing(void *owner, int level, const char *words)
{
    (void)owner;
    (void)level;
    (void)words;
}

struct frame *frame_new(struct position middle, struct fault *f)
{
    if (!(fabs(middle.lon) <= 180 && middle.lat >= -80 && middle.lat <= 84)) {
        fault_set(f, "frame-place", SPAN_NONE,
                  "a property's middle is wanted in degrees of longitude and latitude");
        return NULL;
    }
    struct frame *frame = calloc(1, sizeof *frame);
    if (frame)
        frame->context = proj_context_create();
    if (!frame || !frame->context) {
        frame_free(frame);
        fault_no_memory(f);
        return NULL;
    }
    proj_context_set_enable_network(frame->context, 0);
    proj_log_level(frame->context, PJ_LOG_NONE);
    proj_log_func(frame->context, NULL, say_nothing); /* some words know no level */
    /* It would open its tables, and want nothing of them: all is in the words of project. */
    static const char *const nowhere[] = { "/dev/null" };
    proj_context_set_search_paths(frame->context, 1, nowhere);
    frame->middle = middle;
    frame->projection = project(frame->context, middle);
    geod_init(&frame->earth, RADIUS, FLATTENING);
    if (!frame->projection) {
        frame_free(frame);
        fault_set(f, "frame-place", SPAN_NONE,
                  "the frame of the property could not be set up");
        return NULL;
    }
    return frame;
}

void frame_free(struct frame *frame)
{
    if (!frame)
        return;
    proj_destroy(frame->projection);
    if (frame->context)
        proj_context_destroy(frame->context);
    free(frame);
}

struct position frame_middle(const struct frame *frame)
{
    return frame->middle;
}

struct point frame_point(const struct frame *frame, struct position at)
{
    PJ_COORD degrees = proj_coord(proj_torad(at.lon), proj_torad(at.lat), 0, 0);
    proj_errno_reset(frame->projection);
    PJ_COORD meters = proj_trans(frame->projection, PJ_FWD, degrees);
    return (struct point){ meters.xy.x / FOOT, meters.xy.y / FOOT };
}

struct position frame_place(const struct frame *frame, struct point at)
{
    proj_errno_reset(frame->projection);
    PJ_COORD meters = proj_coord(at.x * FOOT, at.y * FOOT, 0, 0);
    PJ_COORD degrees = proj_trans(frame->projection, PJ_INV, meters);
    return (struct position){ proj_todeg(degrees.lp.lam), proj_todeg(degrees.lp.phi) };
}

/* One part's area and length, in meters; the area has a sign. */
static void measure(const struct frame *frame, const struct shape *s,
                    const struct shape_part *part, double *area, double *length)
{
    struct geod_polygon walk;
    geod_polygon_init(&walk, s->kind == SHAPE_LINES);
    for (size_t i = 0; i < part->count; i++) {
        struct position at = frame_place(frame, s->points[part->first + i]);
        geod_polygon_addpoint(&frame->earth, &walk, at.lat, at.lon);
    }
    *area = 0;
    geod_polygon_compute(&frame->earth, &walk, 0, 1, area, length);
}

double frame_area(const struct frame *frame, const struct shape *s)
{
    double total = 0;
    for (size_t i = 0; s->kind == SHAPE_AREAS && i < s->part_count; i++) {
        double area, length;
        measure(frame, s, &s->parts[i], &area, &length);
        total += s->parts[i].hole ? -fabs(area) : fabs(area);
    }
    return total / (FOOT * FOOT);
}

double frame_length(const struct frame *frame, const struct shape *s)
{
    double total = 0;
    for (size_t i = 0; s->kind != SHAPE_POINTS && i < s->part_count; i++) {
        double area, length;
        measure(frame, s, &s->parts[i], &area, &length);
        total += length;
    }
    return total / FOOT;
}
