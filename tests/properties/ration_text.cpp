// The printed lines of a ration, read as a keeper reads them, give what was promised.
#include <algorithm>
#include <catch2.hpp>
#include <cmath>
#include <long_forms.hpp>
#include <ration_kitchen.hpp>
#include <string>
#include <vector>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/io/ration_text.hpp"

using namespace feed;
using kitchen::Case;

namespace {

/// An amount in a text of people: "170 g", "2 handfuls", "1 1/2 pieces".
Amount amount_in(const std::string& text) {
    const auto parsed = parse_amount(text);
    INFO("reading \"" << text << "\"");
    REQUIRE(parsed);
    return *parsed;
}

/// Wet kg that a keeper would weigh out or count for "2 pieces, about 240 g" of something.
struct Read {
    double by_weight = 0.0;   ///< nothing where no weight stands there
    double by_measure = 0.0;  ///< nothing where it is a weight
};

Read read_measure(const std::string& text, const Feedstock& f) {
    Read read;
    const std::string about = ", about ";
    const std::size_t at = text.find(about);
    const std::string measure = text.substr(0, at);
    if (at != std::string::npos)
        read.by_weight = in_kilograms(amount_in(text.substr(at + about.size())).mass);
    const Amount amount = amount_in(measure);
    if (amount.kind == AmountKind::mass) {
        read.by_weight = in_kilograms(amount.mass);
        return read;
    }
    const auto mass = wet_mass_of(amount, f);
    REQUIRE(mass);
    read.by_measure = mass->wet_mass.in_kilograms();
    return read;
}

/// Things in the keeper's own measures: pieces, handfuls, litres, grams.
void measure_things(Case& c, kitchen::Dice& dice) {
    for (ThingAtHand& thing : c.things) {
        if (part_of(*thing.feedstock) != Part::scraps || !thing.most) continue;
        const std::string count = std::to_string(1 + dice.below(6));
        for (const std::string& unit : {dice.below(2) == 0 ? std::string("piece") : "handful",
                                        std::string("L"), std::string("g")}) {
            const std::string words =
                (unit == "g" ? std::to_string(50 + 10 * dice.below(60)) : count) + " " + unit;
            const auto amount = parse_amount(words);
            if (!amount) continue;
            const auto mass = wet_mass_of(*amount, *thing.feedstock);
            if (!mass) continue;
            thing.amount = *amount;
            thing.most = mass->wet_mass;
            break;
        }
    }
}

/// Two printed figures may differ by half of the last one, or by half a step of a kitchen scale.
bool prints(double printed, double meant, UnitSystem units = UnitSystem::metric) {
    return std::abs(printed - meant) <=
           std::max(0.05 * meant, 0.5 * words::scale_step_kg(units)) + 1e-9;
}

}  // namespace

