#include "papers/drawing/section.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "papers/drawing/dimension.hpp"
#include "papers/drawing/symbols.hpp"
#include "papers/keys.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

constexpr double kUsualDepth_in = 7.25;
constexpr double kUsualBreadth_in = 1.5;
constexpr double kPostShown_in = 8;
constexpr double kLabelColumn_pt = 196;
constexpr double kLabelStep_pt = 12;
constexpr std::size_t kLabelChars = 30;

// One member where the section meets it.
struct CutMember {
  const DrawnMember* member = nullptr;
  std::size_t index = 0;
  double across_in = 0;   // of its centre
  double along_in = 0;    // from its own first end
  double breadth_in = 0;
  double depth_in = 0;
};

double across_of(const Framing& framing, Point p) { return framing.run_along_y ? p.x_in : p.y_in; }
double along_of(const Framing& framing, Point p) { return framing.run_along_y ? p.y_in : p.x_in; }

std::vector<CutMember> members_at(const Framing& framing, double station_in) {
  std::vector<CutMember> cut;
  for (std::size_t i = 0; i < framing.members.size(); ++i) {
    const auto& line = framing.members[i].line;
    const double a = along_of(framing, line.from_in), b = along_of(framing, line.to_in);
    if (a == b || (station_in - a) * (station_in - b) > 0) continue;
    const double share = (station_in - a) / (b - a);
    const auto p = point_along(line.from_in, line.to_in, share * distance_in(line.from_in, line.to_in));
    cut.push_back({&framing.members[i], i, across_of(framing, p), share * distance_in(line.from_in, line.to_in), line.b_in > 0 ? line.b_in : kUsualBreadth_in, line.d_in > 0 ? line.d_in : kUsualDepth_in});
  }
  std::stable_sort(cut.begin(), cut.end(), [](const CutMember& a, const CutMember& b) { return a.across_in < b.across_in - 1e-9; });
  return cut;
}

// Stretches of the station line inside a ring, as places across the members.
std::vector<std::pair<double, double>> spans_inside(const Framing& framing, const Polygon& ring, double station_in) {
  std::vector<double> crossings;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto& a = ring[i];
    const auto& b = ring[(i + 1) % ring.size()];
    const double u = along_of(framing, a) - station_in, v = along_of(framing, b) - station_in;
    if ((u > 0) == (v > 0)) continue;
    crossings.push_back(across_of(framing, a) + (across_of(framing, b) - across_of(framing, a)) * u / (u - v));
  }
  std::sort(crossings.begin(), crossings.end());
  std::vector<std::pair<double, double>> spans;
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) spans.emplace_back(crossings[i], crossings[i + 1]);
  return spans;
}

struct Note {
  double z_in;      // where the leader points
  double across_in;
  std::string text;
};

class SectionPainter {
 public:
  SectionPainter(const std::string& name, const std::string& title, const Job& job, const Framing& framing, const SectionCut& cut, bool rebuilt, const floor::Option* option)
      : job_(job), framing_(framing), cut_(cut), rebuilt_(rebuilt), option_(option), members_(members_at(framing, cut.station_in)), canvas_(make(name, title)) {}

  Drawing draw() {
    define_hatches(canvas_.out(), canvas_.name());
    if (rebuilt_) draw_rebuilt_layers();
    else draw_found_layers();
    for (const auto& member : members_) draw_member(member);
    draw_ends();
    write_notes();
    draw_chains();
    const auto box = canvas_.plan_box();
    draw_scale_bar(canvas_, {box.x0, canvas_.height_pt() - 18}, box.x1 - box.x0 + 100);
    return {canvas_.svg(), canvas_.scale(), canvas_.space().labels(), canvas_.notes()};
  }

 private:
  static double total_in(const Job& job) {
    double total = 0;
    for (const auto& layer : job.layers) total += std::max(0.0, awlmark::thickness_in(layer));
    return total;
  }

