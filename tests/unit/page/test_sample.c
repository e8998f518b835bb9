#include "../unit.h"

#include <string.h>

#include "page/terminal.h"
#include "sample.h"

/* The plan of sample.h on 80 columns, line by line. Read it as its owner would before
 * taking a change of it for right. */
static const char *const wanted[] = {
    "Quill Creek: the habitat plan",
    "=============================",
    "",
    "  Walked  Oct 14 2026",
    "  Region  lake-states/michigan",
    "  Goals   deer cover, ruffed grouse",
    "  Lines   north surveyed; east an old fence, not surveyed: nothing is cut within",
    "          two tree lengths of it",
    "",
    "  Five stands were walked, 41.6 ac in all. The work below comes to 143 h",
    "  (121 to 170) and 2,460 USD (2,100 to 2,900). Numbers in parentheses are the",
    "  range to reckon with: nine chances in ten above the first, nine in ten below",
    "  the second.",
    "",
    "",
    "Before anybody starts",
    "---------------------",
    "",
    "  STOP     The east line of Bench aspen is not surveyed. Find and flag it before",
    "           a tree is dropped there.",
    "           Ask: a licensed surveyor, and the neighbor",
    "",
    "  CAUTION  Oaks may not be wounded from Apr 15 to Jul 15, and oaks beside felled",
    "           trees count too: keep the bench work inside the dormant season.",
    "           Ask: the state's forest health office",
    "           Source: state guidance on oak wilt; check locally",
    "",
    "  Note     Ask a logger first: the pine block may carry a commercial thinning.",
    "",
    "",
    "The stands",
    "----------",
    "",
    "  Stand           Area  Mostly         Basal area                 From",
    "  -----------  -------  -------------  -------------------------  --------------",
    "  Bench aspen   7.5 ac  bigtooth        92   ft2/ac (74 to 110)   tally, 6 plots",
    "                        aspen",
    "  Oak ridge    14.2 ac  northern red   104   ft2/ac (81 to 127)   tally, 8 plots",
    "                        oak, red",
    "                        maple",
    "  Creek alder   5.1 ac  speckled       none                       estimate by",
    "                        alder                                     eye",
    "  Old pasture   8.3 ac  hawthorn,        9.5 ft2/ac (4 to 18)     estimate by",
    "                        grass                                     eye",
    "  Pine block    6.5 ac  red pine       156   ft2/ac (138 to 174)  tally, 5 plots",
    "",
    "",
    "The acts",
    "--------",
    "",
    "Sprout cover on the bench",
    "  All aspen is cut flush while the ground is bare of leaves, so that it comes up",
    "  again from the roots.",
    "  - Keep every oak and whatever carries a yellow ribbon.",
    "  - Lop the tops below the knee and leave them; two tree lengths between",
    "    fellers, nobody alone.",
    "",
    "  Act                   Crew      Start        Finish       Hours",
    "  --------------------  --------  -----------  -----------  --------------------",
    "  Fell the bench aspen  owner     Nov 16 2026  Dec 19 2026   72   h (58 to 88)",
    "  Rest openings and     owner     Dec 21 2026  Jan 16 2027   31   h (24 to 40)",
    "    three trails",
    "  Alder, first          saw crew  Jan 18 2027  Jan 23 2027   22   h (17 to 28)",
    "    quarter, on frozen",
    "    ground only",
    "  Plant the pasture     owner     Apr 19 2027  Apr 24 2027    8.5 h (7 to 10.5)",
    "    screen",
    "  Mow the openings      owner     Aug 16 2027  Aug 21 2027    9.5 h (6 to 13)",
    "  --------------------  --------  -----------  -----------  --------------------",
    "  All acts                                                  143   h (121 to 170)",
    "",
    "",
    "The year",
    "--------",
    "",
    "                        2026     2027",
    "                        Nov Dec  Jan Feb Mar Apr  May Jun Jul  Aug Sep  Oct",
    "  Fell the bench aspen   -#####---------------",
    "  Openings and trails    ------####-----------",
    "  Alder, first quarter           --#------",
    "  Pasture screen                               -#---",
    "  Mow the openings                                            ---#----",
    "",
    "                        2027     2028",
    "                        Nov Dec  Jan Feb Mar  Apr May Jun  Jul Aug  Sep Oct",
    "  Mow the openings                                             --##---",
    "",
    "                        2028     2029",
    "                        Nov  Dec Jan Feb Mar  Apr May  Jun Jul Aug  Sep Oct",
    "  Mow the openings                                             --##---",
    "",
    "  # planned   - may be done",
    "",
    "",
    "The materials",
    "-------------",
    "",
    "  Material                  For             How much                        Cost",
    "  ------------------------  --------------  ---------------------------  -------",
    "  white spruce, 2-0 stock   pasture screen  240    plants                  $ 312",
    "  browse tubes with stakes  pasture screen  240    plants                $ 1,030",
    "  white clover, bulk seed   openings          9.25 lb     (8.4 to 10.1)     $ 64"
};

static void a_plan_on_eighty_columns_reads_like_this(void **state)
{
    (void)state;
    struct sample s;
    struct buf b;
    sample_open(&s);
    sample_write(&s);
    buf_init(&b);
    assert_true(terminal_print(s.doc, (struct terminal_look){ 80, false }, &b, &s.fault));
    char *line = b.data;
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        char *end = strchr(line, '\n');
        assert_non_null(end);
        *end = '\0';
        assert_string_equal(line, wanted[i]);
        line = end + 1;
    }
    assert_string_equal(line, "");
    buf_clear(&b);
    sample_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_plan_on_eighty_columns_reads_like_this),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
