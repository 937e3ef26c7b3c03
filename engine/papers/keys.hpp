// The numbers and letters by which a paper's tables and drawings name the same thing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/findings.hpp"
#include "job/job.hpp"

namespace awlmark::papers {

struct NumberedMark {
  int number = 0;
  const Mark* mark = nullptr;
  std::optional<Point> at_in;
};

// Marks of one spot: one opening shows several layers.
struct Spot {
  Point at_in;
  std::vector<NumberedMark> marks;
  std::string label;  // "3-6", "3, 7"
};

// Marks in the job's order, numbered from 1.
std::vector<NumberedMark> numbered(const Job& job);
std::vector<Spot> spots_of(const std::vector<NumberedMark>& marks);

// Where a photograph was taken: its own place, else that of its reading or opening.
std::optional<Point> photo_place(const Job& job, const Photo& photo);

// A, B, ... Z, AA, ...
std::string letter_of(std::size_t index);
// What a drawing calls a support, a fixture or the like: its id when short, else kind and count.
std::string drawing_name(const std::string& id, const std::string& prefix, std::size_t index);

// The layer that the plan of the report shows: the structural deck when it has a field, else the
// lowest layer that has one. Nothing without a field.
const survey::LayerField* main_field(const Job& job, const survey::Survey& survey);
bool usable(const survey::GridFindings& grid, const survey::LayerField& field);
const floor::Option* chosen_option(const Findings& findings);
// The layer's words for people: its id with what it is.
std::string layer_title(const Job& job, const std::string& id);
// The same inside a sentence: "deck (tongue-and-groove plank)".
std::string layer_plain(const Job& job, const std::string& id);

}  // namespace awlmark::papers
