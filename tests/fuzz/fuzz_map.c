/* Throws odd bytes at the readers of maps and at the mending of what they find. The first
 * byte says which kind of map: g GeoJSON, x GPX, k KML, p GeoPackage, s a shapefile, whose
 * files stand behind one another, each behind two bytes of its length. Every input is
 * refused with a fault, or gives features that are somewhere, in plain text, and whose
 * shapes are refused or sound. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/utf8.h"
#include "ground/map.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check(bool good)
{
    if (!good)
        abort();
}

static void check_text(const char *text)
{
    size_t left = text ? strlen(text) : 0;
    check(left <= 3 * MAP_TEXT_MOST);
    while (left > 0) {
        uint32_t code;
        size_t step = utf8_next(text, left, &code);
        check(code != UTF8_BAD && !utf8_steers(code));
        text += step;
        left -= step;
    }
}

static void check_shape(const struct map *map, size_t i, const struct frame *frame)
{
    struct fault f = { .id = NULL };
    struct clean_ask ask = clean_ask_plain(NULL);
    struct clean_done done = { .crossed = false };
    struct shape s;
    bool ok = map_shape(map, i, frame, &ask, i % 2 == 1, &s, &done, &f);
    check(ok != fault_is_set(&f));
    check(ok ? !shape_is_empty(&s) : shape_is_empty(&s));
    if (ok && s.kind == SHAPE_AREAS)
        check(isfinite(shape_area(&s)) && shape_area(&s) > 0 &&
              done.share <= ask.most_moved);
    shape_free(&s);
}

static void check_map(const struct map *map)
{
    struct fault f = { .id = NULL };
    check(map->count > 0);
    struct frame *frame = frame_new(map_middle(map), &f);
    for (size_t i = 0; i < map->count; i++) {
        const struct map_feature *feature = &map->features[i];
        check_text(feature->name);
        check_text(feature->kind);
        check_text(feature->layer);
        for (size_t k = 0; k < feature->attribute_count; k++) {
            check_text(feature->attributes[k].field);
            check_text(feature->attributes[k].text);
        }
        if (frame && i < 20)
            check_shape(map, i, frame);
    }
    frame_free(frame);
}

/* Cuts the parts of a shapefile out of the input; how many. */
static size_t parts_of(const char *data, size_t size, struct map_file *files)
{
    static const char *const names[] = { "x.shp", "x.shx", "x.dbf", "x.prj", "x.cpg" };
    size_t count = 0;
    while (count < 5 && size >= 2) {
        size_t length = (size_t)(unsigned char)data[0] * 256 + (unsigned char)data[1];
        data += 2;
        size -= 2;
        length = length < size ? length : size;
        files[count] = (struct map_file){ names[count], data, length };
        data += length;
        size -= length;
        count++;
    }
    return count;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char kinds[] = "gxkp";
    static const char *const names[] = { "x.geojson", "x.gpx", "x.kml", "x.gpkg" };
    struct fault f = { .id = NULL };
    struct map_ask ask = { .swapped = false };
    struct map_file files[5];
    const char *kind = size > 0 ? strchr(kinds, data[0]) : NULL;
    size_t count = 1;
    if (size == 0 || data[0] == '\0' || (!kind && data[0] != 's'))
        return 0;
    const char *rest = (const char *)data + 1;
    if (kind)
        files[0] = (struct map_file){ names[kind - kinds], rest, size - 1 };
    else
        count = parts_of(rest, size - 1, files);
    if (count == 0)
        return 0;
    struct map *map = map_read(files, count, &ask, &f);
    check((map == NULL) == fault_is_set(&f));
    if (map)
        check_map(map);
    map_free(map);
    return 0;
}
