#include "handed_out.h"

#include "ground/gpx.h"

/* The published schema; tests/data/gpx-schema fetches it. */
#define VALIDATE "xmllint --noout --nonet --schema '" GPX_SCHEMA "' - 2>/dev/null"

static void a_small_one_byte_for_byte(void **state)
{
    (void)state;
    struct handed_out all;
    hand_out(&all);
    all.h.flag_count = 2;
    all.h.shapes = &all.named[3];
    all.h.shape_count = 1;
    char *text = written(gpx_write, &all.h);
    assert_string_equal(
        text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
              "<gpx version=\"1.1\" creator=\"Spinney\" "
              "xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
              "<metadata><name>Quill Creek &amp; co</name></metadata>\n"
              "<wpt lat=\"47.6002741\" lon=\"-87.4995935\"><name>01 opening 1</name>"
              "<desc>N 42\xc2\xb0 E, 130 ft</desc><type>opening</type></wpt>\n"
              "<wpt lat=\"47.6002741\" lon=\"-87.4991850\"><name>02 a &lt;b&gt; &amp; "
              "&quot;c&quot; &apos;d&apos; \\ \xc3\xa9 ??  ?]]&gt;</name>"
              "<type>trail</type></wpt>\n"
              "<rte><name>stake-out</name>\n"
              "<rtept lat=\"47.6002741\" lon=\"-87.4995935\"><name>01 opening "
              "1</name></rtept>\n"
              "<rtept lat=\"47.6002741\" lon=\"-87.4991850\"><name>02 a &lt;b&gt; &amp; "
              "&quot;c&quot; &apos;d&apos; \\ \xc3\xa9 ??  ?]]&gt;</name></rtept>\n"
              "</rte>\n"
              "<trk><name>opening 1</name><type>opening</type>\n"
              "<trkseg>\n"
              "<trkpt lat=\"47.6000000\" lon=\"-87.5000000\"></trkpt>\n"
              "<trkpt lat=\"47.6000000\" lon=\"-87.4990000\"></trkpt>\n"
              "<trkpt lat=\"47.6010000\" lon=\"-87.4995000\"></trkpt>\n"
              "<trkpt lat=\"47.6000000\" lon=\"-87.5000000\"></trkpt>\n"
              "</trkseg>\n"
              "</trk>\n"
              "</gpx>\n");
    free(text);
    take_back(&all);
}

static size_t count_of(const char *text, const char *word)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, word)); at++)
        count++;
    return count;
}

static void all_of_it_obeys_the_schema(void **state)
{
    (void)state;
    struct handed_out all;
    hand_out(&all);
    char *text = written(gpx_write, &all.h);
    assert_int_equal(checked_by(VALIDATE, text), 0);
    assert_int_equal(count_of(text, "<wpt "), 3 + 3);
    assert_int_equal(count_of(text, "<trkseg>"), 2 + 4 + 1);
    /* The schema does bite: a waypoint behind the tracks, and a latitude of 97. */
    assert_int_not_equal(
        checked_by(
            VALIDATE,
            "<gpx version='1.1' creator='x' "
            "xmlns='http://www.topografix.com/GPX/1/1'><trk/><wpt lat='1' lon='1'/>"
            "</gpx>"),
        0);
    free(text);
    text = written(gpx_write, &all.h);
    memcpy(strstr(text, "lat=\"47"), "lat=\"97", 7);
    assert_int_not_equal(checked_by(VALIDATE, text), 0);
    free(text);
    take_back(&all);
}

static void hardly_anything_is_a_file_too(void **state)
{
    (void)state;
    struct handed_out all;
    hand_out(&all);
    struct handout none = { .lonlat = on_the_lake };
    char *text = written(gpx_write, &none);
    assert_int_equal(checked_by(VALIDATE, text), 0);
    free(text);
    none.flags = all.flags, none.flag_count = 1, none.route = "x", none.title = "";
    text = written(gpx_write, &none);
    assert_int_equal(checked_by(VALIDATE, text), 0);
    assert_null(strstr(text, "<rte>"));
    free(text);
    take_back(&all);
}

static bool far_west(void *owner, struct point at, double *lon, double *lat)
{
    (void)owner;
    *lon = at.x, *lat = at.y;
    return true;
}

static void many_flags_sort_by_name_and_180_is_west(void **state)
{
    (void)state;
    static struct handout_flag flags[120];
    for (int i = 0; i < 120; i++)
        flags[i] = (struct handout_flag){ "f", NULL, NULL, { 179.99999999, -89 } };
    struct handout h = { .flags = flags, .flag_count = 120, .lonlat = far_west };
    char *text = written(gpx_write, &h);
    assert_int_equal(checked_by(VALIDATE, text), 0);
    assert_non_null(strstr(text, "<name>007 f</name>"));
    assert_non_null(strstr(text, "lon=\"-180.0000000\""));
    free(text);
}

static void places_off_the_globe_and_same_bytes(void **state)
{
    (void)state;
    struct handed_out all;
    hand_out(&all);
    check_faults_and_bytes(gpx_write, &all);
    take_back(&all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_one_byte_for_byte),
        cmocka_unit_test(all_of_it_obeys_the_schema),
        cmocka_unit_test(hardly_anything_is_a_file_too),
        cmocka_unit_test(many_flags_sort_by_name_and_180_is_west),
        cmocka_unit_test(places_off_the_globe_and_same_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
