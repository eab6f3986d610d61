// The one way from findings to sentences.
#include "judge/speech.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "judge/remedy_words.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// A change of a number by less than this share is called hardly any (ours: less than what a gauge shows).
constexpr double kHardlyAny = 0.02;

/// "Too little air" inside a sentence: "too little air"; "CO in the room" stays.
std::string inside(std::string_view name) {
  std::string out(name);
  if (out.size() > 1 && std::isupper(static_cast<unsigned char>(out[1])) == 0) {
    out[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(out[0])));
  }
  return out;
}

std::string title(const Finding& finding, const Rule& rule) {
  std::string out = finding.label.empty() ? std::string(rule.name)
                                          : fmt::format("{}: {}", finding.label, inside(rule.name));
  if (!finding.state_name.empty()) {
    out += fmt::format(" ({})", finding.state_name);
  }
  return out;
}

/// The owner reads no sources; the sentence of the rule tells what is needed.
std::string limit(const Finding& finding, const Voice& voice) {
  if (!finding.limit || voice.reader() == Reader::Owner) {
    return {};
  }
  const Limit& held = *finding.limit;
  const std::string value = !held.words.empty() ? held.words
                            : held.kind == base::Kind::Ratio && std::abs(held.value) <= 1
                                ? voice.percent(held.value)
                                : voice.show(held.value, held.kind);
  std::string out =
      held.source.empty()
          ? fmt::format("Held against {} ({}).", value, base::toText(held.status))
          : fmt::format("Held against {}: {} ({}).", value, held.source, base::toText(held.status));
  if (!held.policy.empty()) {
    std::string used = held.policy;
    std::replace(used.begin(), used.end(), '-', ' ');
    out += fmt::format(" Published rules disagree here; used: {}.", used);
  }
  return oneStop(out);
}

std::string gained(const Gain& gain, const Voice& voice) {
  const std::string before = voice.show(gain.before, gain.kind);
  const std::string after = voice.show(gain.after, gain.kind);
  const std::string where = gain.at.empty() ? "" : " at " + gain.at;
  const double change = gain.after - gain.before;
  if (gain.cures) {
    return fmt::format("from {} to {}{}, which settles it", before, after, where);
  }
  if (std::abs(change) < kHardlyAny * std::max(std::abs(gain.before), std::abs(gain.after))) {
    return fmt::format("alone it hardly changes the {}{}", after, where);
  }
  return fmt::format("from {} to {}{}, which alone does not settle it", before, after, where);
}

std::string priced(const PriceBand& price) {
  if (price.high_usd <= 0) {
    return "costs nothing";
  }
  // Two digits: a recalled price deserves no more.
  const auto rounded = [](double usd) {
    const double step = usd < 100 ? 5 : (usd < 1000 ? 10 : 100);
    return std::max(1.0, step * std::round(usd / step));
  };
  return fmt::format("about {:.0f} to {:.0f} USD of material (a recalled estimate)", rounded(price.low_usd),
                     rounded(price.high_usd));
}

}  // namespace

std::string sayRemedy(const Remedy& remedy, const Voice& voice) {
  const RemedyWords* words = findRemedyWords(remedy.kind);
  if (words == nullptr) {
    throw base::InternalError("remedy " + remedy.kind + " has no sentence in judge/remedy_words.cpp");
  }
  std::string out = fillTemplate(words->text, remedy, voice);
  const char* joint = ": ";
  if (remedy.gain) {
    out += joint + gained(*remedy.gain, voice);
    joint = "; ";
  }
  if (remedy.price) {
    out += joint + priced(*remedy.price);
  }
  return oneStop(out + ".");
}

Said say(const Finding& finding, const Voice& voice) {
  const Rule* rule = findRule(finding.rule);
  if (rule == nullptr) {
    throw base::InternalError("there is no rule " + finding.rule);
  }
  Said said;
  said.title = title(finding, *rule);
  said.what = oneStop(rule->tell(finding, voice));
  said.limit = limit(finding, voice);
  for (const Remedy& remedy : finding.remedies) {
    said.remedies.push_back(sayRemedy(remedy, voice));
  }
  if (finding.defers) {
    said.defer =
        "Ask the local authority or a licensed trade before relying on this: what binds here is theirs "
        "to say.";
  }
  return said;
}

}  // namespace kerfdraft::judge
