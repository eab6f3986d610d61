// The plain language of `kerfdraft line`: pieces from the machine to the fan, parted by semicolons, each a
// word and what a person would say about it. Reading only; line_project.h makes a shop of it.
//
//   hood 0.5                      entry coefficient on the velocity pressure of the port; or a form of the
//                                 catalogue ("hood bellmouth"), or "hood 400 cfm at 3 in w.g." from the maker
//   machine planer                in place of a hood: a kind of the catalogue, of which nothing else is known
//   port 2.5 in                   bore of the machine's port, where it is not that of the first piece
//   hose 4 in 10 ft ribbed slack  smooth or ribbed; tight, hung or slack; "3 bends" where it turns
//   duct 6 in 12 ft spiral        bore, length, construction
//   elbow 4 in 90° gored-5        "2 elbows 4 in"; form and "radius 1.5" where known
//   taper 30°                     the change of bore that follows is a cone; without it a stepped adaptor
//   loss 0.3                      any other fitting, by its coefficient on the velocity pressure there
//   gate 4 in 50 %                a blast gate and how far it is open; "worn" where its slot is wide
//   separator lid                 a kind of the catalogue; "separator cyclone heads 4"
//   filter 35 ft2                 or "filter 1 in w.g. at 350 cfm" (seasoned), or alone where nothing is
//   known
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/given.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

struct HoodWord {
  std::string form;                               ///< catalogue; empty: nothing is known
  std::optional<base::Given<base::Ratio>> entry;  ///< entered coefficient
  std::optional<shop::RatedPoint> maker;
};

/// A machine of the catalogue in the place of a hood: its passages count.
struct MachineWord {
  std::string kind;
};

struct PortWord {
  base::Given<base::Length> bore;
};

/// Duct or hose.
struct BoreWord {
  base::Given<base::Length> bore;
  base::Given<base::Length> length;
  std::string construction;  ///< of duct
  std::optional<shop::Hose> hose;
  int bends = 0;  ///< of 90° in the hose, spread along it
};

struct ElbowWord {
  int count = 1;
  std::optional<base::Given<base::Length>> bore;
  base::Given<base::Angle> angle;
  std::string form;
  std::optional<base::Given<base::Ratio>> radius;
};

struct TaperWord {
  base::Given<base::Angle> angle;
};

/// A fitting of which a person knows the coefficient.
struct LossWord {
  base::Given<base::Ratio> coefficient;
};

struct GateWord {
  std::optional<base::Given<base::Length>> bore;
  base::Given<base::Ratio> travel;
  bool worn = false;
};

struct LinePiece {
  std::variant<HoodWord, MachineWord, PortWord, BoreWord, ElbowWord, TaperWord, LossWord, GateWord,
               shop::Separator, shop::Filter>
      what;
  std::string text;   ///< as typed
  std::string where;  ///< "piece 3 (elbow 4 in)"
};

/// The pieces in their order. Refused with the piece and the word: an unknown piece, a word that does not
/// belong to it, a quantity of the wrong kind or without unit, what is missing, a catalogue key that is not
/// there.
base::Result<std::vector<LinePiece>> readLine(std::string_view text, const catalogue::Catalogue& catalogue);

/// The points of a fan curve: "0 cfm 6.3 in w.g., 350 cfm 4.7 in w.g., 700 cfm 0 in w.g."
base::Result<std::vector<shop::CurvePoint>> readCurve(std::string_view text, std::string_view where);

/// What a label says: "1100 cfm 8 in w.g.": free-air flow and greatest suction.
base::Result<shop::RatedPoint> readLabel(std::string_view text, std::string_view where);

}  // namespace kerfdraft::pieces
