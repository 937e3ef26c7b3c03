// Where the office's tests keep things: a file of their own, and PostgreSQL where tools/test-office.sh
// started one (AWLMARK_TEST_PG holds its connection string).
#pragma once

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "office/store.hpp"

namespace awlmark::office::testing {

// A new, empty place each time.
class Place {
 public:
  explicit Place(bool postgres) : postgres_(postgres) {
    static int count = 0;
    const std::string name = "awlmark_test_" + std::to_string(::getpid()) + "_" + std::to_string(++count);
    if (postgres_) {
      const std::string server = std::getenv("AWLMARK_TEST_PG");
      open_postgres(server)->run("CREATE SCHEMA " + name);
      where_ = server + " options='-c search_path=" + name + "'";
    } else {
      folder_ = std::filesystem::temp_directory_path() / name;
      std::filesystem::create_directories(folder_);
      where_ = (folder_ / "office.db").string();
    }
  }
  ~Place() {
    std::error_code ignored;
    if (!folder_.empty()) std::filesystem::remove_all(folder_, ignored);
  }
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  const std::string& where() const { return where_; }
  std::unique_ptr<Store> open(std::size_t connections = 4) const {
    return std::make_unique<Store>(
        open_database(where_), [where = where_] { return open_database(where); }, connections);
  }
  bool postgres() const { return postgres_; }

 private:
  bool postgres_;
  std::filesystem::path folder_;
  std::string where_;
};

inline std::vector<bool> kinds() { return std::getenv("AWLMARK_TEST_PG") != nullptr ? std::vector<bool>{false, true} : std::vector<bool>{false}; }

}  // namespace awlmark::office::testing
