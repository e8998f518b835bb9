#include "ground/geojson.h"

#include "base/buf.h"
#include "base/fault.h"

struct geojson {
    const struct handout *h;
    struct buf *out;
    struct fault *f;
    bool any; /* feature so far */
};

static bool put_place(struct geojson *g, struct point at)
{
    double lon, lat;
    if (!handout_place(g->h, at, &lon, &lat, g->f))
        return false;
    buf_putc(g->out, '[');
    handout_degrees(g->out, lon);
    buf_putc(g->out, ',');
    handout_degrees(g->out, lat);
    buf_putc(g->out, ']');
    return true;
}

static void property(struct geojson *g, const char *key, const char *text, bool first)
{
    if (!text)
        return;
    buf_printf(g->out, "%s\"%s\":\"", first ? "" : ",", key);
    handout_json(g->out, text);
    buf_putc(g->out, '"');
}

/* Up to and with "geometry":{"type":"Point","coordinates": */
static void open_feature(struct geojson *g, const char *name, const char *kind,
                         const char *note, size_t number, const char *type)
{
    buf_puts(g->out, g->any ? ",\n" : "\n");
    g->any = true;
    buf_puts(g->out, "{\"type\":\"Feature\",\"properties\":{");
    property(g, "name", name, true);
    property(g, "kind", kind, false);
    property(g, "note", note, false);
    if (number > 0)
        buf_printf(g->out, ",\"number\":%zu", number);
    buf_printf(g->out, "},\"geometry\":{\"type\":\"%s\",\"coordinates\":", type);
}

static void close_feature(struct geojson *g)
{
    buf_puts(g->out, "}}");
}

static bool put_flags(struct geojson *g)
{
    for (size_t i = 0; i < g->h->flag_count; i++) {
        const struct handout_flag *flag = &g->h->flags[i];
        open_feature(g, flag->name, flag->kind, flag->note, i + 1, "Point");
        if (!put_place(g, flag->at))
            return false;
        close_feature(g);
    }
    return true;
}

static bool put_route(struct geojson *g)
{
    if (!g->h->route || g->h->flag_count < 2)
        return true;
    open_feature(g, g->h->route, "route", NULL, 0, "LineString");
    for (size_t i = 0; i < g->h->flag_count; i++) {
        buf_putc(g->out, i == 0 ? '[' : ',');
        if (!put_place(g, g->h->flags[i].at))
            return false;
    }
    buf_putc(g->out, ']');
    close_feature(g);
    return true;
}

static bool put_line(struct geojson *g, const struct shape *s, size_t part)
{
    struct handout_line line = handout_line(s, part);
    for (size_t i = 0; i < line.count; i++) {
        buf_putc(g->out, i == 0 ? '[' : ',');
        if (!put_place(g, handout_line_at(&line, i)))
            return false;
    }
    buf_putc(g->out, ']');
    return true;
}

static bool put_rings(struct geojson *g, const struct shape *s, size_t part)
{
    buf_putc(g->out, '[');
    if (!put_line(g, s, part))
        return false;
    for (size_t i = 0; i < s->part_count; i++) {
        if (!s->parts[i].hole || s->parts[i].count < 3 || handout_holder(s, i) != part)
            continue;
        buf_putc(g->out, ',');
        if (!put_line(g, s, i))
            return false;
    }
    buf_putc(g->out, ']');
    return true;
}

/* Points are a list of their own, whatever parts they came in. */
static bool put_points(struct geojson *g, const struct shape *s)
{
    for (size_t i = 0; i < s->point_count; i++) {
        if (i > 0)
            buf_putc(g->out, ',');
        if (!put_place(g, s->points[i]))
            return false;
    }
    return true;
}

static bool put_parts(struct geojson *g, const struct shape *s)
{
    bool any = false;
    if (s->kind == SHAPE_POINTS)
        return put_points(g, s);
    for (size_t i = 0; i < s->part_count; i++) {
        if (s->parts[i].hole || !handout_has_part(s, i))
            continue;
        if (any)
            buf_putc(g->out, ',');
        any = true;
        if (!(s->kind == SHAPE_LINES ? put_line(g, s, i) : put_rings(g, s, i)))
            return false;
    }
    return true;
}

static bool put_shape(struct geojson *g, const struct handout_shape *of)
{
    static const char *const types[][2] = {
        [SHAPE_POINTS] = { "Point", "MultiPoint" },
        [SHAPE_LINES] = { "LineString", "MultiLineString" },
        [SHAPE_AREAS] = { "Polygon", "MultiPolygon" },
    };
    const struct shape *s = of->shape;
    size_t parts = s->kind == SHAPE_POINTS ? s->point_count : handout_parts(s);
    if (parts == 0)
        return true;
    open_feature(g, of->name, of->kind, of->note, 0, types[s->kind][parts > 1]);
    buf_puts(g->out, parts > 1 ? "[" : "");
    if (!put_parts(g, s))
        return false;
    buf_puts(g->out, parts > 1 ? "]" : "");
    close_feature(g);
    return true;
}

bool geojson_write(const struct handout *h, struct buf *out, struct fault *f)
{
    struct geojson g = { h, out, f, false };
    buf_puts(out, "{\"type\":\"FeatureCollection\",");
    if (h->title) {
        property(&g, "name", h->title, true);
        buf_putc(out, ',');
    }
    buf_puts(out, "\"features\":[");
    if (!put_flags(&g) || !put_route(&g))
        return false;
    for (size_t i = 0; i < h->shape_count; i++)
        if (!put_shape(&g, &h->shapes[i]))
            return false;
    buf_puts(out, "\n]}\n");
    return out->failed ? fault_no_memory(f) : true;
}
