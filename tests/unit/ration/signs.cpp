#include "feed/ration/signs.hpp"

#include <algorithm>
#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <fstream>
#include <set>
#include <split.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "feed/diary/seen.hpp"

using namespace feed;
using feed_test::Approx;
using feed_test::split;

namespace {

Cause likeliest(const Bed& bed, std::vector<Sign> signs) {
    const SignsAnswer answer = causes_of(bed, signs);
    return answer.causes.front().cause;
}

/// A tote of which nothing is known but its worms.
Bed plain() {
    Bed bed;
    bed.worms.wet_mass = wet_grams(500);
    return bed;
}

}  // namespace

TEST_CASE("the causes that keepers' lists give for climbing worms are all there") {
    // A questions-and-answers list has eight: acid, wet, dry, packed, rotting food, disliked food,
    // hot, cold; a keeper found crowding, and new bins wander.
    for (const Cause cause :
         {Cause::too_sour, Cause::too_wet, Cause::too_dry, Cause::packed, Cause::rotting_food,
          Cause::disliked_food, Cause::too_hot, Cause::too_cold, Cause::crowded, Cause::new_bin}) {
        bool listed = false;
        for (const SignCause& row : sign_causes)
            listed = listed || (row.sign == Sign::worms_climbing && row.cause == cause);
        CHECK(listed);
    }
    CHECK(causes_of(plain(), std::vector<Sign>{Sign::worms_climbing}).causes.size() >= 8);
}

TEST_CASE("the bed decides which cause of climbing worms comes first") {
    const std::vector<Sign> climbing{Sign::worms_climbing};
    Bed bed = plain();
    bed.squeeze = Squeeze::pooling;
    CHECK(likeliest(bed, climbing) == Cause::too_wet);
    bed.squeeze = Squeeze::crumbly;
    CHECK(likeliest(bed, climbing) == Cause::too_dry);
    bed = plain();
    bed.ph = 5.0;
    CHECK(likeliest(bed, climbing) == Cause::too_sour);
    bed = plain();
    bed.temperature = celsius(36);
    CHECK(likeliest(bed, climbing) == Cause::too_hot);
    bed = plain();
    bed.age = days(2);
    const SignsAnswer first_nights = causes_of(bed, climbing);
    CHECK(first_nights.causes.front().cause == Cause::new_bin);
    CHECK(first_nights.harmless);
    bed = plain();
    for (int day = 6; day >= 1; --day)
        bed.earlier.push_back({days(-day), {{kitchen::scraps().share(), wet_kilograms(1.0)}}});
    CHECK(likeliest(bed, climbing) == Cause::rotting_food);
    bed = plain();
    auto peel = kitchen::scraps().named("peel").at_most(0.1).share();
    bed.earlier = {{days(-2), {{peel, wet_kilograms(0.3)}}}};
    const SignsAnswer fled = causes_of(bed, climbing);
    CHECK(fled.causes.front().cause == Cause::disliked_food);
    CHECK(fled.causes.front().remedy.text.find("peel") != std::string::npos);
    CHECK(fled.causes.front().remedy.feed_now.in_kilograms() == Approx(0.05));
}

TEST_CASE("crowding, worked by hand") {
    // Two pounds in half a tote: 0.907 kg on 0.1 m2, where a pound a square foot is 4.88 kg/m2.
    Bed bed = plain();
    bed.container.inside = InsideSize{metres(0.4), metres(0.25), metres(0.3)};
    bed.worms.wet_mass = wet_kilograms(2.0 * kilograms_per_pound);
    bed.squeeze = Squeeze::drops;
    bed.temperature = celsius(20);
    bed.age = days(200);
    const SignsAnswer answer = causes_of(bed, std::vector<Sign>{Sign::worms_climbing});
    const Diagnosis* crowded = nullptr;
    for (const Diagnosis& d : answer.causes) {
        if (d.cause == Cause::crowded) crowded = &d;
    }
    REQUIRE(crowded != nullptr);
    CHECK(in_square_metres(crowded->remedy.spread) == Approx(0.19));
    CHECK(crowded->remedy.text.find("420 g of worms") != std::string::npos);
}

