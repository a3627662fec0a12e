#include <cmath>
#include <optional>
#include <utility>

#include "bed_work_words.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/amount_words.hpp"

namespace feed::io {
namespace {

std::string worms_text(HarvestWay way) {
    const Factor& kept = kind_of(way).worms_kept;
    return words::number(std::floor(100.0 * kept.value + 0.5)) + " % of the worms stay (" +
           words::number(std::floor(100.0 * kept.low + 0.5)) + " to " +
           words::number(std::floor(100.0 * kept.high + 0.5)) + ")";
}

/// How to go about a way, in one or two sentences.
std::vector<std::string> how_lines(HarvestWay way) {
    switch (way) {
        case HarvestWay::aside:
            return {"Push the bed to one side and feed the other side only.",
                    "After 2 to 3 weeks empty the side without food. Most worms have left it."};
        case HarvestWay::light:
            return {"Tip the bed out under a lamp, in small heaps.",
                    "Scrape off the tops every 10 minutes. The worms go down; put them back."};
        case HarvestWay::trays:
            return {"Feed the upper tray only, for 2 to 4 weeks. Most worms climb up.",
                    "Then empty the lowest tray."};
        case HarvestWay::half:
            return {"Take out half as it is. It is quick, but half of the worms go with it."};
    }
    return {};
}

std::string day_text(const HarvestAnswer& answer, UnitSystem units) {
    const HarvestTime& time = answer.time;
    const std::optional<Date>& today = answer.ration.date;
    const auto on = [&](int day) { return day_words(today, day, units); };
    std::string text = "about " + on(*time.day);
    std::string span;
    if (time.earliest && *time.earliest < *time.day)
        span =
            *time.earliest == 0 ? "today at the soonest" : on(*time.earliest) + " at the soonest";
    if (time.latest && *time.latest > *time.day)
        span += (span.empty() ? "" : ", ") + on(*time.latest) + " at the latest";
    return text + (span.empty() ? "" : " (" + span + ")");
}

/// Litres to expect. Those of today are what the note of the same screen has: one number for both.
double litres_told(const HarvestAnswer& answer) {
    const double noted_l = in_litres(cubic_metres(answer.after.change.taken_m3));
    const bool today = answer.time.day && *answer.time.day == 0 && !answer.less;
    return today && noted_l > 0.0 ? noted_l : answer.castings.volume_l.value;
}

/// When to harvest, or why not now.
std::string when_text(const HarvestAnswer& answer, bool now, UnitSystem units) {
    const HarvestTime& time = answer.time;
    if (!time.day) return "Do not harvest yet: no day within a year.";
    if (now && answer.too_small)
        return "Do not harvest now: there is much fresh food in it. Ask again in a week.";
    if (*time.day > 0) return "Harvest " + day_text(answer, units) + ".";
    return time.by_room ? "Harvest now: the bin is full." : "Harvest when it suits: it is ready.";
}

}  // namespace

std::vector<std::string> harvest_lines(const HarvestAnswer& answer, UnitSystem units,
                                       std::string_view file, ScreenRoom room) {
    if (is_left_alone(answer.ration))
        return lines_before_work(answer.ration, "Harvest", units, room);
    std::vector<ScreenLine> lines;
    const auto add = [&](std::string text, int rank = 0) {
        lines.push_back({std::move(text), rank});
    };
    const HarvestTime& time = answer.time;
    const auto& litres_of = answer.castings.volume_l;
    const auto volume = [&](double number) { return volume_text(litres(number), units); };
    const bool now = time.day && *time.day <= 14;
    add(when_text(answer, now, units));
    if (time.day && !time.age_known)
        add("Nobody said how old the bed is: one of over three months is taken.");
    const bool worth_telling = time.day && !answer.too_small && litres_of.value >= 0.5;
    if (worth_telling)
        add("Expect about " + volume(litres_told(answer)) + " of castings, " +
                mass_text(kilograms(answer.castings.wet_kg.value), units) + " (" +
                volume(litres_of.low) + " to " + volume(litres_of.high) + ").",
            now ? 0 : 1);
    for (const std::string& one : how_lines(answer.way)) {
        if (worth_telling) add(one, now ? 0 : 2);
    }
    if (now && !answer.too_small) {
        if (answer.less && answer.after.change.taken_m3 > 0.0)
            add("Take out " + volume(in_litres(cubic_metres(answer.after.change.taken_m3))) +
                " at most: more at once would harm the bed.");
        add("Wear a mask if it is dusty, and wash your hands.", 0);
        add(put_back(answer.after.change, units, "Put back"));
        add(feeding_text(answer.after,
                         detail::feeding_goes_on(answer.ration, answer.after.ration, 0), units));
        add(note_line(answer.after.change, units, file), 1);
    } else {
        const bool waits = answer.ration.answer == RationAnswer::wait;
        add(waits ? "Feed nothing today: ask feed ration for the day."
                  : "Feed as usual until then: ask feed ration.");
    }
    const std::string turned = words::number(std::floor(100.0 * time.turned + 0.5));
    add("Why: about " + turned + " % of the bed is castings; 70 % is ready.", 3);
    if (now) add("Other ways: --way light, trays or half; --why says what each keeps.", 4);
    return fitting(std::move(lines), room);
}

std::string harvest_why(const HarvestAnswer& answer, UnitSystem units) {
    const HarvestTime& time = answer.time;
    std::string text = "\nWhen\n";
    text += wrapped(
        "Castings are " + percent_text(time.turned) +
            " of the dry matter today; ready is 70 % (judgement: new bins come there "
            "after 3 to 6 months, as an Oregon city page says), and never below two months of age.",
        2, 4);
    text += wrapped(
        "C:N is " + cn_ratio_text(time.cn_ratio) + ". Age: " +
            (time.age_known ? words::day_count(time.age_days) : "not said, taken as settled") +
            ". Depth: " + length_text(metres(time.depth_m), units) + ".",
        2, 4);
    text += wrapped(time.from_diary
                        ? "Feeding goes on as in the last eight weeks of the diary."
                        : "Feeding goes on with a week's ration of soft scraps and its bedding.",
                    2, 4);
    text += wrapped("The soonest day has every range at its fast end, the latest at its slow end.",
                    2, 4);
    if (time.cn_ratio > limits::ripe_most_cn)
        text += wrapped(
            "Above C:N 20 it still holds much bedding: let it stand damp for some "
            "weeks before seedlings get it (common practice).",
            2, 4);
    text += "\nWays\n";
    for (const HarvestWayKind& kind : harvest_ways) {
        text += wrapped(std::string(feed::text(kind.way)) + ": " + worms_text(kind.way) + ". " +
                            std::string(kind.worms_kept.source) + ".",
                        2, 4);
    }
    text += "\nHow much\n";
    if (answer.record.harvests.empty()) {
        text +=
            wrapped("No harvest is noted yet, so the amount may be half or twice as much.", 2, 4);
    } else {
        text += wrapped("Your " + counted(answer.record.harvests.size(), "harvest") + " gave " +
                            words::number(answer.record.factor) + " times what was reckoned.",
                        2, 4);
    }
    text += "\nThe bed after, as if harvested today\n";
    text += wrapped(judged_text(answer.after), 2, 4) + wrapped(state_text(answer.after), 2, 4);
    return text + assumed_lines(answer.ration);
}

}  // namespace feed::io
