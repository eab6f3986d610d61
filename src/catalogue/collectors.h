// Typed views of the tables of hoods, gates, separators, cyclones and filters.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

struct HoodForm {
  std::string key;
  std::string name;
  double entry_loss = 0;  ///< F, on the velocity pressure of the port
  std::string valid;
  Origin origin;
};

struct Gate {
  std::string key;
  std::string name;
  double leak_slot_m = 0;  ///< width of a slot around the bore's perimeter; 0 closes the run
  std::string blade;
  Origin origin;
};

/// Either heads (velocity pressures of the round inlet) or a loss at the rated flow.
struct Separator {
  std::string key;
  std::string name;
  std::optional<double> heads;
  std::optional<double> heads_band;
  std::optional<double> loss_at_rated_flow_pa;
  Origin origin;
};

/// Proportions as fractions of the body diameter.
struct CycloneShape {
  std::string key;
  std::string name;
  double inlet_height = 0;
  double inlet_width = 0;
  double dust_outlet = 0;
  double cylinder = 0;
  double cone = 0;
  double gas_outlet = 0;
  double outlet_depth = 0;
  double inlet_heads = 0;               ///< on the velocity pressure of the rectangular inlet
  std::optional<double> configuration;  ///< G of Leith and Licht
  Origin origin;
};

/// Drops of a filter of which nothing else is known, each at face_speed through the medium.
struct FilterDefaults {
  double clean_pa = 0;
  double seasoned_pa = 0;
  double due_pa = 0;  ///< never below due_over_seasoned times seasoned_pa
  double due_over_seasoned = 0;
  double face_speed_m_s = 0;
  Origin origin;
};

base::Result<HoodForm> hoodForm(const Catalogue& catalogue, std::string_view key);
base::Result<Gate> gate(const Catalogue& catalogue, std::string_view key);
base::Result<Separator> separator(const Catalogue& catalogue, std::string_view key);
base::Result<CycloneShape> cycloneShape(const Catalogue& catalogue, std::string_view key);
/// Of the row "unknown" of filters; an error where a layer took one of its cells away.
base::Result<FilterDefaults> filterDefaults(const Catalogue& catalogue);

}  // namespace kerfdraft::catalogue
