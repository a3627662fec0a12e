// Reading a diary of 10,000 entries, from its text to a bed with its feedings and observations,
// beside one plain pass over its bytes, so that a slow machine shifts both. Processor time.
#include <cstdio>
#include <string>

#include "feed/diary/date.hpp"
#include "feed/io/feed_file.hpp"
#include "measure.hpp"

namespace {

/// An invented diary: two looks for each feeding, day after day.
std::string diary_text(int entries) {
    std::string feedings = "feedings:\n";
    std::string looks = "observations:\n";
    const auto start = feed::day_number({2000, 1, 1});
    for (int i = 0; i < entries; ++i) {
        const std::string date = feed::text(feed::date_of(start + i));
        if (i % 3 == 0)
            feedings +=
                "  - date: " + date +
                "\n    portions: [400 g carrot, 200 g apple core, 1 L shredded cardboard]\n";
        else if (i % 3 == 1)
            looks += "  - date: " + date +
                     "\n    share_gone: 60 %\n    squeeze: drops\n    temperature: 20 C\n";
        else
            looks += "  - date: " + date +
                     "\n    left: 120 g\n    worms: spread\n    smell: earthy\n    by: Ama\n";
    }
    return "libfeed: 1\nbed:\n  container: 60 L tote\n  date: 2000-01-01\n  worms: 500 g\n" +
           feedings + looks;
}

}  // namespace

int main() {
    std::printf("%-44s %15s %10s\n", "", "median", "x plain pass");
    for (const int entries : {100, 1000, 10000}) {
        const std::string text = diary_text(entries);
        const double plain = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>([&] {
            unsigned sum = 0;
            for (const char c : text)
                sum = sum * 31 + static_cast<unsigned char>(c);
            feed_bench::keep(sum);
        });
        const double read = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>([&] {
            const auto file = feed::io::read_feed_text(text, "bin.yaml");
            if (!file) std::printf("  not read: %s\n", file.errors()[0].message.c_str());
            feed_bench::keep(file ? file->diary.observations.size() : 0);
        });
        char name[64];
        std::snprintf(name, sizeof name, "diary of %d entries, %zu kB", entries,
                      text.size() / 1000);
        feed_bench::report(name, read, plain);
        if (entries == 10000) std::printf("within 100 ms: %s\n", read <= 100e6 ? "yes" : "no");
    }
    return 0;
}
