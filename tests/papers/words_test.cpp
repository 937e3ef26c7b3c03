// Figures in plain words, and text that cannot break out of its element.
#include "papers/words.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "papers/keys.hpp"
#include "papers/markup.hpp"

namespace awlmark::papers {
namespace {

TEST(Words, SayChances) {
  EXPECT_EQ(chances(0.002), "less than 1 chance in 100");
  EXPECT_EQ(chances(0.05), "about 1 chance in 20");
  EXPECT_EQ(chances(0.5), "about an even chance");
  EXPECT_EQ(chances(0.9), "about 9 chances in 10");
  EXPECT_EQ(chances(1), "more than 99 chances in 100");
  EXPECT_EQ(chances(std::numeric_limits<double>::quiet_NaN()), "not known");
}

TEST(Words, SayAreasAndMoney) {
  EXPECT_EQ(square_feet(8.24), "8.2 sq ft");
  EXPECT_EQ(square_feet(15.9), "16 sq ft");
  EXPECT_EQ(between_square_feet(8.2, 15.9), "between 8.2 and 16 sq ft");
  EXPECT_EQ(between_square_feet(0, 0.01), "none");
  EXPECT_EQ(money(6400), "$6,400");
  EXPECT_EQ(money(1234567.4), "$1,234,567");
  EXPECT_EQ(money(-85), "-$85");
  EXPECT_EQ(rough_money(11849), "$11,800");
  EXPECT_EQ(rough_money(412), "$410");
  EXPECT_EQ(figure(0.133), "0.13");
  EXPECT_EQ(figure(1590), "1590");
  EXPECT_EQ(figure(12000), "12,000");
}

TEST(Words, SayRatios) {
  const Check over = make_check("a", "j1", "bending", 4, 3, {});
  EXPECT_EQ(ratio_words(over), "fails: asked for 1.33 times what it can give");
  EXPECT_EQ(ratio_words(make_check("a", "j1", "bending", 3, 4, {})), "holds, 25 % to spare");
  EXPECT_EQ(ratio_words(make_check("a", "deck", "deflection_live", 3, 2, {})), "too limber: bends 1.50 times as far as allowed");
  EXPECT_EQ(ratio_words(make_check("a", "j1", "bearing", 3, 0, {})), "fails: nothing is left to carry it");
  EXPECT_EQ(ratio_words(forbidden_check("a", "g1", "post", 900, {})), "fails: the rule does not allow it");
  EXPECT_EQ(ratio_words(make_check("a", "j1", "bending", 1, 1, {})), "holds, with nothing to spare");
}

TEST(Words, JoinAndCount) {
  EXPECT_EQ(joined({"a", "b", "c"}), "a, b and c");
  EXPECT_EQ(joined({}), "");
  EXPECT_EQ(count_of(1, "mark", "marks"), "1 mark");
  EXPECT_EQ(count_of(0, "mark", "marks"), "0 marks");
  EXPECT_EQ(date_of("2026-05-04T09:10:00Z"), "2026-05-04");
  EXPECT_EQ(date_of("yesterday"), "yesterday");
}

TEST(Keys, LettersRunOn) {
  EXPECT_EQ(letter_of(0), "A");
  EXPECT_EQ(letter_of(25), "Z");
  EXPECT_EQ(letter_of(26), "AA");
  EXPECT_EQ(drawing_name("g1", "G", 4), "g1");
  EXPECT_EQ(drawing_name("a very long id", "G", 4), "G5");
  EXPECT_EQ(drawing_name("", "G", 0), "G1");
}

TEST(Markup, EscapesTextAndAttributes) {
  EXPECT_EQ(escaped("<a href=\"x\">'&'</a>"), "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;&lt;/a&gt;");
  EXPECT_EQ(escaped(std::string("a\x01\x00z", 4)), "az");
  EXPECT_EQ(escaped("\xE2\x80\xAE"
                    "abc"),
            "abc")
      << "marks that turn the reading direction go";
  EXPECT_EQ(escaped("\xFF"), "\xEF\xBF\xBD") << "broken UTF-8 becomes the replacement character";
  EXPECT_EQ(escaped("\xF0\x9F\xAA\xB5"), "\xF0\x9F\xAA\xB5");
  EXPECT_EQ(escaped("\xED\xA0\x80").size(), 9u) << "a surrogate is not a character";
}

TEST(Markup, CssStringsHoldNoMarkup) {
  EXPECT_EQ(css_string("a\"b</style>\\"), "\"a\\22 b\\3c \\2f style\\3e \\5c \"");
  EXPECT_EQ(css_string("x\ny"), "\"x\\0a y\"");
}

TEST(Markup, ClosesWhatItOpens) {
  Markup out;
  out.open("div").open("p").text("a");
  EXPECT_EQ(out.str(), "<div><p>a</p></div>");
  out.close().close().close();
  EXPECT_EQ(out.str(), "<div><p>a</p>\n</div>\n");
}

TEST(Markup, ShortensByCharacters) {
  EXPECT_EQ(shortened("abcdef", 6), "abcdef");
  EXPECT_EQ(shortened("abcdefg", 6), "abcde\xE2\x80\xA6");
  EXPECT_EQ(shortened("\xC3\xA9\xC3\xA9\xC3\xA9", 2), "\xC3\xA9\xE2\x80\xA6");
}

}  // namespace
}  // namespace awlmark::papers
