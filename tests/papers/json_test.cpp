// The judgement as JSON: its numbers are the solution's, and every key is in the schema.
#include "papers/json.h"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "paper_stage.h"
#include "papers/got.h"

namespace kerfdraft::papers {
namespace {

using nlohmann::json;

TEST(CheckJson, FlowsAreTheSolutions) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const PaperInput input = stage.input(judge::Reader::Adviser, base::UnitSystem::Us);
    const json root = json::parse(checkJson(input));
    ASSERT_EQ(root["states"].size(), stage.assessment->states.size());
    for (std::size_t s = 0; s < stage.assessment->states.size(); ++s) {
      const auto all = gotIn(input, s);
      ASSERT_EQ(root["states"][s]["machines"].size(), all.size());
      for (std::size_t g = 0; g < all.size(); ++g) {
        if (all[g].margin->port) {
          EXPECT_EQ(root["states"][s]["machines"][g]["flow_m3_s"].get<double>(),
                    stage.assessment->states[s].solution.ports[*all[g].margin->port].flow_m3_s);
        }
      }
    }
    EXPECT_EQ(root["findings"].size(), input.verdict.findings.size());
  }
}

TEST(CheckJson, EveryFindingIsInOneGroup) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const json root = json::parse(checkJson(stage.input(judge::Reader::Owner, base::UnitSystem::Metric)));
    std::multiset<std::size_t> seen;
    for (const char* list : {"groups", "lived_with"}) {
      for (const json& group : root[list]) {
        seen.insert(group["lead"].get<std::size_t>());
        for (const char* part : {"same", "explains"}) {
          for (const json& index : group[part]) {
            seen.insert(index.get<std::size_t>());
          }
        }
      }
    }
    std::multiset<std::size_t> all;
    for (std::size_t f = 0; f < root["findings"].size(); ++f) {
      all.insert(f);
    }
    EXPECT_EQ(seen, all) << stage.name;
  }
}

/// Keys of an object that the schema's object does not name, and those it requires that are not there.
void holdTo(const json& schema, const json& object, const std::string& where) {
  for (const auto& [key, value] : object.items()) {
    EXPECT_TRUE(schema["properties"].contains(key)) << where << "/" << key;
  }
  for (const json& key : schema["required"]) {
    EXPECT_TRUE(object.contains(key.get<std::string>())) << where << "/" << key;
  }
}

TEST(CheckJson, KeysAreThoseOfTheSchema) {
  std::ifstream file(KERFDRAFT_SOURCE_DIR "/docs/schema/check-1.schema.json");
  const json schema = json::parse(file);
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const json root = json::parse(checkJson(stage.input(judge::Reader::Adviser, base::UnitSystem::Us)));
    holdTo(schema, root, stage.name);
    for (const json& finding : root["findings"]) {
      holdTo(schema["$defs"]["finding"], finding, stage.name + "/findings");
      for (const json& remedy : finding["remedies"]) {
        holdTo(schema["$defs"]["remedy"], remedy, stage.name + "/remedies");
      }
    }
    for (const json& state : root["states"]) {
      holdTo(schema["$defs"]["state"], state, stage.name + "/states");
    }
  }
}

}  // namespace
}  // namespace kerfdraft::papers
