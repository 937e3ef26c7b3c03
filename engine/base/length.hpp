// Lengths as people write them, in feet, inches and sixteenths, and back.
//
// Reads: 7' 4 1/2"   7'-4 1/2"   7-4 1/2   88.5   88 1/2"   4 1/2 in   7 ft 4 in   2.25 m   12 cm   19 mm   -3/4
// `7-4 1/2` is seven feet, four and a half inches. A number alone is inches.
// Writes: 7' 4 1/2", to the nearest sixteenth; a negative length starts with a minus.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace awlmark {

inline constexpr double kInchesPerMetre = 1.0 / 0.0254;

// Inches, or nothing when the text is not a length (also on overflow, and past 1e6 in.).
std::optional<double> parse_length_in(std::string_view text);

// Feet, inches and sixteenths: 88.5 -> 7' 4 1/2", 5.5 -> 5 1/2", 0 -> 0".
std::string format_length(double length_in);

// Inches and sixteenths only: 88.5 -> 88 1/2".
std::string format_inches(double length_in);

// A decimal number with a fixed count of digits, the same on every target; no exponent, no locale.
std::string format_number(double value, int digits);

}  // namespace awlmark
