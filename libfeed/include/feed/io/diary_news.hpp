#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "feed/diary/calibration.hpp"
#include "feed/diary/diary.hpp"
#include "feed/io/feed_file.hpp"

namespace feed::io {

/// What a diary teaches, with its newest entry if one was added.
struct DiaryNews {
    std::string added;             ///< the lines added, or ""
    std::size_t observations = 0;  ///< entries now
    std::string look_back;         ///< how the newest look compares with what was expected, or ""
    std::string trial;             ///< how far the trial is that the newest look is of, or ""
    std::vector<std::string> own_feeds;  ///< how fast feeds go here, by an *alone* trial
    Calibration before;                  ///< without the newest entry
    Calibration calibration;             ///< with everything
    std::vector<std::string> misfits;
    std::vector<std::string> slips;
    std::string test_first;  ///< what to ask before the next feeding, by the newest look, or ""
};

/// The news of a diary. newest_is_new: its last observation was just added, so that `before` is
/// what the diary said without it; else before and after are alike. Threads: pure.
DiaryNews news_of(const Diary& diary, bool newest_is_new);

/// The same of a file, with what its trial adds. added: the lines of the newest entry, or "".
DiaryNews news_of(const FeedFile& file, bool newest_is_new, std::string added = "");

}  // namespace feed::io
