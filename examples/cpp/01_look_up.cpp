// Look up a feedstock: what is known of used coffee grounds, how well, and from where.
#include <cstdio>
#include <feed/feed.hpp>

int main() {
    const auto found = feed::look_up("coffee grounds");
    if (!found) return 1;
    const feed::Feedstock& coffee = *found->feedstock;
    const auto& moisture = coffee[feed::Property::moisture_wet];
    const auto& ratio = coffee[feed::Property::cn_ratio];
    std::printf("%s\n", coffee.name.c_str());
    std::printf("moisture %.1f %% of wet mass, grade %s\n", moisture->value * 100.0,
                feed::text(moisture->grade));
    std::printf("C:N %.1f (%.1f to %.1f) carbon to nitrogen by mass, grade %s\n", ratio->value,
                ratio->low, ratio->high, feed::text(ratio->grade));
    return 0;
}