  Canvas make(const std::string& name, const std::string& title) {
    double deepest = kUsualDepth_in, top = total_in(job_) + 1;
    bool post = false;
    for (const auto& member : members_) deepest = std::max(deepest, member.depth_in + member.member->line.top_drop_in), post = post || rest_near(member);
    if (option_ != nullptr) top = std::max(top, deck_top_in() + 1);
    bottom_in_ = -(deepest + (post ? kPostShown_in : 1.5));
    const Box plan{cut_.from_in, bottom_in_, cut_.to_in, top};
    const Frame frame{64, 14, kLabelColumn_pt, 84};
    const auto scale = scale_to_fit(plan.width_in(), plan.height_in(), 7.3 - (frame.left_pt + frame.right_pt) / 72, 4.4, 1.5);
    return Canvas(name, title, plan, scale, frame);
  }

  bool rest_near(const CutMember& member) const {
    return std::any_of(member.member->line.rests_at_in.begin(), member.member->line.rests_at_in.end(), [&](double rest) { return std::fabs(rest - member.along_in) < 12; });
  }

  // The walking surface below the finish, above the top of the framing.
  double deck_top_in() const {
    const Layer* deck = structural_deck(job_);
    const double old_top = deck == nullptr ? 0 : awlmark::thickness_in(*deck);
    double top = old_top;
    if (option_ != nullptr)
      for (const auto& part : option_->deck) top = std::max(top, old_top - part.top_drop_in);
    return top;
  }

  PaperBox slab(double from_in, double to_in, double low_in, double high_in) const {
    const auto a = canvas_.at({std::max(from_in, cut_.from_in), high_in}), b = canvas_.at({std::min(to_in, cut_.to_in), low_in});
    return {a.x, a.y, b.x, b.y};
  }

  void draw_found_layers() {
    double z = 0;
    heights_.push_back(0);
    for (auto layer = job_.layers.rbegin(); layer != job_.layers.rend(); ++layer) {
      const double thick = std::max(0.0, awlmark::thickness_in(*layer));
      const bool wood = layer->material == Material::board || layer->material == Material::plank_tg;
      canvas_.box(slab(cut_.from_in, cut_.to_in, z, z + thick), "dlayer", wood ? "#efe4d2" : "#ffffff");
      if (wood && boards_cross(layer->runs)) draw_board_ends(layer->face_width_in.value_or(5.5), z, z + thick);
      notes_.push_back({z + thick / 2, cut_.to_in, layer_words(*layer)});
      z += thick;
      if (thick >= 0.2) heights_.push_back(z);
    }
    if (z - heights_.back() > 1e-9) heights_.back() = z;
  }

  // True when the boards run along the members, so that the section shows their ends.
  bool boards_cross(const std::optional<Runs>& runs) const {
    if (!runs) return false;
    const double turn = std::fmod(std::fabs(runs->degrees - (framing_.run_along_y ? 90 : 0)), 180.0);
    return turn < 20 || turn > 160;
  }

  void draw_board_ends(double face_in, double low_in, double high_in) {
    if (!(face_in > 0.5)) return;
    for (double at = std::ceil(cut_.from_in / face_in) * face_in; at < cut_.to_in; at += face_in) canvas_.line(canvas_.at({at, low_in}), canvas_.at({at, high_in}), "dl dext");
  }

  void draw_rebuilt_layers() {
    const Layer* deck = structural_deck(job_);
    const double old_top = deck == nullptr ? 0 : awlmark::thickness_in(*deck);
    heights_.push_back(0);
    // What stays of the old deck, beyond the new parts.
    std::vector<std::pair<double, double>> renewed;
    for (const auto& part : option_->deck)
      for (const auto& ring : part.outlines_in)
        for (const auto& span : spans_inside(framing_, ring, cut_.station_in)) renewed.push_back(span);
    if (deck != nullptr) {
      canvas_.box(slab(cut_.from_in, cut_.to_in, 0, old_top), "dlayer", "#efe4d2");
      for (const auto& span : renewed)
        if (span.second > cut_.from_in && span.first < cut_.to_in) canvas_.box(slab(span.first, span.second, 0, old_top), "dopening");
    }
    bool any = false;
    for (const auto& part : option_->deck) any = draw_part(part, old_top) || any;
    if (deck != nullptr && !covers_all(renewed)) notes_.push_back({old_top / 2, kept_at(renewed), "old " + material_words(deck->material) + ", stays"});
    const double top = any ? deck_top_in() : old_top;
    heights_.push_back(top);
    if (any && std::fabs(top - old_top) > 1.0 / 32) heights_.push_back(old_top);
    const auto a = canvas_.at({cut_.from_in, top}), b = canvas_.at({cut_.to_in, top});
    canvas_.line({a.x, a.y - 1.6}, {b.x, b.y - 1.6}, "dl dtick");
    const auto finish = job_.rebuild ? finish_words(job_.rebuild->finish) : std::string("finish not chosen");
    notes_.push_back({top + 0.1, cut_.to_in, finish + ", its bed on top"});
  }

