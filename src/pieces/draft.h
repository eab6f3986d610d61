// What the steps of the build share: the project indexed by id, the pieces made so far, and small helpers for
// labels and notes. Private to this room.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

inline constexpr std::size_t kNowhere = static_cast<std::size_t>(-1);

/// Leakage of a piece's wall; class 0 for hose (its cuffs leak) and fittings.
struct WallLeak {
  double leak_class = 0;
  bool entered = false;  ///< of a row that a person laid over the shipped ones: kept in vacuum lines too
};

/// A piece on its way into a run.
struct DraftPiece {
  Piece piece;
  WallLeak leak;
};

/// Nodes of one collector.
struct UnitNodes {
  std::size_t inlet = kNowhere;   ///< where ducts join
  std::size_t outlet = kNowhere;  ///< where an outlet duct starts
  bool has_outlet_duct = false;
};

/// Nodes of one machine: where the air of its ports comes from.
struct MachineNodes {
  std::size_t body = 0;   ///< its body, or the room where it has none
  std::size_t ports = 0;  ///< start of its port runs: the body, or the joint behind its blower
  bool blown = false;
};

class Draft {
 public:
  Draft(const shop::Project& the_project, const catalogue::Catalogue& the_catalogue);

  const shop::Project& project;
  const catalogue::Catalogue& catalogue;
  Pieces out;
  std::vector<std::vector<WallLeak>> wall_leaks;  ///< by run and piece
  std::vector<char> worn_gate;                    ///< by Pieces::gates: its slot was entered, not assumed
  std::map<Id, std::size_t> room_node;
  std::vector<MachineNodes> machine_nodes;  ///< by Project::machines
  std::vector<UnitNodes> unit_nodes;        ///< by Project::collectors

  /// Indices of elements by id; InternalError for an id that is not in the project.
  std::size_t machine(Id id) const;
  std::size_t duct(Id id) const;
  std::size_t collector(Id id) const;
  const shop::Port& port(const shop::PortRef& ref) const;
  std::size_t roomNode(Id room) const;  ///< outdoors where the id is not valid

  std::size_t addNode(NodeKind kind, PieceKey key, std::string label);
  /// Adds a run and keeps its walls for the leakage.
  std::size_t addRun(Run run, std::vector<DraftPiece> pieces);
  void note(PieceKey key, std::string text);
  /// The value in the reader's units: "3.05 m", "4 in".
  std::string say(base::Kind kind, double si) const;

 private:
  std::map<Id, std::size_t> machine_index_;
  std::map<Id, std::size_t> duct_index_;
  std::map<Id, std::size_t> collector_index_;
};

/// Label of a machine's port: "T1 lower cabinet".
std::string portLabel(const shop::Machine& machine, const shop::Port& port);

/// "T1 table saw", or the label alone.
std::string named(const std::string& label, const std::string& name);

/// A coefficient's source from a catalogue row.
Source sourceOf(const catalogue::Origin& origin, std::string formula);

/// A coefficient that a person entered.
Source enteredSource(const std::string& text, const std::string& source);

}  // namespace kerfdraft::pieces
