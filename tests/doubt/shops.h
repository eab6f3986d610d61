// Shops for these tests: by hand, without a drawing, or small ones that are drawn.
#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalogue/catalogue.h"
#include "doubt/inputs.h"
#include "judge/assessment.h"
#include "support/nets.h"
#include "support/projects.h"

namespace kerfdraft::doubt {

inline const catalogue::Catalogue& shipped() {
  static const catalogue::Catalogue catalogue = catalogue::Catalogue::shipped().value();
  return catalogue;
}

/// An assessment of a network built by hand: one state, an empty project.
inline judge::Assessment assessmentOf(const test::NetBuilder& net, network::Situation situation) {
  judge::Assessment a;
  a.project = std::make_shared<const shop::Project>();
  a.pieces = net.share();
  a.network = network::compileNetwork(a.pieces).value();
  a.states.push_back({{}, "one", true, situation, network::solveFully(*a.network, situation)});
  return a;
}

inline judge::Assessment assessed(const shop::Project& project) {
  auto a = judge::assess(project, shipped());
  base::check(a.has_value(), a ? "" : a.error().text().c_str());
  return std::move(*a);
}

inline const Input* find(const std::vector<Input>& inputs, std::string_view key) {
  for (const Input& input : inputs) {
    if (input.key == key || input.key.substr(0, key.size() + 1) == std::string(key) + ":") {
      return &input;
    }
  }
  return nullptr;
}

}  // namespace kerfdraft::doubt
