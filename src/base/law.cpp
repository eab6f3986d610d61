// Words for the standing of a source.
#include "base/law.h"

namespace kerfdraft::base {

std::string_view toText(SourceStatus status) {
  switch (status) {
    case SourceStatus::Published:
      return "published";
    case SourceStatus::FromMemory:
      return "from memory";
    case SourceStatus::CommonPractice:
      return "common practice, no source";
    case SourceStatus::Ours:
      return "ours";
  }
  return "";
}

}  // namespace kerfdraft::base
