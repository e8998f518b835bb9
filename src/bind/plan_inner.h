/* plan_inner.h: what the files of the room "plan" share: the run's plan, and how numbers
 * of Lua's (from 1) mean its acts and stands.
 *
 *     struct plan_act *act = plan_act_at(L, 1);      // raises when there is none
 *     plan_set_text(plan_of(L), &act->title, words);
 *     plan_check(L);                                 // raises when out of memory
 */
#ifndef SPINNEY_BIND_PLAN_INNER_H
#define SPINNEY_BIND_PLAN_INNER_H

#include <stddef.h>
#include <stdint.h>

#include "plan/plan.h"

struct lua_State;

struct plan *plan_of(struct lua_State *L);
/* The number at `index`, from 0; raises unless it is below `count`. */
uint32_t plan_index_at(struct lua_State *L, int index, size_t count, const char *what);
uint32_t plan_act_index(struct lua_State *L, int index);
/* Borrowed until an act is added. */
struct plan_act *plan_act_at(struct lua_State *L, int index);
/* PLAN_NONE for nil. */
uint32_t plan_stand_or_none(struct lua_State *L, int index);
/* "stop", "caution" or "note". */
enum finding_level plan_level_at(struct lua_State *L, int index);
/* Raises when it is no date. */
struct date plan_date_at(struct lua_State *L, int index);
void plan_check(struct lua_State *L);
/* Adds the functions of plan_acts.c, plan_results.c, plan_outlook.c, plan_ways.c,
 * plan_dates.c, plan_crews.c to the table on top. */
void plan_acts_open(struct lua_State *L);
void plan_results_open(struct lua_State *L);
void plan_outlook_open(struct lua_State *L);
void plan_ways_open(struct lua_State *L);
void plan_dates_open(struct lua_State *L);
void plan_crews_open(struct lua_State *L);

#endif
