/* Settles what begins with a number: measures, ranges, and the slips around them. */
#include <math.h>
#include <string.h>

#include "lang/pass.h"

static bool is_word(const struct pass *p, size_t at, size_t end, const char *word)
{
    return end - at == strlen(word) && memcmp(p->text + at, word, end - at) == 0;
}

static bool number_starts(const struct pass *p, size_t at)
{
    if (at >= p->length)
        return false;
    if (p->text[at] == '.')
        return at + 1 < p->length && is_digit(p->text[at + 1]);
    return is_digit(p->text[at]);
}

/* The end of a name with its fields: `o.width`. */
static size_t fields_end(const struct pass *p, size_t at)
{
    size_t end = skip_word(p->text, p->length, at);
    while (end + 1 < p->length && p->text[end] == '.' && is_name_start(p->text[end + 1]))
        end = skip_word(p->text, p->length, end + 1);
    return end;
}

/* Is the site the first value of `for i =`? The scope is there. */
static bool in_loop(const struct pass *p)
{
    const struct token *t = p->scope.before;
    return is_symbol(&t[0], SYMBOL1('=')) && t[1].kind == TOKEN_NAME &&
           t[2].keyword == KEYWORD_FOR;
}

static size_t refuse_loop(struct pass *p, const struct amount *a, size_t last_at,
                          size_t last_end)
{
    struct fault f = { 0 };
    fault_set(&f, "range-loop", pass_span(p, a->at, last_end),
              "`for` counts with a comma, not with `to`");
    fault_hint(&f, "`%.*s, %.*s`", QUOTED(p, a->at, a->end),
               QUOTED(p, last_at, last_end));
    return pass_refuse(p, &f, a->at, last_end);
}

static size_t refuse_comma(struct pass *p, const struct amount *a, size_t word,
                           size_t word_end)
{
    struct fault f = { 0 };
    fault_set(&f, "comma-missing", pass_span(p, a->at, a->end),
              "a comma is missing between `%.*s` and `%.*s`", QUOTED(p, a->at, a->end),
              QUOTED(p, word, word_end));
    fault_hint(&f, "`%.*s,`", QUOTED(p, a->at, a->end));
    return pass_refuse(p, &f, a->at, a->end);
}

/* `3 to n`, `3 to`: no second number behind `to`. False where `to` begins a statement. */
static bool refuse_open_range(struct pass *p, const struct amount *a, size_t to,
                              size_t *stop)
{
    bool same_line;
    struct token next = pass_next(p, to + 2, &same_line);
    *stop = p->length;
    if (!pass_look(p))
        return true;
    bool named = next.kind == TOKEN_NAME && same_line;
    size_t named_end = named ? fields_end(p, next.at) : 0;
    if (in_loop(p) && named) {
        *stop = refuse_loop(p, a, next.at, named_end);
        return true;
    }
    if (!name_is_lost(p, &next))
        return false;
    if (is_symbol(&next, SYMBOL1('='))) {
        *stop = refuse_comma(p, a, to, to + 2);
        return true;
    }
    struct fault f = { 0 };
    size_t end = named ? named_end : to + 2;
    fault_set(&f, "range-variable", pass_span(p, a->at, end),
              "`to` makes a range of two numbers, and only the first is here");
    if (named)
        fault_hint(&f, "`range(%.*s, %.*s)`", QUOTED(p, a->at, a->end),
                   QUOTED(p, next.at, end));
    else
        fault_hint(&f, "`range(%.*s, ...)` where an end has to be worked out",
                   QUOTED(p, a->at, a->end));
    *stop = pass_refuse(p, &f, a->at, end);
    return true;
}

