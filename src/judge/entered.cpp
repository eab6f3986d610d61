// Looks up ids in the project. Indices are those of the file.
#include "judge/entered.h"

#include <fmt/format.h>

namespace kerfdraft::judge {

namespace {

using base::Given;
using base::Id;

/// A corner, or the gate that stands behind it.
struct Place {
  std::size_t duct = 0;
  std::size_t corner = 0;
};

std::optional<std::size_t> cornerIndex(const shop::Duct& duct, Id id) {
  for (std::size_t c = 0; c < duct.corners.size(); ++c) {
    if (duct.corners[c].id == id) {
      return c;
    }
  }
  return std::nullopt;
}

std::optional<Place> placeOf(const shop::Project& project, Id id) {
  for (std::size_t d = 0; d < project.ducts.size() && id.valid(); ++d) {
    const shop::Duct& duct = project.ducts[d];
    if (duct.id == id) {
      return Place{d, 0};
    }
    Id corner = id;
    for (const shop::Gate& gate : duct.gates) {
      if (gate.id == id) {
        corner = gate.corner;
      }
    }
    if (const auto at = cornerIndex(duct, corner)) {
      return Place{d, *at};
    }
  }
  return std::nullopt;
}

/// The corner at or before this one where the leg is given.
std::optional<std::size_t> legGivenAt(const shop::Duct& duct, std::size_t corner) {
  for (std::size_t c = corner + 1; c-- > 0;) {
    if (duct.corners[c].leg) {
      return c;
    }
  }
  return std::nullopt;
}

/// Gathers places where a bore could have been entered until one has the value.
class BoreSearch {
 public:
  explicit BoreSearch(double bore_m) : bore_m_(bore_m) {}

  void look(const Given<base::Length>& given, std::string path) {
    if (!found_ && given.si() == bore_m_) {
      found_ = Entered{std::move(path), given.text()};
    }
  }
  void look(const std::optional<Given<base::Length>>& given, const std::string& path) {
    if (given) {
      look(*given, path);
    }
  }
  std::optional<Entered> found() const { return found_; }

