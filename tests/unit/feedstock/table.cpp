// Properties that every row of the embedded table must have.
#include <cmath>
#include <cstdint>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "catch2.hpp"
#include "feed/feedstock/generated/table.hpp"
#include "feed/feedstock/plausible.hpp"

namespace table = feed::table;
using feed::Grade;
using feed::Property;

namespace {

const table::Value* value_of(const table::Feedstock& row, Property property) {
    for (std::size_t i = 0; i < row.value_count; ++i) {
        const auto& value = table::values[row.first_value + i];
        if (value.property == property) return &value;
    }
    return nullptr;
}

bool is_method(std::string_view method, std::string_view start) {
    return method.substr(0, start.size()) == start;
}

}  // namespace

TEST_CASE("slices of a feedstock lie one after another and fill the arrays") {
    std::size_t values = 0;
    std::size_t measures = 0;
    for (const auto& row : table::feedstocks) {
        CAPTURE(row.id);
        CHECK(row.first_value == values);
        CHECK(row.first_measure == measures);
        values += row.value_count;
        measures += row.measure_count;
    }
    CHECK(values == table::values.size());
    CHECK(measures == table::measures.size());
}

TEST_CASE("ids are sorted, unique, lower case") {
    std::string_view last;
    for (const auto& row : table::feedstocks) {
        const std::string_view id = row.id;
        CAPTURE(id);
        CHECK(last < id);
        CHECK(id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") ==
              std::string_view::npos);
        CHECK_FALSE(std::string_view(row.name).empty());
        last = id;
    }
}

TEST_CASE("every value lies in its range and in the hard range of its property") {
    for (const auto& row : table::feedstocks) {
        std::set<Property> seen;
        Property last{};
        for (std::size_t i = 0; i < row.value_count; ++i) {
            const auto& value = table::values[row.first_value + i];
            const auto& kind = feed::kind(value.property);
            CAPTURE(row.id, std::string(kind.key));
            CHECK(value.low <= value.value);
            CHECK(value.value <= value.high);
            CHECK(kind.lowest <= value.low);
            CHECK(value.high <= kind.highest);
            CHECK(seen.insert(value.property).second);
            CHECK((i == 0 || last < value.property));
            last = value.property;
        }
    }
}

TEST_CASE("every citation exists, names known sources and fits its grade") {
    std::set<std::string_view> known;
    for (const auto& source : table::sources)
        known.insert(source.id);
    for (const auto& value : table::values) {
        REQUIRE(value.citation < table::citations.size());
        REQUIRE(value.range_citation < table::citations.size());
        const std::string_view method = table::citations[value.citation].method;
        CAPTURE(std::string(method));
        const bool exact = method == "read" || method == "definition";
        CHECK((value.grade == Grade::a) == exact);
        if (method == "recalled") CHECK(value.grade == Grade::c);
        if (is_method(method, "judgement")) CHECK(value.grade == Grade::d);
        if (is_method(table::citations[value.range_citation].method, "judgement"))
            CHECK(value.range_grade == Grade::d);
    }
    for (const auto& citation : table::citations) {
        std::string_view rest = citation.sources;
        CAPTURE(citation.sources);
        REQUIRE_FALSE(rest.empty());
        while (!rest.empty()) {
            const auto blank = rest.find(' ');
            const auto word = rest.substr(0, blank);
            CHECK(known.count(word.substr(0, word.find(':'))) == 1);
            rest = blank == std::string_view::npos ? std::string_view{} : rest.substr(blank + 1);
        }
    }
}

TEST_CASE("carbon over nitrogen is C:N within 5 %, and carbon is plausible") {
    int compared = 0;
    for (const auto& row : table::feedstocks) {
        CAPTURE(row.id);
        const auto* carbon = value_of(row, Property::carbon_dry);
        const auto* nitrogen = value_of(row, Property::nitrogen_dry);
        const auto* ratio = value_of(row, Property::cn_ratio);
        const auto* ash = value_of(row, Property::ash_dry);
        if (ratio != nullptr && carbon != nullptr && nitrogen != nullptr) {
            CHECK(std::abs(carbon->value / nitrogen->value / ratio->value - 1.0) < 0.05);
            ++compared;
        }
        const bool measured_ash = ash != nullptr && ash->grade != Grade::d;
        if (carbon != nullptr)
            CHECK(feed::carbon_is_plausible(carbon->value, measured_ash ? ash->value : 0.0));
    }
    CHECK(compared > 300);
}

