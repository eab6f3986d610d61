// The duct whose bore makes it the dearest part of a short port's way: one small drop shows as many symptoms,
// this names the drop.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

using pieces::Role;

/// The dearest duct is a cause from this share of the way's loss on (ours).
constexpr double kMostShare = 0.25;
constexpr double kSameBore_m = 1e-6;
constexpr std::size_t kSizes = 2;

/// All of one duct with one bore that lies on a way.
struct Part {
  DuctLeg at;
  double bore_m = 0;
  double friction_pa = 0;
  double fittings_pa = 0;
  double length_m = 0;
  double speed_m_s = 0;
  double growth = 1;  ///< of its flow, were the port served
  std::vector<std::size_t> runs;

  double loss() const { return friction_pa + fittings_pa; }
  /// At today's air in another bore: friction by the fifth power, fittings by the fourth (the Darcy form; the
  /// friction factor is kept, which overrates a wider duct's loss a little).
  double lossIn(double wider_m) const {
    const double ratio = bore_m / wider_m;
    return std::pow(ratio, 5) * friction_pa + std::pow(ratio, 4) * fittings_pa;
  }
  double speedIn(double wider_m) const { return speed_m_s * growth * std::pow(bore_m / wider_m, 2); }
};

bool counts(Role role) {
  return role == Role::Straight || role == Role::Hose || role == Role::Elbow || role == Role::HoseBend ||
         role == Role::Gate || role == Role::Reducer;
}

std::vector<Part> partsOf(const Evidence& evidence, const Way& way, const PortNeed& need) {
  std::vector<Part> parts;
  for (const SheetRow& row : way.rows) {
    const shop::Duct* duct = counts(row.key.role) ? ductOfPiece(evidence, row.key) : nullptr;
    if (duct == nullptr || !(row.loss_pa > 0)) {
      continue;
    }
    auto part = std::find_if(parts.begin(), parts.end(), [&](const Part& each) {
      return each.at.duct == duct && std::abs(each.bore_m - row.bore_m) < kSameBore_m;
    });
    if (part == parts.end()) {
      parts.emplace_back();
      part = parts.end() - 1;
      part->at.duct = duct;
      part->bore_m = row.bore_m;
    }
    (row.length_m > 0 ? part->friction_pa : part->fittings_pa) += row.loss_pa;
    part->length_m += row.length_m;
    if (row.length_m > 0 && std::abs(row.speed_m_s) > part->speed_m_s && row.flow_m3_s > 0) {
      part->speed_m_s = row.speed_m_s;
      part->growth = 1 + (need.needed_m3_s - need.flow_m3_s) / row.flow_m3_s;
    }
    const auto run = runOfLabel(evidence, row.run);
    if (run && std::find(part->runs.begin(), part->runs.end(), *run) == part->runs.end()) {
      part->runs.push_back(*run);
    }
  }
  return parts;
}

/// The first leg of the part's bore, whichever port is looked from.
DuctLeg firstLeg(const shop::Duct& duct, double bore_m) {
  for (std::size_t i = 0; i + 1 < duct.corners.size(); ++i) {
    const auto& leg = duct.corners[legGivenAt(duct, i)].leg;
    if (leg && std::abs(leg->bore.si() - bore_m) < kSameBore_m) {
      return {&duct, i, &*leg};
    }
  }
  return {};
}

/// Below this the chips that travel there would no longer be carried well; zero where none travel.
double leastSpeed(const Evidence& evidence, std::size_t state, const std::vector<std::size_t>& runs) {
  double least_m_s = 0;
  for (const RunMargin& margin : evidence.margins[state].runs) {
    if (std::find(runs.begin(), runs.end(), margin.run) != runs.end()) {
      least_m_s = std::max(least_m_s, margin.caution_below_m_s);
    }
  }
  return least_m_s;
}

