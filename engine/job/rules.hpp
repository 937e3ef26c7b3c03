// Figures that several rules of the document share.
#pragma once

#include <cstddef>

#include "base/described.hpp"

namespace awlmark::job_rules {

inline constexpr std::size_t kMaxMarks = 2000;
inline constexpr std::size_t kMaxSupports = 300;  // rows counted out
inline constexpr std::size_t kMaxIdChars = 64;
inline constexpr std::size_t kMaxCorners = 200;
inline constexpr std::size_t kTimeChars = 40;
inline constexpr std::size_t kDateChars = 10;
inline constexpr double kFarthest_in = 1e5;
inline const doc::FieldRule kId{.name = "id", .text = "a short text, unique in its list", .required = true, .max_chars = kMaxIdChars};

}  // namespace awlmark::job_rules
