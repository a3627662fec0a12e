#pragma once
// Simulated keepers: bins of six kinds whose true course is known, looked at with the errors that
// people make. Nothing here uses the library's own model of a bin but the pool shares of the food.
#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <string_view>
#include <vector>

namespace feed_test {

enum class BinKind { like_the_model, late, stretched, gathering, slow, fast };
inline constexpr std::array<std::string_view, 6> bin_kind_words{
    "first order", "late by 2 to 6 days", "Weibull", "Gompertz", "slow", "fast"};

class Keeper {
public:
    Keeper(BinKind kind, unsigned seed) : bits_(seed), kind_(kind) {
        rate_ = 0.30 * std::exp(0.45 * normal());
        if (kind == BinKind::slow) rate_ = 0.30 / (2.0 + uniform());
        if (kind == BinKind::fast) rate_ = 0.30 * (2.0 + uniform());
        lag_ = kind == BinKind::late ? 2.0 + 4.0 * uniform() : 0.0;
        shape_ = kind == BinKind::stretched ? 0.7 + 0.7 * uniform() : 1.0;
        bias_ = 0.08 * normal();
        error_ = 0.10 * std::exp(0.3 * normal());
    }

    double uniform() { return (static_cast<double>(bits_() >> 11) + 0.5) / 9007199254740992.0; }
    double normal() {
        return std::sqrt(-2.0 * std::log(uniform())) * std::cos(6.283185307179586 * uniform());
    }
    /// How fast one feeding goes beside the others.
    double feeding_speed() { return std::exp(0.3 * normal()); }

    /// Exponent of the labile pool. @param days, effective  since the feeding.
    double exponent(double speed, double days, double effective) const {
        if (days <= lag_) return 0.0;
        const double acting = effective * (1.0 - lag_ / days);
        const double x = rate_ * speed * acting;
        if (kind_ == BinKind::stretched) return std::pow(x, shape_);
        // Microbes and worms gather: the speed grows by a tenth a day from half.
        if (kind_ == BinKind::gathering)
            return 0.5 * rate_ * speed * (std::exp(0.1 * acting) - 1.0) / 0.1;
        return x;
    }
    /// What the keeper says is left, in tenths.
    double says(double left) {
        const double seen = left + bias_ + error_ * normal();
        return 0.1 * std::floor(10.0 * std::clamp(seen, 0.0, 1.0) + 0.5);
    }

private:
    std::mt19937_64 bits_;
    BinKind kind_;
    double rate_;
    double lag_;
    double shape_;
    double bias_;
    double error_;
};

/// Share of the dry matter left: slow pools go at 0.06 and 0.012 where the labile one goes at 0.30.
inline double share_left(const std::array<double, 3>& pools, double exponent) {
    return pools[0] * std::exp(-exponent) + pools[1] * std::exp(-0.2 * exponent) +
           pools[2] * std::exp(-0.04 * exponent);
}

}  // namespace feed_test
