/* A plan as a consultant would hand it over, written by hand: what the renderers of page/
 * are tried on. The property and all its numbers are invented. */
#ifndef SPINNEY_TESTS_PAGE_SAMPLE_H
#define SPINNEY_TESTS_PAGE_SAMPLE_H

#include <string.h>

#include "base/fault.h"
#include "page/doc.h"

struct sample {
    struct units *units;
    struct graph *graph;
    struct doc *doc;
    struct fault fault;
};

static inline void sample_open(struct sample *s)
{
    fault_clear(&s->fault);
    s->units = units_new();
    s->graph = graph_new(s->units);
    s->doc = doc_new(s->graph);
}

static inline void sample_close(struct sample *s)
{
    doc_free(s->doc);
    graph_free(s->graph);
    units_free(s->units);
}

static inline struct date sample_date(struct sample *s, int year, int month, int day)
{
    struct date d = { 0 };
    (void)date_make(year, month, day, &d, &s->fault);
    return d;
}

/* A figure from low to high in a unit; low == high for a certain one. */
static inline struct qty sample_qty(struct sample *s, double low, double likely,
                                    double high, const char *unit)
{
    struct unit_id id;
    struct origin none = { SPAN_NONE, NULL };
    if (!units_find(s->units, unit, strlen(unit), &id, &s->fault))
        return QTY_NONE;
    uint64_t key = graph_key(unit, (uint32_t)(likely * 100), 0);
    return graph_range(s->graph, low, likely, high, id, key, none, &s->fault);
}

static inline void sample_figure(struct sample *s, double low, double likely, double high,
                                 const char *unit)
{
    struct qty q = sample_qty(s, low, likely, high, unit);
    doc_figure(s->doc, q, true);
    graph_release(s->graph, q);
}

static inline void sample_cell(struct doc *d, const char *text)
{
    doc_cell(d), doc_puts(d, text);
}

static inline void sample_head(struct sample *s)
{
    struct doc *d = s->doc;
    doc_heading(d, 1), doc_puts(d, "Quill Creek: the habitat plan");
    doc_definition(d, "Walked", 6), doc_date(d, sample_date(s, 2026, 10, 14));
    doc_definition(d, "Region", 6), doc_puts(d, "lake-states/michigan");
    doc_definition(d, "Goals", 5), doc_puts(d, "deer cover, ruffed grouse");
    doc_definition(d, "Lines", 5);
    doc_puts(d, "north surveyed; east an old fence, not surveyed: nothing is cut within "
                "two tree lengths of it");
    doc_paragraph(d);
    doc_puts(d, "Five stands were walked, "), sample_figure(s, 41.6, 41.6, 41.6, "ac");
    doc_puts(d, " in all. The work below comes to ");
    sample_figure(s, 121, 143, 170, "h"), doc_puts(d, " and ");
    sample_figure(s, 2100, 2460, 2900, "USD");
    doc_puts(d, ". Numbers in parentheses are the range to reckon with: nine chances in "
                "ten above the first, nine in ten below the second.");
}

static inline void sample_stand(struct sample *s, const char *name, double area,
                                const char *trees, double low, double ba, double high,
                                const char *walked)
{
    struct doc *d = s->doc;
    doc_row(d);
    sample_cell(d, name);
    doc_cell(d), sample_figure(s, area, area, area, "ac");
    sample_cell(d, trees);
    doc_cell(d);
    if (ba > 0)
        sample_figure(s, low, ba, high, "ft2/ac");
    else
        doc_puts(d, "none");
    sample_cell(d, walked);
}

static inline void sample_stands(struct sample *s)
{
    struct doc *d = s->doc;
    static const struct doc_column columns[] = {
        { "Stand", 5, DOC_LEFT, true },
        { "Area", 4, DOC_NUMBER, false },
        { "Mostly", 6, DOC_LEFT, true },
        { "Basal area", 10, DOC_NUMBER, false },
        { "From", 4, DOC_LEFT, true },
    };
    doc_heading(d, 2), doc_puts(d, "The stands");
    doc_table(d, columns, 5);
    sample_stand(s, "Bench aspen", 7.5, "bigtooth aspen", 74, 92, 110, "tally, 6 plots");
    sample_stand(s, "Oak ridge", 14.2, "northern red oak, red maple", 81, 104, 127,
                 "tally, 8 plots");
    sample_stand(s, "Creek alder", 5.1, "speckled alder", 0, 0, 0, "estimate by eye");
    sample_stand(s, "Old pasture", 8.3, "hawthorn, grass", 4, 9.5, 18, "estimate by eye");
    sample_stand(s, "Pine block", 6.5, "red pine", 138, 156, 174, "tally, 5 plots");
}

static inline void sample_findings(struct doc *d)
{
    doc_heading(d, 2), doc_puts(d, "Before anybody starts");
    doc_note(d, DOC_LEVEL_STOP);
    doc_puts(d, "The east line of "), doc_strong(d, "Bench aspen", 11);
    doc_puts(d, " is not surveyed. Find and flag it before a tree is dropped there.");
    doc_ask(d), doc_puts(d, "a licensed surveyor, and the neighbor");
    doc_note(d, DOC_LEVEL_CAUTION);
    doc_puts(d, "Oaks may not be wounded from Apr 15 to Jul 15, and oaks beside felled "
                "trees count too: keep the bench work inside the dormant season.");
    doc_ask(d), doc_puts(d, "the state's forest health office");
    doc_source(d), doc_puts(d, "state guidance on oak wilt; check locally");
    doc_note(d, DOC_LEVEL_NOTE);
    doc_puts(d, "Ask a logger first: the pine block may carry a commercial thinning.");
}

