/* The files of one map, as GDAL finds them: copies in memory under names of our own. */
#include <cpl_vsi.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/fault.h"
#include "ground/map_gdal.h"

static const char FOLDER[] = "/vsimem/spinney";

bool map_ends_in(const char *name, const char *end)
{
    size_t a = strlen(name), b = strlen(end);
    return a > b && strcasecmp(name + a - b, end) == 0;
}

static bool has_beside(const struct map_file *files, size_t count, const char *end)
{
    for (size_t i = 1; i < count; i++)
        if (map_ends_in(files[i].name, end))
            return true;
    return false;
}

bool map_is_whole(struct map_job *job, const struct map_file *files, size_t count)
{
    const char *missing = NULL;
    if (files[0].length == 0) {
        fault_set(job->f, "map-empty", SPAN_NONE, "the map `%s` is an empty file",
                  files[0].name);
        fault_hint(job->f, "save it again in the program that it comes from");
        return false;
    }
    if (job->format != MAP_SHAPEFILE)
        return true;
    if (!has_beside(files, count, ".shx"))
        missing = ".shx";
    else if (!has_beside(files, count, ".dbf"))
        missing = ".dbf";
    if (!missing)
        return true;
    fault_set(job->f, "map-beside", SPAN_NONE,
              "a shapefile is several files: the one that ends in %s is missing beside "
              "`%s`",
              missing, files[0].name);
    fault_hint(job->f, "copy all files of that name: .shp, .shx, .dbf and .prj");
    return false;
}

void map_path(char out[MAP_PATH], const char *end)
{
    snprintf(out, MAP_PATH, "%s/map%s", FOLDER, end);
}

static bool lay(const struct map_file *file, const char *end, void *data)
{
    char path[MAP_PATH];
    map_path(path, end);
    VSILFILE *open =
        VSIFileFromMemBuffer(path, data, (vsi_l_offset)file->length, FALSE);
    return open && VSIFCloseL(open) == 0;
}

void map_take_away(struct map_laid *laid)
{
    VSIRmdirRecursive(FOLDER);
    for (size_t i = 0; i < laid->count; i++)
        free(laid->copies[i]);
}

/* A database that was left in its two-file way of writing says so in its head; whole as
 * it is (nothing waits in the other file) it is read as a plain one. SQLite's file format,
 * section 1.3, bytes 18 and 19 (from memory). */
static void make_plain(unsigned char *data, size_t length)
{
    if (length > 100 && data[18] == 2 && data[19] == 2)
        data[18] = data[19] = 1;
}

bool map_lay(struct map_job *job, const struct map_file *files, size_t count,
             const char *main_end, struct map_laid *laid)
{
    for (size_t i = 0; i < count && laid->count < MAP_FILES_MOST; i++) {
        const char *end = strrchr(files[i].name, '.');
        if (job->format == MAP_GEOPACKAGE && i > 0) {
            if (files[i].length == 0)
                continue;
            fault_set(job->f, "map-beside", SPAN_NONE,
                      "`%s` is not wholly written: a part of it waits in `%s`",
                      files[0].name, files[i].name);
            fault_hint(job->f, "close the program that has it open");
            return false;
        }
        unsigned char *copy = malloc(files[i].length + 1);
        if (!copy)
            return fault_no_memory(job->f);
        laid->copies[laid->count++] = copy;
        memcpy(copy, files[i].data, files[i].length);
        if (job->format == MAP_GEOPACKAGE)
            make_plain(copy, files[i].length);
        char lower[8] = "";
        for (size_t k = 0; end && end[k] && k + 1 < sizeof lower; k++)
            lower[k] = (char)(end[k] >= 'A' && end[k] <= 'Z' ? end[k] + 32 : end[k]);
        if (i == 0)
            end = main_end;
        else
            end = lower;
        if (!lay(&files[i], end, copy))
            return fault_no_memory(job->f);
    }
    return true;
}
