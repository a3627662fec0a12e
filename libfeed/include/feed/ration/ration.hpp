#pragma once
#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/hazard.hpp"
#include "feed/blend/portion.hpp"
#include "feed/blend/take_out.hpp"
#include "feed/diary/date.hpp"
#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/quantity/unit_system.hpp"

namespace feed {

/// Something that may go in: what there is of it, as the keeper calls and measures it.
struct ThingAtHand {
    std::shared_ptr<const Feedstock> feedstock;
    std::string label;             ///< the keeper's own words; the feedstock's name where empty
    std::optional<WetMass> most;   ///< nothing: as much as is wanted
    std::optional<Amount> amount;  ///< as written, so that the answer keeps its measure
    bool first = false;            ///< asked to be used first
    bool at_hand = true;           ///< false: offered, because nothing of its kind is at hand
    bool kept = false;             ///< it lies in the stock, and nobody named it

    /// What it is called to the keeper.
    std::string name() const { return plain_name(label, *feedstock); }
};

/// The first word of a ration, most urgent first.
enum class RationAnswer : std::uint8_t { act_first, wait, feed_less, feed };
inline constexpr std::array<std::string_view, 4> ration_answer_words{"act_first", "wait",
                                                                     "feed_less", "feed"};
constexpr std::string_view text(RationAnswer answer) noexcept {
    return ration_answer_words[static_cast<std::size_t>(answer)];
}

/// One thing that goes in.
struct PutIn {
    ThingAtHand thing;
    Part part = Part::scraps;
    WetMass wet_mass;
    UnitSystem units = UnitSystem::metric;  ///< that the mass is rounded in
};

/// The portions of what goes in.
inline std::vector<Portion> portions_of(std::span<const PutIn> put_in) {
    std::vector<Portion> portions;
    portions.reserve(put_in.size());
    for (const PutIn& put : put_in)
        portions.push_back({put.thing.feedstock, put.wet_mass});
    return portions;
}

/// Something at hand that does not go in today.
struct Rest {
    ThingAtHand thing;
    WetMass wet_mass;
    bool capped = false;  ///< too much of it at a time; never more than the cap in a week
};

/// Why a ration is not everything at hand, or nothing at all; a sentence is made of it elsewhere.
enum class ReasonKind : std::uint8_t {
    hazard_now,      ///< the bed stands past a limit without any food
    hazard_with,     ///< more food would raise this hazard
    alarm,           ///< what was seen or smelt
    food_left,       ///< soft food of earlier feedings is still there
    fed_lately,      ///< the week's ration is already in
    fed_today,       ///< scraps went in today: the next ones on another day
    step_done,       ///< the step of the day was done: it takes a day to show
    measure_first,   ///< a pH too high for worms, measured over a week ago
    look_first,      ///< an alarm of over a week ago, since when nobody looked
    nothing_noted,   ///< for so long that nobody knows how the bed is
    cap,             ///< a touchy material, so much at a time
    cap_worms,       ///< the worms eat no more
    no_room,         ///< the container is full
    no_bedding,      ///< no bedding at hand
    new_bin,         ///< the first weeks of a bin
    few_worms,       ///< so few worms that a week's ration is not worth opening the bin for
    too_little,      ///< what could go in is not worth opening the bin for
    nothing_at_hand  ///< no scraps are listed, so the amount is for soft mixed ones
};
struct Reason {
    ReasonKind kind = ReasonKind::hazard_now;
    Hazard hazard = Hazard::sour;
    std::string what;     ///< label of the thing a cap or bar is of, or the alarm
    double amount = 0.0;  ///< kg or days, by kind; of a cap, kg in a week
    /// Of a cap: kg that went in within the week. Of a bed too warm or too cold: days since that
    /// was measured, where that is too long ago to act on.
    double given = 0.0;
    bool hazard_known = true;    ///< false: an alarm that may tell of several things
    bool with_its_kind = false;  ///< of a cap: `given` counts materials of its kind too
    bool in_new_bin = false;     ///< of what worms eat: the share of the first weeks of a bin
};

/// What is worth measuring: an uncertain number that moves the answer.
struct WorthMeasuring {
    enum class Kind : std::uint8_t { worms, squeeze, temperature, ph, thing } kind = Kind::worms;
    std::string label;          ///< of the thing
    double moves_wet_kg = 0.0;  ///< how far the ration moves over its range
};

/// A day as a number of days from today.
struct RationDay {
    int day = 0;
    int earliest = 0;
    int latest = 0;
};

/// What to put into a bed today, and when again. Masses are as printed, and were judged as printed.
struct Ration {
    std::vector<TakeOut> take_out;
    RationAnswer answer = RationAnswer::wait;
    std::optional<Date> date;               ///< today, where the file says
    UnitSystem units = UnitSystem::metric;  ///< that the amounts are rounded in
    std::vector<PutIn> put_in;              ///< scraps, then bedding, water and lime
    std::vector<Rest> rest;
    WetMass scraps;           ///< of put_in
    WetMass week;             ///< what these worms may have in a week
    WetMass worms;            ///< that it is reckoned for
    WetMass worms_room;       ///< worms that have room in the bed
    bool worms_given = true;  ///< false: nobody said how many there are
    bool crowded = false;     ///< more worms than any bed of its surface bears
    double water_kg = 0.0;    ///< of put_in
    double lime_kg = 0.0;     ///< of put_in
    Area spread = square_metres(0);
    int next_look = 1;  ///< days from today; 0 where nothing is fed before somebody looks
    std::optional<RationDay>
        next_feeding;         ///< nothing: no day found, or the bed must be seen first
    double share_left = 1.0;  ///< of today's food on the day of the next feeding
    double share_left_high = 1.0;
    std::vector<Reason> reasons;  ///< at most two, the ones that decided first
    std::vector<WorthMeasuring> weigh;
    std::vector<Hazard> raised;                ///< by the bed as it stands, without food
    std::array<Level, hazard_count> before{};  ///< without food
    std::array<Level, hazard_count> after{};   ///< with what is put in
    std::vector<CautionFinding> cautions;
    std::vector<Assumption> assumed;
    Grade grade = Grade::d;
};

/// Whether something of a kind decided a ration, and of a hazard where one is named.
inline bool has_reason(const Ration& ration, ReasonKind kind, std::optional<Hazard> hazard = {}) {
    return std::any_of(ration.reasons.begin(), ration.reasons.end(), [&](const Reason& reason) {
        return reason.kind == kind && (!hazard || reason.hazard == *hazard);
    });
}

/// Whether a ration waits for a look: nothing goes in, and no work is done, before somebody looked.
constexpr bool looks_first(const Ration& ration) noexcept {
    return ration.answer == RationAnswer::wait && ration.next_look == 0;
}
/// Whether its step, or that look, comes before all other work on the bed.
constexpr bool comes_before_work(const Ration& ration) noexcept {
    return ration.answer == RationAnswer::act_first || looks_first(ration);
}
/// What the ration waits to be over where the bed is too warm or too cold for worms: they are left
/// in peace.
inline std::optional<Hazard> awaited_warmth(const Ration& ration) noexcept {
    if (ration.answer != RationAnswer::wait || ration.reasons.empty()) return std::nullopt;
    const Reason& first = ration.reasons.front();
    const bool of_warmth = first.hazard == Hazard::hot || first.hazard == Hazard::cold;
    if (first.kind != ReasonKind::hazard_now || !of_warmth) return std::nullopt;
    return first.hazard;
}
/// Whether nobody digs in the bed today, to harvest or to share it out.
inline bool is_left_alone(const Ration& ration) noexcept {
    return comes_before_work(ration) || awaited_warmth(ration);
}

}  // namespace feed
