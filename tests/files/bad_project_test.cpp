// Bad project files: each is refused with a sentence that names place, value and unit, and none crashes.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "files/project_file.h"
#include "files/source_files.h"

namespace kerfdraft::files {
namespace {

const std::string& minimalText() {
  static const std::string text = textOf(sourcePath("tests/files/data/minimal.json"));
  return text;
}

/// The smallest project with its first `from` replaced.
std::string spoilt(std::string_view from, std::string_view to) {
  std::string text = minimalText();
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

/// All problems, one a line; empty where the text is taken.
std::string problemsOf(std::string_view text) {
  const ReadProject read = readProject(text, "shop.json");
  std::string all;
  if (!read) {
    EXPECT_FALSE(read.error().empty());
    for (const base::Error& error : read.error()) {
      EXPECT_FALSE(error.message.empty());
      EXPECT_EQ(error.where.rfind("shop.json", 0), 0U) << error.text();
      all += error.text() + "\n";
    }
  }
  return all;
}

struct Case {
  const char* from;
  const char* to;
  const char* says;  ///< the whole text of the only problem
};

constexpr Case kCases[] = {
    // Keys and types.
    {R"("bore": "4 in", "hose")", R"("bored": "4 in", "hose")",
     "shop.json: /ducts/0/corners/0/leg (duct D1): the leg has no \"bore\"\n"
     "shop.json: /ducts/0/corners/0/leg/bored (duct D1): \"bored\" is not a key of a leg; did you mean "
     "\"bore\"?\n"},
    {R"("units": "us")", R"("units": "us", "unit": "us")",
     "shop.json: /setting/unit: \"unit\" is not a key of a setting; did you mean \"units\"?\n"},
    {R"("units": "us")", R"("units": "imperial")",
     "shop.json: /setting/units: \"imperial\" is not a word of unit-system; there are: us, metric\n"},
    {R"("name": "One planer, invented")", R"("name": 7)",
     "shop.json: /setting/name: here must be a text, not a number\n"},
    {R"("setting": {)", R"("setting": null, "extensions": {)",
     "shop.json: /setting: here must be an object (setting), not null\n"},
    {R"("outline": [)", R"("outline": "square", "outlines": [)",
     "shop.json: /rooms/0/outline (room Shop): here must be a list, not a text\n"
     "shop.json: /rooms/0/outlines (room Shop): \"outlines\" is not a key of a room; did you mean "
     "\"outline\"?\n"},
    {R"("inside": true)", R"("inside": "yes")",
     "shop.json: /collectors/0/filters/0/inside (collector C1): here must be true or false, not a text\n"},
    {R"("country": "US")", R"("country": "usa")",
     "shop.json: /setting/country: \"usa\" has 3 characters; the most is 2\n"},
    {R"("construction": "snap-lock-taped")", R"("construction": "Snap Lock")",
     "shop.json: /ducts/0/corners/1/leg/construction (duct D1): \"Snap Lock\" is not a catalogue key: "
     "lower-case "
     "letters, digits, \"-\", \"_\" and \".\" (leave it out for none)\n"},
    {R"("label": "G1")", R"("label": "")",
     "shop.json: /ducts/0/gates/0/label (duct D1, gate ): \"\" is not a label: it must not be empty, begin "
     "or end "
     "with a space\n"},
    // Quantities.
    {R"("floor": "400 cfm")", R"("floor": "400")",
     "shop.json: /machines/0/ports/0/floor (machine T1, port P1): \"400\" has no unit; it takes one of: cfm, "
     "m3/h, "
     "m³/h, m3/s, m³/s, m3/min, l/s, L/s, l/min, ft3/min, ft³/min\n"},
    {R"("floor": "400 cfm")", R"("floor": 400)",
     "shop.json: /machines/0/ports/0/floor (machine T1, port P1): a volume flow is written as a text with "
     "its unit, "
     "like \"100 m3/s\", but here is a number 400\n"},
    {R"("value": "4 in", )", R"("value": "4 in", "by": "me", )",
     "shop.json: /machines/0/ports/0/bore/by (machine T1, port P1): \"by\" is not a key of an entered "
     "quantity; "
     "there are: value, standing, source\n"},
    {R"("value": "4 in", )", R"()",
     "shop.json: /machines/0/ports/0/bore (machine T1, port P1): an entered quantity needs a \"value\"\n"},
    {R"("standing": "measured", "source": "calliper")", R"("standing": "mesured")",
     "shop.json: /machines/0/ports/0/bore/standing (machine T1, port P1): \"mesured\" is not a word of "
     "standing; did "
     "you mean \"measured\"?\n"},
    {R"("bore": "4 in", "hose")", R"("bore": "-4 in", "hose")",
     "shop.json: /ducts/0/corners/0/leg/bore (duct D1): \"-4 in\" is below 5 mm, the least it can be\n"},
    {R"("bore": "4 in", "hose")", R"("bore": "0 in", "hose")",
     "shop.json: /ducts/0/corners/0/leg/bore (duct D1): \"0 in\" is below 5 mm, the least it can be\n"},
    {R"("bore": "4 in", "hose")", R"("bore": "4 m", "hose")",
     "shop.json: /ducts/0/corners/0/leg/bore (duct D1): \"4 m\" is above 2 m, the most it can be\n"},
    {R"("inside": "ribbed", )", R"("inside": "ribbed", "length": "10 km", )",
     "shop.json: /ducts/0/corners/0/leg/hose/length (duct D1): \"10 km\" is above 100 m, the most it can "
     "be\n"},
    {R"("temperature": "70 °F")", R"("temperature": "700 °F")",
     "shop.json: /air/temperature: \"700 °F\" is above 60 °C, the most it can be\n"},
    {R"("temperature": "70 °F")", R"("temperature": "70 °F", "altitude": "90000 ft")",
     "shop.json: /air/altitude: \"90000 ft\" is above 6000 m, the most it can be\n"},
    {R"("temperature": "70 °F")", R"("temperature": "70 °F", "humidity": "120 %")",
     "shop.json: /air/humidity: \"120 %\" is above 100 %, the most it can be\n"},
    {R"("area": "16 ft2")", R"("area": "0 ft2")",
     "shop.json: /collectors/0/filters/0/area (collector C1): \"0 ft2\" is below 0.01 cm2, the least it can "
     "be\n"},
    {R"("travel": "1")", R"("travel": "1.5")",
     "shop.json: /states/0/gates/0/travel (state planer runs): \"1.5\" is above 1, the most it can be\n"},
    {R"("travel": "1")", R"("travel": "nan")",
     "shop.json: /states/0/gates/0/travel (state planer runs): \"nan\" does not begin with a finite number; "
     "a plain "
     "number is written like \"10\"\n"},
    {R"("floor": "400 cfm")", R"("floor": "400 cfm and then very much more of it, please")",
     "shop.json: /machines/0/ports/0/floor (machine T1, port P1): \"400 cfm and then very much more of it, "
     "p…\" is "
     "not a volume flow: a number and its unit on one line, at most 40 letters\n"},
    // Points.
    {R"(["9.5 ft", "6 ft", "0 ft"])", R"(["9.5 ft", "6 ft"])",
     "shop.json: /machines/0/at (machine T1): a point is a list of 3 lengths, like [\"3 ft\", \"4 ft\", \"7 "
     "ft\"], "
     "not a list of 2\n"},
    {R"(["9.5 ft", "6 ft", "0 ft"])", R"(["9.5 ft", 6, "0 ft"])",
     "shop.json: /machines/0/at/1 (machine T1): a length is written as a text with its unit, like \"3 ft\", "
     "but here "
     "is a number 6\n"},
    {R"(["9.5 ft", "6 ft", "0 ft"])", R"(["9.5 ft", "6000 km", "0 ft"])",
     "shop.json: /machines/0/at/1 (machine T1): \"6000 km\" is above 1 km, the most it can be\n"},
    // Ids.
    {R"("id": "0000000000000025")", R"("id": "gate one")",
     "shop.json: /ducts/0/gates/0/id (duct D1, gate G1): \"gate one\" is not an id: 1 to 16 hex digits, not "
     "all "
     "zero\n"},
    {R"("id": "0000000000000031")", R"("id": "0")",
     "shop.json: /collectors/0/filters/0/id (collector C1): \"0\" is not an id: 1 to 16 hex digits, not all "
     "zero\n"},
    {R"("id": "0000000000000041")", R"("id": "40")",
     "shop.json: /states/1/id (state all shut): the id 0000000000000040 stands twice: a state has it "
     "already\n"},
    {R"("collector-inlet": "0000000000000030")", R"("collector-inlet": "00000000000000ff")",
     "shop.json: /ducts/0/to/collector-inlet (duct D1): no collector has the id 00000000000000ff\n"},
    {R"("collector-inlet": "0000000000000030")", R"("collector-inlet": "0000000000000001")",
     "shop.json: /ducts/0/to/collector-inlet (duct D1): the id 0000000000000001 belongs to a room, not to a "
     "collector\n"},
    // Ends.
    {R"({"collector-inlet": "0000000000000030"})", R"({})",
     "shop.json: /ducts/0/to (duct D1): a duct end is an object with one of the keys open, port, moved, "
     "collector-inlet, collector-outlet, corner, free-air\n"},
    {R"({"collector-inlet": "0000000000000030"})", R"({"colector-inlet": "30"})",
     "shop.json: /ducts/0/to/colector-inlet (duct D1): \"colector-inlet\" is not a key of a duct end; did "
     "you mean "
     "\"collector-inlet\" or \"collector-outlet\"?\n"},
    {R"({"collector-inlet": "0000000000000030"})", R"({"open": false})",
     "shop.json: /ducts/0/to/open (duct D1): an open end is written {\"open\": true}\n"},
    {R"({"collector-inlet": "0000000000000030"})", R"({"moved": []})",
     "shop.json: /ducts/0/to/moved (duct D1): the list has 0 entries; it needs at least 1\n"},
    // What contradicts itself.
    {R"("target": "500 cfm")", R"("target": "3000 cfm")",
     "shop.json: /machines/0/ports/0/target (machine T1, port P1): 3000 cfm through a bore of 4 in would "
     "need 34377 "
     "fpm; above 19685 fpm a figure is taken for a slip\n"},
    {R"("floor": "400 cfm",)", R"("maker": {"flow": "500 cfm", "suction": "1.5 in w.g."},)",
     "shop.json: /machines/0/ports/0/maker (machine T1, port P1): the maker's static suction of 1.5 in w.g. "
     "is below "
     "the velocity pressure of 2.043 in w.g. that 500 cfm has in a bore of 4 in; no port can do that (is the "
     "suction "
     "a total pressure, or the bore another?)\n"},
    {R"("distance": "6 in")", R"("distance": "60 in")",
     "shop.json: /ducts/0/gates/0/distance (duct D1, gate G1): 60 in along the leg is not on it: the leg is "
     "1.50 ft "
     "long\n"},
    {R"("format": 1,)", R"("format": 2,)",
     "shop.json: /format: the file has format 2, written by a newer version; this one reads up to format "
     "1\n"},
};

}  // namespace

TEST(BadProject, EachIsOneSentenceWithPlaceValueAndUnit) {
  ASSERT_EQ(problemsOf(minimalText()), "");
  for (const Case& each : kCases) {
    EXPECT_EQ(problemsOf(spoilt(each.from, each.to)), each.says) << each.to;
  }
}

TEST(BadProject, EightHundredCfmThroughTwoAndAHalfInchIsRefused) {
  std::string text = spoilt(R"("bore": {"value": "4 in")", R"("bore": {"value": "2.5 in")");
  text.replace(text.find("500 cfm"), 7, "800 cfm");
  EXPECT_EQ(problemsOf(text),
            "shop.json: /machines/0/ports/0/target (machine T1, port P1): 800 cfm through a bore of 2.5 in "
            "would need "
            "23468 fpm; above 19685 fpm a figure is taken for a slip\n");
}

TEST(BadProject, AllProblemsOfAFileAreTold) {
  std::string text = spoilt(R"("units": "us")", R"("units": "feet")");
  text.replace(text.find("70 °F"), std::string("70 °F").size(), "70");
  text.replace(text.find(R"("travel": "1")"), 13, R"("travel": "2")");
  const std::string problems = problemsOf(text);
  EXPECT_NE(problems.find("/setting/units"), std::string::npos) << problems;
  EXPECT_NE(problems.find("/air/temperature"), std::string::npos) << problems;
  EXPECT_NE(problems.find("/states/0/gates/0/travel"), std::string::npos) << problems;
}

TEST(BadProject, AtMostTwentyProblemsAreTold) {
  std::string many;
  for (int i = 0; i < 100; ++i) {
    many += fmt::format(R"("unknown-{}": 1, )", i);
  }
  const ReadProject read = readProject(spoilt(R"("units": "us")", many + R"("units": "us")"), "shop.json");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().size(), kMostProblems);
  EXPECT_EQ(firstProblemOnly(read).error().text(), read.error().front().text());
}

TEST(BadProject, EveryTruncationIsRefused) {
  const std::string& text = minimalText();
  const std::size_t end = text.find_last_of('}');
  for (std::size_t length = 0; length <= end; length += 7) {
    const ReadProject read = readProject(std::string_view(text).substr(0, length), "shop.json");
    ASSERT_FALSE(read) << length;
    EXPECT_EQ(read.error().size(), 1U);
  }
}

TEST(BadProject, EveryByteSpoiltIsReadOrRefusedButNeverACrash) {
  const std::string& text = minimalText();
  std::size_t refused = 0;
  for (std::size_t at = 0; at < text.size(); at += 3) {
    for (const char bad : {'\0', '\xff', '{', '"', '9'}) {
      std::string changed = text;
      changed[at] = bad;
      refused += readProject(changed, "shop.json") ? 0U : 1U;
    }
  }
  EXPECT_GT(refused, text.size());  // most changes are noticed
}

TEST(BadProject, ExtensionsAreTheOnlyPlaceForOtherKeys) {
  EXPECT_EQ(problemsOf(spoilt(R"("setting": {)", R"("extensions": {"x": [1, {"y": null}]}, "setting": {)")),
            "");
  EXPECT_EQ(problemsOf(spoilt(R"("setting": {)", R"("extensions": 5, "setting": {)")),
            "shop.json: /: \"extensions\" must be an object, not a number\n");
}

}  // namespace kerfdraft::files
