// Where the sources lie. The path is compiled into source_dir.cpp alone, so that every other test file
// compiles to the same object in every clone and the compiler cache serves them all.
#pragma once

namespace awlmark::testing {

const char* source_dir();

}  // namespace awlmark::testing
