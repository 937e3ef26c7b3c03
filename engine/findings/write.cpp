#include "base/doc.hpp"
#include "findings/findings.hpp"

namespace awlmark {

doc::Json to_json(const Findings& findings) { return doc::write(findings); }

}  // namespace awlmark
