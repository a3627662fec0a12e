/* Balance: a school lunch club (invented) has scraps that must go, and cardboard and water at will.
 */
#include <feed/feed.h>
#include <math.h>
#include <stdio.h>

#include "at_hand.h"

int main(void) {
    feed_problem* problem = NULL;
    feed_answer* answer = NULL;
    feed_answer_summary summary;
    feed_blend_properties blend;
    feed_error error = FEED_ERROR_INIT;
    int done = 1;
    summary.struct_size = sizeof summary;
    blend.struct_size = sizeof blend;
    if (feed_problem_create(NULL, &problem, &error) == FEED_OK &&
        feed_problem_use_target_set(problem, FEED_TARGETS_WORM_BED, &error) == FEED_OK &&
        add(problem, "kitchen scraps", 1.2, 1.2, &error) == FEED_OK &&
        add(problem, "coffee grounds", 0.3, 0.3, &error) == FEED_OK &&
        add(problem, "shredded cardboard", 0.0, NAN, &error) == FEED_OK &&
        add(problem, "water", 0.0, NAN, &error) == FEED_OK &&
        feed_balance(problem, NULL, &answer, &error) == FEED_OK &&
        feed_answer_describe(answer, &summary, &error) == FEED_OK &&
        feed_answer_blend(answer, &blend, &error) == FEED_OK && summary.status == FEED_SOLVED) {
        size_t i;
        done = 0;
        for (i = 0; i < summary.portion_count; ++i) {
            const char* label = NULL;
            double wet_kg;
            if (feed_answer_portion(answer, i, &wet_kg, &label, &error) != FEED_OK) done = 1;
            printf("%s: %.0f g\n", label, wet_kg * 1000.0);
        }
        printf("C:N %.1f, moisture %.1f %%\n", blend.cn_ratio.value,
               blend.moisture_wet.value * 100.0);
    }
    if (done != 0) fprintf(stderr, "%s: %s\n", error.field, error.message);
    feed_answer_free(answer);
    feed_problem_free(problem);
    return done;
}
