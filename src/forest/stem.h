/* stem.h: how tall a tree of a stand is, and how high up its stem is thick enough to be
 * worth something, where only its diameter was tallied.
 *
 *     struct stem s = { 14, stem_height(14, 16, 66), 0.93 };
 *     double ft = stem_height_to(&s, 9);              // to 9 in inside bark
 *     double logs = stem_logs(&s, 9);                 // 16-ft logs, by the half
 *
 * Both curves are plain ones, common practice without a source:
 * - height: the tallest trees, as thick as `stout_in`, have the stand's tree length T; a
 *   tree of D has 4.5 + (T - 4.5) (1 - e^(-2.5 r)) / (1 - e^-2.5), r = D / stout (at
 *   most 1): half as thick, three quarters as tall.
 * - taper above breast height: D ((H - h) / (H - 4.5))^0.7, between a paraboloid (0.5) and
 *   a cone (1). A hardwood that forks lower has less: measure the height to the fork. */
#ifndef SPINNEY_FOREST_STEM_H
#define SPINNEY_FOREST_STEM_H

struct stem {
    double diameter_in; /* at breast height, outside bark */
    double height_ft;   /* total */
    double inside_bark; /* diameter inside bark as a part of that outside */
};

/* Height of the stump. Jenkins and others 2003, For. Sci. 49:12-35 (from memory), and the
 * log-rule tables of Mesavage and Girard 1946 (from memory), count from 1 ft. */
#define STEM_STUMP_FT 1.0
/* A log of 16 ft and its trim allowance: Mesavage and Girard 1946, from memory. */
#define STEM_LOG_FT 16.3

double stem_height(double diameter_in, double stout_in, double tree_length_ft);
/* Diameter inside bark at a height, inches; 0 above the tip. */
double stem_inside_at(const struct stem *s, double height_ft);
/* Length from the stump up to where the stem is so thick inside bark; 0 when it is thinner
 * at the stump or at breast height. */
double stem_height_to(const struct stem *s, double top_in);
/* Wood between two heights above the ground, inside bark, ft3; what is above the tip counts
 * for nothing. */
double stem_cubic_feet(const struct stem *s, double from_ft, double to_ft);
/* 16-ft logs up to there, down to the half log. */
double stem_logs(const struct stem *s, double top_in);

#endif
