// Opens a shop, has it judged, and tells the verdict.
#include "cli/check.h"

#include <numeric>

#include "cli/check_text.h"
#include "cli/exit_codes.h"
#include "cli/shop_open.h"
#include "judge/caution_lines.h"
#include "papers/json.h"
#include "papers/paper_input.h"

namespace kerfdraft::cli {

using base::Result;

int runCheck(const CheckOptions& options, std::ostream& out, std::ostream& err) {
  const std::optional<OpenShop> shop = openOrRefuse(options.project, err);
  if (!shop) {
    return kBadInput;
  }
  const Result<std::vector<std::size_t>> states =
      options.states.empty() ? Result<std::vector<std::size_t>>(usedStates(shop->assessment))
                             : statesByName(shop->assessment, options.states);
  if (!states) {
    return refuse(states.error(), err);
  }
  const auto judgement = papers::Judgement::of(shop->assessment, shop->catalogue);
  if (!judgement) {
    return refuse(judgement.error(), err);
  }
  const papers::PaperInput input =
      (*judgement)->input(options.common.date, shop->unitsFor(options.common), options.reader);
  const Result<std::vector<std::string>> cautions =
      judge::cautionLines(shop->assessment, shop->catalogue, *states, input.units);
  if (!cautions) {
    return refuse(cautions.error(), err);
  }
  const std::string text = options.json
                               ? papers::checkJson(input)
                               : checkText({input, *states, *cautions, options.project, options.all});
  return deliver(text, options.common, verdictCode(input.verdict), out, err);
}

void declareReader(OptionList& list, judge::Reader& reader, const std::string& help) {
  list.word<judge::Reader, judge::Reader>("--reader", "WORD", reader,
                                          {{"owner", judge::Reader::Owner},
                                           {"adviser", judge::Reader::Adviser},
                                           {"inspector", judge::Reader::Inspector}},
                                          help);
}

void declareOptions(OptionList& list, CheckOptions& o) {
  list.required("project", "FILE", &o.project, "Project file of the shop");
  declareReader(
      list, o.reader,
      "In whose words: owner (plain), adviser (with every number; taken where not given), inspector");
  list.flag("--all", o.all, "Every finding in full, not only the gravest");
  list.option(
      "--state", "NAME", &o.states,
      "In the table only this state, by its name; may be given again; those in which somebody works where "
      "not given. Findings are of all of these");
  list.flag("--json", o.json, "As JSON, in SI units (docs/schema/check-1.schema.json)");
  list.common(o.common);
  list.footer(
      "Exit code: 0 every open port and machine reaches its floor, 1 one does not, 2 bad input,\n"
      "3 a state has no solution.\n\n"
      "Examples:\n"
      "  kerfdraft check examples/two-car-garage.json\n"
      "  kerfdraft check my-shop.json --reader owner\n"
      "  kerfdraft check my-shop.json --all --units metric\n"
      "  kerfdraft check my-shop.json --json -o verdict.json");
}

}  // namespace kerfdraft::cli
