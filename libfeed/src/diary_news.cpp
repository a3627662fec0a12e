#include "feed/io/diary_news.hpp"

#include <utility>

#include "feed/diary/look_back_on.hpp"
#include "feed/diary/seen.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/ration/signs.hpp"

namespace feed::io {

DiaryNews news_of(const Diary& diary, bool newest_is_new) {
    DiaryNews news;
    news.observations = diary.observations.size();
    news.calibration = calibrate(diary);
    if (newest_is_new) {
        Diary earlier = diary;
        earlier.observations.pop_back();
        news.before = calibrate(earlier);
    } else {
        news.before = news.calibration;
    }
    for (const auto& misfit : news.calibration.misfits)
        news.misfits.push_back(misfit.text);
    for (const auto& unused : news.calibration.unused)
        news.misfits.push_back(unused.text);
    for (const auto& slip : slips_of(diary))
        news.slips.push_back(slip.text);
    if (diary.observations.empty()) return news;
    const Observation& newest = diary.observations.back();
    if (!newest.left && !newest.share_gone && newest.gone == FoodGone::unsaid) return news;
    if (const auto expected = look_back_on(diary, newest))
        news.look_back =
            close_look_back(expected->said, newest, expected->scraps_fed, expected->all_left).text;
    return news;
}

namespace {

/// Rats, maggots or liquid in the tray change no ration, and are no reason to feed unconcerned: the
/// test and the step are those of the signs. "" where they are harmless.
std::string test_of_guests(const Observation& newest) {
    if (newest.pests.empty()) return "";
    const auto signs = read_signs(newest.pests);
    if (!signs || causes_of(*signs).harmless) return "";
    return "Before you feed, ask what to test and do: feed signs " + newest.pests + ".";
}

}  // namespace

DiaryNews news_of(const FeedFile& file, bool newest_is_new, std::string added) {
    DiaryNews news = news_of(file.diary, newest_is_new);
    if (newest_is_new && !file.diary.observations.empty())
        news.test_first = test_of_guests(file.diary.observations.back());
    // What was noted is no look: what an earlier one found is not told again.
    if (!newest_is_new && !added.empty()) news.look_back.clear();
    news.added = std::move(added);
    if (newest_is_new) news.trial = trial_progress(file);
    for (const OwnFeed& own : file.own_feeds)
        news.own_feeds.push_back(own_feed_text(own));
    return news;
}

}  // namespace feed::io
