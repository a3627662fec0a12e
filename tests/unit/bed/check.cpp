#include "feed/bed/check.hpp"

#include <catch2.hpp>
#include <vector>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

namespace {

std::vector<Portion> a_feeding(double scraps_kg, double card_kg = 0.0) {
    std::vector<Portion> portions{{kitchen::scraps().share(), wet_kilograms(scraps_kg)}};
    if (card_kg > 0.0) portions.push_back({kitchen::card().share(), wet_kilograms(card_kg)});
    return portions;
}

}  // namespace

TEST_CASE("a modest feeding of a settled tote raises nothing") {
    const CheckResult result = check(kitchen::tote(), a_feeding(0.45, 0.1));
    CHECK(result.hazards.size() == hazard_count);
    for (const HazardFinding& finding : result.hazards) {
        INFO(finding.why);
        CHECK(finding.level == Level::none);
        CHECK(finding.remedy.kind == RemedyKind::none);
        CHECK_FALSE(finding.why.empty());
        CHECK_FALSE(finding.source.empty());
        CHECK_FALSE(finding.unit.empty());
    }
    CHECK(result.look_back ==
          "In 7 days the food should be mostly gone; if it is not, skip a feeding.");
}

TEST_CASE("every remedy taken with its printed amount takes its hazard away") {
    struct Kitchen {
        const char* name;
        Bed bed;
        std::vector<Portion> feeding;
    };
    std::vector<Kitchen> kitchens;
    kitchens.push_back({"too much at once", kitchen::tote(), a_feeding(4.0)});
    Bed wet = kitchen::tote();
    wet.squeeze = Squeeze::many_drops;
    kitchens.push_back({"wet bed", wet, a_feeding(1.0)});
    Bed dry = kitchen::tote();
    dry.squeeze = Squeeze::crumbly;
    kitchens.push_back({"dry bed", dry, a_feeding(0.3, 0.1)});
    Bed sour = kitchen::tote();
    sour.ph = 5.8;
    kitchens.push_back({"sour bed", sour, a_feeding(0.3)});
    Bed warm = kitchen::tote();
    warm.temperature = celsius(27);
    kitchens.push_back({"warm bed", warm, a_feeding(1.5)});
    auto salted = kitchen::scraps().with(Property::sodium_wet, 0.02).named("salted").share();
    kitchens.push_back({"salted", kitchen::tote(), {{salted, wet_kilograms(2.0)}}});
    auto rich = kitchen::scraps().with(Property::nitrogen_dry, 0.10).share();
    kitchens.push_back({"meal", kitchen::tote(), {{rich, wet_kilograms(1.5)}}});
    auto oily = kitchen::scraps().with(Property::fat_dry, 0.6).named("oily").share();
    kitchens.push_back(
        {"oily",
         kitchen::tote(),
         {{oily, wet_kilograms(0.3)}, {kitchen::scraps().share(), wet_kilograms(0.3)}}});
    kitchens.push_back({"nibble", kitchen::tote(), a_feeding(0.02)});
    int remedies = 0;
    bool seen[16] = {};
    for (const Kitchen& k : kitchens) {
        for (const HazardFinding& finding : check(k.bed, k.feeding).hazards) {
            if (finding.level != Level::watch && finding.level != Level::act) continue;
            INFO(k.name << ": " << text(finding.hazard) << ": " << finding.why << " -> "
                        << finding.remedy.text);
            CHECK_FALSE(finding.remedy.text.empty());
            if (!finding.remedy.hazard_gone) continue;
            ++remedies;
            seen[static_cast<std::size_t>(finding.remedy.kind)] = true;
            CHECK(kitchen::level_after(k.bed, k.feeding, finding) == Level::none);
        }
    }
    CHECK(remedies >= 15);
    for (const RemedyKind kind :
         {RemedyKind::feed_less, RemedyKind::feed_more, RemedyKind::add_bedding,
          RemedyKind::add_water, RemedyKind::leave_out})
        CHECK(seen[static_cast<std::size_t>(kind)]);
}

TEST_CASE("the rest of a feeding is safe on the day named") {
    const Bed bed = kitchen::tote();
    const std::vector<Portion> feeding = a_feeding(0.9);
    const HazardFinding overfed = check(bed, feeding)[Hazard::overfed];
    REQUIRE(overfed.level == Level::watch);
    REQUIRE(overfed.remedy.kind == RemedyKind::feed_less);
    const Remedy& r = overfed.remedy;
    CHECK(r.feed_now.in_kilograms() + r.feed_later.in_kilograms() == Approx(0.9));
    Bed later = bed;
    later.earlier = {{days(-in_days(r.later)), a_feeding(r.feed_now.in_kilograms())}};
    CheckOptions options;
    options.until_next = days(7);
    CHECK(check(later, a_feeding(r.feed_later.in_kilograms()), options)[Hazard::overfed].level ==
          Level::none);
}

