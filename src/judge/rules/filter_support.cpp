// Loading rules of filters, from the catalogue.
#include "judge/rules/filter_support.h"

#include <fmt/format.h>

#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

constexpr std::string_view kUsual = "cartridge-hand";
constexpr std::string_view kGermanReturn = "return-germany";

}  // namespace

std::optional<LoadingRule> loadingRule(const Evidence& evidence, std::size_t fan,
                                       const shop::Filter& filter) {
  const shop::Project& project = evidence.project();
  LoadingRule out;
  for (const shop::Policy& policy : project.setting.policies) {
    if (policy.subject == kFilterLoading && out.row.empty()) {
      out.row = policy.choice;
      out.binds = policy.choice == kGermanReturn && answersForOthers(project);
    }
  }
  if (out.row.empty() && project.setting.country == "DE" && returnsToRoom(evidence.pieces(), fan)) {
    out.row = kGermanReturn;
    out.binds = answersForOthers(project);
  }
  if (out.row.empty()) {
    out.assumed = filter.cleaning.empty();
    out.row = out.assumed ? std::string(kUsual) : filter.cleaning;
  }
  const auto row = catalogue::RowView::find(evidence.catalogue, "filter_loading", out.row);
  if (!row) {
    return std::nullopt;
  }
  out.name = row->name();
  out.least_m_s = row->number("face_speed");
  out.most_m_s = row->maybe("face_speed_to").value_or(out.least_m_s);
  out.origin = row->origin();
  return out;
}

std::string filterLabel(const shop::Collector& collector, const shop::Filter& filter) {
  const std::string& unit = collector.label.empty() ? collector.name : collector.label;
  if (filter.label.empty()) {
    return unit.empty() ? "The filter" : "Filter of " + unit;
  }
  return unit.empty() ? filter.label : unit + " " + filter.label;
}

std::string filterSpeed(double speed_m_s, const Voice& voice) {
  constexpr double kFpm_m_s = 0.3048 / 60;
  return voice.units() == base::UnitSystem::Us ? fmt::format("{:.1f} fpm", speed_m_s / kFpm_m_s)
                                               : fmt::format("{:.1f} m/min", speed_m_s * 60);
}

}  // namespace kerfdraft::judge
