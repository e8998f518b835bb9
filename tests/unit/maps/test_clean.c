/* What comes broken from outside is mended with a note, or refused. */
#include "ground.h"
#include "ground/clean.h"
#include "ground/session_geos.h"

struct mended {
    struct shape shape;
    struct clean_done done;
    struct fault fault;
    bool ok;
};

static struct mended mend(struct shape s)
{
    struct mended m = { .shape = s };
    struct clean_ask ask = clean_ask_plain("Bench aspen");
    m.ok = clean_close(&m.shape, &ask, &m.done, &m.fault) &&
           clean_shape(&m.shape, &ask, &m.done, &m.fault);
    return m;
}

static void a_sound_shape_is_left_as_it_is(void **state)
{
    (void)state;
    struct mended m = mend(rectangle(0, 0, 660, 660));
    assert_true(m.ok);
    assert_string_equal(m.done.words, "");
    assert_true(shape_area(&m.shape) == 435600 && m.done.moved == 0);
    shape_free(&m.shape);
}

static void a_small_crossing_is_undone_with_a_note(void **state)
{
    (void)state;
    struct shape s = area();
    /* 1000 ft square whose last side runs 10 ft past its first, across it. */
    PART(&s, false, 0, 0, 1000, 0, 1000, 1000, 0, 1000, 1, -10, 20, -10);
    struct mended m = mend(s);
    assert_true(m.ok);
    assert_non_null(strstr(m.done.words, "a crossing undone"));
    assert_non_null(strstr(m.done.words, "less than 0.01 ac moved"));
    assert_true(m.done.share < 0.02 && fabs(shape_area(&m.shape) - 1e6) < 700);
    shape_free(&m.shape);
}

static void a_figure_of_eight_is_refused(void **state)
{
    (void)state;
    struct shape s = area();
    PART(&s, false, 0, 0, 660, 660, 660, 0, 0, 660);
    struct mended m = mend(s);
    assert_false(m.ok);
    /* Loops of 660 x 330 / 2 = 108,900 ft2 each, 2.5 ac. Drawn by coordinates: nought. */
    assert_true(told(&m.fault, "shape-broken",
                     "the outline of `Bench aspen` crosses itself; to mend it would move "
                     "5.00 ac (100.0 percent) of its 5 ac",
                     "up to 2 percent is mended without asking"));
    assert_int_equal(m.shape.part_count, 1); /* as it was */
    shape_free(&m.shape);
}

static void a_refusal_says_where(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape s = area();
    struct clean_done done = { 0 };
    struct clean_ask ask = clean_ask_plain("Bench aspen");
    struct frame *frame = frame_new((struct position){ -87.5, 47.6 }, &f);
    ask.frame = frame;
    PART(&s, false, 0, 0, 660, 660, 660, 0, 0, 660);
    assert_false(clean_shape(&s, &ask, &done, &f));
    assert_true(told(&f, "shape-broken", "near 47.60090 N, 87.49866 W", ""));
    ask.most_moved = 1;
    fault_clear(&f);
    done = (struct clean_done){ 0 };
    assert_true(clean_shape(&s, &ask, &done, &f));
    assert_true(fabs(shape_area(&s) - 217800) < 1e-6);
    frame_free(frame);
    shape_free(&s);
}

static void slivers_and_pinholes_are_left_out(void **state)
{
    (void)state;
    struct shape s = rectangle(0, 0, 1000, 1000);
    PART(&s, false, 2000, 0, 2001, 0, 2001, 1, 2000, 1);             /* a square foot */
    PART(&s, false, 3000, 0, 3400, 0, 3400, 0.3, 3000, 0.3);         /* a hair */
    PART(&s, true, 500, 500, 500.5, 500, 500.5, 500.5, 500, 500.5);  /* a pinhole */
    struct mended m = mend(s);
    assert_true(m.ok);
    assert_string_equal(m.done.words, "3 slivers left out; less than 0.01 ac moved");
    assert_true(fabs(shape_area(&m.shape) - 1e6) < 1e-6);
    assert_int_equal(m.shape.part_count, 1);
    shape_free(&m.shape);
}

static void double_points_are_left_out(void **state)
{
    (void)state;
    struct shape s = area();
    PART(&s, false, 0, 0, 0, 0, 1000, 0, 1000, 0.001, 1000, 1000, 0, 1000, 0, 0);
    struct mended m = mend(s);
    assert_true(m.ok);
    assert_string_equal(m.done.words,
                        "2 double points left out; less than 0.01 ac moved");
    assert_int_equal(m.shape.point_count, 4);
    shape_free(&m.shape);
}

