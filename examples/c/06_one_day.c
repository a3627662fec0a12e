/* One day: a tote in a stairwell (invented) is asked for today's ration, checked, fed, noted, asked
 * again a day later, and looked at a week ahead. */
#include <feed/feed.h>
#include <stdio.h>
#include <string.h>

#define BIN \
    "bed: {date: 2026-03-14, container: 60 L tote, worms: 1 lb, temperature: 20 C, squeeze: drops}"
#define FED "300 g carrot"
#define COVER "17 g shredded cardboard"

static const char* const hazards[] = {"sour",    "wet",    "dry",     "hot",
                                      "ammonia", "salty",  "overfed", "underfed",
                                      "airless", "greasy", "cold"};
static const char* const answers[] = {"act_first", "wait", "feed_less", "feed"};

/* The ration of a diary and every line of it, or only its first word. */
static feed_code ask(const char* text, const char* word_after, feed_error* error) {
    feed_diary* diary = NULL;
    feed_check_result* result = NULL;
    feed_ration ration;
    feed_code code;
    ration.struct_size = sizeof ration;
    code = feed_diary_from_text(text, "tote.yaml", NULL, &diary, error);
    if (code == FEED_OK) code = feed_diary_check(diary, NULL, &result, error);
    if (code == FEED_OK) code = feed_check_ration(result, &ration, error);
    if (code == FEED_OK && word_after != NULL) {
        printf("%s: %s\n", word_after, answers[ration.answer]);
    } else if (code == FEED_OK) {
        size_t i;
        int32_t hazard;
        /* All lines, in their order: what must be taken out comes first. */
        for (i = 0; i < ration.line_count; ++i) {
            const char* line = "";
            code = feed_check_line(result, i, &line, error);
            if (code == FEED_OK) printf("%s\n", line);
        }
        /* The plan as it stands, bacon and all, against the bed. */
        for (hazard = FEED_HAZARD_SOUR; hazard <= FEED_HAZARD_COLD; ++hazard) {
            feed_hazard_finding one;
            one.struct_size = sizeof one;
            code = feed_check_hazard(result, hazard, &one, error);
            if (code == FEED_OK && (one.level == FEED_LEVEL_WATCH || one.level == FEED_LEVEL_ACT))
                printf("the plan: %s, %s\n", hazards[hazard],
                       one.level == FEED_LEVEL_ACT ? "act" : "watch");
        }
    }
    feed_check_result_free(result);
    feed_diary_free(diary);
    return code;
}

/* What was done goes into the diary through the one door; an app reads the answer as JSON. */
static feed_code note(feed_error* error) {
    feed_text* text = NULL;
    const char* answer = "";
    const feed_code code = feed_call("{\"verb\": \"note\", \"words\": \"fed " FED " and " COVER
                                     "\", \"date\": \"2026-03-14\","
                                     " \"file\": \"libfeed: 1\\n" BIN "\\n\"}",
                                     NULL, &text, error);
    if (code == FEED_OK && feed_text_get(text, &answer, NULL, error) == FEED_OK)
        printf("noted in: %s\n",
               strstr(answer, "\"section\": \"feedings\"") != NULL ? "feedings" : "elsewhere");
    feed_text_free(text);
    return code;
}

/* A week ahead, from what went in. */
static feed_code look_ahead(const char* text, feed_error* error) {
    feed_diary* diary = NULL;
    feed_bed* bed = NULL;
    feed_forecast* forecast = NULL;
    const double* left_kg = NULL;
    feed_code code = feed_diary_from_text(text, "tote.yaml", NULL, &diary, error);
    if (code == FEED_OK) code = feed_diary_bed(diary, NULL, &bed, error);
    if (code == FEED_OK) code = feed_forecast_bed(bed, 7, NULL, &forecast, error);
    if (code == FEED_OK)
        code = feed_forecast_series(forecast, FEED_SERIES_FOOD_LEFT_WET_KG, &left_kg, NULL, NULL,
                                    error);
    if (code == FEED_OK) printf("food left after a week: %.0f g\n", 1000.0 * left_kg[7]);
    feed_forecast_free(forecast);
    feed_bed_free(bed);
    feed_diary_free(diary);
    return code;
}

int main(void) {
    static const char today[] =
        "libfeed: 1\n" BIN "\nblend: [300 g carrot, 50 g bacon, 200 g shredded cardboard]\n";
    static const char fed[] =
        "libfeed: 1\n" BIN "\nfeedings: [{date: 2026-03-14, portions: [" FED ", " COVER "]}]\n";
    static const char next_day[] =
        "libfeed: 1\n" BIN "\nfeedings: [{date: 2026-03-14, portions: [" FED ", " COVER
        "]}]\n"
        "observations: [{date: 2026-03-15, smell: earthy}]\n";
    feed_error error = FEED_ERROR_INIT;
    if (ask(today, NULL, &error) == FEED_OK && note(&error) == FEED_OK &&
        look_ahead(fed, &error) == FEED_OK && ask(next_day, "the day after", &error) == FEED_OK)
        return 0;
    fprintf(stderr, "%s: %s\n", error.field, error.message);
    return 1;
}
