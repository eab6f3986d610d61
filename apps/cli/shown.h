// Numbers as this program prints them: in the reader's units, with the digits that a table can carry.
#pragma once

#include <string>
#include <string_view>

#include "base/units.h"

namespace kerfdraft::cli {

class Shown {
 public:
  explicit Shown(base::UnitSystem system) : system_(system) {}

  base::UnitSystem system() const { return system_; }

  /// Number and unit: "812 cfm".
  std::string operator()(base::Kind kind, double si) const;
  /// The number alone: "812".
  std::string number(base::Kind kind, double si) const;
  /// Name of the unit: "cfm".
  std::string unit(base::Kind kind) const { return std::string(base::unitName(kind, system_)); }

  std::string flow(double m3_s) const { return (*this)(base::Kind::VolumeFlow, m3_s); }
  std::string pressure(double pa) const { return (*this)(base::Kind::Pressure, pa); }
  std::string speed(double m_s) const { return (*this)(base::Kind::Speed, m_s); }
  std::string bore(double m) const { return (*this)(base::Kind::Bore, m); }

 private:
  base::UnitSystem system_;
};

/// "us" or "metric", as the options and JSON spell it.
std::string_view toText(base::UnitSystem system);

}  // namespace kerfdraft::cli