TEST_CASE("pool shares add up to one where a material decays") {
    int rows = 0;
    for (const auto& row : table::feedstocks) {
        CAPTURE(row.id);
        const auto* labile = value_of(row, Property::labile_share);
        const auto* cellulosic = value_of(row, Property::cellulosic_share);
        const auto* lignin_like = value_of(row, Property::lignin_like_share);
        REQUIRE((labile == nullptr) == (cellulosic == nullptr));
        REQUIRE((labile == nullptr) == (lignin_like == nullptr));
        if (labile == nullptr) {
            const auto* carbon = value_of(row, Property::carbon_dry);
            CHECK((row.decay_class == feed::DecayClass::inert || carbon == nullptr));
            continue;
        }
        ++rows;
        CHECK(labile->value + cellulosic->value + lignin_like->value ==
              feed_test::Approx(1.0).margin(1e-12));
        CHECK(labile->grade == Grade::d);
    }
    CHECK(rows > 300);
}

TEST_CASE("soft scraps and absorbent paper are gone in three weeks, stalks and wood are not") {
    // Rates per day at 25 C, a fifth lower at 22 C; gone is at most 15 % of the volatile solids.
    const auto left = [](std::string_view id) {
        for (const auto& row : table::feedstocks) {
            if (id != row.id) continue;
            const double days = 21.0 * 0.8;
            return value_of(row, Property::labile_share)->value * std::exp(-0.22 * days) +
                   value_of(row, Property::cellulosic_share)->value * std::exp(-0.07 * days) +
                   value_of(row, Property::lignin_like_share)->value * std::exp(-0.014 * days);
        }
        return -1.0;
    };
    for (const auto* id : {"banana-peel", "apple-pomace", "lettuce-leaf", "watermelon-rind",
                           "potato-peel", "carrot", "zucchini", "rice-cooked", "paper-towel"}) {
        CAPTURE(id);
        CHECK(left(id) > 0.0);
        CHECK(left(id) <= 0.15);
    }
    for (const auto* id : {"broccoli-stalk", "corn-stalks-dry", "straw-wheat", "leaves-mixed",
                           "cardboard-corrugated", "newspaper", "sawdust-oak", "wood-chips-dry",
                           "avocado-skin-stone", "coir-pith"}) {
        CAPTURE(id);
        CHECK(left(id) > 0.20);
    }
}

TEST_CASE("aliases are sorted and each feedstock has one") {
    std::set<std::uint16_t> named;
    std::string_view last;
    std::uint8_t next_rank = 0;
    for (const auto& alias : table::aliases) {
        const std::string_view text = alias.text;
        CAPTURE(alias.text);
        REQUIRE(alias.feedstock < table::feedstocks.size());
        CHECK(last <= text);
        next_rank = text == last ? static_cast<std::uint8_t>(next_rank + 1) : std::uint8_t{0};
        CHECK(alias.rank == next_rank);
        // A word with one meaning names no part; of a word with several, each part is named.
        if (alias.rank > 0) CHECK_FALSE(std::string_view(alias.part).empty());
        CHECK(text.find_first_of("-ABCDEFGHIJKLMNOPQRSTUVWXYZ()") == std::string_view::npos);
        CHECK(text.find("  ") == std::string_view::npos);
        named.insert(alias.feedstock);
        last = text;
    }
    CHECK(named.size() == table::feedstocks.size());
}

TEST_CASE("measures are positive and a slice of them has no doubles") {
    for (const auto& row : table::feedstocks) {
        std::set<feed::Measure> seen;
        for (std::size_t i = 0; i < row.measure_count; ++i) {
            const auto& measure = table::measures[row.first_measure + i];
            CAPTURE(row.id);
            CHECK(measure.wet_grams > 0.0);
            CHECK(measure.citation < table::citations.size());
            CHECK(seen.insert(measure.measure).second);
        }
    }
}