/// Sizes that still carry the chips when the port is served.
std::vector<double> sizesFor(const Evidence& evidence, std::size_t state, const Part& part) {
  std::vector<double> sizes = soldAbove(evidence, part.bore_m, isPlastic(evidence, *part.at.leg), kSizes);
  const double least_m_s = leastSpeed(evidence, state, part.runs);
  std::erase_if(sizes, [&](double size_m) { return part.speedIn(size_m) < least_m_s; });
  return sizes;
}

bool oneBore(const shop::Duct& duct) {
  const double first_m = duct.corners.front().leg ? duct.corners.front().leg->bore.si() : 0;
  return std::all_of(duct.corners.begin(), duct.corners.end(), [&](const shop::Corner& corner) {
    return !corner.leg || std::abs(corner.leg->bore.si() - first_m) < kSameBore_m;
  });
}

/// Which part of its duct it is: a word for the sentences.
std::string_view partWord(const Part& part) {
  if (oneBore(*part.at.duct)) {
    return "whole";
  }
  return part.at.leg->hose ? "hose" : "part";
}

/// "D3 drop", "the hose of D3 drop", "the narrow part of D3 drop".
std::string nameOf(const Part& part) {
  const std::string duct = ductName(*part.at.duct);
  const std::string_view word = partWord(part);
  return word == "whole" ? duct : fmt::format("the {} of {}", word == "hose" ? "hose" : "narrow part", duct);
}

/// Ports at which the duct begins, and which would choke it if they stayed.
std::optional<std::string> smallerPort(const Evidence& evidence, const shop::Duct& duct, double size_m) {
  const auto smaller = [&](const shop::PortRef& ref) -> std::optional<std::string> {
    for (const pieces::PortPlace& place : evidence.pieces().ports) {
      if (place.ref == ref && place.bore_m < size_m - kSameBore_m) {
        return place.label;
      }
    }
    return std::nullopt;
  };
  if (const auto* port = std::get_if<shop::PortRef>(&duct.from)) {
    return smaller(*port);
  }
  return std::nullopt;
}

