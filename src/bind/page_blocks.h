/* page_blocks.h: notes, tables and strips as a report script gives them, in one table
 * each: the part of bind/page.c that knows their shapes (told in bind/page.h).
 *
 *     page_table(L, d);        // the table at index 2, read, checked and written
 *
 * Each checks everything before it writes anything, and raises what is wrong. */
#ifndef SPINNEY_BIND_PAGE_BLOCKS_H
#define SPINNEY_BIND_PAGE_BLOCKS_H

struct doc;
struct lua_State;

void page_note(struct lua_State *L, struct doc *d);
void page_table(struct lua_State *L, struct doc *d);
void page_strip(struct lua_State *L, struct doc *d);

#endif
