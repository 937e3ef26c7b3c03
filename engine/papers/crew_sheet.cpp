// For the crew, in four pages and in the language asked for: gates and shores; what comes out, drawn;
// boards, saw lines and the other layers; blocking, how the wood is cut, what may not be covered yet.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/framing_lines.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/gates.hpp"
#include "papers/keys.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"
#include "survey/place_words.hpp"

namespace awlmark::papers {
namespace {

// Of a layer beside the main one: with more saw lines than this its outline is what a saw follows.
constexpr std::size_t kMostNamed = 8;

// Neighbouring boards that come out over the same length.
struct BoardRun {
  int first = 0;
  int last = 0;
  double from_in = 0;  // along the boards
  double to_in = 0;
  double at_in = 0;  // across them, of the first
  bool known = false;
};

class CrewSheet {
 public:
  CrewSheet(const Job& job, const Findings& findings, Sheet& sheet) : job_(job), findings_(findings), cut_(*findings.cut_back), sheet_(sheet) {}

  void write() {
    sheet_.say(sheet_.said("For the crew. Read all of it before the first cut. A box is ticked when it is met, with initials."), "tight");
    sheet_.say(sheet_.said("Places are measured from the two walls named in the table; boards are counted from the wall named beside them."), "tight");
    before();
    shores();
    what_comes_out();
    boards();
    saw_lines();
    other_layers();
    blocking();
    cut_lists();
    after();
  }

 private:
  std::string said(std::string_view words) const { return sheet_.said(words); }
  std::string layer_name(const std::string& id) const {
    const Layer* layer = find_layer(job_, id);
    return layer == nullptr ? id : said(material_words(layer->material)) + " (" + id + ")";
  }
  std::string wall_name(const std::string& wall) const {
    constexpr std::string_view kWall = "wall ";
    return wall.rfind(kWall, 0) == 0 ? said("wall") + " " + wall.substr(kWall.size()) : said(wall);
  }
  // The heads of two columns of places.
  std::vector<std::string> place_columns() const {
    const auto from = survey::measured_from(job_, std::nullopt);
    const auto head = [&](const std::string& wall) { return wall.rfind("wall ", 0) == 0 ? said("From wall") + " " + wall.substr(5) : said("From " + wall); };
    return {head(from.left), head(from.front)};
  }
  // A sentence of the engine that no table translates stands in English, and says so.
  void in_english(const std::vector<std::string>& sentences) {
    if (sentences.empty()) return;
    if (sheet_.language() != Language::english) sheet_.say(said("In English, have it read to you:"), "tight");
    auto& out = sheet_.out();
    out.open("ul", {{"class", "tight"}, {"lang", "en"}});
    for (const auto& sentence : sentences) out.element("li", sentence);
    out.close();
  }

  void before() {
    sheet_.section(said("Before the first cut"));
    if (!findings_.hazards) {
      sheet_.say(said("Hazards were not worked out. Do not cut, scrape or sand old flooring or paint until they are."), "bad");
      return;
    }
    write_gate_cards(sheet_, cards_by_step(*findings_.hazards, false), false);
  }

  void protection() {
    if (!findings_.hazards || findings_.hazards->protection.empty()) return;
    sheet_.section(said("While you work"));
    std::vector<std::string> items;
    for (const auto& item : findings_.hazards->protection) items.push_back(protection_said(sheet_.language(), item));
    sheet_.list(items, "tight columns");
  }

  void shores() {
    if (!findings_.floor) return;
    const auto& open = findings_.floor->while_open;
    const auto all = shores_of(findings_);
    if (all.empty() && open.unsupported.empty()) return;
    sheet_.sub(said("Shore first"));
    const auto places = place_columns();
    Table table{{said("Shore"), said("Under"), places[0], places[1], said("Load, lb"), said("Pad, sq ft at least")}, {}, "cards grid"};
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto& shore = all[i];
      const auto place = place_cells(job_, shore.at_in);
      table.rows.push_back({{"P" + std::to_string(i + 1), "good"},
                            {shore.under, ""},
                            {place.from_left, "num"},
                            {place.from_front, "num"},
                            {figure(shore.load_lb), "num"},
                            {figure(std::ceil(shore.pad_sf * 10 - 1e-9) / 10), "num"}});
    }
    sheet_.table(table);
    if (sheet_.language() != Language::english) sheet_.say(said("Shores stand on firm pads and hold; they do not lift."), "tight");
    if (open.open_at_once_in > 0 && sheet_.language() != Language::english)
      sheet_.say(said("Open at once, along the supports, at most") + " " + format_length(open.open_at_once_in) + ".", "tight");
    std::vector<std::string> sentences;
    for (const auto& words : open.unsupported) sentences.push_back("Loses its support: " + words + ".");
    sentences.insert(sentences.end(), open.words.begin(), open.words.end());
    in_english(sentences);
  }

