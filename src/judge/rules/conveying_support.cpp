// Ways from pieces to legs and back, and the names that sentences need.
#include "judge/rules/conveying_support.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>

#include "catalogue/ducts.h"
#include "catalogue/materials.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

using pieces::Role;

constexpr const char* kSubject = "transport-velocity";
constexpr std::size_t kMostNames = 3;
/// An inlet that turns by less is the main itself: 15 degrees (ours; entries are sold from 30 degrees on).
constexpr double kBranch_rad = 15 * std::numbers::pi / 180;

/// Where the leg begins on which a piece lies: its key names corners, or gates between them.
bool placeOn(const shop::Duct& duct, base::Id begin, Stretch& out) {
  const auto gate = std::find_if(duct.gates.begin(), duct.gates.end(),
                                 [&](const shop::Gate& each) { return each.id == begin; });
  const base::Id corner = gate == duct.gates.end() ? begin : gate->corner;
  for (std::size_t i = 0; i + 1 < duct.corners.size(); ++i) {
    if (duct.corners[i].leg) {
      out.leg = &*duct.corners[i].leg;
    }
    if (duct.corners[i].id == corner) {
      out.duct = &duct;
      out.corner = i;
      return out.leg != nullptr;
    }
  }
  return false;
}

std::string system(const Evidence& evidence, const Stretch& stretch) {
  if (stretch.leg != nullptr && !stretch.leg->hose) {
    const auto made = catalogue::construction(evidence.catalogue, stretch.leg->construction);
    if (made && made->plastic) {
      return "plastic";
    }
  }
  return evidence.project().setting.units == base::UnitSystem::Us ? "inch" : "metric";
}

}  // namespace

std::vector<Stretch> stretchesOf(const Evidence& evidence, std::size_t state, std::size_t run) {
  std::vector<Stretch> out;
  const pieces::Run& of = evidence.pieces().runs[run];
  const network::Solution& solution = evidence.state(state).solution;
  for (std::size_t i = 0; i < of.pieces.size(); ++i) {
    const pieces::Piece& piece = of.pieces[i];
    if (piece.key.role != Role::Straight && piece.key.role != Role::Hose) {
      continue;
    }
    Stretch stretch;
    for (const shop::Duct& duct : evidence.project().ducts) {
      stretch.leg = nullptr;
      if (placeOn(duct, piece.key.a, stretch)) {
        break;
      }
    }
    if (stretch.duct == nullptr) {
      continue;
    }
    stretch.run = run;
    stretch.piece = i;
    stretch.bore_m = piece.bore_m;
    stretch.length_m = piece.length_m;
    if (solution.solved()) {
      const network::PieceResult& air = solution.runs[run].pieces[i];
      stretch.speed_m_s = std::abs(air.speed_m_s);
      stretch.flow_m3_s = stretch.speed_m_s * boreArea(piece.bore_m);
    }
    out.push_back(stretch);
  }
  return out;
}

Finding aboutDuct(const shop::Duct& duct) {
  Finding finding;
  finding.key = {Role::Run, duct.id, {}};
  finding.label = duct.label;
  return finding;
}

std::vector<std::size_t> portsThrough(const Evidence& evidence, std::size_t state, std::size_t run) {
  // Sheets go on behind the fan, where Evidence::path() ends.
  std::vector<std::size_t> out;
  const std::string& label = evidence.pieces().runs[run].label;
  for (std::size_t p = 0; p < evidence.pieces().ports.size(); ++p) {
    const std::optional<Sheet>& sheet = evidence.sheets[state][p];
    if (sheet && std::any_of(sheet->rows.begin(), sheet->rows.end(),
                             [&](const SheetRow& row) { return row.run == label; })) {
      out.push_back(p);
    }
  }
  return out;
}

