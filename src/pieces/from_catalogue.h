// Things of the catalogue as things of a project: a machine of a kind, a collector with an invented fan. What
// is not known of them is assumed, and says so.
#pragma once

#include <string_view>

#include "base/id.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/machines.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

/// Figures of the catalogue as a person would type them in these units.
base::Given<base::Length> lengthAsTyped(double length_m, base::UnitSystem units);
base::Given<base::VolumeFlow> flowAsTyped(double flow_m3_s, base::UnitSystem units, base::Standing standing,
                                          std::string_view source);
base::Given<base::Pressure> pressureAsTyped(double pressure_pa, base::UnitSystem units,
                                            base::Standing standing, std::string_view source);

/// A machine of this kind that stands at the origin, not turned, without a label and a room. Its ports lie
/// along its back, at the height at which ports usually lie. `asked` gives its floor and target with their
/// source; without it they are not known. Body and port places are ours: 3 x 2 x 3 ft, ports 2 ft up.
shop::Machine machineOfKind(const catalogue::MachineKind& kind, const catalogue::Requirement* asked,
                            base::UnitSystem units, base::IdSource& ids);

/// A collector whose curve is that of an invented fan, with one unknown filter behind it. It stands at the
/// origin, without a label and a room.
shop::Collector collectorOfFan(const catalogue::TestFan& fan, const base::Given<base::Length>& inlet_bore,
                               base::UnitSystem units, base::IdSource& ids);

/// The requirement that a machine of this kind falls under where nothing is said of its size: the first row
/// of the authority with a floor or a target for the whole machine or any port. Null where there is none.
const catalogue::Requirement* firstAsked(const std::vector<catalogue::Requirement>& rows);

}  // namespace kerfdraft::pieces
