// How a number explains itself. A law is a template on a note; the note is silent by default and costs
// nothing, and a Recorder in its place writes down every step. There is one piece of arithmetic, so the
// explanation cannot disagree with the number.
//
//   template <class Note = Silent>
//   double velocityPressure(double density_kg_m3, double speed_m_s, Note&& note = {}) {
//     const double vp_pa = 0.5 * density_kg_m3 * speed_m_s * speed_m_s;
//     if constexpr (kNoted<Note>) {
//       note.step(kVelocityPressure, vp_pa, {{"rho", density_kg_m3, Kind::Density}, {"V", speed_m_s,
//       Kind::Speed}});
//     }
//     return vp_pa;
//   }
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/quantity.h"

namespace kerfdraft::base {

/// How sure a law or a table row is (docs/references.bib holds the keys).
enum class SourceStatus {
  Published,       ///< read in the named source
  FromMemory,      ///< of the named source, not seen again
  CommonPractice,  ///< of the trade, no source
  Ours,            ///< a choice of this project, explained in docs/theory or docs/decisions
};

std::string_view toText(SourceStatus status);

/// One law: constant data beside the template that computes it. `key` never changes once published.
struct Law {
  std::string_view key;      ///< "velocity-pressure"
  std::string_view name;     ///< "Velocity pressure"
  std::string_view symbol;   ///< of the result, "VP"
  Kind kind;                 ///< of the result
  std::string_view formula;  ///< in plain text: "VP = rho V^2 / 2"
  std::string_view source;   ///< key in docs/references.bib with the equation number; "" for CommonPractice
  SourceStatus status;
  std::string_view page;  ///< docs/theory page without suffix, "" where the doc comment is enough
};

/// One input of a step: symbol as in the formula, SI value, kind for showing it.
struct Input {
  std::string_view symbol;
  double value;
  Kind kind;
};

/// One evaluated law.
struct Step {
  const Law* law = nullptr;
  double result = 0;
  std::vector<Input> inputs;
};

/// The note that writes nothing.
struct Silent {
  static constexpr bool kActive = false;
  void step(const Law&, double, std::initializer_list<Input>) const {}
};

/// The note that writes every step, in the order in which the laws were evaluated.
class Recorder {
 public:
  static constexpr bool kActive = true;
  void step(const Law& law, double result, std::initializer_list<Input> inputs) {
    steps_.push_back(Step{&law, result, inputs});
  }
  const std::vector<Step>& steps() const { return steps_; }

 private:
  std::vector<Step> steps_;
};

template <class Note>
inline constexpr bool kNoted = std::remove_cvref_t<Note>::kActive;

/// Where an operand of a derivation comes from.
enum class From { Entered, Catalogue, Number, Constant };

struct Operand {
  std::string symbol;
  double value = 0;
  Kind kind = Kind::Ratio;
  From from = From::Constant;
  std::string ref;   ///< field path, catalogue row, or the key of another number (which explain() expands)
  std::string text;  ///< as a person entered it, or the row's source
};

/// One number, explained: the steps that made it and where each operand comes from.
struct Derivation {
  std::string key;
  std::string name;
  double value = 0;
  Kind kind = Kind::Ratio;
  std::vector<Step> steps;
  std::vector<Operand> operands;
};

}  // namespace kerfdraft::base