TEST_CASE("harmless things are called harmless") {
    for (const Sign sign :
         {Sign::mites, Sign::springtails, Sign::white_worms, Sign::mould, Sign::drops}) {
        const SignsAnswer answer = causes_of(kitchen::tote(), std::vector<Sign>{sign});
        INFO(text(sign));
        CHECK(answer.harmless);
        CHECK(answer.text.find("harmless") != std::string::npos);
        CHECK(answer.causes.front().remedy.kind == StepKind::look);
    }
    for (const Sign sign : {Sign::rotten_smell, Sign::ammonia_smell, Sign::streams, Sign::flies})
        CHECK_FALSE(causes_of(plain(), std::vector<Sign>{sign}).harmless);
}

TEST_CASE("two signs together point to what explains both") {
    const SignsAnswer one = causes_of(plain(), std::vector<Sign>{Sign::worms_climbing});
    const SignsAnswer both =
        causes_of(plain(), std::vector<Sign>{Sign::worms_climbing, Sign::vinegar_smell});
    CHECK(both.causes.front().cause == Cause::too_sour);
    CHECK(both.causes.front().share > 2.0 * one.causes[2].share);
    // A sign told twice counts once.
    const SignsAnswer twice =
        causes_of(plain(), std::vector<Sign>{Sign::vinegar_smell, Sign::vinegar_smell});
    const SignsAnswer once = causes_of(plain(), std::vector<Sign>{Sign::vinegar_smell});
    CHECK(twice.causes.front().share == once.causes.front().share);
    CHECK(causes_of(plain(), {}).causes.empty());
}

TEST_CASE("ammonia is never answered with lime, and reversible steps come first") {
    const SignsAnswer smell =
        causes_of(plain(), std::vector<Sign>{Sign::ammonia_smell, Sign::worms_climbing});
    CHECK(smell.causes.front().cause == Cause::ammonia);
    CHECK(smell.causes.front().remedy.kind != StepKind::add_lime);
    Bed sour = plain();
    sour.ph = 5.7;
    const SignsAnswer answer =
        causes_of(sour, std::vector<Sign>{Sign::sour_smell, Sign::food_left});
    REQUIRE_FALSE(answer.steps.empty());
    int before = 0;
    for (const std::size_t i : answer.steps) {
        const int now = detail::hardness(answer.causes[i].remedy.kind);
        CHECK(now >= before);
        before = now;
    }
}

TEST_CASE("in random households every sign has ordered causes, each with a test and a step") {
    kitchen::Dice dice(99);
    const auto table = kitchen::whole_table();
    for (int i = 0; i < 60; ++i) {
        const kitchen::Household h = kitchen::random_household(dice, table);
        for (std::size_t s = 0; s < sign_count; ++s) {
            const std::vector<Sign> signs{static_cast<Sign>(s),
                                          static_cast<Sign>(dice.below(sign_count))};
            const SignsAnswer answer = causes_of(h.bed, signs);
            REQUIRE_FALSE(answer.causes.empty());
            double sum = 0.0;
            double before = 1.0;
            std::set<Cause> once;
            for (const Diagnosis& d : answer.causes) {
                INFO(text(signs[0]) << ", " << text(signs[1]) << ": " << d.name);
                sum += d.share;
                // What can harm stands before what is harmless and less than twice as likely.
                const bool after_danger = &d == &answer.causes[1] && d.harmless &&
                                          !answer.causes[0].harmless && d.share <= 2.0 * before;
                REQUIRE((d.share <= before || after_danger));
                before = d.share;
                REQUIRE(once.insert(d.cause).second);
                REQUIRE_FALSE(d.test.empty());
                REQUIRE_FALSE(d.remedy.text.empty());
                REQUIRE(d.remedy.text.find("nan") == std::string::npos);
                REQUIRE(d.remedy.text.find("unknown") == std::string::npos);
            }
            REQUIRE(sum <= 1.0 + 1e-12);
            REQUIRE_FALSE(answer.steps.empty());
        }
    }
}

TEST_CASE("signs are found by their words, causes stand in order") {
    for (std::size_t s = 0; s < sign_count; ++s)
        CHECK(find_sign(sign_words[s]) == static_cast<Sign>(s));
    CHECK_FALSE(find_sign("purple").has_value());
    for (std::size_t c = 0; c < cause_count; ++c)
        CHECK(cause_words[c].cause == static_cast<Cause>(c));
    for (std::size_t s = 0; s < sign_count; ++s) {
        double sum = 0.0;
        for (const SignCause& row : sign_causes) {
            if (row.sign == static_cast<Sign>(s)) sum += row.weight;
        }
        CHECK(sum == Approx(100.0).margin(8.0));
    }
}

