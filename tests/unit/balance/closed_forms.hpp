#pragma once
// Published closed forms for two and three ingredients, as oracles: they share nothing with the
// library. Percentages as in the source.

namespace feed_test {

/// An ingredient: moisture (% wet), carbon and nitrogen (% dry).
struct Ingredient {
    double moisture;
    double carbon;
    double nitrogen;
};

/// Mass of the second ingredient for a C:N ratio (Richard and Trautmann 1996).
inline double second_for_cn(double first_mass, const Ingredient& first, const Ingredient& second,
                            double ratio) {
    return first_mass * first.nitrogen * (ratio - first.carbon / first.nitrogen) *
           (100.0 - first.moisture) /
           (second.nitrogen * (second.carbon / second.nitrogen - ratio) *
            (100.0 - second.moisture));
}

/// Mass of the second ingredient for a moisture in per cent (Richard and Trautmann 1996).
inline double second_for_moisture(double first_mass, const Ingredient& first,
                                  const Ingredient& second, double moisture) {
    return first_mass * (first.moisture - moisture) / (moisture - second.moisture);
}

/// Masses of the second and third ingredient for both at once: sum a_i Q_i = 0 with
/// a_i = (1 - M_i)(C_i - R N_i), sum b_i Q_i = 0 with b_i = M_i - G (Richard, simultaneous
/// solution, in words), by Cramer's rule.
struct TwoMasses {
    double second;
    double third;
};
inline TwoMasses simultaneous(double first_mass, const Ingredient& first, const Ingredient& second,
                              const Ingredient& third, double ratio, double moisture) {
    const auto a = [&](const Ingredient& i) {
        return (1.0 - i.moisture / 100.0) * (i.carbon - ratio * i.nitrogen) / 100.0;
    };
    const auto b = [&](const Ingredient& i) { return (i.moisture - moisture) / 100.0; };
    const double determinant = a(second) * b(third) - a(third) * b(second);
    const double right_a = -first_mass * a(first);
    const double right_b = -first_mass * b(first);
    return {(right_a * b(third) - a(third) * right_b) / determinant,
            (a(second) * right_b - right_a * b(second)) / determinant};
}

}  // namespace feed_test
