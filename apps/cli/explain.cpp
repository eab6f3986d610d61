// The judge replays; here its derivations are printed, each number once.
#include "cli/explain.h"

#include <fmt/format.h>

#include <set>

#include "cli/exit_codes.h"
#include "cli/shop_open.h"
#include "cli/shown.h"
#include "cli/text_table.h"
#include "judge/explain.h"
#include "judge/explain_words.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

constexpr std::size_t kWidth = 100;
constexpr std::size_t kMostListed = 400;

std::string value(const Shown& shown, Kind kind, double si) {
  return judge::exactText(kind, si, shown.system());
}

/// One derivation; the keys of the numbers in it are added to `next`.
std::string derivationText(const base::Derivation& derivation, const Shown& shown,
                           std::vector<std::string>& next) {
  std::string out = fmt::format("{} = {}\n  {}\n", derivation.name,
                                value(shown, derivation.kind, derivation.value), derivation.key);
  for (const base::Step& step : derivation.steps) {
    const base::Law& law = *step.law;
    out += fmt::format("  {}: {} = {}\n", law.name, law.symbol, value(shown, law.kind, step.result));
    out += "    " + wrapped(law.formula, kWidth, 4) + '\n';
    std::string inputs;
    for (const base::Input& input : step.inputs) {
      inputs += fmt::format("{}{} = {}", inputs.empty() ? "" : ", ", input.symbol,
                            value(shown, input.kind, input.value));
    }
    out += inputs.empty() ? std::string() : "    with " + wrapped(inputs, kWidth, 4) + '\n';
    out += fmt::format("    {}{}{}\n", law.source, law.source.empty() ? "" : ", ", base::toText(law.status));
  }
  TextTable operands({{""}, {"", Align::Right}, {""}, {""}, {""}});
  for (const base::Operand& operand : derivation.operands) {
    operands.row({operand.symbol, value(shown, operand.kind, operand.value),
                  std::string(judge::toText(operand.from)), operand.ref, operand.text});
    if (operand.from == base::From::Number) {
      next.push_back(operand.ref);
    }
  }
  return out + (operands.empty() ? std::string() : operands.text(4));
}

Result<std::string> explained(const judge::Assessment& assessment, const ExplainOptions& options,
                              const Shown& shown) {
  std::string out;
  std::set<std::string> told;
  std::vector<std::string> ahead{options.key};
  for (int level = 0; level <= options.deeper && !ahead.empty(); ++level) {
    std::vector<std::string> next;
    for (const std::string& key : ahead) {
      if (!told.insert(key).second) {
        continue;
      }
      const Result<base::Derivation> derivation = judge::explain(assessment, key);
      if (!derivation) {
        return Failure(derivation.error());
      }
      out += '\n' + derivationText(*derivation, shown, next);
    }
    ahead = std::move(next);
  }
  return out;
}

Result<std::string> listed(const judge::Assessment& assessment, const ExplainOptions& options,
                           const Shown& shown) {
  std::size_t state = 0;
  if (!options.state.empty()) {
    const Result<std::size_t> found = stateByName(assessment, options.state);
    if (!found) {
      return Failure(found.error());
    }
    state = *found;
  }
  TextTable table({{"key"}, {"number"}, {"", Align::Right}});
  std::size_t count = 0;
  for (const judge::NumberKey& key : judge::numberKeys(assessment, state)) {
    const Result<judge::Number> number = judge::numberOf(assessment, key);
    base::check(number.has_value(), "a listed number is not there");
    if (judge::holdsWords(number->name, options.search) && ++count <= kMostListed) {
      table.row({key.text(), number->name, value(shown, number->kind, number->value)});
    }
  }
  if (count == 0) {
    return fail(ErrorCode::Reference,
                fmt::format("no number of state \"{}\" holds all the words of \"{}\"",
                            assessment.states[state].name, options.search),
                "--search");
  }
  std::string out =
      fmt::format("\nNumbers of state \"{}\"\n\n", assessment.states[state].name) + table.text();
  if (count > kMostListed) {
    out += fmt::format("  … and {} more; --search narrows the list\n", count - kMostListed);
  }
  return out;
}

}  // namespace

int runExplain(const ExplainOptions& options, std::ostream& out, std::ostream& err) {
  const std::optional<OpenShop> shop = openOrRefuse(options.project, err);
  if (!shop) {
    return kBadInput;
  }
  const judge::Assessment& assessment = shop->assessment;
  const Shown shown(shop->unitsFor(options.common));
  const Result<std::string> text =
      options.key.empty() ? listed(assessment, options, shown) : explained(assessment, options, shown);
  if (!text) {
    return refuse(text.error(), err);
  }
  const std::string head = fmt::format("{}, predicted, nothing measured: {}\n", options.common.date,
                                       assessment.project->setting.name);
  return deliver(head + *text, options.common, kAllServed, out, err);
}

void declareOptions(OptionList& list, ExplainOptions& o) {
  list.required("project", "FILE", &o.project, "Project file of the shop");
  list.option("key", "KEY", &o.key, "Key of the number; without it the numbers of a state are listed");
  list.option("--state", "NAME", &o.state, "State of the list, by its name");
  list.option("--search", "WORDS", &o.search, "Only numbers whose name holds these words");
  list.option("--deeper", "N", &o.deeper, "Explain its inputs too, so many levels down");
  list.common(o.common);
  list.footer(
      "Examples:\n"
      "  kerfdraft explain my-shop.json --search \"hood static\"\n"
      "  kerfdraft explain my-shop.json state/0/port/0/hood-static --deeper 2");
}

}  // namespace kerfdraft::cli
