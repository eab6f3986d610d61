// Gathers pieces by group and row.
#include "doubt/inputs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <utility>

#include "base/result.h"
#include "doubt/known_as.h"

namespace kerfdraft::doubt {
namespace {

using network::Parameter;
using pieces::Group;

constexpr double kJunctionShare = 0.20;
constexpr double kLeastJunction = 0.1;
/// More than that, twice over, could turn a leg's loss into a gain.
constexpr double kMostOfALeg = 0.5;

/// Place in the table: what comes first is said first where two matter alike.
std::ptrdiff_t rank(const Prior* prior) {
  return std::distance(priors().data(), prior);
}

class Gatherer {
 public:
  Gatherer(const judge::Assessment& assessment, const judge::StateResult& state)
      : drawing_(*assessment.pieces), state_(state), known_(*assessment.project) {}

  std::vector<Input> gather() {
    for (std::size_t r = 0; r < drawing_.runs.size(); ++r) {
      losses(r);
      if (const std::string_view key = known_.bores(drawing_.runs[r]); !key.empty()) {
        add(key, Parameter::What::Bore, Group::Friction, r);
      }
    }
    for (std::size_t o = 0; o < drawing_.openings.size(); ++o) {
      add(known_.opening(drawing_.openings[o]), Parameter::What::Opening, Group::Opening, o);
    }
    for (std::size_t j = 0; j < drawing_.junctions.size(); ++j) {
      add("junction", Parameter::What::Junction, Group::Junction, j)
          .legs.push_back(junctionDoubt(drawing_, state_.solution, j));
    }
    const bool leaks = std::any_of(drawing_.runs.begin(), drawing_.runs.end(),
                                   [](const pieces::Run& run) { return !run.leaks.empty(); });
    if (leaks) {
      Input input;
      input.prior = &prior("leakage");
      input.key = input.prior->key;
      input.label = input.prior->what;
      input.parameter = {Parameter::What::Group, Group::Leakage, {}, {}};
      inputs_.push_back(std::move(input));
    }
    std::stable_sort(inputs_.begin(), inputs_.end(),
                     [](const Input& a, const Input& b) { return rank(a.prior) < rank(b.prior); });
    fans();
    return std::move(inputs_);
  }

 private:
  /// The widest row of each group in a run.
  void losses(std::size_t r) {
    std::map<Group, const Prior*> widest;
    for (const pieces::Piece& piece : drawing_.runs[r].pieces) {
      const bool loses = piece.k_forward > 0 || piece.k_reverse > 0 || piece.length_m > 0 ||
                         piece.linear_pa_s_m3 > 0 || piece.filter >= 0 || piece.gate >= 0;
      const std::string_view key = loses ? known_.piece(piece, state_.situation) : std::string_view();
      if (key.empty()) {
        continue;
      }
      const Prior*& now = widest[piece.group];
      const Prior* row = &prior(key);
      now = now == nullptr || row->sigma() > now->sigma() ? row : now;
    }
    for (const auto& [group, row] : widest) {
      add(row->key, Parameter::What::Group, group, r);
    }
  }

  Parameter& add(std::string_view key, Parameter::What what, Group group, std::size_t at) {
    for (Input& input : inputs_) {
      if (input.key == key) {
        input.parameter.where.push_back(at);
        return input.parameter;
      }
    }
    Input input;
    input.key = key;
    input.prior = &prior(key);
    input.label = input.prior->what;
    input.parameter = {what, group, {at}, {}};
    inputs_.push_back(std::move(input));
    return inputs_.back().parameter;
  }

  void fans() {
    for (std::size_t f = 0; f < drawing_.fans.size(); ++f) {
      const pieces::Fan& fan = drawing_.fans[f];
      if (state_.situation.fan_on[f] == 0) {
        continue;
      }
      Input input;
      input.prior = &prior(known_.fan(fan));
      input.key = fmt::format("{}:{}", input.prior->key, fan.id.text());
      input.label = fmt::format("{} ({})", input.prior->what, fan.label);
      input.parameter = {Parameter::What::Fan, Group::Friction, {f}, {}};
      inputs_.push_back(std::move(input));
    }
  }

  const pieces::Pieces& drawing_;
  const judge::StateResult& state_;
  KnownAs known_;
  std::vector<Input> inputs_;
};

}  // namespace

std::vector<Input> inputsOf(const judge::Assessment& assessment, std::size_t state) {
  const judge::StateResult& result = assessment.states[state];
  if (result.solution.outcome != network::Outcome::Solved) {
    return {};
  }
  return Gatherer(assessment, result).gather();
}

network::LegExtra junctionDoubt(const pieces::Pieces& drawing, const network::Solution& solution,
                                std::size_t index) {
  const pieces::Junction& junction = drawing.junctions[index];
  struct End {
    double inflow_kg_s = 0;
    double total_pa = 0;
    double vp_pa = 0;
  };
  std::vector<End> ends;
  for (const pieces::JunctionLeg& leg : junction.legs) {
    const network::RunResult& run = solution.runs[leg.run];
    ends.push_back(
        leg.at_end ? End{run.flow_end_kg_s, run.total_end_pa, run.total_end_pa - run.static_end_pa}
                   : End{-run.flow_start_kg_s, run.total_start_pa, run.total_start_pa - run.static_start_pa});
  }
  const End main = *std::min_element(
      ends.begin(), ends.end(), [](const End& a, const End& b) { return a.inflow_kg_s < b.inflow_kg_s; });
  double in_kg_s = 0;
  double doubtful = 0;
  network::LegExtra out{};
  for (std::size_t leg = 0; leg < ends.size(); ++leg) {
    const End& end = ends[leg];
    if (end.inflow_kg_s > 0 && end.vp_pa > 0) {
      out[leg] = std::min(kMostOfALeg, kJunctionShare * std::abs(end.total_pa - main.total_pa) / end.vp_pa);
      in_kg_s += end.inflow_kg_s;
      doubtful += end.inflow_kg_s * out[leg] * end.vp_pa;
    }
  }
  const double mean = in_kg_s > 0 && main.vp_pa > 0 ? doubtful / (in_kg_s * main.vp_pa) : 0;
  for (std::size_t leg = 0; leg < ends.size(); ++leg) {
    out[leg] = ends[leg].inflow_kg_s < 0 ? std::max(0.0, kLeastJunction - mean) : out[leg];
  }
  return out;
}

void moveInput(network::Situation& situation, const pieces::Pieces& drawing, const Input& input, double z) {
  const double by = input.parameter.what == Parameter::What::Junction ? input.prior->spread * z
                                                                      : std::log(input.prior->factorAt(z));
  network::moveParameter(situation, drawing, input.parameter, by);
}

}  // namespace kerfdraft::doubt