/* A name that Lua would refuse behind the number or range that ends at a->end. */
static bool refuse_lost_word(struct pass *p, const struct amount *a, size_t at,
                             size_t *next)
{
    size_t word = skip_blanks(p->text, p->length, a->end);
    if (word == a->end || word >= p->length || !is_name_start(p->text[word]))
        return false;
    size_t end = skip_word(p->text, p->length, word);
    if (keyword_read(p->text + word, end - word) != KEYWORD_NONE)
        return false;
    bool same_line;
    struct token behind = pass_next(p, end, &same_line);
    if (!pass_look(p)) {
        *next = p->length;
        return true;
    }
    if (!name_is_lost(p, &behind))
        return false;
    if (is_symbol(&behind, SYMBOL1('='))) {
        *next = refuse_comma(p, a, word, end);
        return true;
    }
    if (is_month(p->text + word, end - word)) {
        *next = refuse_day_first(p, a, word);
        return true;
    }
    struct fault f = { 0 };
    struct unit_id unit;
    if (is_word(p, word, end, "to"))
        fault_set(&f, "range-variable", SPAN_NONE, "a range has two ends, not three");
    else if (p->faults->count <
             FAULTS_MOST) /* the nearest name is not looked for in vain */
        units_find(p->units, p->text + word, end - word, &unit, &f);
    if (!fault_is_set(&f))
        fault_set(&f, "unit-unknown", SPAN_NONE, "unknown unit `%.*s`",
                  QUOTED(p, word, end));
    f.at = pass_span(p, word, end);
    *next = pass_refuse(p, &f, at, end);
    return true;
}

/* A range right behind an operator, or before one, that could be read two ways. */
static bool is_ambiguous(const struct pass *p, const struct amount *last, size_t end)
{
    const struct token *t = p->scope.before;
    if (is_symbol(&t[0], SYMBOL1('-')))
        return true;
    if (is_arithmetic(&t[0]) && t[1].kind == TOKEN_NUMBER)
        return true;
    bool same_line;
    struct token next = pass_next(p, end, &same_line);
    if (last->has_unit || !is_arithmetic(&next))
        return false;
    next = pass_next(p, (size_t)next.at + next.length, &same_line);
    struct unit_id unit;
    size_t behind = (size_t)next.at + next.length;
    size_t blank = skip_blanks(p->text, p->length, behind);
    return next.kind == TOKEN_NUMBER &&
           (blank == behind || unit_size(p, blank, &unit) == 0);
}

static size_t refuse_ambiguous(struct pass *p, const struct amount *low,
                               const struct amount *high, size_t end)
{
    const struct token *t = p->scope.before;
    bool minus = is_symbol(&t[0], SYMBOL1('-'));
    struct fault f = { 0 };
    fault_set(&f, "range-operator", pass_span(p, low->at, end),
              "a range %s can be read in two ways",
              minus ? "behind `-`" : "beside an operator and a number");
    if (minus && !ends_operand(&t[1]))
        fault_hint(&f, "`range(-%.*s, %.*s)` or `-(%.*s)`", QUOTED(p, low->at, low->end),
                   QUOTED(p, high->at, high->end), QUOTED(p, low->at, end));
    else
        fault_hint(&f, "`(%.*s)` in parentheses", QUOTED(p, low->at, end));
    return pass_refuse(p, &f, low->at, end);
}

/* Brings the amount to the unit of the range. False when it is of another kind. */
static bool convert(struct pass *p, struct amount *a, struct unit_id unit)
{
    struct units *u = p->units;
    if (a->unit.i == unit.i)
        return true;
    if (!dim_equal(unit_dim(u, a->unit), unit_dim(u, unit)) ||
        unit_is_per_land(u, a->unit) != unit_is_per_land(u, unit))
        return false;
    a->value = a->value * unit_factor(u, a->unit) / unit_factor(u, unit);
    a->unit = unit;
    return true;
}

