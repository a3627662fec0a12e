// One day: a tote in a stairwell (invented) is asked for today's ration, checked, fed, noted, asked
// again a day later, and looked at a week ahead.
#include <cstdio>
#include <feed/feed.hpp>
#include <feed/io/answers.hpp>
#include <feed/io/note.hpp>
#include <feed/io/ration_text.hpp>
#include <string>

int main() {
    const std::string bin =
        "libfeed: 1\n"
        "bed: {date: 2026-03-14, container: 60 L tote, worms: 1 lb, temperature: 20 C, squeeze: "
        "drops}\n";
    const std::string at_hand = "blend: [300 g carrot, 50 g bacon, 200 g shredded cardboard]\n";

    // What may go in today. All lines, in their order: what must be taken out comes first.
    const auto today = feed::io::read_feed_text(bin + at_hand, "tote.yaml");
    if (!today) return 1;
    const feed::CheckResult check = feed::io::check_of(*today);
    for (const std::string& line : feed::io::ration_lines(check.ration, feed::UnitSystem::metric))
        std::printf("%s\n", line.c_str());

    // The plan as it stands, bacon and all, against the bed.
    for (const feed::HazardFinding& one : check.hazards)
        if (one.level == feed::Level::watch || one.level == feed::Level::act)
            std::printf("the plan: %s, %s\n", text(one.hazard).data(), text(one.level).data());

    // What was done goes into the diary, which is text; the rest of it stays as it was written.
    const auto noted = feed::io::with_note(bin, "fed 300 g carrot and 17 g shredded cardboard",
                                           {2026, 3, 14}, "", "tote.yaml");
    if (!noted) return 1;
    std::printf("noted in: %s\n", noted->file.diary.feedings.empty() ? "elsewhere" : "feedings");

    // A week ahead, from what went in.
    const feed::Forecast ahead = feed::io::forecast_of(noted->file, 8);
    std::printf("food left after a week: %.0f g\n", 1000.0 * ahead.food_left_wet_kg.value[7]);

    // The day after somebody looks, and the same question has another answer.
    const auto seen =
        feed::io::with_note(noted->text, "smell earthy", {2026, 3, 15}, "", "tote.yaml");
    if (!seen) return 1;
    std::printf("the day after: %s\n", text(feed::io::ration_of(seen->file).answer).data());
    return 0;
}
