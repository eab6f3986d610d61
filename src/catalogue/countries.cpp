// Countries, and which exposure limits count in one.
#include "catalogue/countries.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace kerfdraft::catalogue {
namespace {

using base::Result;

std::string inCase(std::string_view text, int (*change)(int)) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [&](unsigned char c) { return static_cast<char>(change(c)); });
  return out;
}

/// How closely a limit's row names the wood: 0 the wood itself, 1 its group, 2 any; nothing: not for it.
std::optional<int> closeness(const ExposureLimit& limit, std::string_view wood, std::string_view group) {
  if (limit.wood == wood) {
    return 0;
  }
  if (!group.empty() && limit.wood == group) {
    return 1;
  }
  if (limit.wood == "any") {
    return 2;
  }
  return std::nullopt;
}

}  // namespace

Result<Country> country(const Catalogue& catalogue, std::string_view iso) {
  const Result<RowView> row = RowView::find(catalogue, "countries", inCase(iso, std::tolower));
  if (!row) {
    return base::fail(base::ErrorCode::Reference,
                      fmt::format("the table of countries does not have the code \"{}\"", iso.substr(0, 8)));
  }
  return Country{inCase(row->key(), std::toupper), row->name(), row->yes("in_eu"), row->origin()};
}

std::vector<std::string> countryNames(const Catalogue& catalogue, std::string_view iso) {
  const Result<Country> found = country(catalogue, iso);
  if (!found) {
    return {};
  }
  std::vector<std::string> names = {found->name};
  if (found->in_eu) {
    names.emplace_back(kEuropeanUnion);
  }
  return names;
}

std::vector<ExposureLimit> exposureLimitsFor(const Catalogue& catalogue, std::string_view iso,
                                             std::string_view wood_or_group) {
  std::string group(wood_or_group);
  if (const auto known = wood(catalogue, wood_or_group)) {
    group = known->group;
  }
  if (group == "board") {
    group = "hardwood";  // an unknown share of it
  }
  std::vector<std::pair<int, ExposureLimit>> found;
  for (const std::string& name : countryNames(catalogue, iso)) {
    for (ExposureLimit& limit : exposureLimits(catalogue, name)) {
      if (limit.force == "none") {
        continue;
      }
      const std::optional<int> rank =
          wood_or_group.empty() ? std::optional<int>(0) : closeness(limit, wood_or_group, group);
      if (rank) {
        found.emplace_back(*rank, std::move(limit));
      }
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<ExposureLimit> list;
  list.reserve(found.size());
  for (auto& [rank, limit] : found) {
    list.push_back(std::move(limit));
  }
  return list;
}

}  // namespace kerfdraft::catalogue
