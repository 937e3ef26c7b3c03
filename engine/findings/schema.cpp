#include "base/doc.hpp"
#include "findings/findings.hpp"

namespace awlmark {

doc::Json findings_schema() { return doc::schema<Findings>("https://awlmark.invalid/schema/findings-1.json", "Awlmark findings, version 1", true); }

}  // namespace awlmark
