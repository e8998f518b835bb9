#include "handed_out.h"

#include <jansson.h>

#include "ground/geojson.h"

static const char *text_of(const json_t *object, const char *key)
{
    return json_string_value(json_object_get(object, key));
}

static double at(const json_t *position, size_t axis)
{
    return json_number_value(json_array_get(position, axis));
}

static void check_position(const json_t *p)
{
    assert_int_equal(json_array_size(p), 2);
    assert_true(at(p, 0) < -87 && at(p, 0) > -88);
    assert_true(at(p, 1) > 47 && at(p, 1) < 48);
}

/* RFC 7946, 3.1.6: four positions or more, the last the first; the right-hand rule. */
static void check_ring(const json_t *ring, bool outer)
{
    size_t count = json_array_size(ring);
    double twice = 0;
    assert_true(count >= 4);
    assert_true(json_equal(json_array_get(ring, 0), json_array_get(ring, count - 1)));
    for (size_t i = 0; i + 1 < count; i++) {
        json_t *a = json_array_get(ring, i), *b = json_array_get(ring, i + 1);
        check_position(a);
        twice +=
            (at(a, 0) + 87.5) * (at(b, 1) - 47.6) - (at(b, 0) + 87.5) * (at(a, 1) - 47.6);
    }
    assert_int_equal(twice > 0, outer);
}

static void check_polygon(const json_t *rings, size_t count)
{
    assert_int_equal(json_array_size(rings), count);
    for (size_t i = 0; i < count; i++)
        check_ring(json_array_get(rings, i), i == 0);
}

static json_t *read_back(const struct handout *h)
{
    char *text = written(geojson_write, h);
    json_error_t error;
    json_t *all = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(all);
    assert_string_equal(text_of(all, "type"), "FeatureCollection");
    assert_null(json_object_get(all, "crs"));
    free(text);
    return all;
}

static const json_t *geometry(const json_t *all, size_t index, const char *type)
{
    json_t *feature = json_array_get(json_object_get(all, "features"), index);
    json_t *shape = json_object_get(feature, "geometry");
    assert_string_equal(text_of(feature, "type"), "Feature");
    assert_string_equal(text_of(shape, "type"), type);
    return json_object_get(shape, "coordinates");
}

static const json_t *properties(const json_t *all, size_t index)
{
    return json_object_get(json_array_get(json_object_get(all, "features"), index),
                           "properties");
}

static void what_was_handed_out_is_read_back(void **state)
{
    (void)state;
    struct handed_out given;
    hand_out(&given);
    json_t *all = read_back(&given.h);
    assert_int_equal(json_array_size(json_object_get(all, "features")), 3 + 1 + 4);
    const json_t *flag = geometry(all, 2, "Point");
    assert_true(fabs(at(flag, 0) + 87.499) < 1e-12 && fabs(at(flag, 1) - 47.599) < 1e-12);
    assert_string_equal(text_of(properties(all, 0), "note"), "N 42\xc2\xb0 E, 130 ft");
    assert_string_equal(text_of(properties(all, 1), "name"),
                        "a <b> & \"c\" 'd' \\ \xc3\xa9 ??  ?]]>");
    assert_int_equal(json_integer_value(json_object_get(properties(all, 2), "number")),
                     3);
    assert_null(json_object_get(properties(all, 1), "note"));
    assert_int_equal(json_array_size(geometry(all, 3, "LineString")), 3);
    assert_int_equal(json_array_size(geometry(all, 4, "MultiLineString")), 2);
    const json_t *stand = geometry(all, 5, "MultiPolygon");
    assert_int_equal(json_array_size(stand), 2);
    check_polygon(json_array_get(stand, 0), 2);
    check_polygon(json_array_get(stand, 1), 2);
    assert_int_equal(json_array_size(geometry(all, 6, "MultiPoint")), 3);
    check_polygon(geometry(all, 7, "Polygon"), 1);
    assert_string_equal(text_of(properties(all, 7), "kind"), "opening");
    json_decref(all);
    check_faults_and_bytes(geojson_write, &given);
    take_back(&given);
}

static void an_empty_collection_is_one(void **state)
{
    (void)state;
    struct handout none = { .lonlat = on_the_lake };
    json_t *all = read_back(&none);
    assert_int_equal(json_array_size(json_object_get(all, "features")), 0);
    json_decref(all);
    struct handout_flag one = { "a", NULL, NULL, { 1, 1 } };
    none.flags = &one, none.flag_count = 1, none.route = "walk";
    all = read_back(&none);
    assert_int_equal(json_array_size(json_object_get(all, "features")), 1);
    json_decref(all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_handed_out_is_read_back),
        cmocka_unit_test(an_empty_collection_is_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
