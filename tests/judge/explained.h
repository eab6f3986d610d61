// What every explanation must be: the number to the bit, and an origin for each of its inputs.
#pragma once

#include <bit>
#include <cstdint>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/explain.h"

namespace kerfdraft::tests {

inline bool sameBits(double a, double b) {
  return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
}

/// What can be asked of one explanation.
inline void expectExplained(const judge::Assessment& assessment, const std::string& key) {
  const judge::Number number = judge::numberOf(assessment, judge::parseNumberKey(key).value()).value();
  const auto derivation = judge::explain(assessment, key);
  ASSERT_TRUE(derivation.has_value()) << key << ": " << derivation.error().text();
  EXPECT_TRUE(sameBits(derivation->value, number.value))
      << key << ": " << derivation->value << " against " << number.value;
  ASSERT_FALSE(derivation->steps.empty()) << key;
  EXPECT_TRUE(sameBits(derivation->steps.back().result, number.value)) << key;
  for (const base::Operand& operand : derivation->operands) {
    EXPECT_FALSE(operand.ref.empty() && operand.text.empty()) << key << ": " << operand.symbol;
    if (operand.from == base::From::Number) {
      const auto other = judge::numberOf(assessment, judge::parseNumberKey(operand.ref).value());
      ASSERT_TRUE(other.has_value()) << key << ": " << operand.ref;
      EXPECT_TRUE(sameBits(other->value, operand.value))
          << key << ": " << operand.symbol << " is not " << operand.ref;
      EXPECT_NE(operand.ref, key);
    }
  }
  // Nothing is left without an origin: inputs that no law made and nobody entered are the formula's own.
  for (const base::Operand& operand : derivation->operands) {
    if (operand.text == "of the formula") {
      EXPECT_THAT((std::vector<std::string>{"f", "Ma", "Mv", "R"}), testing::Contains(operand.symbol))
          << key << " = " << operand.value;
    }
  }
}

inline std::size_t expectAllExplained(const judge::Assessment& assessment) {
  std::size_t count = 0;
  for (std::size_t state = 0; state < assessment.states.size(); ++state) {
    EXPECT_TRUE(assessment.states[state].solution.solved()) << assessment.states[state].name;
    for (const judge::NumberKey& key : judge::numberKeys(assessment, state)) {
      expectExplained(assessment, key.text());
      ++count;
    }
  }
  for (const char* key : {"air/density", "air/viscosity", "air/pressure"}) {
    expectExplained(assessment, key);
  }
  return count;
}

}  // namespace kerfdraft::tests
