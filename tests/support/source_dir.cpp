#include "support/source_dir.hpp"

namespace awlmark::testing {

const char* source_dir() { return AWLMARK_SOURCE_DIR; }

}  // namespace awlmark::testing
