#include "ground/handout.h"

#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "base/utf8.h"

enum { DECIMALS = 7 };

bool handout_place(const struct handout *h, struct point at, double *lon, double *lat,
                   struct fault *f)
{
    *lon = *lat = NAN;
    if (!h->lonlat(h->owner, at, lon, lat) || !(fabs(*lon) <= 180) || !(fabs(*lat) <= 90))
        return fault_set(f, "handout-place", SPAN_NONE,
                         "a place of the plan has no longitude and latitude");
    /* 180 degrees east are written as west, as it is rounded. */
    if (*lon > 180 - 0.5e-7)
        *lon = -180;
    return true;
}

void handout_degrees(struct buf *out, double degrees)
{
    num_fixed(out, degrees, DECIMALS, false);
}

/* The next character, fit for any text: what cannot be shown is a question mark. */
static size_t take_character(const char *text, size_t left, uint32_t *code)
{
    size_t step = utf8_next(text, left, code);
    if (*code == '\n' || *code == '\t' || *code == '\r')
        *code = ' ';
    else if (*code == UTF8_BAD || utf8_steers(*code) || (*code & 0xFFFE) == 0xFFFE)
        *code = '?';
    return step;
}

static const char *xml_word(uint32_t code)
{
    switch (code) {
    case '&': return "&amp;";
    case '<': return "&lt;";
    case '>': return "&gt;";
    case '"': return "&quot;";
    case '\'': return "&apos;";
    default: return NULL;
    }
}

static const char *json_word(uint32_t code)
{
    return code == '"' ? "\\\"" : code == '\\' ? "\\\\" : NULL;
}

static void put_text(struct buf *out, const char *text, const char *word(uint32_t code))
{
    size_t length = text ? strlen(text) : 0;
    for (size_t at = 0; at < length;) {
        uint32_t code;
        size_t step = take_character(text + at, length - at, &code);
        const char *escaped = word(code);
        if (escaped)
            buf_puts(out, escaped);
        else if (code < 0x80)
            buf_putc(out, (char)code);
        else
            buf_put(out, text + at, step);
        at += step;
    }
}

void handout_xml(struct buf *out, const char *text)
{
    put_text(out, text, xml_word);
}

void handout_json(struct buf *out, const char *text)
{
    put_text(out, text, json_word);
}

/* A part as a shape of its own, borrowed. */
static struct shape ring_of(const struct shape *s, size_t part, struct shape_part *whole)
{
    size_t count = s->parts[part].count;
    *whole = (struct shape_part){ 0, count, false };
    return (struct shape){ .kind = SHAPE_AREAS,
                           .points = s->points + s->parts[part].first,
                           .parts = whole,
                           .point_count = count,
                           .part_count = 1 };
}

static bool holds(const struct shape *ring, const struct shape *hole)
{
    for (size_t i = 0; i < hole->point_count; i++)
        if (!shape_has(ring, hole->points[i]))
            return false;
    return true;
}

size_t handout_holder(const struct shape *s, size_t hole)
{
    struct shape_part hole_part, part;
    struct shape inner = ring_of(s, hole, &hole_part);
    size_t holder = s->part_count;
    double least = HUGE_VAL;
    for (size_t i = 0; i < s->part_count; i++) {
        struct shape ring = ring_of(s, i, &part);
        double area = shape_area(&ring);
        if (!s->parts[i].hole && area < least && holds(&ring, &inner)) {
            least = area;
            holder = i;
        }
    }
    return holder;
}

bool handout_has_part(const struct shape *s, size_t part)
{
    static const size_t least[] = {
        [SHAPE_POINTS] = 1, [SHAPE_LINES] = 2, [SHAPE_AREAS] = 3
    };
    return s->parts[part].count >= least[s->kind] &&
           (!s->parts[part].hole || handout_holder(s, part) < s->part_count);
}

size_t handout_parts(const struct shape *s)
{
    size_t count = 0;
    for (size_t i = 0; i < s->part_count; i++)
        count += !s->parts[i].hole && handout_has_part(s, i);
    return count;
}

static bool runs_clockwise(const struct point *p, size_t count)
{
    double twice = 0;
    for (size_t i = 1; i + 1 < count; i++)
        twice += (p[i].x - p[0].x) * (p[i + 1].y - p[0].y) -
                 (p[i + 1].x - p[0].x) * (p[i].y - p[0].y);
    return twice < 0;
}

struct handout_line handout_line(const struct shape *s, size_t part)
{
    const struct shape_part *of = &s->parts[part];
    struct handout_line l = { s->points + of->first, of->count, of->count, false };
    if (s->kind != SHAPE_AREAS)
        return l;
    l.count++;
    l.turned = runs_clockwise(l.points, l.apart) != of->hole;
    return l;
}

struct point handout_line_at(const struct handout_line *l, size_t index)
{
    index %= l->apart;
    return l->points[l->turned && index > 0 ? l->apart - index : index];
}
