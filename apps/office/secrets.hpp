// Hashes, random words and the clock of the office.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace awlmark::office {

std::string sha256_hex(const std::string& bytes);
// The same, piece by piece.
class Sha256 {
 public:
  Sha256();
  ~Sha256();
  Sha256(const Sha256&) = delete;
  Sha256& operator=(const Sha256&) = delete;
  void add(const std::string& bytes) { add(bytes.data(), bytes.size()); }
  void add(const char* bytes, std::size_t size);
  std::string hex();  // once, at the end

 private:
  void* context_;
};
std::string random_token();                                    // 256 bits as hexadecimal digits
std::string random_code();                                     // 10 letters and digits that are not mistaken for each other, 50 bits
bool same_secret(const std::string& a, const std::string& b);  // in a time that does not depend on where they differ
std::string time_text();                                       // 2026-05-04T09:10:00Z
std::int64_t now_s();
// Moves the clock of the office, in tests.
void shift_clock_s(std::int64_t by);

}  // namespace awlmark::office
