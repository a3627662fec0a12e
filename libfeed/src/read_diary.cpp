#include "read_diary.hpp"

#include <string>
#include <utility>

#include "read_bed.hpp"

namespace feed::io {
namespace {

/// The text of an optional key, or "".
std::string text_of(Reading& reading, const Section& section, keys::Key key) {
    const auto at = section.find(key);
    return at ? std::string(reading.scalar(*at, section.field(key)).value_or("")) : std::string();
}

/// Calls `use(item, field)` for each entry of a list; reports what is no list.
template <class Use>
void each_entry(Reading& reading, YamlView at, std::string_view section, Use&& use) {
    if (!at.is_sequence()) {
        reading.report(at, ErrorCode::wrong_type, std::string(section), "a list of entries",
                       "a list is due here, each entry starting with \"- \"");
        return;
    }
    std::size_t number = 0;
    at.for_each_item([&](YamlView item) { use(item, entry_field(section, ++number)); });
}

}  // namespace

void read_feedings(Pantry& pantry, FeedFile& file, YamlView at) {
    Reading& reading = pantry.reading();
    each_entry(reading, at, "feedings", [&](YamlView item, const std::string& field) {
        const Section section(reading, item, field, keys::feeding);
        if (!section.is_mapping()) return;
        WrittenFeeding feeding;
        const auto date = section.require("date");
        const auto portions = section.require("portions");
        if (date) {
            if (const auto day = read_date(reading, *date, section.field("date")))
                feeding.date = *day;
        }
        if (portions) feeding.portions = pantry.portions(*portions, section.field("portions"));
        feeding.by = text_of(reading, section, "by");
        feeding.note = text_of(reading, section, "note");
        file.feedings.push_back(std::move(feeding));
    });
}

}  // namespace feed::io
