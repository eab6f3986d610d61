// Names of roles and keys, as files, messages and papers write them.
#include "pieces/pieces.h"

namespace kerfdraft::pieces {

std::string_view toText(Role role) {
  switch (role) {
    case Role::Entry:
      return "entry";
    case Role::Straight:
      return "straight";
    case Role::Hose:
      return "hose";
    case Role::Elbow:
      return "elbow";
    case Role::HoseBend:
      return "hose-bend";
    case Role::Reducer:
      return "reducer";
    case Role::Gate:
      return "gate";
    case Role::Saddle:
      return "saddle";
    case Role::FanInlet:
      return "fan-inlet";
    case Role::Separator:
      return "separator";
    case Role::Filter:
      return "filter";
    case Role::Outlet:
      return "outlet";
    case Role::Run:
      return "run";
    case Role::Junction:
      return "junction";
    case Role::Body:
      return "body";
    case Role::Fan:
      return "fan";
    case Role::Room:
      return "room";
    case Role::Opening:
      return "opening";
    case Role::Blower:
      return "blower";
  }
  return "";
}

std::string PieceKey::text() const {
  std::string out(toText(role));
  for (const Id& id : {a, b}) {
    if (id.valid()) {
      out += ':';
      out += id.text();
    }
  }
  return out;
}

}  // namespace kerfdraft::pieces
