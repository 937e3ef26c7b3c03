// The files of data/, compiled into the engine as text (cmake/embed.cmake).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace awlmark::tables {

struct EmbeddedFile {
  std::string name;  // "materials.csv"
  std::string text;
};

const std::vector<EmbeddedFile>& embedded_files();
// The text of one file; an unknown name is a fault of the program and throws std::logic_error.
std::string_view embedded(std::string_view name);

}  // namespace awlmark::tables
