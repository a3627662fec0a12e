#pragma once
// What was seen at one numbered portion of a trial, and the words for it.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount.hpp"
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed {

/// How many worms are on and under a portion.
enum class WormsOnIt : std::uint8_t { none, few, many };
inline constexpr std::array<std::string_view, 3> worms_on_it_words{"none", "few", "many"};

constexpr std::string_view text(WormsOnIt worms) noexcept {
    return worms_on_it_words[static_cast<std::size_t>(worms)];
}

/// One look at one plot. What was not looked at is missing.
struct PlotLook {
    std::size_t plot = 1;              ///< the number on the sheet
    std::optional<bool> found;         ///< worms have come to it
    std::optional<WormsOnIt> worms;    ///< few or many: it is found
    std::optional<double> share_left;  ///< by eye, 0 to 1
    std::optional<WetMass> left;       ///< weighed
    std::optional<bool> gone;
    bool lost = false;  ///< dug up, mixed up: no look from here on counts
    std::string photo;  ///< name of its file
};

/// The largest number a plot may have.
inline constexpr int largest_plot_number = 999;

namespace detail {

inline constexpr std::string_view plot_form =
    "plot NUMBER and what was seen: gone, not gone, half left, 80 g left, worms none, few or many, "
    "found, not found, lost, photo NAME";

inline Error plot_error(std::string_view words, std::string message) {
    return make_error(ErrorCode::wrong_type, "plot", std::string(words), std::string(plot_form),
                      std::move(message));
}

/// Shares in the words of the sheet.
struct ShareWord {
    std::string_view words;
    double share;
};
inline constexpr ShareWord share_words_on_sheet[] = {
    {"all", 1.0},           {"everything", 1.0},       {"three quarters", 0.75},
    {"3/4", 0.75},          {"two thirds", 2.0 / 3.0}, {"2/3", 2.0 / 3.0},
    {"half", 0.5},          {"a half", 0.5},           {"1/2", 0.5},
    {"a third", 1.0 / 3.0}, {"1/3", 1.0 / 3.0},        {"a quarter", 0.25},
    {"quarter", 0.25},      {"one quarter", 0.25},     {"1/4", 0.25},
    {"none", 0.0},          {"nothing", 0.0}};

/// A word in small letters, without a colon or full stop behind it; "" for one that says nothing
/// ("plot 3 is gone").
inline std::string plain_token(std::string token) {
    constexpr std::string_view dash = "\xE2\x80\x93";  // U+2013
    for (std::size_t at = token.find(dash); at != std::string::npos; at = token.find(dash))
        token.replace(at, dash.size(), "-");
    for (char& c : token)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    while (!token.empty() && (token.back() == ':' || token.back() == '.'))
        token.pop_back();
    for (const std::string_view idle : {"is", "are", "was", "were", "has", "have", "with"})
        if (token == idle) token.clear();
    return token;
}

/// Words parted at blanks and commas, in small letters but for what follows "photo". A comma
/// between digits stays: "12,5 g" is one amount.
inline std::vector<std::string> plot_tokens(std::string_view words) {
    std::vector<std::string> tokens;
    std::size_t at = 0;
    const auto digit_at = [&](std::size_t i) {
        return i < words.size() && words[i] >= '0' && words[i] <= '9';
    };
    const auto parts = [&](std::size_t i) {
        const char c = words[i];
        if (c == ',' && i > 0 && digit_at(i - 1) && digit_at(i + 1)) return false;
        return c == ' ' || c == '\t' || c == ',' || c == ';';
    };
    while (at < words.size()) {
        while (at < words.size() && parts(at))
            ++at;
        std::size_t end = at;
        while (end < words.size() && !parts(end))
            ++end;
        if (end == at) break;
        std::string token(words.substr(at, end - at));
        at = end;
        const bool photo = !tokens.empty() && tokens.back() == "photo";
        if (!photo) token = plain_token(std::move(token));
        if (!token.empty()) tokens.push_back(std::move(token));
    }
    return tokens;
}

/// A whole number that fills the text, or -1.
inline int plot_number(std::string_view text) noexcept {
    if (text.empty() || text.size() > 3) return -1;
    int number = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return -1;
        number = 10 * number + (c - '0');
    }
    return number;
}

/// Reads the words after "plot": first the numbers, then what was seen.
class PlotReader {
public:
    explicit PlotReader(std::string_view words) : words_(words), tokens_(plot_tokens(words)) {}

    Result<std::vector<PlotLook>> read() {
        if (at("plot") || at("plots")) ++next_;
        if (!read_numbers()) return plot_error(words_, std::move(message_));
        if (next_ == tokens_.size()) return plot_error(words_, "this does not say what was seen");
        while (next_ < tokens_.size()) {
            if (!read_one()) {
                if (message_.empty())
                    message_ = "\"" + tokens_[next_] + "\" is not understood here";
                return plot_error(words_, std::move(message_));
            }
        }
        if (const char* slip = contradiction()) return plot_error(words_, slip);
        std::vector<PlotLook> looks;
        for (const std::size_t number : numbers_) {
            looks.push_back(seen_);
            looks.back().plot = number;
        }
        return looks;
    }

private:
    bool at(std::string_view word, std::size_t ahead = 0) const {
        return next_ + ahead < tokens_.size() && tokens_[next_ + ahead] == word;
    }
    bool take(std::string_view word) {
        if (!at(word)) return false;
        ++next_;
        return true;
    }

    bool add(int from, int to) {
        if (from < 1 || to > largest_plot_number || to < from) {
            message_ = "plots are numbered from 1, a range from the smaller to the larger number";
            return false;
        }
        for (int number = from; number <= to; ++number)
            numbers_.push_back(static_cast<std::size_t>(number));
        return true;
    }

    /// "1,2,5" as tokens of their own, unless it is an amount with a decimal comma.
    void part_commas() {
        const std::string token = tokens_[next_];
        if (token.find(',') == std::string::npos || is_amount(next_)) return;
        tokens_.erase(tokens_.begin() + static_cast<std::ptrdiff_t>(next_));
        std::size_t at = next_;
        for (std::size_t from = 0; from <= token.size();) {
            const std::size_t comma = std::min(token.find(',', from), token.size());
            tokens_.insert(tokens_.begin() + static_cast<std::ptrdiff_t>(at++),
                           token.substr(from, comma - from));
            from = comma + 1;
        }
    }

    /// "3", "1-6", "1 to 6", "1, 2 and 5".
    bool read_numbers() {
        while (next_ < tokens_.size()) {
            part_commas();
            const std::string& token = tokens_[next_];
            const std::size_t dash = token.find('-');
            const int whole = plot_number(token);
            if (dash != std::string::npos) {
                const int from = plot_number(std::string_view(token).substr(0, dash));
                const int to = plot_number(std::string_view(token).substr(dash + 1));
                if (from < 0 || to < 0) break;
                ++next_;
                if (!add(from, to)) return false;
            } else if (whole >= 0 && (at("to", 1) || at("-", 1)) && next_ + 2 < tokens_.size()) {
                const int to = plot_number(tokens_[next_ + 2]);
                next_ += 3;
                if (!add(whole, to)) return false;
            } else if (whole >= 0 && !is_amount(next_)) {
                ++next_;
                if (!add(whole, whole)) return false;
            } else if (token == "and" && !numbers_.empty() && next_ + 1 < tokens_.size() &&
                       plot_number(tokens_[next_ + 1].substr(0, tokens_[next_ + 1].find('-'))) >=
                           0) {
                ++next_;
            } else {
                break;
            }
        }
        if (numbers_.empty()) {
            message_ = "this does not start with the number of a plot";
            return false;
        }
        return true;
    }

    /// Whether a number is followed by a unit: "3 80 g left".
    bool is_amount(std::size_t token) const {
        if (numbers_.empty() || token + 1 >= tokens_.size()) return false;
        return tokens_[token + 1] == "%" ||
               parse_amount(tokens_[token] + " " + tokens_[token + 1]).has_value();
    }

    template <class T>
    bool set(std::optional<T>& target, T value) {
        if (target && !(*target == value)) {
            message_ = "one plot is said to be two things at once";
            return false;
        }
        target = value;
        return true;
    }

    bool read_one() {
        if (take("and")) return next_ < tokens_.size();
        if (take("gone") || take("eaten")) return set(seen_.gone, !denied());
        if (take("untouched")) return set(seen_.share_left, 1.0);
        if (read_share_gone()) return message_.empty();
        if (take("found")) return set(seen_.found, !denied());
        if (take("lost")) return seen_.lost = true;
        if (at("not") && at("gone", 1)) return next_ += 2, set(seen_.gone, false);
        if (at("not") && at("found", 1)) return next_ += 2, set(seen_.found, false);
        if (at("photo")) return read_photo();
        if (read_worms()) return message_.empty();
        return read_left();
    }

    /// "gone: no", as on a sheet with a box for both.
    bool denied() {
        if (take("yes")) return false;
        return at("no") && !at("worms", 1) && take("no");
    }

    bool read_photo() {
        if (next_ + 1 >= tokens_.size()) {
            message_ = "the name of the photograph's file is missing";
            return false;
        }
        seen_.photo = tokens_[next_ + 1];
        next_ += 2;
        return true;
    }

    /// "worms few", "few worms", "no worms".
    bool read_worms() {
        for (std::size_t i = 0; i < worms_on_it_words.size(); ++i) {
            const auto kind = static_cast<WormsOnIt>(i);
            const std::string_view word = worms_on_it_words[i];
            const bool after = at("worms") && (at(word, 1) || (i == 0 && at("no", 1)));
            const bool before = at("worms", 1) && (at(word) || (i == 0 && at("no")));
            if (!after && !before) continue;
            next_ += 2;
            set(seen_.worms, kind);
            return true;
        }
        return false;
    }

    /// "half gone", "20 % eaten".
    bool read_share_gone() {
        std::string amount;
        for (std::size_t end = next_; end < tokens_.size() && end < next_ + 3; ++end) {
            if (end > next_ && (tokens_[end] == "gone" || tokens_[end] == "eaten")) {
                const auto share = share_of(amount);
                if (!share) return false;
                next_ = end + 1;
                set(seen_.share_left, 1.0 - *share);
                return true;
            }
            amount += (amount.empty() ? "" : " ") + tokens_[end];
        }
        return false;
    }

    /// "half left", "30 % left", "80 g left", "left half".
    bool read_left() {
        const bool before = take("left");
        std::string amount;
        std::size_t end = next_;
        while (end < tokens_.size() && end < next_ + 3 && tokens_[end] != "left")
            amount += (amount.empty() ? "" : " ") + tokens_[end++];
        if (!before && (end >= tokens_.size() || tokens_[end] != "left")) return false;
        if (before) {
            // "left" first: as many words as make sense, the longest first.
            for (; end > next_; --end) {
                amount.clear();
                for (std::size_t i = next_; i < end; ++i)
                    amount += (amount.empty() ? "" : " ") + tokens_[i];
                if (share_of(amount) || parse_amount(amount)) break;
            }
        }
        if (!take_left(amount)) return false;
        next_ = end + (before ? 0 : 1);
        return true;
    }

    static std::optional<double> share_of(const std::string& amount) {
        for (const auto& [word, share] : share_words_on_sheet) {
            if (amount == word) return share;
        }
        const std::size_t sign = amount.find('%');
        if (sign == std::string::npos || sign + 1 != amount.size()) return std::nullopt;
        const auto number = read_number(amount);
        if (!number || !(number->number >= 0.0 && number->number <= 100.0)) return std::nullopt;
        return 0.01 * number->number;
    }

    bool take_left(const std::string& amount) {
        if (const auto share = share_of(amount)) return set(seen_.share_left, *share);
        const auto weighed = parse_amount(amount);
        if (weighed && weighed->kind == AmountKind::mass)
            return set(seen_.left, wet_kilograms(in_kilograms(weighed->mass)));
        message_ = "\"" + amount + "\" is no share or weight of what is left";
        return false;
    }

    const char* contradiction() const {
        const bool gone = seen_.gone.value_or(false);
        if (gone && (seen_.share_left.value_or(0.0) > 0.0 ||
                     (seen_.left && seen_.left->in_kilograms() > 0.0)))
            return "a plot that is gone has nothing left: which is it?";
        if (!seen_.gone.value_or(true) && seen_.share_left && *seen_.share_left == 0.0)
            return "a plot with nothing left is gone: which is it?";
        if (seen_.found && seen_.worms && *seen_.found != (*seen_.worms != WormsOnIt::none))
            return "worms on a plot mean that it is found: which is it?";
        return nullptr;
    }

    std::string_view words_;
    std::vector<std::string> tokens_;
    std::size_t next_ = 0;
    std::vector<std::size_t> numbers_;
    PlotLook seen_;
    std::string message_;
};

inline std::string share_left_text(double share) {
    for (const auto& [word, known] : share_words_on_sheet) {
        if (share == known) return std::string(word);
    }
    return significant(100.0 * share, 3) + " %";
}

}  // namespace detail

