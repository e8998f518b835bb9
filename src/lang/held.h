/* held.h: a text that is built in C while Lua may jump: its buffer belongs to Lua's
 * collector, which frees it however the function is left.
 *
 *     struct buf *text = held_new(L);     // on the stack: its owner
 *     if (!doc_text(doc, text, &f)) fault_raise(L, &f);
 *     return held_push(L, text);          // on top: the text */
#ifndef SPINNEY_LANG_HELD_H
#define SPINNEY_LANG_HELD_H

struct buf;
struct lua_State;

/* Pushes the owner; the buffer is empty. */
struct buf *held_new(struct lua_State *L);
/* Pushes the text as a value of Lua's and frees the buffer; raises when it has failed.
 * Always 1, so that it can be returned. */
int held_push(struct lua_State *L, struct buf *text);

#endif
