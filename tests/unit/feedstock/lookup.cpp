#include "feed/feedstock/lookup.hpp"

#include <algorithm>
#include <set>
#include <string>

#include "catch2.hpp"

using feed::look_up;

namespace {

std::string id_of(std::string_view words) {
    const auto found = look_up(words);
    CAPTURE(words);
    REQUIRE(found);
    return found->feedstock->id;
}

}  // namespace

TEST_CASE("the table tells its version and the hash of its data") {
    CHECK(std::count(feed::table_version().begin(), feed::table_version().end(), '.') == 2);
    CHECK(feed::table_content_hash().size() == 64);
    CHECK(feed::table_content_hash().find_first_not_of("0123456789abcdef") ==
          std::string_view::npos);
}

TEST_CASE("every feedstock is found by its id and by its name") {
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        CAPTURE(feed::feedstock_id(i));
        REQUIRE(feed::find_id(feed::feedstock_id(i)) == i);
        const auto by_id = look_up(feed::feedstock_id(i));
        REQUIRE(by_id);
        CHECK(by_id->feedstock->id == feed::feedstock_id(i));
        const auto by_name = look_up(feed::feedstock_name(i));
        REQUIRE(by_name);
        CHECK(by_name->feedstock->id == feed::feedstock_id(i));
    }
}

TEST_CASE("every alias finds its feedstock, or the first part it names") {
    for (const auto& alias : feed::table::aliases) {
        CAPTURE(alias.text);
        const auto found = look_up(alias.text);
        REQUIRE(found);
        if (alias.rank == 0)
            CHECK(found->feedstock->id == feed::feedstock_id(alias.feedstock));
        else
            CHECK(!found->alternatives.empty());
    }
}

TEST_CASE("a stored feedstock carries its values with sources") {
    const auto feedstock = feed::feedstock_at(*feed::find_id("apple-flesh"));
    const auto& moisture = feedstock[feed::Property::moisture_wet];
    REQUIRE(moisture);
    CHECK(moisture->value == 0.856);  // USDA SR26, record 09003: 85.56 g water in 100 g
    CHECK(moisture->sources.find("USDA-SR26") != std::string_view::npos);
    CHECK(feed::find_source("USDA-SR26") != nullptr);
    CHECK(feed::find_source("no such source") == nullptr);
    CHECK_FALSE(feed::find_id("no such feedstock"));
}

TEST_CASE("case, number, hyphens, order of words and punctuation do not matter") {
    CHECK(id_of("Coffee Grounds") == "coffee-grounds");
    CHECK(id_of("coffee-ground") == "coffee-grounds");
    CHECK(id_of("  coffee_grounds. ") == "coffee-grounds");
    CHECK(id_of("banana peels") == "banana-peel");
    CHECK(id_of("peel of a banana") == "banana-peel");
    CHECK(id_of("banana with peel") == "banana-whole");
    CHECK(id_of("Banana, peel") == "banana-peel");
    CHECK(id_of("shredded office paper") == "paper-office");
    CHECK(id_of("old newspapers") == "newspaper");
}

TEST_CASE("a fruit with several parts takes the part that is usually fed and says so") {
    const auto apple = look_up("apple");
    REQUIRE(apple);
    CHECK(apple->feedstock->id == "apple-pomace");
    CHECK(apple->part == "core");
    CHECK(apple->alternatives.size() >= 2);
    CHECK(apple->said.find("core") != std::string::npos);
    CHECK(apple->said.find("whole") != std::string::npos);
    CHECK(look_up("apples")->feedstock->id == "apple-pomace");
    CHECK(look_up("chopped apples")->feedstock->id == "apple-pomace");
    CHECK(look_up("coffee grounds")->said.empty());
}

TEST_CASE("an unknown name gets the nearest ones") {
    const auto nearest = [](std::string_view words) {
        const auto found = look_up(words);
        CAPTURE(words);
        REQUIRE_FALSE(found);
        const auto& error = found.errors().front();
        CHECK(error.code == feed::ErrorCode::unknown_feedstock);
        CHECK(error.value == words);
        return error.allowed;
    };
    CHECK(nearest("bananna peal").find("Banana peel") == 0);
    CHECK(nearest("cofee").find("Coffee grounds") == 0);
    CHECK(nearest("cofee grounds").find("Coffee grounds") == 0);
    CHECK(nearest("tomatos crates").find("Tomato") != std::string::npos);
    CHECK(nearest("shredded cardbord").find("ardboard") != std::string::npos);
    const auto names = nearest("letuce");
    CHECK(std::count(names.begin(), names.end(), ';') <= 4);
    CHECK(look_up("xyzzyq").errors().front().allowed.find("of your own") != std::string::npos);
    CHECK(look_up(" ").errors().front().code == feed::ErrorCode::empty);
}

TEST_CASE("search finds by any words and lists the table without words") {
    CHECK(feed::search("").size() == feed::feedstock_count());
    const auto paper = feed::search("paper");
    CHECK(paper.size() >= 4);
    CHECK(std::any_of(paper.begin(), paper.end(),
                      [](const auto& c) { return c.id == "paper-office"; }));
    const auto both = feed::search("office paper");
    CHECK(both.size() < paper.size());
    CHECK(feed::search("xyzzyq").empty());
}