TEST_CASE("what harms is marked: stance, cautions and amounts go together") {
    const auto has = [](const table::Feedstock& row, feed::Caution caution) {
        return (row.cautions & static_cast<std::uint32_t>(caution)) != 0;
    };
    int refused = 0;
    for (const auto& row : table::feedstocks) {
        CAPTURE(row.id);
        CHECK(row.roles != 0);
        if (row.stance == feed::Stance::avoid) ++refused;
        if (has(row, feed::Caution::pet_waste) || has(row, feed::Caution::lime_dust))
            CHECK(row.stance != feed::Stance::feed);
        if (row.group == feed::Group::guarded) CHECK(row.stance != feed::Stance::feed);
        if (row.group == feed::Group::manures) CHECK(has(row, feed::Caution::treated_manure));
        const bool barred = row.stance == feed::Stance::avoid;
        if (row.most_wet_grams_per_kg_worms > 0.0) {
            CHECK(row.stance_pre_composted != feed::Stance::avoid);
            CHECK_FALSE(std::string_view(row.most_reason).empty());
        }
        CHECK(std::string_view(row.why_barred).empty() != barred);
        CHECK(std::string_view(row.instead).empty() != barred);
        CHECK(row.most_citation < table::citations.size());
    }
    CHECK(refused > 20);
}

TEST_CASE("definitional zeros are stored for water, minerals, paper and dry leaves") {
    const auto exact_zero = [](std::string_view id, Property property) {
        for (const auto& row : table::feedstocks) {
            if (id != row.id) continue;
            const auto* value = value_of(row, property);
            return value != nullptr && value->low == 0.0 && value->high == 0.0 &&
                   value->grade == Grade::a;
        }
        return false;
    };
    for (const auto property :
         {Property::carbon_dry, Property::nitrogen_dry, Property::ash_dry,
          Property::titratable_acidity_wet, Property::fat_dry, Property::sodium_wet})
        CHECK(exact_zero("water-tap", property));
    for (const auto* id : {"limestone-ground", "sand", "gypsum", "biochar", "hydrated-lime"}) {
        CAPTURE(id);
        CHECK(exact_zero(id, Property::carbon_dry));
        CHECK(exact_zero(id, Property::nitrogen_dry));
    }
    for (const auto* id : {"newspaper", "paper-office", "cardboard-corrugated", "leaves-mixed",
                           "sawdust-softwood", "wood-chips-dry"}) {
        CAPTURE(id);
        CHECK(exact_zero(id, Property::titratable_acidity_wet));
    }
}

TEST_CASE("British and American names, plurals and household words find their feedstock") {
    const auto id_of = [](std::string_view text) -> std::string_view {
        for (const auto& alias : table::aliases) {
            if (text == alias.text && alias.rank == 0) return table::feedstocks[alias.feedstock].id;
        }
        return "";
    };
    const std::pair<const char*, const char*> names[] = {
        {"courgette", "zucchini"},
        {"zucchini", "zucchini"},
        {"aubergine", "eggplant"},
        {"rocket", "lettuce-leaf"},
        {"arugula", "lettuce-leaf"},
        {"swede", "rutabaga"},
        {"coriander", "cilantro"},
        {"kitchen roll", "paper-towel"},
        {"paper towels", "paper-towel"},
        {"cardboard", "cardboard-corrugated"},
        {"card", "cardboard-corrugated"},
        {"newsprint", "newspaper"},
        {"shredded office paper", "paper-office"},
        {"printer paper", "paper-office"},
        {"coco coir", "coir-pith"},
        {"coconut fibre", "coir-pith"},
        {"coconut fiber", "coir-pith"},
        {"spent coffee", "coffee-grounds"},
        {"used coffee grounds", "coffee-grounds"},
        {"tea bags", "tea-bag-paper"},
        {"egg shells", "eggshell-crushed"},
        {"spring onions", "onion-green"},
        {"scallion", "onion-green"},
        {"crisps", "potato-chips"},
        {"maize meal", "corn-meal"},
        {"leaf mold", "leaf-mould"},
        {"kitchen scraps", "fruit-veg-byproduct"},
        {"dog poo", "pet-waste"},
        {"quicklime", "hydrated-lime"},
        {"garden lime", "limestone-ground"},
        // The word decides the part: a fruit is the whole fruit unless peel or core is said.
        {"apple", "apple-whole"},
        {"apples", "apple-whole"},
        {"pear", "pear-core"},
        {"banana", "banana-whole"},
        {"orange", "orange-whole"},
        {"melons", "cantaloupe-whole"},
        {"pineapple", "pineapple-whole"},
        {"avocado", "avocado-whole"},
        {"egg", "eggshell-crushed"},
    };
    for (const auto& [name, id] : names) {
        CAPTURE(name);
        CHECK(id_of(name) == id);
    }
}
