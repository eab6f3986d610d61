// Evidence of the states that somebody works in. Inside the room only.
#pragma once

#include <optional>
#include <vector>

#include "judge/evidence.h"

namespace kerfdraft::judge {

/// A project without the states that are only kept to look at, with all that was gathered of the others.
class UsedStates {
 public:
  /// Nothing where every state is used, or none: then the evidence is as it should be.
  static std::optional<UsedStates> of(const Evidence& evidence);

  Evidence evidence() const;
  /// Index in the whole assessment of a state of this one.
  std::size_t whole(std::size_t state) const { return kept_[state]; }

 private:
  explicit UsedStates(const Evidence& whole) : whole_(whole) {}

  const Evidence& whole_;
  Assessment used_;
  std::vector<std::size_t> kept_;
};

}  // namespace kerfdraft::judge
