#include "papers/wellformed.hpp"

#include <algorithm>
#include <cctype>

namespace awlmark::testing {
namespace {

class MarkupReader {
 public:
  explicit MarkupReader(const std::string& html) : text_(html) {}

  MarkupReading read() {
    const std::string doctype = "<!DOCTYPE html>";
    if (text_.rfind(doctype, 0) == 0) at_ = doctype.size();
    while (at_ < text_.size() && out_.problem.empty()) {
      if (text_[at_] == '<')
        tag();
      else
        words();
    }
    if (out_.problem.empty() && !open_.empty()) fail("not closed: " + open_.back());
    return out_;
  }

 private:
  void fail(const std::string& what) {
    if (out_.problem.empty()) out_.problem = what + " near: " + text_.substr(at_ > 40 ? at_ - 40 : 0, 100);
  }
  static bool name_char(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == ':'; }
  std::string name() {
    std::string out;
    while (at_ < text_.size() && name_char(text_[at_])) out += text_[at_++];
    if (out.empty()) fail("a name was expected");
    return out;
  }
  std::string resolved(const std::string& raw) {
    std::string out;
    for (std::size_t i = 0; i < raw.size();) {
      if (raw[i] != '&') {
        if (static_cast<unsigned char>(raw[i]) < 0x20 && raw[i] != '\n' && raw[i] != '\t') fail("control character");
        out += raw[i++];
        continue;
      }
      const auto end = raw.find(';', i);
      const auto ref = end == std::string::npos ? "" : raw.substr(i, end - i + 1);
      if (ref == "&amp;")
        out += '&';
      else if (ref == "&lt;")
        out += '<';
      else if (ref == "&gt;")
        out += '>';
      else if (ref == "&quot;")
        out += '"';
      else if (ref == "&#39;")
        out += '\'';
      else
        return fail("a bare & or an unknown reference"), out;
      i = end + 1;
    }
    return out;
  }
  bool in_svg() const { return std::find(open_.begin(), open_.end(), "svg") != open_.end(); }
  void words() {
    const auto end = std::min(text_.find('<', at_), text_.size());
    const auto raw = text_.substr(at_, end - at_);
    if (!open_.empty() && open_.back() == "style") {
      at_ = end;
      return;
    }
    if (raw.find('>') != std::string::npos) return fail("a bare >");
    out_.texts.push_back(resolved(raw));
    at_ = end;
  }
  void tag() {
    ++at_;
    if (at_ < text_.size() && text_[at_] == '/') {
      ++at_;
      const auto closing = name();
      if (open_.empty() || open_.back() != closing) return fail("closes " + closing + " but open is " + (open_.empty() ? "nothing" : open_.back()));
      open_.pop_back();
      if (at_ >= text_.size() || text_[at_++] != '>') fail("closing tag not ended");
      return;
    }
    const auto opening = name();
    if (!out_.problem.empty()) return;
    out_.tags.push_back(opening);
    while (at_ < text_.size() && text_[at_] == ' ') {
      ++at_;
      const auto key = name();
      if (at_ + 1 >= text_.size() || text_[at_] != '=' || text_[at_ + 1] != '"') return fail("an attribute without a quoted value");
      const auto end = text_.find('"', at_ + 2);
      if (end == std::string::npos) return fail("a quote not ended");
      const auto raw = text_.substr(at_ + 2, end - at_ - 2);
      if (raw.find('<') != std::string::npos) return fail("a < inside an attribute");
      out_.attributes.push_back(resolved(raw));
      if (key == "id") out_.ids.push_back(raw);
      at_ = end + 1;
    }
    const bool leaf = at_ < text_.size() && text_[at_] == '/';
    if (leaf) ++at_;
    if (at_ >= text_.size() || text_[at_++] != '>') return fail("a tag not ended");
    if (!leaf) open_.push_back(opening);
    // HTML reads <span/> as <span>: only its own void elements and SVG may close themselves.
    if (leaf && !in_svg() && opening != "meta" && opening != "br") fail(opening + " cannot close itself in HTML");
  }

  const std::string& text_;
  std::size_t at_ = 0;
  std::vector<std::string> open_;
  MarkupReading out_;
};

}  // namespace

MarkupReading read_markup(const std::string& html) { return MarkupReader(html).read(); }

}  // namespace awlmark::testing
