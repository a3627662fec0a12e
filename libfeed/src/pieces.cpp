#include "pieces.hpp"

#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::io {

std::vector<std::string_view> pieces_of(std::string_view text) {
    std::vector<std::string_view> pieces;
    std::size_t start = 0;
    const auto cut = [&](std::size_t end, std::size_t next) {
        const auto piece = detail::trim(text.substr(start, end - start));
        if (!piece.empty()) pieces.push_back(piece);
        start = next;
    };
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool between_digits = at > 0 && at + 1 < text.size() &&
                                    detail::is_digit(text[at - 1]) &&
                                    detail::is_digit(text[at + 1]);
        if ((text[at] == ',' && !between_digits) || text[at] == ';') {
            cut(at, at + 1);
        } else if (text[at] == ' ' && text.size() >= at + 5 && text[at + 4] == ' ' &&
                   plain_text(text.substr(at + 1, 3)) == "and") {
            cut(at, at + 5);
        } else if (text.substr(at, 3) == " & ") {
            cut(at, at + 3);
        }
    }
    cut(text.size(), text.size());
    return pieces;
}

std::vector<std::string> sentences_of_words(const std::vector<std::string>& words) {
    std::vector<std::string> sentences;
    bool joining = false;
    for (const std::string& word : words) {
        const bool single = word.find(' ') == std::string::npos;
        if (single && joining)
            sentences.back() += " " + word;
        else
            sentences.push_back(word);
        joining = single;
    }
    return sentences;
}

std::vector<std::string> pieces_of_words(const std::vector<std::string>& words) {
    std::vector<std::string> pieces;
    for (const std::string& sentence : sentences_of_words(words))
        for (const std::string_view piece : pieces_of(sentence))
            pieces.emplace_back(piece);
    return pieces;
}

}  // namespace feed::io
