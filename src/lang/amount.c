/* Reads a number with the unit behind it, and says in words what is wrong with one. */
#include <math.h>
#include <string.h>

#include <lua.h>

#include "base/num.h"
#include "lang/pass.h"

enum { NUMERAL_MOST = 200 }; /* Lua's own L_MAXLENNUM */

size_t unit_size(const struct pass *p, size_t at, struct unit_id *unit)
{
    if (at >= p->length || !is_name_start(p->text[at]))
        return 0;
    size_t word = skip_word(p->text, p->length, at);
    enum keyword k = keyword_read(p->text + at, word - at);
    if (k != KEYWORD_NONE && k != KEYWORD_IN)
        return 0;
    size_t size = units_match(p->units, p->text + at, p->length - at, unit);
    size_t end = at + size;
    return size > 0 && end < p->length && is_name_part(p->text[end]) ? 0 : size;
}

static size_t group_size(const struct pass *p, size_t at)
{
    if (at + 4 > p->length || p->text[at] != ',')
        return 0;
    for (size_t i = 1; i < 4; i++)
        if (!is_digit(p->text[at + i]))
            return 0;
    return at + 4 < p->length && is_name_part(p->text[at + 4]) ? 0 : 4;
}

bool is_range_to(const struct pass *p, size_t at)
{
    return at + 2 < p->length && memcmp(p->text + at, "to", 2) == 0 &&
           is_blank(p->text[at + 2]);
}

/* `1,000`: meant as one number when Lua's reading makes no sense: a group that begins
 * with 0, or a unit behind the last. *group gets the start of the last group in any
 * case. */
static bool is_grouped(const struct pass *p, size_t at, size_t end, size_t *last,
                       size_t *stop)
{
    *last = 0;
    *stop = end;
    if (end - at > 3 || p->text[at] == '0' ||
        numeral_kind(p->text + at, end - at) != NUMERAL_WHOLE)
        return false;
    bool zero = false;
    for (size_t size; (size = group_size(p, *stop)) > 0; *stop += size) {
        *last = *stop + 1;
        zero = zero || p->text[*last] == '0';
    }
    if (*last == 0)
        return false;
    if (*stop + 1 < p->length && p->text[*stop] == '.' && is_digit(p->text[*stop + 1]))
        *stop = skip_word(p->text, p->length, *stop + 1);
    struct unit_id unit;
    size_t behind = skip_blanks(p->text, p->length, *stop);
    return zero || (behind > *stop &&
                    (unit_size(p, behind, &unit) > 0 || is_range_to(p, behind)));
}

/* "number-thousands": the digits without what was put between them. */
static void refuse_grouped(struct pass *p, size_t at, size_t end)
{
    char digits[64];
    size_t count = 0;
    for (size_t i = at; i < end && count + 1 < sizeof digits; i++)
        if (p->text[i] != ',' && p->text[i] != '_')
            digits[count++] = p->text[i];
    digits[count] = '\0';
    bool comma = memchr(p->text + at, ',', end - at) != NULL;
    struct fault f = { 0 };
    fault_set(&f, "number-thousands", pass_span(p, at, end),
              "a number is written without marks at the thousands");
    fault_hint(&f, "`%s`%s", digits,
               comma ? ", or a blank behind the comma where two numbers are meant" : "");
    pass_refuse(p, &f, at, end);
}

/* `3,4 ac`: a decimal comma, where Lua would read a bare number and a measure. */
static bool has_decimal_comma(const struct pass *p, size_t at, size_t end, size_t *stop)
{
    const char *text = p->text;
    if (numeral_kind(text + at, end - at) != NUMERAL_WHOLE || end + 1 >= p->length ||
        text[end] != ',' || !is_digit(text[end + 1]))
        return false;
    struct reader r = reader_at(text, p->length, end + 1, 1);
    struct token more = token_read(&r);
    size_t number = end + 1 + more.length;
    if (numeral_kind(text + end + 1, more.length) != NUMERAL_WHOLE)
        return false;
    struct unit_id unit;
    size_t behind = skip_blanks(text, p->length, number);
    size_t size = behind > number ? unit_size(p, behind, &unit) : 0;
    *stop = behind + size;
    return size > 0;
}

static void refuse_decimal_comma(struct pass *p, size_t at, size_t end, size_t stop)
{
    struct fault f = { 0 };
    fault_set(&f, "number-comma", pass_span(p, at, stop),
              "a decimal is written with a point, not with a comma");
    fault_hint(&f, "`%.*s.%.*s`, or a blank behind the comma where two are meant",
               QUOTED(p, at, end), QUOTED(p, end + 1, stop));
    pass_refuse(p, &f, at, stop);
}

static bool is_underlined(const char *text, size_t length)
{
    bool mark = false;
    for (size_t i = 0; i < length; i++) {
        if (!is_digit(text[i]) && text[i] != '_')
            return false;
        mark = mark || text[i] == '_';
    }
    return mark && is_digit(text[length - 1]);
}

