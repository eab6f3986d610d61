// Which keys a person may have meant.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace kerfdraft::catalogue {

/// At most `most` of `known`, nearest first: those that contain the asked text or differ from it in few
/// letters. Ties keep the given order.
std::vector<std::string> nearKeys(std::string_view asked, const std::vector<std::string>& known,
                                  std::size_t most = 3);

/// "; did you mean \"spiral\" or \"steel\"?", or a list of some known keys where none is near.
std::string nearKeysSentence(std::string_view asked, const std::vector<std::string>& known);

}  // namespace kerfdraft::catalogue
