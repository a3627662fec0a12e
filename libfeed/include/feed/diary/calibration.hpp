#pragma once
// A bin's own rates from what its keeper saw: a Bayesian update on the logarithms of two rates.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "feed/forecast/parameters.hpp"

namespace feed {

/// How a leftover was judged; each has its own usual error.
enum class LeftoverMethod : std::uint8_t {
    weighed,  ///< taken out, weighed, as a share of what was fed
    by_eye,   ///< "about half is gone"
    gone,     ///< the day on which the feeding was found to be gone
};

/// Usual error (standard deviation) of a share left, by how it was judged. Grade D: a weighed
/// leftover carries bed matter and its water changes; by eye people round to quarters; "gone" is
/// anywhere between nothing and a quarter.
constexpr double usual_error_of_share(LeftoverMethod method) noexcept {
    switch (method) {
        case LeftoverMethod::weighed:
            return 0.06;
        case LeftoverMethod::by_eye:
            return 0.12;
        case LeftoverMethod::gone:
            return 0.08;
    }
    return 0.12;
}

/// Largest share of the dry matter of a feeding that is still called gone (D).
inline constexpr double gone_share = 0.15;

/// One look at one feeding. Times are effective days: days at 25 C in a moist, airy, nitrogen-rich
/// bed that would decay as much (`Forecast::effective_days`).
struct LeftoverEvidence {
    std::array<double, 3> pool_shares{};     ///< of its volatile solids, summing to 1
    std::array<double, 3> effective_days{};  ///< labile, cellulosic, lignin-like; at least 0
    double share_left = 0.0;                 ///< of the dry matter fed, 0..1
    double standard_error = 0.12;            ///< of `share_left`, above 0
    std::size_t feeding = 0;                 ///< which feeding, to find contradictions
    std::string label;                       ///< said when it does not fit ("2026-03-14, by eye")
};

/// What is believed before any look: normal on the logarithm of each multiplier.
struct RatePrior {
    std::array<double, 2> log_mean{};       ///< 0: the typical rate
    std::array<double, 2> log_deviation{};  ///< standard deviation
};

/// 5 % point of the standard normal distribution, so that a published range holds 90 %.
inline constexpr double normal_at_95 = 1.6448536269514722;

/// The published ranges as the prior: centre at the typical rate, width so that the spread of the
/// range (its logarithm) holds 90 %. For the labile pool this is exactly the published range; for
/// the slow pools, whose typical rate is the top of their range, it is the same width about it (D).
inline RatePrior published_prior() noexcept {
    const auto width = [](ForecastParameter parameter) {
        const ParameterKind& kind = feed::kind(parameter);
        return std::log(kind.high / kind.low) / (2.0 * normal_at_95);
    };
    RatePrior prior;
    prior.log_deviation = {width(ForecastParameter::labile_rate_per_day),
                           width(ForecastParameter::cellulosic_rate_per_day)};
    return prior;
}

/// One rate before and after the update, with the interval that holds 90 %.
struct RateChange {
    ForecastParameter parameter = ForecastParameter::labile_rate_per_day;
    double before_per_day = 0.0;
    double before_low_per_day = 0.0;
    double before_high_per_day = 0.0;
    double after_per_day = 0.0;
    double after_low_per_day = 0.0;
    double after_high_per_day = 0.0;
    bool outside_published = false;  ///< the whole new interval lies outside the published range
};

/// A look that does not fit, and why.
struct Misfit {
    enum class Kind : std::uint8_t {
        outlier,        ///< far from what all other looks say; not used
        contradiction,  ///< more left than at an earlier look at the same feeding; used
    };
    Kind kind = Kind::outlier;
    std::size_t evidence = 0;  ///< index
    std::size_t rival = 0;     ///< the earlier look of a contradiction
    double deviations = 0.0;   ///< how far off, in standard deviations
    std::string text;          ///< one sentence
};

/// The bin's own rates.
struct Calibration {
    std::array<RateChange, 3> rates;
    std::array<double, 2> log_multiplier{};  ///< labile; cellulosic and lignin-like together
    std::array<double, 3> covariance{};      ///< of the two: 11, 12, 22
    std::size_t used = 0;
    std::vector<Misfit> misfits;
};

namespace detail {

struct RateMode {
    std::array<double, 2> at{};
    std::array<double, 3> covariance{};
};

/// Share left, its slopes and curvatures with respect to the two log multipliers (the second moves
/// cellulosic and lignin-like together; there is no mixed curvature).
struct LeftModel {
    double left = 0.0;
    std::array<double, 2> slope{};
    std::array<double, 2> curvature{};
};

inline LeftModel left_model(const LeftoverEvidence& look, const std::array<double, 2>& at) {
    constexpr std::array<ForecastParameter, 3> rates{ForecastParameter::labile_rate_per_day,
                                                     ForecastParameter::cellulosic_rate_per_day,
                                                     ForecastParameter::lignin_like_rate_per_day};
    LeftModel model;
    for (std::size_t pool = 0; pool < 3; ++pool) {
        const std::size_t which = pool == 0 ? 0 : 1;
        const double exponent =
            feed::kind(rates[pool]).value * std::exp(at[which]) * look.effective_days[pool];
        const double left = look.pool_shares[pool] * std::exp(-exponent);
        model.left += left;
        model.slope[which] -= left * exponent;
        model.curvature[which] -= left * exponent * (1.0 - exponent);
    }
    return model;
}

inline double disbelief(std::span<const LeftoverEvidence> looks, const std::vector<bool>& used,
                        const RatePrior& prior, const std::array<double, 2>& at) {
    double sum = 0.0;
    for (std::size_t p = 0; p < 2; ++p) {
        const double z = (at[p] - prior.log_mean[p]) / prior.log_deviation[p];
        sum += 0.5 * z * z;
    }
    for (std::size_t i = 0; i < looks.size(); ++i) {
        if (!used[i]) continue;
        const double z =
            (looks[i].share_left - left_model(looks[i], at).left) / looks[i].standard_error;
        sum += 0.5 * z * z;
    }
    return sum;
}

/// The most believable multipliers by damped Gauss-Newton (Levenberg-Marquardt), and the inverse of
/// the curvature there (Laplace; the Gauss-Newton curvature, which is always positive definite).
inline RateMode rate_mode(std::span<const LeftoverEvidence> looks, const std::vector<bool>& used,
                          const RatePrior& prior, std::array<double, 2> at) {
    double damping = 1e-3;
    double current = disbelief(looks, used, prior, at);
    std::array<double, 3> curvature{};
    for (int iteration = 0; iteration < 200; ++iteration) {
        std::array<double, 2> slope{};
        curvature = {};
        for (std::size_t p = 0; p < 2; ++p) {
            const double precision = 1.0 / (prior.log_deviation[p] * prior.log_deviation[p]);
            slope[p] = (at[p] - prior.log_mean[p]) * precision;
            curvature[2 * p] = precision;
        }
        for (std::size_t i = 0; i < looks.size(); ++i) {
            if (!used[i]) continue;
            const LeftModel model = left_model(looks[i], at);
            const double weight = 1.0 / (looks[i].standard_error * looks[i].standard_error);
            const double residual = looks[i].share_left - model.left;
            for (std::size_t p = 0; p < 2; ++p)
                slope[p] -= weight * residual * model.slope[p];
            curvature[0] += weight * model.slope[0] * model.slope[0];
            curvature[1] += weight * model.slope[0] * model.slope[1];
            curvature[2] += weight * model.slope[1] * model.slope[1];
        }
        const double first = curvature[0] * (1.0 + damping);
        const double second = curvature[2] * (1.0 + damping);
        const double determinant = first * second - curvature[1] * curvature[1];
        const std::array<double, 2> step{
            -(second * slope[0] - curvature[1] * slope[1]) / determinant,
            -(first * slope[1] - curvature[1] * slope[0]) / determinant};
        const std::array<double, 2> next{at[0] + step[0], at[1] + step[1]};
        const double after = disbelief(looks, used, prior, next);
        if (after <= current) {
            at = next;
            current = after;
            damping = damping > 1e-9 ? damping * 0.2 : 0.0;
            if (std::fabs(step[0]) + std::fabs(step[1]) < 1e-12) break;
        } else {
            damping = damping > 1e-6 ? damping * 8.0 : 1e-3;
            if (damping > 1e12) break;
        }
    }
    const double determinant = curvature[0] * curvature[2] - curvature[1] * curvature[1];
    return {at,
            {curvature[2] / determinant, -curvature[1] / determinant, curvature[0] / determinant}};
}

/// Residual of one look in standard deviations, with the part the look itself explains taken out
/// (internally studentised).
inline double studentised(const LeftoverEvidence& look, const RateMode& mode) {
    const LeftModel model = left_model(look, mode.at);
    const double explained = model.slope[0] * model.slope[0] * mode.covariance[0] +
                             2.0 * model.slope[0] * model.slope[1] * mode.covariance[1] +
                             model.slope[1] * model.slope[1] * mode.covariance[2];
    const double own = look.standard_error * look.standard_error;
    const double left_over = own - explained > 0.1 * own ? own - explained : 0.1 * own;
    return (look.share_left - model.left) / std::sqrt(left_over);
}

/// A label that begins a sentence ("The look of ...") within one.
inline std::string inside_sentence(std::string label) {
    if (label.substr(0, 4) == "The ") label[0] = 't';
    return label;
}

/// One contradiction at most for each look: against the earlier look that it contradicts most.
inline void add_contradictions(std::span<const LeftoverEvidence> looks,
                               std::vector<Misfit>& misfits) {
    std::vector<std::size_t> order(looks.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return looks[a].feeding < looks[b].feeding ||
               (looks[a].feeding == looks[b].feeding &&
                looks[a].effective_days[0] < looks[b].effective_days[0]);
    });
    // Within a feeding the smallest leftover so far is the rival of every later look.
    std::size_t least = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const LeftoverEvidence& after = looks[order[i]];
        if (i == 0 || looks[order[i - 1]].feeding != after.feeding) {
            least = order[i];
            continue;
        }
        const LeftoverEvidence& before = looks[least];
        const double grown = after.share_left - before.share_left;
        const double error = std::sqrt(before.standard_error * before.standard_error +
                                       after.standard_error * after.standard_error);
        if (grown > 2.0 * error) {
            misfits.push_back({Misfit::Kind::contradiction, order[i], least, grown / error,
                               after.label + " says more is left than " +
                                   inside_sentence(before.label) +
                                   " did earlier: one of the two is a slip, or food was added."});
        } else if (after.share_left < before.share_left) {
            least = order[i];
        }
    }
}

}  // namespace detail

