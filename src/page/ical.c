#include "page/ical.h"

#include <assert.h>
#include <stdint.h>

#include "base/chance.h"
#include "base/utf8.h"

/* --- lines ------------------------------------------------------------------------ */

void ical_fold(struct buf *out, const char *line, size_t length)
{
    size_t used = 0;
    for (size_t at = 0; at < length;) {
        uint32_t code;
        size_t step = utf8_next(line + at, length - at, &code);
        if (used + step > ICAL_LINE) {
            buf_puts(out, "\r\n ");
            used = 1;
        }
        buf_put(out, line + at, step);
        used += step;
        at += step;
    }
    buf_puts(out, "\r\n");
}

void ical_put_text(struct buf *out, struct ical_text text)
{
    for (size_t at = 0; at < text.length;) {
        uint32_t code;
        size_t step = utf8_next(text.at + at, text.length - at, &code);
        bool pair = code == '\r' && at + 1 < text.length && text.at[at + 1] == '\n';
        if (code == '\n' || (code == '\r' && !pair))
            buf_puts(out, "\\n");
        else if (code == '\t')
            buf_putc(out, ' ');
        else if (code == '\\' || code == ';' || code == ',')
            buf_printf(out, "\\%c", (char)code);
        else if (!pair && (code == UTF8_BAD || utf8_steers(code)))
            buf_putc(out, '?');
        else if (!pair)
            buf_put(out, text.at + at, step);
        at += step;
    }
}

/* --- the name of an event --------------------------------------------------------- */

/* FNV-1a (Fowler, Noll and Vo): prime and basis of 64 bits, from memory. */
#define FNV_PRIME UINT64_C(1099511628211)

static uint64_t hash_byte(uint64_t hash, unsigned char byte)
{
    return (hash ^ byte) * FNV_PRIME;
}

/* Parts with their lengths: "ab", "c" is not "a", "bc". */
static uint64_t hash_key(uint64_t hash, const struct ical_text *key, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        for (int shift = 0; shift < 64; shift += 8)
            hash = hash_byte(hash, (unsigned char)((uint64_t)key[i].length >> shift));
        for (size_t k = 0; k < key[i].length; k++)
            hash = hash_byte(hash, (unsigned char)key[i].at[k]);
    }
    return chance_mixed(hash);
}

void ical_put_uid(struct buf *out, const struct ical_text *key, size_t count)
{
    /* The basis, and another for the second half. */
    uint64_t a = hash_key(UINT64_C(14695981039346656037), key, count);
    uint64_t b = hash_key(UINT64_C(0x9E3779B97F4A7C15), key, count);
    buf_printf(out, "%08x-%04x-8%03x-%04x-%04x%08x", (unsigned)(a >> 32),
               (unsigned)(a >> 16 & 0xffff), (unsigned)(a & 0xfff),
               (unsigned)(b >> 48 & 0x3fff) | 0x8000, (unsigned)(b >> 32 & 0xffff),
               (unsigned)(b & 0xffffffff));
}

/* --- the file --------------------------------------------------------------------- */

static void plain(struct ical *c, const char *line)
{
    buf_puts(c->out, line);
    buf_puts(c->out, "\r\n");
}

/* Ends the line and puts it, folded. */
static void put_line(struct ical *c, struct buf *line)
{
    if (line->failed)
        c->out->failed = true;
    else
        ical_fold(c->out, line->data, line->length);
    buf_clear(line);
}

static void texts(struct ical *c, const char *name, const struct ical_text *list,
                  size_t count)
{
    struct buf line;
    if (count == 0 || (count == 1 && list[0].length == 0))
        return;
    buf_init(&line);
    buf_puts(&line, name);
    for (size_t i = 0; i < count; i++) {
        buf_putc(&line, i == 0 ? ':' : ',');
        ical_put_text(&line, list[i]);
    }
    put_line(c, &line);
}

static void put_day(struct buf *out, struct date d)
{
    struct civil day = date_civil(d);
    buf_printf(out, "%04d%02d%02d", day.year, day.month, day.day);
}

static void day(struct ical *c, const char *name, struct date d)
{
    buf_puts(c->out, name);
    put_day(c->out, d);
    buf_puts(c->out, "\r\n");
}

/* In the morning, so many days before the midnight when the event begins. */
static void alarm(struct ical *c, int days, struct ical_text words)
{
    assert(days >= 0);
    plain(c, "BEGIN:VALARM");
    plain(c, "ACTION:DISPLAY");
    if (days == 0)
        buf_printf(c->out, "TRIGGER:PT%dH\r\n", ICAL_ALARM_HOUR);
    else if (days == 1)
        buf_printf(c->out, "TRIGGER:-PT%dH\r\n", 24 - ICAL_ALARM_HOUR);
    else
        buf_printf(c->out, "TRIGGER:-P%dDT%dH\r\n", days - 1, 24 - ICAL_ALARM_HOUR);
    texts(c, "DESCRIPTION", &words, 1);
    plain(c, "END:VALARM");
}

void ical_open(struct ical *c, struct buf *out, struct date stamp)
{
    *c = (struct ical){ out, stamp };
    plain(c, "BEGIN:VCALENDAR");
    plain(c, "VERSION:2.0");
    plain(c, "PRODID:-//Spinney//habitat plan//EN");
    plain(c, "CALSCALE:GREGORIAN");
}

void ical_event(struct ical *c, const struct ical_event *e)
{
    struct buf line;
    assert(e->key_count > 0 && e->summary.length > 0 && e->from.day <= e->to.day);
    plain(c, "BEGIN:VEVENT");
    buf_init(&line);
    buf_puts(&line, "UID:");
    ical_put_uid(&line, e->key, e->key_count);
    put_line(c, &line);
    buf_puts(c->out, "DTSTAMP:");
    put_day(c->out, c->stamp);
    plain(c, "T000000Z");
    day(c, "DTSTART;VALUE=DATE:", e->from);
    day(c, "DTEND;VALUE=DATE:", (struct date){ e->to.day + 1 }); /* the first day after */
    texts(c, "SUMMARY", &e->summary, 1);
    texts(c, "LOCATION", &e->location, 1);
    texts(c, "DESCRIPTION", &e->description, 1);
    texts(c, "CATEGORIES", e->categories, e->category_count);
    plain(c, "TRANSP:TRANSPARENT");
    for (size_t i = 0; i < e->alarm_count; i++)
        alarm(c, e->alarms[i], e->summary);
    plain(c, "END:VEVENT");
}

void ical_close(struct ical *c)
{
    plain(c, "END:VCALENDAR");
}
