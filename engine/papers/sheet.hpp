// One paper: page frame, running title, head, cautions, signatures; and the few blocks that papers
// are made of. Everything is inline, so the file stands alone.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "findings/findings.hpp"
#include "papers/drawing/canvas.hpp"
#include "papers/language.hpp"
#include "papers/markup.hpp"

namespace awlmark::papers {

struct Fact {
  std::string name;
  std::string value;
};

// A table whose cells are text; a cell may also be marked. The first cell of a row names the row, but where
// the table is one to fill in ("blank").
struct Cell {
  std::string text;
  std::string css = {};
  int reason = 0;  // number of the reason behind it, 0 for none
};
struct Table {
  std::vector<std::string> head;
  std::vector<std::vector<Cell>> rows;
  std::string css = {};
};

class Sheet {
 public:
  // `kind` is the paper's title: "Condition report".
  Sheet(const Job& job, const Findings& findings, std::string kind, Language language = Language::english);

  Markup& out() { return body_; }
  Language language() const { return language_; }
  std::string said(std::string_view english) const { return papers::said(language_, english); }
  void section(const std::string& title, bool new_page = false);
  void sub(const std::string& title);
  void say(const std::string& words, const std::string& css = {});
  void list(const std::vector<std::string>& items, const std::string& css = {});
  void facts(const std::vector<Fact>& facts);
  void table(const Table& table);
  // A drawing with its title, scale and what there was no room for.
  void figure(const Drawing& drawing, const std::string& title, const Markup& legend = {});
  void cautions(const std::vector<std::string>& more = {});
  // The few that decide on a short paper, in one line each.
  void caution_box(const std::vector<std::string>& more, bool floor_closed = false);  // closed: nobody is warned off it any more
  void signatures(const std::vector<std::string>& roles);

  std::string html() const;

 private:
  std::string title() const;
  const Job& job_;
  const Findings& findings_;
  std::string kind_;
  Language language_;
  Markup body_;
  int figures_ = 0;
};

// A superscript that leads to a reason of the appendix.
void reason_link(Markup& out, int number);

}  // namespace awlmark::papers
