// Fills them from what is known already.
#include "papers/adviser_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "catalogue/countries.h"
#include "judge/speech.h"
#include "papers/draw_charts.h"
#include "papers/parts.h"

namespace kerfdraft::papers {
namespace {

using base::Kind;

constexpr std::size_t kMostLosses = 8;
constexpr std::size_t kMostOptions = 6;

std::string_view whoText(shop::Who who) {
  switch (who) {
    case shop::Who::Home:
      return "a home shop";
    case shop::Who::OnePerson:
      return "one person's business";
    case shop::Who::Employer:
      return "an employer";
    case shop::Who::School:
      return "a school";
  }
  return "";
}

/// What may go wrong with a change, beside what was solved. Ours.
std::string_view riskOf(const judge::Remedy& remedy) {
  if (!remedy.change) {
    return "not tried by solving";
  }
  switch (remedy.change->kind) {
    case judge::ChangeKind::Bore:
    case judge::ChangeKind::LegBore:
      return "a wider duct is a slower one: look at its chips in every state before cutting";
    case judge::ChangeKind::PortBore:
      return "work on the machine itself: guards and clearances must stay as they are";
    case judge::ChangeKind::HoseLength:
    case judge::ChangeKind::HoseTight:
      return "none for the air; the machine may no longer be movable";
    case judge::ChangeKind::GateOpen:
      return "takes air from what else is open";
    case judge::ChangeKind::GateShut:
      return "shuts off what hangs behind it";
    case judge::ChangeKind::FilterClean:
      return "lasts until the filter is loaded again";
    case judge::ChangeKind::NonReturn:
      return "costs some suction; must be kept free of chips";
    case judge::ChangeKind::StraightInlet:
      return "needs room before the collector";
    case judge::ChangeKind::WideElbows:
      return "needs room at the corners";
    case judge::ChangeKind::RoomOpening:
      return "lets heat out; must stay open whenever the collector runs";
    case judge::ChangeKind::BodyOpening:
      return "work on the machine itself; dust may leave where air should enter";
  }
  return "";
}

}  // namespace

Table circumstances(const PaperInput& input) {
  const shop::Project& project = input.evidence.project();
  const physics::AirState& air = input.evidence.pieces().air;
  Table table;
  table.columns = {{"what", Align::Left, {}, 0.3}, {"as entered or computed"}};
  const auto row = [&](const char* what, std::string text) {
    if (!text.empty()) {
      table.rows.push_back({{what}, {std::move(text)}});
    }
  };
  row("who answers for it", std::string(whoText(project.setting.who)));
  const auto country = catalogue::country(input.catalogue, project.setting.country);
  row("country", country ? country->name : project.setting.country);
  row("temperature", fmt::format("{} ({})", project.air.temperature.text(),
                                 base::toText(project.air.temperature.standing())));
  if (project.air.barometer) {
    row("barometer", fmt::format("{} ({})", project.air.barometer->text(),
                                 base::toText(project.air.barometer->standing())));
  } else if (project.air.altitude) {
    row("altitude",
        fmt::format("{} ({})", project.air.altitude->text(), base::toText(project.air.altitude->standing())));
  } else {
    row("altitude", "sea level, since neither it nor the barometer is given");
  }
  row("humidity", project.air.humidity ? project.air.humidity->text() : "50 %, since none is given");
  row("density of the room's air", shown(input, Kind::Density, air.density_kg_m3));
  row("density along the ducts",
      project.setting.density == shop::DensityMode::Local ? "falls with suction" : "the same everywhere");
  row("leakage", project.setting.leakage ? "joints and gate slots counted" : "not counted");
  row("on", input.date);
  return table;
}

Table statesTable(const PaperInput& input) {
  Table table;
  table.small = true;
  table.columns = {{"state", Align::Left, {}, 0.2},
                   {"machine", Align::Left, {}, 0.18},
                   {"air", Align::Right, Kind::VolumeFlow},
                   {"from", Align::Right, Kind::VolumeFlow},
                   {"to", Align::Right, Kind::VolumeFlow},
                   {"floor", Align::Right, Kind::VolumeFlow},
                   {"target", Align::Right, Kind::VolumeFlow},
                   {"gets it"},
                   {"slowest in"},
                   {"speed", Align::Right, Kind::Speed},
                   {"needed", Align::Right, Kind::Speed},
                   {"carried"}};
  for (std::size_t s = 0; s < input.assessment.states.size(); ++s) {
    const judge::StateResult& state = input.assessment.states[s];
    std::string name = state.name;
    if (state.situation.filter != shop::FilterState::Seasoned && !input.evidence.pieces().filters.empty()) {
      name += fmt::format(" (filter {})", toText(state.situation.filter));
    }
    if (!used(input.assessment, s)) {
      name += " (nobody works so)";
    }
    table.starts.push_back(table.rows.size());
    if (!state.solution.solved()) {
      table.rows.push_back({{name}, {"no solution: " + state.solution.why}});
      continue;
    }
    const std::vector<Got> all = gotIn(input, s);
    if (all.empty() || state.solution.outcome == network::Outcome::Still) {
      table.rows.push_back({{name}, {all.empty() ? "nothing is open" : "no air moves"}});
      continue;
    }
    bool first = true;
    for (const Got& got : all) {
      const InWords air = got.margin->floor_m3_s ? chipsTaken(got) : dustTaken(got);
      const InWords way = chipsCarried(got);
      std::vector<Cell> row{{first ? name : std::string()},
                            {got.name},
                            {{}, got.margin->flow_m3_s},
                            {{}, got.low()},
                            {{}, got.high()},
                            {{}, got.margin->floor_m3_s},
                            {{}, got.margin->target_m3_s},
                            {air.text, {}, air.grade}};
      if (got.slowest != nullptr) {
        row.push_back({shortLabel(got.slowest->label)});
        row.push_back({{}, got.slowest->slowest_m_s});
        row.push_back({{}, got.slowest->minimum_m_s});
        row.push_back({way.text, {}, way.grade});
      }
      table.rows.push_back(std::move(row));
      first = false;
    }
  }
  table.note =
      "From and to: two standard deviations of the prediction. The floor carries the chips, the target takes "
      "fine "
      "dust too; 90 % of it counts as met. Yes: above 95 %; likely: above 66 %; unlikely: above 5 %; no: "
      "less.";
  return table;
}

Table operatingTable(const PaperInput& input, std::size_t fan) {
  Table table;
  const bool filters = !input.evidence.pieces().filters.empty();
  table.small = true;
  table.columns = {{"state", Align::Left, {}, 0.26},
                   {"air", Align::Right, Kind::VolumeFlow},
                   {"from", Align::Right, Kind::VolumeFlow},
                   {"to", Align::Right, Kind::VolumeFlow},
                   {"total pressure across it", Align::Right, Kind::Pressure},
                   {"suction at its inlet", Align::Right, Kind::Pressure}};
  if (filters) {
    table.columns.push_back({"air, filter clean", Align::Right, Kind::VolumeFlow});
    table.columns.push_back({"air, filter due", Align::Right, Kind::VolumeFlow});
  }
  for (const std::size_t s : movingStates(input)) {
    const network::FanResult& result = input.assessment.states[s].solution.fans[fan];
    if (!result.running) {
      continue;
    }
    const judge::Band band = input.evidence.fanBand(s, fan);
    const bool known = band.low != band.high;
    std::vector<Cell> row{{input.assessment.states[s].name},
                          {{}, result.inlet_flow_m3_s, {}, true},
                          known ? Cell{{}, band.low * result.inlet_flow_m3_s} : Cell{},
                          known ? Cell{{}, band.high * result.inlet_flow_m3_s} : Cell{},
                          {{}, result.rise_pa},
                          {{}, -inletStatic(input, s, fan)}};
    if (filters) {
      const judge::FilterLife& life = input.evidence.filter_life[s];
      row.push_back(life.clean ? Cell{{}, life.clean->fans[fan].inlet_flow_m3_s} : Cell{});
      row.push_back(life.due ? Cell{{}, life.due->fans[fan].inlet_flow_m3_s} : Cell{});
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table lossTable(const judge::Sheet& sheet) {
  std::vector<std::size_t> order(sheet.rows.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::erase_if(order, [&](std::size_t r) { return !(sheet.rows[r].loss_pa > 0); });
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return sheet.rows[a].loss_pa > sheet.rows[b].loss_pa;
  });
  double all_pa = 0;
  for (const std::size_t r : order) {
    all_pa += sheet.rows[r].loss_pa;
  }
  Table table;
  table.caption = "The greatest losses on this path";
  table.columns = {
      {"piece", Align::Left, {}, 0.55}, {"loss", Align::Right, Kind::Pressure}, {"share", Align::Right}};
  double rest_pa = all_pa;
  for (std::size_t i = 0; i < std::min(order.size(), kMostLosses); ++i) {
    const judge::SheetRow& row = sheet.rows[order[i]];
    rest_pa -= row.loss_pa;
    table.rows.push_back(
        {{row.label}, {{}, row.loss_pa}, {fmt::format("{:.0f} %", 100 * row.loss_pa / all_pa)}});
  }
  if (order.size() > kMostLosses) {
    table.rows.push_back({{fmt::format("{} smaller ones", order.size() - kMostLosses)},
                          {{}, rest_pa},
                          {fmt::format("{:.0f} %", 100 * rest_pa / all_pa)}});
  }
  table.rows.push_back({{"together", {}, {}, true}, {{}, all_pa, {}, true}, {"100 %"}});
  table.starts = {table.rows.size() - 1};
  return table;
}

Table optionsTable(const PaperInput& input) {
  Table table;
  table.columns = {{"what", Align::Left, {}, 0.34}, {"at"},         {"before", Align::Right},
                   {"after", Align::Right},         {"settles it"}, {"price, USD", Align::Right},
                   {"risk", Align::Left, {}, 0.24}};
  const judge::Voice voice(judge::Reader::Adviser, input.units);
  for (const judge::Group& group : input.verdict.groups) {
    for (const judge::Remedy& remedy : input.verdict.findings[group.lead].remedies) {
      if (!remedy.gain || table.rows.size() >= kMostOptions) {
        continue;
      }
      judge::Remedy bare = remedy;
      bare.gain.reset();
      bare.price.reset();
      const std::string what = judge::sayRemedy(bare, voice);
      const bool there = std::any_of(table.rows.begin(), table.rows.end(),
                                     [&](const auto& row) { return row.front().text == what; });
      if (there) {
        continue;
      }
      table.rows.push_back(
          {{what},
           {shortLabel(remedy.gain->at)},
           {voice.show(remedy.gain->before, remedy.gain->kind)},
           {voice.show(remedy.gain->after, remedy.gain->kind)},
           {remedy.gain->cures ? "yes" : "not alone"},
           {!remedy.price ? "not known"
            : remedy.price->high_usd <= 0
                ? "none"
                : fmt::format("{:.0f}-{:.0f}", remedy.price->low_usd, remedy.price->high_usd)},
           {std::string(riskOf(remedy))}});
    }
  }
  table.note =
      "Before and after: by solving the shop again with this change alone. Prices are recalled estimates of "
      "the "
      "material, for comparing options with each other.";
  return table;
}

}  // namespace kerfdraft::papers
