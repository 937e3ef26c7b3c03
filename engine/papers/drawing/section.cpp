#include "papers/drawing/section.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "papers/drawing/dimension.hpp"
#include "papers/drawing/symbols.hpp"
#include "papers/keys.hpp"
#include "papers/words.hpp"
#include "tables/usual.hpp"

namespace awlmark::papers {
namespace {

constexpr double kPostShown_in = 8;
constexpr double kLabelColumn_pt = 142;
constexpr double kLabelStep_pt = 10.5;
constexpr double kMostHeight_in = 0.95;  // of the house itself; plan and section share a page

struct Note {
  double z_in;  // where the leader points
  double across_in;
  std::string text;
};

// Words in lines of at most this width; at most two lines, the second cut short when it must be.
std::vector<std::string> in_lines(const std::string& text, double width_pt) {
  std::vector<std::string> lines(1);
  for (std::size_t at = 0; at <= text.size();) {
    const auto end = std::min(text.find(' ', at), text.size());
    const auto word = text.substr(at, end - at);
    const auto longer = lines.back().empty() ? word : lines.back() + " " + word;
    if (text_width_pt(longer, kLeastType_pt) <= width_pt || lines.back().empty())
      lines.back() = longer;
    else
      lines.push_back(word);
    at = end + 1;
  }
  const bool more = lines.size() > 2;
  lines.resize(std::min<std::size_t>(lines.size(), 2));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    auto& line = lines[i];
    if (more && i == 1) line += "...";
    for (std::size_t count = line.size(); count > 1 && text_width_pt(line, kLeastType_pt) > width_pt;) line = shortened(line, --count);
  }
  return lines;
}

class SectionPainter {
 public:
  SectionPainter(const std::string& name, const std::string& title, const Job& job, const Framing& framing, const SectionCut& cut, bool rebuilt,
                 const floor::Option* option)
      : job_(job), framing_(framing), cut_(cut), rebuilt_(rebuilt), option_(option), members_(shown(framing, cut, rebuilt)), canvas_(make(name, title)) {}

  Drawing draw() {
    if (rebuilt_)
      draw_rebuilt_layers();
    else
      draw_found_layers();
    for (const auto& member : members_) draw_member(member);
    draw_ends();
    draw_chains();
    canvas_.space().keep_clear(slab(cut_.from_in, cut_.to_in, 0, std::max(total_in(job_), 0.5)));
    write_notes();
    write_names();
    const auto box = canvas_.plan_box();
    draw_scale_bar(canvas_, {box.x0, canvas_.height_pt() - 18}, box.x1 - box.x0 + 100);
    return {canvas_.svg(), canvas_.scale(), canvas_.space().labels(), canvas_.notes()};
  }

 private:
  static std::vector<CutMember> shown(const Framing& framing, const SectionCut& cut, bool rebuilt) {
    std::vector<CutMember> in_view;
    for (const auto& member : members_at(framing, cut.station_in)) {
      const bool inside = member.across_in + member.breadth_in / 2 > cut.from_in && member.across_in - member.breadth_in / 2 < cut.to_in;
      if (inside && (rebuilt || !member.member->added)) in_view.push_back(member);
    }
    return in_view;
  }

  static double total_in(const Job& job) {
    double total = 0;
    for (const auto& layer : job.layers) total += std::max(0.0, awlmark::thickness_in(layer));
    return total;
  }

  Canvas make(const std::string& name, const std::string& title) {
    double deepest = tables::usual().member_depth_in, top = total_in(job_) + 1;
    bool post = false;
    for (const auto& member : members_) deepest = std::max(deepest, member.depth_in + member.member->line.top_drop_in), post = post || rest_near(member);
    if (option_ != nullptr) top = std::max(top, deck_top_in() + 1);
    bottom_in_ = -(deepest + (post ? kPostShown_in : 1.5));
    const Box plan{cut_.from_in, bottom_in_, cut_.to_in, top};
    const Frame frame{52, 16, kLabelColumn_pt, 70};
    const auto scale = scale_to_fit(plan.width_in(), plan.height_in(), 7.3 - (frame.left_pt + frame.right_pt) / 72, kMostHeight_in, 1.5);
    return Canvas(name, title, plan, scale, frame);
  }

