// Subjects and choices as plain structs; choices that are rows of another table.
#include "catalogue/policies.h"

#include <fmt/format.h>

#include <algorithm>

#include "catalogue/near_keys.h"

namespace kerfdraft::catalogue {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

const Table& tableOf(const Catalogue& catalogue, std::string_view name) {
  const Result<const Table*> table = catalogue.table(name);
  base::check(table.has_value(), "a table of policies is missing");
  return **table;
}

PolicySubject subjectOf(const RowView& row) {
  return {row.key(), row.name(), row.text("choices_of"), row.origin()};
}

PolicyChoice choiceOf(const RowView& row) {
  PolicyChoice choice{.subject = row.text("subject"),
                      .choice = row.text("choice"),
                      .name = row.name(),
                      .usual = row.yes("usual"),
                      .size_m = row.maybe("size"),
                      .share = row.maybe("moisture"),
                      .pressure_pa = row.maybe("pressure"),
                      .pressure_to_pa = row.maybe("pressure_to"),
                      .dust_kg_m3 = row.maybe("dust_mg_m3"),
                      .speed_m_s = row.maybe("speed"),
                      .flow_m3_s = row.maybe("flow"),
                      .origin = row.origin()};
  if (choice.dust_kg_m3) {
    *choice.dust_kg_m3 *= 1e-6;
  }
  return choice;
}

bool holds(const std::vector<PolicyChoice>& list, std::string_view choice) {
  return std::any_of(list.begin(), list.end(), [&](const PolicyChoice& c) { return c.choice == choice; });
}

}  // namespace

std::vector<PolicySubject> policySubjects(const Catalogue& catalogue) {
  const Table& table = tableOf(catalogue, "policy_subjects");
  std::vector<PolicySubject> list;
  for (const Row& row : table.rows()) {
    list.push_back(subjectOf(RowView(table, row)));
  }
  return list;
}

Result<PolicySubject> policySubject(const Catalogue& catalogue, std::string_view subject) {
  return RowView::find(catalogue, "policy_subjects", subject).map(subjectOf);
}

Result<std::vector<PolicyChoice>> policyChoices(const Catalogue& catalogue, std::string_view subject) {
  const Result<PolicySubject> known = policySubject(catalogue, subject);
  if (!known) {
    return Failure(known.error());
  }
  std::vector<PolicyChoice> list;
  const Table& own = tableOf(catalogue, "policies");
  for (const Row& r : own.rows()) {
    const RowView row(own, r);
    if (row.text("subject") == subject) {
      list.push_back(choiceOf(row));
    }
  }
  if (known->choices_of.empty()) {
    return list;
  }
  const Result<const Table*> others = catalogue.table(known->choices_of);
  if (!others) {
    return fail(others.error().code, others.error().message, known->origin.ref);
  }
  for (const Row& r : (*others)->rows()) {
    const RowView row(**others, r);
    if (!holds(list, row.key())) {
      PolicyChoice choice;
      choice.subject = known->key;
      choice.choice = row.key();
      choice.name = row.name();
      choice.origin = row.origin();
      list.push_back(std::move(choice));
    }
  }
  return list;
}

Result<PolicyChoice> policyChoice(const Catalogue& catalogue, std::string_view subject,
                                  std::string_view choice) {
  const Result<std::vector<PolicyChoice>> choices = policyChoices(catalogue, subject);
  if (!choices) {
    return Failure(choices.error());
  }
  std::vector<std::string> keys;
  for (const PolicyChoice& c : *choices) {
    if (choice.empty() ? c.usual : c.choice == choice) {
      return c;
    }
    keys.push_back(c.choice);
  }
  if (choice.empty()) {
    return fail(ErrorCode::Reference, fmt::format("no choice about \"{}\" is the usual one", subject),
                "policies");
  }
  return fail(ErrorCode::Reference, fmt::format("\"{}\" is no choice about \"{}\"{}", choice.substr(0, 60),
                                                subject, nearKeysSentence(choice, keys)));
}

}  // namespace kerfdraft::catalogue
