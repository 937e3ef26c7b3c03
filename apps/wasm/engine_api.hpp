// One request in, one reply out, both JSON: how a door that is not C++ asks the engine.
//
// In: {"do": WHAT, ...}. WHAT is
//   "read"    job or text                 -> {"job": as the schema `job` says, "text": as saved, "places": {mark id: [x, y]}}
//   "new"                                 -> {"text": a starting job}
//   "survey"  job or text, options?       -> findings, the survey only
//   "assess"  job or text, options?       -> findings
//   "papers"  job or text, options?       -> {"papers": [{file, title, html}], "findings": ...}
//   "merge"   base?, ours, theirs         -> {"merged", "conflicts": [{at, base, ours, theirs, kept, why}], "renamed": [{list, from, to, side}]}
//   "reckon"  topic?, in?                 -> the topic's answer; without `in` its help; without a topic the list
//   "schema"                              -> {"job": ..., "job_as_read": ..., "findings": ...}
// Three modules share the contract, so that a phone loads first what the first field needs: engine.mjs
// answers read, new, survey and merge; whole.mjs assess and papers; reckon.mjs reckon and schema.
// `job` is the document as JSON, `text` the document as text (a file somebody opened: duplicate keys
// and syntax errors are then found too). `options`: cell_in, draws, seed; of a survey also layer, a layer's
// id: its rot alone, at once, for the layer looked at while the rest is still worked out.
// Out: {"ok": true, "value": ..., "warnings": [...]} or {"ok": false, "problems": [...], "warnings": [...]}.
// A problem says at, what and mend. Nothing throws across this boundary.
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace awlmark::api {

using OnStage = std::function<void(std::string_view stage)>;

std::string run(std::string_view request, const OnStage& on_stage = {});

}  // namespace awlmark::api