/* What Lua calls a malformed number. Returns the end of what was refused. */
static size_t refuse_number(struct pass *p, size_t at, size_t end)
{
    const char *text = p->text + at;
    size_t size = end - at, start = numeral_start(text, size);
    if (is_underlined(text, size)) {
        refuse_grouped(p, at, end);
        return end;
    }
    struct unit_id unit;
    size_t glued = start > 0 ? unit_size(p, at + start, &unit) : 0;
    struct fault f = { 0 };
    if (start + glued >= size) {
        end = at + start + glued;
        fault_set(&f, "number-blank", pass_span(p, at, end),
                  "a blank is wanted between a number and its unit");
        fault_hint(&f, "`%.*s %.*s`", QUOTED(p, at, at + start),
                   QUOTED(p, at + start, end));
        return pass_refuse(p, &f, at, end);
    }
    fault_set(&f, "number-malformed", pass_span(p, at, end), "`%.*s` is not a number",
              QUOTED(p, at, end));
    bool dots = false;
    for (size_t i = 1; i < size; i++)
        dots = dots || (text[i - 1] == '.' && text[i] == '.');
    if (dots)
        fault_hint(&f, "to join texts with `..`, put blanks around it");
    else if (start > 0 && is_name_start(text[start]))
        fault_hint(&f, "put a blank between the number and what follows it");
    return pass_refuse(p, &f, at, end);
}

static bool value_read(struct pass *p, size_t at, size_t end, enum numeral kind,
                       double *value)
{
    size_t size = end - at;
    if (kind != NUMERAL_HEX)
        return num_read(p->text + at, size, value) == size;
    char copy[NUMERAL_MOST + 1];
    if (size > NUMERAL_MOST)
        return false;
    memcpy(copy, p->text + at, size);
    copy[size] = '\0';
    if (lua_stringtonumber(p->L, copy) == 0)
        return false;
    *value = lua_tonumber(p->L, -1);
    lua_pop(p->L, 1);
    return isfinite(*value) != 0;
}

/* `10 h/d` where d is a variable: two things that cannot be told apart. */
static bool mixes_local(struct pass *p, const struct amount *a, struct fault *f)
{
    for (size_t i = a->unit_at + 1; i < a->end; i++) {
        if (is_name_part(p->text[i - 1]) || is_blank(p->text[i - 1]) ||
            !is_name_start(p->text[i]))
            continue;
        size_t word = skip_word(p->text, p->length, i);
        if (!pass_look(p))
            return true;
        if (!scope_sees(&p->scope, p->text + i, word - i))
            continue;
        fault_set(f, "unit-or-local", pass_span(p, a->at, a->end),
                  "`%.*s` is a unit and a variable here", QUOTED(p, i, word));
        fault_hint(f,
                   "`(%.*s)/%.*s` to divide by the variable, else give it another name",
                   QUOTED(p, a->at, i - 1), QUOTED(p, i, word));
        return true;
    }
    return false;
}

/* `3 ft^2` would be the square of 3 ft. */
static bool looks_powered(const struct pass *p, const struct amount *a, struct fault *f)
{
    const char *text = p->text + a->end;
    if (a->end + 1 >= p->length || text[0] != '^' || !is_digit(text[1]))
        return false;
    size_t end = a->end + 2;
    fault_set(f, "unit-power", pass_span(p, a->at, end),
              "`%.*s` would be the power of all of `%.*s`", QUOTED(p, a->at, end),
              QUOTED(p, a->at, a->end));
    fault_hint(f, "`%.*s%c` for the unit, `(%.*s)^%c` for the power",
               QUOTED(p, a->at, a->end), text[1], QUOTED(p, a->at, a->end), text[1]);
    return true;
}

bool amount_read(struct pass *p, size_t at, struct amount *a)
{
    struct reader r = reader_at(p->text, p->length, at, 1);
    struct token t = token_read(&r);
    size_t stop;
    *a = (struct amount){ .at = at, .number_end = at + t.length, .end = at + t.length };
    enum numeral kind = numeral_kind(p->text + at, t.length);
    if (kind == NUMERAL_NONE) {
        a->end = refuse_number(p, at, a->end);
        return false;
    }
    if (is_grouped(p, at, a->end, &a->last_group, &stop)) {
        refuse_grouped(p, at, stop);
        a->end = stop;
        return false;
    }
    if (has_decimal_comma(p, at, a->end, &stop)) {
        refuse_decimal_comma(p, at, a->end, stop);
        a->end = stop;
        return false;
    }
    struct fault f = { 0 };
    size_t behind = skip_blanks(p->text, p->length, a->end);
    size_t size = behind > a->end ? unit_size(p, behind, &a->unit) : 0;
    if (size > 0) {
        a->has_unit = true;
        a->unit_at = behind;
        a->end = behind + size;
        if (mixes_local(p, a, &f) || looks_powered(p, a, &f)) {
            if (fault_is_set(&f))
                pass_refuse(p, &f, at, a->end);
            return false;
        }
    }
    if (value_read(p, at, a->number_end, kind, &a->value))
        return true;
    if (!a->has_unit) { /* to Lua it is a number all the same */
        a->value = HUGE_VAL;
        return true;
    }
    fault_set(&f, "number-size", pass_span(p, at, a->number_end),
              "this number is too large to be a measure");
    pass_refuse(p, &f, at, a->end);
    return false;
}
