#include "../unit.h"

#include <libical/ical.h>
#include <stdlib.h>
#include <string.h>

#include "page/ical.h"

#define TEXT(s) ((struct ical_text){ s, sizeof(s) - 1 })

static struct date day_of(int year, int month, int day)
{
    struct date d;
    struct fault *none = NULL;
    assert_true(date_make(year, month, day, &d, none));
    return d;
}

static const struct ical_text fell_key[] = { { "Quill Creek", 11 },
                                             { "bench-aspen/fell", 16 },
                                             { "1", 1 } };
static const struct ical_text cut_only[] = { { "cut", 3 } };

static struct ical_event fell(void)
{
    static const int week_before[] = { 7 };
    return (struct ical_event){ .key = fell_key, .key_count = 3,
                                .summary = TEXT("Bench aspen: cut trees flush"),
                                .description = TEXT("62 h; saw crew\nhard hats"),
                                .location = TEXT("Bench aspen, Quill Creek"),
                                .categories = cut_only, .category_count = 1,
                                .from = day_of(2026, 12, 7), .to = day_of(2026, 12, 9),
                                .alarms = week_before, .alarm_count = 1 };
}

/* A calendar of the one event; to be freed. */
static char *calendar_of(const struct ical_event *e)
{
    struct buf out;
    struct ical c;
    buf_init(&out);
    ical_open(&c, &out, day_of(2026, 10, 14));
    ical_event(&c, e);
    ical_close(&c);
    assert_false(out.failed);
    return buf_take(&out);
}

/* The UID too: were it made otherwise, calendars would keep what they had beside it. */
static void a_small_one_byte_for_byte(void **state)
{
    (void)state;
    struct ical_event e = fell();
    char *text = calendar_of(&e);
    assert_string_equal(text,
                        "BEGIN:VCALENDAR\r\n"
                        "VERSION:2.0\r\n"
                        "PRODID:-//Spinney//habitat plan//EN\r\n"
                        "CALSCALE:GREGORIAN\r\n"
                        "BEGIN:VEVENT\r\n"
                        "UID:ceab20ba-d201-8776-aec2-250932d73cd2\r\n"
                        "DTSTAMP:20261014T000000Z\r\n"
                        "DTSTART;VALUE=DATE:20261207\r\n"
                        "DTEND;VALUE=DATE:20261210\r\n"
                        "SUMMARY:Bench aspen: cut trees flush\r\n"
                        "LOCATION:Bench aspen\\, Quill Creek\r\n"
                        "DESCRIPTION:62 h\\; saw crew\\nhard hats\r\n"
                        "CATEGORIES:cut\r\n"
                        "TRANSP:TRANSPARENT\r\n"
                        "BEGIN:VALARM\r\n"
                        "ACTION:DISPLAY\r\n"
                        "TRIGGER:-P6DT17H\r\n"
                        "DESCRIPTION:Bench aspen: cut trees flush\r\n"
                        "END:VALARM\r\n"
                        "END:VEVENT\r\n"
                        "END:VCALENDAR\r\n");
    free(text);
}

/* Each line of 75 bytes at most, each but the last as full as can be, and no character
 * cut; what is unfolded is what was there. */
static void check_folded(const char *line, size_t length)
{
    struct buf out, back;
    buf_init(&out);
    buf_init(&back);
    ical_fold(&out, line, length);
    assert_false(out.failed);
    const char *at = out.data, *end = out.data + out.length;
    while (at < end) {
        const char *stop = strstr(at, "\r\n");
        assert_non_null(stop);
        assert_in_range(stop - at, at == out.data ? 0 : 2, ICAL_LINE);
        /* The first byte of what follows is the first of a character. */
        if (stop + 2 < end) {
            assert_int_equal(stop[2], ' ');
            assert_true(((unsigned char)stop[3] & 0xC0) != 0x80);
            assert_true(stop - at > ICAL_LINE - 4);
        }
        buf_put(&back, at + (at > out.data), (size_t)(stop - at) - (at > out.data));
        at = stop + 2;
    }
    assert_int_equal(back.length, length);
    assert_memory_equal(back.data, line, length);
    buf_clear(&out);
    buf_clear(&back);
}