TEST_CASE("docs/signs.md shows every sign, cause and test as it is") {
    std::ifstream file(FEED_SOURCE_DIR "/docs/signs.md");
    REQUIRE(file.good());
    std::stringstream page;
    page << file.rdbuf();
    for (std::size_t s = 0; s < sign_count; ++s) {
        std::string row = "| " + std::string(sign_words[s]) + " | ";
        bool first = true;
        for (const SignCause& cause : sign_causes) {
            if (cause.sign != static_cast<Sign>(s)) continue;
            row += (first ? "" : ", ") + std::string(words_of(cause.cause).name) + " " +
                   significant(cause.weight, 3);
            first = false;
        }
        INFO(row);
        CHECK(page.str().find(row + " |") != std::string::npos);
    }
    for (const CauseWords& cause : cause_words) {
        INFO(cause.name);
        CHECK(page.str().find("| " + std::string(cause.name) + " | " + std::string(cause.test) +
                              " |") != std::string::npos);
    }
}

namespace {

/// The signs of "balled worms + heat"; nothing where a piece is not understood.
std::vector<Sign> signs_in(const std::string& words) {
    std::vector<Sign> signs;
    for (const auto& piece : split(words, " + ")) {
        const auto read = read_signs(piece);
        if (!read) return {};
        signs.insert(signs.end(), read->begin(), read->end());
    }
    return signs;
}

bool has_amount(const std::string& text) {
    // Without a bed nobody can know kilograms or litres.
    for (const std::string unit : {" g ", " g,", " g.", " kg", " L", " ml", " oz", " lb", " gal"}) {
        for (auto at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1))
            if (at > 0 && text[at - 1] >= '0' && text[at - 1] <= '9') return true;
    }
    return false;
}

}  // namespace

TEST_CASE("what keepers notice has the causes that published lists give (tests/data/signs.csv)") {
    std::ifstream file(FEED_SOURCE_DIR "/tests/data/signs.csv");
    std::size_t rows = 0;
    for (std::string line; std::getline(file, line);) {
        const auto cells = split(line, ";");
        if (line.empty() || line[0] == '#' || cells.size() != 5 || cells[0] == "signs") continue;
        ++rows;
        INFO(line);
        const auto signs = signs_in(cells[0]);
        if (cells[1] == "ask") {
            CHECK(signs.empty());
            continue;
        }
        CHECK_FALSE(signs.empty());
        if (signs.empty()) continue;
        const SignsAnswer answer = causes_of(signs);
        const std::string& first = answer.causes.front().name;
        INFO("first: " << first);
        const auto among = [](const std::string& list, const std::string& name) {
            const auto names = split(list, "|");
            return std::find(names.begin(), names.end(), name) != names.end();
        };
        CHECK(among(cells[1], first));
        CHECK_FALSE(among(cells[3], first));
        for (const auto& wanted : split(cells[2], "|")) {
            if (wanted.empty()) continue;
            INFO("wanted: " << wanted);
            CHECK(std::any_of(answer.causes.begin(), answer.causes.end(),
                              [&](const Diagnosis& one) { return one.name == wanted; }));
        }
    }
    CHECK(rows >= 90);
}

TEST_CASE("without a bed a step is a share, with one an amount") {
    for (std::size_t s = 0; s < sign_count; ++s) {
        const std::vector<Sign> signs{static_cast<Sign>(s)};
        for (const auto units : {UnitSystem::metric, UnitSystem::us}) {
            const SignsAnswer answer = causes_of(signs, units);
            REQUIRE_FALSE(answer.causes.empty());
            CHECK(answer.assumed.empty());
            for (const Diagnosis& one : answer.causes) {
                INFO(text(static_cast<Sign>(s)) << ": " << one.remedy.text);
                CHECK_FALSE(one.remedy.text.empty());
                CHECK_FALSE(has_amount(one.remedy.text));
                CHECK(one.why.empty());
                CHECK(one.remedy.add.in_kilograms() == 0.0);
            }
        }
    }
    const SignsAnswer with_bed = causes_of(kitchen::tote(), std::vector<Sign>{Sign::streams});
    CHECK(has_amount(with_bed.causes.front().remedy.text));
}