static void overlapping_parts_are_counted_once(void **state)
{
    (void)state;
    struct shape s = rectangle(0, 0, 1000, 1000);
    PART(&s, false, 990, 0, 1990, 0, 1990, 1000, 990, 1000);
    struct mended m = mend(s);
    assert_true(m.ok);
    assert_true(fabs(shape_area(&m.shape) - 1990000) < 1e-6);
    assert_true(fabs(m.done.moved - 10000) < 1e-6);
    shape_free(&m.shape);
}

/* A walk round a square, a point every 20 ft, as a receiver records it. */
static struct shape walk(double closing_gap, bool spike)
{
    struct shape s = { .kind = SHAPE_LINES };
    double xy[128] = { 0 };
    size_t n = 0;
    for (int i = 0; i <= 60; i++) {
        double along = i * 20, x = 0, y = 0;
        if (along > 1200 - closing_gap)
            break;
        if (along <= 300) x = along;
        else if (along <= 600) { x = 300; y = along - 300; }
        else if (along <= 900) { x = 900 - along; y = 300; }
        else y = 1200 - along;
        xy[n++] = x;
        xy[n++] = y;
        if (spike && i == 20) {
            xy[n++] = x + 400;
            xy[n++] = y + 5;
        }
    }
    part(&s, false, xy, n / 2);
    return s;
}

static void a_walk_round_is_closed(void **state)
{
    (void)state;
    struct mended m = mend(walk(40, false));
    assert_true(m.ok);
    assert_int_equal(m.shape.kind, SHAPE_AREAS);
    assert_true(fabs(shape_area(&m.shape) - 90000) < 1e-6);
    assert_string_equal(m.done.words, "a gap of 40 ft closed; less than 0.01 ac moved");
    shape_free(&m.shape);
    m = mend(walk(0, false));
    assert_true(m.ok);
    assert_string_equal(m.done.words, "");
    shape_free(&m.shape);
}

static void a_walk_that_stops_short_is_refused(void **state)
{
    (void)state;
    struct mended m = mend(walk(200, false));
    assert_false(m.ok);
    assert_true(told(&m.fault, "shape-open",
                     "the outline of `Bench aspen` is not closed: its ends lie 200 ft apart",
                     "walk it all the way round"));
    shape_free(&m.shape);
}

static void a_spike_of_the_receiver_is_left_out(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape s = walk(0, true);
    struct clean_ask ask = clean_ask_plain("Bench aspen");
    struct clean_done done = { 0 };
    ask.most_moved = 0.05;
    assert_true(clean_close(&s, &ask, &done, &f) && clean_shape(&s, &ask, &done, &f));
    /* Its triangle: 20 ft of the side, 400 ft out, of 90,000 ft2. */
    assert_string_equal(done.words,
                        "1 spike of 400 ft left out; 0.09 ac (4.4 percent) moved");
    assert_true(fabs(shape_area(&s) - 90000) < 1e-6 && fabs(done.moved - 4000) < 1e-6);
    shape_free(&s);
    struct mended m = mend(walk(0, true));
    assert_false(m.ok);
    assert_true(told(&m.fault, "shape-broken",
                     "the outline of `Bench aspen` has 1 spike of 400 ft; to mend it would "
                     "move 0.09 ac (4.4 percent)",
                     "up to 2 percent"));
    shape_free(&m.shape);
}

static void a_spike_of_a_line_too(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape s = walk(0, true);
    struct clean_ask ask = clean_ask_plain("track 1");
    struct clean_done done = { 0 };
    assert_true(clean_shape(&s, &ask, &done, &f));
    assert_int_equal(s.kind, SHAPE_LINES);
    assert_string_equal(done.words, "1 spike of 400 ft left out");
    assert_true(fabs(shape_length(&s) - 1200) < 1e-6);
    shape_free(&s);
}

