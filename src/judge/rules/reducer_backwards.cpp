// Bore that gets smaller in the direction of the air where no air leaves: at a reducer, at a meeting of ducts
// or right behind a machine's port. Everything behind it pays for the narrow part.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

using pieces::Role;

/// Sizes nearer than this are one size with two names (ours).
constexpr double kNarrower = 1.04;

struct Narrowing {
  pieces::PieceKey key;
  std::size_t run = 0;  ///< that begins or lies behind it
  double before_m = 0;
  double behind_m = 0;
  std::optional<std::size_t> port;  ///< where it chokes a port
};

/// The bore before the first piece of a run: that of the run before it where two meet end to end.
double boreBefore(const pieces::Pieces& drawing, std::size_t run) {
  if (drawing.nodes[drawing.runs[run].from].kind == pieces::NodeKind::Joint) {
    for (const pieces::Run& each : drawing.runs) {
      if (each.to == drawing.runs[run].from) {
        return each.end_bore_m;
      }
    }
  }
  return drawing.runs[run].start_bore_m;
}

std::optional<std::size_t> portOfRun(const pieces::Pieces& drawing, std::size_t run) {
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    if (drawing.ports[p].run == run) {
      return p;
    }
  }
  return std::nullopt;
}

std::vector<Narrowing> narrowings(const Evidence& evidence) {
  const pieces::Pieces& drawing = evidence.pieces();
  std::vector<Narrowing> out;
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    const auto& pieces = drawing.runs[r].pieces;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const pieces::PieceKey& key = pieces[i].key;
      // The step down to a unit's own inlet is its maker's size.
      if (key.role != Role::Reducer || evidence.collector(key.a) != nullptr ||
          evidence.collector(key.b) != nullptr) {
        continue;
      }
      const double before_m = i > 0 ? pieces[i - 1].bore_m : boreBefore(drawing, r);
      if (before_m > kNarrower * pieces[i].bore_m) {
        const bool at_port = i > 0 && pieces[i - 1].key.role == Role::Entry;
        out.push_back({key, r, before_m, pieces[i].bore_m, at_port ? portOfRun(drawing, r) : std::nullopt});
      }
    }
  }
  for (const pieces::Junction& junction : drawing.junctions) {
    const std::size_t main = junction.legs[junction.nominal_outlet].run;
    if (evidence.collector(drawing.runs[main].key.a) != nullptr) {
      continue;
    }
    double widest_m = 0;
    for (const pieces::JunctionLeg& leg : junction.legs) {
      widest_m = leg.at_end ? std::max(widest_m, drawing.runs[leg.run].end_bore_m) : widest_m;
    }
    if (widest_m > kNarrower * drawing.runs[main].start_bore_m) {
      out.push_back({drawing.nodes[junction.node].key, main, widest_m, drawing.runs[main].start_bore_m, {}});
    }
  }
  return out;
}

/// The stretch of duct or hose behind a narrowing: in its run, or where a moved hose begins in the next.
std::optional<DuctLeg> narrowLeg(const Evidence& evidence, const Narrowing& at) {
  const auto& runs = evidence.pieces().runs;
  for (std::size_t r = 0; r < runs.size(); ++r) {
    if (r != at.run && runs[r].from != runs[at.run].to) {
      continue;
    }
    for (const pieces::Piece& piece : runs[r].pieces) {
      const auto leg = legOfPiece(evidence, piece.key);
      if (leg && std::abs(leg->leg->bore.si() - at.behind_m) < 1e-6) {
        return leg;
      }
    }
  }
  return std::nullopt;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (const Narrowing& at : narrowings(evidence)) {
    const auto leg = narrowLeg(evidence, at);
    Finding finding;
    finding.key = at.key;
    finding.label = at.port ? evidence.pieces().ports[*at.port].label
                    : leg   ? ductName(*leg->duct)
                            : evidence.pieces().runs[at.run].label;
    finding.severity = Severity::Note;
    forEachWay(evidence, [&](const Place& place, const Way&) {
      const auto path = evidence.path(place.state, place.port);
      if (std::find(path.begin(), path.end(), at.run) != path.end()) {
        finding.severity = std::min(
            finding.severity, std::max(Severity::Caution, severityAt(evidence, place.state, place.port)));
        if (std::find(finding.ports.begin(), finding.ports.end(), place.port) == finding.ports.end()) {
          finding.ports.push_back(place.port);
        }
      }
    });
    finding.figures = {{"before", at.before_m, base::Kind::Bore}, {"behind", at.behind_m, base::Kind::Bore}};
    finding.words = {at.port ? "port" : (at.key.role == Role::Junction ? "meeting" : "reducer")};
    finding.limit = Limit{at.before_m, base::Kind::Bore, {}, base::SourceStatus::CommonPractice, {}};
    finding.badness = badnessOf(at.before_m / at.behind_m);
    finding.runs = {at.run};
    if (leg) {
      finding.remedies.push_back(
          {"widen-narrow-part",
           {{"bore", at.before_m, base::Kind::Bore}},
           {ductName(*leg->duct)},
           Change{ChangeKind::LegBore, leg->duct->id, leg->duct->corners[leg->corner].id, at.before_m, false},
           {},
           {}});
    }
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string before = voice.show(finding.figure("before"));
  const std::string behind = voice.show(finding.figure("behind"));
  if (finding.words[0] == "port") {
    return voice.reader() == Reader::Owner
               ? fmt::format("The {} port of {} is choked by {} duct right behind it.", before, finding.label,
                             behind)
               : fmt::format("{}: {} port into {} behind it; the bore shrinks where no air leaves.",
                             finding.label, before, behind);
  }
  const std::string where = finding.words[0] == "meeting" ? "behind a meeting of ducts" : "on its way";
  return voice.reader() == Reader::Owner
             ? fmt::format("{} gets narrower {}, from {} to {}: the same air has to squeeze through.",
                           finding.label, where, before, behind)
             : fmt::format(
                   "{}: bore falls from {} to {} in the direction of the air {}; no air leaves there.",
                   finding.label, before, behind, where);
}

}  // namespace

const Rule kReducerBackwards{"reducer-backwards", Topic::Pressure, "Duct narrows in the direction of the air",
                             &look, &tidied<tell>};

}  // namespace kerfdraft::judge
