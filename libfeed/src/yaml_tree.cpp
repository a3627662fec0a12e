#include "feed/io/yaml_tree.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <istream>
#include <new>
#include <streambuf>
#include <unordered_map>
#include <utility>

#include "tree_problems.hpp"

namespace feed::io {
namespace {

/// A stream buffer over bytes that somebody else keeps: yaml-cpp reads only from streams.
class MemoryBuffer : public std::streambuf {
public:
    explicit MemoryBuffer(std::string_view text) {
        // The get area is never written to; the interface is older than const.
        char* start = const_cast<char*>(text.data());
        setg(start, start, start + text.size());
    }
};

/// Thrown out of the event handler to stop yaml-cpp at once; never leaves this file.
struct Refused {
    Error error;
};

Place place_of(const YAML::Mark& mark) {
    return {mark.line + 1, mark.column + 1};
}

/// The offset of a bracket that opens too many at once in its line, or npos. The parser keeps all
/// that a line opens until it is closed; nobody writes a line of this kind.
std::size_t endless_brackets(std::string_view text) noexcept {
    constexpr int most_open = 1000;
    int open = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char c = text[at];
        if (c == '\n') open = 0;
        if (c == '[' || c == '{') ++open;
        if ((c == ']' || c == '}') && open > 0) --open;
        if (open > most_open) return at;
    }
    return std::string_view::npos;
}

bool only_blank(std::string_view text) {
    bool comment = false;
    for (const char c : text) {
        if (c == '\n') comment = false;
        if (c == '#') comment = true;
        if (!comment && c != ' ' && c != '\t' && c != '\r' && c != '\n') return false;
    }
    return true;
}

}  // namespace

class YamlTreeBuilder : public YAML::EventHandler {
public:
    YamlTreeBuilder(YamlTree& tree, std::string_view name, const YamlLimits& limits)
        : tree_(tree), name_(name), limits_(limits) {
        tree_.nodes_.resize(1);
    }

    void OnDocumentStart(const YAML::Mark&) override {}
    void OnDocumentEnd() override {}

    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        const auto index = add(mark, NodeKind::null);
        remember(anchor, index, 1);
    }

    void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        const auto known = anchors_.find(anchor);
        if (known == anchors_.end()) {
            refuse(ErrorCode::syntax, mark, "*", "an alias of something already complete",
                   "an alias inside the very thing it names would never end");
        }
        const auto index = add(mark, NodeKind::null);
        tree_.nodes_[index].alias_of = known->second.index;
        charge(mark, known->second.expanded_size);
    }

    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        check_tag(mark, tag);
        if (value.find('\0') != std::string::npos) {
            refuse(ErrorCode::not_utf8, mark, "", "text without NUL",
                   "a text cannot hold the character NUL");
        }
        const auto index = add(mark, NodeKind::scalar);
        tree_.nodes_[index].text = value;
        tree_.nodes_[index].quoted = tag == "!";
        remember(anchor, index, 1);
    }

    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value style) override {
        open(mark, tag, anchor, NodeKind::sequence, style);
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value style) override {
        open(mark, tag, anchor, NodeKind::mapping, style);
    }
    void OnMapEnd() override {
        TreeProblems::find_duplicates(tree_, open_.back().index, name_);
        close();
    }

