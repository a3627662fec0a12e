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
#include "feed/quantity/sorted.hpp"

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
    std::size_t observation = 0;  ///< its index in the diary
};

/// All looks at a plot, by day; looks of one day in the order written.
inline std::vector<DatedPlotLook> looks_at(std::span<const Observation> observations,
                                           std::size_t plot) {
    std::vector<DatedPlotLook> looks;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        for (const PlotLook& look : observations[i].plots) {
            if (look.plot == plot) looks.push_back({observations[i].date, look, i});
        }
    }
    detail::sort_by(looks, [](const DatedPlotLook& look) { return day_number(look.date); });
    return looks;
}

/// Two looks at one plot that cannot both be right.
struct PlotQuestion {
    DatedPlotLook before;
    DatedPlotLook now;
};

/// Asks back, naming the plot and both days.
inline std::string text(const PlotQuestion& question) {
    const auto& [before, now] = question;
    return "Plot " + std::to_string(now.look.plot) + ": on " + text(before.date) + " \"" +
           seen_text(before.look) + "\", on " + text(now.date) + " \"" + seen_text(now.look) +
           "\". More left than before: which look is right?";
}

namespace detail {

/// The last earlier look that says there was less than now; nothing when none does.
inline std::optional<std::size_t> contradicted_by(std::span<const DatedPlotLook> earlier,
                                                  const PlotLook& now) {
    // Each kind of word counts against the last of its kind: looks between may say nothing of it.
    bool share = now.share_left.has_value();
    bool weight = now.left.has_value();
    const auto gone_now = gone_at(now);
    bool gone = gone_now && !*gone_now;
    for (std::size_t i = earlier.size(); i-- > 0;) {
        const PlotLook& before = earlier[i].look;
        if (gone && gone_at(before).value_or(false)) return i;
        if (share && before.share_left && *now.share_left > *before.share_left + 0.01) return i;
        if (weight && before.left && now.left->in_kilograms() > 1.05 * before.left->in_kilograms())
            return i;
        share = share && !before.share_left;
        weight = weight && !before.left;
        gone = gone && !gone_at(before);
    }
    return std::nullopt;
}

}  // namespace detail

/// Where looks at one plot cannot both be right: more left than before, or there again after it was
/// gone. The first such pair of each plot, in the order of the plots. Threads: pure.
inline std::vector<PlotQuestion> plot_questions(std::span<const Observation> observations) {
    std::vector<std::size_t> plots;
    for (const Observation& seen : observations) {
        for (const PlotLook& look : seen.plots) {
            if (std::find(plots.begin(), plots.end(), look.plot) == plots.end())
                plots.push_back(look.plot);
        }
    }
    std::sort(plots.begin(), plots.end());
    std::vector<PlotQuestion> questions;
    for (const std::size_t plot : plots) {
        const auto looks = looks_at(observations, plot);
        for (std::size_t i = 1; i < looks.size(); ++i) {
            const auto before = detail::contradicted_by(std::span(looks).first(i), looks[i].look);
            if (!before) continue;
            questions.push_back({looks[*before], looks[i]});
            break;
        }
    }
    return questions;
}

}  // namespace feed
