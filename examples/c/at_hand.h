/* Shared by the stories that balance: one thing at hand. */
#ifndef EXAMPLES_AT_HAND_H
#define EXAMPLES_AT_HAND_H
#include <feed/feed.h>
#include <math.h>

/* Between the least and the most of what the words name; a most of NAN: as much as it takes. */
static feed_code add(feed_problem* problem, const char* words, double least_wet_kg,
                     double most_wet_kg, feed_error* error) {
    feed_feedstock* found = NULL;
    feed_code code = feed_feedstock_look_up(words, NULL, &found, error);
    if (code == FEED_OK) {
        feed_entry entry = FEED_ENTRY_INIT;
        entry.feedstock = found;
        entry.label = words;
        entry.least_wet_kg = least_wet_kg;
        entry.most_wet_kg = most_wet_kg;
        code = feed_problem_add_entry(problem, &entry, error);
    }
    feed_feedstock_free(found);
    return code;
}

#endif
