#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>
#include <random>
#include <vector>

#include "feed/blend/portion.hpp"
#include "feed/feedstock/table.hpp"

namespace feed_test {

/// Feedings as a kitchen makes them, from a fixed seed: three to eight kinds of scraps (now and
/// then one that should be dosed with care), one or two beddings, often water, often grit or lime.
class RandomKitchen {
public:
    explicit RandomKitchen(std::uint32_t seed) : random_(seed) {
        for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
            auto feedstock = std::make_shared<const feed::Feedstock>(feed::feedstock_at(i));
            switch (feedstock->group) {
                case feed::Group::scraps:
                    scraps_.push_back(feedstock);
                    break;
                case feed::Group::beddings:
                    beddings_.push_back(feedstock);
                    break;
                case feed::Group::guarded:
                    guarded_.push_back(feedstock);
                    break;
                case feed::Group::water:
                    water_.push_back(feedstock);
                    break;
                case feed::Group::amendments:
                    if (feedstock->decay_class == feed::DecayClass::inert)
                        grit_.push_back(feedstock);
                    break;
                case feed::Group::manures:
                    break;
            }
        }
    }

    std::vector<feed::Portion> feeding() {
        std::vector<feed::Portion> portions;
        const std::size_t kinds = 3 + below(6);
        for (std::size_t i = 0; i < kinds; ++i)
            add(portions, scraps_, 0.05, 1.0);
        if (below(10) == 0) add(portions, guarded_, 0.01, 0.1);
        for (std::size_t i = 0; i <= below(2); ++i)
            add(portions, beddings_, 0.05, 0.6);
        if (below(3) != 0) add(portions, water_, 0.05, 1.0);
        if (below(3) != 0) add(portions, grit_, 0.005, 0.05);
        return portions;
    }

    std::size_t below(std::size_t limit) { return random_() % limit; }
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(random_() >> 8) / 16777216.0;
    }

private:
    using Shelf = std::vector<std::shared_ptr<const feed::Feedstock>>;
    void add(std::vector<feed::Portion>& portions, const Shelf& shelf, double least, double most) {
        portions.push_back({shelf[below(shelf.size())], feed::wet_kilograms(between(least, most))});
    }
    std::mt19937 random_;
    Shelf scraps_, beddings_, guarded_, water_, grit_;
};

}  // namespace feed_test
