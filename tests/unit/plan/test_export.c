#include <jansson.h>

#include "plan_fixture.h"

#include "plan/export.h"
#include "plan/outlook.h"
#include "plan/waiting.h"
#include "plan/ways_told.h"

static json_t *exported(struct bench *b)
{
    struct buf out;
    struct fault f = { 0 };
    struct sources *sources = sources_new();
    buf_init(&out);
    assert_true(plan_json(b->plan, sources, &out, &f));
    json_error_t error;
    json_t *root = json_loadb(out.data, out.length, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(root);
    buf_clear(&out);
    sources_free(sources);
    return root;
}

static void the_minimum_of_the_plan_is_there_in_order(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t stand = plan_add_stand(b.plan, "Bench aspen", SPAN_NONE);
    struct qty area = measure(&b, 3.4, "ac");
    plan_set_figure(b.plan, &b.plan->stands[stand].figures, "area", "area", area);
    graph_release(b.graph, area);
    struct qty cut = measure(&b, 3.1, "ac");
    plan_set_figure(b.plan, &b.plan->stands[stand].ground, "cut", "cut over", cut);
    graph_release(b.graph, cut);
    plan_add_row(b.plan, stand, "bigtooth aspen");
    uint32_t act = bench_act(&b, "bench-aspen/fell", 20);
    b.plan->acts[act].stand = stand;
    schedule(&b);
    json_t *root = exported(&b);
    static const char *const keys[] = { "property", "region", "county", "walked", "starts",
                                        "stands", "acts", "finish", "totals", "warnings",
                                        "unplaced", "waiting" };
    size_t i = 0;
    const char *key;
    json_t *value;
    json_object_foreach(root, key, value)
    {
        assert_true(i < sizeof keys / sizeof keys[0]);
        assert_string_equal(key, keys[i++]);
    }
    assert_int_equal(i, sizeof keys / sizeof keys[0]);
    json_t *first = json_array_get(json_object_get(root, "acts"), 0);
    assert_string_equal(json_string_value(json_object_get(first, "id")), "bench-aspen/fell");
    assert_string_equal(json_string_value(json_object_get(first, "stand")), "Bench aspen");
    assert_string_equal(json_string_value(json_object_get(first, "start")), "2026-10-15");
    json_t *hours = json_object_get(json_object_get(first, "quantities"), "hours");
    assert_true(json_number_value(json_object_get(hours, "value")) == 20);
    assert_string_equal(json_string_value(json_object_get(hours, "unit")), "h");
    json_t *in = json_array_get(json_object_get(root, "stands"), 0);
    assert_true(json_number_value(json_object_get(json_object_get(in, "area"), "value")) == 3.4);
    json_t *over = json_object_get(json_object_get(in, "ground"), "cut");
    assert_true(json_number_value(json_object_get(over, "value")) == 3.1);
    json_decref(root);
    bench_close(&b);
}

static void what_a_visit_may_ask_for_is_there(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    plan_add_stand(b.plan, "Bench aspen", SPAN_NONE);
    for (int i = 0; i < 2; i++)
        assert_non_null(plan_add_waiting(b.plan, i ? "gate" : "fence", "Fence", "look"));
    plan_set_text(b.plan, &b.plan->waiting[0].when, "less than 5,000 stems/ac");
    json_t *root = exported(&b);
    json_t *list = json_object_get(root, "waiting");
    assert_int_equal(json_array_size(list), 2);
    json_t *fence = json_array_get(list, 0), *gate = json_array_get(list, 1);
    assert_string_equal(json_string_value(json_object_get(fence, "act")), "fence");
    assert_string_equal(json_string_value(json_object_get(fence, "visit")), "look");
    assert_string_equal(json_string_value(json_object_get(fence, "when")),
                        "less than 5,000 stems/ac");
    assert_true(json_is_null(json_object_get(gate, "when")));
    json_decref(root);
    bench_close(&b);
}

static void what_will_stand_in_a_stand_is_there(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t stand = plan_add_stand(b.plan, "Bench aspen", SPAN_NONE);
    struct outlook_time *now = outlook_add_time(b.plan, stand, "now");
    assert_non_null(now);
    struct outlook_time *time = outlook_add_time(b.plan, stand, "year 5");
    assert_non_null(time);
    time->year = 5;
    time->season = 2031;
    plan_set_text(b.plan, &time->use, "deer: cover");
    struct qty height = measure(&b, 13, "ft");
    plan_set_figure(b.plan, &time->figures, "height", "height", height);
    plan_set_figure(b.plan, &time->figures, "mean_height", "mean", QTY_NONE);
    graph_release(b.graph, height);
    struct outlook_stage *stage = outlook_add_stage(b.plan, stand, "bench-aspen/fell");
    assert_non_null(stage);
    stage->years[OUTLOOK_FIRST_SEASON] = 2027;
    schedule(&b);
    json_t *root = exported(&b);
    json_t *in = json_array_get(json_object_get(root, "stands"), 0);
    json_t *list = json_object_get(in, "expected");
    assert_int_equal(json_array_size(list), 2);
    json_t *first = json_array_get(list, 0), *second = json_array_get(list, 1);
    assert_string_equal(json_string_value(json_object_get(first, "when")), "now");
    assert_true(json_is_null(json_object_get(first, "year")));
    assert_true(json_is_null(json_object_get(first, "use")));
    assert_int_equal(json_integer_value(json_object_get(second, "year")), 5);
    assert_int_equal(json_integer_value(json_object_get(second, "season")), 2031);
    assert_string_equal(json_string_value(json_object_get(second, "use")), "deer: cover");
    json_t *told = json_object_get(second, "height");
    assert_true(json_number_value(json_object_get(told, "value")) == 13);
    assert_true(json_is_null(json_object_get(second, "mean_height")));
    json_t *stages = json_object_get(in, "stages");
    assert_int_equal(json_array_size(stages), 1);
    json_t *course = json_array_get(stages, 0);
    assert_string_equal(json_string_value(json_object_get(course, "act")),
                        "bench-aspen/fell");
    assert_int_equal(json_integer_value(json_object_get(course, "first_season")), 2027);
    assert_true(json_is_null(json_object_get(course, "next_cut")));
    json_decref(root);
    bench_close(&b);
}

static void what_could_not_be_placed_is_listed_with_its_reason(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 5);
    b.plan->acts[act].open = yearly_none();
    schedule(&b);
    json_t *root = exported(&b);
    json_t *list = json_object_get(root, "unplaced");
    assert_int_equal(json_array_size(list), 1);
    json_t *row = json_array_get(list, 0);
    assert_string_equal(json_string_value(json_object_get(row, "act")), "a/cut");
    assert_true(json_string_length(json_object_get(row, "reason")) > 0);
    json_t *written = json_array_get(json_object_get(root, "acts"), 0);
    assert_true(json_is_null(json_object_get(written, "start")));
    json_decref(root);
    bench_close(&b);
}

