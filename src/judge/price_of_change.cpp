// Prices of changes.
#include "judge/price_of_change.h"

namespace kerfdraft::judge {

std::optional<PriceBand> priceOfChange(const Evidence&, const Change& change) {
  switch (change.kind) {
    case ChangeKind::GateOpen:
    case ChangeKind::GateShut:
    case ChangeKind::FilterClean:
    case ChangeKind::HoseLength:  // a hose is cut
      return PriceBand{};
    default:
      return std::nullopt;
  }
}

}  // namespace kerfdraft::judge