/// Beyond this many studentised deviations a look is set aside and said to be an outlier.
inline constexpr double outlier_deviations = 3.5;
/// With fewer looks than this nobody can say which of them is the odd one.
inline constexpr std::size_t least_looks_for_outlier = 4;
/// With more odd looks than this it is the model that does not fit, and no more are set aside.
inline constexpr std::size_t most_outliers = 20;

/// Updates the rates of a bin. With no evidence the prior comes back. A look that lies further than
/// `outlier_deviations` from what the rest says is set aside, the worst first, and named;
/// contradictions within a feeding are named and kept.
/// @param looks  any number, finite. Time: n log n, and the fit about 20 n for each look set aside.
/// Threads: pure. Source: Laplace approximation of the posterior with a normal prior on the
/// logarithm (Gelman et al. 2013, Bayesian Data Analysis, chapter 4; recalled).
inline Calibration calibrate(std::span<const LeftoverEvidence> looks,
                             const RatePrior& prior = published_prior()) {
    Calibration result;
    std::vector<bool> used(looks.size(), true);
    detail::RateMode mode = detail::rate_mode(looks, used, prior, prior.log_mean);
    result.used = looks.size();
    while (result.used >= least_looks_for_outlier && result.misfits.size() < most_outliers) {
        std::size_t worst = looks.size();
        double most = outlier_deviations;
        for (std::size_t i = 0; i < looks.size(); ++i) {
            if (!used[i]) continue;
            const double deviations = std::fabs(detail::studentised(looks[i], mode));
            if (deviations > most) {
                most = deviations;
                worst = i;
            }
        }
        if (worst == looks.size()) break;
        const bool more = detail::studentised(looks[worst], mode) > 0.0;
        used[worst] = false;
        --result.used;
        result.misfits.push_back({Misfit::Kind::outlier, worst, worst, most,
                                  looks[worst].label + " says far " + (more ? "more" : "less") +
                                      " is left than every other look; it was set aside."});
        mode = detail::rate_mode(looks, used, prior, mode.at);
    }
    detail::add_contradictions(looks, result.misfits);

    result.log_multiplier = mode.at;
    result.covariance = mode.covariance;
    constexpr std::array<ForecastParameter, 3> rates{ForecastParameter::labile_rate_per_day,
                                                     ForecastParameter::cellulosic_rate_per_day,
                                                     ForecastParameter::lignin_like_rate_per_day};
    for (std::size_t pool = 0; pool < 3; ++pool) {
        const std::size_t which = pool == 0 ? 0 : 1;
        const ParameterKind& published = kind(rates[pool]);
        const double half_before = normal_at_95 * prior.log_deviation[which];
        const double half_after =
            normal_at_95 * std::sqrt(which == 0 ? mode.covariance[0] : mode.covariance[2]);
        RateChange& change = result.rates[pool];
        change.parameter = rates[pool];
        change.before_per_day = published.value * std::exp(prior.log_mean[which]);
        change.before_low_per_day = change.before_per_day * std::exp(-half_before);
        change.before_high_per_day = change.before_per_day * std::exp(half_before);
        change.after_per_day = published.value * std::exp(mode.at[which]);
        change.after_low_per_day = change.after_per_day * std::exp(-half_after);
        change.after_high_per_day = change.after_per_day * std::exp(half_after);
        change.outside_published =
            change.after_high_per_day < published.low || change.after_low_per_day > published.high;
    }
    return result;
}

}  // namespace feed
