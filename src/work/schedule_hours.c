#include "work/schedule_parts.h"

#include <math.h>

/* Sums of hours are doubles: less than this is no time at all. */
#define NO_TIME 1e-9

/* What one person has on a day: its part of a week like it, times seven, and at most. */
struct each {
    double week, day;
};

static bool holds(const struct schedule_hours *h, struct date d)
{
    return h->dated ? h->dates.from.day <= d.day && d.day <= h->dates.to.day
                    : yearly_has(h->days, d);
}

static struct each each_on(const struct schedule_crew *crew, struct date d)
{
    struct each e = { crew->hours_each,
                      crew->day_each > 0 ? crew->day_each : SCHEDULE_DAY_HOURS };
    for (size_t i = 0; i < crew->hours_count; i++) {
        const struct schedule_hours *h = &crew->hours[i];
        if (!holds(h, d))
            continue;
        if (h->week_each >= 0)
            e.week = h->week_each;
        if (h->day_each >= 0)
            e.day = h->day_each;
    }
    return e;
}

/* Work left of a week's hours when each visit takes its travel off them. */
static double less_travel(double week, double day, int open, double travel)
{
    if (travel <= 0 || day <= 0)
        return week;
    double visits = fmin(ceil(week / day - NO_TIME), open);
    return fmax(week - visits * travel, 0);
}

/* The same hours all year: a week differs from others by its open days alone. */
static void same_hours(const struct schedule_crew *crew, struct crew_state *out)
{
    int days = out->open.days;
    struct each e = each_on(crew, out->open.first);
    double day = crew->people * e.day, whole = crew->people * e.week;
    double most = fmax(day - crew->travel, 0);
    double full = less_travel(whole, day, 7, crew->travel);
    out->whole_week = whole;
    for (int d = 0; d < days; d++)
        out->day_most[d] = most;
    for (int week = 0; week * 7 < days; week++) {
        int open = dayset_week(&out->open, week);
        out->week_most[week] =
            open == 7 ? full : less_travel(whole * open / 7, day, open, crew->travel);
    }
}

void crew_hours(const struct schedule_crew *crew, struct crew_state *out)
{
    if (crew->hours_count == 0) {
        same_hours(crew, out);
        return;
    }
    int days = out->open.days;
    out->whole_week = 0;
    for (int week = 0; week * 7 < days; week++) {
        double sum = 0, longest = 0;
        int open = 0;
        for (int d = week * 7; d < week * 7 + 7 && d < days; d++) {
            struct each e = each_on(crew, (struct date){ out->open.first.day + d });
            double day = crew->people * e.day;
            out->day_most[d] = fmax(day - crew->travel, 0);
            out->whole_week = fmax(out->whole_week, crew->people * e.week);
            if (!dayset_has(&out->open, d))
                continue;
            sum += e.week;
            longest = fmax(longest, day);
            open++;
        }
        out->week_most[week] =
            less_travel(crew->people * sum / 7, longest, open, crew->travel);
    }
}