 private:
  double bore_m_;
  std::optional<Entered> found_;
};

void lookInDucts(const shop::Project& project, Id id, BoreSearch& search) {
  const auto place = placeOf(project, id);
  if (!place) {
    return;
  }
  const shop::Duct& duct = project.ducts[place->duct];
  // A reducer names one of two bores, a run's last corner that of the leg before it.
  for (const std::size_t back : {std::size_t{0}, std::size_t{1}}) {
    if (place->corner < back) {
      continue;
    }
    if (const auto leg = legGivenAt(duct, place->corner - back)) {
      search.look(duct.corners[*leg].leg->bore,
                  fmt::format("/ducts/{}/corners/{}/leg/bore", place->duct, *leg));
    }
  }
  if (const auto leg = legGivenAt(duct, duct.corners.size() - 1)) {
    search.look(duct.corners[*leg].leg->bore,
                fmt::format("/ducts/{}/corners/{}/leg/bore", place->duct, *leg));
  }
}

void lookAtMachines(const shop::Project& project, Id id, BoreSearch& search) {
  for (std::size_t m = 0; m < project.machines.size(); ++m) {
    for (std::size_t p = 0; p < project.machines[m].ports.size(); ++p) {
      if (project.machines[m].ports[p].id == id) {
        search.look(project.machines[m].ports[p].bore, fmt::format("/machines/{}/ports/{}/bore", m, p));
      }
    }
  }
}

void lookAtCollectors(const shop::Project& project, Id id, BoreSearch& search) {
  for (std::size_t c = 0; c < project.collectors.size(); ++c) {
    const shop::Collector& unit = project.collectors[c];
    bool here = unit.id == id;
    for (const shop::Filter& filter : unit.filters) {
      here = here || filter.id == id;
    }
    for (std::size_t s = 0; s < unit.separators.size(); ++s) {
      if (unit.separators[s].id == id || unit.id == id) {
        here = true;
        search.look(unit.separators[s].inlet_bore,
                    fmt::format("/collectors/{}/separators/{}/inlet_bore", c, s));
      }
    }
    if (here) {
      search.look(unit.outlet_bore, fmt::format("/collectors/{}/outlet_bore", c));
      search.look(unit.inlet_bore, fmt::format("/collectors/{}/inlet_bore", c));
    }
  }
}

}  // namespace

std::optional<Entered> enteredBore(const shop::Project& project, const pieces::PieceKey& key, double bore_m) {
  BoreSearch search(bore_m);
  for (const Id id : {key.a, key.b}) {
    if (id.valid()) {
      lookInDucts(project, id, search);
      lookAtMachines(project, id, search);
      lookAtCollectors(project, id, search);
    }
  }
  return search.found();
}

std::optional<Entered> enteredLength(const shop::Project& project, const pieces::PieceKey& key) {
  const auto place = placeOf(project, key.a);
  if (!place) {
    return std::nullopt;
  }
  const shop::Duct& duct = project.ducts[place->duct];
  if (const auto leg = legGivenAt(duct, place->corner)) {
    const std::optional<shop::Hose>& hose = duct.corners[*leg].leg->hose;
    if (hose && hose->length) {
      return Entered{fmt::format("/ducts/{}/corners/{}/leg/hose/length", place->duct, *leg),
                     hose->length->text()};
    }
  }
  return Entered{fmt::format("/ducts/{}/corners/{}/at", place->duct, place->corner), ""};
}

std::optional<Entered> enteredCoefficient(const shop::Project& project, const pieces::PieceKey& key,
                                          double coefficient) {
  const auto same = [&](const std::optional<Given<base::Ratio>>& given, std::string path) {
    return given && given->si() == coefficient ? std::optional(Entered{std::move(path), given->text()})
                                               : std::nullopt;
  };
  for (std::size_t m = 0; m < project.machines.size(); ++m) {
    for (std::size_t p = 0; p < project.machines[m].ports.size(); ++p) {
      if (project.machines[m].ports[p].id == key.a) {
        return same(project.machines[m].ports[p].entry, fmt::format("/machines/{}/ports/{}/entry", m, p));
      }
    }
  }
  for (std::size_t c = 0; c < project.collectors.size(); ++c) {
    for (std::size_t s = 0; s < project.collectors[c].separators.size(); ++s) {
      if (project.collectors[c].separators[s].id == key.a) {
        return same(project.collectors[c].separators[s].heads,
                    fmt::format("/collectors/{}/separators/{}/heads", c, s));
      }
    }
  }
  if (const auto place = placeOf(project, key.a)) {
    return same(project.ducts[place->duct].corners[place->corner].loss,
                fmt::format("/ducts/{}/corners/{}/loss", place->duct, place->corner));
  }
  return std::nullopt;
}

std::optional<Entered> enteredTravel(const shop::Project& project, std::size_t state, Id gate) {
  if (state >= project.states.size()) {
    return std::nullopt;
  }
  const std::vector<shop::GateSetting>& gates = project.states[state].gates;
  for (std::size_t g = 0; g < gates.size(); ++g) {
    if (gates[g].gate == gate) {
      return Entered{fmt::format("/states/{}/gates/{}/travel", state, g), gates[g].travel.text()};
    }
  }
  return Entered{fmt::format("/states/{}/gates", state), "not listed: shut"};
}

std::optional<Entered> enteredRating(const shop::Project& project, Id fan) {
  for (std::size_t c = 0; c < project.collectors.size(); ++c) {
    if (project.collectors[c].id == fan) {
      return Entered{fmt::format("/collectors/{}/rating", c), ""};
    }
  }
  for (std::size_t m = 0; m < project.machines.size(); ++m) {
    if (project.machines[m].blower && project.machines[m].blower->id == fan) {
      return Entered{fmt::format("/machines/{}/blower/rating", m), ""};
    }
  }
  return std::nullopt;
}

}  // namespace kerfdraft::judge