  bool rest_near(const CutMember& member) const {
    return std::any_of(member.member->line.rests_at_in.begin(), member.member->line.rests_at_in.end(),
                       [&](double rest) { return std::fabs(rest - member.along_in) < 12; });
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
    for (double at = std::ceil(cut_.from_in / face_in) * face_in; at < cut_.to_in; at += face_in)
      canvas_.line(canvas_.at({at, low_in}), canvas_.at({at, high_in}), "dl dext");
  }

  void draw_rebuilt_layers() {
    const Layer* deck = structural_deck(job_);
    const double old_top = deck == nullptr ? 0 : awlmark::thickness_in(*deck);
    heights_.push_back(0);
    heights_.push_back(old_top);
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
    for (const auto& part : option_->deck) draw_part(part, old_top);
    if (deck != nullptr && !covers_all(renewed)) notes_.push_back({old_top / 2, kept_at(renewed), "old " + material_words(deck->material) + ", stays"});
    const double top = draw_walking_surface(old_top);
    const auto finish = job_.rebuild ? finish_words(job_.rebuild->finish) : std::string("finish not chosen");
    notes_.push_back({top + 0.1, cut_.to_in, finish + ", its bed on top"});
  }

  // The line that the finish is laid on, over old deck and new; returns its height at the right end.
  double draw_walking_surface(double old_top) {
    constexpr int kSteps = 240;
    std::vector<PaperPoint> line;
    double before = 0, top = old_top;
    for (int k = 0; k <= kSteps; ++k) {
      const double across = cut_.from_in + (cut_.to_in - cut_.from_in) * k / kSteps;
      top = top_at(across, old_top);
      const auto p = canvas_.at({across, top});
      if (k > 0 && std::fabs(top - before) > 1e-9) line.push_back({p.x, canvas_.at({across, before}).y - 1.6});
      if (k == 0 || k == kSteps || std::fabs(top - before) > 1e-9) line.push_back({p.x, p.y - 1.6});
      before = top;
    }
    canvas_.shape(line, "dl dtick", false);
    return top;
  }

  double top_at(double across, double old_top) const {
    double top = old_top;
    bool any = false;
    for (const auto& part : option_->deck)
      for (const auto& ring : part.outlines_in)
        for (const auto& span : spans_inside(framing_, ring, cut_.station_in)) {
          if (across < span.first || across > span.second) continue;
          top = any ? std::max(top, old_top - part.top_drop_in) : old_top - part.top_drop_in;
          any = true;
        }
    return top;
  }

  void draw_part(const floor::DeckPart& part, double old_top) {
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
    const double high = -cut.member->line.top_drop_in, low = high - cut.depth_in;
    // A sister stands beside its member; lines that share a centre would hide each other.
    double shift = 0;
    if ((cut.member->line.kind == "sister" || cut.member->line.kind == "trimmer"))
      for (const auto& other : members_)
        if (!other.member->added && std::fabs(other.across_in - cut.across_in) < (other.breadth_in + cut.breadth_in) / 2 - 0.1)
          shift = other.across_in + (other.breadth_in + cut.breadth_in) / 2 - cut.across_in;
    const auto box = slab(cut.across_in + shift - cut.breadth_in / 2, cut.across_in + shift + cut.breadth_in / 2, low, high);
    canvas_.box(box, cut.member->added ? "dnew" : "dmember", cut.member->added ? "#f3e3d6" : "#f6efe3");
    canvas_.path("M" + coordinate(box.x0) + " " + coordinate(box.y0) + "L" + coordinate(box.x1) + " " + coordinate(box.y1) + "M" + coordinate(box.x0) + " " +
                     coordinate(box.y1) + "L" + coordinate(box.x1) + " " + coordinate(box.y0),
                 "dl dext");
    draw_decay(cut, high, low);
    if (rest_near(cut) && !cut.member->added) draw_post(cut, low);
    canvas_.space().keep_clear(box);
    names_.push_back({{(box.x0 + box.x1) / 2, box.y1 + 8},
                      cut.member->name + (cut.member->line.size.empty() ? "" : "  " + shortened(cut.member->line.size, 12)),
                      cut.member->added});
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
      const auto box = slab(from, to, base, top);
      hatch(canvas_.out(), decay.known ? 5 : 3,
            "M" + coordinate(box.x0) + " " + coordinate(box.y0) + "H" + coordinate(box.x1) + "V" + coordinate(box.y1) + "H" + coordinate(box.x0) + "Z", box,
            canvas_.name() + "-" + decay.key + "-" + std::to_string(decay_.size()), "ddecay");
      decay_.push_back({slab(from, to, base, top).middle(), decay.key + (decay.depth_in > 0 ? ": " + format_inches(decay.depth_in) + " deep" : ""), false});
    }
  }

