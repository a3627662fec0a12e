/* Look up a feedstock: what is known of used coffee grounds, how well, and from where. */
#include <feed/feed.h>
#include <stdio.h>

int main(void) {
    feed_feedstock* coffee = NULL;
    feed_feedstock_info info;
    feed_value moisture, ratio;
    feed_error error = FEED_ERROR_INIT;
    int done = 1;
    info.struct_size = sizeof info;
    moisture.struct_size = sizeof moisture;
    ratio.struct_size = sizeof ratio;
    if (feed_feedstock_look_up("coffee grounds", NULL, &coffee, &error) == FEED_OK &&
        feed_feedstock_describe(coffee, &info, &error) == FEED_OK &&
        feed_feedstock_get(coffee, FEED_MOISTURE_WET, &moisture, &error) == FEED_OK &&
        feed_feedstock_get(coffee, FEED_CN_RATIO, &ratio, &error) == FEED_OK) {
        printf("%s\n", info.name);
        printf("moisture %.1f %% of wet mass, grade %c\n", moisture.value * 100.0,
               "ABCD"[moisture.grade]);
        printf("C:N %.1f (%.1f to %.1f) carbon to nitrogen by mass, grade %c\n", ratio.value,
               ratio.low, ratio.high, "ABCD"[ratio.grade]);
        done = 0;
    } else {
        fprintf(stderr, "%s: %s\n", error.field, error.message);
    }
    feed_feedstock_free(coffee);
    return done;
}
