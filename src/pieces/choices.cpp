// Keys of the setting and of the units, held against the catalogue.
#include "pieces/choices.h"

#include <fmt/format.h>

#include <algorithm>

#include "catalogue/materials.h"
#include "catalogue/strength.h"

namespace kerfdraft::pieces {
namespace {

using base::Failure;
using base::Result;

template <class T>
Result<void> known(Result<T> found, const std::string& where) {
  if (found) {
    return {};
  }
  found.error().where = where;
  return Failure(found.error());
}

/// "C1 Y1, bin-form".
std::string place(const shop::Collector& unit, const std::string& label, std::string_view field) {
  return label.empty() ? fmt::format("{}, {}", unit.label, field)
                       : fmt::format("{} {}, {}", unit.label, label, field);
}

Result<void> checkUnit(const shop::Collector& unit, const catalogue::Catalogue& catalogue) {
  for (const shop::Separator& separator : unit.separators) {
    if (separator.bin_form.empty()) {
      continue;
    }
    if (auto ok = known(catalogue::container(catalogue, separator.bin_form),
                        place(unit, separator.label, "bin-form"));
        !ok) {
      return ok;
    }
  }
  for (const shop::Filter& filter : unit.filters) {
    if (filter.cleaning.empty()) {
      continue;
    }
    if (auto ok =
            known(catalogue.row("filter_loading", filter.cleaning), place(unit, filter.label, "cleaning"));
        !ok) {
      return ok;
    }
  }
  return {};
}

}  // namespace

Result<void> checkChoices(const shop::Project& project, const catalogue::Catalogue& catalogue) {
  for (const shop::Policy& policy : project.setting.policies) {
    if (auto ok = known(catalogue::policyChoice(catalogue, policy.subject, policy.choice),
                        fmt::format("setting, policy \"{}\"", policy.subject.substr(0, 60)));
        !ok) {
      return ok;
    }
  }
  for (const std::string& wood : project.setting.woods) {
    if (auto ok = known(catalogue::wood(catalogue, wood), "setting, woods"); !ok) {
      return ok;
    }
  }
  for (const shop::Collector& unit : project.collectors) {
    if (auto ok = checkUnit(unit, catalogue); !ok) {
      return ok;
    }
  }
  return {};
}

Result<catalogue::PolicyChoice> chosenPolicy(const shop::Project& project,
                                             const catalogue::Catalogue& catalogue,
                                             std::string_view subject) {
  const std::vector<shop::Policy>& policies = project.setting.policies;
  const auto chosen = std::find_if(policies.begin(), policies.end(),
                                   [&](const shop::Policy& each) { return each.subject == subject; });
  return catalogue::policyChoice(catalogue, subject,
                                 chosen == policies.end() ? std::string_view() : chosen->choice);
}

}  // namespace kerfdraft::pieces