  void what_comes_out() {
    sheet_.section(said("What comes out"), true);
    Table table{{said("Part"), said("How much"), said("Where")}, {}, "grid"};
    for (const auto& layer : job_.layers) {
      const auto area = cut_.area_sf.find(layer.id);
      if (area == cut_.area_sf.end() || area->second < 0.05) continue;
      const bool stays = std::any_of(cut_.pieces.begin(), cut_.pieces.end(), [&](const cutback::Piece& p) { return p.layer == layer.id && !p.out; });
      table.rows.push_back({{layer_name(layer.id), ""}, {square_feet(area->second), "num"}, {said(stays ? "see the drawing" : "all of it"), ""}});
    }
    for (const auto& wall : job_.walls) wall_rows(table, wall.id);
    if (table.rows.empty()) sheet_.say(said("Nothing comes out."));
    sheet_.table(table);
    const Layer* deck = structural_deck(job_);
    const auto area = deck == nullptr ? cut_.area_sf.end() : cut_.area_sf.find(deck->id);
    main_ = area != cut_.area_sf.end() && area->second >= 0.05 ? deck->id : "";
    PiecesPlanStyle style;
    style.language = sheet_.language();
    style.height_in = 6.2;
    sheet_.figure(pieces_plan(job_, findings_, main_, style),
                  main_.empty() ? said("The room. No layer comes out.") : said("What comes out of") + " " + layer_name(main_) + ".",
                  pieces_legend(sheet_.language()));
  }

  // Plate and wallboard of one wall, with the stretch along it.
  void wall_rows(Table& table, const std::string& wall) {
    const Wall* found = find_wall(job_, wall);
    for (const bool plate : {true, false}) {
      const auto& amounts = plate ? cut_.plate_ft : cut_.wallboard_sf;
      const auto amount = amounts.find(wall);
      if (found == nullptr || amount == amounts.end() || amount->second <= 0) continue;
      std::vector<Point> corners;
      for (const auto& piece : cut_.pieces)
        if (piece.out && piece.layer == "wall:" + wall && (piece.kind == "plate") == plate)
          corners.insert(corners.end(), piece.outline_in.begin(), piece.outline_in.end());
      const bool along_x = std::fabs(found->to_in.x_in - found->from_in.x_in) >= std::fabs(found->to_in.y_in - found->from_in.y_in);
      const auto box = bounds(corners);
      const auto low = place_cells(job_, {box.x0_in, box.y0_in}), high = place_cells(job_, {box.x1_in, box.y1_in});
      const auto head = place_columns()[along_x ? 0 : 1];
      table.rows.push_back(
          {{said(plate ? "bottom plate of wall" : "wallboard of wall") + " " + wall, ""},
           {plate ? format_length(amount->second * 12) : square_feet(amount->second), "num"},
           {corners.empty() ? "" : head + ": " + (along_x ? low.from_left + " - " + high.from_left : low.from_front + " - " + high.from_front), ""}});
    }
  }

  static bool same_run(const BoardRun& run, const BoardRun& next) {
    constexpr double kSame_in = 0.5;
    return next.first == run.last + 1 && std::fabs(next.from_in - run.from_in) < kSame_in && std::fabs(next.to_in - run.to_in) < kSame_in;
  }

