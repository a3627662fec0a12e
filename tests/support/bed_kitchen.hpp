#pragma once
#include <cstdint>
#include <memory>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/table.hpp"
#include "feed/ration/check.hpp"
#include "table_portion.hpp"

// Feedstocks and beds that the tests of this folder share.
namespace kitchen {

using feed_test::from_table;
using feed_test::portion;

/// A made-up feedstock with exact numbers.
class Made {
public:
    explicit Made(feed::Group group, feed::Role role) {
        feedstock_.id = "made";
        feedstock_.name = "made-up stuff";
        feedstock_.group = group;
        feedstock_.roles = static_cast<std::uint8_t>(role);
    }
    Made& with(feed::Property property, double value) {
        feedstock_[property] =
            feed::Datum{value, value, value, feed::Grade::a, feed::Grade::a, "test", "test"};
        return *this;
    }
    Made& with(feed::Caution caution) {
        feedstock_.cautions |= static_cast<std::uint32_t>(caution);
        return *this;
    }
    Made& named(std::string name) {
        feedstock_.id = feedstock_.name = std::move(name);
        return *this;
    }
    Made& at_most(double wet_kg_per_kg_worms) {
        feedstock_.most_wet_kg_per_kg_worms = wet_kg_per_kg_worms;
        feedstock_.most_sources = "PRACTICE";
        return *this;
    }
    std::shared_ptr<const feed::Feedstock> share() const {
        return std::make_shared<const feed::Feedstock>(feedstock_);
    }
    const feed::Feedstock& get() const { return feedstock_; }

private:
    feed::Feedstock feedstock_;
};

/// Soft scraps with every figure: 85 % water, C:N 20.
inline Made scraps() {
    using feed::Property;
    return Made(feed::Group::scraps, feed::Role::scraps)
        .with(Property::moisture_wet, 0.85)
        .with(Property::carbon_dry, 0.42)
        .with(Property::nitrogen_dry, 0.021)
        .with(Property::ash_dry, 0.05)
        .with(Property::fat_dry, 0.02)
        .with(Property::sodium_wet, 0.0005)
        .with(Property::titratable_acidity_wet, 0.005)
        .with(Property::bulk_density_settled, 700)
        .with(Property::bulk_density_loose, 400)
        .with(Property::labile_share, 0.8)
        .with(Property::cellulosic_share, 0.18)
        .with(Property::lignin_like_share, 0.02);
}

/// Dry card that holds three times its dry mass of water.
inline Made card() {
    using feed::Property;
    return Made(feed::Group::beddings, feed::Role::bedding)
        .with(Property::moisture_wet, 0.05)
        .with(Property::carbon_dry, 0.44)
        .with(Property::nitrogen_dry, 0.001)
        .with(Property::ash_dry, 0.08)
        .with(Property::water_holding_capacity_dry, 3.0)
        .with(Property::bulk_density_settled, 90)
        .with(Property::bulk_density_loose, 45)
        .with(Property::labile_share, 0.16)
        .with(Property::cellulosic_share, 0.66)
        .with(Property::lignin_like_share, 0.18);
}

/// An invented settled school tote: 60 L, half a kilogram of worms, one or two drops.
inline feed::Bed tote() {
    feed::Bed bed;
    bed.container.kind = feed::ContainerKind::tote;
    bed.container.inside =
        feed::InsideSize{feed::metres(0.55), feed::metres(0.38), feed::metres(0.30)};
    bed.depth_of_contents = feed::metres(0.20);
    bed.drainage = feed::Drainage::none;
    bed.lid = feed::Lid::loose;
    bed.ventilation = feed::Ventilation::holes;
    bed.species = feed::Species::eisenia_fetida;
    bed.worms.wet_mass = feed::wet_grams(500);
    bed.temperature = feed::celsius(20);
    bed.squeeze = feed::Squeeze::drops;
    bed.lime = feed::grams(0);
    bed.age = feed::days(365);
    return bed;
}

/// The numbers of a bed as check sees them.
inline feed::BedNumbers numbers(const feed::Bed& bed, const feed::CheckOptions& options = {}) {
    return feed::bed_numbers(bed, feed::completed(bed), options);
}

/// The same portions, each times a number.
inline std::vector<feed::Portion> scaled(const std::vector<feed::Portion>& portions, double times) {
    std::vector<feed::Portion> part = portions;
    for (feed::Portion& p : part)
        p.wet_mass = times * p.wet_mass;
    return part;
}

/// Wet mass of the scraps of a feeding.
inline double scraps_kg(const std::vector<feed::Portion>& feeding) {
    double sum = 0.0;
    for (const feed::Portion& p : feeding) {
        if (feed::part_of(*p.feedstock) == feed::Part::scraps) sum += p.wet_mass.in_kilograms();
    }
    return sum;
}

/// What a ration puts in, as a feeding.
inline std::vector<feed::Portion> feeding_of(const feed::Ration& ration) {
    std::vector<feed::Portion> feeding;
    for (const feed::PutIn& put : ration.put_in)
        feeding.push_back({put.thing.feedstock, put.wet_mass});
    return feeding;
}

/// The levels of all hazards of a feeding laid over a surface, for the week until the next.
inline feed::HazardNumbers judged(const feed::Bed& bed, const std::vector<feed::Portion>& feeding,
                                  double spread_m2) {
    feed::CheckOptions week;
    week.until_next = feed::days(7);
    const feed::BedNumbers n = numbers(bed, week);
    return feed::hazard_numbers(
        feed::feeding_place(n, spread_m2),
        feed::load_of(feeding, feed::decayed_shares(n.horizon_days, n.decay_speed)));
}

/// The hazards that a feeding raises and the bed alone does not; hunger is none.
inline std::vector<feed::Hazard> raised_by(const feed::HazardNumbers& before,
                                           const feed::HazardNumbers& after) {
    std::vector<feed::Hazard> found;
    for (std::size_t h = 0; h < feed::hazard_count; ++h) {
        const auto hazard = static_cast<feed::Hazard>(h);
        if (hazard == feed::Hazard::underfed) continue;
        if (feed::is_raised(after[hazard].level) && after[hazard].level > before[hazard].level)
            found.push_back(hazard);
    }
    return found;
}

/// The things of a feeding as what is at hand.
inline std::vector<feed::ThingAtHand> at_hand(const std::vector<feed::Portion>& portions) {
    std::vector<feed::ThingAtHand> things;
    for (const feed::Portion& p : portions)
        things.push_back({p.feedstock, p.feedstock->name, p.wet_mass, {}});
    return things;
}

/// Random numbers that are the same with every standard library.
class Dice {
public:
    explicit Dice(std::uint32_t seed) : engine_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(engine_()) / 4294967296.0);
    }
    std::size_t below(std::size_t count) { return engine_() % count; }

