/* Reads a calendar from standard input by libical and prints it, for tests: a line an
 * event, sorted by nothing, with tabs between
 *     uid, first day, day after the last, seconds from the start to each alarm, summary,
 *     location, categories, description
 * line breaks within as \n. What the library finds wrong goes to standard error. */
#include <libical/ical.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *read_line(char *to, size_t size, void *from)
{
    return fgets(to, (int)size, from);
}

static void put(const char *text)
{
    for (const char *at = text ? text : ""; *at; at++) {
        if (*at == '\n')
            fputs("\\n", stdout);
        else
            putchar(*at);
    }
    putchar('\t');
}

static void put_alarms(icalcomponent *event)
{
    const char *between = "";
    for (icalcomponent *a =
             icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT);
         a; a = icalcomponent_get_next_component(event, ICAL_VALARM_COMPONENT)) {
        icalproperty *p = icalcomponent_get_first_property(a, ICAL_TRIGGER_PROPERTY);
        printf("%s%d", between,
               icaldurationtype_as_int(icalproperty_get_trigger(p).duration));
        between = " ";
    }
    putchar('\t');
}

static void put_categories(icalcomponent *event)
{
    const char *between = "";
    for (icalproperty *p =
             icalcomponent_get_first_property(event, ICAL_CATEGORIES_PROPERTY);
         p; p = icalcomponent_get_next_property(event, ICAL_CATEGORIES_PROPERTY)) {
        printf("%s%s", between, icalproperty_get_categories(p));
        between = ",";
    }
    putchar('\t');
}

static bool put_event(icalcomponent *event)
{
    struct icaltimetype from = icalcomponent_get_dtstart(event);
    struct icaltimetype to = icalcomponent_get_dtend(event);
    put(icalcomponent_get_uid(event));
    put(icaltime_as_ical_string(from));
    put(icaltime_as_ical_string(to));
    put_alarms(event);
    put(icalcomponent_get_summary(event));
    put(icalcomponent_get_location(event));
    put_categories(event);
    put(icalcomponent_get_description(event));
    putchar('\n');
    return from.is_date && to.is_date && icaltime_compare(from, to) < 0;
}

int main(void)
{
    bool good = true;
    icalparser *parser = icalparser_new();
    icalparser_set_gen_data(parser, stdin);
    icalcomponent *all = icalparser_parse(parser, read_line);
    if (!all || icalcomponent_isa(all) != ICAL_VCALENDAR_COMPONENT) {
        fputs("this is no calendar\n", stderr);
        return 1;
    }
    int errors = icalcomponent_count_errors(all);
    if (errors > 0 || !icalrestriction_check(all) ||
        icalcomponent_count_errors(all) > 0) {
        fprintf(stderr, "%d errors\n%s", errors, icalcomponent_as_ical_string(all));
        good = false;
    }
    if (icalcomponent_count_components(all, ICAL_ANY_COMPONENT) !=
        icalcomponent_count_components(all, ICAL_VEVENT_COMPONENT)) {
        fputs("something else than events\n", stderr);
        good = false;
    }
    for (icalcomponent *e = icalcomponent_get_first_component(all, ICAL_VEVENT_COMPONENT);
         e; e = icalcomponent_get_next_component(all, ICAL_VEVENT_COMPONENT))
        good = put_event(e) && good;
    icalcomponent_free(all);
    icalparser_free(parser);
    icaltimezone_free_builtin_timezones();
    return good ? 0 : 1;
}
