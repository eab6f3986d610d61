// Any bytes as a project: a project, or sentences. What is read is written and read back the same.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "files/project_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace kerfdraft;
  const files::ReadProject read =
      files::readProject(std::string_view(reinterpret_cast<const char*>(data), size), "fuzz.json");
  if (!read) {
    if (read.error().empty() || read.error().size() > files::kMostProblems) {
      std::abort();
    }
    for (const base::Error& error : read.error()) {
      if (error.message.empty() || error.where.rfind("fuzz.json", 0) != 0) {
        std::abort();
      }
    }
    return 0;
  }
  const std::string text = files::writeProject(*read);
  const files::ReadProject back = files::readProject(text, "fuzz.json");
  if (!back || !(*back == *read) || files::writeProject(*back) != text) {
    std::abort();
  }
  return 0;
}
