// The cut-back in plain sentences, and the notes beside it.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/described.hpp"
#include "base/length.hpp"
#include "cutback/report.hpp"

namespace awlmark::cutback {
namespace {

// A run of pieces that goes in one board.
struct BoardRun {
  int row = 0;
  double from_in = 0, to_in = 0;
  std::string from, to;  // "the joist at 2' 8"", "the wall"
};

std::string end_words(const Job& job, const Model& model, const Block& block, bool high) {
  const End& end = high ? block.high : block.low;
  const double at = model.sheets[block.sheet].of->tape_in(high ? block.high_in : block.low_in);
  if (end.support != kNone) return "the " + doc::word_of(job.supports[end.support].role) + " at " + format_length(at);
  for (const auto& rim : model.rims) {
    if (&model.blocks[rim.block] != &block || !rim.is_end) continue;
    const double middle = (model.sheets[block.sheet].frame.u(rim.from_in) + model.sheets[block.sheet].frame.u(rim.to_in)) / 2;
    if ((middle > (block.low_in + block.high_in) / 2) == high) return "the wall";
  }
  return format_length(at);
}

std::vector<BoardRun> board_runs(const Job& job, const Model& model, const Plan& plan, int sheet) {
  std::vector<const Block*> gone;
  for (std::size_t b = 0; b < model.blocks.size(); ++b)
    if (plan.out[b] && model.blocks[b].sheet == sheet && !model.blocks[b].by_way) gone.push_back(&model.blocks[b]);
  std::stable_sort(gone.begin(), gone.end(), [](const Block* a, const Block* b) { return a->row != b->row ? a->row < b->row : a->low_in < b->low_in; });
  std::vector<BoardRun> runs;
  const Block* last = nullptr;
  for (const Block* block : gone) {
    if (last && block->row == last->row && (block->bay == last->bay + 1 || block->bay == last->bay)) {
      runs.back().to_in = std::max(runs.back().to_in, block->high_in);
      runs.back().to = end_words(job, model, *block, true);
    } else {
      runs.push_back({block->row, block->low_in, block->high_in, end_words(job, model, *block, false), end_words(job, model, *block, true)});
    }
    last = block;
  }
  return runs;
}

// The wall from which planks are counted.
std::string low_wall(const Job& job, const Model& model, int sheet) {
  for (const auto& rim : model.rims) {
    const Block& block = model.blocks[rim.block];
    if (block.sheet != sheet || rim.is_end || plank_number(model.sheets[sheet], block) != 1 || rim.wall == kNone) continue;
    const double off = model.sheets[sheet].frame.v(rim.from_in);
    if ((model.sheets[sheet].of->counts_down ? model.sheets[sheet].of->across_in - off : off) < 0.1) return "wall " + job.walls[rim.wall].id;
  }
  return "the wall at the low side";
}

void say_boards(const Job& job, const Model& model, const Plan& plan, int sheet, std::vector<std::string>& words) {
  const bool slanted = std::fabs(model.sheets[sheet].frame.along.x_in) > 1e-9 && std::fabs(model.sheets[sheet].frame.along.y_in) > 1e-9;
  auto runs = board_runs(job, model, plan, sheet);
  std::vector<char> said(runs.size(), 0);
  const std::string noun = model.sheets[sheet].tongued ? "plank" : "board";
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (said[i]) continue;
    int last = runs[i].row;
    for (std::size_t j = i + 1; j < runs.size(); ++j) {
      // Slanting supports cross each board elsewhere: the support's own word decides there.
      const bool same = slanted ? false : std::fabs(runs[j].from_in - runs[i].from_in) < 0.5 && std::fabs(runs[j].to_in - runs[i].to_in) < 0.5;
      if (said[j] || runs[j].row != last + 1 || !same) continue;
      said[j] = 1;
      last = runs[j].row;
    }
    const auto& of = *model.sheets[sheet].of;
    int low = of.number_of({runs[i].row - 1}).number, high = of.number_of({last - 1}).number;
    if (low > high) std::swap(low, high);
    const std::string which = low == high ? noun + " " + std::to_string(low) : noun + "s " + std::to_string(low) + " to " + std::to_string(high);
    if (of.tape_runs_back) std::swap(runs[i].from, runs[i].to);
    words.push_back("Take out " + which + " of " + model.sheets[sheet].id + ", counted from " + low_wall(job, model, sheet) + ", from " + runs[i].from +
                    " to " + runs[i].to + ".");
  }
}

// Pieces of one layer that hang together, as a box on the drawing.
void say_cells(const plan::Plan& floor_plan, const Model& model, const Plan& plan, int sheet, std::vector<std::string>& words) {
  std::vector<int> group(model.blocks.size(), kNone);
  const auto near = neighbours_of(model);
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    if (!plan.out[b] || model.blocks[b].sheet != sheet || model.blocks[b].by_way || group[b] != kNone) continue;
    std::vector<int> open{static_cast<int>(b)};
    group[b] = static_cast<int>(b);
    double area = 0;
    Box box = model.blocks[b].box;
    for (std::size_t k = 0; k < open.size(); ++k) {
      const Block& block = model.blocks[open[k]];
      area += block.area_in2;
      box = {std::min(box.x0_in, block.box.x0_in), std::min(box.y0_in, block.box.y0_in), std::max(box.x1_in, block.box.x1_in),
             std::max(box.y1_in, block.box.y1_in)};
      for (const auto& next : near[open[k]])
        if (plan.out[next.block] && !model.blocks[next.block].by_way && group[next.block] == kNone) {
          group[next.block] = static_cast<int>(b);
          open.push_back(next.block);
        }
    }
    box = bounds({floor_plan.drawn({box.x0_in, box.y0_in}), floor_plan.drawn({box.x1_in, box.y1_in})});
    words.push_back("Take out " + format_number(area / 144, 1) + " sq ft of " + model.sheets[sheet].id + " (" + model.sheets[sheet].spoken + "), from " +
                    format_length(box.x0_in) + " to " + format_length(box.x1_in) + " across the plan and " + format_length(box.y0_in) + " to " +
                    format_length(box.y1_in) + " up it.");
  }
}

