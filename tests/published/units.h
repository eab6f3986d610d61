// Units in which published rows are printed, in SI; all exact by definition.
#pragma once

namespace kerfdraft::published {

inline constexpr double kFoot_m = 0.3048;
inline constexpr double kInch_m = 0.0254;
inline constexpr double kFpm_m_s = 0.00508;
inline constexpr double kCfm_m3_s = kFoot_m * kFoot_m * kFoot_m / 60;
inline constexpr double kPound_kg = 0.45359237;

}  // namespace kerfdraft::published
