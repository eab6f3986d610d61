// Projects as text, and what is wrong with a text that is none. docs/format.md describes the format; the
// tables in project_fields.h define it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "shop/project.h"

namespace kerfdraft::files {

/// At most this many problems of one file are told.
inline constexpr std::size_t kMostProblems = 20;

/// A project, or everything that is wrong with its text (at least one problem).
using ReadProject = tl::expected<shop::Project, std::vector<base::Error>>;

/// Reads a project's JSON text; `name` is the file named in errors. Each problem's `where` is the name, a
/// JSON pointer and the labels on the way: "shop.json: /ducts/0/corners/1/leg/bore (duct D1)". What is read
/// passes shop::checkProject.
ReadProject readProject(std::string_view text, std::string_view name);

/// The first of the problems, for callers that tell one.
base::Result<shop::Project> firstProblemOnly(ReadProject read);

/// The project's text: deterministic, keys in the order of the tables, coordinates in the project's units.
/// Throws InternalError where `extensions` is not the text of a JSON object.
std::string writeProject(const shop::Project& project);

}  // namespace kerfdraft::files
