#include "papers/sheet.hpp"

#include <algorithm>
#include <utility>

#include "papers/style.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

// On every paper, whatever the findings say.
constexpr std::string_view kAlways[] = {
    "Local code decides, and the building official has the last word. Where this paper and local code differ, local code holds.",
    "This paper is not an engineer's, an architect's or a hygienist's report and carries no seal. Where it says that a licensed person is needed, do not start "
    "without one.",
    "Chances are reckoned from the spots that were looked at. Wood that nobody has seen can be worse, or better, than said here."};

}  // namespace

void reason_link(Markup& out, int number) {
  if (number <= 0) return;
  out.open("sup").element("a", "[" + std::to_string(number) + "]", {{"href", "#reason-" + std::to_string(number)}}).close();
}

Sheet::Sheet(const Job& job, const Findings& findings, std::string kind, Language language)
    : job_(job), findings_(findings), kind_(papers::said(language, kind)), language_(language) {
  body_.open("header", {{"class", "head"}})
      .element("h1", kind_)
      .element("p", job.job.name.empty() ? said("Job without a name") : job.job.name, {{"class", "of"}})
      .close();
}

std::string Sheet::title() const { return kind_ + (job_.job.name.empty() ? "" : ": " + shortened(job_.job.name, 120)); }

void Sheet::section(const std::string& title, bool new_page) {
  if (new_page)
    body_.element("h2", title, {{"class", "new-page"}});
  else
    body_.element("h2", title);
}

void Sheet::sub(const std::string& title) { body_.element("h3", title); }

void Sheet::say(const std::string& words, const std::string& css) {
  if (words.empty()) return;
  if (css.empty())
    body_.element("p", words);
  else
    body_.element("p", words, {{"class", css}});
}

void Sheet::list(const std::vector<std::string>& items, const std::string& css) {
  if (items.empty()) return;
  body_.open("ul", {{"class", css}});
  for (const auto& item : items) body_.element("li", item);
  body_.close();
}

void Sheet::facts(const std::vector<Fact>& facts) {
  body_.open("dl", {{"class", "facts"}});
  for (const auto& fact : facts) body_.open("div").element("dt", fact.name).element("dd", fact.value).close();
  body_.close();
}

void Sheet::table(const Table& table) {
  if (table.rows.empty()) return;
  const bool row_heads = table.css.find("blank") == std::string::npos;
  body_.open("div", {{"class", "wide"}}).open("table", {{"class", table.css}}).open("thead").open("tr");
  for (std::size_t i = 0; i < table.head.size(); ++i) {
    const bool number = i < table.rows[0].size() && table.rows[0][i].css.find("num") != std::string::npos;
    body_.element("th", table.head[i], {{"scope", "col"}, {"class", number ? "num" : ""}});
  }
  body_.close().close().open("tbody");
  for (const auto& row : table.rows) {
    body_.open("tr");
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string head = i < table.head.size() ? table.head[i] : "";
      if (i == 0 && row_heads && !row[i].text.empty())
        body_.open("th", {{"scope", "row"}, {"class", row[i].css}, {"data-h", head}});
      else
        body_.open("td", {{"class", row[i].css}, {"data-h", head}});
      // One element inside, so that the narrow layout can set name and value side by side.
      if (!row[i].text.empty() || row[i].reason > 0) {
        body_.open("span").text(row[i].text);
        reason_link(body_, row[i].reason);
        body_.close();
      }
      body_.close();
    }
    body_.close();
  }
  body_.close().close().close();
}

void Sheet::figure(const Drawing& drawing, const std::string& title, const Markup& legend) {
  ++figures_;
  body_.open("figure").open("div", {{"class", "paper"}}).add(drawing.svg).close();
  body_.open("figcaption").element("b", said("Drawing") + " " + std::to_string(figures_) + ". " + title + " ");
  if (!drawing.scale.name.empty()) body_.text(said("Scale") + " " + drawing.scale.name + " " + said("when printed at 100 % on letter paper."));
  for (const auto& note : drawing.notes) body_.text(" " + note);
  body_.element("span", " " + said("Slide the drawing sideways to see all of it."), {{"class", "slide"}});
  body_.close().close().add(legend);
}

void Sheet::cautions(const std::vector<std::string>& more) {
  std::vector<std::string> all(std::begin(kAlways), std::end(kAlways));
  const auto take = [&](const std::vector<std::string>& list) {
    for (const auto& caution : list)
      if (!caution.empty() && std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
  };
  take(findings_.cautions);
  take(more);
  body_.open("section", {{"class", "caution"}}).element("h2", "Cautions").open("ul");
  for (const auto& caution : all) body_.element("li", caution);
  body_.close().close();
}

void Sheet::caution_box(const std::vector<std::string>& more, bool floor_closed) {
  body_.open("section", {{"class", "caution brief"}}).element("h2", said("Cautions")).open("ul");
  body_.element("li", said("Local code decides, and the building official has the last word."));
  if (!floor_closed)
    body_.element("li", said("Nobody has seen all of this floor: keep people off and out from below where it may be rotten, and shore before weakening it."));
  for (const auto& caution : more) body_.element("li", said(caution));
  body_.close().close();
}

void Sheet::signatures(const std::vector<std::string>& roles) {
  body_.open("div", {{"class", "sign-off"}});
  for (const auto& role : roles) body_.element("div", said(role) + " " + said("(name, signature, date)"));
  body_.close();
}

std::string Sheet::html() const {
  Markup page;
  page.open("html", {{"lang", code_of(language_)}}).open("head").leaf("meta", {{"charset", "utf-8"}});
  page.leaf("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  page.element("title", title()).style_sheet(style_rules(title(), language_)).close();
  page.open("body").open("main").add(body_);
  std::string made = said("Made by Awlmark");
  if (!findings_.engine.empty()) made += " " + findings_.engine;
  made += " " + said("from the job document, seed") + " " + std::to_string(findings_.seed) + ". " + said("The same job gives the same paper.");
  page.element("p", made, {{"class", "small"}});
  return "<!DOCTYPE html>\n" + page.str() + "\n";
}

}  // namespace awlmark::papers
