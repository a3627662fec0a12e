#include <algorithm>

#include "feed/io/feed_file.hpp"
#include "feed/ration/from_diary.hpp"

namespace feed::io {

std::optional<Date> day_zero(const FeedFile& file) {
    if (file.today) return file.today;
    const Diary& diary = file.diary;
    std::optional<Date> last = diary.bed_date;
    const auto later = [&](Date date) {
        if (!last || day_number(date) > day_number(*last)) last = date;
    };
    for (const auto& observation : diary.observations)
        later(observation.date);
    for (const auto& feeding : diary.feedings)
        later(feeding.date);
    for (const StockEntry& entry : file.stock)
        later(entry.date);
    return last;
}

Bed bed_on_day_zero(const FeedFile& file) {
    return ration_input_of(file.diary, day_zero(file)).bed;
}

std::vector<Feeding> planned_feedings(const FeedFile& file) {
    std::vector<Feeding> planned;
    if (file.blend) {
        Feeding today;
        for (const auto& one : *file.blend)
            today.portions.push_back(one.portion);
        planned.push_back(std::move(today));
    }
    const auto zero = day_zero(file);
    if (!zero) return planned;
    for (const auto& feeding : file.diary.feedings) {
        const auto day = day_number(feeding.date) - day_number(*zero);
        if (day >= 1) planned.push_back({days(static_cast<double>(day)), feeding.portions});
    }
    std::stable_sort(planned.begin(), planned.end(), [](const Feeding& a, const Feeding& b) {
        return in_days(a.day) < in_days(b.day);
    });
    return planned;
}

}  // namespace feed::io
