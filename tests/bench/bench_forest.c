/* bench_forest: stands from their notes to what grows on them after a cut, one after the
 * other in one process, and what their headline figures cost with their spread.
 *
 * A stand: the notes of forest_notes.h are read, wood by product, weight, stocking and
 * density worked out, aspen and maple cut, and 15 years grown on it (forest_years.h).
 *
 * Bars: STANDS_VALUES of them at 2,000 a second, values alone; STANDS_DRAWN of them with
 * the spread of the ten figures, drawn from a doubtful tree length, age and site, at 150
 * a second; and memory flat: what the process holds after all of them is what it held
 * after a tenth.
 * Times are those of the processor, so that a busy machine does not count. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#include "forest_notes.h"
#include "forest_species.h"
#include "forest_years.h"

#include "forest/cruise.h"
#include "forest/density.h"
#include "forest/regrowth.h"
#include "forest/stocking.h"
#include "forest/wood.h"
#include "quantity/spread.h"

enum {
    FIGURES = 10,
    CELLS_MOST = NOTES_PLOTS * NOTES_TREES,
    STANDS_VALUES = 10000,
    STANDS_DRAWN = 1000,
    BAR_VALUES = 2000,
    BAR_DRAWN = 150
};
/* Memory may differ by as much as the allocator's and the system's habits. */
#define GROWN_MOST_KB 512

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

/* Kilobytes of memory that the process has in use. */
static long resident(void)
{
    long pages = 0, held = 0;
    FILE *file = fopen("/proc/self/statm", "r");
    if (!file || fscanf(file, "%ld %ld", &pages, &held) != 2)
        held = 0;
    if (file)
        fclose(file);
    return held * (sysconf(_SC_PAGESIZE) / 1024);
}

static void give_up(const struct fault *f)
{
    fprintf(stderr, "bench_forest: %s\n", f->message);
    exit(1);
}

/* ---- what a stand is worked out with ---- */

struct bench {
    struct species_table *species;
    struct graph *graph;
    uint32_t number; /* of the stand, which sets its doubts apart from others' */
    struct unit_id ft, yr, percent, stems;
    struct stock_pick cut, aspen;
    double sum; /* of all that was worked out, so that nothing is idle */
    double cords, suckers;
};

struct stand {
    struct inventory *inv;
    struct stock *now, *taken, *left;
    double crowns[CELLS_MOST];
    struct stocking_room rooms[CELLS_MOST];
};

static void fill_cells(const struct bench *b, struct stand *s)
{
    for (size_t i = 0; i < s->inv->cell_count; i++) {
        const struct inventory_cell *cell = &s->inv->cells[i];
        const struct species *kind = species_at(b->species, cell->species);
        double start = kind->traits[SPECIES_CROWN_START];
        double slope = kind->traits[SPECIES_CROWN_SLOPE];
        s->crowns[i] = isnan(slope) ? 3 + 1.2 * cell->diameter_in
                                    : start + slope * cell->diameter_in;
        /* Upland oak's and, for conifers, wood density's. */
        if (kind->flags & SPECIES_EVERGREEN)
            s->rooms[i] = (struct stocking_room){
                .k = stocking_wood_density(kind->traits[SPECIES_WOOD_GRAVITY])
            };
        else
            s->rooms[i] = (struct stocking_room){ -0.00507, 0.01698, 0.00317, 0 };
    }
}

static void open_stand(const struct bench *b, const char *text, size_t length,
                       struct stand *s)
{
    struct faults all = { .count = 0 };
    struct fault f = { .id = NULL };
    struct tally *tally = tally_read(text, length, SPAN_NONE, b->species, &all);
    if (!tally)
        give_up(&all.list[0]);
    char name[32];
    snprintf(name, sizeof name, "Bench %u", (unsigned)b->number);
    s->inv = cruise_inventory(tally, b->species, name, SPAN_NONE, &f);
    tally_free(tally);
    s->now = s->inv ? stock_of(s->inv, &f) : NULL;
    if (!s->now || !stock_cut(s->now, &b->cut, 1, NULL, 0, &s->taken, &s->left, &f))
        give_up(&f);
    fill_cells(b, s);
}

static void close_stand(struct stand *s)
{
    stock_free(s->taken);
    stock_free(s->left);
    stock_free(s->now);
    inventory_free(s->inv);
}

/* ---- figures ---- */

