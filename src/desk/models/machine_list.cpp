// One row for each requirement of a kind, since what a machine wants hangs on its size.
#include "desk/models/machine_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "catalogue/machines.h"
#include "files/limits.h"
#include "files/quantity_text.h"
#include "pieces/choices.h"
#include "pieces/from_catalogue.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

std::string lowered(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

bool holdsAll(const Offer& offer, std::string_view search) {
  const std::string text = lowered(offer.name + " " + offer.ports + " " + offer.key);
  const std::string asked = lowered(search);
  for (std::size_t at = 0; at < asked.size();) {
    const std::size_t end = std::min(asked.find(' ', at), asked.size());
    if (end > at && text.find(asked.substr(at, end - at)) == std::string::npos) {
      return false;
    }
    at = end + 1;
  }
  return true;
}

std::string wantsText(const std::optional<double>& floor, const std::optional<double>& target,
                      base::UnitSystem units) {
  std::string out;
  if (floor) {
    out = fmt::format("{} for chips", base::formatQuantity(Kind::VolumeFlow, *floor, units));
  }
  if (target) {
    out += fmt::format("{}{} for dust too", out.empty() ? "" : ", ",
                       base::formatQuantity(Kind::VolumeFlow, *target, units));
  }
  return out;
}

/// "Hsg258: table 1, published", or the status alone where there is no source.
std::string sourced(const catalogue::Origin& origin) {
  return origin.source.empty() || origin.source == "no source"
             ? std::string(base::toText(origin.status))
             : fmt::format("{}, {}", origin.source, base::toText(origin.status));
}

/// Rows of the authority that decides, for the whole machine; else of the practice of small shops.
Result<std::vector<catalogue::Requirement>> asked(const shop::Project& project,
                                                  const catalogue::Catalogue& catalogue,
                                                  std::string_view kind) {
  const Result<catalogue::PolicyChoice> policy = pieces::chosenPolicy(project, catalogue, "requirement");
  if (!policy) {
    return Failure(policy.error());
  }
  auto rows = catalogue::requirements(catalogue, kind, policy->choice);
  if (!rows) {
    return rows;
  }
  std::erase_if(*rows, [](const catalogue::Requirement& row) {
    return !row.port.empty() || (!row.floor_flow_m3_s && !row.target_flow_m3_s);
  });
  return rows;
}

}  // namespace

Result<std::vector<Offer>> offers(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                  const std::vector<shop::Machine>& own, std::string_view search,
                                  base::UnitSystem units) {
  std::vector<Offer> out;
  const auto add = [&](Offer offer) {
    if (holdsAll(offer, search)) {
      out.push_back(std::move(offer));
    }
  };
  for (const shop::Machine& machine : own) {
    const auto si = [](const std::optional<base::Given<base::VolumeFlow>>& flow) {
      return flow ? std::optional(flow->si()) : std::nullopt;
    };
    add({OfferKind::OwnMachine, machine.id.text(), machine.name,
         wantsText(si(machine.floor), si(machine.target), units),
         fmt::format("{} port{}", machine.ports.size(), machine.ports.size() == 1 ? "" : "s"),
         "Kept by you, with its ports and figures."});
  }
  const auto kinds = catalogue.table("machine_kinds");
  if (!kinds) {
    return Failure(kinds.error());
  }
  for (const catalogue::Row& row : (*kinds)->rows()) {
    const auto kind = catalogue::machineKind(catalogue, row.key);
    if (!kind) {
      return Failure(kind.error());
    }
    const auto rows = asked(project, catalogue, row.key);
    if (!rows) {
      return Failure(rows.error());
    }
    constexpr std::string_view kAssumed =
        "Size of the body and places of the ports are assumed: put in your own.";
    if (rows->empty()) {
      add({OfferKind::Machine, kind->key, kind->name, "", kind->ports,
           fmt::format("No figure of the authority that this shop follows: type what it wants. {}",
                       kAssumed)});
    }
    for (const catalogue::Requirement& each : *rows) {
      const auto who = catalogue::authority(catalogue, each.authority);
      add({OfferKind::Machine, fmt::format("{}/{}", kind->key, each.key), each.name,
           wantsText(each.floor_flow_m3_s, each.target_flow_m3_s, units), kind->ports,
           fmt::format("{}: {}. {}", who ? who->name : each.authority, sourced(each.origin), kAssumed)});
    }
  }
  const auto fans = catalogue.table("test_fans");
  if (!fans) {
    return Failure(fans.error());
  }
  for (const catalogue::Row& row : (*fans)->rows()) {
    const auto fan = catalogue::testFan(catalogue, row.key);
    if (!fan) {
      return Failure(fan.error());
    }
    add({OfferKind::Collector, fan->key, fmt::format("Collector, {}", fan->like),
         fmt::format("{} with nothing connected, {} with the inlet shut",
                     base::formatQuantity(Kind::VolumeFlow, fan->free_flow_m3_s, units),
                     base::formatQuantity(Kind::Pressure, fan->shutoff_pa, units)),
         "a fan and one filter",
         "Its curve is invented and stands for no product. Put in the maker's curve."});
  }
  add({OfferKind::LabelCollector, "label", "Collector of which only the label is known",
       "flow with nothing connected and suction with the inlet shut, as the label says",
       "a fan and one filter",
       "Labels promise much: the answer is a wide band until the suction is measured or the maker gives a "
       "curve."});
  return out;
}

