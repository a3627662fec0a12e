#pragma once
#include <array>
#include <cstddef>
#include <string_view>

#include "feed/bed/factor.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/feedstock/table.hpp"

// What scraps a household is to expect in a week, from published studies: a start until they are
// weighed.
namespace feed {

namespace household {

/// Food waste of a person a week, peels, cores and bones included, liquids not.
inline constexpr Factor a_person_kg{
    1.42,
    1.04,
    1.64,
    "kg/w",
    Grade::b,
    "1.64 kg of a person a week in audited bins, Canada (doi "
    "10.1016/j.wasman.2021.08.039, abstract); 1.59 kg (3.5 lb) in Denver, "
    "Nashville and New York (NRDC 2017, as a page quotes it; the report was not "
    "read); 1.04 kg by diaries of students' households, Finland (Närvä et al. "
    "2024, doi 10.1108/IJSHE-05-2023-0179, abstract); the value is their mean"};
/// Meals of a person in a week.
inline constexpr double meals_a_week = 21.0;
/// Ground coffee for a cup, and what of it is left in the filter, dry.
inline constexpr Factor coffee_a_cup_kg{
    0.010, 0.007, 0.015, "kg", Grade::c, "10 g for 177 ml (a trade standard, as a page quotes it)"};
inline constexpr Factor grounds_left{
    0.80, 0.78, 0.82, "kg/kg", Grade::d, "18 to 22 % of it dissolves (common practice)"};

/// A kind of scraps, and its share of a household's food waste.
struct Kind {
    std::string_view name;
    double share;
    std::string_view feedstock;  ///< its row of the table; empty: it is not fed
    std::string_view source;
};
inline constexpr std::array<Kind, 3> kinds{{
    {"fruit and vegetables", 0.63, "fruit-veg-byproduct",
     "63 % (doi 10.1016/j.wasman.2021.08.039, abstract)"},
    {"bread", 0.14, "bread-waste", "14 %, with other baked things (the same)"},
    {"meat, fish, dairy and cooked dishes", 0.23, "",
     "the rest (the same; the abstract does not part it, so none of it is counted as food)"},
}};
inline constexpr std::size_t grounds = kinds.size();  ///< of the coffee that was said

}  // namespace household

/// Who eats and drinks. Meals are those of a day for all, in place of people: a kitchen cooks them.
struct Household {
    double people = 0.0;
    double meals_a_day = 0.0;
    double coffee_cups_a_day = 0.0;

    [[nodiscard]] bool any() const noexcept {
        return people > 0.0 || meals_a_day > 0.0 || coffee_cups_a_day > 0.0;
    }
};

/// Expected scraps of a week, wet kg.
struct HouseholdScraps {
    std::array<Ranged, household::kinds.size() + 1> kinds_kg;  ///< the last is coffee grounds
    Ranged fed_kg;                                             ///< of them what worms may have
    Ranged not_fed_kg;                                         ///< the rest

    static constexpr std::string_view name(std::size_t kind) noexcept {
        return kind == household::grounds ? std::string_view("coffee grounds")
                                          : household::kinds[kind].name;
    }
    /// Its row of the table; empty: it is not fed.
    static constexpr std::string_view feedstock(std::size_t kind) noexcept {
        return kind == household::grounds ? std::string_view("coffee-grounds")
                                          : household::kinds[kind].feedstock;
    }
    static constexpr bool fed(std::size_t kind) noexcept { return !feedstock(kind).empty(); }
};

/// The scraps to expect. The range is that of the means of the studies; one house may have half of
/// it or twice as much. Threads: pure.
inline HouseholdScraps household_scraps(const Household& who) {
    HouseholdScraps scraps;
    const double persons = who.people + 7.0 * who.meals_a_day / household::meals_a_week;
    for (std::size_t kind = 0; kind < household::kinds.size(); ++kind)
        scraps.kinds_kg[kind] =
            (persons * household::kinds[kind].share) * Ranged(household::a_person_kg);
    const Feedstock grounds =
        feedstock_at(*find_id(HouseholdScraps::feedstock(household::grounds)));
    const auto& moisture = *grounds[Property::moisture_wet];
    const Ranged dry = (7.0 * who.coffee_cups_a_day) *
                       (Ranged(household::coffee_a_cup_kg) * Ranged(household::grounds_left));
    scraps.kinds_kg[household::grounds] =
        dry / Ranged(moisture.value, moisture.low, moisture.high).rest();
    for (std::size_t kind = 0; kind < scraps.kinds_kg.size(); ++kind)
        (HouseholdScraps::fed(kind) ? scraps.fed_kg : scraps.not_fed_kg) += scraps.kinds_kg[kind];
    return scraps;
}

}  // namespace feed
