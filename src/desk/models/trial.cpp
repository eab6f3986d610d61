// A trial has the settings of the state that it began from, apart from the gates that were clicked.
#include "desk/models/trial.h"

#include <fmt/format.h>

#include <algorithm>

namespace kerfdraft::desk {
namespace {

constexpr const char* kTried = "As tried";

base::Given<base::Ratio> ratio(const char* text) {
  return *base::Given<base::Ratio>::parse(text, base::Standing::Assumed);
}

}  // namespace

double travelIn(const shop::State& state, base::Id gate) {
  const auto at = std::find_if(state.gates.begin(), state.gates.end(),
                               [&](const shop::GateSetting& each) { return each.gate == gate; });
  return at == state.gates.end() ? 0 : at->travel.si();
}

shop::State trialFrom(const shop::Project& project, const std::optional<shop::State>& trial,
                      std::size_t shown, base::Id new_id) {
  if (trial) {
    return *trial;
  }
  shop::State out;
  if (shown < project.states.size()) {
    out = project.states[shown];
  }
  out.id = new_id;
  out.name = kTried;
  out.unused = false;
  return out;
}

shop::State withGateToggled(shop::State trial, base::Id gate) {
  const bool open = travelIn(trial, gate) > 0;
  std::erase_if(trial.gates, [&](const shop::GateSetting& each) { return each.gate == gate; });
  if (!open) {
    trial.gates.push_back({gate, ratio("100 %")});
  }
  return trial;
}

shop::State keptTrial(const shop::Project& project, shop::State trial, std::string name) {
  const auto taken = [&](const std::string& text) {
    return std::any_of(project.states.begin(), project.states.end(),
                       [&](const shop::State& state) { return state.name == text; });
  };
  for (int k = 1; name.empty(); ++k) {
    std::string free = fmt::format("Trial {}", k);
    name = taken(free) ? std::string() : free;
  }
  trial.name = std::move(name);
  return trial;
}

}  // namespace kerfdraft::desk
