// Thin duct, hose, bins and liners that the fans can suck flat: held against the greatest suction, that of
// shut gates or a plug, which no state of use shows. One finding for each kind of thing.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "catalogue/strength.h"
#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"
#include "physics/fan.h"

namespace kerfdraft::judge {

namespace {

/// Greatest suction at each node, of the fans that its air can come to as drawn, with no air moving: fans one
/// behind the other add up, of fans side by side the strongest counts.
std::vector<double> greatestSuction(const pieces::Pieces& drawing) {
  using pieces::NodeKind;
  const double density_kg_m3 = drawing.air.density_kg_m3;
  std::vector<double> most_pa(drawing.nodes.size(), 0);
  bool grew = true;
  const auto raise = [&](std::size_t node, double suction_pa) {
    const NodeKind kind = drawing.nodes[node].kind;
    if (kind != NodeKind::Room && kind != NodeKind::Outdoors && suction_pa > most_pa[node]) {
      most_pa[node] = suction_pa;
      grew = true;
    }
  };
  // No way is longer than all nodes; more rounds could only be a fan that blows into itself.
  for (std::size_t round = 0; round < drawing.nodes.size() && grew; ++round) {
    grew = false;
    for (const pieces::Fan& fan : drawing.fans) {
      if (fan.rating) {
        raise(fan.from,
              physics::fanRise(*fan.rating, 0, density_kg_m3, density_kg_m3).p_pa + most_pa[fan.to]);
      }
    }
    for (const pieces::Run& run : drawing.runs) {
      if (!run.closed) {
        raise(run.from, most_pa[run.to]);
      }
    }
  }
  return most_pa;
}

/// The leg of a duct's stretch that begins at this corner.
const shop::Leg* legAt(const shop::Duct& duct, base::Id corner) {
  const shop::Leg* leg = nullptr;
  for (const shop::Corner& here : duct.corners) {
    leg = here.leg ? &*here.leg : leg;
    if (here.id == corner) {
      return leg;
    }
  }
  return nullptr;
}

/// A thing that may be sucked flat, and what draws at it.
struct Weak {
  catalogue::Strength strength;
  pieces::PieceKey key;
  std::string label;
  double suction_pa = 0;
};

void addDucts(const Evidence& evidence, const std::vector<double>& most_pa, std::vector<Weak>& out) {
  using pieces::Role;
  for (const pieces::Run& run : evidence.pieces().runs) {
    const double suction_pa = most_pa[run.to];
    for (const pieces::Piece& piece : run.pieces) {
      if ((piece.key.role != Role::Straight && piece.key.role != Role::Hose) || !(suction_pa > 0)) {
        continue;
      }
      const shop::Duct* duct = evidence.ductOfCorner(piece.key.a);
      const shop::Leg* leg = duct == nullptr ? nullptr : legAt(*duct, piece.key.a);
      if (leg == nullptr) {
        continue;
      }
      const auto strength =
          leg->hose ? catalogue::hoseStrength(evidence.catalogue, piece.bore_m)
                    : catalogue::ductStrength(evidence.catalogue, leg->construction, piece.bore_m);
      if (strength && suction_pa > strength->low_pa) {
        out.push_back({*strength, piece.key, duct->label.empty() ? duct->name : duct->label, suction_pa});
      }
    }
  }
}

void addBins(const Evidence& evidence, const std::vector<double>& most_pa, std::vector<Weak>& out) {
  for (const pieces::Run& run : evidence.pieces().runs) {
    for (const pieces::Piece& piece : run.pieces) {
      if (piece.key.role != pieces::Role::Separator) {
        continue;
      }
      for (const shop::Collector& collector : evidence.project().collectors) {
        for (const shop::Separator& separator : collector.separators) {
          if (separator.id != piece.key.a || separator.bin_form.empty()) {
            continue;
          }
          const double suction_pa = most_pa[run.to];
          const auto strength = catalogue::containerStrength(evidence.catalogue, separator.bin_form);
          if (strength && suction_pa > strength->low_pa) {
            const std::string& unit = collector.label.empty() ? collector.name : collector.label;
            out.push_back({*strength, piece.key, "bin of " + unit, suction_pa});
          }
        }
      }
    }
  }
}

/// Hose is one kind, each construction and each container another, whatever the bore.
std::string kindOf(const catalogue::Strength& strength) {
  return strength.thing + "/" + strength.construction + "/" + strength.container;
}

Remedy remedyFor(const Weak& worst, const std::vector<std::string>& where) {
  const std::string_view container = worst.strength.container;
  std::string kind = "stiffer-duct";
  if (container == "bag-liner" || container == "plastic-bag") {
    kind = "hold-liner";
  } else if (!container.empty()) {
    kind = "stiffer-bin";
  } else if (worst.strength.thing == "hose") {
    kind = "stiffer-hose";
  }
  return {std::move(kind), {{"suction", worst.suction_pa, base::Kind::Pressure}}, where, {}, {}, {}};
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const std::vector<double> most_pa = greatestSuction(evidence.pieces());
  std::vector<Weak> weak;
  addDucts(evidence, most_pa, weak);
  addBins(evidence, most_pa, weak);
  std::vector<std::string> kinds;
  for (const Weak& first : weak) {
    const std::string kind = kindOf(first.strength);
    if (std::find(kinds.begin(), kinds.end(), kind) != kinds.end()) {
      continue;
    }
    kinds.push_back(kind);
    const Weak* worst = &first;
    std::vector<std::string> where;
    for (const Weak& other : weak) {
      if (kindOf(other.strength) != kind) {
        continue;
      }
      if (other.suction_pa / other.strength.high_pa > worst->suction_pa / worst->strength.high_pa) {
        worst = &other;
      }
      if (std::find(where.begin(), where.end(), other.label) == where.end()) {
        where.push_back(other.label);
      }
    }
    Finding finding;
    finding.key = first.key;
    finding.label = listed(where);
    finding.figures = {{"suction", worst->suction_pa, base::Kind::Pressure},
                       {"low", worst->strength.low_pa, base::Kind::Pressure},
                       {"high", worst->strength.high_pa, base::Kind::Pressure}};
    const bool above = worst->suction_pa > worst->strength.high_pa;
    finding.words = {worst->strength.name, worst->strength.thing, above ? "above" : "between"};
    finding.limit = limitOf(worst->strength.origin, worst->strength.high_pa, base::Kind::Pressure);
    finding.severity = above ? Severity::Caution : Severity::Note;
    finding.badness = badnessOf(worst->suction_pa / worst->strength.high_pa);
    finding.remedies = {remedyFor(*worst, where)};
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string suction = voice.show(finding.figure("suction"));
  const std::string low = voice.show(finding.figure("low"));
  const std::string high = voice.show(finding.figure("high"));
  const std::string& name = finding.words[0];
  const bool above = finding.words[2] == "above";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("With the gates shut or a plug the fan pulls {} at {}. {}: {}.", suction,
                         finding.label, name,
                         above ? fmt::format("it gives way at {} at the latest", high)
                               : fmt::format("some of it gives way from {} on", low));
    case Reader::Adviser:
      return fmt::format("Greatest suction at {} {}, with no air moving; {} bears {} to {}.", finding.label,
                         suction, name, low, high);
    case Reader::Inspector:
      return fmt::format("{}: greatest suction {}; {} bears {} to {}. {}", finding.label, suction, name, low,
                         high, above ? "Not met." : "Cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kSuctionTooGreat{"suction-too-great", Topic::Collector, "More suction than duct or bin bear",
                            &look, &tidied<tell>};

}  // namespace kerfdraft::judge
