// Examples judged once, for tests of papers; and a check of written pages.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "papers/paper_input.h"

namespace kerfdraft::tests {

/// An example, solved and judged.
struct PaperStage {
  std::string name;
  std::unique_ptr<judge::Assessment> assessment;
  std::unique_ptr<papers::Judgement> judgement;

  papers::PaperInput input(judge::Reader reader, base::UnitSystem units) const {
    return judgement->input("2026-01-15", units, reader);
  }
};

/// Every file of the examples folder, by name, judged when first asked for.
const std::vector<PaperStage>& paperStages();
/// One of them.
const PaperStage& paperStage(const std::string& name);

/// What is wrong with the tags of a page: one that is not closed, closes another, or stands twice with one
/// id; empty where all is well.
std::string tagFault(const std::string& html);

/// How often a text stands in another.
std::size_t count(const std::string& text, const std::string& what);

}  // namespace kerfdraft::tests
