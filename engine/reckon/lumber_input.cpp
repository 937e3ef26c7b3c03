#include "reckon/lumber_input.hpp"

namespace awlmark::reckon {

void check_grade(mechanics::Use use, Grade grade, Problems& problems) {
  if (grade == Grade::unknown || mechanics::has_grade(use, grade)) return;
  std::vector<std::string> held;
  for (const Grade g : {Grade::select_structural, Grade::no_1, Grade::no_2, Grade::no_3, Grade::decking_select, Grade::decking_commercial})
    if (mechanics::has_grade(use, g)) held.push_back(doc::word_of(g));
  problems.push_back({"grade", "is " + doc::word_of(grade) + ", which the table for " + doc::spoken(use) + " does not hold",
                      "use one of " + doc::a_list(held) + ", or unknown"});
}

mechanics::Section check_size(const SectionSize& size, Problems& problems) {
  constexpr double kLeast_in = 0.25, kMost_in = 40;
  const auto fits = [](double side) { return side >= kLeast_in && side <= kMost_in; };
  if (!fits(size.b_in) || !fits(size.d_in))
    problems.push_back({"size", "is not a piece of lumber: each side must be between 1/4 and 40 in.", "give a nominal size such as \"2x8\", or b_in and d_in"});
  return mechanics::section_from(size);
}

}  // namespace awlmark::reckon

namespace awlmark::doc {

void Custom<reckon::Edition>::read(const Json& json, const std::string& at, reckon::Edition& value, Problems& problems) {
  constexpr int kFirst = 1991, kLast = 2030;  // the tables begin with the design values of 1991
  int year = 0;
  if (json.is_number_integer()) {
    const auto number = json.get<std::int64_t>();
    year = number >= 0 && number < 100000 ? static_cast<int>(number) : 0;
  } else if (json.is_string()) {
    const auto& text = json.get_ref<const std::string&>();
    if (text.size() == 4 && text.find_first_not_of("0123456789") == std::string::npos)
      for (const char c : text) year = 10 * year + (c - '0');
  } else {
    return wrong_kind(json, at, "the year of a code edition such as \"2018\"", problems);
  }
  if (year < kFirst || year > kLast)
    problems.push_back({at, "is " + kind_of(json) + ", which is not a code edition", "give its year, \"1991\" to \"2030\"; \"2018\" when left out"});
  else
    value.year = year;
}

Json Custom<reckon::Edition>::schema(SchemaBuilder&) {
  return {{"type", "string"}, {"description", "year of the code edition, default \"2018\"; up to 2012 the older design values"}};
}

}  // namespace awlmark::doc