TEST_CASE("what is printed reads back as what was judged") {
    kitchen::Dice dice(89);
    const auto table = kitchen::whole_table();
    int counted = 0;
    int weighed = 0;
    for (int i = 0; i < feed_test::draws(1500); ++i) {
        Case c = kitchen::random_case(dice, table);
        measure_things(c, dice);
        const UnitSystem units = i % 2 == 0 ? UnitSystem::metric : UnitSystem::us;
        const Ration r = kitchen::ration_of(c, units);
        const std::vector<std::string> lines = io::ration_lines(r, units);
        std::string all;
        for (const std::string& line : lines)
            all += line + "\n";
        INFO("household " << i << "\n" << all);
        REQUIRE(lines.size() <= 12);
        double read_kg = 0.0;
        for (const PutIn& put : r.put_in) {
            const std::string measure = io::measure_of(put, units);
            REQUIRE(all.find(measure) != std::string::npos);
            const bool by_hand = measure == "a pinch" || measure == "a handful";
            // A pinch of food is at most so much (quantity/pinch.hpp); the headline has it too.
            if (measure == "a pinch") REQUIRE(pinch::holds(put.wet_mass.in_kilograms()));
            if (measure == "a pinch" && put.part == Part::scraps)
                read_kg += put.wet_mass.in_kilograms();
            if (by_hand || put.part == Part::poured_water) continue;
            const double meant = put.wet_mass.in_kilograms();
            const Read read = read_measure(measure, *put.thing.feedstock);
            if (read.by_weight > 0.0) {
                ++weighed;
                REQUIRE(prints(read.by_weight, meant, units));
            }
            // Loose bedding is not measured finer than a handful; its weight stands beside it.
            if (read.by_measure > 0.0 && put.part == Part::scraps) {
                ++counted;
                CAPTURE(measure, read.by_measure, meant);
                REQUIRE(prints(read.by_measure, meant));
            }
            if (put.part == Part::scraps)
                read_kg += read.by_measure > 0.0 ? read.by_measure : read.by_weight;
        }
        const bool eats = r.answer == RationAnswer::feed || r.answer == RationAnswer::feed_less;
        REQUIRE((all.find(" of scraps today") != std::string::npos) == eats);
        if (!eats) continue;
        // The headline is the sum of what stands below it.
        const std::string other = "The bed may have ";  // of scraps that nobody named
        const std::size_t may = all.find(other);
        const std::size_t at =
            may != std::string::npos ? may + other.size() : all.find(": ", all.find("Feed ")) + 2;
        const double headline =
            in_kilograms(amount_in(all.substr(at, all.find(" of scraps") - at)).mass);
        REQUIRE(prints(headline, r.scraps.in_kilograms(), units));
        // Each line may be half a step of a scale off.
        REQUIRE(std::abs(read_kg - r.scraps.in_kilograms()) <=
                0.05 * r.scraps.in_kilograms() +
                    0.5 * words::scale_step_kg(units) * static_cast<double>(r.put_in.size()) +
                    1e-9);
        if (r.water_kg > 0.0) {
            const std::size_t water = all.find("Sprinkle ") + 9;
            const Amount poured =
                amount_in(all.substr(water, all.find(" of water", water) - water));
            const double litres = in_litres(poured.volume);
            REQUIRE(prints(litres, r.water_kg, units));
        }
    }
    CHECK(feed_test::enough(counted, 200));
    CHECK(feed_test::enough(weighed, 500));
}

TEST_CASE("the lines read back and laid as read raise nothing") {
    kitchen::Dice dice(97);
    const auto table = kitchen::whole_table();
    int laid = 0;
    for (int i = 0; i < feed_test::draws(1500); ++i) {
        Case c = kitchen::random_case(dice, table);
        measure_things(c, dice);
        const Ration r = kitchen::ration_of(c);
        if (r.answer != RationAnswer::feed && r.answer != RationAnswer::feed_less) continue;
        std::vector<Portion> feeding;
        for (const PutIn& put : r.put_in) {
            double kg = put.wet_mass.in_kilograms();
            const std::string measure = io::measure_of(put, UnitSystem::metric);
            if (measure != "a pinch" && put.part == Part::scraps) {
                const Read read = read_measure(measure, *put.thing.feedstock);
                kg = read.by_weight > 0.0 ? read.by_weight : read.by_measure;
            }
            feeding.push_back({put.thing.feedstock, wet_kilograms(kg)});
        }
        ++laid;
        const double spread = in_square_metres(r.spread);
        const auto raised = kitchen::raised_by(kitchen::judged(c.bed, {}, spread),
                                               kitchen::judged(c.bed, feeding, spread));
        INFO("household " << i << ": " << kitchen::told(r) << ": "
                          << (raised.empty() ? std::string_view("nothing") : text(raised[0])));
        // A limit met to within the last printed figure is met.
        for (const Hazard hazard : raised) {
            const HazardNumber n = kitchen::judged(c.bed, feeding, spread)[hazard];
            REQUIRE(std::abs(n.value.value - n.watch) <= 0.05 * std::max(n.watch, 1e-9));
        }
    }
    CHECK(feed_test::enough(laid, 400));
}