void say_wall(const Job& job, const Model& model, const Plan& plan, int sheet, std::vector<std::string>& words) {
  double from = 0, to = -1;
  const Block* last = nullptr;
  const auto say = [&] {
    if (!last) return;
    const std::string stretch = "wall " + job.walls[last->wall].id + " from " + format_length(from) + " to " + format_length(to);
    if (model.sheets[sheet].build == Build::plate)
      words.push_back("Take out the bottom plate of " + stretch + ".");
    else if (last->row == 1)
      words.push_back("Cut the wallboard off " + stretch + ", " + format_length(figure("wallboard_strip")) + " up from the floor.");
  };
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    const Block& block = model.blocks[b];
    if (!plan.out[b] || block.sheet != sheet || block.row != 1) continue;
    if (last && std::fabs(block.wall_from_in - to) < 0.01) {
      to = block.wall_to_in;
    } else {
      say();
      from = block.wall_from_in;
      to = block.wall_to_in;
    }
    last = &block;
  }
  say();
}

bool any_out(const Model& model, const Plan& plan, int wall, Build build) {
  for (std::size_t b = 0; b < model.blocks.size(); ++b)
    if (plan.out[b] && model.blocks[b].wall == wall && model.sheets[model.blocks[b].sheet].build == build) return true;
  return false;
}

// How the cut meets a wall: not at all, along the boards, or across their ends.
enum class Meeting { none, along, ends };

