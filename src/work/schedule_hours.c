#include "work/schedule_parts.h"

#include <math.h>

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

/* The most work that fits into a week's hours and its open days, when each of the days
 * that the crew comes takes its travel off both: the longest days first, and only as many
 * as bring more work than they take on the road. `days`: hours of the crew on each. */
static double most_work(double week, double *days, int count, double travel)
{
    double most = 0, sum = 0;
    for (int visits = 1; visits <= count; visits++) {
        int longest = visits - 1;
        for (int i = visits; i < count; i++)
            if (days[i] > days[longest])
                longest = i;
        double day = days[longest];
        days[longest] = days[visits - 1];
        days[visits - 1] = day;
        sum += day;
        most = fmax(most, fmin(week, sum) - visits * travel);
    }
    return most;
}

/* The same hours all year: a week differs from others by its open days alone. */
static void same_hours(const struct schedule_crew *crew, struct crew_state *out)
{
    int days = out->open.days;
    struct each e = each_on(crew, out->open.first);
    double day = crew->people * e.day, whole = crew->people * e.week;
    double most = fmax(day - crew->travel, 0);
    double week_of[8]; /* by its open days */
    for (int open = 0; open < 8; open++) {
        double each_day[] = { day, day, day, day, day, day, day };
        week_of[open] = most_work(whole * open / 7, each_day, open, crew->travel);
    }
    out->whole_week = week_of[7];
    for (int d = 0; d < days; d++)
        out->day_most[d] = most;
    for (int week = 0; week * 7 < days; week++)
        out->week_most[week] = week_of[dayset_count(&out->open, week * 7, week * 7 + 6)];
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
        double all = 0, sum = 0, whole[7], each_day[7];
        int count = 0, open = 0;
        for (int d = week * 7; d < week * 7 + 7 && d < days; d++) {
            struct each e = each_on(crew, (struct date){ out->open.first.day + d });
            double day = crew->people * e.day;
            out->day_most[d] = fmax(day - crew->travel, 0);
            all += e.week;
            whole[count++] = day;
            if (!dayset_has(&out->open, d))
                continue;
            sum += e.week;
            each_day[open++] = day;
        }
        out->week_most[week] =
            most_work(crew->people * sum / 7, each_day, open, crew->travel);
        out->whole_week = fmax(out->whole_week, most_work(crew->people * all / 7, whole,
                                                          count, crew->travel));
    }
}
