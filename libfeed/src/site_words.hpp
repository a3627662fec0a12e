#pragma once
#include <string_view>

// What every page that hangs at a bin says, in words that a ten-year-old reads.
namespace feed::io::site {

inline constexpr std::string_view never_put_in =
    "Meat, fish, bones, cheese, oil, salty food, pet mess, shiny paper, plastic.";
inline constexpr std::string_view wash_hands =
    "Wash your hands with soap when you are done. Cover cuts.";
inline constexpr std::string_view mind_dust =
    "Keep your face away from dust. Do not stir a dry bin.";
inline constexpr std::string_view germs =
    "The bin does not kill germs. Do not put your hands in your mouth.";
inline constexpr std::string_view lime = "Lime is for grown-ups only. Its dust hurts your eyes.";

}  // namespace feed::io::site
