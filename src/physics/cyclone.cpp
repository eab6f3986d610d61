// Refusals for cyclone proportions, and the collection of a whole dust.
#include "physics/cyclone.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace kerfdraft::physics {

using base::ErrorCode;
using base::fail;

base::Result<CycloneShape> checkedCyclone(const CycloneShape& shape, std::string where) {
  const std::pair<const char*, double> proportions[] = {{"inlet height", shape.inlet_height},
                                                        {"inlet width", shape.inlet_width},
                                                        {"dust outlet", shape.dust_outlet},
                                                        {"cylinder", shape.cylinder},
                                                        {"cone", shape.cone},
                                                        {"gas outlet", shape.gas_outlet},
                                                        {"outlet depth", shape.outlet_depth}};
  for (const auto& [name, value] : proportions) {
    if (!std::isfinite(value) || value <= 0) {
      return fail(
          ErrorCode::Range,
          fmt::format("a cyclone's {} must be above zero, not {:.4g} of the body's diameter", name, value),
          std::move(where));
    }
  }
  for (const auto& [name, value] : {proportions[2], proportions[5]}) {
    if (value >= 1) {
      return fail(
          ErrorCode::Range,
          fmt::format("a cyclone's {} must be narrower than its body, not {:.4g} of the body's diameter",
                      name, value),
          std::move(where));
    }
  }
  if (shape.inlet_width > 0.5 * (1 - shape.gas_outlet) + 1e-9) {
    return fail(
        ErrorCode::Range,
        fmt::format("a cyclone's inlet, {:.4g} of the body's diameter wide, must fit beside the outlet tube, "
                    "which leaves {:.4g}",
                    shape.inlet_width, 0.5 * (1 - shape.gas_outlet)),
        std::move(where));
  }
  if (shape.outlet_depth >= shape.cylinder + shape.cone) {
    return fail(
        ErrorCode::Range,
        fmt::format(
            "a cyclone's outlet tube must end inside its body: it reaches {:.4g} diameters into {:.4g}",
            shape.outlet_depth, shape.cylinder + shape.cone),
        std::move(where));
  }
  return shape;
}

base::Result<BarthCollection> barthCollection(const CycloneBody& body, const CycloneDuty& duty,
                                              std::span<const SizeClass> dust) {
  if (dust.empty()) {
    return fail(ErrorCode::Range, "a dust needs at least one class of sizes");
  }
  double sum = 0;
  double median_m = 0;
  for (std::size_t i = 0; i < dust.size(); ++i) {
    const bool increases = i == 0 || dust[i].size_m > dust[i - 1].size_m;
    if (!std::isfinite(dust[i].size_m) || dust[i].size_m <= 0 || !increases) {
      return fail(
          ErrorCode::Range,
          fmt::format("sizes of a dust must be above zero and increase, not {:.4g} m", dust[i].size_m),
          fmt::format("class {}", i + 1));
    }
    if (!(dust[i].share >= 0)) {
      return fail(ErrorCode::Range, fmt::format("the share of a size cannot be {:.4g}", dust[i].share),
                  fmt::format("class {}", i + 1));
    }
    sum += dust[i].share;
    if (median_m == 0 && sum >= 0.5 - 1e-12) {
      median_m = dust[i].size_m;
    }
  }
  if (!(std::abs(sum - 1) <= 1e-6)) {
    return fail(ErrorCode::Range, fmt::format("the shares of a dust add up to {:.6g}, not to 1", sum));
  }
  const BarthCyclone barth = barthCyclone(body, duty);
  BarthCollection out;
  for (const SizeClass& part : dust) {
    out.vortex += part.share * barthGrade(part.size_m, barth.cut_m);
  }
  out.critical_load = criticalLoad(body, duty, barth, median_m);
  const double load = duty.load_kg_m3 / duty.density_kg_m3;
  out.total = load > out.critical_load ? 1 - out.critical_load / load * (1 - out.vortex) : out.vortex;
  return out;
}

}  // namespace kerfdraft::physics