static void lines_fold_at_every_boundary(void **state)
{
    (void)state;
    static const char *const characters[] = { "x", "\xc3\xa9", "\xe2\x82\xac",
                                              "\xf0\x9f\x8c\xb2" };
    for (size_t k = 0; k < 4; k++) {
        for (size_t plain = 0; plain <= 160; plain++) {
            struct buf line;
            buf_init(&line);
            buf_fill(&line, 'a', plain);
            check_folded(line.data, line.length);
            for (int i = 0; i < 60; i++) {
                buf_puts(&line, characters[k]);
                check_folded(line.data, line.length);
            }
            buf_clear(&line);
        }
    }
}

static void a_line_of_75_bytes_is_one_and_76_are_two(void **state)
{
    (void)state;
    struct buf out, line;
    buf_init(&out);
    buf_init(&line);
    buf_fill(&line, 'a', 75);
    ical_fold(&out, line.data, 75);
    assert_int_equal(out.length, 77);
    buf_clear(&out);
    buf_putc(&line, 'b');
    ical_fold(&out, line.data, 76);
    assert_string_equal(out.data + 75, "\r\n b\r\n");
    buf_clear(&out);
    buf_clear(&line);
}

static void put_text_is(const char *text, size_t length, const char *wanted)
{
    struct buf out;
    buf_init(&out);
    ical_put_text(&out, (struct ical_text){ text, length });
    assert_string_equal(out.data, wanted);
    buf_clear(&out);
}

static void texts_are_escaped(void **state)
{
    (void)state;
#define IS(text, wanted) put_text_is(text, sizeof(text) - 1, wanted)
    IS("", "");
    IS("a, b; c\\d: \"e\"", "a\\, b\\; c\\\\d: \"e\"");
    IS("one\ntwo\r\nthree\rfour\r", "one\\ntwo\\nthree\\nfour\\n");
    IS("\r\r\n\n", "\\n\\n\\n");
    IS("tab\there", "tab here");
    IS("bell\a \x1b[31m", "bell? ?[31m");
    IS("nul\0here", "nul?here");
    IS("\xff\xc3", "??");
    IS("\xe2\x80\xaeturned", "?turned");
    IS("END:VEVENT", "END:VEVENT");
#undef IS
}

static void put_uid(char *out, const struct ical_text *key, size_t count)
{
    struct buf b;
    buf_init(&b);
    ical_put_uid(&b, key, count);
    assert_int_equal(b.length, 36);
    memcpy(out, b.data, 37);
    buf_clear(&b);
}

static void a_uid_is_made_of_the_key_alone(void **state)
{
    (void)state;
    struct ical_event e = fell();
    char *before = calendar_of(&e);
    e.from = day_of(2027, 1, 4);
    e.to = day_of(2027, 1, 4);
    e.summary = TEXT("other words");
    char *after = calendar_of(&e);
    const char *uid = strstr(before, "UID:");
    assert_memory_equal(uid, strstr(after, "UID:"), 4 + 36);
    /* Version 8, variant of RFC 9562. */
    assert_int_equal(uid[4 + 14], '8');
    assert_non_null(strchr("89ab", uid[4 + 19]));
    free(before);
    free(after);
}

/* The same letters, parted otherwise; one bit away; numbered. */
static void other_keys_have_other_uids(void **state)
{
    (void)state;
    enum { MANY = 3000 };
    static char uids[MANY + 4][37];
    char number[16];
    put_uid(uids[0], (struct ical_text[]){ { "ab", 2 }, { "c", 1 } }, 2);
    put_uid(uids[1], (struct ical_text[]){ { "a", 1 }, { "bc", 2 } }, 2);
    put_uid(uids[2], (struct ical_text[]){ { "abc", 3 } }, 1);
    put_uid(uids[3], (struct ical_text[]){ { "abc", 3 }, { "", 0 } }, 2);
    for (int i = 0; i < MANY; i++) {
        size_t length = (size_t)snprintf(number, sizeof number, "%d", i);
        put_uid(uids[4 + i], (struct ical_text[]){ { "q", 1 }, { number, length } }, 2);
    }
    qsort(uids, MANY + 4, sizeof uids[0], (int (*)(const void *, const void *))strcmp);
    for (int i = 1; i < MANY + 4; i++)
        assert_string_not_equal(uids[i - 1], uids[i]);
}

/* --- read back by a library ------------------------------------------------------- */

static icalcomponent *read_back(const char *text)
{
    icalcomponent *all = icalparser_parse_string(text);
    assert_non_null(all);
    assert_int_equal(icalcomponent_isa(all), ICAL_VCALENDAR_COMPONENT);
    assert_int_equal(icalcomponent_count_errors(all), 0);
    assert_true(icalrestriction_check(all));
    assert_int_equal(icalcomponent_count_errors(all), 0);
    return all;
}

