#pragma once
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/feed_file.hpp"
#include "reading.hpp"

namespace feed::io {

/// What is done to a feedstock, in order; nothing: as the table describes it.
using Preparations = std::vector<Preparation>;

/// The feedstocks and containers that the names of one file can mean: the keeper's own first, then
/// the table. Looks each name up once and notes what was taken for granted.
class Pantry {
public:
    Pantry(Reading& reading, FeedFile& file) : reading_(reading), file_(file) {}

    /// The feedstock that the words mean, prepared. Reports unknown names at `at`.
    std::shared_ptr<const Feedstock> find(YamlView at, const std::string& field,
                                          std::string_view words, const Preparations& preparations);
    /// An amount with a unit or a container; reports problems.
    std::optional<Amount> amount(YamlView at, const std::string& field, std::string_view text);
    /// What stands for an amount of a name: a piece of a list of things ("4", "celery sticks").
    feed::detail::ThingText piece(const Amount& amount, std::string_view words) const;
    /// A text that is one thing with its amount ("coffee grounds 1.2 kg"), as lists of things are
    /// read; nothing where it is none.
    std::optional<feed::detail::ThingText> one_piece(std::string_view text) const;
    /// A piece weighed as a list of things is; notes how a measure became a mass. Reports problems.
    std::optional<ReadThing> weigh(YamlView at, const std::string& field,
                                   const feed::detail::ThingText& piece,
                                   std::shared_ptr<const Feedstock> feedstock);
    /// The portions of one entry: a text of one thing or several ("3 apples and a cup of coffee"),
    /// or a mapping with feedstock, amount and preparation.
    std::vector<WrittenPortion> portion(YamlView at, const std::string& field);
    /// A list of portions.
    std::vector<WrittenPortion> portions(YamlView at, const std::string& field);
    /// The preparations named by a node: one text, parted by commas, or a list.
    Preparations preparations(std::optional<YamlView> at, const std::string& field);

    /// Notes what was taken for granted, each sentence once; `of_words` where it is what a word of
    /// the keeper's was taken for.
    void assume(std::string text, Grade grade, bool of_words = false);
    /// A name whose definition has problems: looking it up gives nothing and reports nothing more.
    void excuse(std::string_view name);
    /// The keeper's words of this file.
    KeeperWords words() const { return {file_.containers, file_.own_feedstocks, file_.words}; }

    Reading& reading() noexcept { return reading_; }

private:
    std::vector<WrittenPortion> portions_of(YamlView at, const std::string& field,
                                            std::string_view text);
    /// Notes what was taken for granted of a thing.
    void assume_of(const ReadThing& thing);
    WrittenPortion portion_of(ReadThing thing);
    /// One feedstock for each material and preparation of the file.
    std::shared_ptr<const Feedstock> shared(std::shared_ptr<const Feedstock> feedstock);

    Reading& reading_;
    FeedFile& file_;
    std::map<std::pair<std::string, Preparations>, std::shared_ptr<const Feedstock>> found_;
    std::map<std::string, Errors> failed_;  ///< names that nothing has, looked up once
    std::map<std::pair<std::string, std::string>, std::shared_ptr<const Feedstock>> shared_;
    std::set<std::string> excused_;
};

/// "blend: entry 3".
std::string entry_field(std::string_view section, std::size_t number);

}  // namespace feed::io
