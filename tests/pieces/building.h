// What the tests of this room share: the shipped catalogue, a build that must succeed, and finding pieces.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "pieces/build.h"
#include "support/projects.h"

namespace kerfdraft::pieces {

inline const catalogue::Catalogue& shipped() {
  static const catalogue::Catalogue catalogue = catalogue::Catalogue::shipped().value();
  return catalogue;
}

inline Pieces build(const support::ProjectBuilder& builder) {
  auto pieces = buildPieces(builder.project, shipped());
  EXPECT_TRUE(pieces.has_value()) << (pieces ? "" : pieces.error().text());
  return pieces.value();
}

inline base::Error refusal(const support::ProjectBuilder& builder) {
  const auto pieces = buildPieces(builder.project, shipped());
  EXPECT_FALSE(pieces.has_value());
  return pieces ? base::Error{} : pieces.error();
}

inline std::vector<const Piece*> ofRole(const Pieces& pieces, Role role) {
  std::vector<const Piece*> out;
  for (const auto& run : pieces.runs) {
    for (const Piece& piece : run.pieces) {
      if (piece.key.role == role) {
        out.push_back(&piece);
      }
    }
  }
  return out;
}

inline const Piece& onlyOf(const Pieces& pieces, Role role) {
  const auto found = ofRole(pieces, role);
  EXPECT_EQ(found.size(), 1U) << toText(role);
  return *found.at(0);
}

inline bool hasNote(const Pieces& pieces, const std::string& part) {
  for (const Note& note : pieces.notes) {
    if (note.text.find(part) != std::string::npos) {
      return true;
    }
  }
  return false;
}

}  // namespace kerfdraft::pieces
