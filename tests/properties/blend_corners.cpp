// The ranges of a blend against every corner of the ranges of its feedstocks, the slow and obvious
// way, for thousands of blends: each quantity is reckoned here from its definition in
// docs/methods.md, at each corner of what it depends on.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <optional>
#include <random>
#include <vector>

#include "catch2.hpp"
#include "feed/blend/blend.hpp"
#include "feed/feedstock/table.hpp"
#include "plain_number.hpp"

using feed::BlendProperties;
using feed::Property;
using feed_test::Approx;
using feed_test::number;

namespace {

struct Ends {
    double low = 0.0;
    double high = 0.0;
    double at(bool upper) const { return upper ? high : low; }
};

/// The box of one feedstock: what is not known is empty.
struct Box {
    double wet = 0.0;
    feed::Part part = feed::Part::scraps;
    std::optional<Ends> moisture, carbon, cn, ash, lignin, fat, acid, sodium, potassium, loose,
        settled;
    double compact = 0.0;  ///< kg/m3 without air, at its typical moisture and ash
};

std::optional<Ends> ends(const feed::Feedstock& feedstock, Property property) {
    const auto& datum = feedstock[property];
    if (!datum) return std::nullopt;
    return Ends{std::min(datum->low, datum->value), std::max(datum->high, datum->value)};
}

// Densities of water, organic matter and ash, kg/m3: Richard et al. 2004, as in docs/methods.md.
double phases_m3(double moisture, double ash) {
    return moisture / 1000.0 + (1.0 - moisture) * ((1.0 - ash) / 1600.0 + ash / 2500.0);
}

Box box_of(const feed::Feedstock& feedstock, double wet) {
    Box box;
    box.wet = wet;
    box.part = feed::part_of(feedstock);
    box.moisture = ends(feedstock, Property::moisture_wet);
    box.ash = ends(feedstock, Property::ash_dry);
    box.lignin = ends(feedstock, Property::lignin_dry);
    box.fat = ends(feedstock, Property::fat_dry);
    box.acid = ends(feedstock, Property::titratable_acidity_wet);
    box.sodium = ends(feedstock, Property::sodium_wet);
    box.potassium = ends(feedstock, Property::potassium_wet);
    box.loose = ends(feedstock, Property::bulk_density_loose);
    box.settled = ends(feedstock, Property::bulk_density_settled);
    const auto& carbon = feedstock[Property::carbon_dry];
    const auto& nitrogen = feedstock[Property::nitrogen_dry];
    if (carbon && nitrogen && feedstock[Property::cn_ratio] && carbon->value > 0.0 &&
        nitrogen->value > 0.0) {
        // A given C:N ties nitrogen to carbon; its range holds the ratio of the two typical values.
        const double typical = carbon->value / nitrogen->value;
        const Ends given = *ends(feedstock, Property::cn_ratio);
        box.carbon = ends(feedstock, Property::carbon_dry);
        box.cn = Ends{std::min(given.low, typical), std::max(given.high, typical)};
    }
    if (const auto& ash = feedstock[Property::ash_dry]; ash && box.moisture)
        box.compact = 1.0 / phases_m3(feedstock[Property::moisture_wet]->value, ash->value);
    return box;
}

/// Smallest and largest of `quantity` over all corners of `bits` free numbers. quantity is called
/// with a function that says whether a number is at its upper end.
template <class Quantity>
Ends corners(std::size_t bits, const Quantity& quantity) {
    Ends found{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
    for (std::size_t corner = 0; corner < (std::size_t{1} << bits); ++corner) {
        const double value =
            quantity([corner](std::size_t bit) { return ((corner >> bit) & 1) != 0; });
        found.low = std::min(found.low, value);
        found.high = std::max(found.high, value);
    }
    return found;
}

using Boxes = std::vector<Box>;

bool all(const Boxes& boxes, std::optional<Ends> Box::*member) {
    return std::all_of(boxes.begin(), boxes.end(),
                       [member](const Box& box) { return (box.*member).has_value(); });
}

template <class T>
void check(const char* what, const feed::Estimate<T>& ours, const Ends& slow, int& checked) {
    if (!ours.is_known()) return;
    CAPTURE(what);
    CHECK(number(ours.low) == Approx(slow.low).epsilon(1e-9).margin(1e-15));
    CHECK(number(ours.high) == Approx(slow.high).epsilon(1e-9).margin(1e-15));
    ++checked;
}

/// Sum of wet mass x one number.
Ends wet_sum(const Boxes& boxes, std::optional<Ends> Box::*member) {
    return corners(boxes.size(), [&](auto upper) {
        double sum = 0.0;
        for (std::size_t i = 0; i < boxes.size(); ++i)
            sum += boxes[i].wet * (boxes[i].*member)->at(upper(i));
        return sum;
    });
}

/// Sum of dry mass x one number.
Ends dry_sum(const Boxes& boxes, std::optional<Ends> Box::*member, bool complement = false) {
    const std::size_t n = boxes.size();
    return corners(2 * n, [&](auto upper) {
        double sum = 0.0;
        for (std::size_t i = 0; i < n; ++i) {
            const double share = (boxes[i].*member)->at(upper(n + i));
            sum += boxes[i].wet * (1.0 - boxes[i].moisture->at(upper(i))) *
                   (complement ? 1.0 - share : share);
        }
        return sum;
    });
}

/// The degradable share of the carbon, 0.83 - 0.028 x lignin in % of the volatile solids (Chandler
/// et al. 1980).
Ends degradable(const Box& box) {
    return corners(2, [&](auto upper) {
        const double lignin = box.lignin->at(upper(0)) / (1.0 - box.ash->at(upper(1)));
        return std::clamp(0.83 - 2.8 * lignin, 0.0, 0.83);
    });
}

void check_masses(const Boxes& boxes, const BlendProperties& blend, int& checked) {
    double wet = 0.0;
    for (const auto& box : boxes)
        wet += box.wet;
    if (all(boxes, &Box::moisture)) {
        const Ends water = wet_sum(boxes, &Box::moisture);
        check("water", blend.water, water, checked);
        check("dry mass", blend.dry_mass, {wet - water.high, wet - water.low}, checked);
        check("moisture", blend.moisture, {water.low / wet, water.high / wet}, checked);
        if (all(boxes, &Box::ash))
            check("volatile solids", blend.volatile_solids, dry_sum(boxes, &Box::ash, true),
                  checked);
        if (all(boxes, &Box::fat)) check("fat", blend.fat, dry_sum(boxes, &Box::fat), checked);
    }
    if (all(boxes, &Box::acid)) check("acid", blend.acid, wet_sum(boxes, &Box::acid), checked);
    if (all(boxes, &Box::potassium))
        check("potassium", blend.potassium, wet_sum(boxes, &Box::potassium), checked);
    if (all(boxes, &Box::sodium)) {
        const Ends sodium = wet_sum(boxes, &Box::sodium);
        // Sodium as sodium chloride, 58.44 / 22.99 by molar mass, as printed on labels: 2.54.
        check("salt", blend.salt, {2.54 * sodium.low, 2.54 * sodium.high}, checked);
    }
}

void check_ratios(const Boxes& boxes, const BlendProperties& blend, int& checked) {
    if (!all(boxes, &Box::moisture) || !all(boxes, &Box::carbon)) return;
    const std::size_t n = boxes.size();
    const auto ratio = [&](const std::vector<Ends>& shares) {
        return corners(4 * n, [&](auto upper) {
            double carbon = 0.0;
            double nitrogen = 0.0;
            for (std::size_t i = 0; i < n; ++i) {
                const double of_part = boxes[i].wet * (1.0 - boxes[i].moisture->at(upper(4 * i))) *
                                       boxes[i].carbon->at(upper(4 * i + 1));
                nitrogen += of_part / boxes[i].cn->at(upper(4 * i + 2));
                carbon += of_part * shares[i].at(upper(4 * i + 3));
            }
            return carbon / nitrogen;
        });
    };
    check("carbon", blend.carbon, dry_sum(boxes, &Box::carbon), checked);
    check("nitrogen", blend.nitrogen,
          corners(3 * n,
                  [&](auto upper) {
                      double sum = 0.0;
                      for (std::size_t i = 0; i < n; ++i)
                          sum += boxes[i].wet * (1.0 - boxes[i].moisture->at(upper(3 * i))) *
                                 boxes[i].carbon->at(upper(3 * i + 1)) /
                                 boxes[i].cn->at(upper(3 * i + 2));
                      return sum;
                  }),
          checked);
    check("C:N", blend.cn_ratio, ratio(std::vector<Ends>(n, Ends{1.0, 1.0})), checked);
    if (!all(boxes, &Box::lignin) || !all(boxes, &Box::ash)) return;
    std::vector<Ends> shares;
    for (const auto& box : boxes)
        shares.push_back(degradable(box));
    check("available C:N", blend.available_cn_ratio, ratio(shares), checked);
}

/// Volume of bedding and the rest in one another: where they meet half and half `loss` of it goes.
double packed(double bedding, double other, double loss) {
    const double sum = bedding + other;
    return sum > 0.0 ? sum - 4.0 * loss * bedding * other / sum : 0.0;
}

void check_volumes(const Boxes& boxes, const BlendProperties& blend, int& checked) {
    const std::size_t n = boxes.size();
    if (!all(boxes, &Box::moisture) || !all(boxes, &Box::ash) || !all(boxes, &Box::loose)) return;
    // The gaps take 15 % of the volume, 5 to 25 % (a judgement, docs/methods.md).
    const Ends loss{0.05, 0.25};
    const auto space = [&](auto upper, std::optional<Ends> Box::*member, bool capped) {
        double bedding = 0.0;
        double other = 0.0;
        for (std::size_t i = 0; i < n; ++i) {
            if (boxes[i].part == feed::Part::poured_water) continue;
            double density = (boxes[i].*member)->at(upper(i));
            if (capped) density = std::min(density, boxes[i].compact);
            (boxes[i].part == feed::Part::bedding ? bedding : other) += boxes[i].wet / density;
        }
        return packed(bedding, other, loss.at(upper(3 * n)));
    };
    const auto phases = [&](auto upper) {
        double sum = 0.0;
        for (std::size_t i = 0; i < n; ++i)
            sum += boxes[i].wet * phases_m3(boxes[i].moisture->at(upper(n + i)),
                                            boxes[i].ash->at(upper(2 * n + i)));
        return sum;
    };
    const Ends volume = corners(3 * n + 1, [&](auto upper) {
        return std::max(space(upper, &Box::loose, false), phases(upper));
    });
    check("volume", blend.volume, volume, checked);
    const double wet = blend.wet_mass.in_kilograms();
    check("bulk density", blend.bulk_density, {wet / volume.high, wet / volume.low}, checked);
    if (!all(boxes, &Box::settled)) return;
    check("free air space", blend.free_air_space,
          corners(3 * n + 1,
                  [&](auto upper) {
                      const double settled = space(upper, &Box::settled, true);
                      return settled > 0.0 ? std::max(0.0, 1.0 - phases(upper) / settled) : 0.0;
                  }),
          checked);
}

}  // namespace

TEST_CASE("the ranges of 3,000 blends are those of the corners") {
    std::mt19937 random(20260314);
    const auto share = [&random] { return static_cast<double>(random() >> 8) / 16777216.0; };
    std::vector<std::shared_ptr<const feed::Feedstock>> rows;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i)
        rows.push_back(std::make_shared<const feed::Feedstock>(feed::feedstock_at(i)));
    int checked = 0;
    for (int number = 0; number < 3000; ++number) {
        CAPTURE(number);
        std::vector<feed::Portion> portions;
        Boxes boxes;
        const std::size_t count = 1 + random() % 3;
        while (portions.size() < count) {
            const auto& row = rows[random() % rows.size()];
            const bool there = std::any_of(portions.begin(), portions.end(),
                                           [&](const auto& one) { return one.feedstock == row; });
            if (there) continue;
            const double wet = std::pow(10.0, -2.0 + 3.0 * share());
            portions.push_back({row, feed::wet_kilograms(wet)});
            boxes.push_back(box_of(*row, wet));
        }
        const BlendProperties blend = feed::blend(portions);
        check_masses(boxes, blend, checked);
        check_ratios(boxes, blend, checked);
        check_volumes(boxes, blend, checked);
    }
    // Nothing is shown if the rows have too many gaps.
    CHECK(checked > 15000);
}