/* The unit stands behind the last number; others may have one of the same kind. */
static bool units_agree(struct pass *p, struct amount *a, const struct amount *high,
                        struct fault *f)
{
    if (!a->has_unit) {
        a->unit = high->unit;
        return true;
    }
    if (!high->has_unit) {
        fault_set(f, "range-units", pass_span(p, a->at, a->end),
                  "a range has its unit behind the second number");
        if (a->at < high->at) /* else it is the number behind `around` */
            fault_hint(f, "`%.*s to %.*s %.*s`", QUOTED(p, a->at, a->number_end),
                       QUOTED(p, high->at, high->number_end),
                       QUOTED(p, a->unit_at, a->end));
        else
            fault_hint(f, "`%.*s %.*s`", QUOTED(p, high->at, high->number_end),
                       QUOTED(p, a->unit_at, a->end));
        return false;
    }
    if (convert(p, a, high->unit))
        return true;
    struct buf one, two;
    buf_init(&one);
    buf_init(&two);
    unit_says(p->units, a->unit, &one);
    unit_says(p->units, high->unit, &two);
    fault_set(f, "range-units", pass_span(p, a->at, a->end),
              "a range is between two of one kind: `%.*s` is %s, `%.*s` is %s",
              QUOTED(p, a->at, a->end), one.data, QUOTED(p, high->at, high->end),
              two.data);
    f->other = pass_span(p, high->at, high->end);
    buf_clear(&one);
    buf_clear(&two);
    return false;
}

static void check_order(struct pass *p, const struct amount *low,
                        const struct amount *high, size_t end, struct fault *f)
{
    if (low->value < high->value)
        return;
    struct span at = pass_span(p, low->at, end);
    size_t unit = high->has_unit ? high->number_end : high->end;
    if (low->value > high->value) {
        fault_set(f, "range-order", at, "a range goes from the low end to the high one");
        if (low->has_unit)
            fault_hint(f, "`%.*s to %.*s`", QUOTED(p, high->at, high->end),
                       QUOTED(p, low->at, low->end));
        else
            fault_hint(f, "`%.*s to %.*s%.*s`", QUOTED(p, high->at, high->number_end),
                       QUOTED(p, low->at, low->number_end), QUOTED(p, unit, high->end));
    } else {
        fault_set(f, "range-order", at, "both ends of this range are the same");
        fault_hint(f, "`%.*s` alone, or a wider range", QUOTED(p, high->at, high->end));
    }
}

/* `around 2.2` behind a range: true when there is one; *stop when it was refused. */
static bool around_read(struct pass *p, const struct amount *high, struct amount *likely,
                        bool *stop)
{
    size_t word = skip_blanks(p->text, p->length, high->end);
    size_t end = skip_word(p->text, p->length, word);
    *stop = false;
    if (word == high->end || !is_word(p, word, end, "around"))
        return false;
    size_t number = skip_blanks(p->text, p->length, end);
    if (number > end && number_starts(p, number)) {
        *stop = !amount_read(p, number, likely);
        return true;
    }
    bool same_line;
    struct token next = pass_next(p, end, &same_line);
    if (!pass_look(p)) {
        likely->end = p->length;
    } else if (name_is_lost(p, &next)) {
        struct fault f = { 0 };
        fault_set(&f, "range-around", pass_span(p, word, end),
                  "`around` wants a number behind it: the likely value");
        likely->end = pass_refuse(p, &f, high->at, end);
    } else {
        return false; /* a statement of its own */
    }
    *stop = true;
    return true;
}

