// Subjects on which published rules disagree, and the choices that a project can make.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

struct PolicySubject {
  std::string key;         ///< "transport-velocity"
  std::string name;        ///< the disagreement in words
  std::string choices_of;  ///< table whose keys are choices too: "authorities"; may be empty
  Origin origin;
};

/// One side of it. The numbers that are given depend on the subject.
struct PolicyChoice {
  std::string subject;
  std::string choice;
  std::string name;                   ///< what it says, in words
  bool usual = false;                 ///< taken where the project chooses nothing
  std::optional<double> size_m;       ///< of a fibre or particle
  std::optional<double> share;        ///< moisture
  std::optional<double> pressure_pa;  ///< magnitude
  std::optional<double> pressure_to_pa;
  std::optional<double> dust_kg_m3;
  std::optional<double> speed_m_s;
  std::optional<double> flow_m3_s;
  Origin origin;
};

std::vector<PolicySubject> policySubjects(const Catalogue& catalogue);
base::Result<PolicySubject> policySubject(const Catalogue& catalogue, std::string_view subject);

/// Its own choices, then those that it takes from another table. An unknown subject is an error.
base::Result<std::vector<PolicyChoice>> policyChoices(const Catalogue& catalogue, std::string_view subject);

/// The choice of this key; an empty key: the usual one. An unknown subject or choice is an error that offers
/// near ones. What a project chose: pieces/choices.h.
base::Result<PolicyChoice> policyChoice(const Catalogue& catalogue, std::string_view subject,
                                        std::string_view choice);

}  // namespace kerfdraft::catalogue
