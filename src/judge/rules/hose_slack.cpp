// Hose that hangs slack or is pushed together: it loses several times what it would lose pulled tight.
#include <fmt/format.h>

#include <algorithm>

#include "catalogue/ducts.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/hose_support.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

using pieces::Role;

/// Hose that loses so many times what it would lose pulled tight counts as slack (ours: hung with little sag
/// is 1.25 to 1.4, slack 3 and more).
constexpr double kSlack = 2;

/// How many times the loss of the same hose pulled tight; nothing where the tables lack it.
std::optional<double> timesTight(const Evidence& evidence, const pieces::Piece& piece, const shop::Leg& leg) {
  const bool smooth = leg.hose && leg.hose->inside == shop::HoseInside::Smooth;
  const auto tight = catalogue::hose(evidence.catalogue, smooth ? "smooth-tight" : "ribbed-tight");
  if (!tight || !(tight->friction_factor > 0)) {
    return std::nullopt;
  }
  return piece.multiplier / tight->friction_factor;
}

struct Slack {
  pieces::PieceKey key;
  double times = 0;
  double length_m = 0;
  std::vector<std::size_t> runs;
};

std::optional<Slack> slackOf(const Evidence& evidence, const shop::Duct& duct) {
  std::optional<Slack> out;
  const auto& runs = evidence.pieces().runs;
  for (std::size_t r = 0; r < runs.size(); ++r) {
    for (const pieces::Piece& piece : runs[r].pieces) {
      const auto leg = piece.key.role == Role::Hose ? legOfPiece(evidence, piece.key) : std::nullopt;
      if (!leg || leg->duct != &duct) {
        continue;
      }
      const auto times = timesTight(evidence, piece, *leg->leg);
      if (!times || *times < kSlack) {
        continue;
      }
      if (!out) {
        out = Slack{piece.key, *times, 0, {}};
      }
      out->times = std::max(out->times, *times);
      out->length_m += piece.length_m;
      if (out->runs.empty() || out->runs.back() != r) {
        out->runs.push_back(r);
      }
    }
  }
  return out;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (const shop::Duct& duct : evidence.project().ducts) {
    const auto slack = slackOf(evidence, duct);
    if (!slack) {
      continue;
    }
    double loss_pa = 0;
    double share = 0;
    forEachWay(evidence, [&](const Place&, const Way& way) {
      double here_pa = 0;
      for (const SheetRow& row : way.rows) {
        here_pa += row.key.role == Role::Hose && ductOfPiece(evidence, row.key) == &duct ? row.loss_pa : 0;
      }
      if (shareOf(way, here_pa) > share) {
        share = shareOf(way, here_pa);
        loss_pa = here_pa;
      }
    });
    Finding finding;
    finding.key = slack->key;
    finding.label = ductName(duct);
    finding.severity = Severity::Caution;
    finding.figures = {{"times", slack->times, base::Kind::Ratio},
                       {"length", slack->length_m, base::Kind::Length},
                       {"loss", loss_pa, base::Kind::Pressure},
                       {"tight", loss_pa / slack->times, base::Kind::Pressure},
                       {"share", share, base::Kind::Ratio}};
    finding.limit = Limit{kSlack, base::Kind::Ratio, {}, base::SourceStatus::Ours, {}};
    finding.badness = badnessOf(slack->times / kSlack);
    finding.runs = slack->runs;
    if (auto tight = tightHose(duct)) {
      finding.remedies.push_back(std::move(*tight));
    }
    for (const DrawnHose& each : hosesOf(duct)) {
      if (auto shorter = shorterHose(each)) {
        finding.remedies.push_back(std::move(*shorter));
      }
    }
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string length = voice.show(finding.figure("length"));
  const std::string times = voice.show(finding.figure("times"));
  const bool flows = finding.figure("loss").value > 0;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} of hose in {} hangs slack: it costs about {} times the suction of the same hose pulled "
          "tight.",
          length, finding.label, times);
    case Reader::Adviser:
      return fmt::format(
          "{}: {} of slack hose, about {} times the loss of tight{}.", finding.label, length, times,
          flows
              ? fmt::format(": {} instead of {}, {} of all the way loses", voice.show(finding.figure("loss")),
                            voice.show(finding.figure("tight")), voice.percent(finding.figure("share").value))
              : "");
    case Reader::Inspector:
      return fmt::format("{}: flexible duct of {} hangs slack.", finding.label, length);
  }
  return {};
}

}  // namespace

const Rule kHoseSlack{"hose-slack", Topic::Pressure, "Slack hose", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
