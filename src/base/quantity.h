// Quantities with their kind in the type, SI inside. Used at every API and file boundary; kernels use raw
// doubles with a unit suffix in the name.
#pragma once

#include <compare>

namespace kerfdraft::base {

/// What a number measures. The SI unit in brackets is the unit in memory.
enum class Kind {
  Length,            ///< [m], shown in ft or m
  Bore,              ///< [m], shown in in or mm: bores, thicknesses, roughness; never a Quantity's own kind
  Area,              ///< [m2]
  Volume,            ///< [m3]
  Angle,             ///< [rad]
  Speed,             ///< [m/s]
  MassFlow,          ///< [kg/s]
  VolumeFlow,        ///< [m3/s]
  Pressure,          ///< [Pa], gauge, or a difference
  AbsolutePressure,  ///< [Pa]
  Temperature,       ///< [K], absolute
  TemperatureDifference,  ///< [K]
  Density,                ///< [kg/m3]
  Viscosity,              ///< [Pa s]
  Power,                  ///< [W]
  Time,                   ///< [s]
  Mass,                   ///< [kg]
  RotationalSpeed,        ///< [rad/s], shown as rpm
  Voltage,                ///< [V]
  Current,                ///< [A]
  Ratio,                  ///< [1]; fractions, coefficients, counts
};

/// A number of one kind. Explicit construction from SI and explicit .si(): a unit is never guessed.
template <Kind K>
class Quantity {
 public:
  static constexpr Kind kKind = K;
  constexpr Quantity() = default;
  explicit constexpr Quantity(double si) : si_(si) {}
  constexpr double si() const { return si_; }

  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator-() const { return Quantity(-si_); }
  constexpr Quantity operator+(Quantity o) const { return Quantity(si_ + o.si_); }
  constexpr Quantity operator-(Quantity o) const { return Quantity(si_ - o.si_); }
  constexpr Quantity operator*(double f) const { return Quantity(si_ * f); }
  constexpr Quantity operator/(double f) const { return Quantity(si_ / f); }
  constexpr double operator/(Quantity o) const { return si_ / o.si_; }

 private:
  double si_ = 0;
};

template <Kind K>
constexpr Quantity<K> operator*(double f, Quantity<K> q) {
  return q * f;
}

using Length = Quantity<Kind::Length>;
using Area = Quantity<Kind::Area>;
using Volume = Quantity<Kind::Volume>;
using Angle = Quantity<Kind::Angle>;
using Speed = Quantity<Kind::Speed>;
using MassFlow = Quantity<Kind::MassFlow>;
using VolumeFlow = Quantity<Kind::VolumeFlow>;
using Pressure = Quantity<Kind::Pressure>;
using AbsolutePressure = Quantity<Kind::AbsolutePressure>;
using Temperature = Quantity<Kind::Temperature>;
using TemperatureDifference = Quantity<Kind::TemperatureDifference>;
using Density = Quantity<Kind::Density>;
using Viscosity = Quantity<Kind::Viscosity>;
using Power = Quantity<Kind::Power>;
using Time = Quantity<Kind::Time>;
using Mass = Quantity<Kind::Mass>;
using RotationalSpeed = Quantity<Kind::RotationalSpeed>;
using Voltage = Quantity<Kind::Voltage>;
using Current = Quantity<Kind::Current>;
using Ratio = Quantity<Kind::Ratio>;

}  // namespace kerfdraft::base
