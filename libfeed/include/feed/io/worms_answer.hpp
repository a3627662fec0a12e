#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/ration/bin_size.hpp"
#include "feed/ration/household_scraps.hpp"
#include "feed/ration/worm_census.hpp"

// How many worms: for the scraps of a week, in a bin now and later, and by a census.
namespace feed::io {

/// Most people, meals or cups that are taken for one answer.
inline constexpr int most_of_household = 100000;

/// What is asked of worms, in words; "" where nothing is said.
struct WormsAsked {
    std::optional<FeedFile> file;     ///< of a bin
    BinWords bin;                     ///< without a file; a container makes it a bin that stands
    std::vector<std::string> scraps;  ///< of a week: "2 kg apples, 500 g coffee grounds a week"
    std::string people;
    std::string meals;   ///< a day, for all
    std::string coffee;  ///< cups a day
    std::string census;  ///< worms in each sample: "12, 30, 7, 18"
    std::string sample;  ///< size of each, and of the bed where no file tells: "2 L of 40 L"
    std::optional<Date> today;
    UnitSystem units = UnitSystem::metric;
};

/// What worms there are, are to be, and will be.
struct WormsAnswer {
    std::optional<HouseholdScraps> expected;
    std::optional<CensusInput> counted;  ///< with `census`
    std::optional<WormCensus> census;
    std::optional<BinNow> bin;     ///< of a file, or of a container that was said
    std::optional<WormNeed> need;  ///< without one: for the scraps of a week
    std::vector<Assumption> assumed;
    UnitSystem units = UnitSystem::metric;
};

/// Answers `feed worms`. Errors: those of the words, with the name of the member as field;
/// missing_value where nothing is asked, a census has no sample or no bed; contradiction for people
/// and meals together. Threads: pure. Time: a ration and 10 ms.
Result<WormsAnswer> worms_of(const WormsAsked& asked);

/// The first screen. @param file  name of the file, for the note it asks for; "" leaves it out.
std::vector<std::string> worms_lines(const WormsAnswer& answer, std::string_view file,
                                     ScreenRoom room = first_screen);
/// What is behind it: scraps by kind, worms month by month, rules and sources.
std::string worms_why(const WormsAnswer& answer);
/// The answer in JSON.
std::string to_json(const WormsAnswer& answer);

}  // namespace feed::io