  // Of one layer of boards: each board's stretches, then neighbours that match joined.
  std::vector<BoardRun> board_runs(const std::string& layer, bool along_x) const {
    std::vector<BoardRun> pieces, boards;
    for (const auto& piece : cut_.pieces) {
      if (piece.layer != layer || !piece.out || piece.plank <= 0 || piece.outline_in.empty()) continue;
      const auto box = bounds(piece.outline_in);
      pieces.push_back(
          {piece.plank, piece.plank, along_x ? box.x0_in : box.y0_in, along_x ? box.x1_in : box.y1_in, along_x ? box.y0_in : box.x0_in, piece.known_decay});
    }
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const BoardRun& a, const BoardRun& b) { return a.first != b.first ? a.first < b.first : a.from_in < b.from_in; });
    for (const auto& piece : pieces) {
      if (boards.empty() || boards.back().first != piece.first || piece.from_in > boards.back().to_in + 0.5) {
        boards.push_back(piece);
        continue;
      }
      boards.back().to_in = std::max(boards.back().to_in, piece.to_in);
      boards.back().known = boards.back().known || piece.known;
    }
    std::vector<BoardRun> out;
    for (const auto& board : boards) {
      const auto joins = std::find_if(out.begin(), out.end(), [&](const BoardRun& run) { return same_run(run, board); });
      if (joins == out.end()) {
        out.push_back(board);
      } else {
        joins->last = board.last;
        joins->known = joins->known || board.known;
      }
    }
    return out;
  }

  void boards() {
    bool first = true;
    for (const auto& layer : job_.layers) {
      const auto piece =
          std::find_if(cut_.pieces.begin(), cut_.pieces.end(), [&](const cutback::Piece& p) { return p.layer == layer.id && p.out && p.plank > 0; });
      if (piece == cut_.pieces.end()) continue;
      if (first) sheet_.section(said("Boards that come out"), true);
      first = false;
      double width_in = 0, height_in = 0;
      for (const auto& p : cut_.pieces)
        if (p.layer == layer.id && p.plank > 0 && !p.outline_in.empty()) {
          const auto box = bounds(p.outline_in);
          width_in += box.width_in();
          height_in += box.height_in();
        }
      board_table(layer.id, width_in >= height_in);
    }
    if (first)
      sheet_.section(said("Saw lines"), true);
    else
      sheet_.sub(said("Saw lines"));
  }

  void board_table(const std::string& layer, bool along_x) {
    const auto places = place_columns();
    const auto from = survey::measured_from(job_, std::nullopt);
    sheet_.sub(layer_name(layer) + ": " + said("counted from") + " " + wall_name(along_x ? from.front : from.left));
    const auto& along = places[along_x ? 0 : 1];
    Table table{{said("Boards"), along + ": " + said("From"), said("To"), said("Length"), places[along_x ? 1 : 0], said("Rot read in")}, {}, "cards grid"};
    for (const auto& run : board_runs(layer, along_x)) {
      const Point low = along_x ? Point{run.from_in, run.at_in} : Point{run.at_in, run.from_in};
      const Point high = along_x ? Point{run.to_in, run.at_in} : Point{run.at_in, run.to_in};
      const auto a = place_cells(job_, low), b = place_cells(job_, high);
      table.rows.push_back({{std::to_string(run.first) + (run.last > run.first ? " - " + std::to_string(run.last) : ""), "good"},
                            {along_x ? a.from_left : a.from_front, "num"},
                            {along_x ? b.from_left : b.from_front, "num"},
                            {format_length(run.to_in - run.from_in), "num"},
                            {along_x ? a.from_front : a.from_left, "num"},
                            {run.known ? "x" : "", "num"}});
    }
    sheet_.table(table);
  }

  void saw_lines() {
    const auto places = place_columns();
    Table table{{said("Line"), said("Kind"), said("From"), said("To"), said("Length"), said("On")}, {}, "cards grid"};
    for (const auto& layer : job_.layers) {
      std::size_t number = 0;
      const auto edges = sawn_edges(cut_, layer.id);
      if (layer.id != main_ && edges.size() > kMostNamed) {
        double length_in = 0;
        for (const auto* edge : edges) length_in += edge->length_in;
        table.rows.push_back({{layer.id, "good"},
                              {std::to_string(edges.size()) + " " + said("lines, as drawn, in all"), ""},
                              {"", ""},
                              {"", ""},
                              {format_length(length_in), "num"},
                              {"", ""}});
        continue;
      }
      for (const auto* edge : edges) {
        const auto a = place_cells(job_, edge->from_in), b = place_cells(job_, edge->to_in);
        table.rows.push_back({{(layer.id == main_ ? "C" : layer.id + " C") + std::to_string(++number), "good"},
                              {said(edge_words(edge->kind)), ""},
                              {a.from_left + ", " + a.from_front, ""},
                              {b.from_left + ", " + b.from_front, ""},
                              {format_length(edge->length_in), "num"},
                              {edge->support, ""}});
      }
    }
    sheet_.say(said("From") + ", " + said("To") + ": " + places[0] + ", " + places[1] + ".", "tight");
    sheet_.table(table);
  }

  // Those that come out in part, small and side by side; what comes out whole needs no drawing.
  void other_layers() {
    std::vector<std::string> ids;
    for (const auto& layer : job_.layers) {
      const bool goes = std::any_of(cut_.pieces.begin(), cut_.pieces.end(), [&](const cutback::Piece& p) { return p.layer == layer.id && p.out; });
      const bool stays = std::any_of(cut_.pieces.begin(), cut_.pieces.end(), [&](const cutback::Piece& p) { return p.layer == layer.id && !p.out; });
      if (goes && stays && layer.id != main_) ids.push_back(layer.id);
    }
    if (ids.empty()) return;
    sheet_.sub(said("The other layers"));
    sheet_.out().open("div", {{"class", "pair"}});
    for (std::size_t i = 0; i < ids.size(); ++i) {
      PiecesPlanStyle style{
          "other" + std::to_string(i + 1), ids.size() > 1 ? 3.6 : 7.3, 3.0, 0.375, sawn_edges(cut_, ids[i]).size() <= kMostNamed, sheet_.language()};
      sheet_.figure(pieces_plan(job_, findings_, ids[i], style), said("What comes out of") + " " + layer_name(ids[i]) + ".");
    }
    sheet_.out().close();
  }

  void blocking() {
    if (cut_.blocking.empty()) return;
    sheet_.section(said("Blocking to add"));
    Table table{{said("Piece"), said("From"), said("To"), said("Length")}, {}, "cards grid"};
    for (std::size_t i = 0; i < cut_.blocking.size(); ++i) {
      const auto a = place_cells(job_, cut_.blocking[i].from_in), b = place_cells(job_, cut_.blocking[i].to_in);
      table.rows.push_back({{"B" + std::to_string(i + 1), "good"},
                            {a.from_left + ", " + a.from_front, ""},
                            {b.from_left + ", " + b.from_front, ""},
                            {format_length(cut_.blocking[i].length_in), "num"}});
    }
    sheet_.table(table);
  }

  void cut_lists() {
    if (!findings_.takeoff || findings_.takeoff->cut_lists.empty()) return;
    sheet_.section(said("Cut list"));
    Table table{{said("Goods"), said("Sticks"), said("Stock"), said("Cut each into"), said("Left over")}, {}, "cards grid"};
    double kerf_in = 0;
    for (const auto& list : findings_.takeoff->cut_lists) {
      kerf_in = std::max(kerf_in, list.kerf_in);
      for (const auto& stick : list.sticks) {
        std::string cuts;
        for (std::size_t i = 0; i < stick.cuts.size();) {
          std::size_t end = i;
          while (end < stick.cuts.size() && stick.cuts[end] == stick.cuts[i]) ++end;
          cuts += (cuts.empty() ? "" : ", ") + (end - i > 1 ? std::to_string(end - i) + " x " : "") + format_length(stick.cuts[i]);
          i = end;
        }
        table.rows.push_back({{goods_said(sheet_.language(), list.item), ""},
                              {std::to_string(stick.times), "num"},
                              {format_length(stick.stock_in), "num"},
                              {cuts, ""},
                              {format_length(stick.offcut_in), "num"}});
      }
    }
    sheet_.table(table);
    sheet_.say(said("Saw kerf counted") + ": " + format_inches(kerf_in) + ".", "small");
  }

  void after() {
    if (findings_.hazards) {
      const auto cards = cards_by_step(*findings_.hazards, true);
      if (!cards.empty()) sheet_.section(said("Before anything is covered"), true);
      write_gate_cards(sheet_, cards, false);
    }
    protection();
    sheet_.caution_box({"Find more rot than is drawn: stop, mark it, photograph it with a tape in the picture, and have the change signed before going on.",
                        "Nobody stands below while cutting."});
    sheet_.signatures({"Lead carpenter: read before the first cut", "Owner: hidden damage seen"});
  }

  const Job& job_;
  const Findings& findings_;
  const cutback::CutBack& cut_;
  Sheet& sheet_;
  std::string main_;  // the layer that is drawn large
};

}  // namespace

Paper crew_sheet(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Crew sheet");
  CrewSheet(job, findings, sheet).write();
  return {"crew-sheet.html", "Crew sheet", sheet.html()};
}

Paper crew_sheet_spanish(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Crew sheet", Language::spanish);
  CrewSheet(job, findings, sheet).write();
  return {"crew-sheet-es.html", sheet.said("Crew sheet"), sheet.html()};
}

}  // namespace awlmark::papers
