// The C functions that the module exports, and the one JavaScript function it calls back.
#include <emscripten.h>

#include <cstdlib>
#include <cstring>
#include <string>

#include "engine_api.hpp"

// Progress: the host may set Module.onStage(name); it is called before each stage.
EM_JS(void, host_stage, (const char* name), {
  if (Module["onStage"]) Module["onStage"](UTF8ToString(name));
})

namespace {

constexpr char kNoMemory[] =
    R"({"ok":false,"problems":[{"at":"","what":"does not fit in this device's memory","mend":"close other tabs, or use a coarser grid"}],"warnings":[]})";

char* copy_out(const char* text, std::size_t size) {
  char* out = static_cast<char*>(std::malloc(size + 1));
  if (!out) return nullptr;
  std::memcpy(out, text, size);
  out[size] = '\0';
  return out;
}

}  // namespace

extern "C" {

// The reply belongs to the caller: hand it to engine_free. Null only when not even a sentence fits.
EMSCRIPTEN_KEEPALIVE char* engine_run(const char* request) {
  try {
    const std::string reply = awlmark::api::run(request, [](std::string_view stage) { host_stage(std::string(stage).c_str()); });
    if (char* out = copy_out(reply.data(), reply.size())) return out;
  } catch (...) {
    // run() answers its own faults; what is left is memory.
  }
  return copy_out(kNoMemory, sizeof kNoMemory - 1);
}

EMSCRIPTEN_KEEPALIVE void engine_free(char* reply) { std::free(reply); }
}
