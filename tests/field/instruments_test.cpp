// Usual instruments, and data that no instrument has.
#include "field/instruments.h"

#include <gtest/gtest.h>

#include <limits>

namespace kerfdraft::field {
namespace {

TEST(Instruments, UsualOnesAreAccepted) {
  EXPECT_TRUE(checkInstrument(PressureInstrument{ColumnGauge{}, usualProbe(Probe::Form::PitotStatic)}));
  EXPECT_TRUE(checkInstrument(PressureInstrument{DigitalGauge{}, usualProbe(Probe::Form::TypeS)}));
  EXPECT_TRUE(checkInstrument(usualSpeedMeter(SpeedMeter::Form::Vane)));
  EXPECT_TRUE(checkInstrument(usualSpeedMeter(SpeedMeter::Form::HotWire)));
}

TEST(Instruments, RawKindFollowsTheScale) {
  ColumnGauge g;
  EXPECT_EQ(rawKind(PressureInstrument{g, {}}), base::Kind::Bore);
  g.scale = ColumnGauge::Scale::Pressure;
  EXPECT_EQ(rawKind(PressureInstrument{g, {}}), base::Kind::Pressure);
  EXPECT_EQ(rawKind(PressureInstrument{DigitalGauge{}, {}}), base::Kind::Pressure);
  EXPECT_EQ(rawKind(SpeedMeter{}), base::Kind::Speed);
}

TEST(Instruments, RefusesWhatNoInstrumentHas) {
  const auto refused = [](const Instrument& i) {
    const auto r = checkInstrument(i, "gauge");
    EXPECT_FALSE(r);
    if (!r) {
      EXPECT_EQ(r.error().code, base::ErrorCode::Range);
      EXPECT_EQ(r.error().where, "gauge");
    }
  };
  ColumnGauge g;
  g.graduation = 0;
  refused(PressureInstrument{g, {}});
  g = {};
  g.rise = 1.5;
  refused(PressureInstrument{g, {}});
  g = {};
  g.specific_gravity = -1;
  refused(PressureInstrument{g, {}});
  g = {};
  g.specific_gravity = std::numeric_limits<double>::quiet_NaN();
  refused(PressureInstrument{g, {}});
  DigitalGauge d;
  d.range_pa = 0;
  refused(PressureInstrument{d, {}});
  Probe hood = usualProbe(Probe::Form::HoodTap);
  hood.coefficient = 1.1;
  refused(PressureInstrument{DigitalGauge{}, hood});
  SpeedMeter m;
  m.calibration_kg_m3 = 0;
  refused(m);
}

}  // namespace
}  // namespace kerfdraft::field