static void a_library_reads_what_was_meant(void **state)
{
    (void)state;
    struct ical_event e = fell();
    char *text = calendar_of(&e);
    icalcomponent *all = read_back(text);
    icalcomponent *event = icalcomponent_get_first_component(all, ICAL_VEVENT_COMPONENT);
    struct icaltimetype from = icalcomponent_get_dtstart(event);
    struct icaltimetype to = icalcomponent_get_dtend(event);
    assert_true(from.is_date && to.is_date);
    assert_string_equal(icaltime_as_ical_string(from), "20261207");
    assert_string_equal(icaltime_as_ical_string(to), "20261210");
    assert_string_equal(icaltime_as_ical_string(icalcomponent_get_dtstamp(event)),
                        "20261014T000000Z");
    assert_string_equal(icalcomponent_get_location(event), "Bench aspen, Quill Creek");
    assert_string_equal(icalcomponent_get_description(event),
                        "62 h; saw crew\nhard hats");
    icalcomponent *alarm =
        icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT);
    icalproperty *trigger =
        icalcomponent_get_first_property(alarm, ICAL_TRIGGER_PROPERTY);
    assert_int_equal(
        icaldurationtype_as_int(icalproperty_get_trigger(trigger).duration),
        (-7 * 24 + ICAL_ALARM_HOUR) * 3600);
    icalcomponent_free(all);
    free(text);
}

static void alarms_ring_in_the_morning_of_their_day(void **state)
{
    (void)state;
    static const int days[] = { 0, 1, 2, 14, 400 };
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        struct ical_event e = fell();
        e.alarms = &days[i];
        char *text = calendar_of(&e);
        icalcomponent *all = read_back(text);
        icalcomponent *event =
            icalcomponent_get_first_component(all, ICAL_VEVENT_COMPONENT);
        icalcomponent *alarm =
            icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT);
        icalproperty *trigger =
            icalcomponent_get_first_property(alarm, ICAL_TRIGGER_PROPERTY);
        assert_int_equal(
            icaldurationtype_as_int(icalproperty_get_trigger(trigger).duration),
            (-days[i] * 24 + ICAL_ALARM_HOUR) * 3600);
        icalcomponent_free(all);
        free(text);
    }
}

static void awkward_names_come_back(void **state)
{
    (void)state;
    static const char *const names[] = {
        "Smith's; back, \"forty\"",
        "C:\\land\\north",
        "\\n is no line break",
        "BEGIN:VEVENT",
        "DTSTART;VALUE=DATE:20270101",
        "one\ntwo\n\nEND:VEVENT\nEND:VCALENDAR",
        "\xc3\x89rabli\xc3\xa8re d'en haut; \xe6\xa3\xae, \xf0\x9f\x8c\xb2",
        "=1+1",
        "a very long name, with commas, semicolons; and backslashes \\ that go on and on "
        "past the end of a line, and past that of the next one; \xc3\xa9\xc3\xa9\xc3\xa9"
    };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct ical_event e = fell();
        struct ical_text name = { names[i], strlen(names[i]) };
        e.summary = e.description = e.location = name;
        e.categories = (struct ical_text[]){ TEXT("cut"), name };
        e.category_count = 2;
        char *text = calendar_of(&e);
        icalcomponent *all = read_back(text);
        assert_int_equal(icalcomponent_count_components(all, ICAL_ANY_COMPONENT), 1);
        icalcomponent *event =
            icalcomponent_get_first_component(all, ICAL_VEVENT_COMPONENT);
        assert_string_equal(icalcomponent_get_summary(event), names[i]);
        assert_string_equal(icalcomponent_get_description(event), names[i]);
        assert_string_equal(icalcomponent_get_location(event), names[i]);
        icalcomponent_free(all);
        free(text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_one_byte_for_byte),
        cmocka_unit_test(lines_fold_at_every_boundary),
        cmocka_unit_test(a_line_of_75_bytes_is_one_and_76_are_two),
        cmocka_unit_test(texts_are_escaped),
        cmocka_unit_test(a_uid_is_made_of_the_key_alone),
        cmocka_unit_test(other_keys_have_other_uids),
        cmocka_unit_test(a_library_reads_what_was_meant),
        cmocka_unit_test(alarms_ring_in_the_morning_of_their_day),
        cmocka_unit_test(awkward_names_come_back),
    };
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    icaltimezone_free_builtin_timezones();
    return failed;
}
