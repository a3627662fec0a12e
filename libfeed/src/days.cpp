#include <algorithm>

#include "feed/io/feed_file.hpp"

namespace feed::io {
namespace {

Feeding feeding_on(const WrittenFeeding& written, std::int64_t zero) {
    Feeding feeding;
    feeding.day = days(static_cast<double>(day_number(written.date) - zero));
    for (const auto& one : written.portions)
        feeding.portions.push_back(one.portion);
    return feeding;
}

/// The feedings on one side of day 0, oldest first.
std::vector<Feeding> feedings_of(const FeedFile& file, bool before) {
    std::vector<Feeding> list;
    const auto zero = day_zero(file);
    if (!zero) return list;
    const auto number = day_number(*zero);
    for (const auto& written : file.feedings) {
        if ((day_number(written.date) < number) == before)
            list.push_back(feeding_on(written, number));
    }
    std::stable_sort(list.begin(), list.end(), [](const Feeding& a, const Feeding& b) {
        return in_days(a.day) < in_days(b.day);
    });
    return list;
}

}  // namespace

std::optional<Date> day_zero(const FeedFile& file) {
    if (file.bed && file.bed->date) return file.bed->date;
    std::optional<Date> last;
    for (const auto& feeding : file.feedings) {
        if (!last || day_number(feeding.date) > day_number(*last)) last = feeding.date;
    }
    return last;
}

Bed bed_on_day_zero(const FeedFile& file) {
    Bed bed = file.bed ? file.bed->bed : Bed();
    bed.earlier = feedings_of(file, true);
    return bed;
}

std::vector<Feeding> feedings_from_day_zero(const FeedFile& file) {
    return feedings_of(file, false);
}

}  // namespace feed::io
