#include "feed/io/diary_append.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

#include <cerrno>
#include <optional>
#include <utility>
#include <vector>

#include "feed/io/observation_text.hpp"
#include "feed/io/text_file.hpp"
#include "feed/io/yaml_tree.hpp"

namespace feed::io {
namespace {

constexpr std::string_view section = "observations";

Error diary_error(ErrorCode code, std::string_view name, int line, std::string allowed,
                  std::string message) {
    Error error;
    error.code = code;
    error.field = std::string(section);
    error.allowed = std::move(allowed);
    error.message = std::move(message);
    error.file = std::string(name);
    error.line = line;
    error.column = line > 0 ? 1 : 0;
    return error;
}

/// Number of entries of `observations`, or nothing when it is no list.
std::optional<std::size_t> count_entries(const YamlTree& tree) {
    std::optional<std::size_t> count = 0;
    tree.root().for_each_pair([&](YamlView key, YamlView value) {
        if (key.text() != section) return;
        if (value.is_null()) return;
        if (!value.is_sequence()) {
            count.reset();
            return;
        }
        value.for_each_item([&](YamlView) {
            if (count) ++*count;
        });
    });
    return count;
}

/// A line of a text without its line end.
struct Line {
    std::size_t begin = 0;
    std::size_t end = 0;   ///< without CR and LF
    std::size_t next = 0;  ///< where the next line begins

    std::string_view of(std::string_view text) const { return text.substr(begin, end - begin); }
};

std::vector<Line> lines_of(std::string_view text) {
    std::vector<Line> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t feed = text.find('\n', at);
        Line line;
        line.begin = at;
        line.next = feed == std::string_view::npos ? text.size() : feed + 1;
        line.end = feed == std::string_view::npos ? text.size() : feed;
        if (line.end > line.begin && text[line.end - 1] == '\r') --line.end;
        lines.push_back(line);
        at = line.next;
    }
    return lines;
}

std::size_t indent_of(std::string_view line) {
    const std::size_t first = line.find_first_not_of(' ');
    return first == std::string_view::npos ? line.size() : first;
}

bool is_blank_or_comment(std::string_view line) {
    const std::size_t first = line.find_first_not_of(" \t");
    return first == std::string_view::npos || line[first] == '#';
}

bool is_item(std::string_view line) {
    const std::size_t first = indent_of(line);
    return first < line.size() && line[first] == '-' &&
           (first + 1 == line.size() || line[first + 1] == ' ');
}

/// What follows the key of the section on its line, or nothing when the line is not it.
std::optional<std::string_view> after_key(std::string_view line) {
    for (const std::string_view key :
         {std::string_view("observations"), std::string_view("\"observations\""),
          std::string_view("'observations'")}) {
        if (line.substr(0, key.size()) != key) continue;
        std::string_view rest = line.substr(key.size());
        while (!rest.empty() && rest.front() == ' ')
            rest.remove_prefix(1);
        if (rest.empty() || rest.front() != ':') continue;
        rest.remove_prefix(1);
        while (!rest.empty() && (rest.front() == ' ' || rest.front() == '\t'))
            rest.remove_prefix(1);
        return rest;
    }
    return std::nullopt;
}

/// Where the entry goes and how it is indented.
struct Insertion {
    std::size_t at = 0;
    std::size_t drop_from = 0;  ///< text from here to `drop_to` goes away (an empty "[]")
    std::size_t drop_to = 0;
    int indent = 2;
    bool needs_section = false;
};

/// The end of the list whose key stands on `lines[key]`.
Insertion end_of_list(std::string_view text, const std::vector<Line>& lines, std::size_t key) {
    Insertion place;
    place.at = lines[key].next;
    bool first_item = true;
    for (std::size_t i = key + 1; i < lines.size(); ++i) {
        const std::string_view line = lines[i].of(text);
        if (is_blank_or_comment(line)) continue;
        const bool item = is_item(line);
        if (indent_of(line) == 0 && !item) break;
        if (item && first_item) {
            place.indent = static_cast<int>(indent_of(line));
            first_item = false;
        }
        place.at = lines[i].next;
    }
    return place;
}

Result<Insertion> place_in(std::string_view text, std::string_view name) {
    const std::vector<Line> lines = lines_of(text);
    bool content = false;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string_view line = lines[i].of(text);
        const int number = static_cast<int>(i) + 1;
        if (is_blank_or_comment(line)) continue;
        if ((line.front() == '{' || line.front() == '[') && !content)
            return diary_error(ErrorCode::wrong_type, name, number, "a diary written as YAML lines",
                               "this diary is written as JSON; entries can only be added to YAML");
        if (content && (line.substr(0, 3) == "---" || line.substr(0, 3) == "..."))
            return diary_error(ErrorCode::wrong_type, name, number, "one document",
                               "an entry can only be added to a diary of one document");
        content = content || (line.substr(0, 3) != "---" && line.front() != '%');
        const auto rest = after_key(line);
        if (!rest) continue;
        Insertion place;
        if (rest->empty() || rest->front() == '#') return end_of_list(text, lines, i);
        if (rest->substr(0, 2) == "[]" && is_blank_or_comment(rest->substr(2))) {
            place = end_of_list(text, lines, i);
            place.drop_from = lines[i].begin + line.find('[');
            place.drop_to = place.drop_from + 2;
            return place;
        }
        return diary_error(
            ErrorCode::wrong_type, name, number,
            "a list with each entry on lines of its own, starting with \"- \"",
            "the observations are written in one line; put each on lines of its own");
    }
    Insertion place;
    place.at = text.size();
    place.needs_section = true;
    return place;
}