static void ways_out_of_a_stand_are_there(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t bare = plan_add_stand(b.plan, "Knoll", SPAN_NONE);
    uint32_t stand = plan_add_stand(b.plan, "Bench aspen", SPAN_NONE);
    uint32_t act = bench_act(&b, "bench-aspen/rest", 20);
    struct ways_row *row = ways_add_row(b.plan, stand, WAYS_OPENINGS, act, "Town road");
    assert_non_null(row);
    ways_set_number(b.plan, row, "number", 1);
    ways_set_number(b.plan, row, "ways_out", 2);
    struct qty area = measure(&b, 0.03, "ac");
    plan_set_figure(b.plan, &row->figures, "area", "area", area);
    plan_set_figure(b.plan, &ways_of_stand(b.plan, stand)->figures, "opened", "opened", area);
    graph_release(b.graph, area);
    assert_non_null(ways_add_row(b.plan, stand, WAYS_DEAD_ENDS, act, "60 ft N of opening 1"));
    assert_non_null(ways_add_row(b.plan, stand, WAYS_CANDIDATES, act, ""));
    json_t *root = exported(&b), *stands = json_object_get(root, "stands");
    assert_true(json_is_null(json_object_get(json_array_get(stands, bare), "ways_out")));
    json_t *told = json_object_get(json_array_get(stands, stand), "ways_out");
    assert_true(json_number_value(json_object_get(json_object_get(told, "opened"), "value")) ==
                0.03);
    json_t *first = json_array_get(json_object_get(told, "openings"), 0);
    assert_string_equal(json_string_value(json_object_get(first, "act")), "bench-aspen/rest");
    assert_string_equal(json_string_value(json_object_get(first, "shunned")), "Town road");
    assert_true(json_number_value(json_object_get(first, "ways_out")) == 2);
    assert_true(json_number_value(json_object_get(json_object_get(first, "area"), "value")) ==
                0.03);
    json_t *stop = json_array_get(json_object_get(told, "dead_ends"), 0);
    assert_string_equal(json_string_value(json_object_get(stop, "where")),
                        "60 ft N of opening 1");
    json_t *candidate = json_array_get(json_object_get(told, "candidates"), 0);
    assert_int_equal(json_object_size(candidate), 1);
    json_decref(root);
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_minimum_of_the_plan_is_there_in_order),
        cmocka_unit_test(what_a_visit_may_ask_for_is_there),
        cmocka_unit_test(what_will_stand_in_a_stand_is_there),
        cmocka_unit_test(ways_out_of_a_stand_are_there),
        cmocka_unit_test(what_could_not_be_placed_is_listed_with_its_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
