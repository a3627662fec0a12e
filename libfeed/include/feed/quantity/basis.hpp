#pragma once
#include <compare>

#include "feed/quantity/units.hpp"

namespace feed {

/// Tag of the wet basis: as it is, water included.
struct Wet {};
/// Tag of the dry basis: after drying to constant mass.
struct Dry {};

/// A mass fraction, kg per kg, of a mass on one basis. Fractions on different bases do not mix:
/// `WetFraction + DryFraction` and `WetMass * DryFraction` do not compile.
template <class BasisTag>
class Fraction {
public:
    constexpr Fraction() noexcept = default;
    /// A fraction from a number between 0 and 1 (never per cent).
    explicit constexpr Fraction(double number) noexcept : number_(number) {}
    /// The number, kg per kg.
    constexpr double value() const noexcept { return number_; }
    constexpr double in_percent() const noexcept { return number_ * 100.0; }
    friend constexpr auto operator<=>(Fraction, Fraction) noexcept = default;
    friend constexpr Fraction operator+(Fraction a, Fraction b) noexcept {
        return Fraction(a.number_ + b.number_);
    }
    friend constexpr Fraction operator-(Fraction a, Fraction b) noexcept {
        return Fraction(a.number_ - b.number_);
    }
    friend constexpr Fraction operator*(double factor, Fraction a) noexcept {
        return Fraction(factor * a.number_);
    }

private:
    double number_ = 0.0;
};

using WetFraction = Fraction<Wet>;
using DryFraction = Fraction<Dry>;
/// Moisture is on the wet basis everywhere: water over wet mass.
using Moisture = WetFraction;

/// A mass that says whether its water is counted.
template <class BasisTag>
class BasisMass {
public:
    constexpr BasisMass() noexcept = default;
    explicit constexpr BasisMass(Mass mass) noexcept : mass_(mass) {}
    /// The mass without its basis.
    constexpr Mass mass() const noexcept { return mass_; }
    constexpr double in_kilograms() const noexcept { return mass_.value(); }
    friend constexpr bool operator==(BasisMass a, BasisMass b) noexcept {
        return a.mass_.value() == b.mass_.value();
    }
    friend constexpr auto operator<=>(BasisMass a, BasisMass b) noexcept {
        return a.mass_.value() <=> b.mass_.value();
    }
    friend constexpr BasisMass operator+(BasisMass a, BasisMass b) noexcept {
        return BasisMass(kilograms(a.in_kilograms() + b.in_kilograms()));
    }
    friend constexpr BasisMass operator-(BasisMass a, BasisMass b) noexcept {
        return BasisMass(kilograms(a.in_kilograms() - b.in_kilograms()));
    }
    friend constexpr BasisMass operator*(double factor, BasisMass a) noexcept {
        return BasisMass(kilograms(factor * a.in_kilograms()));
    }
    /// The part of the mass that a fraction of the same basis stands for.
    friend constexpr Mass operator*(BasisMass a, Fraction<BasisTag> part) noexcept {
        return kilograms(a.in_kilograms() * part.value());
    }

private:
    Mass mass_ = kilograms(0.0);
};

using WetMass = BasisMass<Wet>;
using DryMass = BasisMass<Dry>;

constexpr WetMass wet_kilograms(double number) {
    return WetMass(kilograms(number));
}
constexpr WetMass wet_grams(double number) {
    return WetMass(grams(number));
}
constexpr DryMass dry_kilograms(double number) {
    return DryMass(kilograms(number));
}

/// Dry mass in a wet mass: wet x (1 - moisture).
constexpr DryMass dry_part(WetMass wet, Moisture moisture) noexcept {
    return dry_kilograms(wet.in_kilograms() * (1.0 - moisture.value()));
}
/// Water in a wet mass: wet x moisture.
constexpr Mass water_part(WetMass wet, Moisture moisture) noexcept {
    return wet * moisture;
}
/// Wet mass that holds a dry mass: dry / (1 - moisture); moisture below 1.
constexpr WetMass wet_from_dry(DryMass dry, Moisture moisture) noexcept {
    return wet_kilograms(dry.in_kilograms() / (1.0 - moisture.value()));
}
/// A fraction of the wet mass as a fraction of the dry mass; moisture below 1.
constexpr DryFraction to_dry(WetFraction part, Moisture moisture) noexcept {
    return DryFraction(part.value() / (1.0 - moisture.value()));
}
/// A fraction of the dry mass as a fraction of the wet mass.
constexpr WetFraction to_wet(DryFraction part, Moisture moisture) noexcept {
    return WetFraction(part.value() * (1.0 - moisture.value()));
}
/// Moisture on the wet basis from water over dry mass u: u / (1 + u), u at least 0.
constexpr Moisture moisture_from_dry_basis(double water_per_dry) noexcept {
    return Moisture(water_per_dry / (1.0 + water_per_dry));
}

}  // namespace feed
