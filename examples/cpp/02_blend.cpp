// Blend: a cafe (invented) keeps worms in stacked trays and feeds them grounds with torn boxes.
#include <array>
#include <cstdio>
#include <feed/feed.hpp>

int main() {
    const auto coffee = feed::look_up("coffee grounds");
    const auto cardboard = feed::look_up("shredded cardboard");
    if (!coffee || !cardboard) return 1;
    const std::array portions{feed::Portion{coffee->feedstock, feed::wet_kilograms(2.0)},
                              feed::Portion{cardboard->feedstock, feed::wet_grams(500.0)}};
    const feed::BlendProperties blend = feed::blend(portions);
    std::printf("%.2f kg wet\n", blend.wet_mass.in_kilograms());
    std::printf("moisture %.1f %% (%.1f to %.1f)\n", blend.moisture.value.in_percent(),
                blend.moisture.low.in_percent(), blend.moisture.high.in_percent());
    std::printf("C:N %.1f (%.1f to %.1f) carbon to nitrogen by mass\n", blend.cn_ratio.value,
                blend.cn_ratio.low, blend.cn_ratio.high);
    return 0;
}
