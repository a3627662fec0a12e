#include "feed/bed/cautions.hpp"

#include <catch2.hpp>
#include <set>
#include <string>
#include <vector>

#include <bed_kitchen.hpp>

using namespace feed;

namespace {
const CautionFinding* find(const std::vector<CautionFinding>& all, Caution caution) {
    for (const CautionFinding& c : all) {
        if (c.caution == caution) return &c;
    }
    return nullptr;
}
}  // namespace

TEST_CASE("each caution of the issue is said once, with a source") {
    auto one = kitchen::scraps().named("a").with(Caution::citrus_oil).with(Caution::allium);
    auto two = kitchen::scraps()
                   .named("b")
                   .with(Caution::citrus_oil)
                   .with(Caution::treated_manure)
                   .with(Caution::coated)
                   .with(Caution::seeds_sprout)
                   .with(Caution::sharp);
    const std::vector<Portion> feeding{{one.share(), wet_grams(10)}, {two.share(), wet_grams(10)}};
    const auto found = cautions_of(feeding);
    CHECK(found.size() == 6);
    for (const Caution c : {Caution::citrus_oil, Caution::allium, Caution::treated_manure,
                            Caution::coated, Caution::seeds_sprout, Caution::sharp}) {
        const CautionFinding* f = find(found, c);
        REQUIRE(f != nullptr);
        CHECK_FALSE(f->source.empty());
    }
    CHECK(find(found, Caution::citrus_oil)->feedstock == "a; b");
}

TEST_CASE("every caution bit that has words has them once") {
    std::set<std::uint32_t> bits;
    for (const CautionWords& words : caution_words) {
        CHECK(bits.insert(static_cast<std::uint32_t>(words.caution)).second);
        CHECK_FALSE(words.text.empty());
        CHECK_FALSE(words.source.empty());
    }
    // Acidity and salt are hazards with numbers, so they have no words here.
    CHECK(bits.count(static_cast<std::uint32_t>(Caution::acidity)) == 0);
    CHECK(bits.count(static_cast<std::uint32_t>(Caution::salt)) == 0);
    CHECK(bits.size() == 18);
}

TEST_CASE("what must never be fed is marked so over the table") {
    int guarded = 0;
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        auto f = std::make_shared<const Feedstock>(feedstock_at(i));
        if (f->stance != Stance::avoid || f->cautions == 0) continue;
        ++guarded;
        const std::vector<Portion> feeding{{f, wet_grams(50)}};
        bool act = false;
        for (const CautionFinding& c : cautions_of(feeding))
            act = act || c.level == Level::act;
        INFO(f->id);
        const std::uint32_t with_words = ~(static_cast<std::uint32_t>(Caution::acidity) |
                                           static_cast<std::uint32_t>(Caution::salt));
        if ((f->cautions & with_words) != 0) CHECK(act);
    }
    CHECK(guarded > 5);
}

TEST_CASE("the dust of lime is said once") {
    const std::vector<Portion> shell{kitchen::portion("eggshell-powder", 0.005)};
    const auto found = cautions_of(shell);
    CHECK(find(found, Caution::lime_dust) != nullptr);
    CHECK(find(found, Caution::dust) == nullptr);
}

TEST_CASE("of what is never fed only the fact is said, and no advice on feeding it") {
    for (const char* id : {"hydrated-lime", "bacon-cooked", "oil-vegetable"}) {
        for (const CautionFinding& c : cautions_of(std::vector{kitchen::portion(id, 0.1)})) {
            INFO(c.text);
            for (const char* advice : {"damp", "pinch", "little", "spoonful", "under plenty"})
                CHECK(c.text.find(advice) == std::string::npos);
        }
    }
    // What concerns the person stays.
    const auto bacon = cautions_of(std::vector{kitchen::portion("bacon-cooked", 0.1)});
    REQUIRE(find(bacon, Caution::pathogen) != nullptr);
    CHECK(find(bacon, Caution::pathogen)->text.find("wash your hands") != std::string::npos);
}

TEST_CASE("cautions name things as the keeper wrote them") {
    const std::vector<Portion> feeding{kitchen::portion("paper-office", 0.1),
                                       kitchen::portion("paper-office", 0.2)};
    const std::vector<std::string> labels{"till roll", feeding[1].feedstock->name};
    const auto found = cautions_of(feeding, labels);
    REQUIRE(find(found, Caution::dust) != nullptr);
    CHECK(find(found, Caution::dust)->text.find("till roll, office paper: ") == 0);
}
