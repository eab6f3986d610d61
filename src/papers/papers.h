// The papers: one for each reader.
#pragma once

#include "papers/document.h"
#include "papers/paper_input.h"

namespace kerfdraft::papers {

/// A picture, the worst in a sentence, three things to do, which gates together, when to empty and clean.
Document ownerPaper(const PaperInput& input);

/// Everything that one defends: verdict, tables, charts, assumptions, options, policies, sources.
Document adviserPaper(const PaperInput& input);

/// A form for an examination: intended and predicted performance, places to measure, columns to fill in.
Document inspectorPaper(const PaperInput& input);

/// That of input.reader.
Document paperOf(const PaperInput& input);

}  // namespace kerfdraft::papers
