/* Trial: two neighbours (invented) lay melon rind and pumpkin side by side in six totes. Trials go
 * through the one door; an app reads its answers with its JSON library, this program looks for
 * what it prints. */
#include <feed/feed.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define TRIAL "trial: {feeds: [watermelon rind, pumpkin], bins: 6, seed: 7, last_day: 24"

/* What follows a key, from a place in an answer on; the end of the answer where it is missing. */
static const char* after(const char* place, const char* key) {
    const char* found = strstr(place, key);
    return found == NULL ? place + strlen(place) : found + strlen(key);
}
static double number(const char* place, const char* key) {
    return strtod(after(place, key), NULL);
}

/* Looks every third day, in the words of the sheet: the rind is gone on day 9, pumpkin on day 18.
 */
static size_t write_looks(const char* plan, char* into, size_t room) {
    size_t used = 0;
    int day;
    for (day = 3; day <= 24 && used < room; day += 3) {
        const char* plot = after(plan, "\"plots\": [");
        int count;
        used += (size_t)snprintf(into + used, room - used, "  - date: 2026-09-%02d\\n    plots:\\n",
                                 day + 1);
        for (count = 0; count < 12 && used < room; ++count) {
            const int which = (int)number(plot, "\"plot\": ");
            const int is_rind = strncmp(after(plot, "\"feed\": \""), "watermelon", 10) == 0;
            used += (size_t)snprintf(into + used, room - used, "      - plot %d %s\\n", which,
                                     day >= (is_rind ? 9 : 18) ? "gone" : "not gone");
            plot = after(plot, "\"feed\": \"");
        }
    }
    return used;
}

int main(void) {
    static char request[16384];
    feed_error error = FEED_ERROR_INIT;
    feed_text* planned = NULL;
    feed_text* read = NULL;
    const char* plan = "";
    const char* reading = "";
    int done = 1;
    /* Before anything is laid: how much of each, and the least chance by luck it can reach. */
    if (feed_call("{\"verb\": \"trial plan\", \"file\": \"libfeed: 1\\n" TRIAL "}\\n\"}", NULL,
                  &planned, &error) == FEED_OK &&
        feed_text_get(planned, &plan, NULL, &error) == FEED_OK) {
        const char* pumpkin = after(plan, "\"feed\": \"pumpkin\"");
        size_t used;
        printf("%.0f g watermelon rind, %.0f g pumpkin: %s\n",
               1000.0 * number(plan, "\"fresh_wet_mass_kg\": "),
               1000.0 * number(pumpkin, "\"fresh_wet_mass_kg\": "),
               strstr(plan, "\"portion_rule\": \"equal dry matter\"") != NULL ? "equal dry matter"
                                                                              : "another rule");
        printf("smallest chance by luck %.3f\n", number(plan, "\"smallest_p\": "));

        used = (size_t)snprintf(request, sizeof request,
                                "{\"verb\": \"trial read\", \"file\": \"libfeed: 1\\n" TRIAL
                                ", start: 2026-09-01}\\nobservations:\\n");
        used += write_looks(plan, request + used, sizeof request - used);
        snprintf(request + used, sizeof request - used, "\"}");
        done = feed_call(request, NULL, &read, &error) == FEED_OK &&
                       feed_text_get(read, &reading, NULL, &error) == FEED_OK
                   ? 0
                   : 1;
    }
    if (done == 0) {
        const char* pair = after(reading, "\"pairs\": [");
        const char* ratio = after(pair, "\"time_ratio\": ");
        printf("%s, by luck %.3f\n",
               strstr(pair, "\"verdict\": \"clear\"") != NULL ? "clear" : "not clear",
               number(pair, "\"p\": "));
        printf("watermelon rind takes %.2f (%.2f to %.2f) times as long\n",
               number(ratio, "\"value\": "), number(ratio, "\"low\": "),
               number(ratio, "\"high\": "));
    } else {
        fprintf(stderr, "%s: %s\n", error.field, error.message);
    }
    feed_text_free(read);
    feed_text_free(planned);
    return done;
}
