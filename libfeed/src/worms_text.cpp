#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "bed_work_words.hpp"
#include "crowding_words.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/worms_answer.hpp"
#include "feed/quantity/amount_words.hpp"

// The sentences of feed worms.
namespace feed::io {
namespace {

std::string kg_range(const Ranged& kg, UnitSystem units) {
    return words::mass(kg.low, units) + " to " + words::mass(kg.high, units);
}

/// "500 g, about 1400 of them".
std::string worms_text(double kg, Species species, UnitSystem units) {
    const double each = usual::worm_grams[static_cast<std::size_t>(species)].value / 1000.0;
    return words::mass(kg, units) + " of worms, about " + words::number(kg / each);
}

/// "5 weeks", "4 months".
std::string time_text(int days) {
    if (days < 70) return counted(static_cast<std::size_t>(std::max(1, (days + 3) / 7)), "week");
    return counted(static_cast<std::size_t>(std::lround(days / 30.4)), "month");
}

/// "in about 4 months (3 to 14)", "in about 4 months, 3 at best; some beds never do".
std::string when_text(const WormGrowth& growth) {
    const bool months = *growth.day >= 70;
    const auto number = [&](int days) {
        return words::number(std::max(1.0, std::round(days / (months ? 30.4 : 7.0))));
    };
    const std::string text = "in about " + time_text(*growth.day);
    const std::string best = number(growth.earliest.value_or(*growth.day));
    if (growth.latest) return text + " (" + best + " to " + number(*growth.latest) + ")";
    return text + ", " + best + " at best; some beds never do";
}

/// The lines of one screen in the making.
struct WormLines {
    const WormsAnswer& answer;
    std::string_view file;
    std::vector<ScreenLine> lines;

