/* measure_inner.h: what the files of measure*.c share; no other file includes it.
 *
 *     struct qty a = operand_at(L, 1);          // a number becomes a leaf
 *     operator_fault(L, &f, "+");               // raises, with carets under both sides
 */
#ifndef SPINNEY_BIND_MEASURE_INNER_H
#define SPINNEY_BIND_MEASURE_INNER_H

#include <lua.h>

#include "base/fault.h"
#include "bind/measure.h"

/* Raises a fault of an operator: carets under its operands where the line tells them. */
__attribute__((noreturn))
void operator_fault(lua_State *L, struct fault *f, const char *symbol);
/* The two operands of the author's line that runs; false when they cannot be told. */
bool operator_place(lua_State *L, const char *symbol, struct span *left,
                    struct span *right);
/* A fault of two operands, one of which is nil: `how` is "work out" or "compare", and what
 * the author wrote there is named. False when none is. */
bool operand_nothing(lua_State *L, const char *how, const char *symbol, struct fault *f);
/* "15 ft", "3", "text (\"3\")", "nil (nothing)", "a table": the value in a message. */
void operand_words(lua_State *L, int index, char *out, size_t size);
/* The quantity at `index`, or one made of the number there, which then replaces it on the
 * stack; raises nothing: QTY_NONE for anything else. */
struct qty operand_at(lua_State *L, int index);
/* Two operands of which no sum or product can be made: raises. */
__attribute__((noreturn)) void operands_refuse(lua_State *L, const char *symbol);

int measure_equal(lua_State *L);
int measure_less(lua_State *L);
int measure_less_equal(lua_State *L);
int measure_index(lua_State *L);

/* Pushes the bare number of the quantity in the unit at `index`; without one, only for
 * bare numbers and percents. */
int push_number(lua_State *L, struct qty q, int index);
/* Pushes the whole number of that unit. */
int push_count(lua_State *L, struct qty q, int index);
/* On top: the vocabulary. */
void measure_functions(lua_State *L);
/* Methods, into the table on top. */
void measure_methods(lua_State *L);

#endif
