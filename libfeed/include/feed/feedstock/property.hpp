#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace feed {

/// A property of a feedstock. The basis and the unit of the stored number are fixed by the property
/// (see `property_kinds`); every fraction is kg per kg, never per cent.
enum class Property : std::uint8_t {
    moisture_wet,
    carbon_dry,
    nitrogen_dry,
    cn_ratio,
    ash_dry,
    lignin_dry,
    fat_dry,
    protein_wet,
    fat_wet,
    carbohydrate_wet,
    fibre_wet,
    ph,
    titratable_acidity_wet,
    organic_acids_wet,
    neutralising_value_wet,
    sodium_wet,
    potassium_wet,
    electrical_conductivity,
    bulk_density_loose,
    bulk_density_settled,
    water_holding_capacity_dry,
    refuse_wet,
    labile_share,
    cellulosic_share,
    lignin_like_share,
};
inline constexpr std::size_t property_count = 25;

/// What the stored number of a property is relative to.
enum class Basis : std::uint8_t { none, wet, dry, volatile_solids };

/// The fixed facts of one property: its key in files, basis, unit of the stored number and hard
/// range.
struct PropertyKind {
    Property property;
    std::string_view key;
    Basis basis;
    std::string_view unit;  ///< unit of the stored number
    double lowest;          ///< smallest number that can be true
    double highest;         ///< largest number that can be true
    std::string_view meaning;
};

/// Every property in the order of the enumeration.
inline constexpr std::array<PropertyKind, property_count> property_kinds{{
    {Property::moisture_wet, "moisture", Basis::wet, "kg/kg", 0, 1, "water in the wet mass"},
    {Property::carbon_dry, "carbon", Basis::dry, "kg/kg", 0, 1,
     "organic carbon in the dry mass, without carbonate and biochar carbon"},
    {Property::nitrogen_dry, "nitrogen", Basis::dry, "kg/kg", 0, 0.5,
     "total nitrogen in the dry mass"},
    {Property::cn_ratio, "cn_ratio", Basis::none, "kg/kg", 0, 100000, "carbon to nitrogen by mass"},
    {Property::ash_dry, "ash", Basis::dry, "kg/kg", 0, 1, "ash in the dry mass"},
    {Property::lignin_dry, "lignin", Basis::dry, "kg/kg", 0, 1, "lignin in the dry mass"},
    {Property::fat_dry, "fat", Basis::dry, "kg/kg", 0, 1, "crude fat in the dry mass"},
    {Property::protein_wet, "protein", Basis::wet, "kg/kg", 0, 1, "crude protein in the wet mass"},
    {Property::fat_wet, "fat_fresh", Basis::wet, "kg/kg", 0, 1, "crude fat in the wet mass"},
    {Property::carbohydrate_wet, "carbohydrate", Basis::wet, "kg/kg", 0, 1,
     "carbohydrate by difference, fibre included, in the wet mass"},
    {Property::fibre_wet, "fibre", Basis::wet, "kg/kg", 0, 1, "dietary fibre in the wet mass"},
    {Property::ph, "ph", Basis::none, "pH", 0, 14, "pH of the material or of its water extract"},
    {Property::titratable_acidity_wet, "titratable_acidity", Basis::wet, "kg citric/kg", 0, 1,
     "acid titrated to pH 8.2, as citric acid, in the wet mass"},
    {Property::organic_acids_wet, "organic_acids", Basis::wet, "kg citric/kg", 0, 1,
     "sum of organic acids as citric equivalents in the wet mass: an upper bound of acidity"},
    {Property::neutralising_value_wet, "neutralising_value", Basis::wet, "kg CaCO3/kg", 0, 2,
     "acid neutralised, as calcium carbonate, by the mass as it is"},
    {Property::sodium_wet, "sodium", Basis::wet, "kg/kg", 0, 0.4, "sodium in the wet mass"},
    {Property::potassium_wet, "potassium", Basis::wet, "kg/kg", 0, 0.6,
     "potassium in the wet mass"},
    {Property::electrical_conductivity, "electrical_conductivity", Basis::none, "dS/m", 0, 300,
     "electrical conductivity of the extract"},
    {Property::bulk_density_loose, "bulk_density", Basis::wet, "kg/m3", 1, 3000,
     "wet mass over volume, loosely filled"},
    {Property::bulk_density_settled, "bulk_density_settled", Basis::wet, "kg/m3", 1, 3000,
     "wet mass over volume, settled"},
    {Property::water_holding_capacity_dry, "water_holding_capacity", Basis::dry, "kg/kg", 0, 30,
     "water held after free drainage by the dry mass"},
    {Property::refuse_wet, "refuse", Basis::wet, "kg/kg", 0, 1,
     "share of the piece as bought that is peel, core or stone"},
    {Property::labile_share, "labile_share", Basis::volatile_solids, "kg/kg", 0, 1,
     "share of the volatile solids that decays like sugar and protein"},
    {Property::cellulosic_share, "cellulosic_share", Basis::volatile_solids, "kg/kg", 0, 1,
     "share of the volatile solids that decays like cellulose"},
    {Property::lignin_like_share, "lignin_like_share", Basis::volatile_solids, "kg/kg", 0, 1,
     "share of the volatile solids that decays like lignin"},
}};

/// The fixed facts of one property. Constant time.
constexpr const PropertyKind& kind(Property property) noexcept {
    return property_kinds[static_cast<std::size_t>(property)];
}

}  // namespace feed
