#pragma once
#include <cstdlib>
#include <string>
#include <string_view>

#include "catch2.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/trial_answer.hpp"

// Files of trials as tests read them.
namespace feed_test {

/// The file in a text; the test fails where it cannot be read.
inline feed::io::FeedFile read_file(const std::string& text) {
    const auto file = feed::io::read_feed_text(text, "bin.yaml");
    if (!file) FAIL(feed::io::errors_text(file.errors()));
    return *file;
}

/// The plan of a file with fewer trials drawn for its power: what is asked of it here does not hang
/// on the last points. With FEED_TRIAL_TABLES=all as many as a keeper's plan draws.
inline feed::Result<feed::io::TrialPlan> plan_of(const feed::io::FeedFile& file) {
    const char* const said = std::getenv("FEED_TRIAL_TABLES");
    const bool all = said != nullptr && std::string_view(said) == "all";
    constexpr std::size_t few = 300;
    return feed::io::trial_plan_of(file, feed::io::UnitSystem::metric, {},
                                   all ? feed::power_trials : few);
}

/// The first problem of a text that must not be read.
inline feed::Error first_problem(const std::string& text) {
    const auto file = feed::io::read_feed_text(text, "bin.yaml");
    REQUIRE_FALSE(file);
    return file.errors()[0];
}

/// Whether words stand in a text; a check that fails then shows it.
inline bool has(const std::string& text, std::string_view words) {
    INFO(text);
    return text.find(words) != std::string::npos;
}

}  // namespace feed_test
