// Findings first, then the table; a number stands before each finding, so that a person can accept it by
// that.
#include "cli/check_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "cli/accept.h"
#include "cli/shop_open.h"
#include "cli/shown.h"
#include "cli/solve_writers.h"
#include "cli/text_table.h"
#include "judge/speech.h"
#include "papers/got.h"

namespace kerfdraft::cli {
namespace {

using base::Kind;
using judge::Finding;
using judge::Group;

constexpr std::size_t kWidth = 100;
constexpr std::size_t kIndent = 5;
/// Symptoms and states that are named; the rest is counted.
constexpr std::size_t kMostNamed = 4;

std::string count(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

class Writer {
 public:
  explicit Writer(const CheckText& check)
      : check_(check),
        input_(check.input),
        verdict_(check.input.verdict),
        voice_(check.input.reader, check.input.units),
        shown_(check.input.units) {}

  std::string text() {
    out_ = headLine(input_.assessment, usedStates(input_.assessment), input_.date);
    if (const std::string& note = input_.evidence.project().setting.note; !note.empty()) {
      out_ += wrapped(note, kWidth) + '\n';
    }
    out_ += '\n' + wrapped(verdict(), kWidth) + '\n';
    findings();
    accepted();
    table();
    policies();
    mind();
    return std::move(out_);
  }

 private:
  /// What a reader should know who stops here.
  std::string verdict() const {
    std::size_t unsolved = 0;
    std::size_t unserved = 0;
    const std::vector<std::size_t> used = usedStates(input_.assessment);
    for (const std::size_t s : used) {
      const judge::StateMargins& state = input_.evidence.margins[s];
      unsolved += state.solved ? 0 : 1;
      unserved += state.solved && !state.served ? 1 : 0;
    }
    const std::size_t states = used.size();
    std::string said =
        unsolved > 0 ? fmt::format("Of {}, {} no solution.", count(states, "state", "states"),
                                   unsolved == 1 ? "one has" : fmt::format("{} have", unsolved))
        : unserved == 0
            ? (states == 1 ? std::string("Everything that is open gets at least the air that it must have.")
                           : fmt::format("In all {} states everything that is open gets at least the air "
                                         "that it must have.",
                                         states))
        : states == 1 ? std::string("Something that is open does not get the air that it must have.")
                      : fmt::format(
                            "In {} of {} states something that is open does not get the air that it "
                            "must have.",
                            unserved, states);
    if (verdict_.groups.empty()) {
      return said + " Nothing was found to complain of.";
    }
    std::size_t grave[3] = {};
    for (const Group& group : verdict_.groups) {
      const auto severity = static_cast<std::size_t>(lead(group).severity);
      if (severity < 3) {
        ++grave[severity];
      }
    }
    std::string parts;
    constexpr std::string_view kNames[] = {"severe", "serious", "to be cautious of"};
    for (std::size_t i = 0; i < 3; ++i) {
      if (grave[i] > 0) {
        parts += fmt::format("{}{} {}", parts.empty() ? "" : ", ", grave[i], kNames[i]);
      }
    }
    return said + fmt::format(" {}{}{}.", count(verdict_.groups.size(), "finding", "findings"),
                              parts.empty() ? "" : ": ", parts);
  }

  const Finding& lead(const Group& group) const { return verdict_.findings[group.lead]; }

  void findings() {
    const std::size_t full = check_.all ? verdict_.groups.size() : verdict_.on_top;
    for (std::size_t g = 0; g < full; ++g) {
      out_ += '\n';
      inFull(g + 1, verdict_.groups[g]);
    }
    if (full < verdict_.groups.size()) {
      out_ += full == 0 ? "\nFindings, one line each (--all tells them in full)\n"
                        : "\nThe rest, one line each (--all tells it in full)\n";
      for (std::size_t g = full; g < verdict_.groups.size(); ++g) {
        const Group& group = verdict_.groups[g];
        line(numbered(g + 1), fmt::format("{}: {}{}", judge::toText(lead(group).severity), title(lead(group)),
                                          elsewhere(group)));
      }
    }
    if (!verdict_.groups.empty()) {
      out_ += '\n' +
              wrapped(fmt::format("To live with one of them: kerfdraft accept {} NUMBER --reason "
                                  "\"…\". It comes back when it grows worse.",
                                  check_.project),
                      kWidth) +
              '\n';
    }
  }

  static std::string numbered(std::size_t number) { return fmt::format("{:>3}  ", number); }

  /// A line that begins with `head` and goes on below it, indented.
  void line(const std::string& head, const std::string& text) {
    out_ += head + wrapped(text, kWidth, kIndent) + '\n';
  }
  void below(const std::string& text) { line(std::string(kIndent, ' '), text); }

  std::string title(const Finding& finding) const { return judge::say(finding, voice_).title; }

  /// The title without its state, for lists in which one thing stands for all its states.
  std::string whatAndWhere(const Finding& finding) const {
    Finding anywhere = finding;
    anywhere.state_name.clear();
    return title(anywhere);
  }

  void inFull(std::size_t number, const Group& group) {
    const Finding& finding = lead(group);
    const judge::Said said = judge::say(finding, voice_);
    line(numbered(number), fmt::format("{}: {}", judge::toText(finding.severity), said.title));
    below(said.what);
    if (!said.limit.empty()) {
      below(said.limit);
    }
    if (verdict_.accepted[group.lead] == judge::Accepted::Returned) {
      below(fmt::format("It was accepted (\"{}\") and has grown worse since.", verdict_.reasons[group.lead]));
    }
    if (!group.same.empty()) {
      below("Also in: " + named(group.same, [](const Finding& f) { return f.state_name; }) + '.');
    }
    if (!group.symptoms.empty()) {
      below("Behind it: " + named(group.symptoms, [&](const Finding& f) { return whatAndWhere(f); }) + '.');
    }
    for (std::size_t r = 0; r < said.remedies.size(); ++r) {
      below((r == 0 ? "Do: " : "Or: ") + said.remedies[r]);
    }
    if (!said.defer.empty()) {
      below(said.defer);
    }
  }

  /// The first few, each once; the rest counted.
  template <class Name>
  std::string named(const std::vector<std::size_t>& of, const Name& name) const {
    std::vector<std::string> names;
    for (const std::size_t f : of) {
      std::string one = name(verdict_.findings[f]);
      if (!one.empty() && std::find(names.begin(), names.end(), one) == names.end()) {
        names.push_back(std::move(one));
      }
    }
    const std::size_t shown = names.size() <= kMostNamed + 1 ? names.size() : kMostNamed;
    std::string out =
        fmt::format("{}", fmt::join(names.begin(), names.begin() + static_cast<long>(shown), "; "));
    return shown == names.size() ? out : out + fmt::format("; and {} more", names.size() - shown);
  }

  std::string elsewhere(const Group& group) const {
    std::string out;
    if (!group.same.empty()) {
      out = " and in " + count(group.same.size(), "other state", "other states");
    }
    if (!group.symptoms.empty()) {
      out += fmt::format(", behind it {}", count(group.symptoms.size(), "more", "more"));
    }
    return out;
  }

  void accepted() {
    if (verdict_.lived_with.empty()) {
      return;
    }
    out_ += fmt::format("\nAccepted (kerfdraft accept {} NUMBER --undo takes one back)\n", check_.project);
    const std::vector<AcceptedLot> lots = acceptedLots(verdict_);
    for (std::size_t l = 0; l < lots.size(); ++l) {
      line(numbered(l + 1), named(lots[l].findings, [&](const Finding& f) { return whatAndWhere(f); }) +
                                ". Reason: " + stopped(lots[l].reason));
    }
  }

  void table() {
    const std::string flow = shown_.unit(Kind::VolumeFlow);
    TextTable table({{"state"},
                     {"open"},
                     {"air, " + flow, Align::Right},
                     {"between, " + flow, Align::Right},
                     {"floor", Align::Right},
                     {"target", Align::Right},
                     {"chips taken"},
                     {"fine dust too"},
                     {"chips carried"},
                     {"served"}});
    for (const std::size_t s : check_.states) {
      const judge::StateResult& state = input_.assessment.states[s];
      if (!state.solution.solved()) {
        table.row({state.name, "no solution: " + state.solution.why});
        continue;
      }
      const std::vector<papers::Got> list = papers::gotIn(input_, s);
      if (list.empty() || state.solution.outcome == network::Outcome::Still) {
        table.row({state.name, list.empty() ? "every port is shut" : "no air moves"});
        continue;
      }
      for (const papers::Got& got : list) {
        const auto number = [&](const std::optional<double>& si) {
          return si ? shown_.number(Kind::VolumeFlow, *si) : std::string();
        };
        table.row({&got == list.data() ? state.name : "", got.name, number(got.margin->flow_m3_s),
                   got.low() ? number(got.low()) + "–" + number(got.high()) : std::string(),
                   number(got.margin->floor_m3_s), number(got.margin->target_m3_s),
                   papers::chipsTaken(got).text, papers::dustTaken(got).text, papers::chipsCarried(got).text,
                   std::string(judge::toText(got.margin->served))});
      }
    }
    out_ += '\n' + table.text();
    out_ += "\n  " +
            wrapped(
                "Between: two standard deviations each way. yes, likely, unlikely, no: a chance above 95, "
                "66, 5 %, or less. Served: by the number alone; 90 % of a target counts as met.",
                kWidth, 2) +
            '\n';
  }

  /// Where published rules disagree, the side that was taken.
  void policies() {
    std::set<std::string> used;
    for (const Finding& finding : verdict_.findings) {
      if (finding.limit && !finding.limit->policy.empty()) {
        used.insert(finding.limit->policy);
      }
    }
    for (const shop::Policy& policy : input_.evidence.project().setting.policies) {
      used.insert(policy.subject + ": " + policy.choice + " (chosen in the project)");
    }
    if (used.empty() || input_.reader == judge::Reader::Owner) {
      return;
    }
    out_ += "\nPublished rules disagree; used here:\n";
    for (const std::string& one : used) {
      out_ += "  " + wrapped(one, kWidth, 4) + '\n';
    }
  }

  void mind() {
    out_ += "\nMind: " +
            wrapped(
                "This is about air, not about what is breathed, and it states of no law that it is kept. "
                "Where a finding says whom to ask, ask.",
                kWidth, 6) +
            '\n';
    for (const std::string& caution : check_.cautions) {
      out_ += "      " + wrapped(caution, kWidth, 6) + '\n';
    }
  }

  const CheckText& check_;
  const papers::PaperInput& input_;
  const judge::Verdict& verdict_;
  judge::Voice voice_;
  Shown shown_;
  std::string out_;
};

}  // namespace

std::string checkText(const CheckText& check) {
  return Writer(check).text();
}

}  // namespace kerfdraft::cli
