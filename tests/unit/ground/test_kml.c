#include "handed_out.h"

#include "ground/kml.h"

static void a_small_one_byte_for_byte(void **state)
{
    (void)state;
    struct handed_out all;
    hand_out(&all);
    all.h.flag_count = 2;
    all.h.shapes = &all.named[3];
    all.h.shape_count = 1;
    char *text = written(kml_write, &all.h);
    assert_string_equal(
        text,
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>\n"
        "<name>Quill Creek &amp; co</name>\n"
        "<Folder>\n<name>Flags</name>\n"
        "<Placemark>\n<name>1 opening 1</name>\n"
        "<description>N 42\xc2\xb0 E, 130 ft</description>\n"
        "<Point><coordinates>-87.4995935,47.6002741</coordinates></Point>\n"
        "</Placemark>\n"
        "<Placemark>\n<name>2 a &lt;b&gt; &amp; &quot;c&quot; &apos;d&apos; \\ \xc3\xa9 "
        "??  ?]]&gt;</name>\n"
        "<Point><coordinates>-87.4991850,47.6002741</coordinates></Point>\n"
        "</Placemark>\n"
        "<Placemark>\n<name>stake-out</name>\n"
        "<LineString><coordinates>-87.4995935,47.6002741 -87.4991850,47.6002741"
        "</coordinates></LineString>\n"
        "</Placemark>\n"
        "</Folder>\n"
        "<Folder>\n<name>Ground</name>\n"
        "<Placemark>\n<name>opening 1</name>\n"
        "<Polygon><outerBoundaryIs><LinearRing><coordinates>"
        "-87.5000000,47.6000000 -87.4990000,47.6000000 -87.4995000,47.6010000 "
        "-87.5000000,47.6000000</coordinates></LinearRing>\n"
        "</outerBoundaryIs>\n</Polygon>\n"
        "</Placemark>\n"
        "</Folder>\n"
        "</Document>\n</kml>\n");
    free(text);
    take_back(&all);
}

static void holes_are_in_the_ring_that_holds_them(void **state)
{
    (void)state;
    struct handed_out all;
    hand_out(&all);
    all.h.flag_count = 0;
    all.h.shapes = &all.named[1];
    all.h.shape_count = 1;
    char *text = written(kml_write, &all.h);
    assert_int_equal(checked_by("xmllint --noout --nonet - 2>/dev/null", text), 0);
    assert_non_null(strstr(text, "<MultiGeometry>"));
    const char *second = strstr(text, "</Polygon>");
    const char *hole = strstr(text, "<innerBoundaryIs>");
    assert_non_null(second);
    assert_true(hole && hole < second);
    /* The hole at the west rim, turned clockwise: (0, 50), (10, 60), (10, 40). */
    assert_memory_equal(strstr(hole, "<coordinates>") + strlen("<coordinates>"),
                        "-87.5000000,47.6001371 -87.4999593,47.6001645 "
                        "-87.4999593,47.6001096 -87.5000000,47.6001371<",
                        4 * 22 + 4);
    hole = strstr(second, "<innerBoundaryIs>");
    assert_non_null(hole);
    assert_null(strstr(hole + 1, "<innerBoundaryIs>")); /* the third lies in nothing */
    assert_null(strstr(text, "Flags"));
    free(text);
    take_back(&all);
}

static void all_of_it_is_well_formed(void **state)
{
    (void)state;
    struct handed_out all;
    hand_out(&all);
    char *text = written(kml_write, &all.h);
    assert_int_equal(checked_by("xmllint --noout --nonet - 2>/dev/null", text), 0);
    assert_null(strstr(text, "nothing"));
    free(text);
    struct handout none = { .lonlat = on_the_lake };
    text = written(kml_write, &none);
    assert_int_equal(checked_by("xmllint --noout --nonet - 2>/dev/null", text), 0);
    free(text);
    check_faults_and_bytes(kml_write, &all);
    take_back(&all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_one_byte_for_byte),
        cmocka_unit_test(holes_are_in_the_ring_that_holds_them),
        cmocka_unit_test(all_of_it_is_well_formed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
