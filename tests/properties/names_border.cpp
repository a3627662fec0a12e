// A near name never crosses the border between what may be fed and what is never fed: every name of
// the table and of the files of names, with every single slip of a letter.
#include <algorithm>
#include <string>
#include <vector>

#include "catch2.hpp"
#include "feed/feedstock/lookup.hpp"
#include "long_forms.hpp"

namespace {

/// Every text that differs by one letter: dropped, doubled, swapped with the next, or another one.
std::vector<std::string> slips_of(const std::string& name) {
    std::vector<std::string> slips;
    for (std::size_t i = 0; i < name.size(); ++i) {
        if (name[i] == ' ') continue;
        slips.push_back(name.substr(0, i) + name.substr(i + 1));
        slips.push_back(name.substr(0, i + 1) + name.substr(i));
        std::string swapped = name;
        if (i + 1 < name.size() && name[i + 1] != ' ' && name[i + 1] != name[i]) {
            std::swap(swapped[i], swapped[i + 1]);
            slips.push_back(swapped);
        }
        std::string other = name;
        other[i] = name[i] == 'e' ? 'a' : 'e';
        slips.push_back(other);
    }
    return slips;
}

struct Count {
    std::size_t slips = 0;
    std::size_t taken = 0;
    std::size_t asked = 0;
    std::string crossed;
    std::size_t crossings = 0;
};

void judge(const std::string& slip, bool barred, Count& count) {
    ++count.slips;
    const auto words = feed::detail::name_words(slip);
    // A slip that is itself a name is that name ("peas" and "peat"), and words that the table knows
    // are those words ("cup paper" and "cut paper").
    if (!feed::detail::match_key(feed::detail::key_of(words)).empty()) return;
    const bool known = std::all_of(words.begin(), words.end(), [](const std::string& word) {
        return feed::detail::is_known_word(word) || !feed::detail::match_key(word).empty();
    });
    if (known) return;
    const auto found = feed::look_up(slip);
    if (found) {
        ++count.taken;
        if ((found->feedstock->stance == feed::Stance::avoid) == barred) return;
        ++count.crossings;
        if (count.crossings <= 40) count.crossed += "\n  " + slip + " -> " + found->feedstock->id;
        return;
    }
    ++count.asked;
    // As near to both sides: then what is barred is named, and nothing else.
    const auto one_letter = feed::detail::one_letter_from(slip);
    if (one_letter.barred && one_letter.harmless) barred = true;
    for (const auto near : feed::nearest_feedstocks(slip, 3)) {
        if (feed::detail::is_barred(near) == barred) continue;
        ++count.crossings;
        if (count.crossings <= 40)
            count.crossed +=
                "\n  " + slip + " -> suggests " + std::string(feed::feedstock_id(near));
        return;
    }
}

}  // namespace

TEST_CASE("a barred word beside a slip of a harmless name is asked about") {
    for (const char* text : {"almnd milk", "oy milk", "alpac poo", "avocdo meat"}) {
        CAPTURE(text);
        CHECK_FALSE(feed::look_up(text));
    }
    for (const char* text : {"almond milk", "alpaca poo"}) {
        CAPTURE(text);
        const auto found = feed::look_up(text);
        REQUIRE(found);
        CHECK(found->feedstock->stance != feed::Stance::avoid);
    }
    for (const char* text : {"bleech", "purple milk", "plastik bag"}) {
        CAPTURE(text);
        const auto found = feed::look_up(text);
        REQUIRE(found);
        CHECK(found->feedstock->stance == feed::Stance::avoid);
    }
}

TEST_CASE("a slip of one letter never crosses the border between harmless and barred") {
    for (const bool barred : {true, false}) {
        Count count;
        for (const auto& language : feed::detail::languages) {
            std::size_t number = 0;
            for (const auto& name : language.names) {
                // A name that can mean several things is asked about as it stands.
                if (feed::detail::names_with_key(language.names, name.key).size() > 1) continue;
                if (feed::detail::is_barred(name.feedstock) != barred) continue;
                if (++number % 4 != 0 && !barred) continue;
                // All of them, every fifth or every twentieth, from another letter on with each
                // name.
                const auto all = slips_of(name.key);
                const std::size_t step =
                    feed_test::draws_all() ? feed_test::how_many<std::size_t>(5, 1) : 20;
                for (std::size_t i = number % step; i < all.size(); i += step)
                    judge(all[i], barred, count);
            }
        }
        CAPTURE(barred, count.slips, count.taken, count.asked, count.crossings);
        INFO(count.crossed);
        CHECK(feed_test::enough(count.slips, 10000));
        CHECK(feed_test::enough(count.taken, 2000));
        CHECK(count.crossings == 0);
    }
}
