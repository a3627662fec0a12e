#pragma once
#include <optional>
#include <string>

#include "feed/feedstock/own_feedstock.hpp"

namespace feed {

/// What a food label or a food table says of 100 g, as it is. Fractions of the wet mass, 0 to 1.
struct NutritionLabel {
    double protein = 0.0;
    double fat = 0.0;
    double carbohydrate = 0.0;  ///< see carbohydrate_has_fibre
    /// True for carbohydrate by difference (US tables), false where fibre stands beside it (EU
    /// labels).
    bool carbohydrate_has_fibre = true;
    std::optional<double> sugars;
    std::optional<double> fibre;
    std::optional<double> water;  ///< by difference where it is not given
    std::optional<double> ash;
    std::optional<double> salt;    ///< as NaCl
    std::optional<double> sodium;  ///< goes before salt
    /// Protein over nitrogen that the label's maker used; see jones_factor.
    double protein_factor = 6.25;
};

/// A food with its own factor of protein to nitrogen.
struct JonesFactor {
    std::string_view food;
    double factor;
};

/// Protein to nitrogen factors (Jones 1931 as printed by Merrill and Watt 1973 and FAO 1949): total
/// nitrogen of a table is its crude protein over the factor the table used.
inline constexpr JonesFactor jones_factors[] = {
    {"egg", 6.25},         {"meat", 6.25},    {"maize", 6.25},   {"bean", 6.25},
    {"milk", 6.38},        {"cheese", 6.38},  {"dairy", 6.38},   {"wheat", 5.83},
    {"rye", 5.83},         {"barley", 5.83},  {"oat", 5.83},     {"millet", 5.83},
    {"wheat flour", 5.70}, {"bread", 5.70},   {"pasta", 5.70},   {"wheat bran", 6.31},
    {"rice", 5.95},        {"soybean", 5.71}, {"peanut", 5.46},  {"almond", 5.18},
    {"nut", 5.30},         {"seed", 5.30},    {"gelatin", 5.55},
};

/// The factor of a kind of food, or 6.25 for all others. Threads: pure.
constexpr double jones_factor(std::string_view food) noexcept {
    for (const auto& known : jones_factors) {
        if (known.food == food) return known.factor;
    }
    return 6.25;
}

/// Ash where a label gives neither water nor ash, of the wet mass (grade D).
inline constexpr double default_label_ash = 0.01;

/// Carbon in a food as it is: 0.53 protein + 0.77 fat + 0.41 sugars + 0.444 of the rest of the
/// carbohydrate; 0.43 of the carbohydrate where sugars are not given (formula F1, after the
/// empirical formulas of Haug 1993). Carbohydrate includes fibre. Threads: pure.
constexpr double food_carbon(double protein, double fat, double carbohydrate,
                             std::optional<double> sugars) noexcept {
    const double rest =
        sugars ? 0.41 * *sugars + 0.444 * (carbohydrate - *sugars) : 0.43 * carbohydrate;
    return 0.53 * protein + 0.77 * fat + rest;
}

namespace detail {

inline void check_label(const std::string& name, const NutritionLabel& label, double carbohydrate,
                        Errors& errors) {
    const auto report = [&](ErrorCode code, const char* what, double value, std::string allowed,
                            std::string message) {
        errors.push_back(make_error(code, std::string(what) + " of " + name,
                                    significant(value * 100.0, 4) + " g in 100 g",
                                    std::move(allowed), std::move(message)));
    };
    const std::pair<const char*, double> parts[] = {
        {"protein", label.protein},
        {"fat", label.fat},
        {"carbohydrate", label.carbohydrate},
        {"sugars", label.sugars.value_or(0.0)},
        {"fibre", label.fibre.value_or(0.0)},
        {"water", label.water.value_or(0.0)},
        {"ash", label.ash.value_or(0.0)},
        {"salt", label.salt.value_or(0.0)},
        {"sodium", label.sodium.value_or(0.0)},
    };
    for (const auto& [what, value] : parts) {
        if (!std::isfinite(value))
            report(ErrorCode::not_a_number, what, value, "0 to 100 g in 100 g",
                   "the value is not a finite number");
        else if (value < 0.0 || value > 1.0)
            report(ErrorCode::out_of_range, what, value, "0 to 100 g in 100 g",
                   "a label counts grams in 100 g");
    }
    if (!(label.protein_factor >= 5.0 && label.protein_factor <= 8.0))
        report(ErrorCode::out_of_range, "protein factor", label.protein_factor, "5 to 8",
               "nitrogen is 13 to 19 % of protein");
    if (!errors.empty()) return;
    const double sum = label.protein + label.fat + carbohydrate + label.water.value_or(0.0) +
                       label.ash.value_or(0.0);
    // Food tables round each part; their sums reach 102.5 g.
    if (sum > 1.025)
        report(ErrorCode::contradiction, "sum of the label", sum, "at most 102.5 g in 100 g",
               "protein, fat, carbohydrate, water and ash are more than the whole");
    if (label.sugars.value_or(0.0) > carbohydrate + 1e-9)
        report(ErrorCode::contradiction, "sugars", *label.sugars, "at most the carbohydrate",
               "sugars are part of the carbohydrate");
}

}  // namespace detail

/// The values of a feedstock from a nutrition label, ready for own_feedstock: moisture, carbon
/// (F1), nitrogen (protein over factor, F4), ash, fat, protein, carbohydrate, fibre and sodium.
/// Water that is not given is what the other parts leave. Errors, all at once: not_a_number,
/// out_of_range, contradiction (more than the whole; all water). `said` gets what was taken for
/// granted. Threads: pure.
inline Result<std::vector<OwnValue>> label_values(const std::string& name,
                                                  const NutritionLabel& label,
                                                  std::vector<std::string>& said) {
    Errors errors;
    const double carbohydrate =
        label.carbohydrate + (label.carbohydrate_has_fibre ? 0.0 : label.fibre.value_or(0.0));
    detail::check_label(name, label, carbohydrate, errors);
    if (!errors.empty()) return errors;
    double ash = label.ash.value_or(0.0);
    double water = label.water.value_or(0.0);
    const double organic = label.protein + label.fat + carbohydrate;
    if (!label.ash) {
        // Salt is ash too; where water is given, what is left over is ash.
        const double salt = label.sodium ? 2.54 * *label.sodium : label.salt.value_or(0.0);
        ash =
            label.water ? std::max(0.0, 1.0 - water - organic) : std::max(default_label_ash, salt);
        if (!label.water)
            said.push_back("ash of " + name + " is taken as " + significant(ash * 100.0, 2) +
                           " g in 100 g");
    }
    if (!label.water) {
        water = std::max(0.0, 1.0 - organic - ash);
        said.push_back("water of " + name + " is what the label leaves: " +
                       significant(water * 100.0, 3) + " g in 100 g");
    }
    const double dry = label.water ? 1.0 - water : organic + ash;
    if (!(dry > 0.0)) {
        errors.push_back(detail::own_error(ErrorCode::contradiction, name, Property::moisture_wet,
                                           water, "below 1",
                                           "a food of water alone needs no label"));
        return errors;
    }
    const auto share = [dry](double part) { return std::min(1.0, part / dry); };
    std::vector<OwnValue> values{
        {Property::moisture_wet, 1.0 - dry, {}, {}},
        {Property::carbon_dry,
         share(food_carbon(label.protein, label.fat, carbohydrate, label.sugars)),
         {},
         {}},
        {Property::nitrogen_dry, share(label.protein / label.protein_factor), {}, {}},
        {Property::ash_dry, share(ash), {}, {}},
        {Property::fat_dry, share(label.fat), {}, {}},
        {Property::protein_wet, label.protein, {}, {}},
        {Property::fat_wet, label.fat, {}, {}},
        {Property::carbohydrate_wet, carbohydrate, {}, {}},
    };
    if (label.fibre) values.push_back({Property::fibre_wet, *label.fibre, {}, {}});
    if (label.sodium)
        values.push_back({Property::sodium_wet, *label.sodium, {}, {}});
    else if (label.salt)
        values.push_back({Property::sodium_wet, *label.salt / 2.54, {}, {}});
    return values;
}

/// A feedstock from a nutrition label. `own` gives the name and what else is known; its values go
/// before those of the label. Grades: what the label says A, what follows from it B. Errors: those
/// of label_values and own_feedstock. Threads: pure.
inline Result<DefinedFeedstock> feedstock_from_label(const OwnFeedstock& own,
                                                     const NutritionLabel& label,
                                                     const Feedstock* like = nullptr) {
    std::vector<std::string> said;
    auto values = label_values(own.name, label, said);
    if (!values) return values.errors();
    OwnFeedstock both = own;
    for (const auto& value : *values) {
        if (!detail::gives(own, value.property)) both.values.push_back(value);
    }
    auto made = own_feedstock(both, like);
    if (!made) return made;
    for (const auto property : {Property::moisture_wet, Property::carbon_dry,
                                Property::nitrogen_dry, Property::ash_dry, Property::fat_dry}) {
        auto& datum = made->feedstock[property];
        if (!datum || detail::gives(own, property)) continue;
        datum->grade = worst(datum->grade, Grade::b);
        datum->method = "derived F0, F1, F4 from a nutrition label";
    }
    made->said.insert(made->said.begin(), said.begin(), said.end());
    return made;
}

}  // namespace feed
