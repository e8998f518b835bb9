/* page_csv.h: page.csv and page.fixed: tables and numbers as plain text, for files that other
 * programs read.
 *
 *     page.csv({ { "flag", "feet" }, { "opening 1", { 130.25, 1 } } })
 *     page.fixed(-87.5, 4)                       -- "-87.5000", under every locale */
#ifndef SPINNEY_BIND_PAGE_CSV_H
#define SPINNEY_BIND_PAGE_CSV_H

struct lua_State;

int page_csv(struct lua_State *L);
int page_fixed(struct lua_State *L);

#endif