/// Reads a look at plots as people write it: "plot 3 gone", "plot 2 half left", "plots 1-6 worms
/// few", "plots 1, 2 and 5 not gone, photo IMG_31.jpg". The word "plot" may be left out.
/// @return one look for each number, in the order written.
/// Errors: one, with the words in `value`: no number, nothing seen, a word that is not understood,
/// two things that cannot both be. Threads: pure.
inline Result<std::vector<PlotLook>> read_plot_look(std::string_view words) {
    return detail::PlotReader(words).read();
}

/// What was seen at a plot in words that `read_plot_look` reads back: "gone, worms few".
inline std::string seen_text(const PlotLook& look) {
    std::string words;
    const auto add = [&](const std::string& seen) { words += (words.empty() ? "" : ", ") + seen; };
    if (look.gone) add(*look.gone ? "gone" : "not gone");
    if (look.share_left) add(detail::share_left_text(*look.share_left) + " left");
    if (look.left) add(significant(1000.0 * look.left->in_kilograms(), 4) + " g left");
    if (look.worms) add("worms " + std::string(text(*look.worms)));
    if (look.found) add(*look.found ? "found" : "not found");
    if (look.lost) add("lost");
    if (!look.photo.empty()) add("photo " + look.photo);
    return words;
}

/// A look in words that `read_plot_look` reads back: "plot 3 gone, worms few".
inline std::string text(const PlotLook& look) {
    return "plot " + std::to_string(look.plot) + " " + seen_text(look);
}

}  // namespace feed
