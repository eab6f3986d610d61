// kerfdraft report: one page for a reader, as a file that needs no other: HTML to look at and to print.
#pragma once

#include <ostream>
#include <string>

#include "cli/common.h"
#include "cli/option_list.h"
#include "judge/rule.h"

namespace kerfdraft::cli {

struct ReportOptions {
  Common common;  ///< without an output the page goes beside the project
  std::string project;
  judge::Reader reader = judge::Reader::Owner;
  bool all_readers = false;
};

/// Where a page goes: the output of the options, or beside the project. "my-shop-owner.html"; where all three
/// are written, an output gets the reader before its ending.
std::string reportPath(const ReportOptions& options, judge::Reader reader);

/// Exit codes: 0 written, whatever it says; 2 bad input.
int runReport(const ReportOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, ReportOptions& options);

}  // namespace kerfdraft::cli
