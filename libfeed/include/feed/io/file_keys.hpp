#pragma once
#include <array>
#include <cstddef>
#include <string_view>

// Every key of a feed file, by the mapping it stands in. The reader refuses any other key; the
// schema (data/schema/feed-file.schema.json) lists the same ones, and a test compares the two.
namespace feed::io::keys {

using Key = std::string_view;

// How much of each a file may hold: beyond what any keeper writes, and so little that the time and
// memory of an answer stay bounded.
inline constexpr std::size_t most_portions = 1000;      ///< in one blend or feeding
inline constexpr std::size_t most_at_hand = 200;        ///< entries of a balance
inline constexpr std::size_t most_entries = 10000;      ///< of feedings, and of observations
inline constexpr std::size_t most_feedstocks = 1000;    ///< of the keeper's own
inline constexpr std::size_t most_containers = 1000;    ///< of the keeper's own
inline constexpr std::size_t most_temperatures = 4000;  ///< daily ones, ten years

inline constexpr std::array<Key, 15> file{
    "libfeed", "kind",    "title", "group",        "units",    "containers", "words", "feedstocks",
    "blend",   "balance", "bed",   "observations", "feedings", "trial",      "stock"};
inline constexpr std::array<Key, 3> portion{"feedstock", "amount", "preparation"};
inline constexpr std::array<Key, 3> balance{"at_hand", "targets", "objective"};
inline constexpr std::array<Key, 6> entry{"feedstock", "amount", "preparation",
                                          "use_up",    "cost",   "usual"};
inline constexpr std::array<Key, 12> targets{"set",
                                             "cn_ratio",
                                             "moisture",
                                             "acid",
                                             "salt",
                                             "fat",
                                             "free_air_space",
                                             "total_mass",
                                             "total_volume",
                                             "bedding_for_scraps",
                                             "water_over_least",
                                             "water_over_room"};
inline constexpr std::array<Key, 3> window{"low", "high", "aim"};
inline constexpr std::array<Key, 16> bed{"date",
                                         "container",
                                         "depth_of_contents",
                                         "drainage",
                                         "lid",
                                         "ventilation",
                                         "species",
                                         "worms",
                                         "temperature",
                                         "bedding",
                                         "squeeze",
                                         "moisture",
                                         "ph",
                                         "lime",
                                         "age",
                                         "own_feeding_rate"};
inline constexpr std::array<Key, 6> container{"kind",  "inside", "diameter",
                                              "depth", "volume", "stacked"};
inline constexpr std::array<Key, 3> worms{"weight", "count", "known"};
/// Of an entry of `observations`; the writer of the diary (observation_text.hpp) uses the same.
inline constexpr std::array<Key, 24> observation{
    "date",          "by",      "of_feeding",  "left",    "share_gone", "gone",
    "worms",         "vigour",  "worm_weight", "squeeze", "moisture",   "pooling",
    "smell",         "ph",      "temperature", "air_low", "air_high",   "weight_in",
    "running_total", "bedding", "pests",       "action",  "note",       "plots"};
inline constexpr std::array<Key, 15> trial{"kind",     "question", "feeds",   "bins",    "portions",
                                           "rounds",   "blank",    "portion", "seed",    "start",
                                           "last_day", "looks",    "laid_by", "changed", "prior"};
inline constexpr std::array<Key, 5> stock{"date", "portions", "taken", "container", "by"};
/// Of a bin of a trial that is unlike the first.
inline constexpr std::array<Key, 4> trial_bin{"name", "bed", "feedings", "observations"};
inline constexpr std::array<Key, 4> feeding{"date", "portions", "by", "note"};
inline constexpr std::array<Key, 33> feedstock{"like",
                                               "nutrition_label",
                                               "laboratory_report",
                                               "note",
                                               "roles",
                                               "stance",
                                               "decay_class",
                                               "cautions",
                                               "measures",
                                               "moisture",
                                               "carbon",
                                               "nitrogen",
                                               "cn_ratio",
                                               "ash",
                                               "lignin",
                                               "fat",
                                               "protein",
                                               "fat_fresh",
                                               "carbohydrate",
                                               "fibre",
                                               "ph",
                                               "titratable_acidity",
                                               "organic_acids",
                                               "neutralising_value",
                                               "sodium",
                                               "potassium",
                                               "electrical_conductivity",
                                               "bulk_density",
                                               "bulk_density_settled",
                                               "water_holding_capacity",
                                               "labile_share",
                                               "cellulosic_share",
                                               "lignin_like_share"};
inline constexpr std::array<Key, 3> value{"value", "low", "high"};
inline constexpr std::array<Key, 13> nutrition_label{
    "per",    "protein", "fat",           "carbohydrate", "carbohydrate_has_fibre",
    "sugars", "fibre",   "water",         "ash",          "salt",
    "sodium", "food",    "protein_factor"};
inline constexpr std::array<Key, 7> laboratory_report{
    "basis", "moisture", "carbon", "nitrogen", "cn_ratio", "ash", "volatile_solids"};

}  // namespace feed::io::keys
