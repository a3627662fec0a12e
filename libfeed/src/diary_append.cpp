#include "feed/io/diary_append.hpp"

#include <utility>

#include "feed/io/file_change.hpp"
#include "feed/io/observation_text.hpp"
#include "plot_notes.hpp"

namespace feed::io {
namespace {

constexpr std::string_view observations = "observations";

}  // namespace

Result<std::string> with_observation(std::string_view diary, const Observation& observation,
                                     std::string_view name) {
    auto with = with_entry(diary, observations, observation_yaml(observation, 0), name);
    if (!with) return with.errors();
    return std::move(with.value().text);
}

Result<Appended> with_diary_entry(std::string_view diary, std::string_view section,
                                  std::string_view entry, std::string_view name) {
    const auto before = read_feed_text(diary, name);
    if (!before) return before.errors();
    auto with = with_entry(diary, section, entry, name);
    if (!with) return with.errors();
    auto after = read_feed_text(with->text, name);
    if (!after) return after.errors();
    Errors errors = plot_entry_errors(*before, diary, *after);
    if (!errors.empty()) return errors;
    Appended appended;
    appended.text = std::move(with.value().text);
    appended.entry = std::move(with.value().entry);
    appended.entries = with->entries;
    appended.file = std::move(after).value();
    return appended;
}

Result<Appended> append_to_diary(const std::string& path, const DiaryChange& change,
                                 int wait_seconds) {
    Appended appended;
    const auto changed = change_text_file(
        path,
        [&](std::string_view diary) -> Result<std::string> {
            auto with = change(diary);
            if (!with) return with.errors();
            appended = std::move(with).value();
            return appended.text;
        },
        wait_seconds);
    if (!changed) return changed.errors();
    appended.confirmed = *changed;
    return appended;
}

Result<Appended> append_observation(const std::string& path, const Observation& observation,
                                    int wait_seconds) {
    return append_to_diary(
        path,
        [&](std::string_view diary) {
            return with_diary_entry(diary, observations, observation_yaml(observation, 0), path);
        },
        wait_seconds);
}

}  // namespace feed::io
