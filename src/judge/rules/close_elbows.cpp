// Elbows closer than two bores: what they lose together is not what tables say of each alone.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/pressure_rules.h"
#include "physics/fittings.h"

namespace kerfdraft::judge {

namespace {

using pieces::Role;

/// The spacing within which elbows disturb each other (docs: model of record, section 4; no credit and no
/// penalty is given, the published ratios scatter).
constexpr double kBores = 2;

struct Pairs {
  const shop::Duct* duct = nullptr;
  pieces::PieceKey key;
  std::size_t count = 0;
  double least_m = 0;
  double bore_m = 0;
  std::vector<std::size_t> runs;
};

void add(std::vector<Pairs>& all, const shop::Duct& duct, const pieces::Piece& elbow, double apart_m,
         std::size_t run) {
  auto pairs = std::find_if(all.begin(), all.end(), [&](const Pairs& each) { return each.duct == &duct; });
  if (pairs == all.end()) {
    all.push_back({&duct, elbow.key, 0, apart_m, elbow.bore_m, {}});
    pairs = all.end() - 1;
  }
  ++pairs->count;
  if (apart_m < pairs->least_m) {
    pairs->least_m = apart_m;
    pairs->bore_m = elbow.bore_m;
  }
  if (pairs->runs.empty() || pairs->runs.back() != run) {
    pairs->runs.push_back(run);
  }
}

std::vector<Pairs> closePairs(const Evidence& evidence) {
  std::vector<Pairs> all;
  const auto& runs = evidence.pieces().runs;
  for (std::size_t r = 0; r < runs.size(); ++r) {
    bool after_elbow = false;
    double apart_m = 0;
    for (const pieces::Piece& piece : runs[r].pieces) {
      if (piece.key.role == Role::Elbow) {
        const shop::Duct* duct = ductOfPiece(evidence, piece.key);
        if (after_elbow && duct != nullptr && physics::elbowsDisturb(apart_m, piece.bore_m)) {
          add(all, *duct, piece, apart_m, r);
        }
        after_elbow = true;
        apart_m = 0;
      }
      apart_m += piece.length_m;
    }
  }
  return all;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (const Pairs& pairs : closePairs(evidence)) {
    Finding finding;
    finding.key = pairs.key;
    finding.label = ductName(*pairs.duct);
    finding.severity = Severity::Note;
    finding.figures = {{"count", static_cast<double>(pairs.count), base::Kind::Ratio},
                       {"apart", pairs.least_m, base::Kind::Length},
                       {"bore", pairs.bore_m, base::Kind::Bore}};
    finding.limit =
        Limit{kBores * pairs.bore_m, base::Kind::Length, {}, base::SourceStatus::CommonPractice, {}};
    finding.badness = 1 - pairs.least_m / (kBores * pairs.bore_m);
    finding.runs = pairs.runs;
    finding.remedies.push_back({"spread-elbows", {}, {finding.label}, {}, {}, {}});
    finding.remedies.push_back({"wide-elbows",
                                {},
                                {finding.label},
                                Change{ChangeKind::WideElbows, pairs.duct->id, {}, 0, false},
                                {},
                                {}});
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const double count = finding.figure("count").value;
  const std::string apart = voice.show(finding.figure("apart"));
  const std::string bore = voice.show(finding.figure("bore"));
  const std::string pairs = count > 1 ? fmt::format("{:.0f} pairs of elbows", count) : "two elbows";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} has {} close together, the nearest {} apart. They may cost more than counted.",
                         finding.label, pairs, apart);
    case Reader::Adviser:
      return fmt::format(
          "{}: {}, nearest {} apart in {} duct, less than two bores; tables need not add, no penalty was "
          "taken.",
          finding.label, pairs, apart, bore);
    case Reader::Inspector:
      return fmt::format("{}: {}, nearest {} apart in {} duct.", finding.label, pairs, apart, bore);
  }
  return {};
}

}  // namespace

const Rule kCloseElbows{"close-elbows", Topic::Pressure, "Elbows close together", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
