// A plant past the size up to which a person may plan alone: the wood fire code of the United States, or the
// European standard for indoor units, asks for people who are licensed to judge it. Once for the project.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue/countries.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Scope of the US wood fire code: 1500 cfm in all, or 5000 ft2 (a trade note that quotes Nfpa664 1.1.2).
constexpr double kUsFlow_m3_s = 1500 * 0.3048 * 0.3048 * 0.3048 / 60;
constexpr double kUsFloor_m2 = 5000 * 0.3048 * 0.3048;
constexpr const char* kUsSource = "Nfpa664: 1.1.2 (as quoted)";
/// Scope of the European standard for indoor units (catalogues of standards), and the dirty-side volume from
/// which it asks for more (a summary in the trade press).
constexpr double kEuFlow_m3_s = 8000.0 / 3600;
constexpr double kEuDirty_m3 = 0.8;
constexpr const char* kEuSource = "En16770: scope";

bool european(const Evidence& evidence) {
  const std::string& iso = evidence.project().setting.country;
  const auto names = catalogue::countryNames(evidence.catalogue, iso);
  return std::find(names.begin(), names.end(), catalogue::kEuropeanUnion) != names.end() || iso == "GB" ||
         iso == "CH" || iso == "NO" || iso == "IS" || iso == "LI";
}

double floorArea(const shop::Project& project) {
  double sum_m2 = 0;
  for (const shop::Room& room : project.rooms) {
    double twice_m2 = 0;
    for (std::size_t i = 0; i < room.outline.size(); ++i) {
      const shop::PlanPoint& a = room.outline[i];
      const shop::PlanPoint& b = room.outline[(i + 1) % room.outline.size()];
      twice_m2 += 1e-12 * (static_cast<double>(a.x_um) * static_cast<double>(b.y_um) -
                           static_cast<double>(b.x_um) * static_cast<double>(a.y_um));
    }
    sum_m2 += 0.5 * std::abs(twice_m2);
  }
  return sum_m2;
}

/// The greatest flow in any state, of all collectors together or of one.
struct Greatest {
  double flow_m3_s = 0;
  double low_m3_s = 0;  ///< lower end of the prediction
  std::optional<std::size_t> state;
};

Greatest greatest(const Evidence& evidence, bool together) {
  Greatest out;
  const pieces::Pieces& drawing = evidence.pieces();
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    Greatest sum;
    for (std::size_t f = 0; evidence.solved(s) && f < drawing.fans.size(); ++f) {
      // A booster's air is that of the collector behind it.
      if (drawing.fans[f].key.role != pieces::Role::Fan || outletOf(drawing, f) == Outlet::Nowhere) {
        continue;
      }
      const double flow_m3_s = std::max(0.0, evidence.state(s).solution.fans[f].inlet_flow_m3_s);
      const double low_m3_s = flow_m3_s * evidence.fanBand(s, f).low;
      sum.flow_m3_s = together ? sum.flow_m3_s + flow_m3_s : std::max(sum.flow_m3_s, flow_m3_s);
      sum.low_m3_s = together ? sum.low_m3_s + low_m3_s : std::max(sum.low_m3_s, low_m3_s);
    }
    if (sum.flow_m3_s > out.flow_m3_s) {
      out = sum;
      out.state = s;
    }
  }
  return out;
}

double largestBin(const shop::Project& project) {
  double largest_m3 = 0;
  for (const shop::Collector& collector : project.collectors) {
    double bins_m3 = 0;
    for (const shop::Separator& separator : collector.separators) {
      bins_m3 += separator.bin && collector.room.valid() ? separator.bin->si() : 0;
    }
    largest_m3 = std::max(largest_m3, bins_m3);
  }
  return largest_m3;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const shop::Project& project = evidence.project();
  if (project.collectors.empty()) {
    return;
  }
  const bool eu = european(evidence);
  const Greatest flow = greatest(evidence, !eu);
  const double limit_m3_s = eu ? kEuFlow_m3_s : kUsFlow_m3_s;
  const double size = eu ? largestBin(project) : floorArea(project);
  const double size_limit = eu ? kEuDirty_m3 : kUsFloor_m2;
  const base::Kind size_kind = eu ? base::Kind::Volume : base::Kind::Area;
  const bool much = flow.flow_m3_s > limit_m3_s;
  const bool sure = flow.low_m3_s > limit_m3_s;
  const bool large = size > size_limit;
  if (!much && !large) {
    return;
  }
  Finding finding;
  finding.key = shopKey(project);
  finding.figures = {{"flow", flow.flow_m3_s, base::Kind::VolumeFlow},
                     {"flow-limit", limit_m3_s, base::Kind::VolumeFlow},
                     {"size", size, size_kind},
                     {"size-limit", size_limit, size_kind}};
  finding.words = {eu ? "eu" : "us", much ? (sure ? "flow" : "perhaps") : "within",
                   large ? "large" : "small"};
  finding.limit = much ? Limit{limit_m3_s,
                               base::Kind::VolumeFlow,
                               eu ? kEuSource : kUsSource,
                               base::SourceStatus::Published,
                               {},
                               {}}
                       : Limit{size_limit,
                               size_kind,
                               eu ? "En16770: types (as summarized)" : kUsSource,
                               base::SourceStatus::Published,
                               {},
                               {}};
  finding.severity = answersForOthers(project) && (sure || large) ? Severity::Caution : Severity::Note;
  finding.badness = std::max({0.0, badnessOf(flow.flow_m3_s / limit_m3_s), badnessOf(size / size_limit)});
  finding.defers = true;
  finding.remedies = {{"refer", {}, {}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool eu = finding.words[0] == "eu";
  const bool large = finding.words[2] == "large";
  const bool doubtful = finding.words[1] == "perhaps";
  std::vector<std::string> parts;
  if (finding.words[1] != "within") {
    parts.push_back(fmt::format("{} of air{}, where {} is the line", voice.show(finding.figure("flow")),
                                doubtful ? " (the lower end of the prediction lies below)" : "",
                                voice.show(finding.figure("flow-limit"))));
  }
  if (large) {
    parts.push_back(fmt::format("{} of {}, where {} is the line", voice.show(finding.figure("size")),
                                eu ? "bins indoors" : "floor", voice.show(finding.figure("size-limit"))));
  }
  const std::string why = listed(parts);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "This plant {} so large that people licensed for it should look at it before money is spent: {}.",
          doubtful && !large ? "may be" : "is", why);
    case Reader::Adviser:
      return fmt::format("{}: {}. From there on fire and explosion are for those licensed to judge them.",
                         eu ? "Beyond what the European standard for indoor units covers without more"
                            : "Within the scope of the wood fire code of the United States",
                         why);
    case Reader::Inspector:
      return fmt::format("{}: {}. {}",
                         eu ? "Limits of the standard for indoor units" : "Scope of the wood fire code", why,
                         doubtful && !large ? "Cannot conclude." : "Not within.");
  }
  return {};
}

}  // namespace

const Rule kBigPlant{"big-plant", Topic::People, "Past what one plans alone", &look, &tell};

}  // namespace kerfdraft::judge
