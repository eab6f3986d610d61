// The law of a stretch: it adds exactly, agrees with the mean-density form, goes over into one density, and
// its derivatives are those of differences.
#include "physics/stretch.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace kerfdraft::physics {
namespace {

const DuctAir kLocal(1.2, 101325, 1.82e-5, true);
const DuctAir kUniform(1.2, 101325, 1.82e-5, false);

TEST(Stretch, PiecesOfOneBoreAddExactlyInAnyOrder) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> u(0, 1);
  for (int i = 0; i < 2000; ++i) {
    const double bore = 0.03 + 0.2 * u(random);
    const double speed = 60 * u(random) - 20;
    const double flow = speed * 1.2 * roundArea(bore);
    const double start = -15000 * u(random) * u(random);
    const double c1 = 5 * u(random);
    const double c2 = 8 * u(random);
    const double whole = pieceFlow(kLocal, bore, start, flow, c1 + c2, 0).total_out_pa;
    const double forth =
        pieceFlow(kLocal, bore, pieceFlow(kLocal, bore, start, flow, c1, 0).total_out_pa, flow, c2, 0)
            .total_out_pa;
    const double back =
        pieceFlow(kLocal, bore, pieceFlow(kLocal, bore, start, flow, c2, 0).total_out_pa, flow, c1, 0)
            .total_out_pa;
    EXPECT_NEAR(forth, whole, 1e-7);
    EXPECT_NEAR(back, whole, 1e-7);
  }
}

TEST(Stretch, IsTheMeanDensityLawToSecondOrder) {
  // model.md section 2: the loss is C velocity pressures at the mean density of the two ends. For ordinary
  // pieces the two differ by less than a millionth, in a vacuum line by less than a thousandth.
  for (const double coefficient : {0.3, 2.0, 6.0}) {
    const double flow = 22 * 1.2 * roundArea(0.1);
    const PieceFlow p = pieceFlow(kLocal, 0.1, -1000, flow, coefficient, 0);
    EXPECT_NEAR(p.loss_pa, coefficient * p.velocity_pressure_pa, 2e-5 * p.loss_pa);
  }
  const double flow = 45 * 1.2 * roundArea(0.038);
  const PieceFlow vacuum = pieceFlow(kLocal, 0.038, -8000, flow, 8, 0);
  EXPECT_GT(vacuum.loss_pa, 9000);
  EXPECT_NEAR(vacuum.loss_pa, 8 * vacuum.velocity_pressure_pa, 2e-3 * vacuum.loss_pa);
}

TEST(Stretch, GoesOverIntoOneDensityAtHighBarometer) {
  const DuctAir stiff(1.2, 101325e6, 1.82e-5, true);
  const double flow = 20 * 1.2 * roundArea(0.15);
  EXPECT_NEAR(pieceFlow(stiff, 0.15, -500, flow, 3, 100).loss_pa,
              pieceFlow(kUniform, 0.15, -500, flow, 3, 100).loss_pa, 2e-2);
}

TEST(Stretch, ReversedAirLosesTheOtherWay) {
  const double flow = 18 * 1.2 * roundArea(0.12);
  const PieceFlow forward = pieceFlow(kLocal, 0.12, -700, flow, 4, 0);
  const PieceFlow backward = pieceFlow(kLocal, 0.12, forward.total_out_pa, -flow, 4, 0);
  EXPECT_NEAR(backward.total_out_pa, forward.total_out_pa + (backward.total_out_pa - forward.total_out_pa),
              1e-9);
  EXPECT_LT(backward.loss_pa, 0);
  // Air that comes back from the far end's pressure meets the same law: run it from there and the start is
  // found again.
  const PieceFlow again = pieceFlow(kLocal, 0.12, -700, -flow, 4, 0);
  EXPECT_NEAR(pieceFlow(kLocal, 0.12, again.total_out_pa, flow, 4, 0).total_out_pa, -700, 1e-7);
}

TEST(Stretch, DerivativesAreThoseOfDifferences) {
  std::mt19937 random(9);
  std::uniform_real_distribution<double> u(0, 1);
  for (int i = 0; i < 500; ++i) {
    const double flux = 60 * u(random) - 20;
    const double total = -12000 * u(random);
    const DensityAt at = densityFromTotal(kLocal, total, flux);
    const double h = 0.5;
    EXPECT_NEAR(
        at.d_total,
        (densityFromTotal(kLocal, total + h, flux).rho - densityFromTotal(kLocal, total - h, flux).rho) /
            (2 * h),
        1e-11);
    const double g = 1e-3;
    EXPECT_NEAR(
        at.d_flux,
        (densityFromTotal(kLocal, total, flux + g).rho - densityFromTotal(kLocal, total, flux - g).rho) /
            (2 * g),
        1e-9);
    const double s = 3000 * u(random);
    const DensityAfter after = densityAfter(kLocal, at.rho, flux, s);
    const double d = 1e-5;
    EXPECT_NEAR(
        after.d_rho1,
        (densityAfter(kLocal, at.rho + d, flux, s).rho - densityAfter(kLocal, at.rho - d, flux, s).rho) /
            (2 * d),
        1e-6);
    EXPECT_NEAR(
        after.d_flux,
        (densityAfter(kLocal, at.rho, flux + g, s).rho - densityAfter(kLocal, at.rho, flux - g, s).rho) /
            (2 * g),
        1e-9);
    EXPECT_NEAR(
        after.d_loss_weight,
        (densityAfter(kLocal, at.rho, flux, s + 1).rho - densityAfter(kLocal, at.rho, flux, s - 1).rho) / 2,
        1e-10);
  }
}

TEST(Stretch, ImpossibleFlowsAreFlaggedAndFinite) {
  const DensityAt below_zero = densityFromTotal(kLocal, -200000, 10);
  EXPECT_TRUE(below_zero.choked);
  EXPECT_GT(below_zero.rho, 0);
  EXPECT_TRUE(densityFromTotal(kLocal, 0, 400).choked);
  const PieceFlow p = pieceFlow(kLocal, 0.02, -50000, 0.2, 100, 0);
  EXPECT_TRUE(p.choked);
  EXPECT_TRUE(std::isfinite(p.loss_pa));
}

}  // namespace
}  // namespace kerfdraft::physics