Meeting meeting_of(const Model& model, const Plan& plan, int wall) {
  Meeting meeting = Meeting::none;
  for (const auto& rim : model.rims)
    if (rim.wall == wall && plan.out[rim.block] && rim.cut) meeting = rim.is_end || meeting == Meeting::ends ? Meeting::ends : Meeting::along;
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    if (!plan.out[b] || !model.sheets[model.blocks[b].sheet].bears) continue;
    for (const auto& plate : model.blocks)
      if (plate.wall == wall && model.sheets[plate.sheet].build == Build::plate && shared_area_in2(model.blocks[b].outline_in, plate.outline_in) > 1)
        return Meeting::ends;  // a partition that stands in the middle of what goes
  }
  return meeting;
}

void wall_notes(const Job& job, const Model& model, const Plan& plan, std::vector<std::string>& notes) {
  for (std::size_t w = 0; w < job.walls.size(); ++w) {
    const Wall& wall = job.walls[w];
    const Meeting meeting = meeting_of(model, plan, static_cast<int>(w));
    const bool plate = any_out(model, plan, static_cast<int>(w), Build::plate), deck = meeting != Meeting::none && wall.stands_on != StandsOn::framing;
    if (!deck && !plate) continue;
    std::string note = "Wall " + wall.id;
    if (deck) {
      note += wall.stands_on == StandsOn::deck ? " stands on the deck. " : " may stand on the deck: nobody said. ";
      note += meeting == Meeting::ends
                  ? "The boards run on beneath it: they are cut flush with it, and cleats along both sides of the wall carry the old ends and the new ones."
                  : "A board lies half beneath it: it is ripped flush with the wall, and what stays under the plate has to bear on every support.";
      if (plate) note += " Its plate goes too, so the boards beneath go with it.";
    } else {
      note += ": its plate goes; hold the studs before it is cut out.";
    }
    if (!wall.bearing)
      note += " Nobody said whether it bears: treat it as bearing, and shore it before anything under it is cut.";
    else if (*wall.bearing)
      note += " It is a bearing wall: shore it before anything under it is cut, and ask an engineer.";
    notes.push_back(note);
  }
}

void support_notes(const Job& job, const CutBack& cut, std::vector<std::string>& notes) {
  if (std::none_of(job.supports.begin(), job.supports.end(), [&](const Support& s) { return carries_deck(job, s); })) {
    notes.push_back("No supports were given: every cut across boards is planned in the air, with blocking. Measure the framing before cutting.");
    return;
  }
  if (std::any_of(job.supports.begin(), job.supports.end(), [&](const Support& s) { return !carries_deck(job, s); }))
    notes.push_back("Girders are taken to lie under the joists: no cut is planned to land on one.");
  for (const auto& edge : cut.edges) {
    if (edge.support.empty()) continue;
    const Support* support = find_support(job, edge.support);
    const double a = along_segment_in(edge.from_in, support->from_in, support->to_in), b = along_segment_in(edge.to_in, support->from_in, support->to_in);
    for (const auto& member : cut.members)
      if (member.support == edge.support && member.from_in < std::max(a, b) && member.to_in > std::min(a, b))
        notes.push_back("The cut lands on " + role_word(*support) + " where it is " + (member.known ? "decayed" : "likely decayed") +
                        ": the new ends need the sister or the new member, not this one.");
  }
  std::sort(notes.begin(), notes.end());
  notes.erase(std::unique(notes.begin(), notes.end()), notes.end());
}

void door_and_fixture_notes(const Job& job, const Model& model, const Plan& plan, std::vector<std::string>& notes) {
  for (std::size_t d = 0; d < job.room.doors.size(); ++d) {
    double most = 0;
    bool out = false;
    for (const auto& rim : model.rims)
      if (rim.door == static_cast<int>(d) && plan.out[rim.block] && model.sheets[model.blocks[rim.block].sheet].bears) {
        out = true;
        most = std::max(most, model.blocks[rim.block].known ? 1.0 : model.blocks[rim.block].p_unsound);
      }
    if (out)
      notes.push_back(
          "The cut reaches door " + job.room.doors[d].id + " (unsound there in " + format_number(most * 100, 0) +
          " in 100 draws): the floor runs on into the next room. Open there, and end the new floor under the middle of the closed door, on blocking.");
  }
  for (const auto& fixture : job.fixtures) {
    if (!fixture.stands) continue;
    for (std::size_t b = 0; b < model.blocks.size(); ++b)
      if (plan.out[b] && model.blocks[b].wall == kNone && shared_area_in2(model.blocks[b].outline_in, fixture.outline_in) > 1) {
        notes.push_back("What comes out lies under the " + doc::spoken(fixture.kind) + " (" + fixture.id + "), which still stands: lift it first.");
        break;
      }
  }
}

