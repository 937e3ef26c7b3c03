#include "office/secrets.hpp"

#include <openssl/crypto.h>
#include <openssl/evp.h>
#include <openssl/rand.h>

#include <atomic>
#include <chrono>
#include <ctime>
#include <vector>

#include "office/database.hpp"

namespace awlmark::office {
namespace {

std::atomic<std::int64_t> shifted_s{0};

std::string hex(const unsigned char* bytes, std::size_t count) {
  static const char digits[] = "0123456789abcdef";
  std::string out;
  for (std::size_t i = 0; i < count; ++i) {
    out += digits[bytes[i] >> 4];
    out += digits[bytes[i] & 15];
  }
  return out;
}

std::vector<unsigned char> random_bytes(int count) {
  std::vector<unsigned char> bytes(static_cast<std::size_t>(count));
  if (RAND_bytes(bytes.data(), count) != 1) throw StoreError("the machine gives no random numbers");
  return bytes;
}

}  // namespace

std::string sha256_hex(const std::string& bytes) {
  unsigned char digest[EVP_MAX_MD_SIZE];
  unsigned int size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest, &size, EVP_sha256(), nullptr) != 1) throw StoreError("SHA-256 failed");
  return hex(digest, size);
}

Sha256::Sha256() : context_(EVP_MD_CTX_new()) {
  if (context_ == nullptr || EVP_DigestInit_ex(static_cast<EVP_MD_CTX*>(context_), EVP_sha256(), nullptr) != 1) throw StoreError("SHA-256 failed");
}
Sha256::~Sha256() { EVP_MD_CTX_free(static_cast<EVP_MD_CTX*>(context_)); }
void Sha256::add(const char* bytes, std::size_t size) {
  if (EVP_DigestUpdate(static_cast<EVP_MD_CTX*>(context_), bytes, size) != 1) throw StoreError("SHA-256 failed");
}
std::string Sha256::hex() {
  unsigned char digest[EVP_MAX_MD_SIZE];
  unsigned int size = 0;
  if (EVP_DigestFinal_ex(static_cast<EVP_MD_CTX*>(context_), digest, &size) != 1) throw StoreError("SHA-256 failed");
  return office::hex(digest, size);
}

std::string random_token() {
  const auto bytes = random_bytes(32);
  return hex(bytes.data(), bytes.size());
}

std::string random_code() {
  static const char letters[] = "23456789abcdefghjkmnpqrstuvwxyz0";  // 32: no 1, l, o, i
  std::string out;
  for (const unsigned char byte : random_bytes(10)) out += letters[byte & 31];
  return out;
}

bool same_secret(const std::string& a, const std::string& b) { return a.size() == b.size() && CRYPTO_memcmp(a.data(), b.data(), a.size()) == 0; }

std::int64_t now_s() { return shifted_s + std::chrono::duration_cast<std::chrono::seconds>(std::chrono::system_clock::now().time_since_epoch()).count(); }
void shift_clock_s(std::int64_t by) { shifted_s = by; }

std::string time_text() {
  const std::time_t now = static_cast<std::time_t>(now_s());
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text;
}

}  // namespace awlmark::office
