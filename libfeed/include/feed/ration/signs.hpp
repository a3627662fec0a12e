#pragma once
#include <algorithm>
#include <array>
#include <span>
#include <string>
#include <vector>

#include "feed/diary/sign_table.hpp"
#include "feed/quantity/sorted.hpp"
#include "feed/ration/sign_remedies.hpp"
#include "feed/ration/sign_shares.hpp"

namespace feed {

/// One possible cause in this bed.
struct Diagnosis {
    Cause cause = Cause::normal_life;
    /// Share of the likelihood, 0 to 1, over all causes; an order, not a measurement (grade D).
    double share = 0.0;
    bool harmless = false;
    std::string name;
    std::string why;   ///< what the bed says for or against it, or ""
    std::string test;  ///< one quick test
    SignStep remedy;   ///< one computed step, to be taken when the test says so
};

/// The causes of what was noticed, likeliest first.
struct SignsAnswer {
    std::vector<Diagnosis> causes;
    /// Indices into `causes`: the order in which to act, most reversible steps first, among causes
    /// at least half as likely as the first.
    std::vector<std::size_t> steps;
    bool harmless = false;  ///< the likeliest cause is harmless
    std::string text;       ///< one sentence
    /// What is good to know of the signs themselves, a sentence or two each.
    std::vector<std::string> notes;
    std::vector<Assumption> assumed;  ///< nothing where no bed was described
};

namespace detail {

struct Evidence {
    double factor = 1.0;
    std::string why;
};

/// What the level of a hazard does to the weight of its cause. A bed that was only assumed says
/// nothing.
inline Evidence by_level(Level level, bool said, std::string_view what) {
    if (!said || level == Level::unknown) return {1.0, ""};
    switch (level) {
        case Level::act:
            return {6.0, "The bed as described is " + std::string(what) + "."};
        case Level::watch:
            return {2.5, "The bed as described is near " + std::string(what) + "."};
        default:
            return {0.35, "The bed as described is not " + std::string(what) + "."};
    }
}

inline Evidence evidence_for(Cause cause, const Bed& said, const BedNumbers& bed,
                             const HazardNumbers& n, const HazardNumbers& fed, UnitSystem units) {
    const bool moisture_said =
        said.squeeze.has_value() || said.moisture.has_value() || !said.bedding.empty();
    const bool diary = !said.earlier.empty();
    const bool temperature_said = !std::holds_alternative<std::monostate>(said.temperature);
    const Feeding* latest = last_feeding(said);
    const double days_ago = diary ? -in_days(latest->day) : 1e9;
    switch (cause) {
        case Cause::too_wet:
            return by_level(n[Hazard::wet].level, moisture_said, "too wet");
        case Cause::too_dry:
            return by_level(n[Hazard::dry].level, moisture_said, "too dry");
        case Cause::too_sour:
            return by_level(n[Hazard::sour].level, diary || said.ph.has_value(), "sour");
        case Cause::packed:
            return by_level(std::max(n[Hazard::airless].level, fed[Hazard::airless].level),
                            moisture_said, "short of air");
        case Cause::rotting_food:
            return by_level(n[Hazard::overfed].level, diary, "overfed");
        case Cause::too_hot:
            return by_level(n[Hazard::hot].level, temperature_said, "too hot");
        case Cause::too_cold: {
            if (!temperature_said) return {1.0, ""};
            const double t = bed.temperature_low_c;
            if (t < 10.0) return {5.0, "It is at " + words::temperature(t, units) + "."};
            return {t < 15.0 ? 1.0 : 0.1, ""};
        }
        case Cause::ammonia:
            return by_level(fed[Hazard::ammonia].level, diary, "short of bedding for its nitrogen");
        case Cause::salty:
            return by_level(n[Hazard::salty].level, diary, "salty");
        case Cause::crowded: {
            if (!said.worms.wet_mass && !said.worms.count) return {1.0, ""};
            const double stocking = bed.worms_kg.value / bed.surface_m2;
            const double pound_a_foot = kilograms_per_pound / (metres_per_foot * metres_per_foot);
            if (stocking > pound_a_foot)
                return {6.0, "There are " + words::stocking(stocking, units) +
                                 " of worms; more than " + words::stocking(pound_a_foot, units) +
                                 " is crowded."};
            return {0.3, ""};
        }
        case Cause::new_bin:
            if (!said.age) return {1.0, ""};
            if (in_days(*said.age) <= 3.0)
                return {8.0,
                        "The worms moved in " + words::day_count(in_days(*said.age)) + " ago."};
            if (in_days(*said.age) <= 14.0) return {4.0, "The bin is not two weeks old."};
            return {in_days(*said.age) <= 42.0 ? 1.0 : 0.02, ""};
        case Cause::disliked_food: {
            if (!diary) return {1.0, ""};
            for (const Portion& portion : latest->portions) {
                const Feedstock& f = *portion.feedstock;
                if (f.most_wet_kg_per_kg_worms &&
                    portion.wet_mass.in_kilograms() >
                        *f.most_wet_kg_per_kg_worms * bed.worms_kg.value)
                    return {5.0, "The last feeding held much " + f.name + "."};
            }
            return {0.5, ""};
        }
        case Cause::fresh_food:
        case Cause::uncovered_food:
            if (!diary) return {1.0, ""};
            if (days_ago <= 4.0)
                return {2.0, "The last feeding was " + words::day_count(days_ago) + " ago."};
            return {days_ago > 14.0 ? 0.2 : 0.7, ""};
        default:
            return {1.0, ""};
    }
}

/// How hard a step is to take back; lime and moving worms last.
constexpr int hardness(StepKind kind) noexcept {
    switch (kind) {
        case StepKind::none:
        case StepKind::look:
            return 0;
        case StepKind::feed_less:
        case StepKind::leave_out:
            return 1;
        case StepKind::cool:
            return 2;
        case StepKind::add_bedding:
            return 3;
        case StepKind::add_water:
            return 4;
        case StepKind::spread:
            return 5;
        case StepKind::add_lime:
            return 6;
    }
    return 7;
}

/// The squeeze that a sign tells of, driest last: who sees water run need not squeeze.
inline std::optional<Squeeze> squeeze_seen(const std::array<bool, sign_count>& seen) noexcept {
    constexpr std::pair<Sign, Squeeze> tells[] = {{Sign::streams, Squeeze::streams},
                                                  {Sign::wet, Squeeze::many_drops},
                                                  {Sign::dry, Squeeze::crumbly},
                                                  {Sign::drops, Squeeze::drops}};
    for (const auto& [sign, squeeze] : tells) {
        if (seen[static_cast<std::size_t>(sign)]) return squeeze;
    }
    return std::nullopt;
}

/// The weight of a cause for signs: of each sign its share, times how much the sign tells.
inline double weight_for(const std::array<bool, sign_count>& seen, Cause cause) noexcept {
    double weight = 0.0;
    for (std::size_t s = 0; s < sign_count; ++s) {
        if (!seen[s]) continue;
        const auto sign = static_cast<Sign>(s);
        double of_sign = 0.0;
        for (const SignCause& row : sign_causes)
            of_sign += row.sign == sign ? row.weight : 0.0;
        weight += telling(sign) * sign_weight(sign, cause) / of_sign;
    }
    return weight;
}

/// A sentence about a sign that its causes do not say, or "".
constexpr std::string_view note_on(Sign sign) noexcept {
    switch (sign) {
        case Sign::dead_worms:
            return "If many are dying, move the living into fresh damp card now.";
        case Sign::soldier_flies:
            return "Soldier fly larvae do not harm worms, but they eat fast and warm the bed.";
        case Sign::white_worms:
            return "Thin white worms that stay white are pot worms, not young compost worms.";
        case Sign::liquid:
            return "Empty the tray. Keep the liquid off plants that you eat raw.";
        case Sign::mould:
            return "Do not breathe the dust of mould; people with weak lungs keep away.";
        case Sign::rodents:
            return "Droppings can make people ill.";
        case Sign::sprouts:
            return "Pull up what grows and bury it.";
        default:
            return "";
    }
}

/// What can harm worms goes before what is harmless, unless that is twice as likely: a test costs
/// less than the worms.
inline void put_danger_first(std::vector<Diagnosis>& causes) {
    if (causes.empty() || !causes.front().harmless) return;
    const double enough = 0.5 * causes.front().share;
    const auto danger = std::find_if(
        causes.begin(), causes.end(),
        [enough](const Diagnosis& cause) { return !cause.harmless && cause.share >= enough; });
    if (danger != causes.end()) std::rotate(causes.begin(), danger, danger + 1);
}

inline std::string verdict(const Diagnosis& first) {
    const std::string name =
        first.harmless ? "Most likely harmless: " + first.name + ". "
                       : "Most likely " + first.name + ", but make the test before you act. ";
    return name + first.test;
}

/// The indices of causes at least half as likely as the first, easily undone steps first.
inline std::vector<std::size_t> order_of_steps(const std::vector<Diagnosis>& causes) {
    std::vector<std::size_t> steps;
    for (std::size_t i = 0; i < causes.size(); ++i) {
        if (causes[i].share >= 0.5 * causes.front().share) steps.push_back(i);
    }
    sort_by(steps, [&](std::size_t at) { return hardness(causes[at].remedy.kind); });
    return steps;
}

/// @param described  nothing: no bed is known; then a usual one is judged and steps are in shares.
inline SignsAnswer causes_in(const RationInput* described, std::span<const Sign> signs,
                             UnitSystem units) {
    SignsAnswer answer;
    if (signs.empty()) return answer;
    std::array<bool, sign_count> seen{};
    for (const Sign sign : signs)
        seen[static_cast<std::size_t>(sign)] = true;

    RationInput in = described != nullptr ? *described : RationInput{};
    in.units = units;
    Bed& noticed = in.bed;
    if (!noticed.squeeze && !noticed.moisture) noticed.squeeze = squeeze_seen(seen);
    const CompletedBed bed = completed(noticed, units);
    const BedNumbers numbers = bed_numbers(noticed, bed, {});
    if (described != nullptr) answer.assumed = bed.assumed;
    const double spread = limits::usual_spread_share.value * numbers.surface_m2;
    const FeedingPlace place = feeding_place(numbers, spread);
    const HazardNumbers judged = hazard_numbers(place, Load{});
    Load last;
    const Feeding* latest = last_feeding(noticed);
    if (latest != nullptr && in_days(latest->day) >= -10.0)
        last = load_of(latest->portions, decayed_shares(numbers.horizon_days, numbers.decay_speed));
    const HazardNumbers fed = hazard_numbers(place, last);

    std::array<double, cause_count> weight{};
    std::array<Evidence, cause_count> evidence;
    double sum = 0.0;
    for (std::size_t c = 0; c < cause_count; ++c) {
        const auto cause = static_cast<Cause>(c);
        evidence[c] = evidence_for(cause, noticed, numbers, judged, fed, units);
        weight[c] = evidence[c].factor * weight_for(seen, cause);
        sum += weight[c];
    }
    for (std::size_t c = 0; c < cause_count; ++c) {
        const double share = weight[c] / sum;
        if (share < 0.03) continue;
        const auto cause = static_cast<Cause>(c);
        const CauseWords& said_of = words_of(cause);
        const bool known = described != nullptr;
        answer.causes.push_back({cause, share, said_of.harmless, std::string(said_of.name),
                                 known ? std::move(evidence[c].why) : std::string(),
                                 words::fixed_text(said_of.test, units),
                                 known ? remedy_for(cause, in, numbers, units)
                                       : remedy_in_shares(cause, numbers, units)});
    }
    sort_by(answer.causes, [](const Diagnosis& cause) { return -cause.share; });
    put_danger_first(answer.causes);
    answer.steps = order_of_steps(answer.causes);
    answer.harmless = answer.causes.front().harmless;
    answer.text = verdict(answer.causes.front());
    if (described != nullptr && ration(*described).answer == RationAnswer::act_first)
        answer.text = "This bed needs a step first: ask feed ration. " + answer.text;
    for (std::size_t s = 0; s < sign_count; ++s) {
        const std::string_view note = note_on(static_cast<Sign>(s));
        if (seen[s] && !note.empty()) answer.notes.emplace_back(note);
    }
    return answer;
}

}  // namespace detail

/// What may be behind the signs in this bed: ordered causes, each with one quick test and one step.
/// The weight of a cause is the sum of its weights for every sign, a telling sign counting more,
/// times what the bed says; causes under 3 % are left out. What can harm worms goes before what is
/// harmless, unless that is twice as likely. Threads: pure. A few checks' time.
/// @param in     the bed as every verb starts from it: its steps are those of its ration.
/// @param signs  what was noticed; duplicates count once; empty gives an empty answer.
inline SignsAnswer causes_of(const RationInput& in, std::span<const Sign> signs,
                             UnitSystem units = UnitSystem::metric) {
    return detail::causes_in(&in, signs, units);
}

/// The same for a bed alone, with nothing at hand.
inline SignsAnswer causes_of(const Bed& said, std::span<const Sign> signs,
                             UnitSystem units = UnitSystem::metric) {
    RationInput in;
    in.bed = said;
    return causes_of(in, signs, units);
}

/// The same where no bed is described: steps are shares of the bed, without kilograms or litres.
inline SignsAnswer causes_of(std::span<const Sign> signs, UnitSystem units = UnitSystem::metric) {
    return detail::causes_in(nullptr, signs, units);
}

}  // namespace feed
