// Edit distance (with swapped neighbours) over lower-case text.
#include "catalogue/near_keys.h"

#include <algorithm>
#include <cctype>

namespace kerfdraft::catalogue {
namespace {

// Longer text than any key is never near one, and must not cost quadratic time.
constexpr std::size_t kLongest = 80;

std::string lowered(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) {
    last[j] = j;
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        now[j] = std::min(now[j], before[j - 2] + 1);
      }
    }
    before.swap(last);
    last.swap(now);
  }
  return last[b.size()];
}

}  // namespace

std::vector<std::string> nearKeys(std::string_view asked, const std::vector<std::string>& known,
                                  std::size_t most) {
  struct Candidate {
    std::size_t far;
    const std::string* key;
  };
  std::vector<Candidate> candidates;
  const std::string wanted = lowered(asked);
  if (wanted.empty() || wanted.size() > kLongest) {
    return {};
  }
  for (const std::string& key : known) {
    const std::string other = lowered(key);
    const std::size_t far = distance(wanted, other);
    const bool holds = wanted.size() >= 3 && other.find(wanted) != std::string::npos;
    const bool held = other.size() >= 3 && wanted.find(other) != std::string::npos;
    if (holds || held) {
      candidates.push_back({1, &key});
    } else if (far <= std::max<std::size_t>(1, wanted.size() / 3)) {
      candidates.push_back({far, &key});
    }
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.far < b.far; });
  std::vector<std::string> keys;
  for (const Candidate& c : candidates) {
    if (keys.size() == most) {
      break;
    }
    keys.push_back(*c.key);
  }
  return keys;
}

std::string nearKeysSentence(std::string_view asked, const std::vector<std::string>& known) {
  const std::vector<std::string> near = nearKeys(asked, known);
  if (!near.empty()) {
    std::string text = "; did you mean ";
    for (std::size_t i = 0; i < near.size(); ++i) {
      text += (i == 0 ? "" : " or ") + ('"' + near[i] + '"');
    }
    return text + "?";
  }
  if (known.empty()) {
    return "; there are none";
  }
  constexpr std::size_t kShown = 8;
  std::string text = "; there are: ";
  for (std::size_t i = 0; i < std::min(kShown, known.size()); ++i) {
    text += (i == 0 ? "" : ", ") + known[i];
  }
  if (known.size() > kShown) {
    text += " … (" + std::to_string(known.size()) + " in all)";
  }
  return text;
}

}  // namespace kerfdraft::catalogue
