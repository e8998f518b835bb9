#include "base/num.h"

#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t digits_from(const char *text, size_t length, size_t at)
{
    while (at < length && is_digit(text[at]))
        at++;
    return at;
}

/* Bytes of the number at the start of the text, 0 when there is none. */
static size_t number_length(const char *text, size_t length)
{
    size_t at = digits_from(text, length, 0), digits = at;
    if (at < length && text[at] == '.') {
        size_t end = digits_from(text, length, at + 1);
        digits += end - at - 1;
        at = end;
    }
    if (digits == 0)
        return 0;
    if (at < length && (text[at] == 'e' || text[at] == 'E')) {
        size_t mark = at + 1;
        if (mark < length && (text[mark] == '+' || text[mark] == '-'))
            mark++;
        size_t end = digits_from(text, length, mark);
        if (end > mark)
            at = end;
    }
    return at;
}

/* strtod rounds correctly, but looks for the point of the locale in force: it is called
 * under the C locale, for this thread alone. */
static bool read_decimal(const char *text, double *out)
{
    locale_t plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    if (plain == (locale_t)0)
        return false;
    locale_t before = uselocale(plain);
    *out = strtod(text, NULL);
    uselocale(before);
    freelocale(plain);
    return isfinite(*out);
}

size_t num_read(const char *text, size_t length, double *out)
{
    size_t size = number_length(text, length);
    if (size == 0)
        return 0;
    double value = 0;
    bool good;
    char small[64];
    if (size < sizeof small) {
        memcpy(small, text, size);
        small[size] = '\0';
        good = read_decimal(small, &value);
    } else {
        struct buf copy;
        buf_init(&copy);
        buf_put(&copy, text, size);
        good = !copy.failed && read_decimal(copy.data, &value);
        buf_clear(&copy);
    }
    if (!good)
        return 0;
    *out = value;
    return size;
}

/* A value in decimal: 0.d1d2d3... times ten to the `point`, without trailing zeros. Zero
 * has no digits. */
enum { DIGITS_MOST = 17 };
struct decimal {
    char digits[DIGITS_MOST];
    int count, point;
    bool negative;
};

static void decimal_trim(struct decimal *d)
{
    while (d->count > 0 && d->digits[d->count - 1] == '0')
        d->count--;
    if (d->count == 0)
        d->negative = false;
}

#ifdef __SIZEOF_INT128__
/* The digits of most values in exact arithmetic: `whole` parts of 2 to the -`shift`, times
 * ten to the `up`, to the nearest whole number, halves to even as printf has them. */
static bool scaled(uint64_t whole, int shift, int up, uint64_t *out)
{
    static const uint64_t tens[] = {
        1, 10, 100, 1000, 10000, 100000, 1000000, 10000000, 100000000, 1000000000,
        UINT64_C(10000000000), UINT64_C(100000000000), UINT64_C(1000000000000),
        UINT64_C(10000000000000), UINT64_C(100000000000000), UINT64_C(1000000000000000),
        UINT64_C(10000000000000000), UINT64_C(100000000000000000),
        UINT64_C(1000000000000000000)
    };
    if (up < 0 || up > 18 || shift < 1 || shift > 110)
        return false;
    unsigned __int128 exact = (unsigned __int128)whole * tens[up];
    unsigned __int128 floor = exact >> shift, rest = exact - (floor << shift);
    unsigned __int128 half = (unsigned __int128)1 << (shift - 1);
    *out = (uint64_t)floor;
    if (rest > half || (rest == half && *out % 2 == 1))
        ++*out;
    return floor < tens[18];
}

/* False for values that take more than the arithmetic above has: printf does those. */
static bool decimal_quick(double value, int significant, struct decimal *d)
{
    int exponent, point = 0;
    uint64_t whole = (uint64_t)ldexp(frexp(fabs(value), &exponent), 53), found;
    for (double top = 1; point < 15 && fabs(value) >= top; top *= 10)
        point++;
    if (fabs(value) < 0.1 || !scaled(whole, 53 - exponent, significant - point, &found))
        return false;
    int count = significant;
    for (uint64_t left = found; count > 0; left /= 10)
        d->digits[--count] = (char)('0' + left % 10);
    d->count = significant;
    d->point = point;
    d->negative = value < 0;
    return d->digits[0] != '0';
}
#else
static bool decimal_quick(double value, int significant, struct decimal *d)
{
    (void)value;
    (void)significant;
    (void)d;
    return false;
}
#endif

