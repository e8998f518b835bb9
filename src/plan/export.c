#include "plan/export.h"

#include "base/buf.h"
#include "base/fault.h"
#include "page/json.h"
#include "plan/outlook.h"
#include "plan/waiting.h"
#include "plan/ways_told.h"

static void put_text(struct json *j, const char *key, const char *text)
{
    if (text && text[0])
        json_text(j, key, text);
    else
        json_nothing(j, key);
}

static void put_figures(struct json *j, const struct figures *figures)
{
    for (size_t i = 0; i < figures->count; i++)
        json_figure(j, figures->list[i].key, figures->list[i].value);
}

static void put_year(struct json *j, const char *key, int year)
{
    if (year == OUTLOOK_NONE)
        json_nothing(j, key);
    else
        json_number(j, key, year);
}

static void put_expected(struct json *j, const struct plan_stand *stand)
{
    json_list_open(j, "expected");
    for (size_t i = 0; i < stand->time_count; i++) {
        const struct outlook_time *time = &stand->times[i];
        json_object_open(j, NULL);
        json_text(j, "when", time->when);
        put_year(j, "year", time->year);
        put_year(j, "season", time->season);
        put_text(j, "use", time->use);
        put_figures(j, &time->figures);
        json_close(j);
    }
    json_close(j);
}

static void put_stages(struct json *j, const struct plan_stand *stand)
{
    json_list_open(j, "stages");
    for (size_t i = 0; i < stand->stage_count; i++) {
        json_object_open(j, NULL);
        json_text(j, "act", stand->stages[i].act);
        for (int k = 0; k < OUTLOOK_YEARS; k++)
            put_year(j, outlook_year_word((enum outlook_year)k),
                     stand->stages[i].years[k]);
        json_close(j);
    }
    json_close(j);
}

static void put_ways_row(struct json *j, const struct plan *plan, enum ways_list list,
                         const struct ways_row *row)
{
    json_object_open(j, NULL);
    json_text(j, "act", plan->acts[row->act].id);
    for (size_t i = 0; i < row->number_count; i++)
        json_number(j, row->numbers[i].key, row->numbers[i].value);
    put_figures(j, &row->figures);
    if (ways_words_key(list))
        put_text(j, ways_words_key(list), row->words);
    json_close(j);
}

static void put_ways(struct json *j, const struct plan *plan,
                     const struct ways_told *told)
{
    if (!told) {
        json_nothing(j, "ways_out");
        return;
    }
    json_object_open(j, "ways_out");
    put_figures(j, &told->figures);
    for (int list = 0; list < WAYS_LISTS; list++) {
        json_list_open(j, ways_list_word((enum ways_list)list));
        for (size_t i = 0; i < told->count[list]; i++)
            put_ways_row(j, plan, (enum ways_list)list, &told->rows[list][i]);
        json_close(j);
    }
    json_close(j);
}

static void put_stand(struct json *j, const struct plan *plan,
                      const struct plan_stand *stand)
{
    json_object_open(j, NULL);
    json_text(j, "name", stand->name);
    put_text(j, "known_from", stand->walked);
    put_figures(j, &stand->figures);
    json_object_open(j, "ground");
    put_figures(j, &stand->ground);
    json_close(j);
    json_list_open(j, "species");
    for (size_t i = 0; i < stand->row_count; i++) {
        json_object_open(j, NULL);
        json_text(j, "species", stand->rows[i].species);
        put_figures(j, &stand->rows[i].figures);
        json_close(j);
    }
    json_close(j);
    put_expected(j, stand);
    put_stages(j, stand);
    put_ways(j, plan, stand->ways);
    json_close(j);
}

