#include "feed/io/list_entry.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "feed/io/yaml_tree.hpp"
#include "same_reading.hpp"

namespace feed::io {
namespace {

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

bool is_blank(std::string_view line) {
    return line.find_first_not_of(" \t") == std::string_view::npos;
}

std::size_t indent_of(std::string_view line) {
    return std::min(line.find_first_not_of(' '), line.size());
}

bool looks_like_comment(std::string_view line) {
    return !is_blank(line) && line[line.find_first_not_of(" \t")] == '#';
}

/// The lines of an entry, moved to the right, with the line ends of the file.
std::string moved_right(std::string_view entry, std::size_t indent, std::string_view line_end) {
    std::string moved;
    for (const Line& line : lines_of(entry)) {
        moved.append(indent, ' ');
        moved += line.of(entry);
        moved += line_end;
    }
    return moved;
}

/// The last line of a node and all that is in it, by where its parts begin.
int last_line_of(const YamlTree& tree, std::uint32_t node) {
    int last = tree.node(node).place.line;
    for (auto at = tree.node(node).first; at != 0; at = tree.node(at).next)
        last = std::max(last, last_line_of(tree, at));
    return last;
}

/// Adds an entry to one text.
class EntryAdder {
public:
    EntryAdder(const YamlTree& before, std::string_view written, std::string_view section,
               std::string_view entry, std::string_view name)
        : before_(before), section_(section), entry_(entry), name_(name), text_(written) {
        const std::size_t feed = written.find('\n');
        const bool returns =
            feed != std::string_view::npos && feed > 0 && written[feed - 1] == '\r';
        line_end_ = returns ? "\r\n" : "\n";
        ends_its_line_ = written.empty() || written.back() == '\n';
        if (!ends_its_line_) text_ += line_end_;
        lines_ = lines_of(text_);
        stop_ = lines_.size();
    }

    Result<WithEntry> add() {
        find_section();
        if (auto problem = cannot_be_extended()) return std::move(*problem);
        if (value_ == 0) {
            grown_ = 1;
            if (auto done = proven(section_lines(true), text_.size())) return std::move(*done);
            if (auto done = proven(section_lines(false), text_.size())) return std::move(*done);
            return not_proven();
        }
        grown_ = value_;
        drop_what_stands_for_nothing();
        const std::string lines = moved_right(entry_, item_indent(), line_end_);
        for (const std::size_t at : ends_of_list())
            if (auto done = proven(lines, at)) return std::move(*done);
        return not_proven();
    }

private:
    Error refused(int line, std::string allowed, std::string message) const {
        Error error;
        error.code = ErrorCode::wrong_type;
        error.field = std::string(section_);
        error.allowed = std::move(allowed);
        error.message = std::move(message);
        error.file = std::string(name_);
        error.line = line;
        error.column = line > 0 ? 1 : 0;
        return error;
    }

    Result<WithEntry> not_proven() const {
        if (!too_large_.empty()) return too_large_;
        return refused(key_line_, "a list with each entry on lines of its own",
                       "an entry cannot be added here without changing something else; the file "
                       "is as it was");
    }

    void find_section() {
        root_indent_ = static_cast<std::size_t>(std::max(before_.node(1).place.column, 1)) - 1;
        for (auto key = before_.node(1).first; key != 0;) {
            const auto value = before_.node(key).next;
            const int line = before_.node(key).place.line;
            if (value_ != 0) {
                stop_ = std::min(stop_, static_cast<std::size_t>(std::max(line, 1)) - 1);
                return;
            }
            if (before_.node(key).text == section_) {
                value_ = value;
                key_line_ = line;
            }
            key = before_.node(value).next;
        }
    }

    std::optional<Error> cannot_be_extended() const {
        const YamlNode& root = before_.node(1);
        if (root.kind != NodeKind::mapping)
            return refused(1, "libfeed: 1, then sections", "this file is not one of sections");
        if (root.flow)
            return refused(root.place.line, "a file written as YAML lines",
                           "this file is written as JSON; entries can only be added to YAML");
        for (std::size_t i = static_cast<std::size_t>(root.place.line); i < lines_.size(); ++i) {
            const std::string_view start = lines_[i].of(text_).substr(0, 3);
            if (start == "---" || start == "...")
                return refused(static_cast<int>(i) + 1, "one document",
                               "an entry can only be added to a file of one document");
        }
        if (value_ == 0) return std::nullopt;
        const YamlNode& value = before_.node(value_);
        if (value.alias_of != 0 ||
            (value.kind != NodeKind::sequence && value.kind != NodeKind::null))
            return refused(value.place.line, "a list of entries",
                           "this section must be a list, each entry starting with \"- \"");
        if (value.flow && value.first != 0)
            return refused(value.place.line,
                           "a list with each entry on lines of its own, starting with \"- \"",
                           "this list is written between brackets; put each entry on lines of its "
                           "own");
        return std::nullopt;
    }

    /// The section with its first entry, for the end of the file.
    std::string section_lines(bool after_blank_line) const {
        std::string lines = after_blank_line ? std::string(line_end_) : std::string();
        lines.append(root_indent_, ' ');
        lines += section_;
        lines += ":";
        lines += line_end_;
        return lines + moved_right(entry_, root_indent_ + 2, line_end_);
    }

    /// How far the entries are indented; where that is not plain, the proof decides.
    std::size_t item_indent() const {
        const YamlNode& list = before_.node(value_);
        if (list.first == 0) return root_indent_ + 2;
        const auto line = static_cast<std::size_t>(before_.node(list.first).place.line);
        for (std::size_t i = static_cast<std::size_t>(std::max(key_line_, 0));
             i < std::min(line, lines_.size()); ++i) {
            const std::string_view words = lines_[i].of(text_);
            const std::size_t first = indent_of(words);
            if (first < words.size() && words[first] == '-') return first;
        }
        return root_indent_ + 2;
    }

