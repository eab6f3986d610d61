// What can be put down: kinds of machines with what they want, one's own machines, collectors. Without Qt.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "shop/project.h"

namespace kerfdraft::desk {

enum class OfferKind { OwnMachine, Machine, Collector, LabelCollector };

struct Offer {
  OfferKind kind = OfferKind::Machine;
  std::string key;  ///< own machine: its id; machine: "kind" or "kind/requirement"; collector: key of its fan
  std::string name;   ///< "Cabinet table saw 10 in, in all"
  std::string wants;  ///< "350 cfm for chips, 450 cfm for dust"; empty where nothing is known
  std::string ports;  ///< "one 4 in at the base"
  std::string says;   ///< source, its status, and what is assumed
};

/// Everything that holds all words of `search`, one's own machines first. Whose figures decide is the
/// project's choice of policy "requirement".
base::Result<std::vector<Offer>> offers(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                        const std::vector<shop::Machine>& own, std::string_view search,
                                        base::UnitSystem units);

/// What the label of a collector says.
struct LabelTyped {
  std::string flow;
  std::string suction;
  std::string inlet;
};

/// Refused with a sentence: an offer that is not there; of a collector by its label a flow, suction or inlet
/// bore that is none.
struct InHandThing {
  std::optional<shop::Machine> machine{};
  std::optional<shop::Collector> collector{};
};
base::Result<InHandThing> takeOffer(const Offer& offer, const shop::Project& project,
                                    const catalogue::Catalogue& catalogue,
                                    const std::vector<shop::Machine>& own, const LabelTyped& label,
                                    base::UnitSystem units, base::IdSource& ids);

}  // namespace kerfdraft::desk