static inline void sample_act(struct sample *s, const char *act, const char *crew,
                              int month, int day, int to_month, int to_day, double low,
                              double likely, double high)
{
    struct doc *d = s->doc;
    int year = month > 10 ? 2026 : 2027, to_year = to_month > 10 ? 2026 : 2027;
    doc_row(d);
    sample_cell(d, act);
    sample_cell(d, crew);
    doc_cell(d), doc_date(d, sample_date(s, year, month, day));
    doc_cell(d), doc_date(d, sample_date(s, to_year, to_month, to_day));
    doc_cell(d), sample_figure(s, low, likely, high, "h");
}

static inline void sample_acts(struct sample *s)
{
    struct doc *d = s->doc;
    static const struct doc_column columns[] = {
        { "Act", 3, DOC_LEFT, true },     { "Crew", 4, DOC_LEFT, true },
        { "Start", 5, DOC_LEFT, false },  { "Finish", 6, DOC_LEFT, false },
        { "Hours", 5, DOC_NUMBER, false },
    };
    doc_heading(d, 2), doc_puts(d, "The acts");
    doc_heading(d, 3), doc_puts(d, "Sprout cover on the bench");
    doc_paragraph(d);
    doc_puts(d, "All aspen is cut flush while the ground is bare of leaves, so that it "
                "comes up again from the roots.");
    doc_item(d), doc_puts(d, "Keep every oak and whatever carries a yellow ribbon.");
    doc_item(d);
    doc_puts(d, "Lop the tops below the knee and leave them; two tree lengths between "
                "fellers, nobody alone.");
    doc_table(d, columns, 5);
    sample_act(s, "Fell the bench aspen", "owner", 11, 16, 12, 19, 58, 72, 88);
    sample_act(s, "Rest openings and three trails", "owner", 12, 21, 1, 16, 24, 31, 40);
    sample_act(s, "Alder, first quarter, on frozen ground only", "saw crew", 1, 18, 1, 23,
               17, 22, 28);
    sample_act(s, "Plant the pasture screen", "owner", 4, 19, 4, 24, 7, 8.5, 10.5);
    sample_act(s, "Mow the openings", "owner", 8, 16, 8, 21, 6, 9.5, 13);
    doc_total(d);
    doc_cell(d), doc_strong(d, "All acts", 8);
    doc_cell(d), doc_cell(d), doc_cell(d), doc_cell(d);
    sample_figure(s, 121, 143, 170, "h");
}

static inline void sample_bar(struct sample *s, struct strip *strip, enum strip_mark mark,
                              int year, int month, int day, int days)
{
    struct date from = sample_date(s, year, month, day);
    strip_mark(strip, mark, from, (struct date){ from.day + days });
}

static inline void sample_schedule(struct sample *s)
{
    static const char *const labels[] = { "Fell the bench aspen", "Openings and trails",
                                          "Alder, first quarter", "Pasture screen",
                                          "Mow the openings" };
    struct strip *strip = strip_new();
    doc_heading(s->doc, 2), doc_puts(s->doc, "The year");
    strip_row(strip, labels[0], strlen(labels[0]));
    sample_bar(s, strip, STRIP_OPEN, 2026, 11, 15, 136);
    sample_bar(s, strip, STRIP_PLANNED, 2026, 11, 16, 33);
    strip_row(strip, labels[1], strlen(labels[1]));
    sample_bar(s, strip, STRIP_OPEN, 2026, 11, 15, 136);
    sample_bar(s, strip, STRIP_PLANNED, 2026, 12, 21, 26);
    strip_row(strip, labels[2], strlen(labels[2]));
    sample_bar(s, strip, STRIP_OPEN, 2027, 1, 5, 60);
    sample_bar(s, strip, STRIP_PLANNED, 2027, 1, 18, 5);
    strip_row(strip, labels[3], strlen(labels[3]));
    sample_bar(s, strip, STRIP_OPEN, 2027, 4, 15, 31);
    sample_bar(s, strip, STRIP_PLANNED, 2027, 4, 19, 5);
    strip_row(strip, labels[4], strlen(labels[4]));
    for (int year = 2027; year < 2030; year++) {
        sample_bar(s, strip, STRIP_OPEN, year, 8, 1, 45);
        sample_bar(s, strip, STRIP_PLANNED, year, 8, 16, 5);
    }
    doc_strip(s->doc, strip);
}

static inline void sample_materials(struct sample *s)
{
    struct doc *d = s->doc;
    static const struct doc_column columns[] = {
        { "Material", 8, DOC_LEFT, true },
        { "For", 3, DOC_LEFT, true },
        { "How much", 8, DOC_NUMBER, false },
        { "Cost", 4, DOC_RIGHT, false },
    };
    doc_heading(d, 2), doc_puts(d, "The materials");
    doc_table(d, columns, 4);
    doc_row(d);
    sample_cell(d, "white spruce, 2-0 stock"), sample_cell(d, "pasture screen");
    doc_cell(d), sample_figure(s, 240, 240, 240, "plants"), sample_cell(d, "$ 312");
    doc_row(d);
    sample_cell(d, "browse tubes with stakes"), sample_cell(d, "pasture screen");
    doc_cell(d), sample_figure(s, 240, 240, 240, "plants"), sample_cell(d, "$ 1,030");
    doc_row(d), sample_cell(d, "white clover, bulk seed"), sample_cell(d, "openings");
    doc_cell(d), sample_figure(s, 8.4, 9.25, 10.1, "lb"), sample_cell(d, "$ 64");
}

static inline void sample_write(struct sample *s)
{
    sample_head(s);
    sample_findings(s->doc);
    sample_stands(s);
    sample_acts(s);
    sample_schedule(s);
    sample_materials(s);
}

#endif
