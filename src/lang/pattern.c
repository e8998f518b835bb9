#include "lang/pattern.h"

#include <string.h>

/* What is still to be tried, or to be undone, when the way taken fails. */
enum way { WAY_FEWER, WAY_MORE, WAY_WITHOUT, WAY_OPENED, WAY_CLOSED };

enum { WAYS_MOST = 200 }; /* as many as Lua's own matcher can nest */

struct frame {
    enum way way;
    int capture;      /* WAY_CLOSED */
    const char *s;    /* where the part was met */
    const char *part; /* the part of the pattern */
    const char *end;  /* behind it */
    size_t count;     /* WAY_FEWER: how many it has taken */
};

struct walk {
    struct pattern *p;
    int depth;
    struct frame frames[WAYS_MOST];
};

void pattern_init(struct pattern *p, const char *subject, size_t length, const char *text,
                  size_t text_length, uint64_t steps)
{
    p->subject = subject;
    p->subject_end = subject + length;
    p->text = text;
    p->text_end = text + text_length;
    p->steps_left = steps;
    p->wrong = NULL;
    p->out_of_steps = false;
    p->captures = 0;
}

static bool spend(struct pattern *p, size_t steps)
{
    if (steps <= p->steps_left) {
        p->steps_left -= steps;
        return true;
    }
    p->steps_left = 0;
    p->out_of_steps = true;
    p->wrong = "this pattern tries too many ways to match";
    return false;
}

static bool is_lower(int c)
{
    return c >= 'a' && c <= 'z';
}
static bool is_upper(int c)
{
    return c >= 'A' && c <= 'Z';
}
static bool is_number(int c)
{
    return c >= '0' && c <= '9';
}
static bool is_control(int c)
{
    return c < 32 || c == 127;
}
static bool is_visible(int c)
{
    return c > 32 && c < 127;
}

