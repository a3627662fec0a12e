#include "feed/io/json_tree.hpp"

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "feed/quantity/number_text.hpp"
#include "tree_problems.hpp"

namespace feed::io {
namespace {

bool is_json_blank(char c) noexcept {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

void put_utf8(std::string& text, char32_t c) {
    const auto low = [&](unsigned shift) {
        text.push_back(static_cast<char>(0x80U | ((c >> shift) & 0x3FU)));
    };
    if (c < 0x80) {
        text.push_back(static_cast<char>(c));
    } else if (c < 0x800) {
        text.push_back(static_cast<char>(0xC0U | (c >> 6U)));
        low(0);
    } else if (c < 0x10000) {
        text.push_back(static_cast<char>(0xE0U | (c >> 12U)));
        low(6);
        low(0);
    } else {
        text.push_back(static_cast<char>(0xF0U | (c >> 18U)));
        low(12);
        low(6);
        low(0);
    }
}

/// The length of the number that a text begins with (RFC 8259, section 6); 0 for none.
std::size_t number_length(std::string_view text) noexcept {
    std::size_t at = 0;
    const auto digits = [&] {
        const std::size_t from = at;
        while (at < text.size() && feed::detail::is_digit(text[at]))
            ++at;
        return at - from;
    };
    if (at < text.size() && text[at] == '-') ++at;
    const std::size_t first = at;
    const std::size_t whole = digits();
    if (whole == 0 || (whole > 1 && text[first] == '0')) return 0;
    if (at < text.size() && text[at] == '.') {
        ++at;
        if (digits() == 0) return 0;
    }
    if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        ++at;
        if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
        if (digits() == 0) return 0;
    }
    return at;
}

}  // namespace

/// One pass over the text with a stack of what is open.
class JsonTreeReader {
public:
    JsonTreeReader(YamlTree& tree, std::string_view text, std::string_view name,
                   const YamlLimits& limits)
        : tree_(tree), text_(text), name_(name), limits_(limits) {
        tree_.nodes_.resize(1);
    }

    /// The problem that ended the reading, or nothing.
    std::optional<Error> read() {
        skip_blanks();
        while (!error_ && !done_)
            step();
        if (error_) return error_;
        skip_blanks();
        if (at_ < text_.size()) fail("the end", "something stands behind the value");
        return error_;
    }

private:
    /// What may come next.
    enum class Due { value, first_item, item_end, first_key, key, pair_end };
    struct Level {
        std::uint32_t index;
        std::uint32_t last_child;
        bool object;
    };

    void fail(std::string allowed, std::string message) {
        if (error_) return;
        std::string found(text_.substr(at_, at_ < text_.size() ? 1 : 0));
        if (!found.empty() && (static_cast<unsigned char>(found[0]) >= 0x80 || found[0] < ' '))
            found.clear();
        error_ = text_error(ErrorCode::syntax, name_, place_of_offset(text_, at_), found,
                            std::move(allowed), "this is not well-formed JSON: " + message);
    }

    void too_large(std::string allowed, std::string message) {
        if (error_) return;
        error_ = text_error(ErrorCode::too_large, name_, place_of_offset(text_, at_), "",
                            std::move(allowed), std::move(message));
    }

    char next() const noexcept { return at_ < text_.size() ? text_[at_] : '\0'; }

    /// Moves on, counting lines.
    void skip_blanks() {
        while (at_ < text_.size() && is_json_blank(text_[at_])) {
            if (text_[at_] == '\n') {
                ++line_;
                line_start_ = at_ + 1;
            }
            ++at_;
        }
    }

    std::uint32_t add(NodeKind kind) {
        if (tree_.nodes_.size() > limits_.nodes)
            too_large("at most " + std::to_string(limits_.nodes) + " values",
                      "this text holds too many values");
        const auto index = static_cast<std::uint32_t>(tree_.nodes_.size());
        YamlNode& node = tree_.nodes_.emplace_back();
        node.kind = kind;
        node.place = {line_, static_cast<int>(at_ - line_start_) + 1};
        if (!open_.empty()) {
            Level& parent = open_.back();
            (parent.last_child == 0 ? tree_.nodes_[parent.index].first
                                    : tree_.nodes_[parent.last_child].next) = index;
            parent.last_child = index;
        }
        return index;
    }

    void step() {
        switch (due_) {
            case Due::first_item:
            case Due::first_key:
                if (next() == (due_ == Due::first_item ? ']' : '}')) return close();
                return due_ == Due::first_item ? read_value() : read_key();
            case Due::value:
                return read_value();
            case Due::key:
                return read_key();
            case Due::item_end:
            case Due::pair_end:
                return read_end();
        }
    }

    void read_end() {
        const bool object = due_ == Due::pair_end;
        if (next() == (object ? '}' : ']')) return close();
        if (next() != ',')
            return fail(object ? ", or }" : ", or ]", "a comma or a bracket is due here");
        ++at_;
        skip_blanks();
        due_ = object ? Due::key : Due::value;
    }

    void close() {
        const Level level = open_.back();
        open_.pop_back();
        ++at_;
        if (level.object) TreeProblems::find_duplicates(tree_, level.index, name_);
        value_is_over();
    }

    void value_is_over() {
        skip_blanks();
        if (open_.empty())
            done_ = true;
        else
            due_ = open_.back().object ? Due::pair_end : Due::item_end;
    }

