// What the program tells its caller in one number; the same for every sub-command.
#pragma once

namespace kerfdraft::cli {

inline constexpr int kAllServed = 0;
inline constexpr int kNotServed = 1;  ///< solved, and something does not get what it needs
inline constexpr int kBadInput = 2;
inline constexpr int kNoSolution = 3;
inline constexpr int kBug = 70;  ///< an InternalError reached main

}  // namespace kerfdraft::cli
