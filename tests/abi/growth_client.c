/* A program that uses every struct of the C interface that may grow. It is compiled against feed.h
 * as it is, against one whose structs are longer and against one whose structs are shorter, and run
 * with libraries of either age: it must print the same.
 *
 * Every struct ends at the end of a page, and the next page may be neither read nor written: who
 * goes beyond struct_size crashes. With the word "older" the library knows nothing of later_member,
 * so what stood there must still stand there. With "refused" every call must be refused. */
#define _GNU_SOURCE
#include <feed/feed.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

static int older;
static int refused;

static void check(int holds, const char* what) {
    if (holds) return;
    fprintf(stderr, "%s\n", what);
    exit(1);
}

static void* at_edge(const void* from, size_t size) {
    const size_t page = 4096;
    unsigned char* pages =
        mmap(NULL, 2 * page, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    check(pages != MAP_FAILED && mprotect(pages + page, page, PROT_NONE) == 0, "no pages");
    return memcpy(pages + page - size, from, size);
}

static void went(feed_code code, const feed_error* error, const char* call) {
    if (refused) {
        check(code == FEED_BAD_ARGUMENT, call);
        return;
    }
    if (code != FEED_OK) fprintf(stderr, "%s: %d %s\n", call, (int)code, error->field);
    check(code == FEED_OK, "a call failed");
}

#define CALL(function, ...) went(function(__VA_ARGS__, error), error, #function)

/* An output at the edge, poisoned all over. */
#define OUT(type, name)                                        \
    type* name = at_edge(&(type){sizeof(type)}, sizeof(type)); \
    memset((char*)name + 4, 0x5A, sizeof(type) - 4)

/* An input at the edge, "not given" all over. */
#define IN(type, name, initialiser)       \
    const type name##_said = initialiser; \
    type* name = at_edge(&name##_said, sizeof(type))

#ifdef LATER
#define LEFT(name)                                                                        \
    do {                                                                                  \
        unsigned char poison[sizeof name->later_member];                                  \
        memset(poison, 0x5A, sizeof poison);                                              \
        if (older) check(memcmp(&name->later_member, poison, sizeof poison) == 0, #name); \
    } while (0)
#else
#define LEFT(name) (void)older
#endif

static void* allocate(void* user, size_t size, size_t alignment) {
    (void)alignment;
    ++*(int*)user;
    return malloc(size);
}
#ifndef SHORTER
static void release(void* user, void* memory) {
    --*(int*)user;
    free(memory);
}
#endif

static feed_error* error;

static void of_feedstocks(const feed_allocator* allocator) {
    feed_feedstock* apple = NULL;
    feed_feedstock* made = NULL;
    const feed_own_value moisture = {FEED_MOISTURE_WET, 0.06, NAN, NAN};
    OUT(feed_version_info, version);
    OUT(feed_feedstock_info, info);
    OUT(feed_value, value);
    IN(feed_own_feedstock, own, FEED_OWN_FEEDSTOCK_INIT);
    IN(feed_nutrition_label, label, FEED_NUTRITION_LABEL_INIT);
    IN(feed_laboratory_report, report, FEED_LABORATORY_REPORT_INIT);
    CALL(feed_version, version);
    LEFT(version);
    CALL(feed_feedstock_look_up, "apples", allocator, &apple);
    CALL(feed_feedstock_describe, apple, info);
    LEFT(info);
    CALL(feed_feedstock_get, apple, FEED_MOISTURE_WET, value);
    LEFT(value);
    own->name = "till roll";
    own->values = &moisture;
#ifndef SHORTER
    own->value_count = 1;
    printf("%s %s %s %s\n", version->table_sha256, info->id, info->name, value->method);
#endif
    CALL(feed_feedstock_define, own, apple, allocator, &made);
    feed_feedstock_free(made);
    own->values = NULL;
#ifndef SHORTER
    own->value_count = 0;
#endif
    label->protein = 0.03;
    label->fat = 0.01;
    label->carbohydrate = 0.09;
    CALL(feed_feedstock_from_label, own, label, allocator, &made);
    feed_feedstock_free(made);
    report->moisture_wet = 0.35;
    report->carbon = 0.42;
    report->nitrogen = 0.012;
    CALL(feed_feedstock_from_report, own, report, allocator, &made);
    CALL(feed_feedstock_get, made, FEED_CN_RATIO, value);
    LEFT(value);
    if (!refused) printf("%.17g\n", value->value);
    feed_feedstock_free(made);
    feed_feedstock_free(apple);
}

static void of_balances(const feed_allocator* allocator) {
    feed_feedstock* coffee = NULL;
    feed_feedstock* card = NULL;
    feed_problem* problem = NULL;
    feed_answer* answer = NULL;
    feed_portion portion = FEED_PORTION_INIT;
    IN(feed_entry, entry, FEED_ENTRY_INIT);
    IN(feed_entry, free_entry, FEED_ENTRY_INIT);
    IN(feed_target, target, FEED_TARGET_INIT);
    OUT(feed_blend_properties, blend);
    OUT(feed_answer_summary, summary);
    OUT(feed_reached, reached);
    CALL(feed_feedstock_look_up, "coffee grounds", allocator, &coffee);
    CALL(feed_feedstock_look_up, "shredded cardboard", allocator, &card);
    portion.feedstock = coffee;
    portion.wet_kg = 0.5;
    CALL(feed_blend, &portion, 1, blend);
    LEFT(blend);
    CALL(feed_problem_create, allocator, &problem);
    CALL(feed_problem_use_target_set, problem, FEED_TARGETS_WORM_BED);
    entry->feedstock = coffee;
    entry->least_wet_kg = entry->most_wet_kg = 0.5;
    CALL(feed_problem_add_entry, problem, entry);
    free_entry->feedstock = card;
    CALL(feed_problem_add_entry, problem, free_entry);
    target->property = FEED_TARGET_CN_RATIO;
    target->low = 20.0;
    target->aim = 30.0;
    CALL(feed_problem_set_target, problem, target);
    CALL(feed_balance, problem, allocator, &answer);
    CALL(feed_answer_describe, answer, summary);
    LEFT(summary);
    CALL(feed_answer_reached, answer, 0, reached);
    LEFT(reached);
    if (!refused)
        printf("%.17g %d %zu %.17g\n", blend->salt_g.value, (int)summary->status,
               summary->reached_count, reached->quantity.value);
    feed_answer_free(answer);
    feed_problem_free(problem);
    feed_feedstock_free(coffee);
    feed_feedstock_free(card);
}

static void of_beds(const feed_allocator* allocator) {
    feed_feedstock* bread = NULL;
    feed_bed* bed = NULL;
    feed_check_result* result = NULL;
    feed_forecast* forecast = NULL;
    feed_diary* diary = NULL;
    feed_portion portions[2] = {FEED_PORTION_INIT, FEED_PORTION_INIT};
    OUT(feed_bed_description, description);
    OUT(feed_hazard_finding, finding);
    OUT(feed_ration, ration);
    OUT(feed_take_out, take_out);
    OUT(feed_ration_thing, thing);
    OUT(feed_ration_thing, rest);
    OUT(feed_forecast_summary, summary);
    OUT(feed_calibration, calibration);
    CALL(feed_bed_description_init, description);
    LEFT(description);
    description->container = FEED_CONTAINER_TOTE;
    description->worms_wet_kg = 1.5;
    description->temperature_low_c = 20.0;
    description->age_days = 400.0;
    description->squeeze = FEED_SQUEEZE_DROPS;
    CALL(feed_bed_create, description, allocator, &bed);
    CALL(feed_feedstock_look_up, "bacon", allocator, &bread);
    portions[0].feedstock = bread;
    portions[0].wet_kg = 0.2;
    CALL(feed_check, bed, portions, 1, allocator, &result);
    CALL(feed_check_take_out, result, 0, take_out);
    LEFT(take_out);
    if (!refused) printf("%s: %s\n", take_out->feedstock_id, take_out->why);
    feed_check_result_free(result);
    result = NULL;
    feed_feedstock_free(bread);
    CALL(feed_feedstock_look_up, "carrot", allocator, &bread);
    portions[0].feedstock = bread;
    portions[0].wet_kg = 9.0;
    CALL(feed_check, bed, portions, 1, allocator, &result);
    CALL(feed_check_hazard, result, FEED_HAZARD_WET, finding);
    LEFT(finding);
    CALL(feed_check_ration, result, ration);
    LEFT(ration);
    CALL(feed_check_put_in, result, 0, thing);
    LEFT(thing);
    CALL(feed_check_rest, result, 0, rest);
    LEFT(rest);
    CALL(feed_forecast_bed, bed, 3, allocator, &forecast);
    CALL(feed_forecast_describe, forecast, summary);
    LEFT(summary);
    CALL(feed_diary_from_text, "libfeed: 1\nbed: {container: tote}\n", "bin", allocator, &diary);
    CALL(feed_diary_calibrate, diary, calibration);
    LEFT(calibration);
#ifndef SHORTER
    printf("%s %.17g %.17g %s %s %zu %.17g\n", finding->unit, ration->scraps_wet_kg,
           ration->share_left, thing->label, rest->measure, summary->day_count,
           calibration->before_per_day[0]);
#endif
    feed_diary_free(diary);
    feed_forecast_free(forecast);
    feed_check_result_free(result);
    feed_feedstock_free(bread);
    feed_bed_free(bed);
}

int main(int count, char** words) {
    int held = 0;
    const feed_error none = FEED_ERROR_INIT;
    IN(feed_allocator, allocator, FEED_ALLOCATOR_INIT);
    older = count > 1 && strcmp(words[1], "older") == 0;
    refused = count > 1 && strcmp(words[1], "refused") == 0;
    error = at_edge(&none, sizeof none);
    allocator->user = &held;
    allocator->allocate = allocate;
#ifndef SHORTER
    allocator->release = release;
#endif
    of_feedstocks(allocator);
    of_balances(allocator);
    of_beds(allocator);
    check(held == 0, "something was not given back");
    if (!refused) {
        feed_feedstock* found = NULL;
        check(
            feed_feedstock_look_up("cofeee grundz", NULL, &found, error) == FEED_UNKNOWN_FEEDSTOCK,
            "a name that is none");
        printf("%d %s\n", (int)error->code, error->value);
    }
    return 0;
}
