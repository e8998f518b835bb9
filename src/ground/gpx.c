#include "ground/gpx.h"

#include "base/buf.h"
#include "base/fault.h"

struct gpx {
    const struct handout *h;
    struct buf *out;
    struct fault *f;
    int digits; /* of the flags' numbers */
};

static void element(struct gpx *g, const char *name, const char *text)
{
    if (!text || text[0] == '\0')
        return;
    buf_printf(g->out, "<%s>", name);
    handout_xml(g->out, text);
    buf_printf(g->out, "</%s>", name);
}

/* <wpt lat="47.6" lon="-87.5">, left open. */
static bool open_point(struct gpx *g, const char *name, struct point at)
{
    double lon, lat;
    if (!handout_place(g->h, at, &lon, &lat, g->f))
        return false;
    buf_printf(g->out, "<%s lat=\"", name);
    handout_degrees(g->out, lat);
    buf_puts(g->out, "\" lon=\"");
    handout_degrees(g->out, lon);
    buf_puts(g->out, "\">");
    return true;
}

static void flag_name(struct gpx *g, size_t index)
{
    buf_printf(g->out, "<name>%0*zu ", g->digits, index + 1);
    handout_xml(g->out, g->h->flags[index].name);
    buf_puts(g->out, "</name>");
}

static bool write_flags(struct gpx *g)
{
    for (size_t i = 0; i < g->h->flag_count; i++) {
        const struct handout_flag *flag = &g->h->flags[i];
        if (!open_point(g, "wpt", flag->at))
            return false;
        flag_name(g, i);
        element(g, "desc", flag->note);
        element(g, "type", flag->kind);
        buf_puts(g->out, "</wpt>\n");
    }
    return true;
}

static bool write_points(struct gpx *g, const struct handout_shape *s)
{
    for (size_t i = 0; i < s->shape->point_count; i++) {
        if (!open_point(g, "wpt", s->shape->points[i]))
            return false;
        element(g, "name", s->name);
        element(g, "desc", s->note);
        element(g, "type", s->kind);
        buf_puts(g->out, "</wpt>\n");
    }
    return true;
}

static bool write_route(struct gpx *g)
{
    if (!g->h->route || g->h->flag_count < 2)
        return true;
    buf_puts(g->out, "<rte>");
    element(g, "name", g->h->route);
    buf_puts(g->out, "\n");
    for (size_t i = 0; i < g->h->flag_count; i++) {
        if (!open_point(g, "rtept", g->h->flags[i].at))
            return false;
        flag_name(g, i);
        buf_puts(g->out, "</rtept>\n");
    }
    buf_puts(g->out, "</rte>\n");
    return true;
}

static bool write_track(struct gpx *g, const struct handout_shape *s)
{
    buf_puts(g->out, "<trk>");
    element(g, "name", s->name);
    element(g, "desc", s->note);
    element(g, "type", s->kind);
    buf_puts(g->out, "\n");
    for (size_t i = 0; i < s->shape->part_count; i++) {
        if (!handout_has_part(s->shape, i))
            continue;
        struct handout_line line = handout_line(s->shape, i);
        buf_puts(g->out, "<trkseg>\n");
        for (size_t k = 0; k < line.count; k++) {
            if (!open_point(g, "trkpt", handout_line_at(&line, k)))
                return false;
            buf_puts(g->out, "</trkpt>\n");
        }
        buf_puts(g->out, "</trkseg>\n");
    }
    buf_puts(g->out, "</trk>\n");
    return true;
}

/* The schema wants all waypoints, then routes, then tracks. */
static bool write_shapes(struct gpx *g, bool points)
{
    for (size_t i = 0; i < g->h->shape_count; i++) {
        const struct handout_shape *s = &g->h->shapes[i];
        if ((s->shape->kind == SHAPE_POINTS) != points || handout_parts(s->shape) == 0)
            continue;
        if (!(points ? write_points(g, s) : write_track(g, s)))
            return false;
    }
    return true;
}

bool gpx_write(const struct handout *h, struct buf *out, struct fault *f)
{
    struct gpx g = { h, out, f, 2 };
    for (size_t most = 100; h->flag_count >= most && g.digits < 9; most *= 10)
        g.digits++;
    buf_puts(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                  "<gpx version=\"1.1\" creator=\"Spinney\" "
                  "xmlns=\"http://www.topografix.com/GPX/1/1\">\n");
    if (h->title) {
        buf_puts(out, "<metadata>");
        element(&g, "name", h->title);
        buf_puts(out, "</metadata>\n");
    }
    if (!write_flags(&g) || !write_shapes(&g, true) || !write_route(&g) ||
        !write_shapes(&g, false))
        return false;
    buf_puts(out, "</gpx>\n");
    return out->failed ? fault_no_memory(f) : true;
}
