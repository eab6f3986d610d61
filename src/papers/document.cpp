// Small makers of blocks, and what all writers share.
#include "papers/document.h"

namespace kerfdraft::papers {

Line plain(std::string text) {
  return {{std::move(text), false}};
}

Line strong(std::string text) {
  return {{std::move(text), true}};
}

Line headed(std::string head, std::string rest) {
  return {{std::move(head) + ":", true}, {" " + std::move(rest), false}};
}

std::string wordsOf(const Line& line) {
  std::string out;
  for (const Words& words : line) {
    out += words.text;
  }
  return out;
}

std::string cellText(const Cell& cell, const Column& column, base::UnitSystem units) {
  if (!cell.si) {
    return cell.text;
  }
  return base::formatNumber(column.kind.value_or(base::Kind::Ratio), *cell.si, units);
}

std::string columnTitle(const Column& column, base::UnitSystem units) {
  const std::string unit = column.kind ? std::string(base::unitName(*column.kind, units)) : std::string();
  return unit.empty() ? column.title : column.title + ", " + unit;
}

}  // namespace kerfdraft::papers
