// Comparison of a claimed result with the right one and with the results of the classic mistakes.
#include "field/claim.h"

#include <cmath>
#include <numbers>

namespace kerfdraft::field {
namespace {

constexpr double kSame = 0.004;  // 4005 against the exact constant, and the inch of water, move 0.1 %

}  // namespace

std::vector<Suspect> usualSuspects(const MeasurementModel& model, const Measured& measured) {
  std::vector<Suspect> suspects;
  const double v = measured.speed_m_s;
  if (isUTube(model.instrument)) {
    suspects.push_back({"claim-one-leg", v / std::numbers::sqrt2});
  }
  if (model.samples.size() > 1 && std::holds_alternative<PressureInstrument>(model.instrument)) {
    suspects.push_back({"claim-pressures-averaged", measured.rms_speed_m_s});
  }
  const double thin = measured.density_kg_m3 / physics::kStandardDensity_kg_m3;
  const auto* meter = std::get_if<SpeedMeter>(&model.instrument);
  if (meter == nullptr) {
    suspects.push_back({"claim-standard-air", v * std::sqrt(thin)});
  } else if (meter->form == SpeedMeter::Form::HotWire) {
    suspects.push_back({"claim-standard-air", v * thin});
  }
  return suspects;
}

std::optional<Notice> explainClaim(const Claim& claim, const MeasurementModel& model,
                                   const Measured& measured, std::vector<Suspect> suspects) {
  const double area_m2 = model.section ? sectionArea(*model.section) : 0;
  double claimed_m_s = claim.speed_m_s.value_or(0);
  if (!claim.speed_m_s) {
    if (!claim.flow_m3_s || area_m2 <= 0) {
      return std::nullopt;
    }
    claimed_m_s = *claim.flow_m3_s / area_m2;
  }
  const double right = measured.speed_m_s;
  const auto off = [&](double speed) { return speed > 0 ? std::abs(claimed_m_s / speed - 1) : 1.0; };
  std::string key = "claim-differs";
  double nearest = kSame;
  if (off(right) <= nearest) {
    key = "claim-agrees";
    nearest = off(right);
  }
  for (const Suspect& s : suspects) {
    // A mistake that changes nothing here (standard air on a standard day) is none.
    if (off(s.speed_m_s) < nearest && std::abs(s.speed_m_s - right) > 1e-3 * right) {
      nearest = off(s.speed_m_s);
      key = s.key;
    }
  }
  return Notice{key,
                key == "claim-agrees" ? Notice::Level::Note : Notice::Level::Caution,
                {{"claimed", base::Kind::Speed, claimed_m_s},
                 {"right", base::Kind::Speed, right},
                 {"claimed-flow", base::Kind::VolumeFlow, claimed_m_s * area_m2},
                 {"right-flow", base::Kind::VolumeFlow, measured.flow_m3_s},
                 {"ratio", base::Kind::Ratio, right > 0 ? claimed_m_s / right : 0}},
                {},
                "ours"};
}

}  // namespace kerfdraft::field