  bool draw_part(const floor::DeckPart& part, double old_top) {
    bool drawn = false;
    const double high = old_top - part.top_drop_in, low = high - std::max(0.0, part.thickness_in);
    for (const auto& ring : part.outlines_in) {
      for (const auto& span : spans_inside(framing_, ring, cut_.station_in)) {
        if (span.second <= cut_.from_in || span.first >= cut_.to_in) continue;
        canvas_.box(slab(span.first, span.second, low, high), "dnew");
        const double from = std::max(span.first, cut_.from_in), to = std::min(span.second, cut_.to_in);
        if (!drawn) notes_.push_back({(low + high) / 2, from + (to - from) * 0.8, part.words.empty() ? "new deck" : part.words});
        drawn = true;
      }
    }
    if (drawn) heights_.push_back(low), heights_.push_back(high);
    return drawn;
  }

  bool covers_all(const std::vector<std::pair<double, double>>& spans) const {
    return std::any_of(spans.begin(), spans.end(), [&](const auto& span) { return span.first <= cut_.from_in + 0.5 && span.second >= cut_.to_in - 0.5; });
  }
  double kept_at(const std::vector<std::pair<double, double>>& spans) const {
    double at = cut_.to_in;
    for (const auto& span : spans)
      if (span.first < at && span.second > at - 0.5) at = std::max(cut_.from_in, span.first - 1);
    return at;
  }

  void draw_member(const CutMember& cut) {
    if (cut.across_in + cut.breadth_in / 2 < cut_.from_in || cut.across_in - cut.breadth_in / 2 > cut_.to_in) return;
    if (cut.member->added && !rebuilt_) return;
    const double high = -cut.member->line.top_drop_in, low = high - cut.depth_in;
    // A sister stands beside its member; lines that share a centre would hide each other.
    double shift = 0;
    if (cut.member->line.kind == "sister")
      for (const auto& other : members_)
        if (!other.member->added && std::fabs(other.across_in - cut.across_in) < (other.breadth_in + cut.breadth_in) / 2 - 0.1) shift = other.across_in + (other.breadth_in + cut.breadth_in) / 2 - cut.across_in;
    const auto box = slab(cut.across_in + shift - cut.breadth_in / 2, cut.across_in + shift + cut.breadth_in / 2, low, high);
    canvas_.box(box, cut.member->added ? "dnew" : "dmember", cut.member->added ? "#f3e3d6" : "#f6efe3");
    canvas_.path("M" + coordinate(box.x0) + " " + coordinate(box.y0) + "L" + coordinate(box.x1) + " " + coordinate(box.y1) + "M" + coordinate(box.x0) + " " + coordinate(box.y1) + "L" + coordinate(box.x1) + " " + coordinate(box.y0), "dl dext");
    draw_decay(cut, high, low);
    if (rest_near(cut) && !cut.member->added) draw_post(cut, low);
    std::string text = cut.member->name + ": " + (cut.member->added && !cut.member->line.kind.empty() ? spoken_id(cut.member->line.kind) + " " : "") + (cut.member->line.size.empty() ? "size not known" : cut.member->line.size);
    notes_.push_back({low + cut.depth_in * 0.3, cut.across_in + shift + cut.breadth_in / 2, text});
    depths_.push_back(low);
    centres_.push_back(cut.across_in + shift);
  }

