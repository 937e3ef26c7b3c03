#include "base/length.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/property.hpp"

namespace awlmark {
namespace {

TEST(Length, ReadsTheFormsThatPeopleWrite) {
  const std::pair<const char*, double> forms[] = {{"7' 4 1/2\"", 88.5},
                                                  {"7'-4 1/2\"", 88.5},
                                                  {"7-4 1/2", 88.5},
                                                  {"88.5", 88.5},
                                                  {"88 1/2\"", 88.5},
                                                  {"88 1/2", 88.5},
                                                  {"2.25 m", 2.25 / 0.0254},
                                                  {"12 cm", 12 / 2.54},
                                                  {"19 mm", 19 / 25.4},
                                                  {"7'", 84},
                                                  {"7 ft", 84},
                                                  {"7 ft 4 in", 88},
                                                  {"7 ft. 4 in.", 88},
                                                  {"1/2", 0.5},
                                                  {"-3/4", -0.75},
                                                  {".5", 0.5},
                                                  {"0", 0},
                                                  {"7\u2032 4\u2033", 88},
                                                  {"  6\"  ", 6},
                                                  {"3'6\"", 42},
                                                  {"7-4-1/2", 88.5},
                                                  {"6 3/16 in", 6.1875}};
  for (const auto& [text, inches] : forms) {
    const auto read = parse_length_in(text);
    ASSERT_TRUE(read) << text;
    EXPECT_NEAR(*read, inches, 1e-9) << text;
  }
}

TEST(Length, RefusesWhatIsNotALength) {
  for (const char* text :
       {"", " ", "seven", "7'' 4'", "7' 14\"", "1/0", "3/2 1/2", "7' 4 5/4\"", "12 furlongs", "--3", "1e5", "7-", "999999999999", "nan", "inf", "7' x"})
    EXPECT_FALSE(parse_length_in(text)) << text;
}

TEST(Length, WritesFeetInchesAndSixteenths) {
  EXPECT_EQ(format_length(88.5), "7' 4 1/2\"");
  EXPECT_EQ(format_length(5.5), "5 1/2\"");
  EXPECT_EQ(format_length(0), "0\"");
  EXPECT_EQ(format_length(11.99), "1' 0\"");
  EXPECT_EQ(format_length(-3.25), "-3 1/4\"");
  EXPECT_EQ(format_inches(88.5), "88 1/2\"");
  EXPECT_EQ(format_inches(0.0625), "1/16\"");
  EXPECT_EQ(format_length(std::nan("")), "?");
}

TEST(Length, WrittenLengthsReadBackToTheSixteenth) {
  testing::for_each_seed(5000, [](Random& random) {
    const double length = testing::between(random, -2000, 2000);
    const auto feet = parse_length_in(format_length(length));
    const auto inches = parse_length_in(format_inches(length));
    ASSERT_TRUE(feet && inches) << format_length(length);
    EXPECT_LE(std::fabs(*feet - length), 1.0 / 32 + 1e-9) << format_length(length);
    EXPECT_EQ(*feet, *inches);
    EXPECT_EQ(format_length(*feet), format_length(length));
  });
}

TEST(Length, AnyTextIsAnsweredWithoutHarm) {
  testing::for_each_seed(20000, [](Random& random) {
    static const std::string kLetters = "0123456789 -'\"/.ftinmc\xE2\x80\xB2";
    std::string text;
    for (auto n = random.below(12); n > 0; --n) text += kLetters[random.below(kLetters.size())];
    if (const auto read = parse_length_in(text)) EXPECT_TRUE(std::isfinite(*read) && std::fabs(*read) <= 1e6) << text;
  });
}

TEST(Number, FixedDigits) {
  EXPECT_EQ(format_number(1.005, 1), "1.0");
  EXPECT_EQ(format_number(-0.04, 1), "0.0");
  EXPECT_EQ(format_number(-12.345, 2), "-12.35");
  EXPECT_EQ(format_number(7, 0), "7");
}

}  // namespace
}  // namespace awlmark
