// Ways in which people say what they have (tests/data/phrasings.csv): what is taken, asked,
// refused.
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "catch2.hpp"
#include "feed/feedstock/things.hpp"
#include "split.hpp"

using feed_test::split;

namespace {

struct Phrase {
    std::string text;
    std::string expected;
};

std::vector<Phrase> phrases() {
    std::ifstream file(FEED_SOURCE_DIR "/tests/data/phrasings.csv");
    std::vector<Phrase> list;
    for (std::string line; std::getline(file, line);) {
        const auto at = line.rfind(';');
        if (line.empty() || line[0] == '#' || at == std::string::npos) continue;
        if (line.substr(0, at) != "phrase")
            list.push_back({line.substr(0, at), line.substr(at + 1)});
    }
    return list;
}

/// "apple-whole|apple-pomace 420-700".
bool fits(const std::string& expected, const feed::ReadThing& thing) {
    const auto blank = expected.find(' ');
    std::istringstream range(expected.substr(blank + 1));
    double low = 0.0;
    double high = 0.0;
    char dash = '\0';
    range >> low >> dash >> high;
    bool named = false;
    for (const auto& id : split(expected.substr(0, blank), "|"))
        named = named || id == thing.feedstock->id;
    const double grams = thing.mass.wet_mass.in_kilograms() * 1000.0;
    return named && grams >= 0.999 * low && grams <= 1.001 * high;
}

bool is_right(const std::string& expected, const feed::ReadThings& read) {
    for (const auto& way : split(expected, " or ")) {
        if (way == "ask") {
            if (!read.questions.empty()) return true;
        } else if (way == "refuse") {
            const bool all = !read.things.empty() &&
                             std::all_of(read.things.begin(), read.things.end(),
                                         [](const feed::ReadThing& one) { return one.barred; });
            if (all) return true;
        } else {
            const auto things = split(way, "+");
            bool all = read.questions.empty() && things.size() == read.things.size();
            for (std::size_t i = 0; all && i < things.size(); ++i)
                all = fits(things[i], read.things[i]);
            if (all) return true;
        }
    }
    return false;
}

}  // namespace

TEST_CASE("95 of 100 phrasings are taken or rightly asked back, and all of the barred refused") {
    const auto list = phrases();
    REQUIRE(list.size() >= 400);
    std::size_t right = 0;
    std::size_t barred = 0;
    std::string wrong;
    for (const auto& phrase : list) {
        const bool good = is_right(phrase.expected, feed::read_things(phrase.text));
        right += good ? 1 : 0;
        if (phrase.expected == "refuse") {
            ++barred;
            CAPTURE(phrase.text);
            CHECK(good);
        } else if (!good) {
            wrong += "\n  " + phrase.text + " (" + phrase.expected + ")";
        }
    }
    INFO("wrong:" << wrong);
    CHECK(barred >= 100);
    CHECK(static_cast<double>(right) >= 0.95 * static_cast<double>(list.size()));
}

TEST_CASE("what is asked can be answered with what the question says") {
    // Every repair is typed again and understood; the message says it.
    std::size_t repairs = 0;
    for (const auto& phrase : phrases()) {
        for (const auto& question : feed::read_things(phrase.text).questions) {
            CAPTURE(phrase.text, question.message);
            CHECK(question.message.size() <= 260);
            CHECK(question.message.find('\n') == std::string::npos);
            for (const auto& repair : question.repairs) {
                CAPTURE(repair);
                CHECK(question.message.find(repair) != std::string::npos);
                const auto again = feed::read_things(repair);
                // The name of a feedstock is a repair for the name only: then the amount is asked.
                const bool is_name = feed::look_up(repair).has_value();
                const bool unknown = phrase.text.find("wibble") != std::string::npos;
                CHECK((again.questions.empty() || is_name || unknown));
                ++repairs;
            }
        }
    }
    CHECK(repairs > 100);
}
