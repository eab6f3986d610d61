// Words of the five steps.
#include "drawing/grade.h"

namespace kerfdraft::drawing {

std::string_view toText(Grade grade) {
  switch (grade) {
    case Grade::FarBelow:
      return "far too little";
    case Grade::Below:
      return "too little";
    case Grade::Just:
      return "just enough";
    case Grade::Ample:
      return "enough";
    case Grade::Plenty:
      return "more than needed";
    case Grade::NotJudged:
      return "nothing asked";
    case Grade::Still:
      return "shut or still";
  }
  return "";
}

std::string_view rangeText(Grade grade) {
  switch (grade) {
    case Grade::FarBelow:
      return "under 80 %";
    case Grade::Below:
      return "80–100 %";
    case Grade::Just:
      return "100–115 %";
    case Grade::Ample:
      return "115–160 %";
    case Grade::Plenty:
      return "over 160 %";
    case Grade::NotJudged:
    case Grade::Still:
      return "";
  }
  return "";
}

}  // namespace kerfdraft::drawing
