// Typed views of the tables of ducts, hose, bores, elbows and fittings.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"
#include "physics/fittings.h"

namespace kerfdraft::catalogue {

struct Construction {
  std::string key;
  std::string name;
  double roughness_m = 0;
  double leakage_class = 0;  ///< of Q = (class/100) A |p|^0.65, in cfm, ft2, in w.g.
  bool plastic = false;
  std::string gauge_note;
  Origin origin;
};

struct Hose {
  std::string key;
  std::string name;
  std::string inside;          ///< "smooth", "ribbed"
  std::string lay;             ///< "tight", "hung", "slack"
  double friction_factor = 1;  ///< times the friction of duct of reference_roughness and the same bore
  double reference_roughness_m = 0;
  double cuff_leakage_class = 0;
  Origin origin;
};

struct Bore {
  std::string key;
  std::string name;
  std::string system;  ///< "inch", "metric", "plastic"
  double nominal_m = 0;
  double bore_m = 0;  ///< the true inside
  std::optional<double> outside_m;
  std::optional<double> wall_m;
  Origin origin;
};

/// A kind of elbow: either the tables of the elbow law, or one figure at 90 degrees, or a mitre (neither).
struct Elbow {
  std::string key;
  std::string name;
  std::optional<physics::ElbowTables> tables;
  std::optional<double> fixed_k;
  bool is_mitre = false;
  double usual_radius_ratio = 1.5;
  physics::Column angle_factor;  ///< the model's, by angle
  Origin origin;
};

/// One coefficient and the section whose velocity pressure it multiplies.
struct Fitting {
  std::string key;
  std::string name;
  double k = 0;
  std::string reference;
  Origin origin;
};

base::Result<Construction> construction(const Catalogue& catalogue, std::string_view key);
base::Result<Hose> hose(const Catalogue& catalogue, std::string_view key);
base::Result<Bore> bore(const Catalogue& catalogue, std::string_view key);
/// All sizes of "inch", "metric" or "plastic" in rising order of their bore.
std::vector<Bore> boresOf(const Catalogue& catalogue, std::string_view system);
/// The columns live as long as the catalogue's tables.
base::Result<Elbow> elbow(const Catalogue& catalogue, std::string_view key);
base::Result<Fitting> fitting(const Catalogue& catalogue, std::string_view key);

}  // namespace kerfdraft::catalogue
