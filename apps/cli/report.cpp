// Opens a shop, has it judged once, and writes a page for each reader that is asked for.
#include "cli/report.h"

#include <fmt/format.h>

#include <filesystem>
#include <vector>

#include "cli/check.h"
#include "cli/exit_codes.h"
#include "cli/shop_open.h"
#include "papers/html.h"
#include "papers/paper_input.h"
#include "papers/papers.h"

namespace kerfdraft::cli {
namespace {

using judge::Reader;

std::string_view toText(Reader reader) {
  switch (reader) {
    case Reader::Owner:
      return "owner";
    case Reader::Adviser:
      return "adviser";
    case Reader::Inspector:
      return "inspector";
  }
  return "";
}

}  // namespace

std::string reportPath(const ReportOptions& options, Reader reader) {
  const std::filesystem::path asked = options.common.output;
  if (!asked.empty() && !options.all_readers) {
    return asked.string();
  }
  std::filesystem::path path = asked.empty() ? std::filesystem::path(options.project) : asked;
  const std::string ending = asked.empty() ? std::string(".html") : asked.extension().string();
  path.replace_filename(fmt::format("{}-{}{}", path.stem().string(), toText(reader), ending));
  return path.string();
}

int runReport(const ReportOptions& options, std::ostream& out, std::ostream& err) {
  const std::optional<OpenShop> shop = openOrRefuse(options.project, err);
  if (!shop) {
    return kBadInput;
  }
  const auto judgement = papers::Judgement::of(shop->assessment, shop->catalogue);
  if (!judgement) {
    return refuse(judgement.error(), err);
  }
  const std::vector<Reader> readers = options.all_readers
                                          ? std::vector{Reader::Owner, Reader::Adviser, Reader::Inspector}
                                          : std::vector{options.reader};
  for (const Reader reader : readers) {
    const papers::PaperInput input =
        (*judgement)->input(options.common.date, shop->unitsFor(options.common), reader);
    Common page = options.common;
    page.output = reportPath(options, reader);
    if (deliver(papers::toHtml(papers::paperOf(input)), page, kAllServed, out, err) != kAllServed) {
      return kBadInput;
    }
    out << fmt::format("Report for the {}: {}\n", toText(reader), page.output);
  }
  return kAllServed;
}

void declareOptions(OptionList& list, ReportOptions& o) {
  list.required("project", "FILE", &o.project, "Project file of the shop");
  declareReader(list, o.reader,
                "For whom: owner (what to do; taken where not given), adviser (everything that one defends), "
                "inspector (a form for an examination)");
  list.flag("--all-readers", o.all_readers, "A page for each of the three");
  list.notTogether("--all-readers", "--reader");
  list.common(o.common);
  list.footer(
      "Without -o the page goes beside the project: my-shop-owner.html. It holds its pictures and its type, "
      "and\n"
      "fetches nothing. Exit code: 0 written, whatever it says; 2 bad input.\n\n"
      "Examples:\n"
      "  kerfdraft report my-shop.json\n"
      "  kerfdraft report my-shop.json --reader adviser --units metric -o adviser.html\n"
      "  kerfdraft report examples/two-car-garage.json --all-readers -o garage.html");
}

}  // namespace kerfdraft::cli
