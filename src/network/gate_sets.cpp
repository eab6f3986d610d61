// Every set of gates, in Gray order within fixed blocks: neighbours differ by one gate, and each block starts
// cold, so no result depends on which thread came before.
#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <numeric>

#include "base/parallel.h"
#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

constexpr std::size_t kMostGates = 40;
constexpr unsigned kBlockBits = 6;

struct Block {
  std::vector<Outcome> outcome;
  std::vector<double> runs;
  std::vector<double> fans;
  std::vector<double> nodes;
};

}  // namespace

base::Result<std::uint64_t> solveGateSets(const Network& net, const Situation& situation,
                                          const GateSetOptions& options,
                                          const std::function<void(const GateSetResult&)>& each) {
  std::vector<std::size_t> gates = options.gates;
  if (gates.empty()) {
    gates.resize(net.pieces->gates.size());
    std::iota(gates.begin(), gates.end(), std::size_t{0});
  }
  if (gates.size() > kMostGates) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("{} gates have 2^{} sets, more than can be walked; choose at most {} gates",
                                  gates.size(), gates.size(), kMostGates));
  }
  const auto bits = static_cast<unsigned>(gates.size());
  const unsigned block_bits = std::min(bits, kBlockBits);
  const std::uint64_t per_block = std::uint64_t{1} << block_bits;
  const std::uint64_t block_count = std::uint64_t{1} << (bits - block_bits);
  const unsigned threads = options.threads == 0 ? base::coreCount() : options.threads;

  // Results wait in a ring until their turn: as many as may run ahead, and one for each thread.
  constexpr std::size_t kAhead = 16;
  const std::size_t ring = (kAhead + 2) * threads;
  std::vector<Block> blocks(std::min<std::uint64_t>(ring, block_count));
  std::vector<std::unique_ptr<Workspace>> workspaces(threads);
  std::vector<Situation> situations(threads, situation);
  std::uint64_t delivered = 0;

  const auto work = [&](std::size_t b, unsigned thread) {
    if (!workspaces[thread]) {
      workspaces[thread] = std::make_unique<Workspace>(net);
    }
    Workspace& workspace = *workspaces[thread];
    Situation& s = situations[thread];
    Block& block = blocks[b % blocks.size()];
    block.outcome.resize(per_block);
    block.runs.resize(per_block * net.runs.size());
    block.fans.resize(per_block * net.fans.size());
    block.nodes.resize(per_block * net.pieces->nodes.size());
    for (std::uint64_t i = 0; i < per_block; ++i) {
      const std::uint64_t index = (static_cast<std::uint64_t>(b) << block_bits) + i;
      const std::uint64_t open = index ^ (index >> 1U);
      for (std::size_t g = 0; g < gates.size(); ++g) {
        s.gate_travel[gates[g]] = ((open >> g) & 1U) != 0 ? 1.0 : 0.0;
      }
      const Report report = solve(net, s, workspace, i == 0 ? Start::Cold : Start::Warm);
      block.outcome[i] = report.outcome;
      std::ranges::copy(workspace.runFlow(),
                        block.runs.begin() + static_cast<std::ptrdiff_t>(i * net.runs.size()));
      std::ranges::copy(workspace.fanFlow(),
                        block.fans.begin() + static_cast<std::ptrdiff_t>(i * net.fans.size()));
      std::ranges::copy(workspace.nodePressure(),
                        block.nodes.begin() + static_cast<std::ptrdiff_t>(i * net.pieces->nodes.size()));
    }
  };
  const auto deliver = [&](std::size_t b) {
    const Block& block = blocks[b % blocks.size()];
    for (std::uint64_t i = 0; i < per_block; ++i) {
      const std::uint64_t index = (static_cast<std::uint64_t>(b) << block_bits) + i;
      GateSetResult result;
      result.open = index ^ (index >> 1U);
      result.outcome = block.outcome[i];
      result.run_flow_kg_s = std::span(block.runs).subspan(i * net.runs.size(), net.runs.size());
      result.fan_flow_kg_s = std::span(block.fans).subspan(i * net.fans.size(), net.fans.size());
      result.node_pa = std::span(block.nodes).subspan(i * net.pieces->nodes.size(), net.pieces->nodes.size());
      each(result);
      ++delivered;
    }
    if (options.progress) {
      options.progress(delivered, block_count * per_block);
    }
  };
  base::orderedParallelFor(block_count, threads, work, deliver, options.stop, kAhead);
  return delivered;
}

}  // namespace kerfdraft::network
