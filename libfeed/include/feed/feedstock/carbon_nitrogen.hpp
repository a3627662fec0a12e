#pragma once
#include <algorithm>
#include <optional>

#include "feed/feedstock/feedstock.hpp"
#include "feed/quantity/range.hpp"

namespace feed {

/// Range of carbon over nitrogen where each may lie anywhere in its own range. Nitrogen is taken as
/// at least a hundredth of its typical value, so that the quotient has an end.
/// @param carbon, nitrogen  kg/kg dry, nitrogen above 0.
constexpr Range cn_quotient(const Range& carbon, const Range& nitrogen) noexcept {
    const double least = std::max(nitrogen.low, 0.01 * nitrogen.value);
    return {carbon.value / nitrogen.value, carbon.low / nitrogen.high, carbon.high / least};
}

/// Carbon and nitrogen in the dry mass of a feedstock, kg/kg.
struct CarbonNitrogen {
    Range carbon;
    Range nitrogen;
    Range cn_ratio;  ///< zero where there is no nitrogen or no carbon
    /// A C:N range of its own ties nitrogen to carbon (N = C / C:N); without one each lies anywhere
    /// in its range.
    bool tied = false;
    Grade grade = Grade::a;

    constexpr bool nitrogen_free() const noexcept { return !(nitrogen.value > 0.0); }
    constexpr bool carbon_free() const noexcept { return !(carbon.value > 0.0); }
    constexpr bool is_zero() const noexcept { return nitrogen_free() && carbon_free(); }
};

namespace detail {

constexpr CarbonNitrogen tied_pair(Range carbon, double nitrogen, Range cn_ratio,
                                   Grade grade) noexcept {
    CarbonNitrogen both;
    both.carbon = carbon;
    both.nitrogen = Range(nitrogen);
    both.grade = grade;
    if (both.nitrogen_free() || both.carbon_free()) return both;
    both.tied = true;
    both.cn_ratio =
        Range(carbon.value / nitrogen, std::max(cn_ratio.low, 1e-6), cn_ratio.high).around_value();
    both.nitrogen =
        Range(nitrogen, carbon.low / both.cn_ratio.high, carbon.high / both.cn_ratio.low);
    return both;
}

constexpr CarbonNitrogen free_pair(Range carbon, Range nitrogen, Grade grade) noexcept {
    CarbonNitrogen both;
    both.carbon = carbon;
    both.nitrogen = nitrogen;
    both.grade = grade;
    if (!both.nitrogen_free() && !both.carbon_free()) {
        both.cn_ratio = cn_quotient(carbon, nitrogen);
        both.nitrogen.low = std::max(nitrogen.low, 0.01 * nitrogen.value);
    }
    return both;
}

}  // namespace detail

/// Carbon and nitrogen of a feedstock from two of carbon, nitrogen and C:N; nothing when fewer are
/// known. A range of C:N that is narrower than the quotient of the other two ranges ties them.
/// Constant time.
constexpr std::optional<CarbonNitrogen> carbon_nitrogen_of(const Feedstock& feedstock) noexcept {
    const auto& carbon = feedstock[Property::carbon_dry];
    const auto& nitrogen = feedstock[Property::nitrogen_dry];
    const auto& ratio = feedstock[Property::cn_ratio];
    const auto range = [](const Datum& datum) { return Range(datum).around_value(); };
    if (carbon && nitrogen) {
        const Grade grade = worst(carbon->grade, nitrogen->grade);
        const auto free = detail::free_pair(range(*carbon), range(*nitrogen), grade);
        const bool says_more = ratio && nitrogen->value > 0.0 &&
                               (ratio->low > free.cn_ratio.low || ratio->high < free.cn_ratio.high);
        if (!says_more) return free;
        return detail::tied_pair(range(*carbon), nitrogen->value, range(*ratio), grade);
    }
    if (ratio && carbon && ratio->value > 0.0)
        return detail::tied_pair(range(*carbon), carbon->value / ratio->value, range(*ratio),
                                 worst(carbon->grade, ratio->grade));
    if (ratio && nitrogen)
        return detail::tied_pair(ratio->value * range(*nitrogen), nitrogen->value, range(*ratio),
                                 worst(nitrogen->grade, ratio->grade));
    return std::nullopt;
}

}  // namespace feed
