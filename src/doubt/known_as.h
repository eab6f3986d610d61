// How each input of a drawing is known: the standing of what was entered, turned into a row of priors.
// Private to this room.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string_view>

#include "network/network.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::doubt {

/// Looks up ids of a project. The project must outlive it.
class KnownAs {
 public:
  explicit KnownAs(const shop::Project& project);

  /// Key of the row for one piece's loss; empty where it has none that could be wrong.
  std::string_view piece(const pieces::Piece& piece, const network::Situation& situation) const;
  /// Key of the row for the bores of a run; empty for runs inside a unit.
  std::string_view bores(const pieces::Run& run) const;
  std::string_view fan(const pieces::Fan& fan) const;
  std::string_view opening(const pieces::Opening& opening) const;

 private:
  struct Corner {
    const shop::Duct* duct = nullptr;
    std::size_t index = 0;
  };

  std::string_view entry(const pieces::Piece& piece) const;
  std::string_view hose(const pieces::Piece& piece) const;
  std::string_view fitting(const pieces::Piece& piece) const;
  std::string_view filter(base::Id id, shop::FilterState state) const;
  std::string_view separator(base::Id id) const;
  std::optional<Corner> corner(base::Id id) const;

  const shop::Project& project_;
  std::map<base::Id, Corner> corners_;  // and gates, at the corner before them
  std::map<base::Id, const shop::Port*> ports_;
};

}  // namespace kerfdraft::doubt
