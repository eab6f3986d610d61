// The first minutes: an example, or a shop from a few answers. Without Qt. Without drawing: line_answer.h.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "shop/project.h"

namespace kerfdraft::desk {

struct ExampleRow {
  std::string file;  ///< "two-car-garage.json": what openExample() takes
  std::string name;
  std::string teaches;  ///< its note
};
/// Those that travel with the program, in the order of their names.
std::vector<ExampleRow> examples();
base::Result<shop::Project> openExample(std::string_view file);

/// Answers as typed. What is empty is taken as usual, and said to be assumed.
struct StartAnswers {
  std::string name;
  shop::Who who = shop::Who::Home;
  std::string country;  ///< two letters; may be empty
  base::UnitSystem units = base::UnitSystem::Us;
  std::string width;
  std::string depth;
  std::string height;
  std::string altitude;
  std::string temperature;
  std::vector<std::pair<std::string, int>> machines;  ///< catalogue kind and how many
  std::string fan;                                    ///< key of an invented fan; empty: by the label below
  std::string label_flow;
  std::string label_suction;
  std::string inlet;  ///< bore of the collector's inlet; found from the machines where empty
};

/// What is taken for an answer that is left empty: "24 ft".
StartAnswers usualAnswers(base::UnitSystem units);

/// An answer that cannot be taken. `question` is the name of its member in StartAnswers, in the form of the
/// page's field: "width", "label-flow"; empty where no single answer is to blame.
struct Refused {
  std::string question;
  std::string sentence;
};
/// In the order of the questions.
using Refusals = std::vector<Refused>;

/// A shop with these machines along its walls, ducts to a collector, a gate and a state of use for each.
/// Refused, each with its question: a length, an altitude, a label that is none, no machine, a room in which
/// they do not fit.
tl::expected<shop::Project, Refusals> shopFromAnswers(const StartAnswers& answers,
                                                      const catalogue::Catalogue& catalogue,
                                                      base::IdSource& ids);

}  // namespace kerfdraft::desk