std::vector<Remedy> remedies(const Evidence& evidence, const Part& part, const std::vector<double>& sizes) {
  std::vector<Remedy> out;
  const shop::Duct& duct = *part.at.duct;
  const std::string name = nameOf(part);
  for (const double size_m : sizes) {
    const std::vector<Figure> figures{{"bore", size_m, base::Kind::Bore},
                                      {"loss", part.lossIn(size_m), base::Kind::Pressure}};
    out.push_back({"bigger-duct",
                   figures,
                   {name},
                   Change{ChangeKind::LegBore, duct.id, duct.corners[part.at.corner].id, size_m, false},
                   {},
                   {}});
    const auto port = oneBore(duct) ? smallerPort(evidence, duct, size_m) : std::nullopt;
    if (port) {
      out.push_back({"bigger-duct-and-port",
                     figures,
                     {name, *port},
                     Change{ChangeKind::Bore, duct.id, {}, size_m, true},
                     {},
                     {}});
    }
  }
  return out;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const std::size_t first = out.size();
  forEachWay(evidence, [&](const Place& place, const Way& way) {
    const auto need = portNeed(evidence, place.state, place.port);
    if (!need || !need->missed) {
      return;
    }
    std::vector<Part> parts = partsOf(evidence, way, *need);
    const auto dearest = std::max_element(parts.begin(), parts.end(),
                                          [](const Part& a, const Part& b) { return a.loss() < b.loss(); });
    if (dearest == parts.end() || shareOf(way, dearest->loss()) < kMostShare) {
      return;
    }
    dearest->at = firstLeg(*dearest->at.duct, dearest->bore_m);
    if (dearest->at.leg == nullptr) {
      return;
    }
    const std::vector<double> sizes = sizesFor(evidence, place.state, *dearest);
    if (sizes.empty()) {
      return;
    }
    const shop::Duct& duct = *dearest->at.duct;
    Finding finding;
    finding.key = {dearest->at.leg->hose ? Role::Hose : Role::Straight, duct.corners[dearest->at.corner].id,
                   duct.corners[dearest->at.corner + 1].id};
    finding.label = ductName(duct);
    finding.state = place.state;
    finding.severity = severityOf(evidence, place.state, *need);
    const double share = shareOf(way, dearest->loss());
    finding.figures = {{"bore", dearest->bore_m, base::Kind::Bore},
                       {"loss", dearest->loss(), base::Kind::Pressure},
                       {"way", way.lost_pa, base::Kind::Pressure},
                       {"share", share, base::Kind::Ratio},
                       {"length", dearest->length_m, base::Kind::Length},
                       {"speed", dearest->speed_m_s, base::Kind::Speed},
                       {"next", sizes.front(), base::Kind::Bore},
                       {"next-loss", dearest->lossIn(sizes.front()), base::Kind::Pressure}};
    if (sizes.size() > 1) {
      finding.figures.push_back({"second", sizes[1], base::Kind::Bore});
      finding.figures.push_back({"second-loss", dearest->lossIn(sizes[1]), base::Kind::Pressure});
    }
    finding.words = {std::string(partWord(*dearest)), evidence.pieces().ports[place.port].label};
    finding.limit = Limit{kMostShare, base::Kind::Ratio, {}, base::SourceStatus::Ours, {}};
    finding.badness = shareBadness(share, kMostShare);
    finding.runs = dearest->runs;
    finding.ports = {place.port};
    finding.remedies = remedies(evidence, *dearest, sizes);
    // One finding for each duct and state: of the port that lacks most, with all that lack named.
    const auto known = std::find_if(
        out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
        [&](const Finding& each) { return each.key == finding.key && each.state == finding.state; });
    if (known == out.end()) {
      out.push_back(std::move(finding));
      return;
    }
    if (worse(finding.severity, finding.badness, known->severity, known->badness)) {
      std::swap(*known, finding);
    }
    known->ports.insert(known->ports.end(), finding.ports.begin(), finding.ports.end());
    known->words.insert(known->words.end(), finding.words.begin() + 1, finding.words.end());
    for (const std::size_t run : finding.runs) {
      if (std::find(known->runs.begin(), known->runs.end(), run) == known->runs.end()) {
        known->runs.push_back(run);
      }
    }
  });
}

/// "D3 drop", or the part of it that is meant.
std::string subject(const Finding& finding, const std::string& bore) {
  if (finding.words[0] == "whole") {
    return finding.label;
  }
  return fmt::format("The {} {} of {}", bore, finding.words[0] == "hose" ? "hose" : "part", finding.label);
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string bore = voice.show(finding.figure("bore"));
  const std::string share = voice.percent(finding.figure("share").value);
  const std::string next = voice.show(finding.figure("next"));
  const std::string ports = listedFrom(finding, 1);
  const std::string what = subject(finding, bore);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} {} {} of the suction for {}. {} wide it would eat {} of that.", what,
                         finding.words[0] == "whole" ? fmt::format("is {} wide and eats", bore) : "eats",
                         share, ports, next,
                         voice.percent(finding.figure("next-loss").value / finding.figure("loss").value));
    case Reader::Adviser: {
      const Figure* second = finding.findFigure("second");
      return fmt::format(
          "{}: {} at {}, {} long on this way, loses {} of {} ({}). At the same air {} would lose {}{}. Short "
          "behind it: {}.",
          what, bore, voice.show(finding.figure("speed")), voice.show(finding.figure("length")),
          voice.show(finding.figure("loss")), voice.show(finding.figure("way")), share, next,
          voice.show(finding.figure("next-loss")),
          second == nullptr
              ? ""
              : fmt::format(", {} {}", voice.show(*second), voice.show(finding.figure("second-loss"))),
          ports);
    }
    case Reader::Inspector:
      return fmt::format(
          "{}: bore {}, {} of the pressure on the way of {} is lost in it; below the intended flow.",
          finding.label, bore, share, ports);
  }
  return {};
}

}  // namespace

const Rule kSmallDuct{"small-duct", Topic::Pressure, "Duct too small", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
