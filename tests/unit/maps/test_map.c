/* The five kinds of map, and what may be wrong with each. */
#include <cpl_vsi.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include "ground.h"
#include "ground/map.h"

void RegisterOGRShape(void);
void RegisterOGRGeoPackage(void);

static const struct map_ask plainly = { 0 };

#define SQUARE                                                                            \
    "[[-87.50,47.60],[-87.49,47.60],[-87.49,47.61],[-87.50,47.61],[-87.50,47.60]]"

static const char GEOJSON[] =
    "{\"type\":\"FeatureCollection\",\"features\":["
    "{\"type\":\"Feature\",\"properties\":{\"name\":\"Bench aspen\",\"kind\":\"stand\","
    "\"age\":42,\"note\":\"wet \\u001b[31m in spring\"},"
    "\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[" SQUARE "]}},"
    "{\"type\":\"Feature\",\"properties\":{\"Name\":\"Creek\"},"
    "\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[-87.5,47.6],[-87.49,47.61]]}},"
    "{\"type\":\"Feature\",\"properties\":{\"type\":\"den tree\"},"
    "\"geometry\":{\"type\":\"Point\",\"coordinates\":[-87.495,47.605,612]}},"
    "{\"type\":\"Feature\",\"properties\":{\"name\":\"lost\"},\"geometry\":null}]}";

static void geojson_is_read(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map *map = read_text("farm.geojson", GEOJSON, plainly, &f);
    assert_non_null(map);
    assert_int_equal(map->count, 3);
    assert_int_equal(map->without_shape, 1);
    assert_string_equal(map->datum, "");
    const struct map_feature *a = &map->features[0];
    assert_string_equal(a->name, "Bench aspen");
    assert_string_equal(a->kind, "stand");
    assert_int_equal(a->degrees.kind, SHAPE_AREAS);
    assert_int_equal(a->attribute_count, 4);
    assert_string_equal(a->attributes[2].field, "age");
    assert_string_equal(a->attributes[2].text, "42");
    assert_string_equal(a->attributes[3].text, "wet ?[31m in spring");
    assert_string_equal(map->features[1].name, "Creek");
    assert_int_equal(map->features[1].degrees.kind, SHAPE_LINES);
    assert_null(map->features[2].name);
    assert_string_equal(map->features[2].kind, "den tree");
    assert_int_equal(map->features[2].degrees.kind, SHAPE_POINTS);
    struct position middle = map_middle(map);
    assert_true(fabs(middle.lon + 87.495) < 1e-9 && fabs(middle.lat - 47.605) < 1e-9);
    map_free(map);
}

static void a_feature_becomes_a_shape_in_feet(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map *map = read_text("farm.geojson", GEOJSON, plainly, &f);
    struct frame *frame = frame_new(map_middle(map), &f);
    struct clean_ask ask = clean_ask_plain(NULL);
    struct clean_done done = { 0 };
    struct shape s;
    assert_true(map_shape(map, 0, frame, &ask, false, &s, &done, &f));
    assert_string_equal(done.words, "");
    assert_int_equal(s.point_count, 4);
    /* 0.01 degree square at 47.6 N: about 751.7 m by 1111.9 m. */
    assert_true(fabs(shape_area(&s) / 43560 - 206.6) < 1);
    assert_true(fabs(shape_area(&s) / frame_area(frame, &s) - 1) < 1e-6);
    shape_free(&s);
    frame_free(frame);
    map_free(map);
}

static void a_ring_that_is_not_closed_is_closed_with_a_note(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map *map = read_text(
        "x.geojson",
        "{\"type\":\"Polygon\",\"coordinates\":[[[-87.50,47.60],[-87.49,47.60],"
        "[-87.49,47.61],[-87.50,47.61]]]}",
        plainly, &f);
    assert_non_null(map);
    struct frame *frame = frame_new(map_middle(map), &f);
    struct clean_ask ask = clean_ask_plain(NULL);
    struct clean_done done = { 0 };
    struct shape s;
    assert_true(map_shape(map, 0, frame, &ask, false, &s, &done, &f));
    assert_string_equal(done.words, "a gap of 3,648 ft closed; less than 0.01 ac moved");
    assert_int_equal(s.point_count, 4);
    shape_free(&s);
    frame_free(frame);
    map_free(map);
}

