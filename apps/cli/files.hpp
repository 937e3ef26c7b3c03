// Files for the command line: whole files in, whole files out, nothing half-written.
#pragma once

#include <string>

#include "base/problem.hpp"

namespace awlmark::cli {

// The text of a file, or of standard input for "-". At most `max_bytes` are read.
Outcome<std::string> read_file(const std::string& path, std::size_t max_bytes);

// Writes beside the target and renames, so that a reader sees the old file or the new one.
Problems write_file(const std::string& path, const std::string& text);

// Makes the folder, and its parents, if need be.
Problems make_folder(const std::string& path);

}  // namespace awlmark::cli
