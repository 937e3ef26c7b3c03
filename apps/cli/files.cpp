#include "files.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <system_error>

namespace awlmark::cli {
namespace fs = std::filesystem;

Outcome<std::string> read_file(const std::string& path, std::size_t max_bytes) {
  Outcome<std::string> outcome;
  std::ifstream file;
  std::istream* in = &std::cin;
  if (path != "-") {
    std::error_code error;
    if (!fs::exists(path, error)) {
      outcome.problems.push_back({path, "there is no such file", "check the path"});
      return outcome;
    }
    if (fs::is_directory(path, error)) {
      outcome.problems.push_back({path, "is a folder, not a file", "name the job's file"});
      return outcome;
    }
    file.open(path, std::ios::binary);
    if (!file) {
      outcome.problems.push_back({path, "cannot be opened", "check that you may read it"});
      return outcome;
    }
    in = &file;
  }
  std::string text;
  char buffer[1 << 16];
  while (in->read(buffer, sizeof buffer) || in->gcount() > 0) {
    text.append(buffer, static_cast<std::size_t>(in->gcount()));
    if (text.size() > max_bytes) {
      outcome.problems.push_back({path == "-" ? "standard input" : path, "is larger than " + std::to_string(max_bytes) + " bytes", "split the job"});
      return outcome;
    }
  }
  outcome.value = std::move(text);
  return outcome;
}

Problems write_file(const std::string& path, const std::string& text) {
  const std::string beside = path + ".part";
  {
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
    out.close();
    if (!out) {
      std::error_code ignored;
      fs::remove(beside, ignored);
      return {{path, "cannot be written", "check the folder, its rights and the space left"}};
    }
  }
  std::error_code error;
  fs::rename(beside, path, error);
  if (error) {
    std::error_code ignored;
    fs::remove(beside, ignored);
    return {{path, "cannot be put in place: " + error.message(), "check the folder"}};
  }
  return {};
}

Problems make_folder(const std::string& path) {
  std::error_code error;
  fs::create_directories(path, error);
  if (error || !fs::is_directory(path)) return {{path, "is not a folder and cannot be made one", "name another folder"}};
  return {};
}

}  // namespace awlmark::cli
