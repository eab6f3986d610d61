// The steps from old formats, and the walk over them.
#include "files/migrations.h"

#include <fmt/format.h>

#include <charconv>

namespace kerfdraft::files {

using base::ErrorCode;
using base::fail;

std::span<const MigrationStep> migrationSteps() {
  return {};  // format 1 is the first
}

base::Result<void> migrate(Json& root, std::span<const MigrationStep> steps, int newest,
                           std::string_view name) {
  const std::string where = fmt::format("{}: /format", name);
  if (root.type != Json::Type::Object) {
    return fail(ErrorCode::Parse,
                fmt::format("a project is an object in braces, but the file holds {}", kindOf(root)),
                std::string(name));
  }
  Json* key = root.find("format");
  if (key == nullptr) {
    return fail(
        ErrorCode::Parse,
        fmt::format("the file has no \"format\", so it is not a project; one begins with \"format\": {}",
                    newest),
        std::string(name));
  }
  int format = 0;
  const char* const end = key->text.data() + key->text.size();
  const auto [stop, problem] = std::from_chars(key->text.data(), end, format);
  const bool too_long = problem == std::errc::result_out_of_range && !key->text.starts_with('-');
  if (key->type != Json::Type::Number || stop != end ||
      (!too_long && (problem != std::errc{} || format < 1))) {
    return fail(ErrorCode::Parse,
                fmt::format("the format {} is not a whole number from 1", asQuoted(key->text)), where);
  }
  if (too_long || format > newest) {
    return fail(
        ErrorCode::Version,
        fmt::format("the file has format {}, written by a newer version; this one reads up to format {}",
                    key->text, newest),
        where);
  }
  for (; format < newest; ++format) {
    const MigrationStep* step = nullptr;
    for (const MigrationStep& each : steps) {
      if (each.from == format) {
        step = &each;
      }
    }
    if (step == nullptr) {
      return fail(ErrorCode::Version, fmt::format("format {} is no longer read", format), where);
    }
    if (base::Result<void> done = step->apply(root); !done) {
      return done;
    }
  }
  key = root.find("format");
  base::check(key != nullptr, "a migration step took the format away");
  *key = Json::ofNumber(fmt::format("{}", newest));
  return {};
}

}  // namespace kerfdraft::files
