// Reading is files', putting together is judge's; names are looked up here as a person would say them.
#include "cli/shop_open.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <numeric>

#include "catalogue/near_keys.h"
#include "cli/common.h"
#include "cli/exit_codes.h"
#include "files/save.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Result;

}  // namespace

std::string lowered(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

OrProblems<judge::Assessment> openShop(const std::string& path, const catalogue::Catalogue& catalogue) {
  const auto refused = [](Problems problems) { return tl::make_unexpected(std::move(problems)); };
  files::ReadProject project = files::loadProject(path);
  if (!project) {
    return refused(std::move(project.error()));
  }
  Result<judge::Assessment> assessment = judge::assess(*project, catalogue);
  if (!assessment) {
    base::Error error = assessment.error();
    error.where = error.where.empty() ? path : path + ": " + error.where;
    return refused({std::move(error)});
  }
  return std::move(*assessment);
}

std::optional<OpenShop> openOrRefuse(const std::string& path, std::ostream& err) {
  Result<catalogue::Catalogue> catalogue = catalogue::Catalogue::shipped();
  if (!catalogue) {
    refuse(catalogue.error(), err);
    return std::nullopt;
  }
  OrProblems<judge::Assessment> assessment = openShop(path, *catalogue);
  if (!assessment) {
    refuseAll(assessment.error(), err);
    return std::nullopt;
  }
  return OpenShop{std::move(*catalogue), std::move(*assessment)};
}

int refuseAll(const Problems& problems, std::ostream& err) {
  for (const base::Error& problem : problems) {
    refuse(problem, err);
  }
  return kBadInput;
}

Result<std::size_t> stateByName(const judge::Assessment& assessment, std::string_view name) {
  std::vector<std::string> names;
  for (std::size_t s = 0; s < assessment.states.size(); ++s) {
    if (lowered(assessment.states[s].name) == lowered(name)) {
      return s;
    }
    names.push_back(assessment.states[s].name);
  }
  return fail(ErrorCode::Reference,
              fmt::format("there is no state \"{}\"{}", name, catalogue::nearKeysSentence(name, names)),
              "--state");
}

Result<std::vector<std::size_t>> statesByName(const judge::Assessment& assessment,
                                              const std::vector<std::string>& names) {
  std::vector<std::size_t> chosen;
  for (const std::string& name : names) {
    const Result<std::size_t> state = stateByName(assessment, name);
    if (!state) {
      return base::Failure(state.error());
    }
    chosen.push_back(*state);
  }
  if (chosen.empty()) {
    chosen.resize(assessment.states.size());
    std::iota(chosen.begin(), chosen.end(), std::size_t{0});
  }
  return chosen;
}

std::vector<std::size_t> usedStates(const judge::Assessment& assessment) {
  std::vector<std::size_t> all(assessment.states.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  std::vector<std::size_t> used = all;
  std::erase_if(used, [&](std::size_t s) {
    return std::any_of(
        assessment.project->states.begin(), assessment.project->states.end(),
        [&](const shop::State& state) { return state.id == assessment.states[s].id && state.unused; });
  });
  return used.empty() ? all : used;
}

int verdictCode(const judge::Verdict& verdict) {
  return !verdict.all_solved ? kNoSolution : verdict.all_served ? kAllServed : kNotServed;
}

Result<std::size_t> portByName(const judge::Assessment& assessment, std::string_view name) {
  const auto& ports = assessment.pieces->ports;
  const std::string asked = lowered(name);
  std::vector<std::size_t> partly;
  std::vector<std::string> labels;
  for (std::size_t p = 0; p < ports.size(); ++p) {
    std::string all = ports[p].label;
    for (const shop::Machine& machine : assessment.project->machines) {
      if (machine.id == ports[p].ref.machine) {
        all += '\n' + machine.label + ' ' + machine.name;
      }
    }
    if (lowered(ports[p].label) == asked) {
      return p;
    }
    if (lowered(all).find(asked) != std::string::npos) {
      partly.push_back(p);
    }
    labels.push_back(ports[p].label);
  }
  if (partly.size() == 1) {
    return partly.front();
  }
  return fail(ErrorCode::Reference,
              fmt::format("{} port is called \"{}\"; the ports are: {}",
                          partly.empty() ? "no" : "more than one", name, fmt::join(labels, ", ")),
              "--port");
}

std::string_view toText(shop::FilterState filter) {
  switch (filter) {
    case shop::FilterState::Clean:
      return "clean";
    case shop::FilterState::Seasoned:
      return "seasoned";
    case shop::FilterState::Due:
      return "due";
  }
  return "";
}

}  // namespace kerfdraft::cli
