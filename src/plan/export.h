/* export.h: the whole plan as JSON, keys in a fixed order. Every quantity is an object
 * {"value", "low", "high", "unit"} (page/json.h), every date ISO 8601, what is not known
 * null.
 *
 *     property, region, county, walked, starts
 *     stands[]    name, known_from, figures by key, species[] { species, figures by key },
 *                 expected[] { when, year, season, use, figures by key },
 *                 stages[] { act, first_season, hides_lying, hides_standing, best_browse,
 *                 useful_until, next_cut }, ways_out { figures by key, openings[] { act,
 *                 numbers and figures by key, shunned }, dead_ends[] { ..., where },
 *                 candidates[] }, null where the map shows no openings with trails
 *     acts[]      id, kind, title, stand, prescription, crew, state, start (the first day of
 *                 work), finish, quantities by key, notices[] { name, to, file_by, filed,
 *                 filings[] { from, by } }, during, reason, usable, weeks_left,
 *                 float_weeks (null: no end, or not placed), chance, chance_or_more,
 *                 not_before, source { file, line }
 *     finish      first_year, marked_first, all: { acts, planned, not_before }
 *     totals      hours, cost, then materials by key
 *     warnings[]  level, rule, act, stand, date, message, ask, source
 *     unplaced[]  act, reason
 *     waiting[]   act, title, visit, when, quantities by key: what a visit may ask for
 */
#ifndef SPINNEY_PLAN_EXPORT_H
#define SPINNEY_PLAN_EXPORT_H

#include <stdbool.h>

struct buf;
struct fault;
struct plan;
struct sources;

bool plan_json(const struct plan *plan, const struct sources *sources, struct buf *out,
               struct fault *f);

#endif
