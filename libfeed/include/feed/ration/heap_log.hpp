#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/diary.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

// The log of a heap: its temperatures by place and its turnings, and from them what to do: turn it
// or leave it alone, and whether it has cooled for good. Nothing here says anything about germs.
namespace feed {

/// What to do with a heap by its log.
enum class HeapStep : std::uint8_t {
    measure,     ///< nothing tells how warm it is inside
    stand_back,  ///< so hot that it may burn: it is not opened
    cool,        ///< too hot: turn and water it now
    turn,        ///< hotter than what lives in it likes, or clearly past its peak
    leave,       ///< warm and well, or just turned
    mend,        ///< it was never hot: too small, too dry, too wet or too poor
    water,       ///< it has cooled because it is dry
    ripen,       ///< it no longer heats after turning
    cooled,      ///< cooled for good
};
inline constexpr std::array<std::string_view, 9> heap_step_words{
    "measure", "stand_back", "cool", "turn", "leave", "mend", "water", "ripen", "cooled"};
constexpr std::string_view text(HeapStep step) noexcept {
    return heap_step_words[static_cast<std::size_t>(step)];
}

/// A published rule on the heat of a heap. They differ; `taken` marks what this program goes by.
struct HeapRule {
    std::string_view about;  ///< "too hot", "turning", "heating up", "ripening", "cooled", "germs"
    std::string_view says;   ///< with its numbers, C
    std::string_view source;
    bool read = false;  ///< in the source itself; else second-hand or recalled, as `source` says
    bool taken = false;
};

namespace heap_limits {

/// The numbers taken, C and days; each is of the rule marked so in `heap_rules`.
inline constexpr double burning_c = 80.0;
inline constexpr double hot_c = 71.0;
inline constexpr double warm_enough_c = 65.0;
inline constexpr double heating_c = 45.0;
inline constexpr double of_the_air_c = 5.0;
inline constexpr int days_to_heat = 7;
inline constexpr int days_to_ripen = 21;
/// "Clearly started back down" in numbers (judgement): so far below the peak since the last turn,
/// and no longer above this.
inline constexpr double clearly_down_c = 10.0;
inline constexpr double past_peak_c = 55.0;
/// Five turnings in fifteen days is the most that any rule asks: no more often than this.
inline constexpr int days_between_turns = 3;
/// A log says nothing of today when its last look is older (judgement).
inline constexpr int days_told = 7;
/// Inside of a small heap: from here on below its surface, m (judgement: 1 ft).
inline constexpr double inside_m = 0.30;

}  // namespace heap_limits

/// What handbooks, extension pages and authorities say, by what it is about. Static storage.
inline constexpr std::array<HeapRule, 19> heap_rules{{
    {"fire", "act before 70 to 80 C; above 80 C ask the fire service before it is opened",
     "Surrey County Council, Fire safety management of compost piles", true, true},
    {"fire", "watch closely above 74 C; act at once above 85 C",
     "USDA NRCS, Conservation Practice Job Sheet 317 (2002)", true},
    {"too hot", "turn at 71 C, and add water: fire is less likely",
     "North Carolina DEQ, Spontaneous Combustion Guidance", true, true},
    {"too hot", "keep it below about 65 C; turning lets heat out",
     "Cornell Waste Management Institute, Compost Physics (1996)", true, true},
    {"too hot", "best kept below 60 C", "City of Euless, Texas, composting pages", true},
    {"too hot", "55 to 77 C while it works, for up to 14 days",
     "USDA NRCS, Conservation Practice Job Sheet 317 (2002)", true},
    {"turning", "once: at three weeks or when the curve has clearly started back down",
     "UC Santa Cruz, Teaching Organic Farming and Gardening, unit 1.7", true, true},
    {"turning", "stays at 43 C or more for the rest of the time; look into it when it falls",
     "USDA NRCS, Conservation Practice Job Sheet 317 (2002)", true},
    {"turning", "turn when it falls below about 49 C",
     "Rynk 1992, On-Farm Composting Handbook (from memory)"},
    {"turning", "every week for compost in one to two months; unturned it takes 6 to 12 months",
     "Cornell Waste Management Institute, Best Ever Compost (1996)", true},
    {"heating up", "hot within about 7 days; else look at wetness, air and mixing",
     "USDA NRCS, Conservation Practice Job Sheet 317 (2002)", true, true},
    {"heating up", "32 to 60 C in four to five days",
     "Cornell Waste Management Institute, Best Ever Compost (1996)", true},
    {"ripening", "begins when it stays below 45 C even after turning; takes 3 to 6 weeks",
     "AgriFutures Australia, Poultry Waste Composting Guidelines, Curing", true, true},
    {"ripening", "begins when it no longer heats after turning, or near 40 C",
     "Rynk et al. 2022, The Composting Handbook, Curing", true},
    {"ripening", "below 38 C, if it was hot; two to three months are safe",
     "Highfields Center for Composting, School Composting", true},
    {"cooled", "complete when it is within about 5 C of the air",
     "AgriFutures Australia, Poultry Waste Composting Guidelines, Curing", true, true},
    {"cooled", "has cooled down to the air's temperature; crumbly, dark, smells of earth",
     "UC Santa Cruz, Teaching Organic Farming and Gardening, unit 1.7", true},
    {"germs (theirs)", "organic farms: 55 to 77 C for 15 days with five turnings, in windrows",
     "US 7 CFR 205.203(c)(2), as quoted in a farm magazine"},
    {"germs (theirs)", "sewage sludge: 55 C or more for 15 days with five turnings, in windrows",
     "US 40 CFR 503, appendix B (from memory)"},
}};

/// One look at a heap, as the log has it.
struct HeapLook {
    std::int64_t day = 0;
    std::optional<double> hottest_c;  ///< anywhere
    std::optional<double> inside_c;   ///< the warmest place that is inside
    std::string place;                ///< of the warmest one
};

/// What the log of a heap tells on a day.
struct HeapLog {
    HeapStep step = HeapStep::measure;
    std::size_t looks = 0;  ///< with a temperature
    std::size_t turns = 0;
    HeapLook last;                         ///< the last look with a temperature
    std::optional<double> peak_c;          ///< inside, since it was built or last turned
    std::optional<double> highest_c;       ///< inside, ever
    std::optional<double> air_c;           ///< of the last look, the middle of the day
    std::optional<std::int64_t> begun;     ///< day of the first entry
    std::optional<std::int64_t> turned;    ///< day of the last turning
    std::optional<std::int64_t> last_hot;  ///< last day on which it was at 45 C or more inside
    std::optional<std::int64_t> smoke;     ///< day on which it last smoked or smelled of burning
    std::optional<std::int64_t> ammonia;   ///< day on which it last smelled so, not turned since
    std::optional<std::int64_t> foul;      ///< the same of a sour, rotten or swampy smell
    bool dry = false;                      ///< a squeezed handful crumbled since the last turning
    std::optional<int> next_look;          ///< days from today
};

namespace detail {

inline bool has_word(std::string_view plain, std::string_view word) {
    for (std::size_t at = plain.find(word); at != std::string_view::npos;
         at = plain.find(word, at + 1)) {
        const bool starts = at == 0 || plain[at - 1] == ' ';
        const std::size_t end = at + word.size();
        if (starts && (end == plain.size() || plain[end] == ' ')) return true;
    }
    return false;
}

/// Whether words say that it smokes or burns: "smoke from the top", "a burning smell", but not "no
/// smoke".
inline bool says_fire(std::string_view words) {
    const std::string plain = plain_text(words);
    for (const std::string_view no : {"no", "not", "without", "never"})
        if (has_word(plain, no)) return false;
    for (const std::string_view fire :
         {"smoke", "smokes", "smoking", "smoky", "smoulders", "smouldering", "smolders",
          "smoldering", "burning", "burnt", "charred", "flames", "embers"})
        if (has_word(plain, fire)) return true;
    return false;
}

/// How deep a place is, m: "15 cm deep", "6 in deep"; nothing where it does not say.
inline std::optional<double> depth_of(std::string_view place) {
    const auto number = read_number(place);
    if (!number) return std::nullopt;
    const std::string unit = plain_text(place.substr(number->length));
    for (const auto& [word, metres] : {std::pair<std::string_view, double>{"cm", 0.01},
                                       {"m", 1.0},
                                       {"in", metres_per_foot / 12.0},
                                       {"inch", metres_per_foot / 12.0},
                                       {"inches", metres_per_foot / 12.0},
                                       {"ft", metres_per_foot},
                                       {"feet", metres_per_foot}})
        if (has_word(unit, word)) return number->number * metres;
    return std::nullopt;
}

}  // namespace detail

/// Whether a place of a thermometer is inside a heap: anything but its edge, sides, top, bottom and
/// what is less than 30 cm deep. A look that names no place is taken to be inside.
inline bool is_inside_heap(std::string_view place) {
    if (const auto depth = detail::depth_of(place)) return *depth >= heap_limits::inside_m - 1e-9;
    const std::string plain = plain_text(place);
    for (const std::string_view outer : {"edge", "rim", "side", "outside", "surface", "top",
                                         "bottom", "corner", "front", "back", "left", "right"})
        if (detail::has_word(plain, outer)) return false;
    return true;
}

namespace detail {

inline HeapLook look_of(const Observation& seen) {
    HeapLook look;
    look.day = day_number(seen.date);
    for (const PlacedTemperature& one : seen.temperatures) {
        const double c = in_celsius(one.temperature);
        if (!look.hottest_c || c > *look.hottest_c) {
            look.hottest_c = c;
            look.place = one.place;
        }
        const bool inside = is_inside_heap(one.place);
        if (inside && (!look.inside_c || c > *look.inside_c)) look.inside_c = c;
    }
    return look;
}

inline std::optional<double> air_of(const Observation& seen) {
    if (!seen.air_low && !seen.air_high) return std::nullopt;
    const double low = in_celsius(seen.air_low.value_or(seen.air_high.value_or(celsius(0))));
    const double high = in_celsius(seen.air_high.value_or(seen.air_low.value_or(celsius(0))));
    return 0.5 * (low + high);
}

inline bool was_turned(const Observation& seen) {
    return has_word(plain_text(seen.action), "turned");
}

/// The observations up to a day, in the order of their days; of one day in the order written.
inline std::vector<std::size_t> seen_by(const Diary& diary, std::int64_t today) {
    std::vector<std::size_t> order = observations_by_day(diary);
    while (!order.empty() && day_number(diary.observations[order.back()].date) > today)
        order.pop_back();
    return order;
}

inline void raise(std::optional<double>& most, double value) {
    most = std::max(most.value_or(value), value);
}

/// What it smells of stands until it smells well or is turned.
inline void take_smell(Smell smell, std::int64_t day, HeapLog& log) {
    log.ammonia.reset();
    log.foul.reset();
    if (smell == Smell::ammonia)
        log.ammonia = day;
    else if (smell != Smell::earthy && smell != Smell::none)
        log.foul = day;
}

/// Takes one look up. What was measured on the day of a turning was measured before it.
inline void take_up(const Observation& seen, HeapLog& log, std::optional<HeapLook>& inside) {
    const HeapLook look = look_of(seen);
    if (!log.begun) log.begun = look.day;
    if (look.hottest_c) {
        ++log.looks;
        log.last = look;
        log.air_c = air_of(seen);
    }
    if (look.inside_c) {
        inside = look;
        raise(log.highest_c, *look.inside_c);
        if (log.turned != look.day) raise(log.peak_c, *look.inside_c);
        if (*look.inside_c >= heap_limits::heating_c) log.last_hot = look.day;
    }
    if (says_fire(seen.note)) log.smoke = look.day;
    if (seen.smell) take_smell(*seen.smell, look.day, log);
    if (seen.squeeze) log.dry = *seen.squeeze == Squeeze::crumbly;
    if (!was_turned(seen)) return;
    if (log.turned != look.day) ++log.turns;
    log.turned = look.day;
    log.peak_c.reset();
    log.dry = false;
    if (seen.smell) return;  // it smelled so when it was turned
    log.ammonia.reset();
    log.foul.reset();
}

/// What a heap needs that is no longer hot inside, or never was.
inline HeapStep cooled_step(const HeapLog& log, const HeapLook& inside) {
    using namespace heap_limits;
    const std::int64_t since = log.turned.value_or(log.begun.value_or(inside.day));
    const bool was_hot_since = log.peak_c && *log.peak_c >= heating_c;
    if (was_hot_since) {
        if (inside.day - since < days_between_turns) return HeapStep::leave;
        return log.dry ? HeapStep::water : HeapStep::turn;
    }
    if (inside.day - since < days_to_heat) return HeapStep::leave;
    if (log.dry) return HeapStep::water;
    if (!log.highest_c || *log.highest_c < heating_c) return HeapStep::mend;
    if (!log.turned) return HeapStep::turn;
    const bool long_enough = log.last_hot && inside.day - *log.last_hot >= days_to_ripen;
    const bool as_the_air =
        log.last.day == inside.day && log.air_c && *inside.inside_c - *log.air_c <= of_the_air_c;
    return long_enough && as_the_air ? HeapStep::cooled : HeapStep::ripen;
}

/// Smoke of the last days counts until a look that is younger finds the heap cool.
inline bool smokes_on(const HeapLog& log, std::int64_t today) {
    using namespace heap_limits;
    if (!log.smoke || today - *log.smoke > days_told) return false;
    return log.looks == 0 || log.last.day <= *log.smoke ||
           log.last.hottest_c.value_or(0.0) >= warm_enough_c;
}

inline HeapStep step_of(const HeapLog& log, const std::optional<HeapLook>& inside,
                        std::int64_t today) {
    using namespace heap_limits;
    if (smokes_on(log, today)) return HeapStep::stand_back;
    if (log.looks == 0) return HeapStep::measure;
    const bool turned_since = log.turned && *log.turned >= log.last.day;
    const double hottest = log.last.hottest_c.value_or(0.0);
    if (hottest >= burning_c && !turned_since) return HeapStep::stand_back;
    if (hottest >= hot_c && !turned_since) return HeapStep::cool;
    if (turned_since && today - *log.turned <= days_told) return HeapStep::leave;
    if (today - log.last.day > days_told) return HeapStep::measure;
    if (hottest > warm_enough_c) return HeapStep::turn;
    if (!inside || today - inside->day > days_told) return HeapStep::measure;
    if (*inside->inside_c < heating_c) return cooled_step(log, *inside);
    const std::int64_t since = log.turned.value_or(log.begun.value_or(inside->day));
    const bool down = log.peak_c && *log.peak_c - *inside->inside_c >= clearly_down_c &&
                      *inside->inside_c < past_peak_c;
    if (down && inside->day - since >= days_between_turns)
        return log.dry ? HeapStep::water : HeapStep::turn;
    return HeapStep::leave;
}

/// Days until the next look at a heap: every day while it is hot, then once a week.
inline std::optional<int> next_look_after(HeapStep step) {
    switch (step) {
        case HeapStep::measure:
        case HeapStep::stand_back:
            return 0;
        case HeapStep::ripen:
            return heap_limits::days_told;
        case HeapStep::cooled:
            return std::nullopt;
        default:
            return 1;
    }
}

}  // namespace detail

/// What the log of a heap tells on a day, by the rules marked `taken` in `heap_rules`. What it is
/// hottest at anywhere decides whether it is too hot; only what was measured inside tells that it
/// has cooled. Entries after the day are left out.
/// @param today  day number. Threads: pure. Time: the observations, sorted by day.
inline HeapLog heap_log(const Diary& diary, std::int64_t today) {
    HeapLog log;
    std::optional<HeapLook> inside;
    for (const std::size_t i : detail::seen_by(diary, today))
        detail::take_up(diary.observations[i], log, inside);
    log.step = detail::step_of(log, inside, today);
    if (log.step == HeapStep::cooled || log.step == HeapStep::ripen) log.last = *inside;
    log.next_look = detail::next_look_after(log.step);
    return log;
}

/// Whether what is in a heap may go to worms by its heat: it was hot, has been there for two weeks
/// or more, and is no warmer inside than worms bear, by a look that is young and has no turning
/// after it, which heats again. What pre-composting means in files is two to three weeks in a heap.
inline bool is_cool_for_worms(const HeapLog& log, double warmest_c) {
    constexpr int least_days = 14;
    const bool turned_since = log.turned && *log.turned >= log.last.day;
    if (turned_since || log.step == HeapStep::measure) return false;
    const bool was_hot = log.highest_c && *log.highest_c >= heap_limits::heating_c;
    const bool long_enough = log.begun && log.last.day - *log.begun >= least_days;
    return was_hot && long_enough && log.last.inside_c && log.last.hottest_c &&
           *log.last.hottest_c <= warmest_c;
}

}  // namespace feed
