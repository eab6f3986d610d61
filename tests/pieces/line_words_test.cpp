// The language of `kerfdraft line`: what it takes, and the sentences for what it does not.
#include "pieces/line_words.h"

#include <numbers>

#include "support/shipped.h"

namespace kerfdraft::pieces {

using namespace support;
namespace {

template <class T>
T only(std::string_view text) {
  const auto pieces = readLine(text, shipped());
  if (!pieces || pieces->size() != 1) {
    ADD_FAILURE() << text << ": " << (pieces ? "more than one piece" : pieces.error().text());
    return T{};
  }
  return std::get<T>(pieces->front().what);
}

std::string problem(std::string_view text) {
  const auto pieces = readLine(text, shipped());
  EXPECT_FALSE(pieces) << text;
  return pieces ? std::string() : pieces.error().text();
}

TEST(LineWords, ReadsDuctAndHose) {
  const BoreWord duct = only<BoreWord>("duct 6 in 12 ft spiral");
  EXPECT_DOUBLE_EQ(duct.bore.si(), 0.1524);
  EXPECT_DOUBLE_EQ(duct.length.si(), 12 * 0.3048);
  EXPECT_EQ(duct.construction, "spiral-galvanized");
  EXPECT_EQ(only<BoreWord>("duct 6 in 12 ft plastic").construction, "pvc-drain");
  EXPECT_EQ(only<BoreWord>("duct 6in 12ft").bore.text(), "6in");

  const BoreWord hose = only<BoreWord>("hose 100 mm 3 m smooth tight 2 bends");
  ASSERT_TRUE(hose.hose);
  EXPECT_EQ(hose.hose->inside, shop::HoseInside::Smooth);
  EXPECT_EQ(hose.hose->hung, shop::HoseHung::Tight);
  EXPECT_EQ(hose.bends, 2);
}

TEST(LineWords, KeepsFractionsOfAnInchAsTyped) {
  const BoreWord duct = only<BoreWord>("duct 2 1/2 in 3 ft");
  EXPECT_EQ(duct.bore.text(), "2 1/2 in");
  EXPECT_DOUBLE_EQ(duct.bore.si(), 2.5 * 0.0254);
}

TEST(LineWords, ReadsHoods) {
  EXPECT_DOUBLE_EQ(only<HoodWord>("hood 0.5").entry->si(), 0.5);
  EXPECT_EQ(only<HoodWord>("hood bellmouth").form, "bellmouth");
  const HoodWord maker = only<HoodWord>("hood 400 cfm at 3 in w.g.");
  ASSERT_TRUE(maker.maker);
  EXPECT_EQ(maker.maker->flow.text(), "400 cfm");
  EXPECT_EQ(maker.maker->suction.text(), "3 in w.g.");
  const HoodWord unknown = only<HoodWord>("hood");
  EXPECT_TRUE(!unknown.entry && !unknown.maker && unknown.form.empty());
  EXPECT_EQ(only<MachineWord>("machine planer").kind, "planer");
}

TEST(LineWords, ReadsElbowsGatesAndWhatStandsAtTheCollector) {
  const ElbowWord two = only<ElbowWord>("2 elbows 4 in 45° gored-5 radius 2");
  EXPECT_EQ(two.count, 2);
  EXPECT_NEAR(two.angle.si(), std::numbers::pi / 4, 1e-12);
  EXPECT_EQ(two.form, "gored-5");
  EXPECT_DOUBLE_EQ(two.radius->si(), 2);
  EXPECT_DOUBLE_EQ(only<GateWord>("gate 4 in 50 %").travel.si(), 0.5);
  EXPECT_EQ(only<shop::Separator>("separator lid 2 in w.g. at 600 cfm").rated_flow->text(), "600 cfm");
  EXPECT_EQ(only<shop::Filter>("filter 35 ft2").area->text(), "35 ft2");
  EXPECT_EQ(only<shop::Filter>("filter 1 in w.g. at 350 cfm").seasoned->flow.text(), "350 cfm");
}

TEST(LineWords, NamesThePieceAndTheWordThatIsWrong) {
  EXPECT_EQ(problem("hood 0.5; duct 4 3 ft"),
            "piece 2 (duct 4 3 ft): the bore is wanted at \"4 3 ft\"; it is written like \"4 in\"");
  EXPECT_NE(problem("pipe 4 in 3 ft").find("the pieces are hood"), std::string::npos);
  EXPECT_NE(problem("duct 4 in").find("the length is missing"), std::string::npos);
  EXPECT_NE(problem("duct -4 in 3 ft").find("-4 in"), std::string::npos);
  EXPECT_NE(problem("hose 4 in 10 km").find("10 km"), std::string::npos);
  EXPECT_NE(problem("hose 4 in 3 ft floppy").find("floppy"), std::string::npos);
  EXPECT_NE(problem("hose 4 in 3 ft 2 knots").find("bends"), std::string::npos);
  EXPECT_NE(problem("elbow 4 in 270°").find("270"), std::string::npos);
  EXPECT_NE(problem("gate 4 in 0 %").find("0 %"), std::string::npos);
  EXPECT_NE(problem("loss -0.3").find("-0.3"), std::string::npos);
  EXPECT_NE(problem("hood bellmuth").find("bellmouth"), std::string::npos);
  EXPECT_NE(problem("separator").find("cyclone"), std::string::npos);
  EXPECT_NE(problem(" ; ; ").find("no piece"), std::string::npos);
}

TEST(LineWords, ReadsCurvesAndLabels) {
  const auto points = readCurve("0 cfm 6.3 in w.g., 350 cfm at 4.7 in w.g.,", "--fan");
  ASSERT_TRUE(points) << points.error().text();
  EXPECT_EQ(points->size(), 2U);
  EXPECT_FALSE(readCurve("350 cfm", "--fan"));
  EXPECT_FALSE(readCurve("350 4.7", "--fan"));
  EXPECT_TRUE(readLabel("1100 cfm and 8 in w.g.", "--label"));
  EXPECT_FALSE(readLabel("1100 cfm", "--label"));
  EXPECT_FALSE(readLabel("1100 cfm 8 in w.g. roaring", "--label"));
}

TEST(LineWords, SurvivesHostileText) {
  EXPECT_FALSE(readLine(std::string(100000, ';') + "x", shipped()));
  EXPECT_FALSE(readLine(std::string(5000, 'a'), shipped()));
  EXPECT_FALSE(readLine(std::string("duct \0 in", 9), shipped()));
  std::string many;
  for (int i = 0; i < 300; ++i) {
    many += "elbow 4 in;";
  }
  EXPECT_FALSE(readLine(many, shipped()));
}

}  // namespace
}  // namespace kerfdraft::pieces
