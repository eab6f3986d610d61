// What the findings need to know of a shop, in a file: each field is read, written again, and refused where
// its word or range is wrong.
#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "files/project_file.h"
#include "files/source_files.h"

namespace kerfdraft::files {
namespace {

struct Put {
  std::string_view before;  ///< text of the smallest project
  std::string_view with;    ///< what goes in front of it
};

std::string with(std::initializer_list<Put> puts) {
  std::string text = textOf(sourcePath("tests/files/data/minimal.json"));
  for (const Put& put : puts) {
    const std::size_t at = text.find(put.before);
    EXPECT_NE(at, std::string::npos) << put.before;
    text.insert(at, put.with);
  }
  return text;
}

constexpr std::string_view kSetting = R"("units": "us")";
constexpr std::string_view kMachine = R"("name": "Planer")";
constexpr std::string_view kCollector = R"("name": "bag unit")";
constexpr std::string_view kFilter = R"("inside": true, "side")";
constexpr std::string_view kStates = R"("states": [)";

std::string problemsOf(const std::string& text) {
  const ReadProject read = readProject(text, "shop.json");
  std::string all;
  if (!read) {
    for (const base::Error& error : read.error()) {
      all += error.text() + "\n";
    }
  }
  return all;
}

TEST(VerdictFields, EachIsReadAndWrittenAgain) {
  const std::string text = with({
      {kSetting, R"("woods": ["iroko", "western-red-cedar"], )"},
      {kMachine, R"("throws": "sparks", "guard": "missing", "circuit": "a0", "motor": "2 hp", )"},
      {kCollector,
       R"("isolation": true, "circuit": "a0", "separators": [{"id": "b0", "kind": "cyclone", "side":
       "upstream", "bin": "30 gal", "bin-form": "fibre-drum"}], )"},
      {kFilter, R"("housing": "open", "cleaning": "shaker", "gauge": true, )"},
      {kStates,
       R"("circuits": [{"id": "a0", "label": "K1", "voltage": "120 V", "breaker": "20 A", "three-phase":
       true}], "accepted": [{"rule": "hose-greedy", "about": "run:0000000000000020:0000000000000021", "state":
       "40", "badness": "0.4", "reason": "Two lines,\nhere.", "on": "2026-02-03"}], )"},
  });
  const ReadProject read = readProject(text, "shop.json");
  ASSERT_TRUE(read) << read.error().front().text();
  EXPECT_EQ(read->setting.woods, (std::vector<std::string>{"iroko", "western-red-cedar"}));
  const shop::Machine& machine = read->machines.at(0);
  EXPECT_EQ(machine.throws_what, shop::Throws::Sparks);
  EXPECT_EQ(machine.guard, shop::Guard::Missing);
  EXPECT_EQ(machine.circuit, base::Id(0xa0));
  EXPECT_NEAR(machine.motor->si(), 1491.4, 0.1);
  const shop::Collector& collector = read->collectors.at(0);
  EXPECT_TRUE(collector.isolation);
  EXPECT_EQ(collector.circuit, base::Id(0xa0));
  EXPECT_EQ(collector.separators.at(0).bin_form, "fibre-drum");
  EXPECT_EQ(collector.filters.at(0).housing, shop::Housing::Open);
  EXPECT_EQ(collector.filters.at(0).cleaning, "shaker");
  EXPECT_TRUE(collector.filters.at(0).gauge);
  const shop::Circuit& circuit = read->circuits.at(0);
  EXPECT_DOUBLE_EQ(circuit.voltage.si(), 120);
  EXPECT_DOUBLE_EQ(circuit.breaker->si(), 20);
  EXPECT_TRUE(circuit.three_phase);
  const shop::Acceptance& accepted = read->accepted.at(0);
  EXPECT_EQ(accepted.rule, "hose-greedy");
  EXPECT_EQ(accepted.about, "run:0000000000000020:0000000000000021");
  EXPECT_EQ(accepted.state, base::Id(0x40));
  EXPECT_DOUBLE_EQ(accepted.badness.si(), 0.4);
  EXPECT_EQ(accepted.reason, "Two lines,\nhere.");
  EXPECT_EQ(accepted.on, "2026-02-03");
  const std::string written = writeProject(*read);
  const ReadProject back = readProject(written, "again");
  ASSERT_TRUE(back) << back.error().front().text();
  EXPECT_EQ(*back, *read);
  EXPECT_EQ(writeProject(*back), written);
}