  void draw_decay(const CutMember& cut, double high, double low) {
    for (const auto& decay : framing_.decay) {
      if (decay.member != cut.index || decay.from_in > cut.along_in || decay.to_in < cut.along_in) continue;
      const double width = decay.width_in > 0 ? std::min(decay.width_in, cut.breadth_in) : cut.breadth_in;
      const bool bottom = decay.face == "bottom";
      const double deep = std::min(decay.depth_in > 0 ? decay.depth_in : 0.5, high - low);
      double from = cut.across_in - width / 2, to = cut.across_in + width / 2, top = bottom ? low + deep : high, base = bottom ? low : high - deep;
      if (decay.face == "side") from = cut.across_in - cut.breadth_in / 2, to = from + std::min(deep, cut.breadth_in), top = high, base = low;
      canvas_.box(slab(from, to, base, top), "ddecay", "url(#" + hatch_of(canvas_.name(), decay.known ? 5 : 3) + ")");
      notes_.push_back({(top + base) / 2, to, decay.key + ": decay " + format_inches(decay.depth_in) + " deep" + (decay.known ? "" : ", likely")});
    }
  }

  void draw_post(const CutMember& cut, double low) {
    const auto* support = find_support(job_, cut.member->line.id);
    const double breadth = support != nullptr && support->post_size ? support->post_size->b_in : 3.5;
    const auto box = slab(cut.across_in - breadth / 2, cut.across_in + breadth / 2, bottom_in_, low);
    canvas_.box(box, "dmember");
    canvas_.shape({{box.x0 - 4, box.y1}, {box.x0 + box.width() * 0.35, box.y1}, {box.x0 + box.width() * 0.45, box.y1 - 3}, {box.x0 + box.width() * 0.55, box.y1 + 3}, {box.x0 + box.width() * 0.65, box.y1}, {box.x1 + 4, box.y1}}, "dl", false);
    std::string text = support != nullptr && support->post_size ? "post " + section_text(*support->post_size) : "post or wall";
    if (support != nullptr && support->post_length_in) text += ", " + format_length(*support->post_length_in) + " long";
    notes_.push_back({(bottom_in_ + low) / 2, cut.across_in + breadth / 2, text});
  }

  // The floor runs on past both ends.
  void draw_ends() {
    const double top = std::max(total_in(job_), deck_top_in()) + 0.5;
    for (const double across : {cut_.from_in, cut_.to_in}) {
      const auto a = canvas_.at({across, top}), b = canvas_.at({across, -1});
      const double middle = (a.y + b.y) / 2;
      canvas_.shape({{a.x, a.y - 3}, {a.x, middle - 3}, {a.x - 3, middle - 1}, {a.x + 3, middle + 1}, {a.x, middle + 3}, {a.x, b.y + 3}}, "dl", false);
    }
  }

  // Words in a column on the right, in the order of what they point at, never on each other.
  void write_notes() {
    std::stable_sort(notes_.begin(), notes_.end(), [](const Note& a, const Note& b) { return a.z_in > b.z_in + 1e-9; });
    notes_.erase(std::unique(notes_.begin(), notes_.end(), [](const Note& a, const Note& b) { return a.text == b.text; }), notes_.end());
    const double left = canvas_.plan_box().x1 + 22;
    const double lowest = canvas_.height_pt() - 24;
    double y = 8;
    std::size_t left_out = 0;
    for (std::size_t i = 0; i < notes_.size(); ++i) {
      const auto& note = notes_[i];
      const auto tip = canvas_.at({note.across_in, note.z_in});
      const double room = static_cast<double>(notes_.size() - i - 1) * kLabelStep_pt;
      y = std::max(y, std::min(tip.y, lowest - room));
      const auto text = shortened(note.text, kLabelChars);
      const double width = text_width_pt(text, kLeastType_pt);
      if (y > lowest || !canvas_.words_at({left + width / 2, y}, text)) {
        ++left_out;
      } else {
        canvas_.shape({{tip.x, tip.y}, {left - 10, y}, {left - 2, y}}, "dl dlead", false);
        canvas_.circle(tip, 1.1, "dink");
      }
      y += kLabelStep_pt;
    }
    if (left_out > 0) canvas_.note(count_of(left_out, "part has", "parts have") + " no room for a name; see the schedule.");
  }

