#include "ground/kml.h"

#include "base/buf.h"
#include "base/fault.h"

struct kml {
    const struct handout *h;
    struct buf *out;
    struct fault *f;
};

static void element(struct kml *k, const char *name, const char *text)
{
    if (!text || text[0] == '\0')
        return;
    buf_printf(k->out, "<%s>", name);
    handout_xml(k->out, text);
    buf_printf(k->out, "</%s>\n", name);
}

static bool put_place(struct kml *k, struct point at)
{
    double lon, lat;
    if (!handout_place(k->h, at, &lon, &lat, k->f))
        return false;
    handout_degrees(k->out, lon);
    buf_putc(k->out, ',');
    handout_degrees(k->out, lat);
    return true;
}

static bool put_point(struct kml *k, struct point at)
{
    buf_puts(k->out, "<Point><coordinates>");
    if (!put_place(k, at))
        return false;
    buf_puts(k->out, "</coordinates></Point>\n");
    return true;
}

static bool put_line(struct kml *k, const struct shape *s, size_t part, const char *name)
{
    struct handout_line line = handout_line(s, part);
    buf_printf(k->out, "<%s><coordinates>", name);
    for (size_t i = 0; i < line.count; i++) {
        if (i > 0)
            buf_putc(k->out, i % 4 == 0 ? '\n' : ' ');
        if (!put_place(k, handout_line_at(&line, i)))
            return false;
    }
    buf_printf(k->out, "</coordinates></%s>\n", name);
    return true;
}

static bool put_polygon(struct kml *k, const struct shape *s, size_t part)
{
    buf_puts(k->out, "<Polygon><outerBoundaryIs>");
    if (!put_line(k, s, part, "LinearRing"))
        return false;
    buf_puts(k->out, "</outerBoundaryIs>\n");
    for (size_t i = 0; i < s->part_count; i++) {
        if (!s->parts[i].hole || s->parts[i].count < 3 || handout_holder(s, i) != part)
            continue;
        buf_puts(k->out, "<innerBoundaryIs>");
        if (!put_line(k, s, i, "LinearRing"))
            return false;
        buf_puts(k->out, "</innerBoundaryIs>\n");
    }
    buf_puts(k->out, "</Polygon>\n");
    return true;
}

static bool put_part(struct kml *k, const struct shape *s, size_t part)
{
    switch (s->kind) {
    case SHAPE_LINES: return put_line(k, s, part, "LineString");
    case SHAPE_AREAS: return put_polygon(k, s, part);
    case SHAPE_POINTS: break;
    }
    for (size_t i = 0; i < s->parts[part].count; i++)
        if (!put_point(k, s->points[s->parts[part].first + i]))
            return false;
    return true;
}

static bool put_shape(struct kml *k, const struct handout_shape *of)
{
    const struct shape *s = of->shape;
    bool several = s->kind == SHAPE_POINTS ? s->point_count > 1 : handout_parts(s) > 1;
    buf_puts(k->out, "<Placemark>\n");
    element(k, "name", of->name);
    element(k, "description", of->note);
    buf_puts(k->out, several ? "<MultiGeometry>\n" : "");
    for (size_t i = 0; i < s->part_count; i++)
        if (!s->parts[i].hole && handout_has_part(s, i) && !put_part(k, s, i))
            return false;
    buf_puts(k->out, several ? "</MultiGeometry>\n" : "");
    buf_puts(k->out, "</Placemark>\n");
    return true;
}

static bool put_route(struct kml *k)
{
    const struct handout *h = k->h;
    if (!h->route || h->flag_count < 2)
        return true;
    buf_puts(k->out, "<Placemark>\n");
    element(k, "name", h->route);
    buf_puts(k->out, "<LineString><coordinates>");
    for (size_t i = 0; i < h->flag_count; i++) {
        if (i > 0)
            buf_putc(k->out, i % 4 == 0 ? '\n' : ' ');
        if (!put_place(k, h->flags[i].at))
            return false;
    }
    buf_puts(k->out, "</coordinates></LineString>\n</Placemark>\n");
    return true;
}

static bool put_flags(struct kml *k)
{
    if (k->h->flag_count == 0)
        return true;
    buf_puts(k->out, "<Folder>\n<name>Flags</name>\n");
    for (size_t i = 0; i < k->h->flag_count; i++) {
        const struct handout_flag *flag = &k->h->flags[i];
        buf_printf(k->out, "<Placemark>\n<name>%zu ", i + 1);
        handout_xml(k->out, flag->name);
        buf_puts(k->out, "</name>\n");
        element(k, "description", flag->note);
        if (!put_point(k, flag->at))
            return false;
        buf_puts(k->out, "</Placemark>\n");
    }
    if (!put_route(k))
        return false;
    buf_puts(k->out, "</Folder>\n");
    return true;
}

static bool put_shapes(struct kml *k)
{
    bool any = false;
    for (size_t i = 0; i < k->h->shape_count; i++) {
        if (handout_parts(k->h->shapes[i].shape) == 0)
            continue;
        if (!any)
            buf_puts(k->out, "<Folder>\n<name>Ground</name>\n");
        any = true;
        if (!put_shape(k, &k->h->shapes[i]))
            return false;
    }
    buf_puts(k->out, any ? "</Folder>\n" : "");
    return true;
}

bool kml_write(const struct handout *h, struct buf *out, struct fault *f)
{
    struct kml k = { h, out, f };
    buf_puts(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                  "<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>\n");
    element(&k, "name", h->title);
    if (!put_flags(&k) || !put_shapes(&k))
        return false;
    buf_puts(out, "</Document>\n</kml>\n");
    return out->failed ? fault_no_memory(f) : true;
}
