// The built page, read once at the start: no path of a request ever reaches the disk.
#pragma once

#include <map>
#include <string>

namespace awlmark::office {

struct PageFile {
  std::string type;
  std::string plain;
  std::string gzip;    // empty where packing gains nothing
  std::string brotli;  // the same
};

// By path as requests name it ("/", "/assets/..."). Throws std::runtime_error without index.html.
std::map<std::string, PageFile> read_pages(const std::string& folder);

}  // namespace awlmark::office
