/* project_inner.h: what the modules of project_*.c share, for them and their tests only.
 *
 *     struct project_net *n = project_net_new(p, f);        // checks, and prepares
 *     struct project_board *b = project_board_new(n, f);
 *     int t = board_first(b, i, n->head[i]);
 *     if (t != PROJECT_NOWHERE) board_put(b, i, t);
 *     project_board_free(b);
 *     project_net_free(n);
 *
 * Arcs lie between starts: start of `to` >= start of its other end + lag. An order with
 * a most lag makes a second one, backward. What resources have left is kept four to a
 * word of 64 bits, 16 bits each, the highest of which is always set: one subtraction
 * compares all four, and a lane that loses its highest bit has not enough. */
#ifndef SPINNEY_WORK_PROJECT_INNER_H
#define SPINNEY_WORK_PROJECT_INNER_H

#include "work/project.h"

#define PROJECT_GUARDS 0x8000800080008000u

struct project_arc {
    uint32_t to;
    int lag;
    bool forward; /* in the order of `topo`; the others are most lags and overlaps */
};

struct project_arcs {
    uint32_t *first; /* of each activity, and one past the last's */
    struct project_arc *arcs;
};

struct project_net {
    const struct project *project;
    size_t count, words; /* words of resources for each unit of time */
    int horizon;
    bool has_most;    /* some arc does not go forward in `topo` */
    bool has_latest;  /* some activity has a latest finish */
    bool by_time;     /* some capacity changes with time */
    int *duration, *head, *latest; /* earliest and latest start by arcs alone */
    int *tail;        /* from the start of an activity to the end of all, by arcs */
    uint64_t *demand; /* count x words */
    uint64_t *room;   /* horizon x words, with nothing placed */
    struct project_arcs out, in; /* in: `to` is where it comes from */
    uint32_t *topo, *place; /* activities in an order of all arcs that go forward */
    bool impossible;  /* earliest after latest */
};

/* project_sound.c: numbers within their ranges, activities that fit their resources. */
bool project_is_sound(const struct project *p, struct fault *f);

/* project_net.c. Borrows the project. */
struct project_net *project_net_new(const struct project *p, struct fault *f);
void project_net_free(struct project_net *n);
/* Raises what arcs ask of starts; false when they rise without end (past `most`). */
bool project_net_raise(const struct project_net *n, int *starts, int most);

/* project_board.c: what resources have left, unit by unit. */
struct project_board {
    const struct project_net *net;
    uint64_t *room;
    int dirty; /* units from here on are as with nothing placed */
};

struct project_board *project_board_new(const struct project_net *n, struct fault *f);
void project_board_free(struct project_board *b);
void board_wipe(struct project_board *b);
/* The first start from `from` on, the last from `from` back, with room; or NOWHERE. */
int board_first(const struct project_board *b, size_t i, int from);
int board_last(const struct project_board *b, size_t i, int from);
bool board_fits(const struct project_board *b, size_t i, int start);
void board_put(struct project_board *b, size_t i, int start);
void board_take(struct project_board *b, size_t i, int start);
/* The same for a part of the time it runs, within the horizon. */
bool board_fits_span(const struct project_board *b, size_t i, int from, int to);
void board_put_span(struct project_board *b, size_t i, int from, int to);
void board_take_span(struct project_board *b, size_t i, int from, int to);

#endif
