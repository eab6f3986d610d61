// Typed views of what suction thin duct, hose and containers bear, and of the containers themselves.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

/// The suction at which a thing gives way: some collapse at low_pa, none is known to stand beyond high_pa.
struct Strength {
  std::string key;
  std::string name;
  std::string thing;                  ///< "duct", "hose", "container"
  std::string construction;           ///< key of constructions, for a duct
  std::string container;              ///< key of containers, for a container
  std::optional<double> bore_from_m;  ///< included; nothing: any
  std::optional<double> bore_to_m;    ///< excluded
  double low_pa = 0;
  double high_pa = 0;
  Origin origin;
};

/// A kind of bin below a separator.
struct Container {
  std::string key;
  std::string name;
  std::optional<double> usual_volume_m3;
  Origin origin;
};

base::Result<Container> container(const Catalogue& catalogue, std::string_view key);

// Nothing where no figure is recorded: then nothing is known, not that all is well.
std::optional<Strength> ductStrength(const Catalogue& catalogue, std::string_view construction,
                                     double bore_m);
std::optional<Strength> hoseStrength(const Catalogue& catalogue, double bore_m);
std::optional<Strength> containerStrength(const Catalogue& catalogue, std::string_view container);

}  // namespace kerfdraft::catalogue
