// A small port before a bigger drop: most of the suction is spent in the port itself, and a bigger duct or
// fan brings little.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::judge {

namespace {

/// The duct counts as bigger from a tenth more bore on, and a port as starving it from about a third of the
/// way's loss on: filter and separator are in the way too (both ours).
constexpr double kBigger = 1.1;
constexpr double kMostShare = 0.35;

/// Bore of the first duct or hose behind a port; nothing where none follows.
std::optional<double> boreBehind(const Way& way) {
  for (const SheetRow& row : way.rows) {
    if (row.key.role == pieces::Role::Straight || row.key.role == pieces::Role::Hose) {
      return row.bore_m;
    }
  }
  return std::nullopt;
}

struct AtPort {
  double loss_pa = 0;
  double speed_m_s = 0;
};

/// Entry and the step behind it.
AtPort atPort(const Way& way, const pieces::PortPlace& port) {
  AtPort out;
  for (const SheetRow& row : way.rows) {
    const bool entry = row.key.role == pieces::Role::Entry && row.key.a == port.ref.port;
    if (entry || (row.key.role == pieces::Role::Reducer && row.key.a == port.ref.port)) {
      out.loss_pa += row.loss_pa;
      out.speed_m_s = entry ? row.speed_m_s : out.speed_m_s;
    }
  }
  return out;
}

std::vector<Remedy> remedies(const Evidence& evidence, const pieces::PortPlace& port, double behind_m) {
  std::vector<Remedy> out;
  std::vector<double> sizes = soldAbove(evidence, port.bore_m, false, 3);
  std::erase_if(sizes, [&](double size_m) { return size_m >= behind_m; });
  sizes.push_back(behind_m);
  out.reserve(sizes.size());
  for (const double size_m : sizes) {
    out.push_back({"bigger-port",
                   {{"bore", size_m, base::Kind::Bore}},
                   {port.label},
                   Change{ChangeKind::PortBore, port.ref.machine, port.ref.port, size_m, false},
                   {},
                   {}});
  }
  return out;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  forEachWay(evidence, [&](const Place& place, const Way& way) {
    const pieces::PortPlace& port = evidence.pieces().ports[place.port];
    const auto behind_m = boreBehind(way);
    if (!behind_m || *behind_m < kBigger * port.bore_m || !anyCollectorRuns(evidence, place.state)) {
      return;
    }
    const AtPort at = atPort(way, port);
    const double share = shareOf(way, at.loss_pa);
    if (!(share > kMostShare)) {
      return;
    }
    Finding finding;
    finding.key = evidence.pieces().runs[port.run].pieces.front().key;
    finding.label = port.label;
    finding.state = place.state;
    finding.severity = severityAt(evidence, place.state, place.port);
    finding.figures = {
        {"bore", port.bore_m, base::Kind::Bore},    {"behind", *behind_m, base::Kind::Bore},
        {"loss", at.loss_pa, base::Kind::Pressure}, {"way", way.lost_pa, base::Kind::Pressure},
        {"share", share, base::Kind::Ratio},        {"speed", at.speed_m_s, base::Kind::Speed}};
    finding.limit = Limit{kMostShare, base::Kind::Ratio, {}, base::SourceStatus::Ours, {}};
    finding.badness = shareBadness(share, kMostShare);
    finding.runs = {port.run};
    finding.ports = {place.port};
    finding.remedies = remedies(evidence, port, *behind_m);
    out.push_back(std::move(finding));
  });
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string bore = voice.show(finding.figure("bore"));
  const std::string behind = voice.show(finding.figure("behind"));
  const std::string share = voice.percent(finding.figure("share").value);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("The {} port of {} eats {} of the suction before the {} duct begins.", bore,
                         finding.label, share, behind);
    case Reader::Adviser:
      return fmt::format(
          "Port of {}: {} before {} duct, {} in it; entry and step lose {} of {} on the whole way ({}).",
          finding.label, bore, behind, voice.show(finding.figure("speed")),
          voice.show(finding.figure("loss")), voice.show(finding.figure("way")), share);
    case Reader::Inspector:
      return fmt::format(
          "{}: connection {} before a {} duct; {} of the pressure on its whole way is lost in it.",
          finding.label, bore, behind, share);
  }
  return {};
}

}  // namespace

const Rule kSmallPort{"small-port", Topic::Air, "Port too small for its duct", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
