#pragma once
// What the looks at a plot say one after another, and where they cannot both be right.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/diary/observation.hpp"

namespace feed {

/// A plot is gone when at most this share of it is left: as for any feeding (D).
inline constexpr double plot_gone_share = 0.15;

/// Whether a look found a plot gone; nothing where it did not look for that.
inline std::optional<bool> gone_at(const PlotLook& look) noexcept {
    if (look.gone) return look.gone;
    if (look.share_left) return *look.share_left <= plot_gone_share;
    if (look.left && look.left->in_kilograms() > 0.0) return false;
    return std::nullopt;
}

/// Whether a look found worms at a plot; nothing where it did not look for that. What is gone has
/// been found.
inline std::optional<bool> found_at(const PlotLook& look) noexcept {
    if (look.found) return look.found;
    if (look.worms) return *look.worms != WormsOnIt::none;
    if (look.gone && *look.gone) return true;
    return std::nullopt;
}

/// A look at a plot with its day.
struct DatedPlotLook {
    Date date;
    PlotLook look;
};

/// All looks at a plot, by day; looks of one day in the order written.
inline std::vector<DatedPlotLook> looks_at(std::span<const Observation> observations,
                                           std::size_t plot) {
    std::vector<DatedPlotLook> looks;
    for (const Observation& seen : observations) {
        for (const PlotLook& look : seen.plots) {
            if (look.plot == plot) looks.push_back({seen.date, look});
        }
    }
    std::stable_sort(looks.begin(), looks.end(), [](const auto& a, const auto& b) {
        return day_number(a.date) < day_number(b.date);
    });
    return looks;
}

/// Asks back where looks at one plot cannot both be right: more left than before, or there again
/// after it was gone. In the order of the plots.
/// @return questions, each naming the plot and both days; empty when all is well. Threads: pure.
inline std::vector<std::string> plot_questions(std::span<const Observation> observations) {
    std::vector<std::size_t> plots;
    for (const Observation& seen : observations) {
        for (const PlotLook& look : seen.plots) {
            if (std::find(plots.begin(), plots.end(), look.plot) == plots.end())
                plots.push_back(look.plot);
        }
    }
    std::sort(plots.begin(), plots.end());
    std::vector<std::string> questions;
    for (const std::size_t plot : plots) {
        const auto looks = looks_at(observations, plot);
        for (std::size_t i = 1; i < looks.size(); ++i) {
            const PlotLook& before = looks[i - 1].look;
            const PlotLook& now = looks[i].look;
            const double rise = now.share_left.value_or(0.0) - before.share_left.value_or(1.0);
            const bool weighed_more = before.left && now.left &&
                                      now.left->in_kilograms() > 1.05 * before.left->in_kilograms();
            const bool back = gone_at(before).value_or(false) && !gone_at(now).value_or(true);
            if (rise <= 0.01 && !weighed_more && !back) continue;
            questions.push_back("Plot " + std::to_string(plot) + ": on " + text(looks[i - 1].date) +
                                " \"" + text(before) + "\", on " + text(looks[i].date) + " \"" +
                                text(now) + "\". More left than before: which look is right?");
            break;
        }
    }
    return questions;
}

}  // namespace feed
