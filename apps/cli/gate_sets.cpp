// The walk, its progress, and the summary.
#include "cli/gate_sets.h"

#include <fmt/format.h>

#include <atomic>
#include <csignal>

#include "base/csv.h"
#include "cli/exit_codes.h"
#include "cli/gate_set_tally.h"
#include "cli/shop_open.h"
#include "cli/shown.h"
#include "cli/solve_writers.h"
#include "cli/text_table.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::Kind;
using base::Result;

/// As CSV every set is a line that is held until all are known.
constexpr std::uint64_t kMostCsvSets = std::uint64_t{1} << 20U;
/// Names of gates in a cell of the summary.
constexpr int kMostNames = 6;

/// While it lives, Ctrl-C asks the walk to stop instead of ending the program. A signal handler can reach
/// nothing but a static: the only one of this program.
class Interruptible {
 public:
  explicit Interruptible(base::StopFlag& flag) {
    asked.store(&flag);
    before_ = std::signal(SIGINT, [](int) {
      if (base::StopFlag* const stop = asked.load()) {
        stop->stop();
      }
    });
  }
  ~Interruptible() {
    std::signal(SIGINT, before_);
    asked.store(nullptr);
  }
  Interruptible(const Interruptible&) = delete;
  Interruptible& operator=(const Interruptible&) = delete;

 private:
  static inline std::atomic<base::StopFlag*> asked{nullptr};
  void (*before_)(int) = nullptr;
};

std::string grouped(std::uint64_t number) {
  std::string text;
  const std::string digits = std::to_string(number);
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) {
      text += ',';
    }
    text += digits[i];
  }
  return text;
}

std::string gateNames(const pieces::Pieces& pieces, std::uint64_t set) {
  std::string names;
  int count = 0;
  for (std::size_t g = 0; g < pieces.gates.size(); ++g) {
    if (((set >> g) & 1U) != 0 && ++count <= kMostNames) {
      names += (names.empty() ? "" : " ") + pieces.gates[g].label;
    }
  }
  return count > kMostNames ? fmt::format("{} and {} more", names, count - kMostNames)
         : names.empty()    ? "none"
                            : names;
}

std::string summary(const judge::Assessment& assessment, const GateSetTally& tally, const Shown& shown,
                    std::uint64_t done, std::uint64_t total) {
  using enum Align;
  const pieces::Pieces& pieces = *assessment.pieces;
  std::string out =
      done == total
          ? fmt::format("All {} sets of {} gates, each open or shut.\n\n", grouped(total),
                        pieces.gates.size())
          : fmt::format("Stopped after {} of {} sets of {} gates; what follows is of these alone.\n\n",
                        grouped(done), grouped(total), pieces.gates.size());
  const std::string flow = shown.unit(Kind::VolumeFlow);
  TextTable ports({{"port or machine"},
                   {"sets open", Right},
                   {"floor met", Right},
                   {"target met", Right},
                   {"least, " + flow, Right},
                   {"with open"},
                   {"most, " + flow, Right},
                   {"with open"}});
  for (const AskedTally& port : tally.asked()) {
    if (!port.least || !port.most) {
      ports.row({port.label, "0"});
      continue;
    }
    ports.row({port.label, grouped(port.open), port.floor_m3_s ? grouped(port.floor_met) : "",
               port.target_m3_s ? grouped(port.target_met) : "",
               shown.number(Kind::VolumeFlow, port.least->flow_m3_s), gateNames(pieces, port.least->set),
               shown.number(Kind::VolumeFlow, port.most->flow_m3_s), gateNames(pieces, port.most->set)});
  }
  TextTable counts({{"gates open", Right},
                    {"sets", Right},
                    {"all that is open reaches its floor", Right},
                    {"no solution", Right}});
  bool any_unsolved = false;
  for (const CountTally& count : tally.counts()) {
    any_unsolved = any_unsolved || count.unsolved > 0;
  }
  for (std::size_t k = 0; k < tally.counts().size(); ++k) {
    const CountTally& count = tally.counts()[k];
    if (count.sets > 0) {
      counts.row({std::to_string(k), grouped(count.sets), grouped(count.served),
                  any_unsolved ? grouped(count.unsolved) : ""});
    }
  }
  return out + ports.text() + '\n' + counts.text() +
         "\n  Clean air: the load of chips, which takes a few percent of the air, is left out here.\n";
}