// What goes of the deck though it is more likely sound: worth an opening before it is cut.
void doubt_note(const Model& model, const Plan& plan, std::vector<std::string>& notes) {
  double out_sf = 0, doubtful_sf = 0;
  std::string deck;
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    const Block& block = model.blocks[b];
    if (!plan.out[b] || !model.sheets[block.sheet].bears || model.sheets[block.sheet].goes) continue;
    deck = model.sheets[block.sheet].id;
    out_sf += block.area_in2 / 144;
    if (!block.known && block.p_unsound < 0.5) doubtful_sf += block.area_in2 / 144;
  }
  if (doubtful_sf < 1) return;
  notes.push_back("Of the " + format_number(out_sf, 1) + " sq ft of " + deck + " that come out, " + format_number(doubtful_sf, 1) +
                  " are more likely sound than not: they go because rot left behind costs more than sound wood torn out, or for a rule's sake. "
                  "Another opening there may save them.");
}

// Says what the way takes in any case; true when that is the whole layer and nothing is left to say.
bool say_way(const Model& model, const Plan& plan, int sheet, std::vector<std::string>& words) {
  double by_way_sf = 0;
  bool all = true;
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    if (model.blocks[b].sheet != sheet) continue;
    all = all && plan.out[b];
    if (model.blocks[b].by_way) by_way_sf += model.blocks[b].area_in2 / 144;
  }
  if (by_way_sf <= 0) return false;
  if (all)
    words.push_back("Take out all of " + model.sheets[sheet].id + " (" + model.sheets[sheet].spoken + "): the way to rebuild takes it.");
  else
    words.push_back("Take out " + format_number(by_way_sf, 1) + " sq ft more of the layer " + model.sheets[sheet].id +
                    ": the way to rebuild takes it, along its edge.");
  return all;
}

}  // namespace

std::vector<std::string> words_of_cut(const plan::Plan& floor_plan, const Model& model, const Plan& plan) {
  const Job& job = floor_plan.job;
  std::vector<std::string> words;
  for (std::size_t s = 0; s < model.sheets.size(); ++s) {
    const int sheet = static_cast<int>(s);
    if (say_way(model, plan, sheet, words)) continue;
    switch (model.sheets[s].build) {
      case Build::boards:
        say_boards(job, model, plan, sheet, words);
        break;
      case Build::panel:
      case Build::cover:
        say_cells(floor_plan, model, plan, sheet, words);
        break;
      case Build::plate:
      case Build::wallboard:
        say_wall(job, model, plan, sheet, words);
        break;
    }
  }
  if (words.empty()) words.push_back("Nothing has to come out on what is known so far.");
  return words;
}

std::vector<std::string> notes_of_cut(const Job& job, const Model& model, const Plan& plan, const CutBack& cut) {
  std::vector<std::string> notes = model.notes;
  if (!structural_deck(job)) notes.push_back("The job has no structural deck: only the layers that are there were planned.");
  std::vector<std::string> more;
  doubt_note(model, plan, notes);
  support_notes(job, cut, more);
  wall_notes(job, model, plan, more);
  door_and_fixture_notes(job, model, plan, more);
  notes.insert(notes.end(), more.begin(), more.end());
  return notes;
}

}  // namespace awlmark::cutback
