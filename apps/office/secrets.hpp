// Hashes, random words and the clock of the office.
#pragma once

#include <cstdint>
#include <string>

namespace awlmark::office {

std::string sha256_hex(const std::string& bytes);
std::string random_token();                                    // 256 bits as hexadecimal digits
std::string random_code();                                     // 10 letters and digits that are not mistaken for each other, 50 bits
bool same_secret(const std::string& a, const std::string& b);  // in a time that does not depend on where they differ
std::string time_text();                                       // 2026-05-04T09:10:00Z
std::int64_t now_s();

}  // namespace awlmark::office
