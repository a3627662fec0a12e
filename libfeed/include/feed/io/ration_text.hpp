#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/human_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/ration/ration.hpp"

namespace feed::io {

/// The keeper's measure of something that goes in, with the weight beside it: "2 handfuls, about
/// 170 g"; "a pinch" of a lime or grit that nobody weighs. Threads: pure.
std::string measure_of(const PutIn& put, UnitSystem units);

/// The same with what it is: "2 handfuls, about 170 g of shredded cardboard". Threads: pure.
std::string material_text(const PutIn& put, UnitSystem units);

/// "Sat 5 Dec", "Dec 5" for those who read US units; "in 3 days", "tomorrow" where no date is
/// known.
/// @param days  from the day of the ration, 0 or more.
std::string day_words(const std::optional<Date>& today, int days, UnitSystem units);
/// The month of a day, short: "Mar".
std::string_view month_word(const Date& date) noexcept;

/// The first screen of a ration: what to take out, then what to do, what to put in, cover and next
/// look, at most two reasons, the cautions that bind today and what is worth weighing. One thought
/// a line, in the keeper's own measures. Where the room is too small what matters least goes; what
/// to do and what can hurt always stay. Threads: pure.
/// @param file  of the bin, as it is typed: then what to note is told (see done_text).
std::vector<ScreenLine> ration_screen(const Ration& ration, UnitSystem units,
                                      ScreenRoom room = first_screen, std::string_view file = "");
/// Their texts alone.
std::vector<std::string> ration_lines(const Ration& ration, UnitSystem units,
                                      ScreenRoom room = first_screen, std::string_view file = "");

/// The same as one text, wrapped, ending in a line feed.
std::string ration_text(const Ration& ration, UnitSystem units, ScreenRoom room = first_screen,
                        std::string_view file = "");

/// What to type once a ration was followed: "Done? Write: feed note tote.yaml fed 400 g apples,
/// bedding 30 g cardboard, added water 1 L". So what was asked for is not asked for again. Empty
/// where nothing goes in or the bin has no file. Threads: pure.
/// @param file  as it is typed; "" or "-" for none.
std::string done_text(const Ration& ration, UnitSystem units, std::string_view file);

/// The lines of a ration that comes before other work on its bed, and behind them that the work
/// waits: "Harvest" and "when the bed is well again." Threads: pure.
std::vector<std::string> lines_before_work(const Ration& ration, std::string_view work,
                                           UnitSystem units, ScreenRoom room,
                                           std::vector<ScreenLine> between = {});

/// The first line of a ration: "Feed it: 300 g of scraps today.", "Wait. Feed nothing until Fri 4
/// Dec.", "Feed it without the garden lime: 300 g of scraps today." Threads: pure.
std::string headline(const Ration& ration, UnitSystem units);
/// What was asked about and stays out: lime, ash, shell, grit or a drink that is not wanted, and,
/// where no other scraps were named, what worms bear next to nothing of. Threads: pure.
std::vector<std::string> left_out_lines(const Ration& ration);

/// "Never feed bacon: it rots, stinks and draws flies and rats."
std::string never_text(const TakeOut& one);
/// So many that are never fed are refused in a sentence each; of more the names alone are told.
inline constexpr std::size_t most_refused_alone = 2;
/// What is never fed: a sentence each with why, or the names, five a sentence. Threads: pure.
std::vector<std::string> never_lines(std::span<const TakeOut> out);
/// What is never fed, with why and where with it; `tight` names five a line and nothing more.
/// @param instead_rank  of the lines that say where with it. Threads: pure.
std::vector<ScreenLine> take_out_lines(std::span<const TakeOut> out, bool tight, int instead_rank);
/// Where with it: "Instead: the food waste bin or household waste."
std::string instead_text(const TakeOut& one);
/// That a file feeds what is barred otherwise, and why it is.
std::string lifted_text(const std::string& label, const Feedstock& feedstock);
/// The step for a bed that no bedding, water or lime mends at once. Static storage.
std::string_view step_by_hand(Hazard hazard);
/// What should be seen on the day of the next look.
std::string expect_text(const Ration& ration, UnitSystem units);
/// One sentence for a reason.
std::string reason_text(const Reason& reason, const Ration& ration, UnitSystem units);
/// One sentence for what is worth measuring.
std::string weigh_text(const WorthMeasuring& worth);
/// Where the food goes.
std::string lay_text(const Ration& ration);

}  // namespace feed::io