/* Finite values only. The point of the locale in force may be of several bytes: whatever
 * is no digit before the exponent is left out. */
static struct decimal decimal_from(double value, int significant)
{
    struct decimal quick;
    if (decimal_quick(value, significant, &quick)) {
        decimal_trim(&quick);
        return quick;
    }
    char text[64];
    snprintf(text, sizeof text, "%.*e", significant - 1, value);
    struct decimal d = { .negative = text[0] == '-' };
    const char *c = text;
    for (; *c != 'e' && *c != '\0'; c++) {
        if (is_digit(*c) && d.count < DIGITS_MOST)
            d.digits[d.count++] = *c;
    }
    d.point = *c == 'e' ? (int)strtol(c + 1, NULL, 10) + 1 : 1;
    decimal_trim(&d);
    return d;
}

/* Keeps that many digits after the point; halves go away from zero. */
static void decimal_round(struct decimal *d, int decimals)
{
    int keep = d->point + decimals;
    if (keep >= d->count)
        return;
    bool up = keep >= 0 && d->digits[keep] >= '5';
    d->count = keep > 0 ? keep : 0;
    if (up) {
        int i = d->count;
        while (i > 0 && d->digits[i - 1] == '9')
            i--;
        if (i == 0) { /* all nines, or no digit left: one more in front */
            d->digits[0] = '1';
            d->count = 1;
            d->point = keep > 0 ? d->point + 1 : 1 - decimals;
        } else {
            d->digits[i - 1]++;
            d->count = i;
        }
    }
    decimal_trim(d);
}

static char decimal_digit(const struct decimal *d, int index)
{
    return index >= 0 && index < d->count ? d->digits[index] : '0';
}

static void decimal_put(struct buf *out, const struct decimal *d, int decimals,
                        bool thousands)
{
    if (d->negative)
        buf_putc(out, '-');
    int whole = d->count > 0 && d->point > 0 ? d->point : 0;
    if (whole == 0)
        buf_putc(out, '0');
    for (int i = 0; i < whole; i++) {
        if (thousands && i > 0 && (whole - i) % 3 == 0)
            buf_putc(out, ',');
        buf_putc(out, decimal_digit(d, i));
    }
    if (decimals > 0)
        buf_putc(out, '.');
    for (int i = 0; i < decimals; i++)
        buf_putc(out, d->count > 0 ? decimal_digit(d, d->point + i) : '0');
}

/* 15 digits: every decimal of that length survives a double, so what was typed is what
 * is rounded. */
enum { FIXED_SIGNIFICANT = 15 };

void num_fixed(struct buf *out, double value, int decimals, bool thousands)
{
    if (!isfinite(value)) {
        buf_putc(out, '?');
        return;
    }
    decimals = decimals < 0 ? 0 : decimals > 9 ? 9 : decimals;
    struct decimal d = decimal_from(value, FIXED_SIGNIFICANT);
    decimal_round(&d, decimals);
    decimal_put(out, &d, decimals, thousands);
}

void num_trade(struct buf *out, double value)
{
    if (!isfinite(value)) {
        buf_putc(out, '?');
        return;
    }
    if (fabs(value) >= 1e18) { /* nobody counts so many noughts */
        num_data(out, value);
        return;
    }
    struct decimal d = decimal_from(value, FIXED_SIGNIFICANT);
    int decimals = 3 - d.point;
    decimal_round(&d, decimals < 0 ? 0 : decimals > 9 ? 9 : decimals);
    int used = d.count - d.point;
    decimal_put(out, &d, d.count > 0 && used > 0 ? used : 0, true);
}

enum { DATA_SIGNIFICANT = 12 };

void num_data(struct buf *out, double value)
{
    if (!isfinite(value)) {
        buf_puts(out, "null");
        return;
    }
    /* Whole numbers that a double holds exactly are written exactly. */
    bool whole = fabs(value) < 1e15 && value == trunc(value);
    struct decimal d = decimal_from(value, whole ? FIXED_SIGNIFICANT : DATA_SIGNIFICANT);
    if (d.count > 0 && (d.point < -5 || d.point > FIXED_SIGNIFICANT)) {
        int exponent = d.point - 1;
        d.point = 1;
        decimal_put(out, &d, d.count - 1, false);
        buf_printf(out, "e%d", exponent);
        return;
    }
    int used = d.count - d.point;
    decimal_put(out, &d, d.count > 0 && used > 0 ? used : 0, false);
}
