#pragma once
#include <string_view>

#include "feed/feedstock/classes.hpp"
#include "feed/feedstock/property.hpp"

// The words of the classes of feedstocks in files and answers.
namespace feed::io {

constexpr std::string_view text(Group group) noexcept {
    switch (group) {
        case Group::scraps:
            return "scraps";
        case Group::beddings:
            return "beddings";
        case Group::manures:
            return "manures";
        case Group::amendments:
            return "amendments";
        case Group::water:
            return "water";
        case Group::guarded:
            return "guarded";
    }
    return "";
}

constexpr std::string_view text(Stance stance) noexcept {
    switch (stance) {
        case Stance::feed:
            return "feed";
        case Stance::feed_little:
            return "feed little";
        case Stance::avoid:
            return "avoid";
    }
    return "";
}

constexpr std::string_view text(DecayClass decay_class) noexcept {
    switch (decay_class) {
        case DecayClass::inert:
            return "inert";
        case DecayClass::fast:
            return "fast";
        case DecayClass::medium:
            return "medium";
        case DecayClass::slow:
            return "slow";
        case DecayClass::very_slow:
            return "very slow";
    }
    return "";
}

constexpr std::string_view text(Role role) noexcept {
    switch (role) {
        case Role::scraps:
            return "scraps";
        case Role::bedding:
            return "bedding";
        case Role::amendment:
            return "amendment";
        case Role::water:
            return "water";
    }
    return "";
}
inline constexpr Role all_roles[] = {Role::scraps, Role::bedding, Role::amendment, Role::water};

constexpr std::string_view text(Basis basis) noexcept {
    switch (basis) {
        case Basis::none:
            return "none";
        case Basis::wet:
            return "wet";
        case Basis::dry:
            return "dry";
        case Basis::volatile_solids:
            return "volatile solids";
    }
    return "";
}

}  // namespace feed::io
