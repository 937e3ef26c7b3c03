// What several topics about lumber take: the code edition, and checks of species, grade and size.
#pragma once

#include <string>

#include "base/doc.hpp"
#include "job/job.hpp"
#include "mechanics/design_values.hpp"

namespace awlmark::reckon {

// Year of the code whose design values are meant: "2018" or 2018.
struct Edition {
  int year = mechanics::kEdition;
};

// Problems when a grade does not exist in the table of that use (a decking grade for a joist), or
// when the size is no lumber; `at` are the keys.
void check_grade(mechanics::Use use, Grade grade, Problems& problems);
// The size as a section; problems when it is out of any range.
mechanics::Section check_size(const SectionSize& size, Problems& problems);

}  // namespace awlmark::reckon

namespace awlmark::doc {
template <>
struct Custom<reckon::Edition> {
  static void read(const Json& json, const std::string& at, reckon::Edition& value, Problems& problems);
  static Json write(const reckon::Edition& value) { return std::to_string(value.year); }
  static Json schema(SchemaBuilder& builder);
};
}  // namespace awlmark::doc
