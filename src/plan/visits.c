#include "plan/visits.h"

#include <stdlib.h>

#include "base/fault.h"
#include "plan/plan.h"

struct visit {
    size_t crew;
    int32_t day;
};

static int by_crew_and_day(const void *a, const void *b)
{
    const struct visit *x = a, *y = b;
    if (x->crew != y->crew)
        return x->crew < y->crew ? -1 : 1;
    return (x->day > y->day) - (x->day < y->day);
}

static bool is_planned(const struct plan_act *act, const struct schedule_result *r)
{
    return act->state == ACT_PLACED && r->crew != SCHEDULE_NONE;
}

bool plan_count_visits(struct plan *plan, const struct schedule *s, struct fault *f)
{
    size_t most = 0, count = 0;
    for (size_t i = 0; i < plan->act_count; i++)
        most += schedule_of(s, i)->day_count;
    struct visit *visits = malloc((most + 1) * sizeof *visits);
    if (!visits)
        return fault_no_memory(f);
    for (size_t i = 0; i < plan->crew_count; i++) {
        plan->crews[i].visits = 0;
        plan->crews[i].planned_hours = 0;
    }
    for (size_t i = 0; i < plan->act_count; i++) {
        const struct schedule_result *r = schedule_of(s, i);
        for (size_t k = 0; is_planned(&plan->acts[i], r) && k < r->day_count; k++) {
            visits[count++] = (struct visit){ r->crew, r->days[k].day.day };
            plan->crews[r->crew].planned_hours += r->days[k].hours;
        }
    }
    qsort(visits, count, sizeof *visits, by_crew_and_day);
    for (size_t i = 0; i < count; i++)
        if (i == 0 || by_crew_and_day(&visits[i - 1], &visits[i]) != 0)
            plan->crews[visits[i].crew].visits++;
    free(visits);
    return true;
}
