#pragma once
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "feed/feedstock/assumed.hpp"
#include "feed/feedstock/carbon_nitrogen.hpp"
#include "feed/feedstock/default_range.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed {

/// One value that the keeper gives, in the stored unit of its property (fractions 0 to 1).
struct OwnValue {
    Property property = Property::moisture_wet;
    double value = 0.0;
    std::optional<double> low;   ///< both or none
    std::optional<double> high;  ///< both or none
};

/// A feedstock the keeper defines, or what differs from one of the table.
struct OwnFeedstock {
    std::string name;
    std::vector<OwnValue> values;
    std::vector<MeasuredMass> measures;
    std::optional<std::uint8_t> roles;  ///< bits of Role; scraps where nothing is said
    std::optional<Stance> stance;
    std::optional<DecayClass> decay_class;
    std::optional<std::uint32_t> cautions;  ///< bits of Caution
    std::string note;
};

/// A feedstock made from what the keeper said, and what was taken for granted in making it.
struct DefinedFeedstock {
    Feedstock feedstock;
    std::vector<std::string> said;
};

/// How far a stated C:N may lie from stated carbon over stated nitrogen, as a share: rounding of
/// both, no more.
inline constexpr double cn_tolerance = 0.05;

namespace detail {

inline constexpr std::string_view own_source = "own value";

inline Error own_error(ErrorCode code, const std::string& name, Property property, double value,
                       std::string allowed, std::string message) {
    return make_error(code, std::string(kind(property).key) + " of " + name,
                      significant(value, 6) + " " + std::string(kind(property).unit),
                      std::move(allowed), std::move(message));
}

inline Datum own_datum(double value, std::string_view method, Grade grade) {
    Datum datum;
    datum.value = datum.low = datum.high = value;
    datum.grade = grade;
    datum.range_grade = grade;
    datum.sources = own_source;
    datum.method = method;
    return datum;
}

/// Puts one given value in, or says what is wrong with it.
inline void put_own_value(Feedstock& feedstock, const OwnValue& own, Errors& errors) {
    const PropertyKind& limits = kind(own.property);
    const std::string allowed =
        significant(limits.lowest, 6) + " to " + significant(limits.highest, 6);
    for (const double number :
         {own.value, own.low.value_or(own.value), own.high.value_or(own.value)}) {
        if (!std::isfinite(number)) {
            errors.push_back(own_error(ErrorCode::not_a_number, feedstock.name, own.property,
                                       number, allowed, "the value is not a finite number"));
            return;
        }
        if (number < limits.lowest || number > limits.highest) {
            const bool percent = limits.highest <= 1.0 && number > 1.0 && number <= 100.0;
            Error error = own_error(percent ? ErrorCode::percent_slip : ErrorCode::out_of_range,
                                    feedstock.name, own.property, number, allowed,
                                    percent ? "looks like per cent where a share of 1 is due"
                                            : std::string(limits.meaning) + " cannot be that");
            if (percent)
                error = offered(std::move(error), "; write ",
                                {significant(number, 4) + " %", significant(number / 100.0, 4)});
            errors.push_back(std::move(error));
            return;
        }
    }
    auto datum = own_datum(own.value, "given", Grade::a);
    if (own.low && own.high) {
        if (!(*own.low <= own.value && own.value <= *own.high)) {
            errors.push_back(own_error(ErrorCode::low_above_high, feedstock.name, own.property,
                                       own.value, "low, value and high in rising order",
                                       "the range " + significant(*own.low, 4) + " to " +
                                           significant(*own.high, 4) + " does not hold the value"));
            return;
        }
        datum.low = *own.low;
        datum.high = *own.high;
    } else {
        set_default_range(datum, own.property);
    }
    feedstock[own.property] = datum;
}

inline bool gives(const OwnFeedstock& own, Property property) {
    for (const auto& value : own.values) {
        if (value.property == property) return true;
    }
    return false;
}

inline void derive(Feedstock& feedstock, Property property, double value, Grade grade) {
    auto datum = own_datum(value, "derived F5, F8", worst(grade, Grade::b));
    set_default_range(datum, property);
    feedstock[property] = datum;
}

/// C:N with the range of the quotient.
inline void derive_ratio(Feedstock& feedstock) {
    const auto& carbon = feedstock[Property::carbon_dry];
    const auto& nitrogen = feedstock[Property::nitrogen_dry];
    feedstock[Property::cn_ratio].reset();
    if (!carbon || !nitrogen || nitrogen->value <= 0.0) return;
    auto datum = own_datum(carbon->value / nitrogen->value, "derived F5",
                           worst(worst(carbon->grade, nitrogen->grade), Grade::b));
    const Range quotient = cn_quotient(Range(*carbon), Range(*nitrogen));
    datum.low = quotient.low;
    datum.high = quotient.high;
    datum.range_grade = worst(carbon->range_grade, nitrogen->range_grade);
    feedstock[Property::cn_ratio] = datum;
}

inline void check_ratio(const Feedstock& feedstock, Errors& errors) {
    const auto& carbon = feedstock[Property::carbon_dry];
    const auto& nitrogen = feedstock[Property::nitrogen_dry];
    const auto& ratio = feedstock[Property::cn_ratio];
    if (nitrogen->value > 0.0 &&
        std::abs(carbon->value / nitrogen->value - ratio->value) <= cn_tolerance * ratio->value)
        return;
    const std::string follows =
        nitrogen->value > 0.0 ? significant(carbon->value / nitrogen->value, 3) : "no ratio at all";
    errors.push_back(
        own_error(ErrorCode::contradiction, feedstock.name, Property::cn_ratio, ratio->value,
                  "within 5 % of " + follows + ", or leave one of the three out",
                  "C:N " + significant(ratio->value, 3) + " contradicts carbon " +
                      significant(carbon->value * 100.0, 3) + " % and nitrogen " +
                      significant(nitrogen->value * 100.0, 3) + " %, which give " + follows));
}

/// Makes carbon, nitrogen and C:N agree: the given ones stand, the others follow.
inline void tie_carbon_nitrogen(DefinedFeedstock& made, const OwnFeedstock& own, Errors& errors) {
    Feedstock& feedstock = made.feedstock;
    const bool has_carbon = gives(own, Property::carbon_dry);
    const bool has_nitrogen = gives(own, Property::nitrogen_dry);
    const bool has_ratio = gives(own, Property::cn_ratio);
    if (!has_carbon && !has_nitrogen && !has_ratio) return;
    if (has_ratio && feedstock[Property::cn_ratio]->value <= 0.0) {
        errors.push_back(own_error(ErrorCode::out_of_range, feedstock.name, Property::cn_ratio,
                                   feedstock[Property::cn_ratio]->value, "more than 0",
                                   "a C:N of nothing cannot be; without nitrogen leave it out"));
        return;
    }
    if (has_carbon && has_nitrogen && has_ratio) return check_ratio(feedstock, errors);
    if (!has_carbon && !(has_nitrogen && has_ratio) && !feedstock[Property::carbon_dry]) {
        auto datum = own_datum(assumed::carbon.value, "judgement", Grade::d);
        datum.low = assumed::carbon.low;
        datum.high = assumed::carbon.high;
        datum.sources = "RULE-CARBON";
        feedstock[Property::carbon_dry] = datum;
        made.said.push_back("carbon of " + feedstock.name + " is taken as 45 % of the dry mass");
    }
    if (!has_ratio) return derive_ratio(feedstock);
    const auto& ratio = *feedstock[Property::cn_ratio];
    if (has_nitrogen) {
        const auto& nitrogen = *feedstock[Property::nitrogen_dry];
        const double carbon = ratio.value * nitrogen.value;
        if (carbon > 1.0)
            errors.push_back(own_error(ErrorCode::contradiction, feedstock.name, Property::cn_ratio,
                                       ratio.value,
                                       "at most " + significant(1.0 / nitrogen.value, 3),
                                       "with this nitrogen the dry mass would be more than all "
                                       "carbon"));
        else
            derive(feedstock, Property::carbon_dry, carbon, nitrogen.grade);
    } else {
        derive(feedstock, Property::nitrogen_dry,
               feedstock[Property::carbon_dry]->value / ratio.value, ratio.grade);
    }
}

inline void check_sum(const Feedstock& feedstock, Errors& errors, Property first, Property second) {
    const auto& a = feedstock[first];
    const auto& b = feedstock[second];
    if (!a || !b || a->value + b->value <= 1.0 + 1e-9) return;
    errors.push_back(own_error(ErrorCode::contradiction, feedstock.name, first, a->value,
                               "at most " + significant(1.0 - b->value, 4),
                               std::string(kind(first).key) + " and " +
                                   std::string(kind(second).key) +
                                   " together are more than the whole"));
}

/// Fat on the dry basis and as it is follow from one another.
inline void tie_fat(Feedstock& feedstock, const OwnFeedstock& own) {
    const auto& moisture = feedstock[Property::moisture_wet];
    if (!moisture || moisture->value >= 1.0) return;
    const double dry = 1.0 - moisture->value;
    if (gives(own, Property::fat_wet) && !gives(own, Property::fat_dry))
        derive(feedstock, Property::fat_dry,
               std::min(1.0, feedstock[Property::fat_wet]->value / dry), Grade::b);
    else if (gives(own, Property::fat_dry) && !gives(own, Property::fat_wet))
        derive(feedstock, Property::fat_wet, feedstock[Property::fat_dry]->value * dry, Grade::b);
}

/// @param as  how it came to the bar: "is like", "is read as", or "is" where it is itself barred.
inline void refuse_to_lift(const Feedstock& feedstock, const Feedstock& barred, std::string_view as,
                           Errors& errors) {
    const bool itself = &feedstock == &barred;
    errors.push_back(make_error(
        ErrorCode::contradiction, "stance of " + feedstock.name,
        feedstock.stance == Stance::feed ? "feed" : "feed little", "avoid, or no stance",
        feedstock.name + " " + std::string(as) + (itself ? "" : " " + barred.name + ", which is") +
            " never fed (" + std::string(why_barred(barred)) +
            "): leave the stance out. Instead: " + std::string(instead_of(barred))));
}

/// The bar of what it is like holds for an own feedstock too, cautions and all. Only a stance that
/// is given lifts it, and not where `bar_stands`.
inline void inherit_bar(Feedstock& feedstock, const OwnFeedstock& own, const Feedstock& like,
                        std::string_view as, Errors& errors) {
    if (like.stance != Stance::avoid && !like.stance_lifted) return;
    feedstock.cautions |= like.cautions;
    const bool lifted = own.stance && *own.stance != Stance::avoid;
    feedstock.stance_lifted = feedstock.stance != Stance::avoid;
    if (lifted && bar_stands(like)) refuse_to_lift(feedstock, like, as, errors);
}

/// What the lookup, which names what is refused, reads in a name, where that is never fed; nothing
/// else. Beside a harmless `like` the keeper has said what it is (a phenol-free till roll), and
/// only what no file may feed counts: waste of pets and people, caustic lime, treated wood,
/// plastics, poisons, but not a coating alone.
inline std::optional<Feedstock> barred_by_name(const std::string& name, const Feedstock* like) {
    const auto found = look_up(name);
    if (!found || found->feedstock->stance != Stance::avoid) return std::nullopt;
    const Feedstock& named = *found->feedstock;
    const bool only_coated = named.cautions == bit(Caution::coated);
    if (like != nullptr && (!bar_stands(named) || only_coated)) return std::nullopt;
    return named;
}

/// A feedstock that only names what is never fed is as barred as one that is like it.
inline void bar_by_name(Feedstock& feedstock, const OwnFeedstock& own, const Feedstock* like,
                        Errors& errors) {
    const auto named = barred_by_name(own.name, like);
    if (!named) return;
    feedstock.stance = own.stance.value_or(Stance::avoid);
    feedstock.heap_stance = named->heap_stance;
    feedstock.why_barred = named->why_barred;
    feedstock.instead = named->instead;
    if (like == nullptr) feedstock.group = named->group;
    inherit_bar(feedstock, own, *named, "is read as", errors);
}

/// The bar of an own feedstock: of what it is like, of its name, of its cautions.
inline void bar(Feedstock& feedstock, const OwnFeedstock& own, const Feedstock* like,
                Errors& errors) {
    if (like != nullptr) inherit_bar(feedstock, own, *like, "is like", errors);
    if (errors.empty() && feedstock.stance != Stance::avoid)
        bar_by_name(feedstock, own, like, errors);
    // Waste of pets is never fed, whatever else is said of it.
    if (is_body_waste(feedstock) && !own.stance) feedstock.stance = Stance::avoid;
    if (like == nullptr && errors.empty() && feedstock.stance != Stance::avoid &&
        is_body_waste(feedstock))
        refuse_to_lift(feedstock, feedstock, "is", errors);
}

/// A loose density that is given moves the settled one that was taken over with it.
inline void scale_settled(Feedstock& feedstock, const OwnFeedstock& own, const Feedstock& like) {
    auto& settled = feedstock[Property::bulk_density_settled];
    const auto& before = like[Property::bulk_density_loose];
    const auto& now = feedstock[Property::bulk_density_loose];
    if (!gives(own, Property::bulk_density_loose) || gives(own, Property::bulk_density_settled))
        return;
    if (!settled || !before || !now) return;
    const double times = now->value / before->value;
    const PropertyKind& limits = kind(Property::bulk_density_settled);
    for (double* end : {&settled->value, &settled->low, &settled->high})
        *end = std::clamp(times * *end, limits.lowest, limits.highest);
    settled->grade = settled->range_grade = Grade::d;
    settled->sources = own_source;
    settled->method = "scaled with the loose density";
}

inline std::string own_id(const std::string& name) {
    std::string id = plain_text(name);
    for (char& c : id) {
        if (c == ' ') c = '-';
    }
    return id;
}

}  // namespace detail