TEST_CASE("the thermometer comes before harmless, until it was read") {
    Bed bed = kitchen::tote();
    bed.temperature = std::monostate{};
    bed.earlier = {{days(-1), {{kitchen::scraps().share(), wet_kilograms(0.2)}}}};
    for (const Sign other : {Sign::mould, Sign::mites, Sign::cocoons, Sign::wet_lid}) {
        const SignsAnswer answer = causes_of(bed, std::vector<Sign>{Sign::heat, other});
        CHECK(answer.causes.front().cause == Cause::too_hot);
        CHECK_FALSE(answer.harmless);
    }
    bed.temperature = celsius(22);
    CHECK(causes_of(bed, std::vector<Sign>{Sign::heat}).causes.front().cause != Cause::too_hot);
}

TEST_CASE("every sign is found by its own name and by every word of the table") {
    for (std::size_t s = 0; s < sign_count; ++s) {
        INFO(sign_words[s]);
        const auto read = read_signs(sign_words[s]);
        REQUIRE(read);
        CHECK(read->front() == static_cast<Sign>(s));
    }
    for (const auto& language : table::seen_languages) {
        std::istringstream lines{std::string(language.words)};
        std::size_t count = 0;
        for (std::string line; std::getline(lines, line); ++count) {
            const std::size_t split = line.find('=');
            const std::string words = line.substr(0, split);
            INFO(words);
            // A word that two languages have is the first one's.
            bool earlier = false;
            for (const auto* other = table::seen_languages; other != &language; ++other)
                earlier = earlier || detail::row_for(*other, detail::seen_words_of(*other, words));
            const SeenRow* row = find_seen(words);
            REQUIRE(row != nullptr);
            CHECK((earlier || row == &table::seen_rows[std::stoul(line.substr(split + 1))]));
        }
        CHECK(count > 300);
    }
    // Every cause of the weights and every sign has weights.
    for (std::size_t s = 0; s < sign_count; ++s) {
        double sum = 0.0;
        for (const SignCause& row : sign_causes)
            sum += row.sign == static_cast<Sign>(s) ? row.weight : 0.0;
        INFO(sign_words[s]);
        CHECK(sum >= 95.0);
        CHECK(sum <= 115.0);
    }
}

TEST_CASE("what keepers say in four languages is taken for the same signs") {
    std::ifstream file(FEED_SOURCE_DIR "/tests/data/signs_languages.csv");
    REQUIRE(file);
    std::size_t count = 0;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line[0] == '#' || line == "language;words;signs") continue;
        const std::size_t first = line.find(';');
        const std::size_t second = line.find(';', first + 1);
        const std::string words = line.substr(first + 1, second - first - 1);
        const std::string expected = line.substr(second + 1);
        std::string taken;
        if (const auto read = read_signs(words))
            for (const Sign sign : *read)
                taken += (taken.empty() ? "" : "+") + std::string(text(sign));
        INFO(words);
        CHECK((taken.empty() ? "ask" : taken) == expected);
        ++count;
    }
    CHECK(count > 200);
}

TEST_CASE("what is no sign is answered with the signs that share a word with it") {
    const auto asked = read_signs(std::string_view("worms are tiny"));
    REQUIRE_FALSE(asked);
    const std::string& message = asked.errors().front().message;
    const auto list = message.find("did you mean ");
    REQUIRE(list != std::string::npos);
    CHECK(message.find("thin worms") != std::string::npos);
    CHECK(read_signs(std::string_view("thin worms")));
    // A denial is no sign that is near.
    const auto denied = read_signs(std::string_view("no ants"));
    REQUIRE_FALSE(denied);
    CHECK(denied.errors().front().message.find("did you mean") == std::string::npos);
}

TEST_CASE("hostile words for signs are refused in bounded time") {
    CHECK_FALSE(read_signs(std::string(100000, 'w')));
    CHECK_FALSE(read_signs(""));
    CHECK_FALSE(read_signs("\xff\xfe"));
    CHECK_FALSE(read_signs(std::string(199, ' ')));
}
