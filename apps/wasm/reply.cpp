#include "reply.hpp"

#include <algorithm>
#include <new>
#include <stdexcept>

namespace awlmark::api {

using doc::Json;

namespace {
Json as_json(const Problems& problems) { return doc::write(problems); }
}  // namespace

std::string reply_ok(const Json& value, const Problems& warnings) { return Json{{"ok", true}, {"value", value}, {"warnings", as_json(warnings)}}.dump(); }

std::string reply_not_ok(const Problems& problems, const Problems& warnings) {
  // A job may quote bytes that are not UTF-8 back at us: replace them rather than fail to answer.
  return Json{{"ok", false}, {"problems", as_json(problems)}, {"warnings", as_json(warnings)}}.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void refuse_unknown_keys(const Json& request, const std::vector<std::string>& known, Problems& problems) {
  for (const auto& [key, unused] : request.items())
    if (std::find(known.begin(), known.end(), key) == known.end()) doc::unknown_key(key, "", known, problems);
}

std::string guarded(const std::function<std::string()>& answer) {
  try {
    return answer();
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {
    return reply_not_ok({{"", std::string("met a fault in the program: ") + error.what(), "keep the job file and report it"}});
  }
}

}  // namespace awlmark::api