static const char GPX[] =
    "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"x\" "
    "xmlns=\"http://www.topografix.com/GPX/1/1\">"
    "<wpt lat=\"47.6\" lon=\"-87.5\"><name>NW corner</name><type>corner</type></wpt>"
    "<rte><name>way in</name><rtept lat=\"47.6\" lon=\"-87.5\"/>"
    "<rtept lat=\"47.61\" lon=\"-87.5\"/></rte>"
    "<trk><name>round the stand</name><trkseg>"
    "<trkpt lat=\"47.600\" lon=\"-87.500\"><ele>183</ele></trkpt>"
    "<trkpt lat=\"47.600\" lon=\"-87.499\"/><trkpt lat=\"47.601\" lon=\"-87.499\"/>"
    "<trkpt lat=\"47.601\" lon=\"-87.500\"/><trkpt lat=\"47.60001\" lon=\"-87.500\"/>"
    "</trkseg></trk></gpx>";

static void gpx_is_read_once_each(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map *map = read_text("walk.GPX", GPX, plainly, &f);
    assert_non_null(map);
    assert_int_equal(map->count, 3);
    assert_string_equal(map->features[0].name, "NW corner");
    assert_string_equal(map->features[0].kind, "corner");
    assert_string_equal(map->features[0].layer, "waypoints");
    assert_string_equal(map->features[1].layer, "routes");
    assert_string_equal(map->features[2].layer, "tracks");
    struct frame *frame = frame_new(map_middle(map), &f);
    struct clean_ask ask = clean_ask_plain(NULL);
    struct clean_done done = { 0 };
    struct shape s;
    assert_true(map_shape(map, 2, frame, &ask, true, &s, &done, &f));
    assert_int_equal(s.kind, SHAPE_AREAS);
    /* As wide as a phone is off: closed without a word. */
    assert_true(fabs(done.gap - 3.65) < 0.05 && !done.words[0]);
    assert_true(fabs(shape_area(&s) / frame_area(frame, &s) - 1) < 1e-6);
    shape_free(&s);
    frame_free(frame);
    map_free(map);
}

