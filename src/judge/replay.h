// One number computed again with a recorder in place of the silent note. Inside the room only.
#pragma once

#include <bit>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "base/law.h"
#include "judge/assessment.h"
#include "judge/number_key.h"

namespace kerfdraft::judge {

inline constexpr base::Law kSolved{
    "solved",
    "Found by the solver",
    "x",
    base::Kind::Ratio,
    "mass is conserved at every node and every law holds along every run, fan and opening",
    "",
    base::SourceStatus::Ours,
    "solver"};
inline constexpr base::Law kHandedOn{
    "handed-on", "The same number, handed on", "x", base::Kind::Ratio, "x = x",
    "",          base::SourceStatus::Ours,     ""};
inline constexpr base::Law kAtRest{"at-rest",
                                   "Nothing passes or nothing is there",
                                   "x",
                                   base::Kind::Ratio,
                                   "x = 0",
                                   "",
                                   base::SourceStatus::Ours,
                                   ""};
inline constexpr base::Law kGivenPressure{"given-pressure",
                                          "A pressure that is given: free air",
                                          "p",
                                          base::Kind::Pressure,
                                          "p = given",
                                          "",
                                          base::SourceStatus::Ours,
                                          ""};
inline constexpr base::Law kGivenAir{"given-air",
                                     "A property of the air that is given",
                                     "x",
                                     base::Kind::Ratio,
                                     "x = given",
                                     "",
                                     base::SourceStatus::Ours,
                                     ""};

inline bool sameBits(double a, double b) {
  return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
}

/// What a replay leaves behind: steps, the law whose step is the number, and operands whose origin is known.
struct Replay {
  base::Recorder note;
  double value = 0;
  const base::Law* target = nullptr;
  std::vector<base::Operand> known;

  /// Makes `value` the number, found by the last step of `law` that gives it.
  void is(double number, const base::Law& law) {
    value = number;
    target = &law;
  }

  /// The number is nothing: it stands as one step without operands.
  void atRest(double number) {
    note.step(kAtRest, number, {});
    is(number, kAtRest);
  }

  void number(std::string_view symbol, double from, base::Kind kind, const NumberKey& key) {
    known.push_back({std::string(symbol), from, kind, base::From::Number, key.text(), {}});
  }
  void constant(std::string_view symbol, double from, base::Kind kind, std::string text) {
    known.push_back({std::string(symbol), from, kind, base::From::Constant, {}, std::move(text)});
  }
  void catalogue(std::string_view symbol, double from, base::Kind kind, const pieces::Source& source) {
    known.push_back({std::string(symbol), from, kind, base::From::Catalogue, source.key, source.formula});
  }
  void entered(std::string_view symbol, double from, base::Kind kind, std::string path, std::string text) {
    known.push_back({std::string(symbol), from, kind, base::From::Entered, std::move(path), std::move(text)});
  }

  /// The number is that of another key.
  void handedOn(double from, base::Kind kind, const NumberKey& key) {
    note.step(kHandedOn, from, {{"x", from, kind}});
    number("x", from, kind, key);
    is(from, kHandedOn);
  }
};

/// Everything a replay looks at.
struct Scene {
  const Assessment& assessment;
  NumberKey key;
  const StateResult& state;
  const pieces::Pieces& drawing;
  const network::Solution& solution;

  NumberKey runKey(std::size_t run, std::string quantity) const {
    return {Element::Run, key.state, run, 0, std::move(quantity)};
  }
  NumberKey pieceKey(std::size_t run, std::size_t piece, std::string quantity) const {
    return {Element::Piece, key.state, run, piece, std::move(quantity)};
  }
  NumberKey nodeKey(std::size_t node) const { return {Element::Node, key.state, node, 0, "pressure"}; }
};

/// A number that the solver found: the step names how well the conditions are met.
void replaySolved(const Scene& scene, double number, Replay& replay);
/// Operands that many laws share: density, pressure and viscosity of the room's air.
void knowTheAir(const Scene& scene, Replay& replay);

void replayNode(const Scene& scene, Replay& replay);
void replayRun(const Scene& scene, Replay& replay);
void replayPiece(const Scene& scene, Replay& replay);
void replayPort(const Scene& scene, Replay& replay);
void replayFan(const Scene& scene, Replay& replay);
void replayOpening(const Scene& scene, Replay& replay);
/// Of the air no state is needed.
void replayAir(const Assessment& assessment, const std::string& quantity, Replay& replay);

/// Flow behind the leaks of a station of a run (-1: before its first piece), from the numbers before it.
void replayLeaks(const Scene& scene, std::size_t run, int after, Replay& replay);

}  // namespace kerfdraft::judge