TEST(VerdictFields, WhatWasNotSaidIsNotWritten) {
  const ReadProject read = readProject(with({}), "shop.json");
  ASSERT_TRUE(read);
  const std::string written = writeProject(*read);
  for (const char* key : {"woods", "throws", "guard", "circuit", "isolation", "bin-form", "housing",
                          "cleaning", "gauge", "accepted"}) {
    EXPECT_EQ(written.find('"' + std::string(key) + '"'), std::string::npos) << key;
  }
}

struct Case {
  Put put;
  const char* says;
};

TEST(VerdictFields, WrongWordsAndRangesAreRefused) {
  const Case cases[] = {
      {{kMachine, R"("throws": "metal", )"},
       "shop.json: /machines/0/throws (machine T1): \"metal\" is not a word of throws; there are: wood, "
       "sparks, vapour\n"},
      {{kMachine, R"("guard": true, )"},
       "shop.json: /machines/0/guard (machine T1): here must be a text (guard), not true or false\n"},
      {{kMachine, R"("guard": "mising", )"},
       "shop.json: /machines/0/guard (machine T1): \"mising\" is not a word of guard; did you mean "
       "\"missing\"?\n"},
      {{kFilter, R"("housing": "closed", )"},
       "shop.json: /collectors/0/filters/0/housing (collector C1): \"closed\" is not a word of housing; "
       "did you mean \"enclosed\"?\n"},
      {{kSetting, R"("woods": ["Western red cedar"], )"},
       "shop.json: /setting/woods/0: \"Western red cedar\" is not a catalogue key: lower-case letters, "
       "digits, \"-\", \"_\" and \".\" (leave it out for none)\n"},
      {{kMachine, R"("circuit": "a1", )"},
       "shop.json: /machines/0/circuit (machine T1): no circuit has the id 00000000000000a1\n"},
      {{kStates, R"("circuits": [{"id": "a0", "label": "K1", "voltage": "12 V"}], )"},
       "shop.json: /circuits/0/voltage (circuit K1): \"12 V\" is below 50 V, the least it can be\n"},
      {{kStates, R"("circuits": [{"id": "a0", "label": "K1"}], )"},
       "shop.json: /circuits/0 (circuit K1): the circuit has no \"voltage\"\n"},
      {{kStates, R"("accepted": [{"rule": "hose-greedy", "about": "D1", "badness": "1", "reason": "x"}], )"},
       "shop.json: /accepted/0/about: \"D1\" is not what a finding is about: a role and at most two ids of "
       "16 hex digits, like \"elbow:00000000000000a1\" (leave it out for the whole shop)\n"},
      {{kStates, R"("accepted": [{"rule": "hose-greedy", "badness": "-1", "reason": "x"}], )"},
       "shop.json: /accepted/0/badness: \"-1\" is below 0, the least it can be\n"},
      {{kStates, R"("accepted": [{"rule": "hose-greedy", "badness": "1"}], )"},
       "shop.json: /accepted/0: the acceptance has no \"reason\"\n"},
      {{kStates, R"("accepted": [{"rule": "hose-greedy", "state": "77", "badness": "1", "reason": "x"}], )"},
       "shop.json: /accepted/0/state (accepted finding hose-greedy): no state has the id "
       "0000000000000077\n"},
  };
  for (const Case& each : cases) {
    EXPECT_EQ(problemsOf(with({each.put})), each.says) << each.put.with;
  }
}

}  // namespace
}  // namespace kerfdraft::files