static const char KML[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?><kml xmlns=\"http://www.opengis.net/kml/2.2\">"
    "<Document><Folder><name>stands</name><Placemark><name>Bench aspen</name>"
    "<ExtendedData><Data name=\"kind\"><value>stand</value></Data></ExtendedData>"
    "<Polygon><outerBoundaryIs><LinearRing><coordinates>-87.5,47.6,0 -87.49,47.6,0 "
    "-87.49,47.61,0 -87.5,47.6,0</coordinates></LinearRing></outerBoundaryIs></Polygon>"
    "</Placemark></Folder></Document></kml>";

static void kml_is_read(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map *map = read_text("farm.kml", KML, plainly, &f);
    assert_non_null(map);
    assert_int_equal(map->count, 1);
    assert_string_equal(map->features[0].name, "Bench aspen");
    assert_string_equal(map->features[0].kind, "stand");
    assert_string_equal(map->features[0].layer, "stands");
    assert_int_equal(map->features[0].degrees.kind, SHAPE_AREAS);
    map_free(map);
}

/* ---- what GDAL itself writes ---- */

static OGRSpatialReferenceH system_of(int code)
{
    OGRSpatialReferenceH s = OSRNewSpatialReference(NULL);
    if (OSRImportFromEPSG(s, code) != OGRERR_NONE)
        abort();
    OSRSetAxisMappingStrategy(s, OAMS_TRADITIONAL_GIS_ORDER);
    return s;
}

/* One square at that corner, `wide` in the units of the system; `code` 0 for none. */
static void write_square(const char *driver, const char *path, int code, double x,
                         double y, double wide)
{
    GDALDriverH d = GDALGetDriverByName(driver);
    GDALDatasetH data = GDALCreate(d, path, 0, 0, 0, GDT_Unknown, NULL);
    OGRSpatialReferenceH system = code ? system_of(code) : NULL;
    OGRLayerH layer = GDALDatasetCreateLayer(data, "stands", system, wkbPolygon, NULL);
    OGRFieldDefnH field = OGR_Fld_Create("NAME", OFTString);
    OGRFeatureH feature;
    OGRGeometryH polygon = OGR_G_CreateGeometry(wkbPolygon);
    OGRGeometryH ring = OGR_G_CreateGeometry(wkbLinearRing);
    OGR_L_CreateField(layer, field, 1);
    for (int i = 0; i < 5; i++)
        OGR_G_AddPoint_2D(ring, x + wide * (i == 1 || i == 2),
                          y + wide * (i == 2 || i == 3));
    OGR_G_AddGeometryDirectly(polygon, ring);
    feature = OGR_F_Create(OGR_L_GetLayerDefn(layer));
    OGR_F_SetFieldString(feature, 0, "Bench aspen");
    OGR_F_SetGeometryDirectly(feature, polygon);
    if (OGR_L_CreateFeature(layer, feature) != OGRERR_NONE)
        abort();
    OGR_F_Destroy(feature);
    OGR_Fld_Destroy(field);
    if (system)
        OSRRelease(system);
    GDALClose(data);
}

static struct map_file made(const char *name, const char *path)
{
    vsi_l_offset length = 0;
    const void *data = VSIGetMemFileBuffer(path, &length, FALSE);
    return (struct map_file){ name, data, data ? (size_t)length : 0 };
}

static size_t shapefile(int code, double x, double y, double wide,
                        struct map_file files[4])
{
    RegisterOGRShape();
    VSIRmdirRecursive("/vsimem/made");
    write_square("ESRI Shapefile", "/vsimem/made/stands.shp", code, x, y, wide);
    files[0] = made("stands.shp", "/vsimem/made/stands.shp");
    files[1] = made("stands.shx", "/vsimem/made/stands.shx");
    files[2] = made("stands.dbf", "/vsimem/made/stands.dbf");
    files[3] = made("stands.prj", "/vsimem/made/stands.prj");
    return code ? 4 : 3;
}

/* 1,000 m square of UTM zone 16, NAD83: 247.1 ac, less the scale of the projection. */
static void a_shapefile_in_utm_is_turned_to_degrees(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map_file files[4];
    size_t count = shapefile(26916, 460000, 5272000, 1000, files);
    struct map *map = map_read(files, count, &plainly, &f);
    if (!map)
        told(&f, "none", "", "");
    assert_non_null(map);
    assert_string_equal(map->features[0].name, "Bench aspen");
    assert_non_null(strstr(map->datum, "UTM"));
    struct position middle = map_middle(map);
    assert_true(fabs(middle.lon + 87.526) < 0.01 && fabs(middle.lat - 47.604) < 0.01);
    struct frame *frame = frame_new(middle, &f);
    struct clean_ask ask = clean_ask_plain(NULL);
    struct clean_done done = { 0 };
    struct shape s;
    assert_true(map_shape(map, 0, frame, &ask, false, &s, &done, &f));
    /* Scale at 40 km from the middle of the zone: 0.9996 (1 + 40^2 / (2 6380^2)). */
    double scale = 0.9996 * (1 + 39.5 * 39.5 / (2 * 6380.0 * 6380.0));
    double acres = 1e6 / (scale * scale) / 4046.8564224;
    assert_true(fabs(shape_area(&s) / 43560 / acres - 1) < 1e-5);
    shape_free(&s);
    frame_free(frame);
    map_free(map);
}

static void a_shapefile_in_degrees_without_prj_is_read(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map_file files[4];
    size_t count = shapefile(0, -87.5, 47.6, 0.01, files);
    struct map *map = map_read(files, count, &plainly, &f);
    assert_non_null(map);
    assert_int_equal(map->count, 1);
    map_free(map);
}

static void projected_coordinates_without_prj_are_refused(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map_file files[4];
    shapefile(26916, 460000, 5272000, 1000, files);
    assert_null(map_read(files, 3, &plainly, &f));
    assert_true(told(&f, "map-datum",
                     "numbers like 460000, 5272000 in the map `stands.shp` are no degrees",
                     ".prj"));
}

static void an_old_datum_is_refused(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map_file files[4];
    size_t count = shapefile(26716, 460000, 5272000, 1000, files);
    assert_null(map_read(files, count, &plainly, &f));
    assert_true(told(&f, "map-datum", "1927", "degrees of WGS84"));
}

static void a_shapefile_that_is_not_whole_is_told(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct map_file files[4];
    shapefile(0, -87.5, 47.6, 0.01, files);
    assert_null(map_read(files, 1, &plainly, &f));
    assert_true(told(&f, "map-beside", ".shx is missing beside `stands.shp`", ".dbf"));
    fault_clear(&f);
    assert_null(map_read(files, 2, &plainly, &f));
    assert_true(told(&f, "map-beside", ".dbf is missing", ""));
    fault_clear(&f);
    files[1].length = 20;
    struct map *map = map_read(files, 3, &plainly, &f);
    assert_null(map);
    assert_true(told(&f, "map-damaged", "`stands.shp` cannot be read as a shapefile", ""));
}

static void a_geopackage_is_read(void **state)
{
    (void)state;
    struct fault f = { 0 };
    RegisterOGRGeoPackage();
    VSIRmdirRecursive("/vsimem/made");
    write_square("GPKG", "/vsimem/made/farm.gpkg", 4326, -87.5, 47.6, 0.01);
    struct map_file file = made("farm.gpkg", "/vsimem/made/farm.gpkg");
    struct map *map = map_read(&file, 1, &plainly, &f);
    assert_non_null(map);
    assert_string_equal(map->features[0].name, "Bench aspen");
    assert_string_equal(map->features[0].layer, "stands");
    assert_true(fabs(map->features[0].degrees.points[0].x + 87.5) < 0.011);
    map_free(map);
    /* Left in its two-file way of writing: whole, or not yet. */
    unsigned char *copy = malloc(file.length);
    assert_non_null(copy);
    memcpy(copy, file.data, file.length);
    copy[18] = copy[19] = 2;
    struct map_file two[] = { { "farm.gpkg", (const char *)copy, file.length },
                              { "farm.gpkg-wal", "", 0 } };
    map = map_read(two, 2, &plainly, &f);
    assert_non_null(map);
    map_free(map);
    two[1].length = 1;
    two[1].data = "x";
    assert_null(map_read(two, 2, &plainly, &f));
    assert_true(told(&f, "map-beside", "waits in `farm.gpkg-wal`", "close the program"));
    free(copy);
}

/* ---- what is refused ---- */

static void refused(const char *name, const char *text, struct map_ask ask,
                    const char *id, const char *words, const char *hint)
{
    struct fault f = { 0 };
    struct map *map = read_text(name, text, ask, &f);
    bool ok = !map && told(&f, id, words, hint);
    map_free(map);
    if (!ok)
        fail_msg("%s: %.60s", name, text);
}

#define FEATURE(geometry)                                                                 \
    "{\"type\":\"Feature\",\"properties\":{\"name\":\"it\",\"title\":\"x\"},\"geometry\":" \
    geometry "}"

static void other_kinds_are_refused_by_name(void **state)
{
    (void)state;
    static const char *const names[] = { "/vsicurl/http://a.example/x", "PG:dbname=x",
                                         "farm.vrt", "farm", "map.tif", ".gpx", "x.csv",
                                         "/vsizip/x", "WFS:http://a.example", "x.gml" };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        refused(names[i], GEOJSON, plainly, "map-kind", "is not called like a map",
                "maps end in .geojson");
    refused("farm.kmz", "", plainly, "map-kind", "farm.kmz", "unpack it first");
    refused("farm.dbf", "", plainly, "map-kind", "farm.dbf", "ends in .shp");
}

/* The name says the kind, and nothing in the file can call another reader. */
static void a_file_of_another_kind_is_refused(void **state)
{
    (void)state;
    static const char vrt[] =
        "<OGRVRTDataSource><OGRVRTLayer name=\"x\"><SrcDataSource>/etc/passwd"
        "</SrcDataSource></OGRVRTLayer></OGRVRTDataSource>";
    static const char *const names[] = { "x.geojson", "x.gpx", "x.kml", "x.gpkg" };
    for (size_t i = 0; i < 4; i++)
        refused(names[i], vrt, plainly, "map-damaged", "cannot be read as",
                "save it again");
    refused("x.geojson", GPX, plainly, "map-damaged", "cannot be read as GeoJSON", "");
    refused("x.gpx", GEOJSON, plainly, "map-damaged", "cannot be read as GPX", "");
    refused("x.geojson", "http://a.example/x.geojson", plainly, "map-damaged", "", "");
    refused("x.geojson", "{\"type\":\"Topology\",\"objects\":{}}", plainly, "map-damaged",
            "", "");
    assert_int_equal(GDALGetDriverCount() <= 5, 1);
}

static void a_broken_file_says_where(void **state)
{
    (void)state;
    refused("x.geojson", "", plainly, "map-empty", "`x.geojson` is an empty file", "");
    refused("x.geojson", "{\"type\":\"FeatureCollection\",\"features\":[]}", plainly,
            "map-empty", "there is nothing on the map `x.geojson`", "");
    refused("x.geojson", FEATURE("null"), plainly, "map-empty",
            "nothing in the map `x.geojson` says where it is", "");
    refused("x.geojson", "{\"type\":\"FeatureCollection\",\"features\":[}", plainly,
            "map-damaged", "`x.geojson` cannot be read as GeoJSON", "save it again");
    refused("x.gpx",
            "<?xml version=\"1.0\"?><gpx version=\"1.1\" "
            "xmlns=\"http://www.topografix.com/GPX/1/1\">\n<wpt lat=\"47\" lon=\"-87\">"
            "</gpx>",
            plainly, "map-damaged", "it is broken at line 2, column", "");
    char half[sizeof KML];
    memcpy(half, KML, sizeof half);
    half[sizeof half / 2] = '\0';
    refused("x.kml", half, plainly, "map-damaged", "cannot be read as KML", "");
}

static void a_place_where_it_cannot_be_is_refused(void **state)
{
    (void)state;
    refused("x.geojson", FEATURE("{\"type\":\"Point\",\"coordinates\":[47.6,-87.5]}"),
            plainly, "map-place", "it lies at longitude, latitude 47.6, -87.5, where no",
            "look swapped: longitude comes first");
    refused("x.geojson", FEATURE("{\"type\":\"Point\",\"coordinates\":[46.1,-95.5]}"),
            plainly, "map-place", "46.1, -95.5", "look swapped");
    refused("x.geojson", FEATURE("{\"type\":\"Point\",\"coordinates\":[-87.5,88]}"),
            plainly, "map-place", "where no wood grows", "");
    refused("x.geojson", FEATURE("{\"type\":\"Point\",\"coordinates\":[460000,5272000]}"),
            plainly, "map-datum", "460000, 5272000 in the map `x.geojson` are no degrees",
            "degrees of WGS84");
    struct fault f = { 0 };
    struct map *map =
        read_text("x.geojson", FEATURE("{\"type\":\"Point\",\"coordinates\":[47.6,-87.5]}"),
                  (struct map_ask){ .swapped = true }, &f);
    assert_non_null(map);
    assert_true(map->features[0].degrees.points[0].x == -87.5);
    map_free(map);
}

static void a_field_that_is_not_there_is_refused(void **state)
{
    (void)state;
    const char *text = FEATURE("{\"type\":\"Point\",\"coordinates\":[-87.5,47.6]}");
    struct fault f = { 0 };
    refused("x.geojson", text, (struct map_ask){ .name_field = "titel" }, "map-field",
            "has a field `titel`", "did you mean `title`?");
    struct map *map =
        read_text("x.geojson", text, (struct map_ask){ .name_field = "TITLE" }, &f);
    assert_non_null(map);
    assert_string_equal(map->features[0].name, "x");
    map_free(map);
}

static void mixed_features_are_refused(void **state)
{
    (void)state;
    refused("x.geojson",
            FEATURE("{\"type\":\"GeometryCollection\",\"geometries\":["
                    "{\"type\":\"Point\",\"coordinates\":[-87.5,47.6]},"
                    "{\"type\":\"LineString\",\"coordinates\":[[-87.5,47.6],[-87.4,47.6]]}]}"),
            plainly, "map-shape", "it mixes points, lines and areas", "of their own");
}

static void another_property_is_far(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct clean_ask ask = clean_ask_plain(NULL);
    struct clean_done done = { 0 };
    struct shape s;
    struct map *map = read_text("farm.geojson", GEOJSON, plainly, &f);
    struct frame *far = frame_new((struct position){ -90, 44 }, &f);
    assert_false(map_shape(map, 0, far, &ask, false, &s, &done, &f));
    assert_true(told(&f, "map-far", "on the map `farm.geojson`, `Bench aspen` lies 2",
                     "another property"));
    assert_non_null(strstr(f.message, "miles from the middle of the property"));
    frame_free(far);
    map_free(map);
    /* Both ways round a place where woods grow: only the frame can tell. */
    fault_clear(&f);
    map = read_text("x.geojson", FEATURE("{\"type\":\"Point\",\"coordinates\":[47.6,12.5]}"),
                    plainly, &f);
    assert_non_null(map);
    struct frame *near = frame_new((struct position){ 12.5, 47.6 }, &f);
    assert_false(map_shape(map, 0, near, &ask, false, &s, &done, &f));
    assert_true(told(&f, "map-far", "`it` lies", "look swapped"));
    frame_free(near);
    map_free(map);
}

static void too_much_is_refused(void **state)
{
    (void)state;
    struct fault f = { 0 };
    size_t size = 600000 * 16 + 200, at = 0;
    char *text = malloc(size);
    assert_non_null(text);
    at += (size_t)sprintf(text, "{\"type\":\"LineString\",\"coordinates\":[");
    for (int i = 0; i < 600000; i++)
        at += (size_t)sprintf(text + at, "%s[-87,%d]", i ? "," : "", 40 + i % 2);
    strcpy(text + at, "]}");
    assert_null(read_text("x.geojson", text, plainly, &f));
    assert_true(told(&f, "map-many", "more than 500000 points", "cut the property out"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(geojson_is_read),
        cmocka_unit_test(a_feature_becomes_a_shape_in_feet),
        cmocka_unit_test(a_ring_that_is_not_closed_is_closed_with_a_note),
        cmocka_unit_test(gpx_is_read_once_each),
        cmocka_unit_test(kml_is_read),
        cmocka_unit_test(a_shapefile_in_utm_is_turned_to_degrees),
        cmocka_unit_test(a_shapefile_in_degrees_without_prj_is_read),
        cmocka_unit_test(projected_coordinates_without_prj_are_refused),
        cmocka_unit_test(an_old_datum_is_refused),
        cmocka_unit_test(a_shapefile_that_is_not_whole_is_told),
        cmocka_unit_test(a_geopackage_is_read),
        cmocka_unit_test(other_kinds_are_refused_by_name),
        cmocka_unit_test(a_file_of_another_kind_is_refused),
        cmocka_unit_test(a_broken_file_says_where),
        cmocka_unit_test(a_place_where_it_cannot_be_is_refused),
        cmocka_unit_test(a_field_that_is_not_there_is_refused),
        cmocka_unit_test(mixed_features_are_refused),
        cmocka_unit_test(another_property_is_far),
        cmocka_unit_test(too_much_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
