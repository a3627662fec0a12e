// Diaries in every YAML style: an entry more changes nothing that stood there, or it is refused.
#include <random>
#include <string>

#include "catch2.hpp"
#include "feed/io/diary_append.hpp"
#include "random_diary.hpp"

namespace {

feed::Observation look() {
    feed::Observation seen;
    seen.date = {2026, 3, 14};
    seen.note = "# no remark: \"a\" - b";
    return seen;
}

}  // namespace

TEST_CASE("20,000 diaries keep every word when an entry is added") {
    std::mt19937 numbers(15);
    feed_test::RandomDiary diaries([&](std::size_t n) { return numbers() % n; });
    int written = 0;
    int well_formed = 0;
    for (int i = 0; i < 20000; ++i) {
        const std::string diary = diaries.write();
        const auto before = feed::io::parse_yaml(diary, "bin.yaml");
        if (!before) continue;
        ++well_formed;
        const auto after_text = feed::io::with_observation(diary, look(), "bin.yaml");
        if (!after_text) continue;
        ++written;
        const auto after = feed::io::parse_yaml(*after_text, "bin.yaml");
        INFO(diary << "\n=====>\n" << *after_text);
        REQUIRE(after);
        std::string last;
        auto was = feed_test::reading_of(*before, "observations");
        const auto is = feed_test::reading_without_last(*after, "observations", &last);
        // A file without a last line end gets one; a text that ended the file then ends its line.
        if (is != was && diary.back() != '\n') was.insert(was.size() - 1, "\n");
        REQUIRE(is == was);
        REQUIRE(last.find("=2026-03-14\x01") != std::string::npos);
        REQUIRE(last.find("=# no remark: \"a\" - b\x01") != std::string::npos);
    }
    CAPTURE(well_formed, written);
    CHECK(well_formed > 15000);
    // What is left: lists between brackets, sections that stand twice, aliases of the list,
    // several documents.
    CHECK(written * 10 > well_formed * 7);
}