  void draw_post(const CutMember& cut, double low) {
    const auto* support = find_support(job_, cut.member->line.id);
    const double breadth = support != nullptr && support->post_size ? support->post_size->b_in : 3.5;
    const auto box = slab(cut.across_in - breadth / 2, cut.across_in + breadth / 2, bottom_in_, low);
    canvas_.box(box, "dmember");
    canvas_.shape({{box.x0 - 4, box.y1},
                   {box.x0 + box.width() * 0.35, box.y1},
                   {box.x0 + box.width() * 0.45, box.y1 - 3},
                   {box.x0 + box.width() * 0.55, box.y1 + 3},
                   {box.x0 + box.width() * 0.65, box.y1},
                   {box.x1 + 4, box.y1}},
                  "dl", false);
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

  // Members are named under their foot, or beside it where a post stands; decay beside itself.
  void write_names() {
    for (const auto& name : names_) {
      const std::string css = name.added ? "di" : "db";
      if (!canvas_.words_at(name.at, name.text, kLeastType_pt, css)) canvas_.words_near(name.at, 3, name.text, kLeastType_pt, css, 40);
    }
    for (const auto& decay : decay_) canvas_.words_near(decay.at, 9, decay.text, kLeastType_pt, "db dacc", 70);
  }

  // Layers in a column on the right, from the top down, never on each other.
  void write_notes() {
    std::stable_sort(notes_.begin(), notes_.end(), [](const Note& a, const Note& b) { return a.z_in > b.z_in + 1e-9; });
    notes_.erase(std::unique(notes_.begin(), notes_.end(), [](const Note& a, const Note& b) { return a.text == b.text; }), notes_.end());
    const double left = canvas_.plan_box().x1 + 20;
    const double width = canvas_.width_pt() - left - 2;
    const double lowest = canvas_.height_pt() - 24;
    double y = 8;
    std::size_t left_out = 0;
    for (const auto& note : notes_) {
      const auto tip = canvas_.at({note.across_in, note.z_in});
      const auto lines = in_lines(note.text, width);
      const double tall = kLabelStep_pt * static_cast<double>(lines.size());
      for (y = std::max(y, tip.y - 14); y + tall <= lowest && !canvas_.space().free({left, y - 5, left + width, y - 5 + tall}); y += 3) {
      }
      if (y + tall > lowest) {
        ++left_out;
        continue;
      }
      canvas_.shape({{tip.x, tip.y}, {left - 8, y}, {left - 2, y}}, "dl dlead", false);
      canvas_.circle(tip, 1.1, "dink");
      for (const auto& line : lines) {
        canvas_.words_at({left + text_width_pt(line, kLeastType_pt) / 2, y}, line, kLeastType_pt, "dstart");
        y += kLabelStep_pt;
      }
      y += 3;
    }
    if (left_out > 0) canvas_.note(count_of(left_out, "layer has", "layers have") + " no room for a name on the drawing.");
  }

  void draw_chains() {
    const auto box = canvas_.plan_box();
    std::vector<double> heights = heights_;
    if (!depths_.empty()) heights.push_back(*std::min_element(depths_.begin(), depths_.end()));
    draw_chain(canvas_, {false, box.x0 - 18, box.x0, heights, "heights"});
    draw_chain(canvas_, {true, box.y1 + 26, box.y1 + 6, centres_, "member spacings"});
  }

  const Job& job_;
  const Framing& framing_;
  const SectionCut& cut_;
  bool rebuilt_;
  const floor::Option* option_;
  std::vector<CutMember> members_;
  double bottom_in_ = 0;
  Canvas canvas_;
  struct Name {
    PaperPoint at;
    std::string text;
    bool added = false;
  };
  std::vector<Note> notes_;
  std::vector<Name> names_, decay_;
  std::vector<double> heights_, depths_, centres_;
};

}  // namespace

Drawing section_as_found(const Job& job, const Framing& framing, const SectionCut& cut) {
  return SectionPainter("found", "Section through the floor as found", job, framing, cut, false, nullptr).draw();
}

Drawing section_as_rebuilt(const Job& job, const Findings& findings, const Framing& framing, const SectionCut& cut) {
  return SectionPainter("rebuilt", "Section through the floor as rebuilt", job, framing, cut, true, chosen_option(findings)).draw();
}

}  // namespace awlmark::papers
