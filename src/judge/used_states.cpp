// Everything by state is taken over in the order of the states that stay.
#include "judge/used_states.h"

#include <algorithm>

namespace kerfdraft::judge {
namespace {

template <class T>
std::vector<T> only(const std::vector<T>& all, const std::vector<std::size_t>& kept) {
  std::vector<T> out;
  for (const std::size_t k : kept) {
    if (k < all.size()) {
      out.push_back(all[k]);
    }
  }
  return out;
}

}  // namespace

std::optional<UsedStates> UsedStates::of(const Evidence& evidence) {
  UsedStates out(evidence);
  const std::vector<shop::State>& drawn = evidence.project().states;
  const auto used = [&](const StateResult& state) {
    const auto at = std::find_if(drawn.begin(), drawn.end(),
                                 [&](const shop::State& each) { return each.id == state.id; });
    return at == drawn.end() || !at->unused;
  };
  const std::vector<StateResult>& states = evidence.assessment.states;
  for (std::size_t s = 0; s < states.size(); ++s) {
    if (used(states[s])) {
      out.kept_.push_back(s);
    }
  }
  if (out.kept_.size() == states.size() || out.kept_.empty()) {
    return std::nullopt;
  }
  shop::Project project = evidence.project();
  std::erase_if(project.states, [](const shop::State& each) { return each.unused; });
  out.used_ = evidence.assessment;
  out.used_.project = std::make_shared<const shop::Project>(std::move(project));
  out.used_.states = only(states, out.kept_);
  return out;
}

Evidence UsedStates::evidence() const {
  Evidence out{used_,
               whole_.catalogue,
               only(whole_.margins, kept_),
               only(whole_.bands, kept_),
               only(whole_.sheets, kept_),
               {},
               whole_.freest,
               only(whole_.filter_life, kept_),
               only(whole_.chips, kept_),
               whole_.needs};
  for (std::size_t s = 0; s < out.margins.size(); ++s) {
    out.margins[s].state = s;
  }
  for (std::size_t s = 0; s < out.sheets.size(); ++s) {
    for (std::optional<Sheet>& sheet : out.sheets[s]) {
      if (sheet) {
        sheet->state = s;
      }
    }
  }
  for (const AloneFlow& alone : whole_.alone) {
    const auto at = std::find(kept_.begin(), kept_.end(), alone.state);
    if (at != kept_.end()) {
      out.alone.push_back(alone);
      out.alone.back().state = static_cast<std::size_t>(at - kept_.begin());
    }
  }
  return out;
}

}  // namespace kerfdraft::judge
