// A claim that wheel or motor cannot keep: more suction than the rim's speed makes, or more power in the air
// than the motor has. Every flow computed from such a claim is too good.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"
#include "physics/fan.h"

namespace kerfdraft::judge {

namespace {

constexpr std::string_view kWheel = "wheel";
constexpr std::string_view kMotor = "motor";
constexpr std::string_view kDoubtfulMotor = "efficiency";

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
    const auto entry = enteredFan(evidence, f);
    const auto& rating = evidence.pieces().fans[f].rating;
    if (!entry || !rating) {
      continue;
    }
    Finding finding = aboutFan(evidence, f);
    double ratio = 0;
    bool impossible = false;
    // The claim holds at the speed of the test; where that is not known the running speed is all there is.
    const auto& speed = entry->rating->speed ? entry->rating->speed : entry->motor->speed;
    if (entry->motor->wheel && speed && entry->motor->wheel->si() > 0 && speed->si() > 0) {
      const double claimed_pa = std::max(rating->curve.shutoff(), rating->curve.peak().p_pa);
      const physics::WheelCheck wheel =
          physics::checkWheel(claimed_pa, entry->motor->wheel->si(), speed->si(), rating->density_kg_m3);
      if (wheel.above_wheel) {
        finding.words.emplace_back(kWheel);
        finding.figures.insert(finding.figures.end(),
                               {{"claimed", claimed_pa, base::Kind::Pressure},
                                {"possible", wheel.shutoff_high_pa, base::Kind::Pressure},
                                {"possible-low", wheel.shutoff_low_pa, base::Kind::Pressure},
                                {"tip-speed", wheel.tip_speed_m_s, base::Kind::Speed}});
        finding.limit = Limit{wheel.shutoff_high_pa,
                              base::Kind::Pressure,
                              std::string(physics::kTipPressure.source),
                              physics::kTipPressure.status,
                              {}};
        ratio = wheel.claim_over_high;
        impossible = true;
      }
    }
    if (entry->motor->power && entry->motor->power->si() > 0) {
      const physics::MotorCheck motor = physics::checkMotor(*rating, entry->motor->power->si());
      if (motor.above_small_fan) {
        finding.words.emplace_back(motor.above_motor ? kMotor : kDoubtfulMotor);
        finding.figures.insert(finding.figures.end(),
                               {{"air-power", motor.air_power_w, base::Kind::Power},
                                {"motor-power", motor.motor_w, base::Kind::Power},
                                {"efficiency", motor.efficiency_needed, base::Kind::Ratio},
                                {"flow", motor.at.flow_m3_s, base::Kind::VolumeFlow},
                                {"pressure", motor.at.p_pa, base::Kind::Pressure}});
        if (!finding.limit) {
          finding.limit = Limit{motor.above_motor ? 1 : physics::kSmallFanEfficiency,
                                base::Kind::Ratio,
                                {},
                                base::SourceStatus::CommonPractice,
                                {}};
        }
        ratio =
            std::max(ratio, motor.efficiency_needed / (motor.above_motor ? 1 : physics::kSmallFanEfficiency));
        impossible = impossible || motor.above_motor;
      }
    }
    if (finding.words.empty()) {
      continue;
    }
    finding.severity = impossible ? Severity::Caution : Severity::Note;
    finding.badness = badnessOf(ratio);
    finding.remedies = {{"shut-inlet-test", {}, {finding.label}, {}, {}, {}},
                        {"ask-for-curve", {}, {finding.label}, {}, {}, {}}};
    out.push_back(std::move(finding));
  }
}

std::string wheelSentence(const Finding& finding, const Voice& voice) {
  const std::string claimed = voice.show(finding.figure("claimed"));
  const std::string possible = voice.show(finding.figure("possible"));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} is said to pull {}, but a wheel of that size at that speed makes {} at most.",
                         finding.label, claimed, possible);
    case Reader::Adviser:
      return fmt::format(
          "{} claims {} at shut inlet; its wheel, with a rim speed of {}, makes {} to {} (0.60 to 0.65 of "
          "the "
          "density times the rim speed squared).",
          finding.label, claimed, voice.show(finding.figure("tip-speed")),
          voice.show(finding.figure("possible-low")), possible);
    case Reader::Inspector:
      return fmt::format("{}: stated suction {} exceeds what the stated wheel can develop ({}).",
                         finding.label, claimed, possible);
  }
  return {};
}

std::string motorSentence(const Finding& finding, const Voice& voice, bool impossible) {
  const std::string air = voice.show(finding.figure("air-power"));
  const std::string motor = voice.show(finding.figure("motor-power"));
  const std::string share = voice.percent(finding.figure("efficiency").value);
  switch (voice.reader()) {
    case Reader::Owner:
      return impossible
                 ? fmt::format("What is said of the air of {} would take {}, more than its motor has ({}).",
                               finding.label, air, motor)
                 : fmt::format(
                       "What is said of the air of {} would put {} of its motor's power into the air; small "
                       "collectors manage about half.",
                       finding.label, share);
    case Reader::Adviser:
      return fmt::format(
          "By its curve {} gives the air {} at {} and {}, that is {} of the motor's {}; small collectors "
          "reach 40 "
          "to 55 %.",
          finding.label, air, voice.show(finding.figure("flow")), voice.show(finding.figure("pressure")),
          share, motor);
    case Reader::Inspector:
      return fmt::format(
          "{}: stated air power {} against a motor of {} ({}). {}", finding.label, air, motor, share,
          impossible ? "The stated performance is not possible." : "The stated performance is doubtful.");
  }
  return {};
}

std::string tell(const Finding& finding, const Voice& voice) {
  std::string out;
  for (const std::string& word : finding.words) {
    out += out.empty() ? "" : " ";
    out += word == kWheel ? wheelSentence(finding, voice) : motorSentence(finding, voice, word == kMotor);
  }
  return out;
}

}  // namespace

const Rule kImpossibleLabel{"impossible-label", Topic::Collector, "A claim that cannot be", &look,
                            &tidied<tell>};

}  // namespace kerfdraft::judge