static struct qty range(const struct bench *b, double low, double likely, double high,
                        struct unit_id unit, const char *name, struct fault *f)
{
    struct origin from = { SPAN_NONE, "common practice, no source" };
    uint64_t key = graph_key(name, b->number, 0);
    return graph_range(b->graph, low, likely, high, unit, key, from, f);
}

static struct qty equation(const struct bench *b, const char *name, const struct qty *of,
                           const double *with, struct fault *f)
{
    const struct regrowth_formula *r = regrowth_formula_find(name);
    struct operand operands[FORMULA_OPERANDS_MOST];
    struct unit_id out;
    struct units *units = graph_units(b->graph);
    for (size_t i = 0; i < r->operand_count; i++) {
        const struct regrowth_operand *o = &r->operands[i];
        operands[i] = (struct operand){ .of = of[i], .name = o->name };
        if (!units_find(units, o->unit, strlen(o->unit), &operands[i].in, f))
            give_up(f);
    }
    if (!units_find(units, r->unit, strlen(r->unit), &out, f))
        give_up(f);
    struct origin from = { SPAN_NONE, "own model" };
    return graph_formula(b->graph, &r->of, with, r->with_count, operands,
                         r->operand_count, out, from, f);
}

/* Suckers in the fifth year, from doubtful roots, age, season, room and site. */
static struct qty suckers(const struct bench *b, const struct stand *s, struct fault *f)
{
    static const double none[] = { 0 }, fifth[] = { 5 };
    struct origin nowhere = { SPAN_NONE, NULL };
    struct stock_pick all = stock_pick_all();
    struct qty first[] = { range(b, 12000, 20000, 35000, b->stems, "full", f),
                           figure_basal_area(b->graph, s->now, &b->aspen, "aspen", f),
                           range(b, 35, 45, 60, b->yr, "age", f),
                           figure_basal_area(b->graph, s->left, &all, "left", f),
                           range(b, 70, 90, 100, b->percent, "season", f),
                           graph_leaf(b->graph, 100, b->percent, nowhere, f) };
    struct qty then[] = { equation(b, "suckers of the first season", first, none, f),
                          range(b, 40000, 75000, 190000, b->stems, "room", f),
                          range(b, 0.5, 2, 4, b->percent, "bitten", f),
                          range(b, 60, 70, 80, b->ft, "site", f) };
    return equation(b, "suckers in a year", then, fifth, f);
}

static struct qty wood(const struct bench *b, const struct stand *s,
                       enum wood_product product, enum wood_as as, struct qty length,
                       struct fault *f)
{
    struct stock_pick all = stock_pick_all();
    struct wood_ask ask = wood_usual();
    ask.product = product;
    ask.as = as;
    ask.heights_told = true;
    ask.tree_length_ft = 66;
    return wood_figure(b->graph, s->now, &all, b->species, &ask, length, NULL, f);
}

/* Trees, basal area, diameter, stocking, cords, board feet, tons, density index, crown
 * cover, suckers. `length`: of the trees, in doubt or QTY_NONE. */
static void headline(struct bench *b, const struct stand *s, struct qty length,
                     struct qty out[FIGURES], struct fault *f)
{
    struct graph *g = b->graph;
    struct stock_pick all = stock_pick_all();
    out[0] = figure_trees(g, s->now, &all, NULL, f);
    out[1] = figure_basal_area(g, s->now, &all, NULL, f);
    out[2] = figure_diameter(g, s->now, &all, NULL, f);
    out[3] = figure_stocking(g, s->now, &all, s->rooms, NULL, "Gingrich 1967", f);
    out[4] = wood(b, s, WOOD_ALL, WOOD_CORDS, length, f);
    out[5] = wood(b, s, WOOD_SAWLOGS, WOOD_BOARD_FEET, length, f);
    out[6] = wood(b, s, WOOD_ALL, WOOD_TONS, length, f);
    out[7] = figure_density_index(g, s->now, &all, NULL, f);
    out[8] = figure_crown_cover(g, s->now, &all, s->crowns, NULL, f);
    out[9] = suckers(b, s, f);
    if (fault_is_set(f))
        give_up(f);
    for (size_t i = 0; i < FIGURES; i++)
        b->sum += graph_value(g, out[i]);
    b->cords += graph_value_in(g, out[4], graph_unit(g, out[4]));
    b->suckers += graph_value_in(g, out[9], graph_unit(g, out[9]));
}

