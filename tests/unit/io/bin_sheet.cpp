#include "feed/io/bin_sheet.hpp"

#include <algorithm>
#include <cctype>
#include <memory>
#include <string>

#include "catch2.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/forecast/forecast.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"

using feed::io::BinSheet;

namespace {

BinSheet tote() {
    BinSheet sheet;
    sheet.bin = "Lunch club <1> & \"friends\"";
    sheet.look_on = feed::Date{2026, 3, 21};
    sheet.look_for = "Most of the food should be gone.";
    sheet.feed_on = feed::Date{2026, 3, 21};
    sheet.feed = {"Apple cores: 2 handfuls, about 170 g."};
    sheet.lime = true;
    return sheet;
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++found;
    return found;
}

/// Syllables as groups of vowels, without a silent final e.
int syllables_of(const std::string& word) {
    int groups = 0;
    bool in_vowels = false;
    for (const char c : word) {
        const bool vowel = std::string("aeiouy").find(c) != std::string::npos;
        if (vowel && !in_vowels) ++groups;
        in_vowels = vowel;
    }
    const std::size_t n = word.size();
    if (groups > 1 && n > 2 && word[n - 1] == 'e' && word[n - 2] != 'l') --groups;
    return std::max(groups, 1);
}

/// Grade level of Kincaid et al. 1975 (Navy Research Branch Report 8-75): 0.39 words a sentence +
/// 11.8 syllables a word - 15.59.
double grade_level(const std::string& text) {
    int words = 0;
    int sentences = 0;
    int syllables = 0;
    std::string word;
    for (const char c : text + " ") {
        if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
            word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
            continue;
        }
        if (!word.empty()) {
            ++words;
            syllables += syllables_of(word);
            word.clear();
        }
        if (c == '.' || c == '?') ++sentences;
    }
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
}

}  // namespace

TEST_CASE("the grade level of a known text is right") {
    // Counted by hand: 2 sentences, 12 words, 14 syllables.
    CHECK(grade_level("The cat sat on the mat. It was a very happy cat.") ==
          feed_test::Approx(0.39 * 6 + 11.8 * 14.0 / 12.0 - 15.59));
}

// A ten-year-old is in the fifth year of school.
TEST_CASE("a ten-year-old can read the sheet") {
    std::string page = feed::io::bin_sheet_text(tote());
    page = page.substr(0, page.find("Date  "));
    // The dates and amounts are numbers, not words.
    const double grade = grade_level(page.substr(page.find("Look first")));
    CAPTURE(grade);
    CHECK(grade < 5.0);
}

TEST_CASE("the sheet fits on a page and holds what a site must record") {
    const std::string page = feed::io::bin_sheet_text(tote());
    CHECK(std::count(page.begin(), page.end(), '\n') <= 66);
    std::size_t longest = 0;
    for (std::size_t at = 0; at < page.size();) {
        const std::size_t end = page.find('\n', at);
        longest = std::max(longest, end - at);
        at = end + 1;
    }
    CHECK(longest <= 80);
    CHECK(page.find("Look on 2026-03-21. Most of the food should be gone.") != std::string::npos);
    CHECK(page.find("2 handfuls, about 170 g") != std::string::npos);
    const std::string html = feed::io::bin_sheet_html(tote());
    for (const char* recorded :
         {"Date", "Who", "Food in", "Bedding", "back, middle, front", "Dry, damp or wet",
          "Water in tray", "Smell", "busy or slow", "Bugs", "What we did"})
        CHECK(html.find(recorded) != std::string::npos);
}

TEST_CASE("cautions stand on the sheet") {
    BinSheet sheet = tote();
    CHECK(feed::io::bin_sheet_text(sheet).find("Lime is for grown-ups only") != std::string::npos);
    sheet.lime = false;
    const std::string page = feed::io::bin_sheet_text(sheet);
    CHECK(page.find("Lime") == std::string::npos);
    CHECK(page.find("Wash your hands") != std::string::npos);
    CHECK(page.find("dust") != std::string::npos);
    CHECK(page.find("does not kill germs") != std::string::npos);
}

TEST_CASE("the page in HTML is whole, safe and fetches nothing") {
    const std::string html = feed::io::bin_sheet_html(tote());
    CHECK(html.find("Lunch club &lt;1&gt; &amp; &quot;friends&quot;") != std::string::npos);
    for (const char* tag :
         {"html", "head", "body", "table", "tr", "ul", "ol", "li", "th", "td", "h2"}) {
        const std::string open = std::string("<") + tag;
        CAPTURE(tag);
        CHECK(count(html, open + ">") + count(html, open + " ") ==
              count(html, std::string("</") + tag + ">"));
    }
    CHECK(count(html, "<tr>") == 11);
    CHECK(html.find("http") == std::string::npos);
    CHECK(html.find("<script") == std::string::npos);
    BinSheet bare;
    bare.rows = 0;
    CHECK(feed::io::bin_sheet_html(bare).find("<table") == std::string::npos);
    CHECK(feed::io::bin_sheet_text(bare).find("Do not feed yet") != std::string::npos);
}

TEST_CASE("the sheet follows the forecast") {
    feed::Bed bed;
    bed.temperature = feed::celsius(22);
    bed.squeeze = feed::Squeeze::drops;
    const std::vector<feed::Portion> portions{
        {std::make_shared<const feed::Feedstock>(feed::feedstock_at(*feed::find_id("apple-whole"))),
         feed::wet_kilograms(0.4)}};
    const std::vector<feed::Feeding> plan{{feed::days(0), portions}};
    const feed::Forecast f = feed::forecast(bed, plan);
    const BinSheet sheet =
        feed::io::bin_sheet_of("Tote", portions, f, {2026, 3, 14}, feed::io::UnitSystem::metric);
    REQUIRE(f.next_feeding.day.has_value());
    CHECK(feed::day_number(*sheet.feed_on) - feed::day_number({2026, 3, 14}) ==
          *f.next_feeding.day);
    REQUIRE(sheet.feed.size() == 1);
    CHECK(sheet.feed[0].find("400 g") != std::string::npos);
    CHECK_FALSE(sheet.less);
    const BinSheet half = feed::io::bin_sheet_of("Tote", portions, f, {2026, 3, 14},
                                                 feed::io::UnitSystem::metric, 0.5);
    CHECK(half.feed[0].find("200 g") != std::string::npos);
    CHECK(feed::io::bin_sheet_text(half).find("less than was planned") != std::string::npos);
}

TEST_CASE("a sheet never asks for more than the check starts with") {
    const std::string text =
        "libfeed: 1\nbed: {container: 60 L tote, worms: 500 g, age: 1 year, temperature: 20 C}\n"
        "blend: [2 kg carrot]\n";
    const auto file = feed::io::read_feed_text(text, "bin.yaml");
    REQUIRE(file);
    // The worms' weight a week, the lowest of the rules here: 0.5 of 2 kg.
    CHECK(feed::io::share_to_repeat(*file) == feed_test::Approx(0.25));
    const auto found = feed::io::check_of(*file);
    REQUIRE(found);
    CHECK((*found)[feed::Hazard::overfed].level == feed::Level::act);
    std::string little = text;
    little.replace(little.find("2 kg"), 4, "400 g");
    const auto modest = feed::io::read_feed_text(little, "bin.yaml");
    REQUIRE(modest);
    CHECK(feed::io::share_to_repeat(*modest) == 1.0);
    CHECK((*feed::io::check_of(*modest))[feed::Hazard::overfed].level == feed::Level::none);
}