static void put_notices(struct json *j, const struct plan_act *act)
{
    json_list_open(j, "notices");
    for (size_t i = 0; i < act->notice_count; i++) {
        const struct act_notice *notice = &act->notices[i];
        json_object_open(j, NULL);
        json_text(j, "name", notice->name);
        json_text(j, "to", notice->to);
        if (notice->placed)
            json_day(j, "file_by", notice->file_by);
        else
            json_nothing(j, "file_by");
        if (notice->filed.given)
            json_day(j, "filed", notice->filed.date);
        else
            json_nothing(j, "filed");
        json_list_open(j, "filings");
        for (size_t k = 0; k < act->filing_count; k++) {
            const struct act_filing *filing = &act->filings[k];
            if (filing->notice != i)
                continue;
            json_object_open(j, NULL);
            json_day(j, "from", filing->from);
            json_day(j, "by", filing->by);
            json_close(j);
        }
        json_close(j);
        json_close(j);
    }
    json_close(j);
}

/* Its seasons by their names, or its window; then its dates. */
static bool put_during(struct json *j, const struct plan_act *act)
{
    struct buf words;
    buf_init(&words);
    if (act->during[0])
        buf_puts(&words, act->during);
    else if (!yearly_equal(act->open, yearly_all()) && !yearly_is_none(act->open))
        yearly_print(act->open, &words);
    for (size_t i = 0; i < act->opening_count; i++) {
        const struct schedule_span *days = &act->openings[i];
        if (words.length > 0)
            buf_puts(&words, ", ");
        date_print(days->from, DATE_PAPER, &words);
        if (days->from.day == days->to.day)
            continue;
        buf_puts(&words, " to ");
        date_print(days->to, DATE_PAPER, &words);
    }
    bool fine = !words.failed;
    put_text(j, "during", fine && words.length > 0 ? words.data : "");
    buf_clear(&words);
    return fine;
}

static void put_dates(struct json *j, const struct plan_act *act)
{
    if (act->state == ACT_PLACED || act->state == ACT_DONE) {
        /* The first day of work, as in the papers: a crew may come later than on the date
         * that the plan states. */
        json_day(j, "start", act->stretch_count ? act->stretches[0].from : act->start);
        json_day(j, "finish", act->finish);
    } else {
        json_nothing(j, "start");
        json_nothing(j, "finish");
    }
}

/* How sure its dates are. */
static void put_chance(struct json *j, const struct plan_act *act)
{
    bool placed = act->state == ACT_PLACED;
    if (placed && act->float_weeks >= 0)
        json_number(j, "float_weeks", act->float_weeks);
    else
        json_nothing(j, "float_weeks");
    if (placed && act->chance >= 0)
        json_number(j, "chance", act->chance);
    else
        json_nothing(j, "chance");
    json_truth(j, "chance_or_more", placed && act->chance_or_more);
    if (placed)
        json_day(j, "not_before", act->soonest);
    else
        json_nothing(j, "not_before");
}

static bool put_act(struct json *j, const struct plan *plan,
                    const struct sources *sources, const struct plan_act *act)
{
    json_object_open(j, NULL);
    json_text(j, "id", act->id);
    json_text(j, "kind", act->kind);
    json_text(j, "title", act->title);
    put_text(j, "stand", act->stand == PLAN_NONE ? NULL : plan->stands[act->stand].name);
    put_text(j, "prescription", act->prescription);
    put_text(j, "crew", act->crew == PLAN_NONE ? NULL : plan->crews[act->crew].name);
    json_text(j, "state", act_state_word(act->state));
    put_dates(j, act);
    json_object_open(j, "quantities");
    put_figures(j, &act->figures);
    json_close(j);
    put_notices(j, act);
    bool fine = put_during(j, act);
    put_text(j, "reason", act->reason);
    json_number(j, "usable", act->usable);
    json_number(j, "weeks_left", act->weeks_left);
    put_chance(j, act);
    struct place p = source_place(sources, act->at);
    json_object_open(j, "source");
    put_text(j, "file", p.file);
    json_number(j, "line", p.line);
    json_close(j);
    json_close(j);
    return fine;
}

