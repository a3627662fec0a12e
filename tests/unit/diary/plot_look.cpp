#include "feed/diary/plot_look.hpp"

#include "catch2.hpp"
#include "feed/diary/plot_history.hpp"

using feed::PlotLook;
using feed::read_plot_look;
using feed_test::Approx;

namespace {

PlotLook one(std::string_view words) {
    const auto looks = read_plot_look(words);
    INFO(words);
    REQUIRE(looks);
    REQUIRE(looks->size() == 1);
    return looks->front();
}

std::string refused(std::string_view words) {
    const auto looks = read_plot_look(words);
    INFO(words);
    REQUIRE_FALSE(looks);
    REQUIRE(looks.errors().size() == 1);
    CHECK(looks.errors()[0].value == words);
    CHECK_FALSE(looks.errors()[0].allowed.empty());
    return looks.errors()[0].message;
}

std::vector<std::size_t> numbers(std::string_view words) {
    const auto looks = read_plot_look(words);
    INFO(words);
    REQUIRE(looks);
    std::vector<std::size_t> list;
    for (const auto& look : *looks)
        list.push_back(look.plot);
    return list;
}

}  // namespace

TEST_CASE("a look at a plot is read as people write it") {
    CHECK(one("plot 3 gone").gone == true);
    CHECK(one("plot 3 gone").plot == 3);
    CHECK(one("3 not gone").gone == false);
    CHECK(one("Plot 2 half left").share_left == 0.5);
    CHECK(one("plot 2 a quarter left").share_left == 0.25);
    CHECK(one("plot 2 three quarters left").share_left == 0.75);
    CHECK(one("plot 2 3/4 left").share_left == 0.75);
    CHECK(one("plot 2 none left").share_left == 0.0);
    CHECK(one("plot 2 left all").share_left == 1.0);
    CHECK(*one("plot 2 30 % left").share_left == Approx(0.3));
    CHECK(*one("plot 2 30% left").share_left == Approx(0.3));
    CHECK(one("plot 2 80 g left").left->in_kilograms() == Approx(0.08));
    CHECK(one("2 80 g left").left->in_kilograms() == Approx(0.08));
    CHECK(*one("plot 2 a quarter gone").share_left == Approx(0.75));
    CHECK(*one("plot 2 20 % eaten").share_left == Approx(0.8));
    CHECK(one("plot 2 untouched").share_left == 1.0);
    CHECK(one("plot 2 eaten").gone == true);
    CHECK(one("plot 2 all gone").share_left == 0.0);
    CHECK(one("plot 4 worms few").worms == feed::WormsOnIt::few);
    CHECK(one("plot 4 many worms").worms == feed::WormsOnIt::many);
    CHECK(one("plot 4 no worms").worms == feed::WormsOnIt::none);
    CHECK(one("plot 4 not found").found == false);
    CHECK(one("plot 4 lost").lost);
}

TEST_CASE("several things and several plots are read at once") {
    const auto look = one("plot 12 worms many, half left, photo IMG_0031.JPG");
    CHECK(look.worms == feed::WormsOnIt::many);
    CHECK(look.share_left == 0.5);
    CHECK(look.photo == "IMG_0031.JPG");
    CHECK(numbers("plots 1-6 worms few") == std::vector<std::size_t>{1, 2, 3, 4, 5, 6});
    CHECK(numbers("plots 1 to 3 gone") == std::vector<std::size_t>{1, 2, 3});
    CHECK(numbers("plots 1, 2 and 5 gone") == std::vector<std::size_t>{1, 2, 5});
    CHECK(numbers("plots 1-2 and 7-8 not gone") == std::vector<std::size_t>{1, 2, 7, 8});
}

TEST_CASE("a decimal comma is an amount, other commas part numbers") {
    CHECK(one("plot 3 12,5 g left").left->in_kilograms() == Approx(0.0125));
    CHECK(one("plot 3 left 12,5 g").plot == 3);
    CHECK(numbers("plots 1,2,5 gone") == std::vector<std::size_t>{1, 2, 5});
    CHECK(numbers("plots 1-3,7 not gone") == std::vector<std::size_t>{1, 2, 3, 7});
    CHECK(numbers("plots 1 - 3 gone") == std::vector<std::size_t>{1, 2, 3});
    CHECK(numbers("plots 1\xE2\x80\x93"
                  "3 gone") == std::vector<std::size_t>{1, 2, 3});
}

