// The enumerators of the C header are those of the core, number by number: the functions cast one
// into the other. Whoever adds one to the core is told here.
#include "feed/balance/balance_answer.hpp"
#include "feed/bed/bed.hpp"
#include "feed/bed/hazard.hpp"
#include "feed/feed.h"
#include "feed/feedstock/part.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/quantity/error.hpp"
#include "feed/ration/ration.hpp"

namespace {

template <class Enumerator>
constexpr bool same(Enumerator core, int c) {
    return static_cast<int>(core) == c;
}

static_assert(same(feed::ErrorCode::failed, FEED_FAILED));
static_assert(same(feed::ErrorCode::out_of_memory, FEED_OUT_OF_MEMORY));
static_assert(same(feed::ErrorCode::percent_slip, FEED_PERCENT_SLIP));
static_assert(same(feed::ErrorCode::duplicate_entry, FEED_DUPLICATE_ENTRY));
static_assert(same(feed::ErrorCode::wrong_version, FEED_WRONG_VERSION));
static_assert(same(feed::ErrorCode::no_amount_fixed, FEED_NO_AMOUNT_FIXED));
static_assert(same(feed::ErrorCode::internal, FEED_INTERNAL));
static_assert(same(feed::ErrorCode::ambiguous_amount, FEED_AMBIGUOUS_AMOUNT));
static_assert(feed::property_count == FEED_LIGNIN_LIKE_SHARE + 1);
static_assert(same(feed::Property::ph, FEED_PH));
static_assert(same(feed::Property::sodium_wet, FEED_SODIUM_WET));
static_assert(same(feed::Property::refuse_wet, FEED_REFUSE_WET));
static_assert(same(feed::Grade::d, FEED_GRADE_D));
static_assert(same(feed::Knowledge::unknown, FEED_UNKNOWN));
static_assert(same(feed::Group::guarded, FEED_GROUP_GUARDED));
static_assert(same(feed::Role::water, FEED_ROLE_WATER));
static_assert(same(feed::Stance::avoid, FEED_STANCE_AVOID));
static_assert(same(feed::DecayClass::very_slow, FEED_DECAY_VERY_SLOW));
static_assert(same(feed::Caution::plastic_film, FEED_CAUTION_PLASTIC_FILM));
static_assert(same(feed::Caution::lime_dust, FEED_CAUTION_LIME_DUST));
static_assert(feed::preparation_count == FEED_PREPARATION_DAMPED + 1);
static_assert(same(feed::Preparation::frozen_thawed, FEED_PREPARATION_FROZEN_THAWED));
static_assert(same(feed::TargetProperty::free_air_space, FEED_TARGET_FREE_AIR_SPACE));
static_assert(same(feed::TargetProperty::water_over_room, FEED_TARGET_WATER_OVER_ROOM));
static_assert(same(feed::Objective::use_up_most, FEED_OBJECTIVE_USE_UP_MOST));
static_assert(same(feed::BalanceStatus::failed, FEED_BALANCE_FAILED));
static_assert(same(feed::ContainerKind::box, FEED_CONTAINER_BOX));
static_assert(same(feed::Drainage::none, FEED_DRAINAGE_NONE));
static_assert(same(feed::Lid::tight, FEED_LID_TIGHT));
static_assert(same(feed::Ventilation::closed, FEED_VENTILATION_CLOSED));
static_assert(same(feed::Species::eudrilus_eugeniae, FEED_SPECIES_EUDRILUS_EUGENIAE));
static_assert(same(feed::WormsKnown::as_bought, FEED_WORMS_AS_BOUGHT));
static_assert(same(feed::Squeeze::pooling, FEED_SQUEEZE_POOLING));
static_assert(feed::hazard_count == FEED_HAZARD_COLD + 1);
static_assert(same(feed::Hazard::overfed, FEED_HAZARD_OVERFED));
static_assert(same(feed::Level::unknown, FEED_LEVEL_UNKNOWN));
static_assert(feed::ration_answer_words.size() == FEED_RATION_FEED + 1);
static_assert(same(feed::RationAnswer::wait, FEED_RATION_WAIT));
static_assert(same(feed::RationAnswer::feed, FEED_RATION_FEED));
static_assert(same(feed::Part::amendment, FEED_PART_AMENDMENT));
static_assert(same(feed::Part::poured_water, FEED_PART_POURED_WATER));

}  // namespace
