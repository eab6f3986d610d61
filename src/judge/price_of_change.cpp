// Prices of changes: what differs between two drawings is bought.
#include "judge/price_of_change.h"

#include <algorithm>
#include <map>
#include <string>

#include "catalogue/prices.h"

namespace kerfdraft::judge {

namespace {

using pieces::Piece;
using pieces::Role;

bool doneByHand(ChangeKind kind) {
  // A shorter hose is cut from the longer one.
  return kind == ChangeKind::GateOpen || kind == ChangeKind::GateShut || kind == ChangeKind::FilterClean ||
         kind == ChangeKind::HoseLength;
}

/// Sums prices; nothing as soon as one part has none.
class Bill {
 public:
  void add(const std::optional<catalogue::Price>& price, double amount) {
    known_ = known_ && price.has_value();
    if (price) {
      any_ = true;
      sum_.low_usd += amount * price->low_usd;
      sum_.high_usd += amount * price->high_usd;
    }
  }
  std::optional<PriceBand> total() const { return known_ && any_ ? std::optional(sum_) : std::nullopt; }

 private:
  PriceBand sum_;
  bool known_ = true;
  bool any_ = false;
};

/// Of the leg that begins at a corner, or that has a gate: inherited where the corner gives none.
std::string constructionAt(const shop::Project& project, base::Id corner_or_gate) {
  for (const shop::Duct& duct : project.ducts) {
    base::Id corner = corner_or_gate;
    for (const shop::Gate& gate : duct.gates) {
      corner = gate.id == corner_or_gate ? gate.corner : corner;
    }
    std::string now;
    for (const shop::Corner& each : duct.corners) {
      if (each.leg) {
        now = each.leg->construction;
      }
      if (each.id == corner) {
        return now;
      }
    }
  }
  return {};
}

std::map<pieces::PieceKey, const Piece*> byKey(const pieces::Pieces& drawing) {
  std::map<pieces::PieceKey, const Piece*> out;
  for (const pieces::Run& run : drawing.runs) {
    for (const Piece& piece : run.pieces) {
      out.try_emplace(piece.key, &piece);
    }
  }
  return out;
}

double boreOfLeg(const pieces::Pieces& drawing, const pieces::JunctionLeg& leg) {
  return leg.at_end ? drawing.runs[leg.run].end_bore_m : drawing.runs[leg.run].start_bore_m;
}

bool sameFitting(const pieces::Pieces& before, const pieces::Junction& a, const pieces::Pieces& after,
                 const pieces::Junction& b) {
  return std::equal(a.legs.begin(), a.legs.end(), b.legs.begin(), b.legs.end(),
                    [&](const pieces::JunctionLeg& x, const pieces::JunctionLeg& y) {
                      return boreOfLeg(before, x) == boreOfLeg(after, y);
                    });
}

void addPiece(const Evidence& evidence, const shop::Project& project, const Piece& piece, const Piece* before,
              Bill& bill) {
  const catalogue::Catalogue& tables = evidence.catalogue;
  const bool same_form = before != nullptr && before->bore_m == piece.bore_m &&
                         before->roughness_m == piece.roughness_m && before->multiplier == piece.multiplier;
  switch (piece.key.role) {
    case Role::Straight:
    case Role::Hose: {
      const double length_m = same_form ? std::max(0.0, piece.length_m - before->length_m) : piece.length_m;
      if (length_m > 0) {
        bill.add(piece.key.role == Role::Hose
                     ? catalogue::hosePrice(tables, piece.bore_m)
                     : catalogue::ductPrice(tables, constructionAt(project, piece.key.a), piece.bore_m),
                 length_m);
      }
      return;
    }
    case Role::Elbow:
      if (!same_form || before->k_forward != piece.k_forward) {
        bill.add(catalogue::elbowPrice(tables), 1);
      }
      return;
    case Role::Gate:
      if (!same_form) {
        bill.add(catalogue::gatePrice(tables, piece.bore_m), 1);
      }
      return;
    default:
      return;
  }
}

}  // namespace

std::optional<PriceBand> priceOfChange(const Evidence& evidence, const Change& change,
                                       const Assessment& changed) {
  if (doneByHand(change.kind)) {
    return PriceBand{};
  }
  const pieces::Pieces& drawing = *changed.pieces;
  const auto known = byKey(evidence.pieces());
  Bill bill;
  for (const auto& [key, piece] : byKey(drawing)) {
    const auto before = known.find(key);
    addPiece(evidence, *changed.project, *piece, before == known.end() ? nullptr : before->second, bill);
  }
  for (std::size_t j = 0; j < drawing.junctions.size() && j < evidence.pieces().junctions.size(); ++j) {
    if (!sameFitting(evidence.pieces(), evidence.pieces().junctions[j], drawing, drawing.junctions[j])) {
      bill.add(catalogue::branchPrice(evidence.catalogue), 1);
    }
  }
  return bill.total();
}

}  // namespace kerfdraft::judge