static size_t settle_range(struct pass *p, struct amount *low, size_t to)
{
    struct amount high, likely = { 0 };
    bool stop;
    if (!amount_read(p, skip_blanks(p->text, p->length, to + 2), &high))
        return high.end;
    bool around = around_read(p, &high, &likely, &stop);
    if (stop)
        return likely.end;
    const struct amount *last = around ? &likely : &high;
    size_t at = low->at, end = last->end, next;
    if (!pass_look(p))
        return p->length;
    if (in_loop(p))
        return refuse_loop(p, low, high.at, high.end);
    if (!last->has_unit && refuse_lost_word(p, last, at, &next))
        return next;
    if (is_ambiguous(p, last, end))
        return refuse_ambiguous(p, low, &high, end);
    struct fault f = { 0 };
    struct literal made = { .kind = LITERAL_RANGE, .around = around };
    if (units_agree(p, low, &high, &f) && (!around || units_agree(p, &likely, &high, &f)))
        check_order(p, low, &high, high.end, &f);
    if (!fault_is_set(&f) && around &&
        (likely.value <= low->value || likely.value >= high.value))
        fault_set(&f, "range-around", pass_span(p, likely.at, likely.end),
                  "the likely value lies between the ends of its range");
    if (!fault_is_set(&f) && !isfinite(high.value))
        fault_set(&f, "number-size", pass_span(p, high.at, high.number_end),
                  "this number is too large to be a measure");
    if (fault_is_set(&f))
        return pass_refuse(p, &f, at, end);
    made.low = low->value;
    made.high = high.value;
    made.value = around ? likely.value : made.low + (made.high - made.low) / 2;
    made.unit = high.has_unit ? high.unit : UNIT_NUMBER;
    return settle_literal(p, &made, at, end);
}

size_t settle_number(struct pass *p, size_t at)
{
    struct amount a;
    if (!amount_read(p, at, &a))
        return a.end;
    if (a.last_group > 0)
        return a.last_group;
    size_t next, word = skip_blanks(p->text, p->length, a.end);
    size_t word_end = skip_word(p->text, p->length, word);
    if (word > a.end && is_word(p, word, word_end, "to")) {
        size_t second = skip_blanks(p->text, p->length, word_end);
        if (second > word_end && number_starts(p, second))
            return settle_range(p, &a, word);
        if (refuse_open_range(p, &a, word, &next))
            return next;
    }
    if (a.has_unit) {
        struct literal made = { .kind = LITERAL_MEASURE, .unit = a.unit };
        made.low = made.value = made.high = a.value;
        return settle_literal(p, &made, at, a.end);
    }
    if (word + 1 < p->length && p->text[word + 1] == '=' &&
        (p->text[word] == '=' || p->text[word] == '~'))
        p->compares = true;
    return refuse_lost_word(p, &a, at, &next) ? next : a.end;
}

/* `to` where no number with it was at hand: `n to 3`, `n to m`, `Nov to Mar`. */
size_t settle_to(struct pass *p, size_t at)
{
    size_t end = at + 2, behind = skip_blanks(p->text, p->length, end);
    size_t behind_end = fields_end(p, behind);
    if (!pass_look(p))
        return p->length;
    const struct token *last = &p->scope.before[0];
    bool keyword = keyword_read(p->text + behind, behind_end - behind) != KEYWORD_NONE;
    if (keyword || !ends_operand(last))
        return end;
    if (last->kind == TOKEN_LITERAL && p->settled[p->settled_count - 1].refused)
        return behind_end;
    struct fault f = { 0 };
    size_t from = last->at, from_end = from + last->length;
    if (is_month(p->text + from, last->length) &&
        is_month(p->text + behind, behind_end - behind)) {
        fault_set(&f, "window-days", pass_span(p, from, behind_end),
                  "a window goes from one day to another");
        fault_hint(&f, "`%.*s 1 to %.*s 30`, with the days that are meant",
                   QUOTED(p, from, from_end), QUOTED(p, behind, behind_end));
        return pass_refuse(p, &f, at, behind_end);
    }
    fault_set(&f, "range-variable", pass_span(p, at, end),
              "`to` makes a range of two numbers only");
    if (last->kind == TOKEN_NAME || last->kind == TOKEN_NUMBER)
        fault_hint(&f, "`range(%.*s, %.*s)`", QUOTED(p, from, from_end),
                   QUOTED(p, behind, behind_end));
    else
        fault_hint(&f, "`range(low, high)` takes names and sums too");
    return pass_refuse(p, &f, at, behind_end);
}
