// Published columns that the duct tests read, as written in the sources (the shipped tables hold the same
// numbers with their status): SmacnaA7 is SMACNA HVAC Systems Duct Design, 4th ed., table A-7; AshraeF2009
// is ASHRAE Fundamentals 2009 (SI), p. 21.26.
#pragma once

#include <array>
#include <numbers>

#include "physics/fittings.h"

namespace kerfdraft::tests {

inline constexpr double kDegree = std::numbers::pi / 180;

/// SmacnaA7, smooth round elbow, 90 degrees: C by R/D.
inline constexpr std::array<double, 6> kSmoothRatio{0.5, 0.75, 1.0, 1.5, 2.0, 2.5};
inline constexpr std::array<double, 6> kSmoothK{0.71, 0.33, 0.22, 0.15, 0.13, 0.12};
/// SmacnaA7, segmented elbows of 3 and 5 pieces.
inline constexpr std::array<double, 5> kThreePieceRatio{0.5, 0.75, 1.0, 1.5, 2.0};
inline constexpr std::array<double, 5> kThreePieceK{0.98, 0.54, 0.42, 0.34, 0.33};
inline constexpr std::array<double, 4> kFivePieceRatio{0.75, 1.0, 1.5, 2.0};
inline constexpr std::array<double, 4> kFivePieceK{0.46, 0.33, 0.24, 0.19};
/// SmacnaA7, factor for other angles.
inline constexpr std::array<double, 11> kFactorAngle{0,
                                                     20 * kDegree,
                                                     30 * kDegree,
                                                     45 * kDegree,
                                                     60 * kDegree,
                                                     75 * kDegree,
                                                     90 * kDegree,
                                                     110 * kDegree,
                                                     130 * kDegree,
                                                     150 * kDegree,
                                                     180 * kDegree};
inline constexpr std::array<double, 11> kFactor{0,    0.31, 0.45, 0.60, 0.78, 0.90,
                                                1.00, 1.13, 1.20, 1.28, 1.40};
/// SmacnaA7, single mitre.
inline constexpr std::array<double, 6> kMitreAngle{20 * kDegree, 30 * kDegree, 45 * kDegree,
                                                   60 * kDegree, 75 * kDegree, 90 * kDegree};
inline constexpr std::array<double, 6> kMitreK{0.08, 0.16, 0.34, 0.55, 0.81, 1.2};
/// AshraeF2009: stamped, and 5-gore, 90 degrees, R/D 1.5, by bore.
inline constexpr std::array<double, 7> kStampedBore{0.075, 0.100, 0.125, 0.150, 0.180, 0.200, 0.250};
inline constexpr std::array<double, 7> kStampedK{0.30, 0.21, 0.16, 0.14, 0.12, 0.11, 0.11};
inline constexpr std::array<double, 9> kGoredBore{0.075, 0.150, 0.230, 0.300, 0.380,
                                                  0.450, 0.530, 0.600, 0.690};
inline constexpr std::array<double, 9> kGoredK{0.51, 0.28, 0.21, 0.18, 0.16, 0.15, 0.14, 0.13, 0.12};

inline constexpr physics::Column kMitreColumn{kMitreAngle, kMitreK};
inline constexpr physics::ElbowTables kStampedElbow{
    {kStampedBore, kStampedK}, {kSmoothRatio, kSmoothK}, 0.15, {kFactorAngle, kFactor}};
inline constexpr physics::ElbowTables kFivePieceElbow{
    {kGoredBore, kGoredK}, {kFivePieceRatio, kFivePieceK}, 0.24, {kFactorAngle, kFactor}};
inline constexpr physics::ElbowTables kThreePieceElbow{
    {kGoredBore, kGoredK}, {kThreePieceRatio, kThreePieceK}, 0.24, {kFactorAngle, kFactor}};

}  // namespace kerfdraft::tests