    /// An empty list may be written "[]", "~" or "null": that goes when entries come.
    void drop_what_stands_for_nothing() {
        const YamlNode& value = before_.node(value_);
        if (value.first != 0 || value.place.line < 1) return;
        const std::size_t line = static_cast<std::size_t>(value.place.line) - 1;
        if (line >= lines_.size()) return;
        const std::size_t at =
            lines_[line].begin + static_cast<std::size_t>(std::max(value.place.column, 1)) - 1;
        const std::string_view rest = std::string_view(text_).substr(std::min(at, text_.size()));
        std::size_t length = 0;
        if (value.kind == NodeKind::sequence && rest.substr(0, 1) == "[") {
            const std::size_t close = rest.find_first_not_of(" \t\r\n", 1);
            if (close != std::string_view::npos && rest[close] == ']') length = close + 1;
        } else if (value.kind == NodeKind::null &&
                   line + 1 == static_cast<std::size_t>(key_line_)) {
            if (rest.substr(0, 1) == "~") length = 1;
            if (rest.substr(0, 4) == "null" || rest.substr(0, 4) == "Null" ||
                rest.substr(0, 4) == "NULL")
                length = 4;
        }
        drop_at_ = at;
        drop_length_ = length;
    }

    /// Where the list may end, likeliest first. What follows its last line is a comment, or text
    /// of a block that looks like one: only reading the new text tells which.
    std::vector<std::size_t> ends_of_list() const {
        const std::size_t key = static_cast<std::size_t>(std::max(key_line_, 1)) - 1;
        const std::size_t last =
            static_cast<std::size_t>(std::max(last_line_of(before_, value_), 1)) - 1;
        const std::size_t from = std::max(key, std::min(last, stop_ == 0 ? 0 : stop_ - 1));
        const std::size_t indent = item_indent();
        std::size_t plain = from;
        std::size_t deep = from;
        for (std::size_t i = from + 1; i < stop_; ++i) {
            const std::string_view line = lines_[i].of(text_);
            if (is_blank(line)) continue;
            if (!looks_like_comment(line)) plain = i;
            if (indent_of(line) > indent) deep = i;
        }
        std::vector<std::size_t> ends;
        for (const std::size_t line : {plain, std::max(plain, deep), stop_ == 0 ? 0 : stop_ - 1}) {
            if (line >= lines_.size()) continue;
            const std::size_t at = lines_[line].next;
            if (std::find(ends.begin(), ends.end(), at) == ends.end()) ends.push_back(at);
        }
        return ends;
    }

    /// The text with these lines at this place, if it reads as it did and has the entry more.
    std::optional<WithEntry> proven(const std::string& lines, std::size_t at) {
        WithEntry with;
        const std::size_t dropped_end = drop_at_ + drop_length_;
        if (drop_length_ > 0 && at < dropped_end) return std::nullopt;
        with.text = text_.substr(0, drop_length_ > 0 ? drop_at_ : at);
        if (drop_length_ > 0) with.text += text_.substr(dropped_end, at - dropped_end);
        with.text += lines;
        with.text += text_.substr(at);
        const auto after = parse_yaml(with.text, name_);
        if (!after) {
            if (after.errors()[0].code == ErrorCode::too_large) too_large_ = after.errors();
            return std::nullopt;
        }
        SameReading whole(before_, *after);
        whole.let_grow(grown_);
        if (!ends_its_line_) whole.let_last_word_end_its_line();
        if (!whole.same()) return std::nullopt;
        const auto item = added_item(*after, whole.added());
        const auto meant = parse_yaml(entry_, name_);
        if (item == 0 || !meant) return std::nullopt;
        if (!SameReading(*meant, *after).same(meant->node(1).first, item)) return std::nullopt;
        with.entry = moved_right(entry_, value_ == 0 ? root_indent_ + 2 : item_indent(), "\n");
        with.entries = 1;
        if (value_ != 0)
            for (auto one = before_.node(value_).first; one != 0; one = before_.node(one).next)
                ++with.entries;
        return with;
    }

    /// The entry in what was added: the item itself, or the only item of a new section.
    std::uint32_t added_item(const YamlTree& after, std::uint32_t added) const {
        if (value_ != 0) return added;
        if (after.node(added).text != section_) return 0;
        const YamlNode& list = after.node(after.node(added).next);
        const bool one =
            list.kind == NodeKind::sequence && list.first != 0 && after.node(list.first).next == 0;
        return one ? list.first : 0;
    }

    const YamlTree& before_;
    std::string_view section_;
    std::string_view entry_;
    std::string_view name_;
    std::string text_;  ///< with an end to its last line
    std::string_view line_end_ = "\n";
    bool ends_its_line_ = true;
    std::vector<Line> lines_;
    std::size_t root_indent_ = 0;
    std::uint32_t value_ = 0;  ///< of the section; 0 where it is missing
    std::uint32_t grown_ = 0;
    int key_line_ = 0;
    std::size_t stop_ = 0;  ///< index of the line of the next section
    std::size_t drop_at_ = 0;
    std::size_t drop_length_ = 0;
    Errors too_large_;
};

}  // namespace

Result<WithEntry> with_entry(std::string_view text, std::string_view section,
                             std::string_view entry, std::string_view name) {
    const auto before = parse_yaml(text, name);
    if (!before) return before.errors();
    // A key that stands twice has no end that both readings share.
    if (!before->problems().empty()) return before->problems();
    return EntryAdder(*before, text, section, entry, name).add();
}

}  // namespace feed::io