static bool is_hex(int c)
{
    return is_number(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

static bool is_alnum(int c)
{
    return is_lower(c) || is_upper(c) || is_number(c);
}

/* Is c of the class %letter? Other characters after % stand for themselves. */
static bool of_class(int c, int letter)
{
    bool is;
    switch (is_upper(letter) ? letter - 'A' + 'a' : letter) {
    case 'a': is = is_lower(c) || is_upper(c); break;
    case 'c': is = is_control(c); break;
    case 'd': is = is_number(c); break;
    case 'g': is = is_visible(c); break;
    case 'l': is = is_lower(c); break;
    case 'p': is = is_visible(c) && !is_alnum(c); break;
    case 's': is = c == ' ' || (c >= '\t' && c <= '\r'); break;
    case 'u': is = is_upper(c); break;
    case 'w': is = is_alnum(c); break;
    case 'x': is = is_hex(c); break;
    case 'z': is = c == 0; break;
    default: return letter == c;
    }
    return is_upper(letter) ? !is : is;
}

static int byte(const char *s)
{
    return (unsigned char)*s;
}

/* Behind the single part at `part`; NULL when it is malformed. */
static const char *part_end(struct pattern *p, const char *part)
{
    if (*part == '%') {
        if (part + 1 == p->text_end) {
            p->wrong = "malformed pattern (ends with '%')";
            return NULL;
        }
        return part + 2;
    }
    if (*part != '[')
        return part + 1;
    const char *q = part + 1;
    if (*q == '^')
        q++;
    do { /* a ] that comes first stands for itself */
        if (q == p->text_end) {
            p->wrong = "malformed pattern (missing ']')";
            return NULL;
        }
        if (*q++ == '%' && q < p->text_end)
            q++;
    } while (*q != ']');
    return q + 1;
}

/* `last` is the closing bracket. */
static bool in_set(int c, const char *set, const char *last)
{
    bool inside = true;
    if (set[1] == '^') {
        inside = false;
        set++;
    }
    while (++set < last) {
        if (*set == '%') {
            set++;
            if (of_class(c, byte(set)))
                return inside;
        } else if (set[1] == '-' && set + 2 < last) {
            if (byte(set) <= c && c <= byte(set + 2))
                return inside;
            set += 2;
        } else if (byte(set) == c) {
            return inside;
        }
    }
    return !inside;
}

static bool one_matches(const struct pattern *p, const char *s, const char *part,
                        const char *end)
{
    if (s >= p->subject_end)
        return false;
    switch (*part) {
    case '.': return true;
    case '%': return of_class(byte(s), byte(part + 1));
    case '[': return in_set(byte(s), part, end - 1);
    default: return *part == *s;
    }
}

/* ---- what fails and is tried again ---- */

static struct frame *frame_add(struct walk *w, enum way way, const char *s,
                               const char *part, const char *end)
{
    if (w->depth == WAYS_MOST) {
        w->p->wrong = "pattern too complex";
        return NULL;
    }
    struct frame *f = &w->frames[w->depth++];
    *f = (struct frame){ .way = way, .s = s, .part = part, .end = end };
    return f;
}

/* The next way to try: sets *s and *part. False when there is none left. */
static bool take_back(struct walk *w, const char **s, const char **part)
{
    struct pattern *p = w->p;
    while (w->depth > 0) {
        struct frame *f = &w->frames[w->depth - 1];
        *part = f->end + 1; /* behind the *, +, - or ? */
        switch (f->way) {
        case WAY_OPENED: p->captures--; break;
        case WAY_CLOSED: p->capture[f->capture].length = CAPTURE_OPEN; break;
        case WAY_WITHOUT:
            *s = f->s;
            w->depth--;
            return true;
        case WAY_FEWER:
            *s = f->s + --f->count;
            if (f->count == 0)
                w->depth--;
            return true;
        case WAY_MORE:
            if (!spend(p, 1 + (size_t)(f->end - f->part)))
                return false;
            if (!one_matches(p, f->s, f->part, f->end))
                break;
            *s = ++f->s;
            return true;
        }
        w->depth--;
    }
    return false;
}

/* ---- the parts of a pattern that are more than one character ---- */

static bool open_capture(struct walk *w, const char *s, ptrdiff_t length)
{
    struct pattern *p = w->p;
    if (p->captures >= PATTERN_CAPTURES) {
        p->wrong = "too many captures";
        return false;
    }
    p->capture[p->captures].start = s;
    p->capture[p->captures].length = length;
    p->captures++;
    return frame_add(w, WAY_OPENED, s, NULL, "") != NULL;
}

static bool close_capture(struct walk *w, const char *s)
{
    struct pattern *p = w->p;
    for (int i = p->captures - 1; i >= 0; i--) {
        if (p->capture[i].length != CAPTURE_OPEN)
            continue;
        p->capture[i].length = s - p->capture[i].start;
        struct frame *f = frame_add(w, WAY_CLOSED, s, NULL, "");
        if (f)
            f->capture = i;
        return f != NULL;
    }
    p->wrong = "invalid pattern capture";
    return false;
}

/* %1: the same text again. NULL when it is not there. */
static const char *again(struct pattern *p, const char *s, int digit)
{
    int i = digit - '1';
    if (i < 0 || i >= p->captures || p->capture[i].length == CAPTURE_OPEN) {
        p->wrong = "invalid capture index in the pattern";
        return NULL;
    }
    ptrdiff_t length = p->capture[i].length;
    if (length < 0 || p->subject_end - s < length || !spend(p, (size_t)length / 16))
        return NULL;
    return memcmp(p->capture[i].start, s, (size_t)length) == 0 ? s + length : NULL;
}

/* %bxy: from x to the y that balances it. */
static const char *balance(struct pattern *p, const char *s, const char *pair)
{
    if (pair >= p->text_end - 1) {
        p->wrong = "malformed pattern (missing arguments to '%b')";
        return NULL;
    }
    if (s >= p->subject_end || *s != pair[0])
        return NULL;
    size_t open = 1;
    const char *end = s + 1;
    for (; end < p->subject_end; end++) {
        if (*end == pair[1]) {
            if (--open == 0)
                break;
        } else if (*end == pair[0]) {
            open++;
        }
    }
    if (!spend(p, (size_t)(end - s)) || end == p->subject_end)
        return NULL;
    return end + 1;
}

/* %f[set]: the place between one outside the set and one inside. */
static bool frontier(struct pattern *p, const char *s, const char *set, const char **end)
{
    if (*set != '[') {
        p->wrong = "missing '[' after '%f' in pattern";
        return false;
    }
    *end = part_end(p, set);
    if (!*end)
        return false;
    int before = s == p->subject ? 0 : byte(s - 1);
    return !in_set(before, set, *end - 1) && in_set(byte(s), set, *end - 1);
}

/* A single part with what may follow it. Moves *s and *part on; false when it fails. */
static bool single(struct walk *w, const char **s, const char **part)
{
    struct pattern *p = w->p;
    const char *end = part_end(p, *part);
    if (!end || !spend(p, (size_t)(end - *part)))
        return false;
    char how = end < p->text_end ? *end : '\0';
    struct frame *f;
    switch (how) {
    case '?':
        if (one_matches(p, *s, *part, end)) {
            if (!frame_add(w, WAY_WITHOUT, *s, *part, end))
                return false;
            ++*s;
        }
        break;
    case '-':
        if (!frame_add(w, WAY_MORE, *s, *part, end))
            return false;
        break;
    case '*':
    case '+': {
        size_t count = 0, least = how == '+' ? 1 : 0;
        while (one_matches(p, *s + count, *part, end)) {
            if (!spend(p, (size_t)(end - *part)))
                return false;
            count++;
        }
        if (count < least)
            return false;
        if (count > least) {
            f = frame_add(w, WAY_FEWER, *s + least, *part, end);
            if (!f)
                return false;
            f->count = count - least;
        }
        *s += count;
        break;
    }
    default:
        if (!one_matches(p, *s, *part, end))
            return false;
        ++*s;
        *part = end;
        return true;
    }
    *part = end + 1;
    return true;
}

/* One step on from *s and *part; false when it fails there. */
static bool step(struct walk *w, const char **s, const char **part)
{
    struct pattern *p = w->p;
    const char *at = *part;
    switch (*at) {
    case '(': {
        bool place = at + 1 < p->text_end && at[1] == ')';
        *part = at + (place ? 2 : 1);
        return open_capture(w, *s, place ? CAPTURE_PLACE : CAPTURE_OPEN);
    }
    case ')': *part = at + 1; return close_capture(w, *s);
    case '$':
        if (at + 1 != p->text_end)
            return single(w, s, part);
        *part = at + 1;
        return *s == p->subject_end;
    case '%': break;
    default: return single(w, s, part);
    }
    const char *next;
    switch (at[1]) {
    case 'b':
        next = balance(p, *s, at + 2);
        *part = at + 4;
        break;
    case 'f': return frontier(p, *s, at + 2, part);
    case '0':
    case '1':
    case '2':
    case '3':
    case '4':
    case '5':
    case '6':
    case '7':
    case '8':
    case '9':
        next = again(p, *s, at[1]);
        *part = at + 2;
        break;
    default: return single(w, s, part);
    }
    if (next)
        *s = next;
    return next != NULL;
}

const char *pattern_match(struct pattern *p, const char *from)
{
    struct walk w;
    w.p = p;
    w.depth = 0;
    p->captures = 0;
    const char *s = from, *part = p->text;
    while (part < p->text_end) {
        if (!spend(p, 1))
            return NULL;
        if (step(&w, &s, &part))
            continue;
        if (p->wrong || !take_back(&w, &s, &part))
            return NULL;
    }
    return s;
}
