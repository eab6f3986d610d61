// Rows F, G, H and section 3.6: friction factors, duct friction against the trade's power laws and against
// measurements, hose. The explicit formulas and power laws are checks; they are not part of the program.
#include "physics/friction.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "physics/air.h"
#include "physics/hose.h"
#include "units.h"

namespace kerfdraft::physics {
namespace {

using published::kCfm_m3_s;
using published::kFoot_m;
using published::kFpm_m_s;
using published::kInch_m;

constexpr double kInchWater60F_pa = 248.84;  // the inch of the G rows

double haaland(double re, double e) {
  return std::pow(-1.8 * std::log10(std::pow(e / 3.7, 1.11) + 6.9 / re), -2);
}
double swameeJain(double re, double e) {
  return 0.25 / std::pow(std::log10(e / 3.7 + 5.74 / std::pow(re, 0.9)), 2);
}
double serghides(double re, double e) {
  const double a = -2 * std::log10(e / 3.7 + 12 / re);
  const double b = -2 * std::log10(e / 3.7 + 2.51 * a / re);
  const double c = -2 * std::log10(e / 3.7 + 2.51 * b / re);
  return std::pow(a - (b - a) * (b - a) / (c - 2 * b + a), -2);
}
double altshulTsal(double re, double e) {
  const double f = 0.11 * std::pow(e + 68 / re, 0.25);
  return f >= 0.018 ? f : 0.85 * f + 0.0028;
}

struct FactorRow {
  const char* id;
  double re, e, colebrook, haaland, swamee_jain, serghides, altshul_tsal;
};

constexpr FactorRow kFactorRows[] = {
    {"F1", 1e5, 1e-4, 0.018514, 0.018265, 0.018452, 0.018514, 0.018383},
    {"F2", 5e3, 0, 0.037393, 0.037730, 0.037846, 0.037393, 0.037564},
    {"F3", 1e4, 1e-3, 0.032382, 0.032175, 0.032665, 0.032382, 0.032690},
    {"F4", 5e4, 1e-3, 0.024021, 0.023730, 0.024181, 0.024021, 0.024245},
    {"F5", 1e5, 9e-4, 0.021832, 0.021614, 0.021989, 0.021832, 0.021931},
    {"F6", 1e5, 1.5e-3, 0.023736, 0.023572, 0.023942, 0.023736, 0.023769},
    {"F7", 1e5, 9e-3, 0.037230, 0.037256, 0.037479, 0.037230, 0.034503},
    {"F8", 2e5, 4.5e-4, 0.018560, 0.018370, 0.018665, 0.018560, 0.018442},
    {"F9", 3e5, 9e-4, 0.020179, 0.020091, 0.020320, 0.020179, 0.020153},
    {"F10", 1e6, 1e-4, 0.013441, 0.013326, 0.013508, 0.013441, 0.013445},
    {"F11", 1e8, 1e-2, 0.037904, 0.037980, 0.037905, 0.037904, 0.034786},
};

TEST(PublishedFriction, ColebrookRows) {
  // F1 to F11, computed; F1 also published to 15 digits (an open fluids library, quoting Colebrook 1939).
  for (const auto& row : kFactorRows) {
    EXPECT_NEAR(frictionFactor(row.re, row.e).f, row.colebrook, 5.1e-7) << row.id;
  }
  EXPECT_NEAR(frictionFactor(1e5, 1e-4).f, 0.018513866077471, 2e-13);
}

TEST(PublishedFriction, ExplicitFormulasStayWithinTheirStatedErrors) {
  // The same rows by other authors' formulas, computed; then against ours within what their authors state:
  // Haaland 2 %, Swamee-Jain 1.3 %, Serghides 0.01 %, Altshul-Tsal 3 % (and 8 % low near e = 0.01, F7, F11).
  for (const auto& row : kFactorRows) {
    EXPECT_NEAR(haaland(row.re, row.e), row.haaland, 5.1e-7) << row.id;
    EXPECT_NEAR(swameeJain(row.re, row.e), row.swamee_jain, 5.1e-7) << row.id;
    EXPECT_NEAR(serghides(row.re, row.e), row.serghides, 5.1e-7) << row.id;
    EXPECT_NEAR(altshulTsal(row.re, row.e), row.altshul_tsal, 5.1e-7) << row.id;
    const double f = frictionFactor(row.re, row.e).f;
    EXPECT_NEAR(haaland(row.re, row.e) / f, 1, 0.02) << row.id;
    EXPECT_NEAR(swameeJain(row.re, row.e) / f, 1, 0.013) << row.id;
    EXPECT_NEAR(serghides(row.re, row.e) / f, 1, 1e-4) << row.id;
    EXPECT_NEAR(altshulTsal(row.re, row.e) / f, 1, row.e < 5e-3 ? 0.03 : 0.085) << row.id;
  }
  // Published to 15 digits at F1.
  EXPECT_NEAR(haaland(1e5, 1e-4), 0.018265053014793857, 1e-16);
  // That library writes Swamee and Jain's 5.74/Re^0.9 as (6.97/Re)^0.9, 1e-6 away.
  EXPECT_NEAR(0.25 / std::pow(std::log10(1e-4 / 3.7 + std::pow(6.97 / 1e5, 0.9)), 2), 0.018452424431901808,
              1e-16);
  EXPECT_NEAR(swameeJain(1e5, 1e-4) / 0.018452424431901808, 1, 2e-6);
  EXPECT_NEAR(serghides(1e5, 1e-4), 0.01851358983180063, 1e-15);
  EXPECT_NEAR(altshulTsal(1e5, 1e-4), 0.018382997825686878, 1e-16);
}

struct DuctRow {
  const char* id;
  double bore_in, cfm, fpm, re, f, e3, e5, e15, smooth, e30, loeffler, wright;
};

constexpr DuctRow kDuctRows[] = {
    {"G1", 3, 200, 4074.37, 104184, 0.02275, 9.4099, 10.3602, 8.5315, 7.4240, 16.9048, 10.4228, 10.3461},
    {"G2", 4, 350, 4010.70, 136741, 0.02122, 6.3782, 6.9892, 5.8126, 5.1003, 11.1412, 7.1109, 7.0690},
    {"G3", 4, 400, 4583.66, 156276, 0.02099, 8.2430, 9.0608, 7.4768, 6.4889, 14.5289, 9.1902, 9.1105},
    {"G4", 5, 550, 4033.62, 171903, 0.02010, 4.8903, 5.3427, 4.4706, 3.9409, 8.3814, 5.4709, 5.4429},
    {"G5", 6, 600, 3055.77, 156276, 0.01974, 2.2971, 2.4866, 2.1255, 1.9186, 3.7992, 2.5675, 2.5712},
    {"G6", 6, 800, 4074.37, 208367, 0.01925, 3.9813, 4.3399, 3.6477, 3.2258, 6.7267, 4.4619, 4.4414},
    {"G7", 7, 1000, 3741.77, 223251, 0.01871, 2.7977, 3.0377, 2.5761, 2.2997, 4.6426, 3.1372, 3.1302},
    {"G8", 8, 1000, 2864.79, 195344, 0.01860, 1.4266, 1.5365, 1.3277, 1.2094, 2.2967, 1.5950, 1.6012},
    {"G9", 8, 1400, 4010.70, 273482, 0.01805, 2.7134, 2.9461, 2.4970, 2.2237, 4.4793, 3.0441, 3.0346},
    {"G10", 10, 2200, 4033.62, 343806, 0.01717, 2.0889, 2.2623, 1.9273, 1.7230, 3.3948, 2.3421, 2.3365},
    {"G11", 12, 3200, 4074.37, 416735, 0.01650, 1.7060, 1.8442, 1.5769, 1.4135, 2.7401, 1.9101, 1.9066},
    {"G12", 10, 400, 733.39, 62510, 0.02127, 0.0855, 0.0888, 0.0828, 0.0801, 0.1180, 0.0886, 0.0916},
};

/// Friction of 100 ft in inches of water (60 F) by the program's law, at standard air.
double per100Feet(double bore_in, double cfm, double roughness_ft) {
  const double bore = bore_in * kInch_m;
  const double flow = cfm * kCfm_m3_s * kStandardDensity_kg_m3;
  return frictionLoss(flow, kStandardDensity_kg_m3, kStandardViscosity_pa_s, bore, 100 * kFoot_m,
                      roughness_ft * kFoot_m / bore)
             .dp_pa /
         kInchWater60F_pa;
}

/// Trade laws for galvanized duct at standard air, in. w.g. per 100 ft, from memory: ACGIH after Loeffler
/// 1980 (VP per foot, V fpm, Q cfm) and Wright (V fpm, D in).
double loeffler(double fpm, double cfm) {
  const double vp = std::pow(fpm / 4005, 2);
  return 100 * 0.0307 * std::pow(fpm, 0.533) / std::pow(cfm, 0.612) * vp;
}
double wright(double fpm, double bore_in) {
  return 2.74 * std::pow(fpm / 1000, 1.9) / std::pow(bore_in, 1.22);
}

TEST(PublishedFriction, DuctRows) {
  // G1 to G12, computed: standard air, mu 1.8187e-5 Pa s, 1 in w.g. = 248.84 Pa (60 F), uniform density.
  for (const auto& row : kDuctRows) {
    const double bore = row.bore_in * kInch_m;
    const double speed = row.cfm * kCfm_m3_s / roundArea(bore);
    EXPECT_NEAR(speed / kFpm_m_s, row.fpm, 0.0051) << row.id;
    const double re = reynolds(row.cfm * kCfm_m3_s * kStandardDensity_kg_m3, bore, kStandardViscosity_pa_s);
    EXPECT_NEAR(re, row.re, 0.51) << row.id;
    EXPECT_NEAR(frictionFactor(re, 3e-4 * kFoot_m / bore).f, row.f, 5.1e-6) << row.id;
    EXPECT_NEAR(per100Feet(row.bore_in, row.cfm, 3e-4), row.e3, 6e-5) << row.id;
    EXPECT_NEAR(per100Feet(row.bore_in, row.cfm, 5e-4), row.e5, 6e-5) << row.id;
    EXPECT_NEAR(per100Feet(row.bore_in, row.cfm, 1.5e-4), row.e15, 6e-5) << row.id;
    EXPECT_NEAR(per100Feet(row.bore_in, row.cfm, 5e-6), row.smooth, 6e-5) << row.id;
    EXPECT_NEAR(per100Feet(row.bore_in, row.cfm, 3e-3), row.e30, 6e-5) << row.id;
  }
}

TEST(PublishedFriction, TradePowerLawsAreAFewPercentAboveTheirRoughness) {
  for (const auto& row : kDuctRows) {
    EXPECT_NEAR(loeffler(row.fpm, row.cfm), row.loeffler, 1.1e-4) << row.id;
    EXPECT_NEAR(wright(row.fpm, row.bore_in), row.wright, 1.1e-4) << row.id;
    // The chart form 0.109136 Q^1.9/D^5.02 is the same law as Wright's, within the digits of its constants.
    EXPECT_NEAR(0.109136 * std::pow(row.cfm, 1.9) / std::pow(row.bore_in, 5.02) / row.wright, 1, 1e-3)
        << row.id;
    if (row.fpm > 1000) {
      // Over G1 to G11 the trade's laws lie 0 to 4.3 % above 5e-4 ft and 10 to 13 % above 3e-4 ft.
      for (const double trade : {row.loeffler, row.wright}) {
        EXPECT_GT(trade / per100Feet(row.bore_in, row.cfm, 5e-4), 0.995) << row.id;
        EXPECT_LT(trade / per100Feet(row.bore_in, row.cfm, 5e-4), 1.043) << row.id;
        EXPECT_GT(trade / per100Feet(row.bore_in, row.cfm, 3e-4), 1.09) << row.id;
        EXPECT_LT(trade / per100Feet(row.bore_in, row.cfm, 3e-4), 1.13) << row.id;
      }
    }
  }
  // G12: the galvanized chart reads 0.09 (published, an introductory text's worked example).
  EXPECT_NEAR(per100Feet(10, 400, 3e-4), 0.09, 0.005);
  EXPECT_NEAR(per100Feet(10, 400, 5e-4), 0.09, 0.005);
  // VP per foot at 4000 fpm, computed from Loeffler's form.
  for (const auto& [bore_in, expected] : {std::pair{4, 0.07092}, {6, 0.04318}, {8, 0.03036}}) {
    const double cfm = 4000 * std::numbers::pi / 4 * bore_in * bore_in / 144;
    EXPECT_NEAR(0.0307 * std::pow(4000, 0.533) / std::pow(cfm, 0.612), expected, 6e-6);
  }
}

TEST(PublishedFriction, SiRows) {
  // Computed: roughness 0.09 mm, standard air. {bore mm, L/s, m/s, Re, f, Pa/m}
  const double rows[][6] = {{100, 165, 21.00845, 138776, 0.0211909, 56.1809},
                            {150, 370, 20.93772, 207463, 0.0192560, 33.8053},
                            {200, 660, 21.00845, 277552, 0.0180307, 23.9013}};
  for (const auto& row : rows) {
    const double bore = row[0] / 1000;
    const double flow = row[1] / 1000 * kStandardDensity_kg_m3;
    EXPECT_NEAR(meanSpeed(flow, kStandardDensity_kg_m3, roundArea(bore)), row[2], 6e-6);
    const double re = reynolds(flow, bore, kStandardViscosity_pa_s);
    EXPECT_NEAR(re, row[3], 0.6);
    EXPECT_NEAR(frictionFactor(re, 0.09 / row[0]).f, row[4], 6e-8);
    EXPECT_NEAR(
        frictionLoss(flow, kStandardDensity_kg_m3, kStandardViscosity_pa_s, bore, 1, 0.09 / row[0]).dp_pa,
        row[5], 6e-5);
  }
}

struct MeasuredRow {
  const char* id;
  double fpm, density_lb_ft3, gradient_in_ft, re, f, smooth, e3, e5;
};

constexpr MeasuredRow kMeasured[] = {
    {"H1", 9310, 0.0694, 0.10110, 5.89e5, 0.0136, 0.0129, 0.0172, 0.0189},
    {"H2", 7380, 0.0697, 0.06530, 4.69e5, 0.0139, 0.0134, 0.0174, 0.0191},
    {"H3", 4990, 0.0695, 0.03130, 3.18e5, 0.0146, 0.0144, 0.0178, 0.0194},
    {"H4", 3350, 0.0701, 0.01550, 2.14e5, 0.0154, 0.0155, 0.0184, 0.0199},
    {"H5", 2070, 0.0707, 0.00636, 1.34e5, 0.0170, 0.0170, 0.0194, 0.0207},
    {"H6", 1500, 0.0710, 0.00364, 9.78e4, 0.0183, 0.0181, 0.0202, 0.0213},
    {"H7", 1310, 0.0720, 0.00276, 8.64e4, 0.0180, 0.0186, 0.0205, 0.0216},
    {"H8", 1080, 0.0711, 0.00204, 7.06e4, 0.0198, 0.0194, 0.0212, 0.0222},
    {"H9", 749, 0.0712, 0.00103, 4.87e4, 0.0207, 0.0210, 0.0225, 0.0234},
};

TEST(PublishedFriction, MeasuredGalvanizedDuctIsNearlySmooth) {
  // H1 to H9, published: Huebscher 1947, round galvanized, 8.02 in, dataset D1947001 (CC-BY-4.0).
  const double bore_ft = 8.02 / 12;
  double smooth = 0;
  double e3 = 0;
  double e5 = 0;
  for (const auto& row : kMeasured) {
    // Columns beside the measurement, computed and printed to four digits; Re is printed to three, which
    // moves f by up to 1e-5 more.
    EXPECT_NEAR(frictionFactor(row.re, 5e-6 / bore_ft).f, row.smooth, 6.5e-5) << row.id;
    EXPECT_NEAR(frictionFactor(row.re, 3e-4 / bore_ft).f, row.e3, 6.5e-5) << row.id;
    EXPECT_NEAR(frictionFactor(row.re, 5e-4 / bore_ft).f, row.e5, 6.5e-5) << row.id;
    smooth += frictionFactor(row.re, 5e-6 / bore_ft).f / row.f / std::size(kMeasured);
    e3 += frictionFactor(row.re, 3e-4 / bore_ft).f / row.f / std::size(kMeasured);
    e5 += frictionFactor(row.re, 5e-4 / bore_ft).f / row.f / std::size(kMeasured);
    // A smooth wall meets every single measurement within 5.5 %: scatter of three-digit readings of a small
    // gradient (H7: the measured f falls where it should rise).
    EXPECT_NEAR(frictionFactor(row.re, 5e-6 / bore_ft).f / row.f, 1, 0.055) << row.id;
    // Inside the data: f/D VP, with VP = rho (V/1096.7)^2, gives the measured gradient within 0.8 % (the
    // three digits of f), H4 within 2.9 %, so its columns disagree among themselves.
    const double vp = row.density_lb_ft3 * std::pow(row.fpm / 1096.7, 2);
    EXPECT_NEAR(row.f / bore_ft * vp / row.gradient_in_ft, 1, row.id[1] == '4' ? 0.029 : 0.0085) << row.id;
  }
  // Mean of computed over measured. The roughness of the trade carries a margin of 16 to 25 %.
  EXPECT_NEAR(smooth, 0.99, 0.006);
  EXPECT_NEAR(e3, 1.16, 0.006);
  EXPECT_NEAR(e5, 1.25, 0.006);
}

TEST(PublishedFriction, CompressedFlexibleDuct) {
  // From memory: ASHRAE Fundamentals 2009 ch. 21 (PDCF, after Abushakra); values computed from its inch
  // form exp(-0.126 D[in]), ours uses its millimetre form, exp(-0.00496 D[mm]) = exp(-0.12598 D[in]).
  const double rows[][3] = {{4, 4, 2.4015},  {4, 15, 6.2558}, {6, 4, 2.0893},  {6, 15, 5.0850},
                            {6, 30, 9.1700}, {8, 4, 1.8467},  {8, 15, 4.1750}, {8, 30, 7.3501}};
  for (const auto& row : rows) {
    EXPECT_NEAR(compressionFactor(row[1] / 100, row[0] * kInch_m).value / row[2], 1, 1e-3)
        << row[0] << " in, " << row[1] << " %";
  }
  // Above ten the model holds: 4 in 30 % (11.5115), 6 in 45 % (13.2550), 8 in 45 % (10.5251).
  EXPECT_EQ(compressionFactor(0.30, 4 * kInch_m).value, 10);
  EXPECT_EQ(compressionFactor(0.45, 6 * kInch_m).value, 10);
  EXPECT_EQ(compressionFactor(0.45, 8 * kInch_m).value, 10);
}

TEST(PublishedFriction, HoseMultipliersLieWithinThePublishedBounds) {
  // Published: flexible suction duct over steel duct by a maker's Atkinson factors, 27/12 = 2.25; flexible
  // duct at moderate compression about 4, more compression close to 10 (Abushakra, Walker and Sherman;
  // Weaver and Culp). f = 8 K/rho with K in 1e-10 lbf min2/ft4 = 1.85532e-4 kg/m3.
  EXPECT_NEAR(8 * 27 * 1.85532e-4 / 1.2013848, 0.03336, 6e-6);
  EXPECT_NEAR(8 * 12 * 1.85532e-4 / 1.2013848, 0.01483, 6e-6);
  EXPECT_LT(hoseMultiplier(HoseInside::Ribbed, HosePull::Tight), 2.25);
  EXPECT_GT(hoseMultiplier(HoseInside::Ribbed, HosePull::Hung), 2.25);
  for (const HoseInside inside : {HoseInside::Smooth, HoseInside::Ribbed}) {
    EXPECT_GE(hoseMultiplier(inside, HosePull::Slack), 4);
    EXPECT_LE(hoseMultiplier(inside, HosePull::Slack), 10);
  }
}

}  // namespace
}  // namespace kerfdraft::physics
