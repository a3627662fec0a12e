// Rows side by side have the bits of one blend after another.
#include "feed/blend/blend_rows.hpp"

#include <cmath>
#include <memory>
#include <random>
#include <vector>

#include "catch2.hpp"
#include "feed/blend/blend.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/table.hpp"

namespace {

using feed::BlendRows;
using feed::Feedstock;
using feed::RowQuantity;
using Shared = std::shared_ptr<const Feedstock>;

/// Room for every quantity of some rows.
struct Room {
    explicit Room(std::size_t rows)
        : numbers(3 * feed::row_quantity_count * rows),
          known(std::make_unique<bool[]>(feed::row_quantity_count * rows)) {
        for (std::size_t q = 0; q < feed::row_quantity_count; ++q) {
            double* first = numbers.data() + 3 * q * rows;
            to[q] = {first, first + rows, first + 2 * rows, known.get() + q * rows};
        }
    }
    std::vector<double> numbers;
    std::unique_ptr<bool[]> known;
    feed::RowOutput to;
};

bool same(double a, double b) {
    return a == b || (std::isnan(a) && std::isnan(b));
}

/// Every quantity of a row against a blend of its own.
void check_row(const std::vector<Shared>& feedstocks, const double* wet_kg, const Room& room,
               std::size_t row) {
    std::vector<feed::Portion> portions;
    for (std::size_t c = 0; c < feedstocks.size(); ++c)
        portions.push_back({feedstocks[c], feed::wet_kilograms(wet_kg[c])});
    const auto one = feed::blend_numbers(portions);
    for (std::size_t q = 0; q < feed::row_quantity_count; ++q) {
        const auto wanted = feed::estimate_of(one, static_cast<RowQuantity>(q));
        const double none = std::nan("");
        const feed::RowArrays& got = room.to[q];
        CAPTURE(q, row);
        CHECK(same(got.value[row], wanted.has_value() ? wanted.value : none));
        CHECK(same(got.low[row], wanted.has_value() ? wanted.low : none));
        CHECK(same(got.high[row], wanted.has_value() ? wanted.high : none));
        CHECK(got.known[row] == wanted.is_known());
    }
}

void check_rows(const std::vector<Shared>& feedstocks, const std::vector<double>& wet_kg) {
    const std::size_t rows = wet_kg.size() / feedstocks.size();
    const auto prepared = BlendRows::of(feedstocks);
    REQUIRE(prepared);
    Room room(rows);
    (*prepared)(wet_kg.data(), 0, rows, room.to);
    for (std::size_t row = 0; row < rows; ++row)
        check_row(feedstocks, wet_kg.data() + row * feedstocks.size(), room, row);
}

Shared row_of(std::size_t place) {
    return std::make_shared<const Feedstock>(feed::feedstock_at(place));
}
Shared named(const char* id) {
    return row_of(*feed::find_id(id));
}

TEST_CASE("every row of the table, eight side by side, in rows with gaps") {
    std::mt19937 numbers(11);
    std::uniform_real_distribution<double> mass(0.0, 3.0);
    std::uniform_int_distribution<int> fifth(0, 4);
    for (std::size_t first = 0; first < feed::feedstock_count(); first += 8) {
        std::vector<Shared> feedstocks;
        for (std::size_t at = first; at < first + 8; ++at)
            feedstocks.push_back(row_of(at % feed::feedstock_count()));
        std::vector<double> wet_kg(41 * feedstocks.size());
        for (double& one : wet_kg)
            one = fifth(numbers) == 0 ? 0.0 : mass(numbers);
        check_rows(feedstocks, wet_kg);
    }
}

TEST_CASE("what is missing in a small part is a lower bound, in a large part unknown") {
    Feedstock gap = *named("carrot");
    gap.id = "gap";
    for (const auto property :
         {feed::Property::moisture_wet, feed::Property::sodium_wet, feed::Property::fat_dry,
          feed::Property::fat_wet, feed::Property::bulk_density_loose})
        gap[property].reset();
    Feedstock no_carbon = *named("coffee-grounds");
    no_carbon.id = "no carbon";
    for (const auto property : {feed::Property::carbon_dry, feed::Property::cn_ratio,
                                feed::Property::ash_dry, feed::Property::lignin_dry})
        no_carbon[property].reset();
    const std::vector<Shared> feedstocks{named("cardboard-corrugated"), named("carrot"),
                                         std::make_shared<const Feedstock>(gap),
                                         std::make_shared<const Feedstock>(no_carbon)};
    check_rows(feedstocks, {1.0, 2.0, 0.0,  0.0,   // everything known
                            1.0, 2.0, 0.1,  0.0,   // a small gap
                            1.0, 2.0, 3.0,  0.0,   // a large one
                            1.0, 2.0, 0.0,  0.05,  // carbon missing in a small part
                            1.0, 2.0, 0.0,  9.0,   // and in a large one
                            1.0, 2.0, 0.05, 0.02});
}

TEST_CASE("rows without mass, without nitrogen and of one portion") {
    check_rows({named("water-tap"), named("limestone-ground"), named("oil-vegetable")},
               {0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0});
}

TEST_CASE("one feedstock in two columns is left to blends one by one") {
    CHECK_FALSE(BlendRows::of(std::vector<Shared>{named("carrot"), named("carrot")}));
    CHECK(BlendRows::of(std::vector<Shared>{named("carrot"), named("water-tap")}));
}

TEST_CASE("only what is wanted is written, and only the rows asked for") {
    const std::vector<Shared> feedstocks{named("carrot"), named("cardboard-corrugated")};
    const std::vector<double> wet_kg{1.0, 0.1, 2.0, 0.3, 3.0, 0.5};
    Room all(3);
    Room some(3);
    for (std::size_t q = 0; q < feed::row_quantity_count; ++q) {
        if (q != static_cast<std::size_t>(RowQuantity::cn_ratio)) some.to[q] = {};
    }
    const auto prepared = BlendRows::of(feedstocks);
    (*prepared)(wet_kg.data(), 0, 3, all.to);
    (*prepared)(wet_kg.data(), 1, 2, some.to);
    const auto at = static_cast<std::size_t>(RowQuantity::cn_ratio);
    CHECK(some.to[at].value[0] == 0.0);
    CHECK(some.to[at].value[1] == all.to[at].value[1]);
    CHECK(some.to[at].high[1] == all.to[at].high[1]);
    CHECK(some.to[at].value[2] == 0.0);
}

}  // namespace
