/* Reading units as they are typed behind a number. */
#include <string.h>

#include "base/fault.h"
#include "base/suggest.h"
#include "quantity/unit_inner.h"

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

size_t unit_word_length(const char *text, size_t length)
{
    size_t n = 0;
    while (n < length && is_letter(text[n]))
        n++;
    return n;
}

/* One factor at the start: a name, in two words where there is one, and a power of 2 to 6
 * written behind it. Returns the bytes taken, 0 for none. */
static size_t read_factor(const struct units *u, const char *text, size_t length,
                          const struct unit_name **name, int *power)
{
    size_t first = unit_word_length(text, length), second = 0;
    if (first == 0)
        return 0;
    if (first + 1 < length && text[first] == ' ')
        second = unit_word_length(text + first + 1, length - first - 1);
    size_t ends[2] = { first + 1 + second, first };
    for (int i = second ? 0 : 1; i < 2; i++) {
        size_t end = ends[i];
        *name = unit_name_find(u, text, end);
        if (!*name)
            continue;
        *power = 1;
        if (end < length && text[end] >= '2' && text[end] <= '0' + UNIT_POWER)
            *power = text[end++] - '0';
        if (end < length && (is_letter(text[end]) || is_digit(text[end])))
            continue; /* a longer word that only starts like the unit */
        return end;
    }
    return 0;
}

struct reading {
    struct part parts[UNIT_PARTS];
    size_t count;
};

static bool reading_add(const struct units *u, struct reading *r,
                        const struct unit_name *name, int power)
{
    const struct unit *unit = &u->list[name->unit];
    for (size_t i = 0; i < unit->count; i++)
        if (!unit_part_add(r->parts, &r->count, UNIT_PARTS, unit->parts[i].simple,
                           unit->parts[i].sixths * power))
            return false;
    return true;
}

/* Reads as many factors as there are; returns the bytes taken. `products` also reads '*',
 * which in a script is Lua's own: only names that were printed have it. */
static size_t read_unit(const struct units *u, const char *text, size_t length,
                        bool products, struct reading *r)
{
    size_t at = 0;
    int sign = 1;
    *r = (struct reading){ .count = 0 };
    if (products && length > 2 && memcmp(text, "1/", 2) == 0) {
        sign = -1;
        at = 2;
    }
    for (size_t done = 0;;) {
        const struct unit_name *name;
        int power;
        struct reading before = *r;
        size_t took = read_factor(u, text + at, length - at, &name, &power);
        if (took == 0 || !reading_add(u, r, name, sign * power)) {
            *r = before;
            return done;
        }
        done = at + took;
        if (done >= length || !(text[done] == '/' || (products && text[done] == '*')))
            return done;
        sign = text[done] == '/' ? -1 : 1;
        at = done + 1;
    }
}

size_t units_match(struct units *u, const char *text, size_t length, struct unit_id *out)
{
    struct reading r;
    struct fault ignored;
    size_t took = read_unit(u, text, length, false, &r);
    fault_clear(&ignored);
    return took && unit_intern(u, r.parts, r.count, out, &ignored) ? took : 0;
}

/* "FT" and "ft": the same but for the size of the letters. */
static bool other_letters(const char *a, const char *b, size_t length)
{
    bool differs = false;
    for (size_t i = 0; i < length; i++) {
        if (a[i] == b[i])
            continue;
        if (!is_letter(a[i]) || !is_letter(b[i]) || (a[i] ^ b[i]) != 0x20)
            return false;
        differs = true;
    }
    return differs;
}

static bool unknown(const struct units *u, const char *word, size_t length,
                    struct fault *f)
{
    int shown = (int)(length < 40 ? length : 40);
    fault_set(f, "unit-unknown", SPAN_NONE, "`%.*s` is not a unit", shown, word);
    while (length > 0 && is_digit(word[length - 1]))
        length--;
    for (size_t i = 0; i < u->names_count; i++) { /* suggest.h leaves short words alone */
        const char *name = u->names[i].text;
        if (strlen(name) == length && other_letters(name, word, length)) {
            fault_hint(f, "did you mean `%s`?", name);
            return false;
        }
    }
    struct suggest s = suggest_for(word, length);
    units_offer(u, &s);
    if (s.best)
        fault_hint(f, "did you mean `%s`?", s.best);
    return false;
}

/* Why a text is not a unit: a part of it is none, or it has too many. */
static bool not_read(const struct units *u, const char *text, size_t length,
                     struct fault *f)
{
    for (size_t at = 0, end; at <= length; at = end + 1) {
        const struct unit_name *name;
        int power;
        for (end = at; end < length && text[end] != '/' && text[end] != '*'; end++)
            ;
        bool one = at == 0 && end == 1 && text[0] == '1';
        size_t took = read_factor(u, text + at, end - at, &name, &power);
        if (!one && (took == 0 || took != end - at))
            return unknown(u, text + at, end - at, f);
    }
    fault_set(f, "unit-powers", SPAN_NONE,
              "`%.*s` has more parts or higher powers than a unit can have",
              (int)(length < 80 ? length : 80), text);
    fault_hint(f, "at most %d parts, each to a power of at most %d", UNIT_PARTS,
               UNIT_POWER);
    return false;
}

bool units_find(struct units *u, const char *text, size_t length, struct unit_id *out,
                struct fault *f)
{
    struct reading r;
    if (length == 0 || read_unit(u, text, length, true, &r) != length)
        return not_read(u, text, length, f);
    return unit_intern(u, r.parts, r.count, out, f);
}
