// An elbow, bend or Y close to the fan's inlet: the wheel is fed crooked air and pulls less than its curve
// says.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/pressure_rules.h"
#include "physics/fittings.h"

namespace kerfdraft::judge {

namespace {

/// Bores of straight duct behind which nothing of it is left (physics/fittings.h).
constexpr double kStraightBores = 5;
/// Below this share of the way's loss it is worth knowing and no more (ours).
constexpr double kNoteShare = 0.05;

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const pieces::Pieces& drawing = evidence.pieces();
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    for (const pieces::Piece& piece : drawing.runs[r].pieces) {
      if (piece.key.role != pieces::Role::FanInlet || !(piece.k_forward > 0)) {
        continue;
      }
      const shop::Collector* unit = evidence.collector(piece.key.a);
      if (unit == nullptr) {
        continue;
      }
      Severity severity = Severity::Note;
      double loss_pa = 0;
      double share = 0;
      forEachWay(evidence, [&](const Place& place, const Way& way) {
        for (const SheetRow& row : way.rows) {
          if (row.key != piece.key) {
            continue;
          }
          const double here = shareOf(way, row.loss_pa);
          const Severity grave =
              here < kNoteShare ? Severity::Note
                                : std::max(Severity::Caution, severityAt(evidence, place.state, place.port));
          if (worse(grave, here, severity, share)) {
            severity = grave;
            share = here;
            loss_pa = row.loss_pa;
          }
        }
      });
      const double bores =
          std::max(0.0, kStraightBores * (1 - piece.k_forward / physics::kDefaultSystemEffect));
      Finding finding;
      finding.key = piece.key;
      const auto fan = fanOf(drawing, unit->id);
      finding.label = fan ? drawing.fans[*fan].label : unit->label;
      finding.severity = severity;
      finding.figures = {{"bores", bores, base::Kind::Ratio},
                         {"straight", bores * piece.bore_m, base::Kind::Length},
                         {"wanted", kStraightBores * piece.bore_m, base::Kind::Length},
                         {"coefficient", piece.k_forward, base::Kind::Ratio},
                         {"loss", loss_pa, base::Kind::Pressure},
                         {"share", share, base::Kind::Ratio}};
      finding.limit = Limit{kStraightBores * piece.bore_m,
                            base::Kind::Length,
                            std::string(physics::kSystemEffect.source),
                            physics::kSystemEffect.status,
                            {}};
      finding.badness = 1 - bores / kStraightBores;
      finding.runs = {r};
      finding.remedies.push_back({"straight-inlet",
                                  {},
                                  {finding.label},
                                  Change{ChangeKind::StraightInlet, unit->id, {}, 0, false},
                                  {},
                                  {}});
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool none = finding.figure("bores").value < 0.05;
  const std::string straight = none ? std::string("no") : voice.show(finding.figure("straight")) + " of";
  const std::string wanted = voice.show(finding.figure("wanted"));
  const double loss_pa = finding.figure("loss").value;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("A bend or Y sits close to the inlet of {}: {} straight duct where {} are wanted.{}",
                         finding.label, straight, wanted,
                         loss_pa > 0 ? fmt::format(" It costs {} of the suction on the way.",
                                                   voice.percent(finding.figure("share").value))
                                     : "");
    case Reader::Adviser:
      return fmt::format(
          "{}: {} straight duct before the inlet, {} wanted; {} velocity pressures of system effect{}.",
          finding.label, straight, wanted, voice.show(finding.figure("coefficient")),
          loss_pa > 0 ? fmt::format(", {}, {} of all the way loses", voice.show(finding.figure("loss")),
                                    voice.percent(finding.figure("share").value))
                      : "");
    case Reader::Inspector:
      return fmt::format("{}: {} straight duct before the fan inlet, {} intended.", finding.label, straight,
                         wanted);
  }
  return {};
}

}  // namespace

const Rule kCrowdedInlet{"crowded-inlet", Topic::Pressure, "Bend too close to the fan's inlet", &look,
                         &tidied<tell>};

}  // namespace kerfdraft::judge
