#pragma once
// What weakens a trial: each flaw a sentence, and what it takes away from the answer.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/plot_history.hpp"
#include "feed/trial/heavy_look.hpp"
#include "feed/trial/trial_record.hpp"

namespace feed {

/// So many times may a looker who knows the key and hopes misread a time (D). By simulation hope of
/// that size would make 25 to 53 of 100 trials of like feeds probable; what lies beyond it 4 to 5
/// (docs/trials.md).
inline constexpr double hoped_fold = 1.2;

namespace detail {

/// How much a flaw takes away.
enum class Flaw {
    says_little,  ///< the tests allow for it
    not_clear,    ///< too little is known for a clear answer
    not_fair,     ///< something else may have made the difference
};

/// Notes a sentence on a flaw and what it takes away.
inline void say_flaw(TrialReading& reading, std::string sentence, Flaw flaw) {
    reading.flaws.push_back(std::move(sentence));
    reading.valid = reading.valid && flaw == Flaw::says_little;
    reading.fair = reading.fair && flaw != Flaw::not_fair;
}

/// Plots whose looks say little.
struct LookFaults {
    std::size_t lost = 0;
    std::size_t unseen = 0;    ///< nobody looked for what is asked
    std::size_t happened = 0;  ///< found or gone between two looks
    std::size_t wide = 0;      ///< of those, with the looks far apart
};

inline LookFaults look_faults(const Trial& trial, const TrialReading& reading) {
    LookFaults faults;
    for (std::size_t i = 0; i < reading.plots.size(); ++i) {
        if (!is_laid(trial, reading.layout.plots[i])) continue;
        const PlotRecord& plot = reading.plots[i];
        const PlotInterval& seen = asked(plot, trial.question);
        if (plot.lost) ++faults.lost;
        if (!plot.lost && !seen.by_days && !(seen.after_days > 0.0)) ++faults.unseen;
        if (!seen.by_days) continue;
        ++faults.happened;
        if (*seen.by_days > 2.0 * std::max(seen.after_days, 1.0)) ++faults.wide;
    }
    return faults;
}

/// The names in "Noor", "Noor and Ada" or "Noor, Ada", as written.
inline std::vector<std::string> people_in(std::string_view words) {
    std::vector<std::string> people;
    std::string name;
    const auto close = [&] {
        while (!name.empty() && name.back() == ' ')
            name.pop_back();
        if (!name.empty()) people.push_back(std::exchange(name, ""));
    };
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool parts = words[i] == ',' || words[i] == '&' || words[i] == '+';
        if (parts || words.substr(i, 5) == " and ") {
            close();
            if (!parts) i += 4;
        } else if (words[i] != ' ' || !name.empty()) {
            name += words[i];
        }
    }
    close();
    return people;
}

/// Whether two names are one, whatever their capitals.
inline bool same_person(std::string_view a, std::string_view b) noexcept {
    const auto small = [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    };
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [&](char x, char y) { return small(x) == small(y); });
}

}  // namespace detail

/// Who laid the portions, and so knows the key, and also looked, by name; "" where nobody did.
/// Threads: pure.
inline std::string who_laid_looked(const Trial& trial, std::span<const Observation> observations) {
    const std::vector<std::string> laid = detail::people_in(trial.laid_by);
    for (const Observation& seen : observations) {
        if (seen.plots.empty()) continue;
        for (const std::string& looked : detail::people_in(seen.by)) {
            for (const std::string& layer : laid)
                if (detail::same_person(looked, layer)) return layer;
        }
    }
    return "";
}

namespace detail {

/// What made the trial unfair: the worst flaws, said first.
inline void note_unfair(const Trial& trial, std::span<const Observation> observations,
                        const TrialPortions& portions, TrialReading& reading) {
    for (const PlotQuestion& question : plot_questions(observations))
        say_flaw(reading, text(question), Flaw::not_fair);
    for (const DatedPlotLook& look : heavy_looks(trial, reading.layout, portions, observations))
        say_flaw(reading, heavy_look_text(look), Flaw::not_fair);
    if (portions.unequal)
        say_flaw(reading,
                 "The portions were unequal from the start, so a difference may be theirs.",
                 Flaw::not_fair);
    if (!trial.changed.empty() && trial.design.rounds > 1)
        say_flaw(
            reading,
            "Between rounds something changed (" + trial.changed + "): the rounds do not compare.",
            trial.design.kind == TrialKind::alone ? Flaw::not_fair : Flaw::says_little);
    const std::string who = who_laid_looked(trial, observations);
    if (who.empty()) return;
    reading.blind = false;
    say_flaw(reading,
             who +
                 " laid the portions and also looked: who knows the key sees what "
                 "was hoped for.",
             Flaw::not_clear);
}

inline void note_flaws(const Trial& trial, std::span<const Observation> observations,
                       const TrialPortions& portions, TrialReading& reading) {
    note_unfair(trial, observations, portions, reading);
    const auto say = [&](std::string sentence, bool spoils) {
        say_flaw(reading, std::move(sentence), spoils ? Flaw::not_clear : Flaw::says_little);
    };
    const LookFaults faults = look_faults(trial, reading);
    if (faults.lost > 0)
        say(std::to_string(faults.lost) + (faults.lost == 1 ? " portion was" : " portions were") +
                " lost and tell nothing after that.",
            5 * faults.lost > reading.plots.size());
    if (faults.unseen > 0)
        say("At " + std::to_string(faults.unseen) +
                (faults.unseen == 1 ? " portion" : " portions") + " nobody looked for this.",
            5 * faults.unseen > reading.plots.size());
    if (faults.happened > 0 && 2 * faults.wide > faults.happened)
        say("The looks were too far apart: most portions went from untouched to " +
                std::string(text(trial.question)) + " between two of them.",
            false);
}

/// Whether two feeds lie further apart than hope could have read into the looks.
inline bool beyond_hope(const FeedRatio& ratio) noexcept {
    return ratio.high < 1.0 / hoped_fold || ratio.low > hoped_fold;
}

}  // namespace detail

}  // namespace feed
