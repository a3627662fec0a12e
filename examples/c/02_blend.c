/* Blend: a cafe (invented) keeps worms in stacked trays and feeds them grounds with torn boxes. */
#include <feed/feed.h>
#include <stdio.h>

int main(void) {
    feed_feedstock *coffee = NULL, *cardboard = NULL;
    feed_blend_properties blend;
    feed_error error = FEED_ERROR_INIT;
    int done = 1;
    blend.struct_size = sizeof blend;
    if (feed_feedstock_look_up("coffee grounds", NULL, &coffee, &error) == FEED_OK &&
        feed_feedstock_look_up("shredded cardboard", NULL, &cardboard, &error) == FEED_OK) {
        feed_portion portions[2];
        portions[0].feedstock = coffee;
        portions[0].wet_kg = 2.0;
        portions[1].feedstock = cardboard;
        portions[1].wet_kg = 0.5;
        if (feed_blend(portions, 2, &blend, &error) == FEED_OK) {
            printf("%.2f kg wet\n", blend.wet_kg);
            printf("moisture %.1f %% (%.1f to %.1f)\n", blend.moisture_wet.value * 100.0,
                   blend.moisture_wet.low * 100.0, blend.moisture_wet.high * 100.0);
            printf("C:N %.1f (%.1f to %.1f) carbon to nitrogen by mass\n", blend.cn_ratio.value,
                   blend.cn_ratio.low, blend.cn_ratio.high);
            done = 0;
        }
    }
    if (done != 0) fprintf(stderr, "%s: %s\n", error.field, error.message);
    feed_feedstock_free(coffee);
    feed_feedstock_free(cardboard);
    return done;
}
