#pragma once
#include <string>
#include <utility>
#include <vector>

#include <bed_kitchen.hpp>

// Beds with what is at hand, as the tests of the ration draw them.
namespace kitchen {

/// A bed and what is at hand for it.
struct Case {
    feed::Bed bed;
    std::vector<feed::ThingAtHand> things;
};

/// A random household with its caddy at hand, and half of the time cardboard without limit.
inline Case random_case(Dice& dice,
                        const std::vector<std::shared_ptr<const feed::Feedstock>>& table) {
    Household h = random_household(dice, table);
    Case c{std::move(h.bed), {}};
    for (const feed::Portion& p : h.feeding) {
        if (feed::part_of(*p.feedstock) == feed::Part::poured_water) continue;
        c.things.push_back({p.feedstock, p.feedstock->name, p.wet_mass, {}});
    }
    if (dice.below(2) == 0)
        c.things.push_back({from_table("cardboard-corrugated"), "cardboard", {}, {}});
    return c;
}

inline feed::RationInput input_of(const Case& c,
                                  feed::UnitSystem units = feed::UnitSystem::metric) {
    feed::RationInput in;
    in.bed = c.bed;
    in.things = c.things;
    in.units = units;
    return in;
}

inline feed::Ration ration_of(const Case& c, feed::UnitSystem units = feed::UnitSystem::metric) {
    return feed::ration(input_of(c, units));
}

/// What a failed test should say of a ration.
inline std::string told(const feed::Ration& r) {
    std::string words(feed::text(r.answer));
    for (const feed::PutIn& put : r.put_in)
        words += "; " + put.thing.feedstock->id + " " +
                 feed::significant(put.wet_mass.in_kilograms(), 4);
    for (const feed::Reason& reason : r.reasons)
        words += "; " + std::string(feed::text(reason.hazard)) + " reason " +
                 std::to_string(static_cast<int>(reason.kind));
    return words;
}

inline double kg_of(const feed::Ration& r, const feed::Feedstock& f) {
    double sum = 0.0;
    for (const feed::PutIn& put : r.put_in) {
        if (put.thing.feedstock->id == f.id) sum += put.wet_mass.in_kilograms();
    }
    return sum;
}

}  // namespace kitchen