TEST_CASE("a soured bed gets lime, and none where it would free ammonia") {
    Bed bed = kitchen::tote();
    bed.ph = 5.9;
    const auto sour = check(bed, a_feeding(0.2))[Hazard::sour];
    REQUIRE((sour.level == Level::watch || sour.level == Level::act));
    const auto has_lime = [](const HazardFinding& f) {
        if (f.remedy.kind == RemedyKind::add_lime) return true;
        for (const Remedy& r : f.other_remedies) {
            if (r.kind == RemedyKind::add_lime) return true;
        }
        return false;
    };
    CHECK(has_lime(sour));
    auto meal = kitchen::scraps().with(Property::nitrogen_dry, 0.12).share();
    const auto rich = check(bed, std::vector<Portion>{{meal, wet_kilograms(1.5)}})[Hazard::sour];
    REQUIRE((rich.level == Level::watch || rich.level == Level::act));
    CHECK_FALSE(has_lime(rich));
    CHECK(rich.remedy.text.find("Lime is left out") != std::string::npos);
}

TEST_CASE("what feeding cannot mend is said") {
    Bed hot = kitchen::tote();
    hot.temperature = celsius(33);
    const auto heat = check(hot, a_feeding(0.2))[Hazard::hot];
    CHECK(heat.level != Level::none);
    CHECK(heat.remedy.kind == RemedyKind::cool);
    CHECK_FALSE(heat.remedy.hazard_gone);
    Bed full = kitchen::tote();
    full.squeeze = Squeeze::pooling;
    full.depth_of_contents = metres(0.30);  // no room for bedding
    const auto wet = check(full, a_feeding(0.2))[Hazard::wet];
    CHECK(wet.level == Level::act);
    CHECK(wet.remedy.kind == RemedyKind::cannot);
    CHECK_FALSE(wet.remedy.hazard_gone);
    CHECK(wet.remedy.text.find("drain") != std::string::npos);
}

TEST_CASE("a bedding at hand is used for the remedy") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::many_drops;
    CheckOptions options;
    options.bedding_at_hand = kitchen::from_table("coir-pith");
    const auto wet = check(bed, a_feeding(0.5), options)[Hazard::wet];
    REQUIRE(wet.level != Level::none);
    if (wet.remedy.kind == RemedyKind::add_bedding)
        CHECK(wet.remedy.material == "coir-pith");
    else
        CHECK(wet.remedy.material.empty());
}

TEST_CASE("no sentence prints more than three figures of a number") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::many_drops;
    for (const HazardFinding& finding : check(bed, a_feeding(3.3)).hazards) {
        for (const std::string& sentence : {finding.why, finding.remedy.text}) {
            int figures = 0;
            bool leading = true;
            for (const char c : sentence) {
                if (c >= '1' && c <= '9') leading = false;
                if ((c >= '0' && c <= '9') || c == '.')
                    figures += c != '.' && !leading ? 1 : 0;
                else {
                    figures = 0;
                    leading = true;
                }
                INFO(sentence);
                REQUIRE(figures <= 4);
            }
        }
    }
}

TEST_CASE("an empty feeding judges the bed alone") {
    const CheckResult result = check(kitchen::tote(), {});
    CHECK(result[Hazard::wet].level == Level::none);
    CHECK(result[Hazard::overfed].value.value == 0.0);
    CHECK(result[Hazard::greasy].value.value == 0.0);
    CHECK(result.look_back.empty());
}

TEST_CASE("a wet bed may be dried by leaving the lid off, and drainage is told") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::many_drops;
    bed.lid = Lid::tight;
    bed.ventilation = Ventilation::closed;
    bed.moisture = Moisture(0.765);  // 20.4 kg of water on 6.27 kg dry, 72 % of capacity
    const auto wet = check(bed, a_feeding(0.3))[Hazard::wet];
    REQUIRE(wet.level != Level::none);
    bool opened = wet.remedy.kind == RemedyKind::open_lid;
    for (const Remedy& r : wet.other_remedies)
        opened =
            opened || (r.kind == RemedyKind::open_lid && r.hazard_gone && in_days(r.later) <= 7);
    CHECK(opened);
    bed = kitchen::tote();
    bed.squeeze = Squeeze::pooling;
    bed.drainage = Drainage::tap;
    CHECK(check(bed, {})[Hazard::wet].why.find("at the tap") != std::string::npos);
    bed.drainage = Drainage::none;
    CHECK(check(bed, {})[Hazard::wet].why.find("nowhere to go") != std::string::npos);
    CHECK(check(kitchen::tote(), {})[Hazard::wet].why.find("nowhere") == std::string::npos);
}

TEST_CASE("the order in which a diary is told does not matter") {
    Bed bed = kitchen::tote();
    bed.earlier = {
        {days(-9), a_feeding(0.4)}, {days(-5), a_feeding(0.2)}, {days(-2), a_feeding(0.3)}};
    Bed mixed = bed;
    std::swap(mixed.earlier.front(), mixed.earlier.back());
    const CheckResult a = check(bed, a_feeding(0.3));
    const CheckResult b = check(mixed, a_feeding(0.3));
    for (std::size_t h = 0; h < hazard_count; ++h)
        CHECK(a.hazards[h].value.value == Approx(b.hazards[h].value.value));
}
