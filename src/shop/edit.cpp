// Makes an edit on a copy and refuses it where the copy contradicts itself.
#include "shop/edit.h"

#include <fmt/format.h>

#include <set>

#include "shop/edit_parts.h"
#include "shop/invariants.h"

namespace kerfdraft::shop {

using base::Result;

base::Failure notThere(std::string_view noun, Id id) {
  return base::fail(base::ErrorCode::Reference, fmt::format("no {} has the id {}", noun, id.text()), "edit");
}

Result<Project> applyEdits(const Project& project, std::span<const Edit> edits) {
  Project edited = project;
  for (const Edit& edit : edits) {
    const Result<void> made = std::visit([&](const auto& each) { return make(edited, each); }, edit);
    if (!made) {
      return base::Failure(made.error());
    }
  }
  const std::vector<base::Error> after = checkProject(edited);
  if (after.empty()) {
    return edited;
  }
  // A project that was read with a flaw may still be edited, as long as no new one comes in.
  std::multiset<std::string> before;
  for (const base::Error& error : checkProject(project)) {
    before.insert(error.message);
  }
  for (const base::Error& error : after) {
    const auto known = before.find(error.message);
    if (known == before.end()) {
      return base::Failure(error);
    }
    before.erase(known);
  }
  return edited;
}

Result<Project> applyEdit(const Project& project, const Edit& edit) {
  return applyEdits(project, std::span<const Edit>(&edit, 1));
}

}  // namespace kerfdraft::shop