Result<InHandThing> takeOffer(const Offer& offer, const shop::Project& project,
                              const catalogue::Catalogue& catalogue, const std::vector<shop::Machine>& own,
                              const LabelTyped& label, base::UnitSystem units, base::IdSource& ids) {
  InHandThing out;
  switch (offer.kind) {
    case OfferKind::OwnMachine: {
      const auto at = std::find_if(own.begin(), own.end(),
                                   [&](const shop::Machine& each) { return each.id.text() == offer.key; });
      if (at == own.end()) {
        return fail(ErrorCode::Reference, "this machine is no longer among your own");
      }
      out.machine = *at;
      return out;
    }
    case OfferKind::Machine: {
      const std::size_t slash = offer.key.find('/');
      const auto kind = catalogue::machineKind(catalogue, offer.key.substr(0, slash));
      if (!kind) {
        return Failure(kind.error());
      }
      const auto rows = asked(project, catalogue, kind->key);
      if (!rows) {
        return Failure(rows.error());
      }
      const catalogue::Requirement* row = nullptr;
      if (slash != std::string::npos) {
        const auto at = std::find_if(rows->begin(), rows->end(), [&](const catalogue::Requirement& each) {
          return each.key == offer.key.substr(slash + 1);
        });
        row = at == rows->end() ? nullptr : &*at;
      }
      out.machine = pieces::machineOfKind(*kind, row, units, ids);
      if (row != nullptr) {
        out.machine->name = row->name;
      }
      return out;
    }
    case OfferKind::Collector:
    case OfferKind::LabelCollector:
      break;
  }
  const auto inlet = files::parseWithin(Kind::Length, label.inlet, files::kBore, "inlet bore");
  if (!inlet) {
    return Failure(inlet.error());
  }
  const auto bore = *base::Given<base::Length>::parse(label.inlet);
  if (offer.kind == OfferKind::Collector) {
    const auto fan = catalogue::testFan(catalogue, offer.key);
    if (!fan) {
      return Failure(fan.error());
    }
    out.collector = pieces::collectorOfFan(*fan, bore, units, ids);
    return out;
  }
  const auto flow = files::parseWithin(Kind::VolumeFlow, label.flow, files::kFlowAboveZero, "flow");
  const auto suction =
      files::parseWithin(Kind::Pressure, label.suction, files::kPressureAboveZero, "suction");
  if (!flow || !suction) {
    return Failure(flow ? suction.error() : flow.error());
  }
  shop::Collector unit;
  unit.id = ids.next();
  unit.name = "Collector";
  unit.inlet_bore = bore;
  unit.rating.basis = shop::RatingBasis::StaticAtInlet;
  unit.rating.free_air_flow =
      *base::Given<base::VolumeFlow>::parse(label.flow, base::Standing::Maker, "label");
  unit.rating.greatest_suction =
      *base::Given<base::Pressure>::parse(label.suction, base::Standing::Maker, "label");
  shop::Filter filter;
  filter.id = ids.next();
  filter.label = "F1";
  unit.filters.push_back(std::move(filter));
  out.collector = std::move(unit);
  return out;
}

}  // namespace kerfdraft::desk
