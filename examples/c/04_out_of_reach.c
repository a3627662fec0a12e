/* A target that cannot be met: an allotment (invented) has a flow-through bin, a heap of zucchini
 * and hardly anything dry. Which wishes conflict, how near one comes, and what mends it. */
#include <feed/feed.h>
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
        add(problem, "zucchini", 3.0, 3.0, &error) == FEED_OK &&
        add(problem, "coffee grounds", 0.0, 0.5, &error) == FEED_OK &&
        add(problem, "torn cardboard", 0.0, 0.05, &error) == FEED_OK &&
        feed_balance(problem, NULL, &answer, &error) == FEED_OK &&
        feed_answer_describe(answer, &summary, &error) == FEED_OK &&
        feed_answer_blend(answer, &blend, &error) == FEED_OK && summary.status == FEED_INFEASIBLE) {
        size_t i;
        done = 0;
        printf("these cannot all hold:\n");
        for (i = 0; i < summary.conflict_count; ++i) {
            const char* member = NULL;
            if (feed_answer_conflict(answer, i, &member, &error) != FEED_OK) done = 1;
            printf("  %s\n", member);
        }
        printf("nearest: moisture %.1f %%\n", blend.moisture_wet.value * 100.0);
        if (summary.has_mend) {
            printf("add %.0f g of %s\n", summary.mend_add_wet_kg * 1000.0, summary.mend_label);
        } else {
            printf("no single addition does\n");
        }
    }
    if (done != 0) fprintf(stderr, "%s: %s\n", error.field, error.message);
    feed_answer_free(answer);
    feed_problem_free(problem);
    return done;
}
