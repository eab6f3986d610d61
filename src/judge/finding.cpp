// Severity in words and figures by name.
#include "judge/finding.h"

#include <algorithm>

namespace kerfdraft::judge {

std::string_view toText(Severity severity) {
  switch (severity) {
    case Severity::Severe:
      return "severe";
    case Severity::Serious:
      return "serious";
    case Severity::Caution:
      return "caution";
    case Severity::Note:
      return "note";
  }
  return "";
}

const Figure* Finding::findFigure(std::string_view name) const {
  const auto found =
      std::find_if(figures.begin(), figures.end(), [&](const Figure& figure) { return figure.name == name; });
  return found == figures.end() ? nullptr : &*found;
}

const Figure& Finding::figure(std::string_view name) const {
  const Figure* found = findFigure(name);
  if (found == nullptr) {
    throw base::InternalError("finding " + rule + " has no figure \"" + std::string(name) + "\"");
  }
  return *found;
}

}  // namespace kerfdraft::judge
