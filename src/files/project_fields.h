// All field tables, and that of the whole project.
#pragma once

#include "files/fields_collectors.h"
#include "files/fields_ducts.h"
#include "files/fields_machines.h"
#include "files/fields_setting.h"

namespace kerfdraft::files {

/// The newest format that is read, and the one that is written.
inline constexpr int kFormat = 1;

/// `format` and `extensions` stand around these and are handled by the reader and writer themselves.
template <>
struct Table<shop::Project> {
  static constexpr std::string_view kNoun = "project";
  static constexpr std::string_view kDoc = "A whole project. Results are never stored in it.";
  static constexpr auto kFields =
      std::make_tuple(required("setting", &shop::Project::setting, "Whose shop it is."),
                      required("air", &shop::Project::air, "The air of the day."),
                      shown("rooms", &shop::Project::rooms, "The rooms."),
                      shown("machines", &shop::Project::machines, "The machines."),
                      shown("ducts", &shop::Project::ducts, "The ducts."),
                      shown("collectors", &shop::Project::collectors, "The collectors and boosters."),
                      shown("states", &shop::Project::states, "The states of use."));
};

inline constexpr std::string_view kFormatDoc = "Version of the format; this page tells of 1.";
inline constexpr std::string_view kExtensionsDoc =
    "An object with what other programs keep here. It is written back as it was.";

}  // namespace kerfdraft::files