static void put_finding(struct json *j, const struct plan *plan,
                        const struct finding *finding)
{
    json_object_open(j, NULL);
    json_text(j, "level", finding_level_word(finding->level));
    json_text(j, "rule", finding->rule);
    put_text(j, "act", finding->act == PLAN_NONE ? NULL : plan->acts[finding->act].id);
    put_text(j, "stand",
             finding->stand == PLAN_NONE ? NULL : plan->stands[finding->stand].name);
    if (finding->has_date)
        json_day(j, "date", finding->date);
    else
        json_nothing(j, "date");
    json_text(j, "message", finding->message);
    put_text(j, "ask", finding->ask);
    put_text(j, "source", finding->source);
    json_close(j);
}

/* By when all of them are done, and before when they cannot be. */
static void put_goals(struct json *j, const struct plan *plan)
{
    static const char *const names[SCHEDULE_GOALS] = { "first_year", "marked_first", "all" };
    json_object_open(j, "finish");
    for (int i = 0; i < SCHEDULE_GOALS; i++) {
        const struct schedule_goal *goal = &plan->goals[i];
        json_object_open(j, names[i]);
        json_number(j, "acts", (double)goal->jobs);
        if (goal->jobs > 0) {
            json_day(j, "planned", goal->finish);
            json_day(j, "not_before", goal->bound);
        } else {
            json_nothing(j, "planned");
            json_nothing(j, "not_before");
        }
        json_close(j);
    }
    json_close(j);
}

static void put_unplaced(struct json *j, const struct plan *plan)
{
    json_list_open(j, "unplaced");
    for (size_t i = 0; i < plan->act_count; i++) {
        if (plan->acts[i].state != ACT_UNPLACED)
            continue;
        json_object_open(j, NULL);
        json_text(j, "act", plan->acts[i].id);
        put_text(j, "reason", plan->acts[i].reason);
        json_close(j);
    }
    json_close(j);
}

static void put_waiting(struct json *j, const struct plan *plan)
{
    json_list_open(j, "waiting");
    for (size_t i = 0; i < plan->waiting_count; i++) {
        const struct plan_waiting *w = &plan->waiting[i];
        json_object_open(j, NULL);
        json_text(j, "act", w->act);
        json_text(j, "title", w->title);
        json_text(j, "visit", w->visit);
        put_text(j, "when", w->when);
        json_object_open(j, "quantities");
        put_figures(j, &w->figures);
        json_close(j);
        json_close(j);
    }
    json_close(j);
}

bool plan_json(const struct plan *plan, const struct sources *sources, struct buf *out,
               struct fault *f)
{
    struct json *j = json_new(plan->graph);
    if (!j)
        return fault_no_memory(f);
    json_text(j, "property", plan->property);
    put_text(j, "region", plan->region);
    put_text(j, "county", plan->county);
    if (plan->has_walked)
        json_day(j, "walked", plan->walked);
    else
        json_nothing(j, "walked");
    json_day(j, "starts", plan->starts);
    json_list_open(j, "stands");
    for (size_t i = 0; i < plan->stand_count; i++)
        put_stand(j, plan, &plan->stands[i]);
    json_close(j);
    json_list_open(j, "acts");
    bool fine = true;
    for (size_t i = 0; i < plan->act_count; i++)
        fine = put_act(j, plan, sources, &plan->acts[i]) && fine;
    json_close(j);
    put_goals(j, plan);
    json_object_open(j, "totals");
    put_figures(j, &plan->totals);
    json_close(j);
    json_list_open(j, "warnings");
    for (size_t i = 0; i < plan->finding_count; i++)
        put_finding(j, plan, &plan->findings[i]);
    json_close(j);
    put_unplaced(j, plan);
    put_waiting(j, plan);
    bool ok = fine ? json_write(j, out, f) : fault_no_memory(f);
    json_free(j);
    return ok;
}