    void add(std::string text, int rank = 0) { lines.push_back({std::move(text), rank}); }
    [[nodiscard]] std::string kg(double number) const { return words::mass(number, answer.units); }
};

void add_never(WormLines& to, const std::vector<TakeOut>& out) {
    for (std::string& line : never_lines(out))
        to.add(std::move(line));
}

void add_too_much(WormLines& to, const std::vector<Rest>& too_much) {
    for (const Rest& one : too_much)
        to.add("Of " + one.thing.name() + " at most " + to.kg(one.wet_mass.in_kilograms()) +
                   " a week; the rest goes elsewhere.",
               1);
}

/// What a household is to expect.
void add_expected(WormLines& to) {
    const auto& expected = to.answer.expected;
    if (!expected) return;
    std::vector<std::string> kinds;
    for (std::size_t kind = 0; kind < expected->kinds_kg.size(); ++kind) {
        if (HouseholdScraps::fed(kind) && expected->kinds_kg[kind].value > 0.0)
            kinds.push_back(std::string(HouseholdScraps::name(kind)) + " " +
                            to.kg(expected->kinds_kg[kind].value));
    }
    to.add("Scraps to expect in a week: " + kg_range(expected->fed_kg, to.answer.units) + ".");
    to.add("By kind: " + joined(kinds) + ".");
    if (expected->not_fed_kg.value > 0.0)
        to.add("Keep out meat, fish, dairy and cooked dishes, about " +
               to.kg(expected->not_fed_kg.value) + ".");
    to.add("These are means of studies: a start until you have weighed two weeks.");
}

/// A surface that a yard still keeps in bins and beds: ten of 2 m2 (judgement).
constexpr double most_surface_m2 = 20.0;

void add_need(WormLines& to, const WormNeed& need) {
    const WormsAnswer& answer = to.answer;
    add_never(to, need.take_out);
    if (!(need.kg_a_kg_week > 0.0)) {
        to.add("Do not start there: at that temperature worms do not eat.");
        to.add("Find a place of 15 to 25 C, then ask again.");
        return;
    }
    if (!(need.worms_kg > 0.0)) {
        to.add("Do not start: nothing is left that worms may have.");
        return;
    }
    to.add("Start with " + worms_text(need.start_kg, need.species, answer.units) + ", in " +
           bins_text(need.start_surface_m2, answer.units) + ".");
    to.add("Feed little at first: feed start plans the first weeks.", 1);
    to.add("Once settled they take " + to.kg(need.start_takes_kg) + " of scraps a week.");
    if (need.start_kg < 0.999 * need.worms_kg) {
        const std::string all = "all " + to.kg(need.scraps_kg);
        if (need.growth.day)
            to.add("They may take " + all + " " + when_text(need.growth) + ".");
        else
            to.add("They will not take " + all + " within two years.");
        const std::string surface = words::area(need.surface_m2, answer.units);
        if (need.surface_m2 > most_surface_m2)
            to.add("Then they need " + surface + " of surface: a farm's work, not planned here.");
        else
            to.add("Then they need " + surface + " of surface, such as " +
                   bins_text(need.surface_m2, answer.units) + ".");
        to.add("Until then freeze the rest, or give it to a heap or neighbours.", 1);
        to.add("All of it at once takes " + worms_text(need.worms_kg, need.species, answer.units) +
                   ".",
               3);
    }
    add_too_much(to, need.too_much);
    add_expected(to);
}

/// What it can take a week, as its ration has it; a day of waiting is said first.
void add_today(WormLines& to, const BinNow& bin) {
    const std::string week = to.kg(bin.ration.week.in_kilograms()) + " of scraps";
    // Where nobody said how many worms there are, the answer hangs on them.
    const std::string worms =
        bin.ration.worms_given ? "" : ", if it has " + to.kg(bin.worms_kg.value) + " of worms";
    if (bin.ration.answer == RationAnswer::wait) {
        to.add("Wait: feed nothing today. Ask feed ration for the day.");
        to.add("In a week this bin can take up to " + week + worms + ".");
        return;
    }
    to.add("This bin can take up to " + week + " a week" + (worms.empty() ? " now" : worms) + ".");
    to.add("Ask feed ration what of it goes in today.");
}

void add_scraps_of_bin(WormLines& to, const BinNow& bin) {
    const double week = bin.ration.week.in_kilograms();
    const std::string all = "all " + to.kg(bin.scraps_kg);
    if (bin.scraps_kg <= week * 1.001) {
        to.add("That is enough for " + all + " of scraps a week.");
    } else if (!(bin.wanted_kg > 0.0)) {
        to.add("It will never take " + all + ": its surface takes at most " + to.kg(bin.most_kg) +
               " a week.");
        to.add("Add a second bin, or give the rest to a heap or neighbours.");
    } else if (bin.growth.day) {
        to.add("With " + to.kg(bin.wanted_kg) + " of worms it takes " + all + ".");
        to.add("They may have grown so far " + when_text(bin.growth) + ".");
        to.add("Until then freeze the rest, or give it to a heap or neighbours.", 1);
    } else {
        to.add("Its worms will not grow to " + all + " a week within two years.");
    }
}

void add_bin(WormLines& to, const BinNow& bin) {
    const WormsAnswer& answer = to.answer;
    add_never(to, bin.take_out);
    to.add(crowded_text(bin.ration, answer.units));
    add_today(to, bin);
    if (bin.scraps_kg > 0.0) add_scraps_of_bin(to, bin);
    if (bin.ration.worms_given)
        to.add("It has " + worms_text(bin.worms_kg.value, bin.species, answer.units) + ".", 1);
    const Ranged& later = bin.growth.mass_kg[6];
    to.add("In 6 months they may be " + to.kg(later.value) + " (" + kg_range(later, answer.units) +
               ").",
           2);
    constexpr int old_days = 90;
    if (!bin.weighed_days_ago || *bin.weighed_days_ago > old_days)
        to.add("Count them: --census with the worms of some samples, --sample with their size.", 2);
    add_too_much(to, bin.too_much);
    add_expected(to);
}

void add_census(WormLines& to, const WormCensus& census) {
    const UnitSystem units = to.answer.units;
    if (census.counted > 0.0) {
        to.add("About " + words::number(census.number.value) + " worms live in it, " +
               to.kg(census.mass_kg.value) + ".");
        // Nobody sees a part of a worm.
        const double low = census.number.low;
        to.add("9 times of 10 it is " +
               words::number(low < 10.0 ? std::max(1.0, std::round(low)) : low) + " to " +
               words::number(census.number.high) + " worms, " + kg_range(census.mass_kg, units) +
               ".");
    } else {
        to.add("No worm was found, yet up to " + words::number(census.number.high) +
               " may live in it.");
    }
    to.add(counted(static_cast<std::size_t>(std::llround(census.counted)), "worm") +
               (census.counted == 1.0 ? " was" : " were") + " counted in " +
               counted(census.samples, "sample") + ".",
           2);
    if (census.samples_to_halve)
        to.add("For half the doubt take " + counted(*census.samples_to_halve, "sample") +
               " in all, from all over the bed.");
    else
        to.add("More samples will not halve the doubt: measure the samples and the bed better.");
    to.add("Put the worms back at once: light and dry air harm them.", 1);
    if (census.counted > 0.0 && !to.file.empty()) {
        to.add("Write it down: feed note " + std::string(to.file) + " worms " +
               to.kg(census.mass_kg.value));
        to.add("From then on feed ration goes by it.", 1);
    }
}

std::string growth_lines(const WormGrowth& growth, Species kind, UnitSystem units) {
    std::string text = "\nHow the worms may grow (9 times of 10 within)\n";
    for (const std::size_t month : {1U, 2U, 3U, 6U, 9U, 12U, 18U, 24U}) {
        if (month >= growth.mass_kg.size()) break;
        text += wrapped("after " + counted(month, "month") + ": " +
                            words::mass(growth.mass_kg[month].value, units) + " (" +
                            kg_range(growth.mass_kg[month], units) + ")",
                        2, 4);
    }
    if (growth.learned_from > 0)
        text += wrapped("Learned from " + counted(growth.learned_from, "span") +
                            " between two weighings of these worms.",
                        2, 4);
    const Multiplying& species = multiplying[static_cast<std::size_t>(kind)];
    for (const Factor* factor :
         {&species.young_a_week, &species.days_to_hatch, &species.days_to_adult,
          &growth::gain_empty, &growth::gain_full, &full_bed, &growth::deaths_a_day})
        text += wrapped(words::number(factor->value) + " (" + words::number(factor->low) + " to " +
                            words::number(factor->high) + ") " + std::string(factor->unit) + ": " +
                            std::string(factor->source) + ".",
                        2, 4);
    return text;
}

std::string expected_lines(const HouseholdScraps& expected, UnitSystem units) {
    std::string text = "\nScraps expected in a week\n";
    for (std::size_t kind = 0; kind < expected.kinds_kg.size(); ++kind) {
        const Ranged& kg = expected.kinds_kg[kind];
        if (!(kg.value > 0.0)) continue;
        const std::string source = kind == household::grounds
                                       ? std::string(household::coffee_a_cup_kg.source)
                                       : std::string(household::kinds[kind].source);
        text += wrapped(std::string(HouseholdScraps::name(kind)) + ": " +
                            words::mass(kg.value, units) + " (" + kg_range(kg, units) + ")" +
                            (HouseholdScraps::fed(kind) ? "" : ", not fed") + ". " + source + ".",
                        2, 4);
    }
    text += wrapped("A person: " + std::string(household::a_person_kg.source) + ".", 2, 4);
    text +=
        wrapped("The range is that of the studies' means. One house may have half or twice.", 2, 4);
    return text;
}

}  // namespace

std::vector<std::string> worms_lines(const WormsAnswer& answer, std::string_view file,
                                     ScreenRoom room) {
    WormLines to{answer, file, {}};
    if (answer.census) {
        add_census(to, *answer.census);
        return fitting(std::move(to.lines), room);
    }
    if (answer.bin && comes_before_work(answer.bin->ration)) {
        add_never(to, answer.bin->take_out);
        return lines_before_work(answer.bin->ration, "Do the rest", answer.units, room,
                                 std::move(to.lines));
    }
    if (answer.bin) add_bin(to, *answer.bin);
    if (answer.need) add_need(to, *answer.need);
    return fitting(std::move(to.lines), room);
}

std::string worms_why(const WormsAnswer& answer) {
    const UnitSystem units = answer.units;
    std::string text;
    if (answer.census) {
        text += "\nHow it was counted\n";
        text += wrapped("A litre holds " + words::number(answer.census->a_litre.value) + " (" +
                            words::number(answer.census->a_litre.low) + " to " +
                            words::number(answer.census->a_litre.high) + "). The bed holds " +
                            volume_text(litres(answer.counted->bed_l), units) + ".",
                        2, 4);
        text += wrapped("Clumping, by which counts scatter beyond chance: " +
                            words::number(answer.census->clumping) +
                            ". 90 % interval by Student's t of the logarithm.",
                        2, 4);
        const Factor& grams = usual::worm_grams[static_cast<std::size_t>(answer.counted->species)];
        text += wrapped("A worm of mixed age: " + words::number(grams.value) + " g (" +
                            std::string(grams.source) + ").",
                        2, 4);
    }
    if (answer.expected) text += expected_lines(*answer.expected, units);
    if (answer.need || answer.bin) {
        text += "\nRules\n";
        text += wrapped("Worms: " + std::string(limits::rate_weekly.source) +
                            ". Surface: " + std::string(limits::rate_by_surface.source) +
                            ". The lower decides, as in feed ration.",
                        2, 4);
        text += answer.need ? growth_lines(answer.need->growth, answer.need->species, units)
                            : growth_lines(answer.bin->growth, answer.bin->species, units);
    }
    if (answer.bin) text += assumed_lines(answer.bin->ration);
    for (const Assumption& one : answer.assumed)
        text += wrapped("- " + one.text, 2, 4);
    return text;
}

}  // namespace feed::io
