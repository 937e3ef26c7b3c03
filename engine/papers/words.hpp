// How papers say figures: chances, areas, money, ratios and dates, in plain words.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/geometry.hpp"
#include "base/reason.hpp"
#include "job/job.hpp"

namespace awlmark::papers {

// "about 3 chances in 4", "less than 1 chance in 100"; "not known" for NaN.
std::string chances(double p);
// "40 in 100".
std::string in_hundred(double p);
// "8.2 sq ft", "16 sq ft".
std::string square_feet(double sf);
// "between 8.2 and 16 sq ft"; "none" when both ends round to nothing.
std::string between_square_feet(double low_sf, double high_sf);
// "$6,400"; whole dollars. `rough` rounds to two or three figures, for prose.
std::string money(double dollars);
std::string rough_money(double dollars);
// A number without needless decimals: 1.25, 12.3, 140.
std::string figure(double value);
std::string pad_words(double sf);  // "0.5 sq ft": rounded up to tenths, a pad is never cut short
std::string percent(double share);
// "3 marks", "1 mark".
std::string count_of(std::size_t count, std::string_view one, std::string_view many);
// "a, b and c".
std::string joined(const std::vector<std::string>& items);
std::string sentence_case(std::string text);  // first letter in upper case
// An id of the document as words: underscores become blanks.
std::string spoken_id(std::string_view id);
// "3' 2" from wall west and 4' 1" from wall south": the one way in which a place is said.
std::string place_words(const Job& job, Point at_in);
// The same in two cells: the distances, and what they are measured from for the heads of a table.
struct PlaceCells {
  std::string from_left;
  std::string from_front;
};
PlaceCells place_cells(const Job& job, Point at_in);
PlaceCells place_heads(const Job& job);  // "From wall west", "From wall south"
// The date part of a time stamp, or the text itself when it is not one.
std::string date_of(std::string_view time);
// "May 11, 2026"; the text itself when it is no date.
std::string spoken_date(std::string_view time);
// "holds, 28 % to spare", "fails: asked for 1.33 times what it has".
std::string ratio_words(const Check& check);
// "read", "from memory", ... as an inspector reads it.
std::string status_words(SourceStatus status);
// "NDS 2018 (read in a copy of the document)".
std::string source_words(const Reason& reason);

std::string material_words(Material material);
std::string layer_words(const Layer& layer);  // "plank deck, 1 1/2", 5 1/2" face"
std::string species_words(Species species);   // "species not known"
std::string grade_words(Grade grade);
std::string support_words(const Support& support);  // "joist 2x8, douglas fir-larch no. 2"
std::string fixture_words(FixtureKind kind);
std::string source_kind_words(SourceKind kind);
std::string reading_words(const Mark& mark);  // "awl: gone, 3/4" deep", "meter: 27.5 %"
std::string finish_words(Finish finish);

}  // namespace awlmark::papers