/// Line feeds become the line ends of the file.
std::string with_line_ends(std::string_view text, bool carriage_returns) {
    if (!carriage_returns) return std::string(text);
    std::string changed;
    for (const char c : text) {
        if (c == '\n') changed += '\r';
        changed += c;
    }
    return changed;
}

struct Extended {
    std::string text;
    Appended appended;
};

Result<Extended> extend(std::string_view diary, const Observation& observation,
                        std::string_view name) {
    const auto before = parse_yaml(diary, name);
    if (!before) return before.errors();
    const auto count = count_entries(*before);
    if (!before->root().is_mapping() || !count)
        return diary_error(ErrorCode::wrong_type, name, 1, "a list of entries",
                           "the observations of a diary are a list, each starting with \"- \"");
    const auto place = place_in(diary, name);
    if (!place) return place.errors();
    const bool carriage_returns = diary.find("\r\n") != std::string_view::npos;
    Extended extended;
    extended.appended.entry = observation_yaml(observation, place->indent);
    std::string added;
    if (place->at > 0 && diary[place->at - 1] != '\n') added += "\n";
    if (place->needs_section) added += "\n" + std::string(section) + ":\n";
    added += extended.appended.entry;
    std::string& text = extended.text;
    if (place->drop_to > 0) {
        text = std::string(diary.substr(0, place->drop_from));
        text += diary.substr(place->drop_to, place->at - place->drop_to);
    } else {
        text = std::string(diary.substr(0, place->at));
    }
    text += with_line_ends(added, carriage_returns);
    text += diary.substr(place->at);
    // The proof that nothing else changed its meaning: the new text has one entry more.
    const auto after = parse_yaml(text, name);
    const auto count_after = after ? count_entries(*after) : std::nullopt;
    if (!count_after || *count_after != *count + 1)
        return diary_error(ErrorCode::internal, name, 0, "",
                           "the entry could not be added without changing something else; the "
                           "diary was left as it is");
    extended.appended.observations = *count_after;
    return extended;
}

/// Holds an advisory lock on a folder until it goes out of scope.
class FolderLock {
public:
    FolderLock(const std::string& folder, int wait_seconds) {
        descriptor_ = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        if (descriptor_ < 0) return;
        constexpr long pause_ns = 5'000'000;
        long tries = 1 + 200L * wait_seconds;
        while (tries-- > 0) {
            if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) {
                held_ = true;
                return;
            }
            if (errno != EWOULDBLOCK && errno != EINTR) return;
            const timespec pause{0, pause_ns};
            ::nanosleep(&pause, nullptr);
        }
    }
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;
    ~FolderLock() {
        if (descriptor_ >= 0) ::close(descriptor_);
    }
    bool held() const noexcept { return held_; }
    /// The new name of a file survives a power cut from here on.
    void sync() const noexcept { ::fsync(descriptor_); }

private:
    int descriptor_ = -1;
    bool held_ = false;
};

}  // namespace

Result<std::string> with_observation(std::string_view diary, const Observation& observation,
                                     std::string_view name) {
    auto extended = extend(diary, observation, name);
    if (!extended) return extended.errors();
    return std::move(extended.value().text);
}

Result<Appended> append_observation(const std::string& path, const Observation& observation,
                                    int wait_seconds) {
    const std::size_t slash = path.rfind('/');
    const std::string folder =
        slash == std::string::npos ? "." : (slash == 0 ? "/" : path.substr(0, slash));
    const int seconds = wait_seconds < 0 ? 0 : (wait_seconds > 600 ? 600 : wait_seconds);
    const FolderLock lock(folder, seconds);
    if (!lock.held())
        return diary_error(ErrorCode::not_writable, path, 0, "a folder that can be locked",
                           "the folder of the diary could not be locked: it is missing, or "
                           "another program is writing there");
    const auto diary = read_text_file(path);
    if (!diary) return diary.errors();
    auto extended = extend(*diary, observation, path);
    if (!extended) return extended.errors();
    // All who append hold the lock, so what a dead one left beside the diary is nobody's.
    remove_abandoned(path);
    const auto written = write_text_file(path, extended->text);
    if (!written) return written.errors();
    lock.sync();
    return std::move(extended.value().appended);
}

}  // namespace feed::io
