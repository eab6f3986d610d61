// The one file of this room that knows JSON.
#include "papers/json.h"

#include <nlohmann/json.hpp>

#include <cmath>

#include "judge/speech.h"
#include "papers/draw_charts.h"
#include "papers/got.h"

namespace kerfdraft::papers {
namespace {

using Json = nlohmann::ordered_json;

/// JSON has no infinity: what is none becomes null.
Json number(double value) {
  return std::isfinite(value) ? Json(value) : Json();
}

Json maybe(const std::optional<double>& value) {
  return value ? number(*value) : Json();
}

/// SI unit of a kind, as it stands beside its numbers.
std::string_view siUnit(base::Kind kind) {
  using base::Kind;
  switch (kind) {
    case Kind::Length:
    case Kind::Bore:
      return "m";
    case Kind::Area:
      return "m2";
    case Kind::Volume:
      return "m3";
    case Kind::Angle:
      return "rad";
    case Kind::Speed:
      return "m/s";
    case Kind::MassFlow:
      return "kg/s";
    case Kind::VolumeFlow:
      return "m3/s";
    case Kind::Pressure:
    case Kind::AbsolutePressure:
      return "Pa";
    case Kind::Temperature:
    case Kind::TemperatureDifference:
      return "K";
    case Kind::Density:
      return "kg/m3";
    case Kind::Viscosity:
      return "Pa s";
    case Kind::Power:
      return "W";
    case Kind::Time:
      return "s";
    case Kind::Mass:
      return "kg";
    case Kind::RotationalSpeed:
      return "rad/s";
    case Kind::Voltage:
      return "V";
    case Kind::Current:
      return "A";
    case Kind::Ratio:
      return "1";
  }
  return "";
}

Json quantity(double value, base::Kind kind) {
  return {{"value", number(value)}, {"unit", siUnit(kind)}};
}

Json figures(const std::vector<judge::Figure>& list) {
  Json out = Json::object();
  for (const judge::Figure& figure : list) {
    out[std::string(figure.name)] = quantity(figure.value, figure.kind);
  }
  return out;
}

Json remedyJson(const judge::Remedy& remedy, const judge::Voice& voice) {
  Json out{
      {"kind", remedy.kind}, {"text", judge::sayRemedy(remedy, voice)}, {"figures", figures(remedy.figures)}};
  if (remedy.gain) {
    out["gain"] = {{"before", quantity(remedy.gain->before, remedy.gain->kind)},
                   {"after", quantity(remedy.gain->after, remedy.gain->kind)},
                   {"at", remedy.gain->at},
                   {"settles", remedy.gain->cures}};
  }
  if (remedy.price) {
    out["price_usd"] = {{"low", number(remedy.price->low_usd)}, {"high", number(remedy.price->high_usd)}};
  }
  return out;
}

std::string_view word(judge::Accepted accepted) {
  switch (accepted) {
    case judge::Accepted::No:
      return "no";
    case judge::Accepted::Yes:
      return "yes";
    case judge::Accepted::Returned:
      return "returned";
  }
  return "";
}

Json findingJson(const PaperInput& input, std::size_t index) {
  const judge::Finding& finding = input.verdict.findings[index];
  const judge::Voice voice(input.reader, input.units);
  const judge::Said said = judge::say(finding, voice);
  Json out{{"rule", finding.rule},
           {"about", finding.key.text()},
           {"label", finding.label},
           {"state", finding.state ? Json(input.assessment.states[*finding.state].name) : Json()},
           {"severity", judge::toText(finding.severity)},
           {"badness", number(finding.badness)},
           {"accepted", word(input.verdict.accepted[index])},
           {"reason", input.verdict.reasons[index]},
           {"title", said.title},
           {"what", said.what},
           {"figures", figures(finding.figures)},
           {"words", finding.words}};
  out["limit"] = Json();
  if (finding.limit) {
    out["limit"] = quantity(finding.limit->value, finding.limit->kind);
    out["limit"]["words"] = finding.limit->words;
    out["limit"]["source"] = finding.limit->source;
    out["limit"]["status"] = base::toText(finding.limit->status);
    out["limit"]["policy"] = finding.limit->policy;
  }
  out["remedies"] = Json::array();
  for (const judge::Remedy& remedy : finding.remedies) {
    out["remedies"].push_back(remedyJson(remedy, voice));
  }
  out["ask"] = said.defer;
  return out;
}

Json groupJson(const judge::Group& group) {
  return {{"lead", group.lead}, {"same", group.same}, {"explains", group.symptoms}};
}

Json stateJson(const PaperInput& input, std::size_t s) {
  const judge::StateResult& state = input.assessment.states[s];
  Json out{{"name", state.name},
           {"declared", state.declared},
           {"used", used(input.assessment, s)},
           {"filter", toText(state.situation.filter)},
           {"solved", state.solution.solved()},
           {"served", input.evidence.margins[s].served},
           {"why", state.solution.why},
           {"machines", Json::array()}};
  for (const Got& got : gotIn(input, s)) {
    Json one{{"name", got.name},
             {"flow_m3_s", number(got.margin->flow_m3_s)},
             {"low_m3_s", maybe(got.low())},
             {"high_m3_s", maybe(got.high())},
             {"floor_m3_s", maybe(got.margin->floor_m3_s)},
             {"target_m3_s", maybe(got.margin->target_m3_s)},
             {"chips_taken", chipsTaken(got).text},
             {"fine_dust_taken", dustTaken(got).text},
             {"chips_carried", chipsCarried(got).text},
             {"slowest_run", Json()}};
    if (got.slowest != nullptr) {
      one["slowest_run"] = {{"label", got.slowest->label},
                            {"speed_m_s", number(got.slowest->slowest_m_s)},
                            {"needed_m_s", number(got.slowest->minimum_m_s)},
                            {"material", got.slowest->material}};
    }
    out["machines"].push_back(std::move(one));
  }
  return out;
}

}  // namespace

std::string checkJson(const PaperInput& input) {
  Json root{{"check-format", 1},
            {"date", input.date},
            {"standing", "predicted"},
            {"shop", input.evidence.project().setting.name},
            {"all_served", input.verdict.all_served},
            {"all_solved", input.verdict.all_solved},
            {"findings", Json::array()},
            {"groups", Json::array()},
            {"on_top", input.verdict.on_top},
            {"lived_with", Json::array()},
            {"states", Json::array()},
            {"matters", Json::array()}};
  for (std::size_t f = 0; f < input.verdict.findings.size(); ++f) {
    root["findings"].push_back(findingJson(input, f));
  }
  for (const judge::Group& group : input.verdict.groups) {
    root["groups"].push_back(groupJson(group));
  }
  for (const judge::Group& group : input.verdict.lived_with) {
    root["lived_with"].push_back(groupJson(group));
  }
  for (std::size_t s = 0; s < input.assessment.states.size(); ++s) {
    root["states"].push_back(stateJson(input, s));
  }
  for (const doubt::Matter& matter : input.matters) {
    root["matters"].push_back(
        {{"key", matter.key}, {"share", number(matter.share)}, {"text", doubt::sentence(matter)}});
  }
  return root.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace kerfdraft::papers
