#include "feed/io/bin_sheet.hpp"

#include <algorithm>
#include <cctype>
#include <memory>
#include <string>

#include "catch2.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/ration_text.hpp"

using feed::io::BinSheet;

namespace {

BinSheet club_tote() {
    BinSheet sheet;
    sheet.bin = "Lunch club <1> & \"friends\"";
    sheet.today = {"Feed it: 170 g of scraps today.", "  apple cores, 2 handfuls, about 170 g",
                   "Feed again about Sat 21 Mar."};
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
    std::string page = feed::io::bin_sheet_text(club_tote());
    page = page.substr(0, page.find("Day   "));
    // The dates and amounts are numbers, not words.
    const double grade = grade_level(page.substr(page.find("Look first")));
    CAPTURE(grade);
    CHECK(grade < 5.0);
}

TEST_CASE("the sheet fits on a page and holds what a site must record") {
    const std::string page = feed::io::bin_sheet_text(club_tote());
    CHECK(std::count(page.begin(), page.end(), '\n') <= 66);
    std::size_t longest = 0;
    for (std::size_t at = 0; at < page.size();) {
        const std::size_t end = page.find('\n', at);
        longest = std::max(longest, end - at);
        at = end + 1;
    }
    CHECK(longest <= 80);
    CHECK(page.find("Feed again about Sat 21 Mar.") != std::string::npos);
    CHECK(page.find("2 handfuls, about 170 g") != std::string::npos);
    const std::string html = feed::io::bin_sheet_html(club_tote());
    for (const char* recorded :
         {"Day", "Who", "Food in", "Bedding", "back, middle, front", "Dry, damp or wet",
          "Water in tray", "Smell", "busy or slow", "Bugs", "What we did"})
        CHECK(html.find(recorded) != std::string::npos);
}

TEST_CASE("cautions stand on the sheet") {
    BinSheet sheet = club_tote();
    CHECK(feed::io::bin_sheet_text(sheet).find("Lime is for grown-ups only") != std::string::npos);
    sheet.lime = false;
    const std::string page = feed::io::bin_sheet_text(sheet);
    CHECK(page.find("Lime") == std::string::npos);
    CHECK(page.find("Wash your hands") != std::string::npos);
    CHECK(page.find("dust") != std::string::npos);
    CHECK(page.find("does not kill germs") != std::string::npos);
}

TEST_CASE("the page in HTML is whole, safe and fetches nothing") {
    const std::string html = feed::io::bin_sheet_html(club_tote());
    CHECK(html.find("Lunch club &lt;1&gt; &amp; &quot;friends&quot;") != std::string::npos);
    for (const char* tag :
         {"html", "head", "body", "table", "tr", "ul", "ol", "li", "th", "td", "h2"}) {
        const std::string open = std::string("<") + tag;
        CAPTURE(tag);
        CHECK(count(html, open + ">") + count(html, open + " ") ==
              count(html, std::string("</") + tag + ">"));
    }
    // A head and as many rows as fill the page: more on a page with fewer words.
    const std::size_t rows = count(html, "<tr>") - 1;
    CHECK(rows >= 8);
    BinSheet wordy = club_tote();
    for (int i = 0; i < 9; ++i)
        wordy.today.push_back("One more line.");
    CHECK(count(feed::io::bin_sheet_html(wordy), "<tr>") - 1 < rows);
    CHECK(html.find("http") == std::string::npos);
    CHECK(html.find("<script") == std::string::npos);
    BinSheet bare;
    bare.rows = 0;
    CHECK(feed::io::bin_sheet_html(bare).find("<table") == std::string::npos);
}

TEST_CASE("the sheet is of the reader's paper, degrees and days") {
    BinSheet sheet = club_tote();
    sheet.days = {"Sat 2 May"};
    CHECK(feed::io::bin_sheet_html(sheet).find("size:A4") != std::string::npos);
    CHECK(feed::io::bin_sheet_html(sheet).find("Warmth C") != std::string::npos);
    CHECK(feed::io::bin_sheet_html(sheet).find("<td>Sat 2 May</td>") != std::string::npos);
    CHECK(feed::io::bin_sheet_text(sheet).find("\nSat 2 May |") != std::string::npos);
    sheet.units = feed::io::UnitSystem::us;
    CHECK(feed::io::bin_sheet_html(sheet).find("size:letter") != std::string::npos);
    CHECK(feed::io::bin_sheet_html(sheet).find("Warmth F") != std::string::npos);
    CHECK(feed::io::bin_sheet_html(sheet).find("Warmth C") == std::string::npos);
}

TEST_CASE("the sheet says what the ration says, and nothing else about how much and when") {
    const std::string text =
        "libfeed: 1\ntitle: Lunch bin\n"
        "bed: {container: 60 L tote, worms: 500 g, age: 1 year, temperature: 20 C, squeeze: drops}\n"
        "blend: [2 kg carrot, 200 g bacon, 5 g eggshell powder, 200 g shredded cardboard]\n";
    const auto file = feed::io::read_feed_text(text, "bin.yaml");
    REQUIRE(file);
    const feed::Ration ration = feed::io::ration_of(*file);
    REQUIRE(ration.answer == feed::RationAnswer::feed_less);
    const BinSheet sheet =
        feed::io::bin_sheet_of("Lunch bin", ration, feed::io::UnitSystem::metric);
    const auto lines = feed::io::ration_lines(ration, feed::io::UnitSystem::metric);
    REQUIRE(sheet.today.size() == lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        // Where to go with what is never fed is indented too, and is not put in.
        const std::string plain = lines[i].substr(lines[i].find_first_not_of(' '));
        const bool is_portion = lines[i][0] == ' ' && plain.rfind("Instead", 0) != 0;
        CHECK(sheet.today[i] == (is_portion ? "Put in: " + plain : plain));
    }
    const std::string page = feed::io::bin_sheet_text(sheet);
    CHECK(page.find("Feed less, and no eggshell powder: ") != std::string::npos);
    // What is never fed stands only where it is named as such.
    CHECK(count(page, "acon") == 1);
    CHECK(page.find("Never feed bacon") != std::string::npos);
    CHECK(page.find("2 kg") == std::string::npos);
}
