/* Areas and lengths in the property's frame against a library of geodesics that is not
 * PROJ (tests/data/geodesic.js): outlines up to 5 miles across, 42 to 49 N. */
#include "ground.h"
#include "ground/frame.h"

static const double FOOT = 0.3048;

static void areas_and_lengths_are_within_one_in_ten_thousand(void **state)
{
    (void)state;
    FILE *in = fopen(OPEN_DATA "/geodesic.txt", "r");
    if (!in)
        fail_msg("there is no %s/geodesic.txt: run `make deps` (it wants node and npm), "
                 "then make again",
                 OPEN_DATA);
    int corners, outlines = 0;
    double meters2, meters, worst_area = 0, worst_length = 0;
    while (fscanf(in, "%d %lf %lf", &corners, &meters2, &meters) == 3) {
        struct position at[64];
        struct fault f = { 0 };
        struct position middle = { 0, 0 };
        assert_true(corners >= 3 && corners <= 64);
        for (int i = 0; i < corners; i++) {
            assert_int_equal(fscanf(in, "%lf %lf", &at[i].lon, &at[i].lat), 2);
            middle.lon += at[i].lon / corners;
            middle.lat += at[i].lat / corners;
        }
        struct frame *frame = frame_new(middle, &f);
        struct shape s = area();
        double xy[128];
        for (int i = 0; i < corners; i++) {
            struct point p = frame_point(frame, at[i]);
            xy[2 * i] = p.x;
            xy[2 * i + 1] = p.y;
        }
        part(&s, false, xy, (size_t)corners);
        worst_area =
            fmax(worst_area, fabs(shape_area(&s) * FOOT * FOOT / meters2 - 1));
        worst_length = fmax(worst_length, fabs(shape_length(&s) * FOOT / meters - 1));
        shape_free(&s);
        frame_free(frame);
        outlines++;
    }
    fclose(in);
    print_message("%d outlines, worst: area %.1e, length %.1e\n", outlines, worst_area,
                  worst_length);
    assert_int_equal(outlines, 300);
    assert_true(worst_area < 1e-4 && worst_length < 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(areas_and_lengths_are_within_one_in_ten_thousand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