/// A feedstock from what the keeper says: all of it, or what differs from `like`. Values without a
/// range get the stated default range (grade D). Of carbon, nitrogen and C:N the given ones stand
/// and the others follow; with only C:N or only nitrogen, carbon is taken as 45 % of dry mass and
/// `said` tells so. What is neither given nor in `like` stays unknown.
/// like: a feedstock to start from, or null; not kept. Errors, all at once: empty name,
/// not_a_number, out_of_range, percent_slip, low_above_high, duplicate_entry, contradiction (C:N
/// against C and N; parts above the whole; a stance that would lift a bar that stands),
/// missing_value (no moisture). What is like something barred, or has a name that `look_up` reads
/// as barred, is barred with its cautions, unless a stance is given; then `stance_lifted` says so.
/// Threads: pure.
inline Result<DefinedFeedstock> own_feedstock(const OwnFeedstock& own,
                                              const Feedstock* like = nullptr) {
    Errors errors;
    DefinedFeedstock made;
    Feedstock& feedstock = made.feedstock;
    if (like != nullptr) {
        feedstock = *like;
        if (feedstock.like_id.empty()) feedstock.like_id = like->id;
    }
    if (plain_text(own.name).empty())
        errors.push_back({ErrorCode::empty, "feedstock", own.name, "a name",
                          "the feedstock has no name", "", 0, 0});
    feedstock.id = detail::own_id(own.name);
    feedstock.name = own.name;
    if (!own.note.empty()) feedstock.note = own.note;
    feedstock.roles =
        own.roles.value_or(like != nullptr ? like->roles : static_cast<std::uint8_t>(Role::scraps));
    feedstock.stance = own.stance.value_or(feedstock.stance);
    feedstock.decay_class = own.decay_class.value_or(feedstock.decay_class);
    feedstock.cautions = own.cautions.value_or(feedstock.cautions);
    detail::bar(feedstock, own, like, errors);
    for (std::size_t i = 0; i < own.values.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (own.values[i].property == own.values[j].property)
                errors.push_back(detail::own_error(
                    ErrorCode::duplicate_entry, own.name, own.values[i].property,
                    own.values[i].value, "each property once", "the property is given twice"));
        }
        detail::put_own_value(feedstock, own.values[i], errors);
    }
    for (const auto& measure : own.measures) {
        const auto same = [&](const MeasuredMass& m) { return m.measure == measure.measure; };
        std::erase_if(feedstock.measures, same);
        feedstock.measures.push_back(measure);
    }
    if (!errors.empty()) return errors;
    if (!feedstock[Property::moisture_wet])
        errors.push_back(detail::own_error(ErrorCode::missing_value, own.name,
                                           Property::moisture_wet, std::nan(""),
                                           "a moisture, or a feedstock it is like",
                                           "without its moisture nothing can be computed"));
    detail::tie_carbon_nitrogen(made, own, errors);
    detail::tie_fat(feedstock, own);
    if (like != nullptr) detail::scale_settled(feedstock, own, *like);
    detail::check_sum(feedstock, errors, Property::carbon_dry, Property::ash_dry);
    detail::check_sum(feedstock, errors, Property::fat_dry, Property::ash_dry);
    detail::check_sum(feedstock, errors, Property::lignin_dry, Property::ash_dry);
    if (own.decay_class && like != nullptr && *own.decay_class != like->decay_class) {
        for (const auto pool :
             {Property::labile_share, Property::cellulosic_share, Property::lignin_like_share}) {
            if (!detail::gives(own, pool)) feedstock[pool].reset();
        }
    }
    set_default_pools(feedstock);
    if (!errors.empty()) return errors;
    return made;
}

}  // namespace feed