private:
    struct Anchor {
        std::uint32_t index;
        std::size_t expanded_size;
    };
    struct Open {
        std::uint32_t index;
        std::uint32_t last_child;
        YAML::anchor_t anchor;
        std::size_t visited_before;
    };

    [[noreturn]] void refuse(ErrorCode code, const YAML::Mark& mark, std::string value,
                             std::string allowed, std::string message) const {
        throw Refused{text_error(code, name_, place_of(mark), std::move(value), std::move(allowed),
                                 std::move(message))};
    }

    void check_tag(const YAML::Mark& mark, const std::string& tag) const {
        if (tag.empty() || tag == "?" || tag == "!") return;
        refuse(ErrorCode::syntax, mark, tag, "no tags", "a type tag has no meaning in a feed file");
    }

    void charge(const YAML::Mark& mark, std::size_t nodes) {
        visited_ += nodes;
        if (visited_ > limits_.nodes) {
            refuse(ErrorCode::too_large, mark, "",
                   "at most " + std::to_string(limits_.nodes) + " values, aliases written out",
                   "this file holds too many values; do its aliases (*name) repeat one another?");
        }
    }

    std::uint32_t add(const YAML::Mark& mark, NodeKind kind) {
        charge(mark, 1);
        const auto index = static_cast<std::uint32_t>(tree_.nodes_.size());
        tree_.nodes_.emplace_back();
        tree_.nodes_[index].place = place_of(mark);
        tree_.nodes_[index].kind = kind;
        if (!open_.empty()) {
            auto& parent = open_.back();
            (parent.last_child == 0 ? tree_.nodes_[parent.index].first
                                    : tree_.nodes_[parent.last_child].next) = index;
            parent.last_child = index;
        }
        return index;
    }

    void remember(YAML::anchor_t anchor, std::uint32_t index, std::size_t expanded_size) {
        if (anchor != YAML::NullAnchor) anchors_[anchor] = {index, expanded_size};
    }

    void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, NodeKind kind,
              YAML::EmitterStyle::value style) {
        check_tag(mark, tag);
        if (static_cast<int>(open_.size()) >= limits_.depth) {
            refuse(ErrorCode::too_large, mark, "",
                   "at most " + std::to_string(limits_.depth) + " levels",
                   "lists and mappings are nested too deeply");
        }
        const auto before = visited_;
        const auto index = add(mark, kind);
        tree_.nodes_[index].flow = style == YAML::EmitterStyle::Flow;
        open_.push_back({index, 0, anchor, before});
    }

    void close() {
        const Open done = open_.back();
        open_.pop_back();
        remember(done.anchor, done.index, visited_ - done.visited_before);
    }

    YamlTree& tree_;
    std::string_view name_;
    YamlLimits limits_;
    std::vector<Open> open_;
    std::unordered_map<YAML::anchor_t, Anchor> anchors_;
    std::size_t visited_ = 0;
};

namespace {

/// yaml-cpp's words for a fault, with the slip that usually causes it.
std::string syntax_message(const std::string& fault, std::string_view text, Place place) {
    std::string message = "this is not well-formed YAML: " + fault;
    std::size_t start = 0;
    for (int line = 1; line < place.line && start < text.size(); ++line) {
        const auto end = text.find('\n', start);
        start = end == std::string_view::npos ? text.size() : end + 1;
    }
    const auto line = text.substr(start, text.find('\n', start) - start);
    if (line.find('\t') != std::string_view::npos) {
        message += "; is the line indented with a tab? use blanks";
    } else if (fault.find("illegal map value") != std::string::npos) {
        message += "; does the text hold a colon? put it between quotation marks";
    } else if (fault.find("end of") != std::string::npos) {
        message += "; is the line indented like its neighbours?";
    }
    return message;
}

}  // namespace

Result<YamlTree> parse_yaml(std::string_view text, std::string_view name,
                            const YamlLimits& limits) {
    if (auto refused = unreadable(text, name)) return *refused;
    if (only_blank(text)) {
        return text_error(ErrorCode::empty, name, {}, "", "at least the line \"libfeed: 1\"",
                          "this file is empty");
    }
    if (const auto at = endless_brackets(text); at != std::string_view::npos) {
        return text_error(ErrorCode::too_large, name, place_of_offset(text, at), "",
                          "at most " + std::to_string(limits.depth) + " levels",
                          "lists and mappings are nested too deeply");
    }
    YamlTree tree;
    try {
        MemoryBuffer buffer(text);
        std::istream stream(&buffer);
        YAML::Parser parser(stream);
        YamlTreeBuilder builder(tree, name, limits);
        if (!parser.HandleNextDocument(builder) || tree.root().kind() == NodeKind::null) {
            return text_error(ErrorCode::empty, name, {}, "", "at least the line \"libfeed: 1\"",
                              "this file is empty");
        }
        YamlTree rest;
        YamlTreeBuilder ignored(rest, name, limits);
        if (parser.HandleNextDocument(ignored)) {
            return text_error(ErrorCode::syntax, name, rest.root().place(), "---", "one document",
                              "a second document starts here; use one file for each");
        }
    } catch (const Refused& refused) {
        return refused.error;
    } catch (const YAML::Exception& exception) {
        const auto place = exception.mark.is_null() ? Place{} : place_of(exception.mark);
        return text_error(ErrorCode::syntax, name, place, "", "well-formed YAML or JSON",
                          syntax_message(exception.msg, text, place));
    } catch (const std::bad_alloc&) {
        return text_error(ErrorCode::out_of_memory, name, {}, "", "", "there is not enough memory");
    } catch (const std::exception& exception) {
        return text_error(ErrorCode::syntax, name, {}, "", "well-formed YAML or JSON",
                          exception.what());
    }
    return tree;
}

}  // namespace feed::io