std::vector<std::string> machinesOf(const Evidence& evidence, const std::vector<std::size_t>& ports) {
  std::vector<std::string> out;
  for (const std::size_t p : ports) {
    std::string name = evidence.machineName(evidence.pieces().ports[p].ref.machine);
    if (std::find(out.begin(), out.end(), name) == out.end()) {
      out.push_back(std::move(name));
    }
  }
  if (out.size() > kMostNames) {
    out.resize(kMostNames);
    out.emplace_back("others");
  }
  return out;
}

std::string chipsName(const Evidence& evidence, const std::string& material) {
  const auto rule = catalogue::transportRule(evidence.catalogue, material);
  std::string name = rule && !rule->name.empty() ? rule->name : material;
  if (!name.empty()) {
    name[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(name[0])));
  }
  return name;
}

Limit speedLimit(const Evidence& evidence, const RunMargin& margin, double value_m_s) {
  const auto& policies = evidence.project().setting.policies;
  const auto policy = std::find_if(policies.begin(), policies.end(), [](const shop::Policy& each) {
    return each.subject == kSubject && !each.choice.empty();
  });
  if (policy != policies.end()) {
    if (const auto rows = catalogue::transportVelocities(evidence.catalogue, margin.material)) {
      for (const catalogue::TransportVelocity& row : *rows) {
        if (row.authority == policy->choice && row.origin.source == margin.source) {
          return limitOf(row.origin, value_m_s, base::Kind::Speed,
                         std::string(kSubject) + ": " + policy->choice);
        }
      }
    }
  }
  const auto rule = catalogue::transportRule(evidence.catalogue, margin.material);
  const std::string working = std::string(kSubject) + ": the working rule";
  return rule ? limitOf(rule->origin, value_m_s, base::Kind::Speed, working)
              : Limit{value_m_s, base::Kind::Speed, {}, base::SourceStatus::CommonPractice, working};
}

std::optional<double> boreOf(const Evidence& evidence, const Stretch& stretch, Pick pick,
                             const std::function<bool(double bore_m)>& fits) {
  std::optional<double> out;
  for (const catalogue::Bore& bore : catalogue::boresOf(evidence.catalogue, system(evidence, stretch))) {
    const bool better = !out || (pick == Pick::Greatest ? bore.bore_m > *out : bore.bore_m < *out);
    if (better && fits(bore.bore_m)) {
      out = bore.bore_m;
    }
  }
  return out;
}

double boreArea(double bore_m) {
  return 0.25 * std::numbers::pi * bore_m * bore_m;
}

double riseOf(const Stretch& stretch) {
  const shop::Point& a = stretch.duct->corners[stretch.corner].at;
  const shop::Point& b = stretch.duct->corners[stretch.corner + 1].at;
  const double dz = static_cast<double>(b.z_um - a.z_um);
  const double length =
      std::hypot(static_cast<double>(b.x_um - a.x_um), static_cast<double>(b.y_um - a.y_um), dz);
  return length > 0 ? dz / length : 0;
}

std::vector<BranchEntry> branchEntries(const Evidence& evidence) {
  std::vector<BranchEntry> out;
  if (evidence.assessment.states.empty()) {
    return out;
  }
  for (const pieces::Junction& junction : evidence.pieces().junctions) {
    const pieces::JunctionLeg& outlet = junction.legs[junction.nominal_outlet];
    const std::vector<Stretch> behind = stretchesOf(evidence, 0, outlet.run);
    if (outlet.at_end || behind.empty()) {
      continue;
    }
    for (std::size_t i = 0; i < junction.legs.size(); ++i) {
      const pieces::JunctionLeg& leg = junction.legs[i];
      if (i == junction.nominal_outlet || !leg.at_end || junction.angle_rad[i] < kBranch_rad) {
        continue;
      }
      const std::vector<Stretch> before = stretchesOf(evidence, 0, leg.run);
      if (before.empty()) {
        continue;
      }
      out.push_back({leg.run, before.back().duct, outlet.run, behind.front().duct, riseOf(before.back()),
                     riseOf(behind.front())});
    }
  }
  return out;
}

}  // namespace kerfdraft::judge