/* What else is told of the wood: cords by product, dry weight, crowns of what is cut. */
static void further_wood(struct bench *b, const struct stand *s, struct qty length,
                         struct fault *f)
{
    struct stock_pick all = stock_pick_all();
    struct qty more[] = {
        wood(b, s, WOOD_SAWLOGS, WOOD_CORDS, length, f),
        wood(b, s, WOOD_PULPWOOD, WOOD_CORDS, length, f),
        wood_biomass(b->graph, s->now, &all, b->species, BIOMASS_ALL, NULL, f),
        wood_biomass(b->graph, s->taken, &all, b->species, BIOMASS_CROWN, NULL, f),
    };
    if (fault_is_set(f))
        give_up(f);
    for (size_t i = 0; i < sizeof more / sizeof more[0]; i++)
        b->sum += graph_value(b->graph, more[i]);
}

/* ---- a stand and many ---- */

static void work_out(struct bench *b, unsigned number, bool drawn, double *time)
{
    char text[NOTES_ROOM];
    size_t length = notes_write(number, text);
    struct fault f = { .id = NULL };
    struct qty figures[FIGURES];
    struct stand s;
    double from = now();
    uint32_t mark = graph_scope_open(b->graph);
    b->number = number;
    open_stand(b, text, length, &s);
    struct qty trees = drawn ? range(b, 60, 66, 72, b->ft, "tree length", &f) : QTY_NONE;
    headline(b, &s, trees, figures, &f);
    further_wood(b, &s, trees, &f);
    struct years_site site = { b->species, s.taken, s.left,
                               stock_basal_area(s.now, &b->aspen) };
    b->sum += years_grow(&site);
    struct spread spread[FIGURES];
    if (drawn && !spread_of(b->graph, figures, FIGURES, spread, &f))
        give_up(&f);
    for (size_t i = 0; drawn && i < FIGURES; i++)
        b->sum += spread[i].high - spread[i].low;
    graph_scope_close(b->graph, mark, NULL, 0);
    close_stand(&s);
    *time += now() - from;
}

/* Prints what they cost; is the bar met, and memory flat? */
static bool many(struct bench *b, unsigned stands, bool drawn, double bar)
{
    double time = 0;
    long before = 0;
    b->cords = b->suckers = 0;
    for (unsigned i = 0; i < stands; i++) {
        if (i == stands / 10)
            before = resident();
        work_out(b, i, drawn, &time);
    }
    long after = resident();
    double rate = stands / time;
    printf("%u stands, %s: %.0f a second (at least %.0f), %.1f times the bar, %.2f us a "
           "tree\n",
           stands, drawn ? "ten figures with their spread" : "values", rate, bar,
           rate / bar, 1e6 * time / stands / CELLS_MOST);
    printf("  memory: %ld KB after %u, %ld KB after %u; a mean stand: %.1f cords, %.0f "
           "suckers in year 5, an acre\n",
           before, stands / 10, after, stands, b->cords / stands, b->suckers / stands);
    bool flat = before > 0 && after > 0 && after - before <= GROWN_MOST_KB;
    return rate >= bar && flat && isfinite(b->sum);
}

static struct unit_id unit(struct units *u, const char *name)
{
    struct unit_id id;
    struct fault f = { .id = NULL };
    if (!units_find(u, name, strlen(name), &id, &f))
        give_up(&f);
    return id;
}

static struct stock_pick pick(const struct species_table *t, const char *words)
{
    struct stock_pick p = stock_pick_all();
    struct fault f = { .id = NULL };
    if (!species_select(t, words, strlen(words), &p.species, &f))
        give_up(&f);
    return p;
}

int main(void)
{
    struct units *units = units_new();
    struct bench b = { .species = forest_species(),
                       .graph = units ? graph_new(units) : NULL };
    if (!b.species || !b.graph)
        return 1;
    b.ft = unit(units, "ft");
    b.yr = unit(units, "yr");
    b.percent = unit(units, "percent");
    b.stems = unit(units, "stems/ac");
    b.aspen = pick(b.species, "aspen");
    b.cut = pick(b.species, "maple");
    species_set_join(&b.cut.species, &b.aspen.species);
    bool values = many(&b, STANDS_VALUES, false, BAR_VALUES);
    bool drawn = many(&b, STANDS_DRAWN, true, BAR_DRAWN);
    graph_free(b.graph);
    units_free(units);
    species_table_free(b.species);
    return values && drawn ? 0 : 1;
}
