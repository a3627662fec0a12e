#include "week_words.hpp"

#include <algorithm>
#include <iterator>
#include <map>

#include "feed/bed/cautions.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/ration/plan.hpp"

namespace feed::io {

std::vector<std::string> steps_of(const Ration& ration, UnitSystem units) {
    std::vector<std::string> steps;
    std::vector<std::string> bedding;
    std::vector<std::string> lime;
    for (const PutIn& put : ration.put_in) {
        if (put.part == Part::scraps)
            steps.push_back(put.thing.name() + ", " + measure_of(put, units) + ".");
        if (put.part == Part::bedding) bedding.push_back(material_text(put, units));
        if (put.part == Part::amendment)
            lime.push_back("Mix in " + material_text(put, units) + ".");
    }
    if (!bedding.empty()) steps.push_back("Cover with " + joined(bedding) + ".");
    if (ration.water_kg > 0.0)
        steps.push_back("Sprinkle " + volume_text(litres(ration.water_kg), units) + " of water.");
    steps.insert(steps.end(), lime.begin(), lime.end());
    return steps;
}

const WeekOpening* opening_on(const WeekOfBin& bin, int day) {
    for (const WeekOpening& opening : bin.openings) {
        if (opening.day == day) return &opening;
    }
    return nullptr;
}

bool waits_with_a_step(const WeekOfBin& bin) {
    return bin.today.answer == RationAnswer::wait &&
           (!bin.today.put_in.empty() || looks_first(bin.today));
}

std::string closed_words(const WeekOfBin& bin, Date today, UnitSystem units) {
    switch (bin.today.answer) {
        case RationAnswer::act_first:
            return "act first, no food.";
        case RationAnswer::wait:
            if (looks_first(bin.today)) return "look first, no food before you did.";
            return "wait, no food" +
                   (bin.today.next_feeding
                        ? " until " + day_words(today, bin.today.next_feeding->day, units)
                        : std::string()) +
                   ".";
        case RationAnswer::feed_less:
        case RationAnswer::feed:
            break;
    }
    return "nothing left for it this week.";
}

std::string week_headline(const WeekPlan& plan, UnitSystem units) {
    const auto fed = static_cast<std::size_t>(
        std::count_if(plan.bins.begin(), plan.bins.end(),
                      [](const WeekOfBin& bin) { return !bin.openings.empty(); }));
    if (fed == 0) return "Feed no bin this week.";
    return "Feed " + std::to_string(fed) + " of " + counted(plan.bins.size(), "bin") +
           " this week: " + mass_text(kilograms(plan.used.in_kilograms()), units) +
           " of scraps in all.";
}

std::vector<std::string> rest_lines(const WeekPlan& plan, UnitSystem units) {
    std::vector<std::string> lines;
    double kept_kg = 0.0;
    std::vector<std::string> kept;
    std::map<int, double> fresh_kg;  // by the last day on which it is good
    std::map<int, std::vector<std::string>> fresh;
    for (const WeekRest& one : plan.rest) {
        (one.thing.kept ? kept_kg : fresh_kg[one.thing.until]) += one.wet_mass.in_kilograms();
        if (one.wet_mass.in_kilograms() < least_portion_kg) continue;
        auto& names = one.thing.kept ? kept : fresh[one.thing.until];
        const std::string name = one.thing.thing.name();
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    // Of many things the amount says it.
    const auto of_names = [](const std::vector<std::string>& names) {
        constexpr std::size_t most_told = 2;
        return names.empty() || names.size() > most_told ? std::string() : " of " + joined(names);
    };
    // What is not worth a line of its own goes with what is good for longest.
    double crumbs_kg = 0.0;
    for (auto at = fresh_kg.begin(); at != fresh_kg.end();) {
        const bool crumbs = at->second < least_portion_kg && std::next(at) != fresh_kg.end();
        crumbs_kg += crumbs ? at->second : 0.0;
        at = crumbs ? fresh_kg.erase(at) : std::next(at);
    }
    if (!fresh_kg.empty()) fresh_kg.rbegin()->second += crumbs_kg;
    for (const auto& [until, kg] : fresh_kg) {
        if (kg < 0.005) continue;
        lines.push_back("No bin can take " + mass_text(kilograms(kg), units) +
                        of_names(fresh[until]) + ". Freeze it by " +
                        day_words(plan.today, until, units) +
                        ", or give it to a heap or neighbours.");
    }
    if (kept_kg >= 0.005)
        lines.push_back("Keep " + mass_text(kilograms(kept_kg), units) + of_names(kept) +
                        " for next week: it does not spoil.");
    return lines;
}

std::vector<std::string> from_stock_lines(const WeekPlan& plan, UnitSystem units) {
    std::vector<std::string> lines;
    bool frozen = false;
    for (std::size_t b = 0; b < plan.bins.size(); ++b) {
        std::vector<std::string> taken;
        std::vector<std::string> noted;
        for (const WeekFromStock& one : plan.from_stock) {
            if (one.bin != b) continue;
            frozen = frozen || is_frozen(*one.thing.feedstock);
            const std::string name = one.thing.name();
            taken.push_back(words::mass(one.wet_mass.in_kilograms(), units) + " of " + name +
                            (one.container.empty() ? "" : " (" + one.container + ")"));
            const double others_kg = one.to_others.in_kilograms();
            if (others_kg >= 0.005) noted.push_back(words::mass(others_kg, units) + " " + name);
        }
        const std::string& bin = plan.bins[b].name;
        if (!taken.empty())
            lines.push_back("From the stock of " + bin + ": " + joined(taken) + ".");
        if (!noted.empty())
            lines.push_back("Other bins get some of it. Note in " + bin + ": stock took " +
                            joined(noted) + ".");
    }
    if (frozen)
        lines.emplace_back(
            "Take frozen food out of the freezer the day before, that of today now.");
    for (const SaidTwice& one : plan.said_twice)
        lines.push_back("There is " + words::mass(one.said_kg, units) + " of " + one.label +
                        ", as said. The " + words::mass(one.in_stock_kg, units) +
                        " in stock counts as part of it. Is there both? Then say " +
                        words::mass(one.said_kg + one.in_stock_kg, units) + ".");
    return lines;
}

std::vector<std::string> week_cautions(const WeekPlan& plan) {
    std::vector<std::string> told;
    for (const WeekOfBin& bin : plan.bins) {
        for (const WeekOpening& opening : bin.openings) {
            for (const CautionFinding& caution : opening.ration.cautions) {
                const std::string text = "Take care: " + caution.text;
                const bool known = std::find(told.begin(), told.end(), text) != told.end();
                if (hurts_people(caution.caution) && !known) told.push_back(text);
            }
        }
    }
    return told;
}

}  // namespace feed::io