  void draw_chains() {
    const auto box = canvas_.plan_box();
    std::vector<double> heights = heights_;
    if (!depths_.empty()) heights.push_back(*std::min_element(depths_.begin(), depths_.end()));
    draw_chain(canvas_, {false, box.x0 - 18, box.x0, heights, "heights"});
    draw_chain(canvas_, {true, box.y1 + 20, box.y1, centres_, "member spacings"});
  }

  const Job& job_;
  const Framing& framing_;
  const SectionCut& cut_;
  bool rebuilt_;
  const floor::Option* option_;
  std::vector<CutMember> members_;
  double bottom_in_ = 0;
  Canvas canvas_;
  std::vector<Note> notes_;
  std::vector<double> heights_, depths_, centres_;
};

double middle_of(const Framing& framing, const std::vector<Polygon>& rings, bool across) {
  double low = 0, high = 0;
  bool any = false;
  for (const auto& ring : rings)
    for (const auto& corner : ring) {
      const double at = across ? across_of(framing, corner) : along_of(framing, corner);
      low = any ? std::min(low, at) : at, high = any ? std::max(high, at) : at;
      any = true;
    }
  return (low + high) / 2;
}

}  // namespace

std::optional<SectionCut> section_cut(const Job& job, const Findings& findings, const Framing& framing) {
  auto rings = deck_cut(job, findings);
  if (rings.empty() && job.room.outline_in.size() >= 3) rings = {job.room.outline_in};
  if (rings.empty() || framing.members.empty()) return std::nullopt;
  double station = middle_of(framing, rings, false), centre = middle_of(framing, rings, true);
  for (const auto& decay : framing.decay) {
    const auto& line = framing.members[decay.member].line;
    const auto p = point_along(line.from_in, line.to_in, (decay.from_in + decay.to_in) / 2);
    const bool along_main = std::fabs(along_of(framing, line.to_in) - along_of(framing, line.from_in)) > std::fabs(across_of(framing, line.to_in) - across_of(framing, line.from_in));
    if (!decay.known || !along_main) continue;
    station = along_of(framing, p), centre = across_of(framing, p);
    break;
  }
  const auto members = members_at(framing, station);
  if (members.empty()) return std::nullopt;
  // The member nearest to the middle and its nearest neighbour found there.
  std::size_t best = 0;
  for (std::size_t i = 1; i < members.size(); ++i)
    if (std::fabs(members[i].across_in - centre) < std::fabs(members[best].across_in - centre) - 1e-9) best = i;
  double low = members[best].across_in, high = low;
  const auto far_enough = [&](double at) { return std::fabs(at - members[best].across_in) > 6; };
  double nearest = 1e9;
  for (const auto& other : members)
    if (!other.member->added && far_enough(other.across_in) && std::fabs(other.across_in - members[best].across_in) < std::fabs(nearest) - 1e-9) nearest = other.across_in - members[best].across_in;
  if (std::fabs(nearest) < 120) low = std::min(low, low + nearest), high = std::max(high, high + nearest);
  constexpr double kPast_in = 5;
  return SectionCut{station, low - kPast_in, high + kPast_in};
}

Drawing section_as_found(const Job& job, const Framing& framing, const SectionCut& cut) {
  return SectionPainter("found", "Section through the floor as found", job, framing, cut, false, nullptr).draw();
}

Drawing section_as_rebuilt(const Job& job, const Findings& findings, const Framing& framing, const SectionCut& cut) {
  return SectionPainter("rebuilt", "Section through the floor as rebuilt", job, framing, cut, true, chosen_option(findings)).draw();
}

std::string section_words(const Framing& framing, const SectionCut& cut) {
  return "cut at " + format_length(cut.station_in) + (framing.run_along_y ? " up" : " across") + " from the datum corner, across the members";
}

}  // namespace awlmark::papers
