#pragma once
// Looks that weigh more than was laid.
#include <algorithm>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "feed/diary/plot_history.hpp"
#include "feed/trial/trial.hpp"

namespace feed {

/// What lies in a bed takes up water until so much of it is water (D): dry paper gets heavier
/// there.
inline constexpr double wettest_plot_share = 0.8;
/// Scales and crumbs of bedding: so much more is no contradiction (D).
inline constexpr double weighing_slack = 1.05;

/// The most that a portion may weigh in its place.
/// @param laid_kg  as it was laid, wet.
inline double heaviest_plot_kg(const Feedstock& feedstock, double laid_kg) noexcept {
    const double dry_kg = laid_kg * detail::dry_share(feedstock).value_or(0.0);
    return weighing_slack * std::max(laid_kg, dry_kg / (1.0 - wettest_plot_share));
}

/// Looks, by plot and then by day, at which a portion weighed more than it can. The portion is
/// named by its number only: its weight would tell the one who looks which feed it is.
/// Threads: pure.
inline std::vector<DatedPlotLook> heavy_looks(const Trial& trial, const TrialLayout& layout,
                                              const TrialPortions& portions,
                                              std::span<const Observation> observations) {
    std::vector<DatedPlotLook> heavy;
    for (const Plot& plot : layout.plots) {
        if (!plot.feed) continue;
        const double most = heaviest_plot_kg(*trial.feeds[*plot.feed].feedstock,
                                             portions.laid[*plot.feed].in_kilograms());
        for (DatedPlotLook& look : looks_at(observations, plot.number)) {
            if (look.look.left && look.look.left->in_kilograms() > most)
                heavy.push_back(std::move(look));
        }
    }
    return heavy;
}

/// "Plot 3: on 2026-03-11 "500 g left". More than was laid: is the weight right?"
inline std::string heavy_look_text(const DatedPlotLook& look) {
    return "Plot " + std::to_string(look.look.plot) + ": on " + text(look.date) + " \"" +
           seen_text(look.look) + "\". More than was laid: is the weight right?";
}

}  // namespace feed
