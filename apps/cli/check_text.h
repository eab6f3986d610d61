// The verdict as text for a terminal.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "papers/paper_input.h"

namespace kerfdraft::cli {

struct CheckText {
  const papers::PaperInput& input;
  std::vector<std::size_t> states;    ///< of the table
  std::vector<std::string> cautions;  ///< said below the table
  std::string project;                ///< file, for the commands that are named
  bool all = false;                   ///< every finding in full
};

/// Verdict, findings with their numbers for kerfdraft accept, accepted ones, the table, cautions, policies.
std::string checkText(const CheckText& check);

}  // namespace kerfdraft::cli
