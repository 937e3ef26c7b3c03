// Dollars in words, the one rule of every paper, screen and notice.
#pragma once

#include <string>

namespace awlmark {

// To the dollar, with commas: "$1,204", "-$12"; "not known" where it is no number.
std::string format_dollars(double dollars);
// What is not that certain (percentiles, bases, caps, worth): to $100 from $1,000 on, to $10 from $200 on, to $5
// from $50 on, else to the dollar.
std::string rough_dollars(double dollars);

}  // namespace awlmark
