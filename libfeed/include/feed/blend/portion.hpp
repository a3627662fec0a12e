#pragma once
#include <memory>

#include "feed/feedstock/feedstock.hpp"

namespace feed {

/// An amount of a feedstock. The feedstock is shared and immutable, already prepared (chopped,
/// drained
/// ...): preparation changes the feedstock, see feedstock/preparation.hpp.
struct Portion {
    std::shared_ptr<const Feedstock> feedstock;
    WetMass wet_mass;
};

}  // namespace feed
