#include "bed_work_words.hpp"

#include <cmath>
#include <utility>
#include <vector>

#include "feed/feedstock/things.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/error.hpp"

// The sentences of a harvest and a refresh; harvest_text.cpp and refresh_text.cpp choose from them.
namespace feed::io {
namespace {

std::string hazards_text(const std::array<Level, hazard_count>& levels) {
    std::vector<std::string> parts;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        if (is_raised(levels[h]) && static_cast<Hazard>(h) != Hazard::underfed)
            parts.push_back(std::string(text(static_cast<Hazard>(h))) + " (" +
                            std::string(text(levels[h])) + ")");
    }
    return parts.empty() ? "nothing" : joined(parts);
}

}  // namespace

std::string bedding_text(const BedChange& change, UnitSystem units) {
    std::vector<std::string> parts;
    for (const Portion& portion : change.bedding) {
        ThingAtHand thing;
        thing.feedstock = portion.feedstock;
        thing.label = portion.feedstock->name;
        parts.push_back(material_text({thing, Part::bedding, portion.wet_mass, units}, units));
    }
    return joined(parts);
}

std::string share_text(double share) {
    constexpr std::array<std::pair<double, std::string_view>, 5> known{{{0.25, "a quarter"},
                                                                        {1.0 / 3.0, "a third"},
                                                                        {0.5, "half"},
                                                                        {2.0 / 3.0, "two thirds"},
                                                                        {0.75, "three quarters"}}};
    for (const auto& [number, words] : known) {
        if (std::abs(number - share) < 1e-9) return std::string(words);
    }
    return words::number(std::floor(100.0 * share + 0.5)) + " %";
}

std::string put_back(const BedChange& change, UnitSystem units, std::string_view opening) {
    const std::string bedding = bedding_text(change, units);
    if (bedding.empty()) return "";
    std::string text = std::string(opening) + " " + bedding;
    if (change.water_kg > 0.0)
        text += ", damped with " + volume_text(litres(change.water_kg), units) + " of water";
    return text + ".";
}

std::string feeding_text(const BedAfter& after, std::optional<int> day, UnitSystem units) {
    if (!day) return "Look before you feed again: ask feed ration.";
    const std::string most =
        ": at most " + mass_text(kilograms(after.two_weeks_kg), units) + " of scraps in two weeks.";
    if (after.two_weeks_kg <= 0.0) return "Feed nothing until feed ration says so.";
    // Without a date a day is counted from today: "in 3 days".
    const std::string on = *day == 0 ? "from today" : day_words(after.ration.date, *day, units);
    const bool named = *day == 0 || !after.ration.date;
    return std::string("Feed again ") + (named ? "" : "from ") + on + most;
}

std::string note_line(const BedChange& change, UnitSystem units, std::string_view file) {
    const std::string note = note_of(change, units);
    if (file.empty() || note.empty()) return "";
    return "Done? Write: feed note " + std::string(file) + " " + note;
}

std::string judged_text(const BedAfter& after) {
    return "Check before: " + hazards_text(after.before) + ". After: " + hazards_text(after.after) +
           ".";
}

std::string state_text(const BedAfter& after) {
    return "Water: " + percent_text(after.wetness_before) + " of what the bed can hold before, " +
           percent_text(after.wetness_after) + " after. Salt: " + percent_text(after.salt_before) +
           " before, " + percent_text(after.salt_after) + " after.";
}

std::string assumed_lines(const Ration& ration) {
    std::string text;
    for (const Assumption& one : ration.assumed)
        text += wrapped("- " + one.text, 2, 4);
    return text.empty() ? "" : "\nAssumed\n" + text;
}

std::string note_of(const BedChange& change, UnitSystem units) {
    std::vector<std::string> parts;
    if (change.taken_m3 > 0.0)
        parts.push_back("harvested " + volume_text(cubic_metres(change.taken_m3), units));
    if (change.taken_share > 0.0)
        parts.push_back("took out " + share_text(change.taken_share) +
                        (change.worms_went_too ? " with the worms" : ""));
    if (change.flushed_kg > 0.0)
        parts.push_back("flushed " + volume_text(litres(change.flushed_kg), units));
    for (const Portion& portion : change.bedding)
        parts.push_back("bedding " + mass_text(portion.wet_mass.mass(), units) + " " +
                        name_to_type(*portion.feedstock));
    if (change.water_kg > 0.0)
        parts.push_back("added water " + volume_text(litres(change.water_kg), units));
    std::string text;
    for (const std::string& part : parts)
        text += (text.empty() ? "" : ", ") + part;
    return text;
}

Result<double> share_of_bed(std::string_view words, std::string_view field) {
    std::optional<double> share = feed::detail::share_said(words);
    if (!share) {
        if (const auto number = parse_quantity(words, QuantityKind::share)) share = *number;
    }
    constexpr double least = 0.1;
    constexpr double most = 0.75;
    if (share && *share >= least && *share <= most) return *share;
    return make_error(ErrorCode::out_of_range, std::string(field), std::string(words),
                      "a third, half, or 10 % to 75 %",
                      "this is no share of a bed that can be changed at once");
}

namespace {

template <class Choice, std::size_t count>
Result<Choice> chosen(std::string_view word, std::string_view field,
                      const std::array<std::string_view, count>& known) {
    for (std::size_t i = 0; i < count; ++i) {
        if (known[i] == word) return static_cast<Choice>(i);
    }
    auto error = make_error(word.empty() ? ErrorCode::missing_value : ErrorCode::out_of_range,
                            std::string(field), std::string(word),
                            joined({known.begin(), known.end()}, "or"),
                            word.empty() ? "say which" : "this is none of them");
    return offered(std::move(error), "; write for instance ", {std::string(known.front())});
}

}  // namespace

Result<HarvestWay> harvest_way(std::string_view word, std::string_view field) {
    return chosen<HarvestWay>(word, field, harvest_way_words);
}

Result<RefreshChange> refresh_change(std::string_view word, std::string_view field) {
    return chosen<RefreshChange>(word, field, refresh_words);
}

}  // namespace feed::io
