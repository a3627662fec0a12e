#pragma once
#include <cstddef>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

namespace feed::io {

/// How much a screen may hold: printed lines of 80 columns, and words parted by blanks.
struct ScreenRoom {
    std::size_t lines = 12;
    std::size_t words = 110;
};

/// What a tired keeper reads at once.
inline constexpr ScreenRoom first_screen{};
/// Room for everything, behind --why.
inline constexpr ScreenRoom whole_screen{std::numeric_limits<std::size_t>::max(),
                                         std::numeric_limits<std::size_t>::max()};

/// One thought of a screen. Blanks before it indent it.
struct ScreenLine {
    std::string text;
    int rank = 0;          ///< 0 stays, whatever the room; of the others the highest goes first
    bool goes_in = false;  ///< it names food to put in, and how much
};

/// The lines that fit, in their order: where there is no room the line of the highest rank goes, of
/// equals the last, and so on. Lines of rank 0 all stay, and so may take more than the room. Empty
/// lines are left out. Threads: pure.
std::vector<ScreenLine> fitting_lines(std::vector<ScreenLine> lines, ScreenRoom room);
/// Their texts alone.
std::vector<std::string> fitting(std::vector<ScreenLine> lines, ScreenRoom room);
std::vector<std::string> texts_of(std::vector<ScreenLine> lines);

/// What lines take of a room.
ScreenRoom taken_by(const std::vector<std::string>& lines);
/// What is left of a room after some lines; never below 0.
ScreenRoom left_of(ScreenRoom room, const std::vector<std::string>& lines);

/// The lines of `make(false)` that fit; where even those that stay do not, of `make(true)`, which
/// says the same tightly.
template <class Make>
std::vector<ScreenLine> fitting_or_tight(Make&& make, ScreenRoom room) {
    std::vector<ScreenLine> lines = fitting_lines(make(false), room);
    const ScreenRoom taken = taken_by(texts_of(lines));
    if (taken.lines <= room.lines && taken.words <= room.words) return lines;
    return fitting_lines(make(true), room);
}

/// Words parted by blanks. Threads: pure.
std::size_t words_in(std::string_view text) noexcept;

/// The lines as one text, each wrapped at 80 columns, ending in a line feed.
std::string screen_text(const std::vector<std::string>& lines);

/// A text cut into its sentences, each to stand on a line of its own.
std::vector<std::string> sentences_of(const std::string& text);

}  // namespace feed::io