static void what_holds_no_ground_is_refused(void **state)
{
    (void)state;
    struct shape flat = area(), few = area();
    PART(&flat, false, 0, 0, 100, 0, 200, 0);
    PART(&few, false, 0, 0, 100, 0, 100, 0.001);
    struct mended m = mend(flat);
    assert_false(m.ok);
    assert_true(told(&m.fault, "shape-empty", "holds no ground", "three corners"));
    shape_free(&m.shape);
    m = mend(few);
    assert_false(m.ok);
    assert_true(told(&m.fault, "shape-empty", "too few points for an area", ""));
    shape_free(&m.shape);
    struct shape nowhere = rectangle(0, 0, (double)NAN, 10);
    struct clean_ask ask = clean_ask_plain("it");
    struct clean_done done = { 0 };
    struct fault f = { 0 };
    assert_false(clean_shape(&nowhere, &ask, &done, &f));
    assert_true(told(&f, "shape-broken", "lies nowhere", ""));
    shape_free(&nowhere);
}

static void a_narrow_corner_drawn_by_hand_is_no_spike(void **state)
{
    (void)state;
    struct shape s = area();
    PART(&s, false, 0, 0, 1000, 10, 0, 40, -100, 300, -200, 20);
    struct mended m = mend(s);
    assert_true(m.ok);
    assert_string_equal(m.done.words, "");
    assert_int_equal(m.shape.point_count, 5);
    shape_free(&m.shape);
}

static bool is_sound(const struct shape *s)
{
    struct session g;
    struct fault f = { 0 };
    assert_true(session_open(&g, &f));
    GEOSGeometry *geometry = session_take(&g, s, &f);
    assert_non_null(geometry);
    bool sound = GEOSisValid_r(g.handle, geometry) == 1;
    GEOSGeom_destroy_r(g.handle, geometry);
    session_close(&g);
    return sound;
}

/* Whatever ring is drawn: what comes out is sound, or there is a fault. */
static void random_scrawls_come_out_sound_or_not_at_all(void **state)
{
    (void)state;
    unsigned seed = 5;
    int mended = 0, refused = 0;
    for (int i = 0; i < 2000; i++) {
        struct shape s = area();
        double ring[40];
        size_t n = 3 + (size_t)(rand_r(&seed) % 17);
        for (size_t k = 0; k < 2 * n; k++)
            ring[k] = rand_r(&seed) % (i % 2 ? 1000 : 8) * 10;
        part(&s, false, ring, n);
        struct clean_ask ask = clean_ask_plain("scrawl");
        struct clean_done done = { 0 };
        struct fault f = { 0 };
        ask.most_moved = i % 3 ? 1e9 : 0.02;
        if (clean_shape(&s, &ask, &done, &f)) {
            mended++;
            assert_true(is_sound(&s));
        } else {
            refused++;
            assert_true(fault_is_set(&f));
        }
        shape_free(&s);
    }
    assert_true(mended > 500 && refused > 200);
}

/* To mend it takes hours: it is refused before. */
static void a_scribble_is_refused_at_once(void **state)
{
    (void)state;
    enum { CORNERS = 9000 };
    struct fault f = { 0 };
    struct shape s = area();
    static struct point ring[CORNERS];
    for (size_t i = 0; i < CORNERS; i++)
        ring[i] =
            (struct point){ 900 * cos((double)i * 2.1), 900 * sin((double)i * 1.3) };
    assert_true(shape_add_part(&s, ring, CORNERS, false, &f));
    struct clean_ask ask = clean_ask_plain("scrawl");
    struct clean_done done = { 0 };
    assert_false(clean_shape(&s, &ask, &done, &f));
    assert_true(told(&f, "shape-broken",
                     "9000 corners and crosses itself more than 10000", "draw it anew"));
    shape_free(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sound_shape_is_left_as_it_is),
        cmocka_unit_test(a_small_crossing_is_undone_with_a_note),
        cmocka_unit_test(a_figure_of_eight_is_refused),
        cmocka_unit_test(a_refusal_says_where),
        cmocka_unit_test(slivers_and_pinholes_are_left_out),
        cmocka_unit_test(double_points_are_left_out),
        cmocka_unit_test(overlapping_parts_are_counted_once),
        cmocka_unit_test(a_walk_round_is_closed),
        cmocka_unit_test(a_walk_that_stops_short_is_refused),
        cmocka_unit_test(a_spike_of_the_receiver_is_left_out),
        cmocka_unit_test(a_spike_of_a_line_too),
        cmocka_unit_test(what_holds_no_ground_is_refused),
        cmocka_unit_test(a_narrow_corner_drawn_by_hand_is_no_spike),
        cmocka_unit_test(random_scrawls_come_out_sound_or_not_at_all),
        cmocka_unit_test(a_scribble_is_refused_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