    void read_key() {
        if (next() != '"')
            return fail("\"key\": value", "a key between quotation marks is due here");
        read_text();
        skip_blanks();
        if (error_) return;
        if (next() != ':') return fail(":", "a colon is due after a key");
        ++at_;
        skip_blanks();
        due_ = Due::value;
    }

    void read_value() {
        const char c = next();
        if (c == '{' || c == '[') return open(c == '{');
        if (c == '"') {
            read_text();
            return value_is_over();
        }
        for (const std::string_view word : {"true", "false", "null"}) {
            if (text_.substr(at_, word.size()) == word)
                return take(word.size(), word == "null" ? NodeKind::null : NodeKind::scalar);
        }
        if (const std::size_t length = number_length(text_.substr(at_)))
            return take(length, NodeKind::scalar);
        fail("a text, a number, true, false, null, a list or an object", "a value is due here");
    }

    void take(std::size_t length, NodeKind kind) {
        const auto index = add(kind);
        if (kind == NodeKind::scalar) tree_.nodes_[index].text = text_.substr(at_, length);
        at_ += length;
        value_is_over();
    }

    void open(bool object) {
        if (static_cast<int>(open_.size()) >= limits_.depth)
            return too_large("at most " + std::to_string(limits_.depth) + " levels",
                             "lists and objects are nested too deeply");
        const auto index = add(object ? NodeKind::mapping : NodeKind::sequence);
        tree_.nodes_[index].flow = true;
        open_.push_back({index, 0, object});
        ++at_;
        skip_blanks();
        due_ = object ? Due::first_key : Due::first_item;
    }

    void read_text() {
        const auto index = add(NodeKind::scalar);
        std::string content;
        ++at_;
        while (!error_ && next() != '"') {
            if (at_ >= text_.size()) return fail("\"", "a text has no end");
            if (static_cast<unsigned char>(next()) < 0x20)
                return fail("\\n and the like", "a text holds a control character");
            if (next() == '\\') {
                read_escape(content);
            } else {
                content.push_back(text_[at_++]);
            }
        }
        ++at_;
        tree_.nodes_[index].text = std::move(content);
        tree_.nodes_[index].quoted = true;
    }

    void read_escape(std::string& content) {
        constexpr std::string_view letters = "\"\\/bfnrt";
        constexpr std::string_view meanings = "\"\\/\b\f\n\r\t";
        ++at_;
        if (next() == 'u') {
            ++at_;
            return read_code(content);
        }
        const auto which = letters.find(next());
        if (at_ >= text_.size() || which == std::string_view::npos)
            return fail("\\\" \\\\ \\/ \\b \\f \\n \\r \\t or \\u and four digits",
                        "no such escape in a text");
        content.push_back(meanings[which]);
        ++at_;
    }

    /// Four hexadecimal digits.
    std::optional<char32_t> code_unit() {
        char32_t unit = 0;
        for (int digit = 0; digit < 4; ++digit) {
            const char c = next();
            const int value = c >= '0' && c <= '9'   ? c - '0'
                              : c >= 'a' && c <= 'f' ? c - 'a' + 10
                              : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                                     : -1;
            if (value < 0) {
                fail("four hexadecimal digits", "\\u is not followed by four digits");
                return std::nullopt;
            }
            unit = (unit << 4U) | static_cast<char32_t>(value);
            ++at_;
        }
        return unit;
    }

    void read_code(std::string& content) {
        const auto first = code_unit();
        if (!first) return;
        char32_t c = *first;
        if (c >= 0xD800 && c < 0xDC00 && text_.substr(at_, 2) == "\\u") {
            at_ += 2;
            const auto second = code_unit();
            if (!second) return;
            if (*second < 0xDC00 || *second >= 0xE000)
                return fail("a pair", "half a character: a surrogate without its other half");
            c = 0x10000 + ((c - 0xD800) << 10U) + (*second - 0xDC00);
        } else if (c >= 0xD800 && c < 0xE000) {
            return fail("a pair", "half a character: a surrogate without its other half");
        }
        if (c == 0) {
            error_ = text_error(ErrorCode::not_utf8, name_, place_of_offset(text_, at_), "",
                                "text without NUL", "a text cannot hold the character NUL");
            return;
        }
        put_utf8(content, c);
    }

    YamlTree& tree_;
    std::string_view text_;
    std::string_view name_;
    YamlLimits limits_;
    std::vector<Level> open_;
    std::optional<Error> error_;
    std::size_t at_ = 0;
    std::size_t line_start_ = 0;
    int line_ = 1;
    Due due_ = Due::value;
    bool done_ = false;
};

Result<YamlTree> parse_json(std::string_view text, std::string_view name,
                            const YamlLimits& limits) {
    if (auto refused = unreadable(text, name)) return *refused;
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
        return text_error(ErrorCode::empty, name, {}, "", "a JSON object", "this text is empty");
    YamlTree tree;
    if (auto refused = JsonTreeReader(tree, text, name, limits).read()) return *refused;
    return tree;
}

void write_node(JsonWriter& json, YamlView node, bool from_json) {
    switch (node.kind()) {
        case NodeKind::null:
            return json.null();
        case NodeKind::scalar:
            if (from_json && !node.quoted()) return json.literal(node.text());
            return json.value(node.text());
        case NodeKind::sequence:
            json.begin_array();
            node.for_each_item([&](YamlView item) { write_node(json, item, from_json); });
            return json.end_array();
        case NodeKind::mapping:
            json.begin_object();
            node.for_each_pair([&](YamlView key, YamlView value) {
                json.key(key.text());
                write_node(json, value, from_json);
            });
            return json.end_object();
    }
}

}  // namespace feed::io
