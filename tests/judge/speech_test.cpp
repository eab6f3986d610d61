// Sentences from findings: remedies' templates, gains and prices in words.
#include "judge/speech.h"

#include <gtest/gtest.h>

#include "judge/remedy_words.h"

namespace kerfdraft::judge {
namespace {

using base::Kind;

const Voice kOwner(Reader::Owner, base::UnitSystem::Us);
const Voice kAdviser(Reader::Adviser, base::UnitSystem::Metric);

Remedy bigger() {
  Remedy remedy;
  remedy.kind = "bigger-duct";
  remedy.words = {"D3"};
  remedy.figures = {{"bore", 0.1524, Kind::Bore}};
  return remedy;
}

TEST(Speech, ARemedyIsAnImperativeWithItsNumbers) {
  EXPECT_EQ(sayRemedy(bigger(), kOwner), "Make D3 6 in wide.");
  EXPECT_EQ(sayRemedy(bigger(), kAdviser), "Make D3 152 mm wide.");
}

TEST(Speech, GainAndPriceFollow) {
  Remedy remedy = bigger();
  remedy.gain = Gain{0.226535, 0.339802, Kind::VolumeFlow, true, "T2 planer"};
  remedy.price = PriceBand{61, 143};
  EXPECT_EQ(
      sayRemedy(remedy, kOwner),
      "Make D3 6 in wide: from 480 cfm to 720 cfm at T2 planer, which settles it; about 60 to 140 USD of "
      "material (a recalled estimate).");
  remedy.gain->cures = false;
  EXPECT_NE(sayRemedy(remedy, kOwner).find("does not settle it"), std::string::npos);
  remedy.gain->after = 0.2266;
  EXPECT_NE(sayRemedy(remedy, kOwner).find("hardly changes"), std::string::npos);
  remedy.price = PriceBand{};
  EXPECT_NE(sayRemedy(remedy, kOwner).find("costs nothing"), std::string::npos);
}

TEST(Speech, TemplatesLeaveOutWhatIsNotKnown) {
  Remedy remedy;
  remedy.kind = "test";
  remedy.words = {"A", "B", "C"};
  remedy.figures = {{"share", 0.25, Kind::Ratio}};
  EXPECT_EQ(fillTemplate("{0} then {1+}[ by {flow}][ with {share%}]", remedy, kOwner),
            "A then B and C with 25 %");
  EXPECT_EQ(fillTemplate("{0+}", remedy, kOwner), "A, B and C");
  EXPECT_THROW(static_cast<void>(fillTemplate("{flow}", remedy, kOwner)), base::InternalError);
  EXPECT_THROW(static_cast<void>(fillTemplate("{3}", remedy, kOwner)), base::InternalError);
}

TEST(Speech, RemedyKindsStandInOrderAndOnce) {
  std::string_view last;
  for (const RemedyWords& words : remedyWords()) {
    EXPECT_LT(last, words.kind);
    last = words.kind;
    EXPECT_FALSE(words.text.ends_with('.')) << words.kind;
  }
}

TEST(Speech, AnUnknownKindIsABug) {
  Remedy remedy;
  remedy.kind = "no-such-remedy";
  EXPECT_THROW(static_cast<void>(sayRemedy(remedy, kOwner)), base::InternalError);
  EXPECT_THROW(static_cast<void>(say(Finding{}, kOwner)), base::InternalError);
}

TEST(Speech, AFindingIsSaidWithWhereLimitAndDeference) {
  ASSERT_FALSE(allRules().empty());
  Finding finding;
  finding.rule = "loose-collector";
  ASSERT_NE(findRule(finding.rule), nullptr);
  finding.label = "C2";
  finding.state_name = "planing";
  finding.limit =
      Limit{20, Kind::Speed, "AcgihIv: ch. 5", base::SourceStatus::FromMemory, "transport-velocity: hsg258"};
  finding.defers = true;
  const Said adviser = say(finding, kAdviser);
  EXPECT_EQ(adviser.title.substr(0, 4), "C2: ");
  EXPECT_NE(adviser.title.find("(planing)"), std::string::npos);
  EXPECT_EQ(adviser.limit,
            "Held against 20 m/s: AcgihIv: ch. 5 (from memory). Published rules disagree here; used: "
            "transport velocity: hsg258.");
  EXPECT_FALSE(adviser.defer.empty());
  EXPECT_TRUE(say(finding, kOwner).limit.empty());
}

}  // namespace
}  // namespace kerfdraft::judge
