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
    /// The least and the most it may weigh, as shares of wet_mass, where the amount as said leaves
    /// it open ("a bucket", "1-2 kg"); 1 for a weight.
    double low_share = 1.0;
    double high_share = 1.0;
};

}  // namespace feed