TEST_CASE("the words of a form and of a sentence are taken alike") {
    CHECK(one("plot 3 is gone.").gone == true);
    CHECK(one("plot 3: gone: no").gone == false);
    CHECK(one("plot 3 gone yes").gone == true);
    CHECK(one("plot 3 found: no").found == false);
    const auto both = one("plot 3 gone, no worms");
    CHECK(both.gone == true);
    CHECK(both.worms == feed::WormsOnIt::none);
    CHECK(refused("plot 3 gone no, gone yes").find("two things") != std::string::npos);
}

TEST_CASE("what cannot be is refused with the words and what is allowed") {
    CHECK(refused("gone").find("number of a plot") != std::string::npos);
    CHECK(refused("plot 3").find("what was seen") != std::string::npos);
    CHECK(refused("plot 3 vanished").find("vanished") != std::string::npos);
    CHECK(refused("plot 0 gone").find("from 1") != std::string::npos);
    CHECK(refused("plots 6-1 gone").find("smaller to the larger") != std::string::npos);
    CHECK(refused("plot 3 gone, half left").find("which is it") != std::string::npos);
    CHECK(refused("plot 3 none left, not gone").find("which is it") != std::string::npos);
    CHECK(refused("plot 3 worms few, not found").find("which is it") != std::string::npos);
    CHECK(refused("plot 3 gone not gone").find("two things") != std::string::npos);
    CHECK(refused("plot 3 some gone").find("some") != std::string::npos);
    CHECK(refused("plot 3 half gone, gone").find("which is it") != std::string::npos);
    CHECK(refused("plot 3 some left").find("some") != std::string::npos);
    CHECK(refused("plot 3 photo").find("missing") != std::string::npos);
    CHECK(refused("plot 3 2 L left").find("2 l") != std::string::npos);
    CHECK(refused("").find("number") != std::string::npos);
    CHECK(refused("plots 1 to").find("to") != std::string::npos);
}

TEST_CASE("the words of a look read back as the look") {
    for (const char* words :
         {"plot 3 gone", "plot 3 not gone", "plot 2 half left, worms few", "plot 2 30 % left",
          "plot 9 80 g left, found", "plot 4 lost", "plot 1 worms none, photo A.jpg"}) {
        const std::string again = feed::text(one(words));
        CHECK(again == words);
        CHECK(feed::text(one(again)) == again);
    }
}

TEST_CASE("a look tells whether a plot is gone and found, or says nothing") {
    CHECK(feed::gone_at(one("plot 1 10 % left")) == true);
    CHECK(feed::gone_at(one("plot 1 half left")) == false);
    CHECK(feed::gone_at(one("plot 1 80 g left")) == false);
    CHECK_FALSE(feed::gone_at(one("plot 1 worms few")));
    CHECK(feed::found_at(one("plot 1 worms few")) == true);
    CHECK(feed::found_at(one("plot 1 worms none")) == false);
    CHECK(feed::found_at(one("plot 1 gone")) == true);
    CHECK_FALSE(feed::found_at(one("plot 1 half left")));
}

TEST_CASE("more left than before is asked back") {
    std::vector<feed::Observation> seen(3);
    seen[0].date = {2026, 3, 20};
    seen[0].plots = {one("plot 3 half left"), one("plot 4 gone")};
    seen[1].date = {2026, 3, 18};  // written later, seen before
    seen[1].plots = {one("plot 3 a quarter left"), one("plot 4 half left")};
    seen[2].date = {2026, 3, 22};
    seen[2].plots = {one("plot 4 not gone"), one("plot 5 half left")};
    const auto questions = feed::plot_questions(seen);
    REQUIRE(questions.size() == 2);
    CHECK(text(questions[0]) ==
          "Plot 3: on 2026-03-18 \"a quarter left\", on 2026-03-20 \"half left\". More left than "
          "before: which look is right?");
    CHECK(questions[0].before.observation == 1);
    CHECK(questions[0].now.observation == 0);
    CHECK(text(questions[1]).find("Plot 4: on 2026-03-20") == 0);
    seen.pop_back();
    seen[0].plots[0] = one("plot 3 a quarter left");
    CHECK(feed::plot_questions(seen).empty());
}

TEST_CASE("a look that says nothing of the rest does not hide an earlier one that does") {
    std::vector<feed::Observation> seen(3);
    seen[0].date = {2026, 3, 18};
    seen[0].plots = {one("plot 3 a quarter left"), one("plot 4 gone"), one("plot 5 40 g left")};
    seen[1].date = {2026, 3, 19};
    seen[1].plots = {one("plot 3 worms few"), one("plot 4 worms few"), one("plot 5 found")};
    seen[2].date = {2026, 3, 20};
    seen[2].plots = {one("plot 3 half left"), one("plot 4 half left"), one("plot 5 60 g left")};
    CHECK(feed::plot_questions(seen).size() == 3);
}
