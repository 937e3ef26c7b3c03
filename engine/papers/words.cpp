#include "papers/words.hpp"

#include <array>
#include <cctype>
#include <cmath>

#include "base/dollars.hpp"
#include "base/length.hpp"
#include "job/dates.hpp"
#include "survey/place_words.hpp"
#include "survey/survey.hpp"

namespace awlmark::papers {
namespace {

struct SpokenChance {
  double up_to;
  std::string_view words;
};

// Bounds lie half way between neighbours, so that no chance is said more than a step from its size.
constexpr std::array<SpokenChance, 15> kChances{{{0.01, "less than 1 chance in 100"},
                                                 {0.035, "about 1 chance in 50"},
                                                 {0.075, "about 1 chance in 20"},
                                                 {0.15, "about 1 chance in 10"},
                                                 {0.225, "about 1 chance in 5"},
                                                 {0.29, "about 1 chance in 4"},
                                                 {0.415, "about 1 chance in 3"},
                                                 {0.585, "about an even chance"},
                                                 {0.71, "about 2 chances in 3"},
                                                 {0.775, "about 3 chances in 4"},
                                                 {0.85, "about 4 chances in 5"},
                                                 {0.925, "about 9 chances in 10"},
                                                 {0.965, "about 19 chances in 20"},
                                                 {0.99, "about 49 chances in 50"},
                                                 {1.01, "more than 99 chances in 100"}}};

std::string with_commas(std::string digits) {
  for (int at = static_cast<int>(digits.size()) - 3; at > 0; at -= 3) digits.insert(static_cast<std::size_t>(at), ",");
  return digits;
}

template <class E>
std::string spoken_word(E value) {
  return spoken_id(doc::word_of(value));
}

}  // namespace

std::string chances(double p) {
  if (!std::isfinite(p)) return "not known";
  for (const auto& row : kChances)
    if (p < row.up_to) return std::string(row.words);
  return std::string(kChances.back().words);
}

std::string in_hundred(double p) { return std::isfinite(p) ? format_number(p * 100, 0) + " in 100" : "not known"; }

std::string square_feet(double sf) {
  if (!std::isfinite(sf)) return "not known";
  return format_number(sf, sf < 9.95 ? 1 : 0) + " sq ft";
}

std::string between_square_feet(double low_sf, double high_sf) {
  if (high_sf < 0.05) return "none";
  const int digits = high_sf < 9.95 ? 1 : 0;
  return "between " + format_number(low_sf, low_sf < 9.95 ? 1 : digits) + " and " + square_feet(high_sf);
}

std::string money(double dollars) { return format_dollars(dollars); }
std::string rough_money(double dollars) { return rough_dollars(dollars); }

std::string figure(double value) {
  if (!std::isfinite(value)) return "not known";
  const double size = std::fabs(value);
  std::string text = format_number(value, size >= 100 ? 0 : size >= 10 ? 1 : size >= 0.1 || size == 0 ? 2 : 4);
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  if (size >= 10000 && value > 0) return with_commas(text);
  return text;
}

std::string pad_words(double sf) { return figure(std::ceil(sf * 10 - 1e-9) / 10) + " sq ft"; }

std::string percent(double share) { return std::isfinite(share) ? format_number(share * 100, 0) + " %" : "not known"; }

std::string count_of(std::size_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string joined(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += i + 1 == items.size() ? " and " : ", ";
    out += items[i];
  }
  return out;
}

std::string sentence_case(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string spoken_id(std::string_view id) {
  std::string out(id);
  for (char& c : out)
    if (c == '_') c = ' ';
  return out;
}

std::string place_words(const Job& job, Point at_in) {
  if (!std::isfinite(at_in.x_in) || !std::isfinite(at_in.y_in)) return "place not known";
  return survey::place_in_words(job, std::nullopt, at_in);
}

PlaceCells place_cells(const Job& job, Point at_in) {
  const Box room = bounds(job.room.outline_in);
  const auto inches = [](double d) { return std::isfinite(d) ? format_length(std::floor(d * 2 + 0.5) / 2) : std::string("not known"); };
  return {inches(at_in.x_in - room.x0_in), inches(at_in.y_in - room.y0_in)};
}

PlaceCells place_heads(const Job& job) {
  const auto walls = survey::measured_from(job, std::nullopt);
  return {"From " + walls.left, "From " + walls.front};
}

std::string date_of(std::string_view time) {
  const bool stamp = time.size() >= 10 && time[4] == '-' && time[7] == '-';
  return std::string(stamp ? time.substr(0, 10) : time);
}

std::string spoken_date(std::string_view time) {
  static constexpr std::array<std::string_view, 12> kMonths{
      {"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}};
  const auto day = day_of(date_of(time));
  if (!day) return std::string(time);
  const auto date = date_of(time);
  return std::string(kMonths[static_cast<std::size_t>(std::stoi(date.substr(5, 2)) - 1)]) + " " + std::to_string(std::stoi(date.substr(8, 2))) + ", " +
         date.substr(0, 4);
}

std::string ratio_words(const Check& check) {
  const bool bends = check.kind.find("deflection") != std::string::npos;
  if (check.state == CheckState::nothing_left) return "fails: nothing is left to carry it";
  if (check.state == CheckState::not_allowed) return "fails: the rule does not allow it";
  if (check.state == CheckState::stands) return "past today's limit (" + format_number(check.ratio, 2) + "), stands as it was: old, sound, not loaded more";
  // Beyond this a figure says no more than the words.
  constexpr double kByFar = 20;
  if (!check.ok && check.ratio > kByFar) return bends ? "fails by far: next to nothing holds it up" : "fails by far: next to nothing is left to carry it";
  if (!check.ok && check.ratio > 1)
    return (bends ? "too limber: bends " : "fails: asked for ") + format_number(check.ratio, 2) +
           (bends ? " times as far as allowed" : " times what it can give");
  if (!check.ok) return "fails the rule";
  if (check.ratio > 1) return "passes the rule";
  if (check.ratio > 0.995) return "holds, with nothing to spare";
  return (bends ? "stiff enough, " : "holds, ") + percent(1 - check.ratio) + " to spare";
}

std::string status_words(SourceStatus status) {
  switch (status) {
    case SourceStatus::read:
      return "read in a copy of the document";
    case SourceStatus::memory:
      return "from memory, check before relying on it";
    case SourceStatus::common_practice:
      return "common practice, no written source";
    case SourceStatus::derived:
      return "worked out from the rule";
  }
  return "";
}

std::string source_words(const Reason& reason) {
  std::string out = reason.source;
  if (!reason.edition.empty()) out += (out.empty() ? "" : " ") + reason.edition;
  if (out.empty()) return sentence_case(status_words(reason.status));
  return out + " (" + status_words(reason.status) + ")";
}

std::string material_words(Material material) {
  switch (material) {
    case Material::plank_tg:
      return "tongue-and-groove plank";
    case Material::board:
      return "square-edged board";
    case Material::osb:
      return "OSB";
    default:
      return spoken_word(material);
  }
}

std::string layer_words(const Layer& layer) {
  std::string out = material_words(layer.material);
  if (layer.thickness_in) out += ", " + (*layer.thickness_in < 0.16 ? format_number(*layer.thickness_in, 2) + "\"" : format_inches(*layer.thickness_in));
  if (layer.face_width_in) out += ", " + format_inches(*layer.face_width_in) + " face";
  if (layer.installed_year) out += ", laid " + std::to_string(*layer.installed_year);
  return out;
}

std::string species_words(Species species) {
  switch (species) {
    case Species::unknown:
      return "species not known";
    case Species::douglas_fir_larch:
      return "Douglas fir-larch";
    case Species::hem_fir:
      return "hem-fir";
    case Species::spruce_pine_fir:
      return "spruce-pine-fir";
    case Species::southern_pine:
      return "southern pine";
    case Species::redwood:
      return "redwood";
  }
  return "species not known";
}

std::string grade_words(Grade grade) {
  switch (grade) {
    case Grade::unknown:
      return "grade not known";
    case Grade::no_1:
      return "no. 1";
    case Grade::no_2:
      return "no. 2";
    case Grade::no_3:
      return "no. 3";
    default:
      return spoken_word(grade);
  }
}

std::string support_words(const Support& support) {
  std::string out = spoken_word(support.role) + " " + (support.size ? section_text(*support.size) : "of size not known");
  return out + ", " + species_words(support.species) + ", " + grade_words(support.grade);
}

std::string fixture_words(FixtureKind kind) { return kind == FixtureKind::other ? "fixture" : spoken_word(kind); }

std::string source_kind_words(SourceKind kind) {
  switch (kind) {
    case SourceKind::unknown:
      return "water, from where is not known";
    case SourceKind::supply_leak:
      return "a leaking supply line";
    case SourceKind::drain_leak:
      return "a leaking drain";
    case SourceKind::seal_leak:
      return "a failed seal";
    case SourceKind::overflow:
      return "an overflow";
    case SourceKind::surface_water:
      return "surface water from outside";
    case SourceKind::condensation:
      return "condensation";
    case SourceKind::roof:
      return "a roof leak";
  }
  return "water";
}

std::string reading_words(const Mark& mark) {
  std::string out = spoken_word(mark.tool) + ": ";
  if (mark.tool == Tool::meter) {
    out += mark.mc_percent ? format_number(*mark.mc_percent, 1) + " % moisture" : "no reading";
  } else {
    out += mark.reads ? spoken_word(*mark.reads) : "no reading";
  }
  if (mark.depth_in) out += ", " + format_inches(*mark.depth_in) + " deep";
  if (mark.width_in) out += ", " + format_inches(*mark.width_in) + " wide";
  return out;
}

std::string finish_words(Finish finish) { return finish == Finish::other ? "finish not chosen" : spoken_word(finish); }

}  // namespace awlmark::papers
