// Typed view of the rough prices: recalled bands, for comparing remedies with each other and for nothing
// else.
#pragma once

#include <optional>
#include <string_view>

#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

/// A band in US dollars of the 2020s.
struct Price {
  double low_usd = 0;
  double high_usd = 0;
  bool scaled = false;  ///< not printed for this bore or power but scaled from rows beside it (ours)
  Origin origin;        ///< of the nearest row
};

// Between two rows of a thing each end follows the power law through both (a straight line of logarithms);
// beyond them it grows with the bore or power to kPriceExponent. That scaling is ours.

/// Of price with bore where one row only is known: between duct by sheet area (1) and thicker sheet of wider
/// duct (2); the spiral rows of 6 and 8 in give 1.24.
inline constexpr double kPriceExponent = 1.24;

/// A metre of duct; nothing where the construction has no row.
std::optional<Price> ductPrice(const Catalogue& catalogue, std::string_view construction, double bore_m);
/// A metre of hose.
std::optional<Price> hosePrice(const Catalogue& catalogue, double bore_m);
/// A gate moved by hand.
std::optional<Price> gatePrice(const Catalogue& catalogue, double bore_m);
std::optional<Price> automaticGatePrice(const Catalogue& catalogue);
/// One elbow or branch fitting: the band spans the sizes sold and is not scaled.
std::optional<Price> elbowPrice(const Catalogue& catalogue);
std::optional<Price> branchPrice(const Catalogue& catalogue);
/// A whole collector by motor power; cyclones from 4 hp on.
std::optional<Price> collectorPrice(const Catalogue& catalogue, double power_w);

}  // namespace kerfdraft::catalogue