std::string csvTitle(const judge::Assessment& assessment, const Shown& shown) {
  std::string line = "open gates,outcome,served";
  for (const pieces::PortPlace& port : assessment.pieces->ports) {
    line += ',' + base::csvCell(fmt::format("{} ({})", port.label, shown.unit(Kind::VolumeFlow)));
  }
  return line + '\n';
}

std::string csvLine(const judge::Assessment& assessment, const GateSetTally& tally, const Shown& shown,
                    const network::GateSetResult& set, bool served) {
  const bool solved = set.outcome == network::Outcome::Solved || set.outcome == network::Outcome::Still;
  std::string names;
  for (std::size_t g = 0; g < assessment.pieces->gates.size(); ++g) {
    if (((set.open >> g) & 1U) != 0) {
      names += (names.empty() ? "" : " ") + assessment.pieces->gates[g].label;
    }
  }
  std::string line = base::csvCell(names) + (solved ? ",solved," : ",no solution,") + (served ? "yes" : "no");
  for (std::size_t p = 0; p < assessment.pieces->ports.size(); ++p) {
    line += solved
                ? fmt::format(",{:.6g}", base::inUnit(Kind::VolumeFlow, tally.flow(p, set), shown.system()))
                : ",";
  }
  return line + '\n';
}

}  // namespace

int runGateSets(const SolveOptions& options, const judge::Assessment& assessment, std::ostream& out,
                std::ostream& err) {
  const pieces::Pieces& pieces = *assessment.pieces;
  if (options.states.size() > 1) {
    return refuse({ErrorCode::Conflict, "sets of gates start from one state, not from several", "--state"},
                  err);
  }
  if (options.format == Format::Json) {
    return refuse({ErrorCode::Unsupported, "sets of gates are printed as text or CSV", "--json"}, err);
  }
  network::Situation situation = network::restingSituation(pieces);
  if (!options.states.empty()) {
    const Result<std::size_t> state = stateByName(assessment, options.states.front());
    if (!state) {
      return refuse(state.error(), err);
    }
    situation = assessment.states[*state].situation;
  }
  const std::uint64_t total = pieces.gates.size() < 64 ? std::uint64_t{1} << pieces.gates.size() : 0;
  if (options.format == Format::Csv && total > kMostCsvSets) {
    return refuse(
        {ErrorCode::Unsupported,
         fmt::format(
             "{} gates make {} sets, more than the {} that are printed one by one; leave --csv out for the "
             "summary",
             pieces.gates.size(), grouped(total), grouped(kMostCsvSets)),
         "--csv"},
        err);
  }
  const Shown shown(options.common.units.value_or(assessment.project->setting.units));
  GateSetTally tally(assessment, situation);
  std::string text = fmt::format("{}{}, filter {}, predicted, nothing measured: {}\n",
                                 options.format == Format::Csv ? "# " : "", options.common.date,
                                 toText(situation.filter), assessment.project->setting.name);
  if (options.format == Format::Csv) {
    text += csvTitle(assessment, shown);
  }

  base::StopFlag stop;
  network::GateSetOptions walk;
  walk.threads = options.threads;
  walk.stop = &stop;
  if (options.progress) {
    walk.progress = [&err](std::uint64_t done, std::uint64_t all) {
      err << fmt::format("\r{} of {} sets", grouped(done), grouped(all)) << (done == all ? "\n" : "")
          << std::flush;
    };
  }
  bool all_served = true;
  bool all_solved = true;
  const Result<std::uint64_t> done = [&] {
    const Interruptible guard(stop);
    return network::solveGateSets(
        *assessment.network, situation, walk, [&](const network::GateSetResult& set) {
          const bool served = tally.take(set);
          all_served = all_served && served;
          all_solved = all_solved &&
                       (set.outcome == network::Outcome::Solved || set.outcome == network::Outcome::Still);
          if (options.format == Format::Csv) {
            text += csvLine(assessment, tally, shown, set, served);
          }
        });
  }();
  if (!done) {
    return refuse(done.error(), err);
  }
  if (options.format == Format::Text) {
    text += summary(assessment, tally, shown, *done, total);
  } else if (*done < total) {
    text += fmt::format("# stopped after {} of {} sets\n", *done, total);
  }
  return deliver(text, options.common,
                 !all_solved  ? kNoSolution
                 : all_served ? kAllServed
                              : kNotServed,
                 out, err);
}

}  // namespace kerfdraft::cli
