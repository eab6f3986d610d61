// What the rules about air and pressure share: what a port still lacks, the way of its air with what is lost
// there, which duct a line belongs to, which sizes are sold. Private to judge/rules.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "judge/evidence.h"
#include "judge/rule.h"

namespace kerfdraft::judge {

/// What an open port must get, by its own requirement or by its part of its machine's.
struct PortNeed {
  std::size_t port = 0;
  double flow_m3_s = 0;
  double needed_m3_s = 0;  ///< the floor, else nine tenths of the target
  bool floor = true;       ///< false: only a target is given, or only the target is missed
  bool missed = false;
  bool sure = false;  ///< missed, and the upper end of the prediction is below as well
  bool only = false;  ///< the target is all that is asked
};

/// The same of a margin, of a port or of a whole machine; `high` is the upper end of its flow's band.
std::optional<PortNeed> needOf(const FlowMargin& margin, double high);

/// Nothing where the port is shut, nothing is asked of it, the state has no solution or every collector
/// stands. Of two requirements the one that is harder to meet.
std::optional<PortNeed> portNeed(const Evidence& evidence, std::size_t state, std::size_t port);

/// Whether any collector or booster runs: where all stand, nobody expects air.
bool anyCollectorRuns(const Evidence& evidence, std::size_t state);

/// How grave it is that a port or machine lacks this much: serious, or a caution where that is not sure,
/// where only a target is missed or where no state is declared.
Severity severityOf(const Evidence& evidence, std::size_t state, const PortNeed& need);

/// A cause weighs what the lack at its port weighs, and is a note where nothing lacks.
Severity severityAt(const Evidence& evidence, std::size_t state, std::size_t port);

/// Whether the state is one of use: declared, or the only one that there can be.
bool ofUse(const Evidence& evidence, std::size_t state);

/// The lines of a port's sheet from the room to free air again, and what is lost on them: what its fans must
/// give. Fans' own lines are among the rows and not in the sum.
struct Way {
  std::span<const SheetRow> rows;
  double lost_pa = 0;
};
/// Nothing where the port is shut, no fan lies on the way or nothing is lost on it.
std::optional<Way> wayOf(const Evidence& evidence, std::size_t state, std::size_t port);
bool isFan(const SheetRow& row);

/// Share of the way's loss that lines of these pieces make.
double shareOf(const Way& way, double loss_pa);

/// The duct that a piece is drawn in; null for ports, units and junctions.
const shop::Duct* ductOfPiece(const Evidence& evidence, const pieces::PieceKey& key);

/// A leg of a duct as a change names it: the corner at which its stretch begins.
struct DuctLeg {
  const shop::Duct* duct = nullptr;
  std::size_t corner = 0;
  const shop::Leg* leg = nullptr;  ///< as given for it
};
/// The leg that a stretch of duct or hose, or a gate, lies in; nothing for other pieces.
std::optional<DuctLeg> legOfPiece(const Evidence& evidence, const pieces::PieceKey& key);

/// Index of the corner that gives the leg which begins at this corner its bore.
std::size_t legGivenAt(const shop::Duct& duct, std::size_t corner);

/// "D3 drop to the saw".
std::string ductName(const shop::Duct& duct);

/// The port's own duct and the port as entered; null where it is not there.
const shop::Port* enteredPort(const Evidence& evidence, const shop::PortRef& ref);

/// Index of the run of this label; nothing where none has it.
std::optional<std::size_t> runOfLabel(const Evidence& evidence, const std::string& label);

/// Sizes that one can buy above a bore, in rising order, each noticeably wider than the one before; one that
/// is in the shop already stands for its neighbours. In the project's units, plastic pipe for plastic pipe.
std::vector<double> soldAbove(const Evidence& evidence, double bore_m, bool plastic, std::size_t most);

/// Whether the leg given at this corner is of plastic.
bool isPlastic(const Evidence& evidence, const shop::Leg& leg);

/// The gate of a machine's air that this port's air does not pass; nothing where there is none. Its change
/// shuts it in this state: only for declared states.
std::optional<Remedy> shutOther(const Evidence& evidence, std::size_t state, std::size_t other,
                                std::size_t port);

/// 0 at the limit, 1 at half of it, at most 10.
double shortBadness(double needed, double got);

/// Of a share above its limit: 0 at the limit, 1 at twice.
double shareBadness(double share, double limit);

/// State and port of a loss that is worst somewhere.
struct Place {
  std::size_t state = 0;
  std::size_t port = 0;
};

/// Calls with every open port of every solved state and its way, in their order.
template <class Call>
void forEachWay(const Evidence& evidence, Call call) {
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    for (std::size_t p = 0; p < evidence.pieces().ports.size(); ++p) {
      if (const auto way = wayOf(evidence, s, p)) {
        call(Place{s, p}, *way);
      }
    }
  }
}

/// The graver of two states of one finding about the drawing: by severity, then by the number.
inline bool worse(Severity severity, double number, Severity than, double than_number) {
  return severity != than ? severity < than : number > than_number;
}

}  // namespace kerfdraft::judge
