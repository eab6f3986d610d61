// Zero cells have no meaning for a piece and are left blank.
#include "cli/sheet_rows.h"

#include <fmt/format.h>

#include "base/csv.h"
#include "base/law.h"
#include "cli/text_table.h"

namespace kerfdraft::cli {
namespace {

using base::Kind;
using hand::SheetRow;

std::string cell(const Shown& shown, Kind kind, double value) {
  return value == 0 ? std::string() : shown.number(kind, value);
}

std::string coefficient(double value) {
  return value == 0 ? std::string() : fmt::format("{:.3f}", value);
}

/// The run stands once, at its first line.
std::string runAt(std::span<const SheetRow> rows, std::size_t i) {
  return i > 0 && rows[i - 1].run == rows[i].run ? std::string() : rows[i].run;
}

}  // namespace

std::string sheetTable(std::span<const SheetRow> rows, const Shown& shown) {
  using enum Align;
  TextTable table({{"piece"},
                   {shown.unit(Kind::VolumeFlow), Right},
                   {"bore " + shown.unit(Kind::Bore), Right},
                   {shown.unit(Kind::Length), Right},
                   {shown.unit(Kind::Speed), Right},
                   {"VP", Right},
                   {"C", Right},
                   {"loss", Right},
                   {"sum", Right},
                   {"static", Right},
                   {""}});
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const SheetRow& row = rows[i];
    if (const std::string run = runAt(rows, i); !run.empty()) {
      table.row({run});
    }
    table.row({"  " + row.label, cell(shown, Kind::VolumeFlow, row.flow_m3_s),
               cell(shown, Kind::Bore, row.bore_m), cell(shown, Kind::Length, row.length_m),
               cell(shown, Kind::Speed, row.speed_m_s), cell(shown, Kind::Pressure, row.velocity_pressure_pa),
               coefficient(row.coefficient), shown.number(Kind::Pressure, row.loss_pa),
               shown.number(Kind::Pressure, row.running_loss_pa), shown.number(Kind::Pressure, row.static_pa),
               row.remark});
  }
  return table.text() +
         fmt::format(
             "  VP, loss, sum and static in {}; C: velocity pressures lost; static behind the piece.\n",
             shown.unit(Kind::Pressure));
}

std::string sheetSources(std::span<const SheetRow> rows) {
  constexpr std::size_t kWidth = 100;
  std::string out;
  for (const SheetRow& row : rows) {
    if (row.source.formula.empty() && row.source.key.empty()) {
      continue;
    }
    const std::string status(base::toText(row.source.status));
    out += "  " + row.label + '\n';
    out += "      " + wrapped(row.source.formula, kWidth, 6) + '\n';
    out += "      " + wrapped(row.source.key.empty() ? status : row.source.key + ", " + status, kWidth, 6) +
           '\n';
  }
  return out.empty() ? out : "Where the coefficients come from:\n" + out;
}

std::string sheetCsvTitle(const Shown& shown) {
  std::string out;
  const std::string pressure = " (" + shown.unit(Kind::Pressure) + ")";
  for (const std::string& title :
       {std::string("path"), std::string("run"), std::string("piece"),
        "air (" + shown.unit(Kind::VolumeFlow) + ")", "bore (" + shown.unit(Kind::Bore) + ")",
        "length (" + shown.unit(Kind::Length) + ")", "speed (" + shown.unit(Kind::Speed) + ")",
        "velocity pressure" + pressure, std::string("friction factor"), std::string("friction coefficient"),
        std::string("fitting coefficient"), std::string("coefficient"), "loss" + pressure, "sum" + pressure,
        "total" + pressure, "static" + pressure, std::string("coefficient from"), std::string("source"),
        std::string("status")}) {
    out += (out.empty() ? "" : ",") + base::csvCell(title);
  }
  return out + ",remark\n";
}

std::string sheetCsv(std::span<const SheetRow> rows, const Shown& shown, const std::string& path) {
  std::string out;
  for (const SheetRow& row : rows) {
    const auto number = [&](Kind kind, double value) {
      return fmt::format(",{:.6g}", base::inUnit(kind, value, shown.system()));
    };
    out += base::csvCell(path) + ',' + base::csvCell(row.run) + ',' + base::csvCell(row.label);
    out += number(Kind::VolumeFlow, row.flow_m3_s) + number(Kind::Bore, row.bore_m) +
           number(Kind::Length, row.length_m) + number(Kind::Speed, row.speed_m_s) +
           number(Kind::Pressure, row.velocity_pressure_pa);
    out += fmt::format(",{:.6g},{:.6g},{:.6g},{:.6g}", row.friction_factor, row.friction_coefficient,
                       row.local_coefficient, row.coefficient);
    out += number(Kind::Pressure, row.loss_pa) + number(Kind::Pressure, row.running_loss_pa) +
           number(Kind::Pressure, row.total_pa) + number(Kind::Pressure, row.static_pa);
    out += ',' + base::csvCell(row.source.formula) + ',' + base::csvCell(row.source.key) + ',' +
           base::csvCell(base::toText(row.source.status)) + ',' + base::csvCell(row.remark) + '\n';
  }
  return out;
}

}  // namespace kerfdraft::cli