private:
    std::mt19937 engine_;
};

/// All feedstocks of the table, made once.
inline std::vector<std::shared_ptr<const feed::Feedstock>> whole_table() {
    std::vector<std::shared_ptr<const feed::Feedstock>> all;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i)
        all.push_back(std::make_shared<const feed::Feedstock>(feed::feedstock_at(i)));
    return all;
}

/// One random household: a bed in some state and a caddy for it, with or without bedding.
struct Household {
    feed::Bed bed;
    std::vector<feed::Portion> feeding;
};

inline Household random_household(
    Dice& dice, const std::vector<std::shared_ptr<const feed::Feedstock>>& table) {
    Household h;
    feed::Bed& bed = h.bed;
    bed.container.kind = static_cast<feed::ContainerKind>(dice.below(5));
    if (dice.below(2) == 0)
        bed.container.inside = feed::InsideSize{feed::metres(dice.between(0.3, 1.2)),
                                                feed::metres(dice.between(0.25, 0.6)),
                                                feed::metres(dice.between(0.2, 0.5))};
    bed.squeeze = static_cast<feed::Squeeze>(dice.below(5));
    bed.worms.wet_mass = feed::wet_kilograms(dice.between(0.1, 1.5));
    bed.temperature = feed::celsius(dice.between(8, 30));
    bed.age = feed::days(dice.between(5, 500));
    if (dice.below(3) == 0) bed.ph = dice.between(5.0, 8.0);
    if (dice.below(3) == 0) bed.lime = feed::grams(dice.between(0, 60));
    const auto pick = [&](feed::Group group) {
        for (;;) {
            const auto& f = table[dice.below(table.size())];
            if (f->group == group && f->stance != feed::Stance::avoid) return f;
        }
    };
    const std::size_t kinds = 1 + dice.below(5);
    double scraps = 0.0;
    for (std::size_t i = 0; i < kinds; ++i) {
        const double kg = dice.between(0.03, 0.5);
        scraps += kg;
        h.feeding.push_back({pick(feed::Group::scraps), feed::wet_kilograms(kg)});
    }
    if (dice.below(3) != 0)
        h.feeding.push_back(
            {pick(feed::Group::beddings), feed::wet_kilograms(scraps * dice.between(0.05, 0.4))});
    if (dice.below(5) == 0)
        h.feeding.push_back({from_table("water-tap"), feed::wet_kilograms(dice.between(0.1, 1.0))});
    if (dice.below(4) == 0)
        bed.earlier = {{feed::days(-dice.between(5, 10)), h.feeding},
                       {feed::days(-dice.between(1, 4)), h.feeding}};
    return h;
}

/// Scraps, and card where there is some.
inline std::vector<feed::Portion> a_feeding(double scraps_kg, double card_kg = 0.0) {
    std::vector<feed::Portion> portions{
        {scraps().named("scraps").share(), feed::wet_kilograms(scraps_kg)}};
    if (card_kg > 0.0)
        portions.push_back({card().named("card").share(), feed::wet_kilograms(card_kg)});
    return portions;
}

}  // namespace kitchen
