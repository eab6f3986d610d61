// docs/glossary.md first, then the examples, compiled into the program by cmake/EmbedData.cmake.
#pragma once

#include <span>
#include <string_view>

namespace kerfdraft::desk {

struct EmbeddedFile {
  std::string_view name;
  std::string_view text;
};

std::span<const EmbeddedFile> embeddedFiles();

}  // namespace kerfdraft::desk
