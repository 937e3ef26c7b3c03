// A small writer of HTML and SVG that cannot write a broken tag or an unescaped text.
//
// Guarantees: (1) whatever goes in as text or attribute value comes out escaped, as valid UTF-8,
// without control characters and without marks that turn the direction of the text; (2) every
// element opened is closed, in order; (3) the result is well-formed as XML and as HTML.
// Tags and attribute names are literals of this library, never text from a job.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace awlmark::papers {

// Text made safe for the inside of an element or a quoted attribute.
std::string escaped(std::string_view text);
// A quoted string of CSS, safe inside a <style> element.
std::string css_string(std::string_view text);
// At most `count` characters; longer text ends in an ellipsis.
std::string shortened(std::string_view text, std::size_t count);

struct Attribute {
  std::string_view name;
  std::string value;
};
using Attributes = std::initializer_list<Attribute>;

class Markup {
 public:
  Markup& open(std::string_view tag, Attributes attributes = {});
  Markup& close();
  // An element that HTML closes by itself: a shape of SVG, meta, br. Not for span, div and the like.
  Markup& leaf(std::string_view tag, Attributes attributes = {});
  Markup& text(std::string_view words);
  Markup& element(std::string_view tag, std::string_view words, Attributes attributes = {});
  // The content of another writer, all its elements closed.
  Markup& add(const Markup& other);
  // Rules of a style sheet; must not hold text from a job except through css_string.
  Markup& style_sheet(std::string_view rules);

  bool empty() const { return out_.empty(); }
  // The markup so far, with everything still open closed.
  std::string str() const;

 private:
  void tag_start(std::string_view tag, Attributes attributes);
  std::string out_;
  std::vector<std::string> open_;
};

}  // namespace awlmark::papers
